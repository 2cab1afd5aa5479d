//! What a host is told over the link.

mod common;

use common::Desk;
use springline_core::identify::{Answer, identify};
use springline_core::image::Image;
use springline_core::joint::{Form, Job, Owner};
use springline_core::link::{
    MAX_FRAME, NotSet, NumbersAsked, NumbersSaid, PANEL, Part, PipeAsked, Receiver, Refusal, Reply,
    Request, Response, Setting, VERSION, frame,
};
use springline_core::numbers::{About, Fixture, NoNumbers, SiteTold, page};
use springline_core::reading::{Query, Reading};
use springline_core::{Length, Unit};
use springline_firmware::app::{Input, Screen};
use springline_firmware::board::Key;
use springline_tables::IMAGE;

/// Asks, and hands on what is said.
fn ask<T>(
    desk: &mut Desk,
    sequence: u8,
    request: &Request,
    take: impl FnOnce(Response<'_>) -> T,
) -> T {
    let mut buffer = [0; MAX_FRAME];
    let frame = request.write(sequence, &mut buffer).expect("room for any");
    said(desk, frame, sequence, take)
}

fn said<T>(desk: &mut Desk, bytes: &[u8], sequence: u8, take: impl FnOnce(Response<'_>) -> T) -> T {
    desk.sent.clear();
    for byte in bytes {
        desk.app.take(Input::Host(*byte));
        desk.settle();
    }
    let mut receiver = Receiver::new();
    for byte in desk.sent.clone() {
        if let Some(got) = receiver.push(byte) {
            let payload = got.expect("a whole frame");
            let reply = Reply::read(payload).expect("a response");
            assert_eq!(reply.sequence, sequence);
            return take(reply.said);
        }
    }
    panic!("nothing was said");
}

fn query(mils: i32, job: Job) -> Query {
    let mut query = Query::new();
    query.job = job;
    let value = Length::from_mils(mils).expect("a length");
    let reading = Reading::Diameter {
        value,
        clock: None,
        jaw: None,
        sigma: None,
    };
    query.add(reading).expect("room for one");
    query
}

#[test]
fn a_device_says_who_it_is() {
    let mut desk = Desk::new();
    ask(&mut desk, 9, &Request::Hello, |said| {
        let Response::Hello(hello) = said else {
            panic!("{said:?}")
        };
        assert_eq!((hello.protocol, hello.model.as_str()), (VERSION, "desk"));
        assert_eq!((hello.counter, hello.digest), (1, [7; 32]));
    });
}

#[test]
fn answers_are_those_of_the_desk_bit_for_bit() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut desk = Desk::new();
    for (at, mils) in (400..60_000).step_by(487).enumerate() {
        let query = query(mils, Job::ALL[at % Job::ALL.len()]);
        let here = identify(&image, &query);
        let there: Result<Answer, _> =
            ask(&mut desk, 1, &Request::Identify(query), |said| match said {
                Response::Identify(said) => said,
                other => panic!("{other:?}"),
            });
        assert_eq!(here, there, "{mils}");
    }
    assert_eq!(
        desk.app.screen(),
        Screen::Start,
        "a host's question is not the panel's"
    );
}

/// The picture by its pieces, and whether all are of one frame.
fn picture(desk: &mut Desk) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut values = Vec::new();
    for part in Part::all() {
        ask(desk, 3, &Request::Screen(Some(part)), |said| {
            let Response::Screen(screen) = said else {
                panic!("{said:?}")
            };
            values.push(screen.crc);
            bytes.extend_from_slice(screen.piece.expect("a piece").bytes);
        });
    }
    assert_eq!(bytes.len(), PANEL);
    assert!(values.iter().all(|value| *value == values[0]));
    bytes
}

#[test]
fn the_picture_is_what_the_panel_shows() {
    let mut desk = Desk::new().gauge("6.9043in\r\n");
    for keys in [&[][..], &[Key::Down], &[Key::Left, Key::Set]] {
        desk.press(keys);
        assert_eq!(picture(&mut desk), desk.shown.bytes());
    }
}

/// A host that asks before the panel was served must not keep the picture from it.
#[test]
fn a_picture_that_a_host_has_drawn_is_shown_too() {
    let mut desk = Desk::new();
    let before = desk.shown.clone();
    desk.app.take(Input::Key(Key::Set));
    let mut buffer = [0; MAX_FRAME];
    for byte in Request::Screen(None).write(8, &mut buffer).expect("room") {
        desk.app.take(Input::Host(*byte));
    }
    desk.settle();
    assert!(desk.shown != before, "the settings");
    assert_eq!(picture(&mut desk), desk.shown.bytes());
}

#[test]
fn settings_are_changed_or_refused() {
    let mut desk = Desk::new();
    let set = |desk: &mut Desk, setting| {
        ask(desk, 2, &Request::Set(setting), |said| match said {
            Response::Set(done) => done,
            other => panic!("{other:?}"),
        })
    };
    assert_eq!(set(&mut desk, Setting::JawDepth(None)), Ok(()));
    assert_eq!(set(&mut desk, Setting::Unit(Unit::Millimetre)), Ok(()));
    let absurd = Setting::JawDepth(Some(Length::from_counts(-1)));
    assert_eq!(set(&mut desk, absurd), Err(NotSet::OutOfRange));
    let settings = *desk.app.settings();
    assert_eq!((settings.jaws, settings.unit), (None, Unit::Millimetre));
}

#[test]
fn a_site_is_told_by_a_host_and_numbers_are_asked_of_any() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut desk = Desk::new();
    let site = SiteTold {
        psi: Some(150),
        cover: Some(36),
        ..SiteTold::NOTHING
    };
    ask(&mut desk, 2, &Request::Set(Setting::Told(site)), |said| {
        assert_eq!(said, Response::Set(Ok(())));
    });
    assert_eq!(desk.app.settings().told, site);
    let row = image.rows_from(0).find(|row| {
        image.packed_text(image.family(row.family).key) == "c900" && image.size(row.size) == "6"
    });
    let row = row.expect("C900 of 6 in");
    let pipe = PipeAsked {
        family: row.family,
        size: row.size,
        class: None,
        form: Form::PlainSquare,
        owner: Owner::Unknown,
    };
    let mut asked = NumbersAsked {
        pipe,
        about: About::Hold(Fixture::Quarter),
        site,
    };
    let known = pipe.find(&image).expect("one");
    let here = page(&image, &known, None, asked.about, &site).expect("numbers");
    let mut numbers = |asked, take: &dyn Fn(NumbersSaid<'_>)| {
        ask(&mut desk, 3, &Request::Numbers(asked), |said| match said {
            Response::Numbers(Ok(said)) => take(said),
            other => panic!("{other:?}"),
        });
    };
    numbers(asked, &|said| {
        assert!(said.figures.iter().eq(here.all().iter().copied()));
        assert_eq!((said.refused, said.why), (None, None));
    });
    // What the device was told before does not count.
    asked.site = SiteTold::NOTHING;
    numbers(asked, &|said| {
        assert_eq!(said.why, Some(NoNumbers::Pressure));
        assert_eq!(said.figures.iter().count(), 0);
    });
    // Asbestos-cement: the row that refuses it, and nothing else.
    let cement = image.rows_from(0).find(|row| {
        image.family(row.family).material == springline_core::image::Material::Cement as u8
    });
    let cement = cement.expect("asbestos-cement");
    asked.site = site;
    (asked.pipe.family, asked.pipe.size) = (cement.family, cement.size);
    asked.pipe.class = image.classes(&cement).next().map(|class| class.label);
    numbers(asked, &|said| {
        assert!(said.refused.is_some());
        assert_eq!((said.figures.iter().count(), said.why), (0, None));
    });
}

#[test]
fn the_last_answers_are_kept() {
    let mut desk = Desk::new();
    desk.press(&[
        Key::Set,
        Key::Down,
        Key::Right,
        Key::Right,
        Key::Right,
        Key::Right,
        Key::Right,
        Key::Right,
        Key::Set,
    ]);
    for at in 0..11 {
        desk = desk.gauge(&format!("{}.625in\r\n", at + 2));
    }
    let entry = |desk: &mut Desk, index| {
        ask(desk, 4, &Request::Log(index), |said| match said {
            Response::Log(entry) => entry,
            other => panic!("{other:?}"),
        })
    };
    for (index, inches) in [(0, 12), (7, 5)] {
        let entry = entry(&mut desk, index).expect("one of the last eight");
        assert_eq!(entry.count, 11 - u32::from(index));
        assert_eq!(
            entry.answer.od,
            Length::from_mils(inches * 1000 + 625).expect("a length")
        );
    }
    assert_eq!(entry(&mut desk, 8), None);
}

#[test]
fn what_is_not_understood_is_said_and_noise_is_not_answered() {
    let mut desk = Desk::new();
    let mut buffer = [0; MAX_FRAME];
    let hello = Request::Hello.write(5, &mut buffer).expect("room").to_vec();
    let mut broken = hello.clone();
    broken[4] ^= 0x40;
    desk.sent.clear();
    for byte in broken.iter().chain(b"garbage") {
        desk.app.take(Input::Host(*byte));
        desk.settle();
    }
    assert!(desk.sent.is_empty());
    said(&mut desk, &[&[0], &hello[..]].concat(), 5, |said| {
        assert!(matches!(said, Response::Hello(_)));
    });
    let unknown = frame(&[VERSION, 6, 99], &mut buffer).expect("room");
    said(&mut desk, unknown, 6, |said| {
        assert_eq!(said, Response::Refused(Refusal::Unknown { number: 99 }));
    });
}
