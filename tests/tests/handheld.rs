//! The handheld on the emulated board, end to end. `tests/run` builds its program and runs these; by hand:
//! `cargo handheld && cargo test -p springline-tests --test handheld -- --ignored`.

use std::path::Path;
use std::thread;
use std::time::Duration;

use springline_core::Length;
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::joint::{Form, Owner, Task, refusal};
use springline_core::link::{NoPipe, NumbersAsked, Part, PipeAsked, Request, Response, Setting};
use springline_core::numbers::{About, SiteTold, page};
use springline_core::reading::{Query, Reading};
use springline_tables::{DIGEST, IMAGE, NAME};
use springline_tests::handheld::{Handheld, Picture, picture};
use springline_tests::numbers::{Draws, Page, apart};
use springline_tests::parts::{ask_held, ask_parts, held, parts, pipes};

fn golden(name: &str) -> Picture {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../firmware/tests/screens");
    picture(&folder.join(format!("{name}.png")))
}

fn query(mils: i32) -> Query {
    let mut query = Query::new();
    let reading = Reading::Diameter {
        value: Length::from_mils(mils).expect("a length"),
        clock: None,
        jaw: None,
        sigma: None,
    };
    query.add(reading).expect("room for one");
    query
}

/// Sets jaws that reach any pipe.
fn reach(handheld: &mut Handheld) {
    handheld.ask(&Request::Set(Setting::JawDepth(None)), |said| {
        assert_eq!(said, Response::Set(Ok(())));
    });
}

/// Every 0.001 in from 0.4 to 66 in: 65,601 readings, the board's answer that of this machine to the last bit.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn the_board_answers_as_the_desk_does() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut handheld = Handheld::boot();
    handheld.ask(&Request::Hello, |said| {
        let Response::Hello(hello) = said else {
            panic!("{said:?}")
        };
        assert_eq!((hello.digest, hello.data_set.as_str()), (DIGEST, NAME));
    });
    let mut answers = 0;
    for mils in 400..=66_000 {
        let query = query(mils);
        let here = identify(&image, &query);
        let there = handheld.ask(&Request::Identify(query), |said| match said {
            Response::Identify(said) => said,
            other => panic!("{other:?}"),
        });
        assert_eq!(here, there, "{mils} thousandths");
        answers += 1;
    }
    assert_eq!(answers, 65_601);
}

/// The parts of every pipe by pages, and what holds some of them with their cautions, as the core says on this machine.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn the_board_knows_parts_as_the_desk_does() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut handheld = Handheld::boot();
    let (mut said, mut refused) = (0, 0);
    for (at, (asked, pipe)) in pipes(&image).into_iter().enumerate() {
        // All parts of one pipe in six, of the others those for a task.
        let task = u8::try_from(at % 7).ok().and_then(Task::from_code);
        let wanted = parts(&image, asked, &pipe, task);
        said += wanted.1.len();
        refused += usize::from(wanted.0.is_some());
        assert_eq!(
            ask_parts(&mut handheld, asked, task),
            Ok(wanted),
            "{asked:?}"
        );
        let part = u8::try_from(at % (image.parts().len() + 1)).ok();
        let part = part.filter(|part| usize::from(*part) < image.parts().len());
        let wanted = held(&image, asked, &pipe, part);
        assert_eq!(
            ask_held(&mut handheld, asked, part),
            Ok(wanted),
            "{asked:?}"
        );
    }
    assert!(said > 3000 && refused > 10, "{said} and {refused}");
    let none = PipeAsked {
        family: 255,
        size: 0,
        class: None,
        form: Form::PlainSquare,
        owner: Owner::Unknown,
    };
    assert_eq!(ask_parts(&mut handheld, none, None), Err(NoPipe::Size));
}

/// Numbers of drawn pipes and sites through the link, against those of this machine: 10,000 pages, most of them of thrust. Both work
/// in f64 by the same functions, on the board without hardware for it; a figure may differ by 1e-12 of itself.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn the_board_has_the_numbers_of_the_desk() {
    const TOLERANCE: f64 = 1e-12;
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut handheld = Handheld::boot();
    let mut draws = Draws::new(26);
    let (mut pages, mut lengths, mut figures, mut most) = (0, 0, 0, 0.0_f64);
    while pages < 10_000 {
        let (pipe, known) = draws.pipe(&image);
        let (about, site) = (draws.about(), draws.site(&image));
        let here: Page = match refusal(&image, &known) {
            Some(sealing) => (Some(sealing.row), Vec::new(), None),
            None => match page(&image, &known, pipe.class, about, &site) {
                Ok(figures) => (None, figures.all().to_vec(), None),
                Err(why) => (None, Vec::new(), Some(why)),
            },
        };
        let asked = NumbersAsked { pipe, about, site };
        let there = handheld.ask(&Request::Numbers(asked), |said| match said {
            Response::Numbers(Ok(said)) => (
                said.refused,
                said.figures.iter().collect::<Vec<_>>(),
                said.why,
            ),
            other => panic!("{other:?}"),
        });
        let apart =
            apart(&here, &there).unwrap_or_else(|| panic!("{asked:?}: {here:?}, {there:?}"));
        assert!(apart <= TOLERANCE, "{asked:?}: {here:?}, {there:?}");
        most = most.max(apart);
        pages += 1;
        figures += here.1.len();
        lengths += usize::from(matches!(about, About::Hold(_)) && !here.1.is_empty());
    }
    println!(
        "{pages} pages, {lengths} of thrust with lengths, {figures} figures: at most {most:e} apart"
    );
    assert!(lengths > 3000, "{lengths}");
}

/// From a settled pipe to the parts for a repair, to one of them, to what could hurt, and back to what holds it.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn a_user_finds_a_part() {
    let mut handheld = Handheld::boot();
    reach(&mut handheld);
    handheld.gauge(b"4.800in\r\n");
    handheld.shows(&golden("answer-480"), "the answer");
    // The check to make next stands there once it was looked for.
    thread::sleep(Duration::from_millis(300));
    // A magnet holds, and it looks like iron: one of two.
    for (keys, name) in [
        (
            &["ctrl", "ctrl", "ctrl", "down", "ctrl"][..],
            "answer-several",
        ),
        (&["right"], "menu-several"),
        (&["right"], "list-several"),
        (&["right"], "part-several"),
        (&["left", "left", "up", "up", "right"], "holds-several"),
    ] {
        for key in keys {
            handheld.press(key);
            thread::sleep(Duration::from_millis(200));
        }
        handheld.shows(&golden(name), name);
    }
}

/// What a host tells of a trench, and from the answer to thrust and to how far it turns.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn a_user_finds_numbers() {
    let mut handheld = Handheld::boot();
    reach(&mut handheld);
    let told = SiteTold {
        psi: Some(150),
        cover: Some(36),
        stick: Some(240),
        fahrenheit: Some(70),
        ..SiteTold::NOTHING
    };
    handheld.ask(&Request::Set(Setting::Told(told)), |said| {
        assert_eq!(said, Response::Set(Ok(())));
    });
    handheld.gauge(b"4.800in\r\n");
    handheld.shows(&golden("answer-480"), "the answer");
    thread::sleep(Duration::from_millis(300));
    let answer = ["ctrl", "ctrl", "ctrl", "down", "ctrl"];
    for (keys, name) in [
        (&answer[..], "answer-several"),
        (&["right"], "menu-several"),
        (
            &["down", "down", "down", "down", "down", "down", "right"],
            "thrust-several",
        ),
        (&["left", "down", "down", "right", "right"], "turns-several"),
    ] {
        for key in keys {
            press(&mut handheld, key);
        }
        handheld.shows(&golden(name), name);
    }
}

/// Presses a button and waits until the panel shows something else.
fn press(handheld: &mut Handheld, key: &str) {
    let shown = |handheld: &mut Handheld| {
        handheld.ask(&Request::Screen(None), |said| match said {
            Response::Screen(screen) => screen.crc,
            other => panic!("{other:?}"),
        })
    };
    let before = shown(handheld);
    handheld.press(key);
    for _ in 0..100 {
        if shown(handheld) != before {
            // The button is at rest again before the next is pressed.
            return thread::sleep(Duration::from_millis(100));
        }
        thread::sleep(Duration::from_millis(50));
    }
    panic!("{key} changed nothing");
}

/// A user's way through it: jaws too short, jaws that reach, what else it could be, the check, a stop, what fits.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn a_user_finds_what_the_pictures_show() {
    let mut handheld = Handheld::boot();
    handheld.shows(&golden("start"), "the start");
    handheld.gauge(b" 6.9043in\r\n");
    handheld.shows(&golden("answer-690-short-jaws"), "a chord");
    reach(&mut handheld);
    handheld.gauge(b" 6.9043in\r\n");
    handheld.shows(&golden("answer-690"), "the answer");
    for (keys, name) in [
        (&["down"][..], "others"),
        (&["down"], "others-2"),
        (&["left", "right"], "nothing"),
        (&["left", "ctrl"], "ask-magnet"),
        (&["down", "ctrl"], "stop-cement"),
        (&["ctrl"], "ask-material"),
        (&["ctrl"], "after-plastic"),
    ] {
        for key in keys {
            handheld.press(key);
        }
        handheld.shows(&golden(name), name);
    }
    // A reading in the middle of it is a new pipe.
    handheld.press("ctrl");
    handheld.gauge(b"6.9043in\r\n");
    handheld.shows(&golden("answer-690"), "the answer again");
    handheld.gauge(b"5.200in\r\n");
    handheld.shows(&golden("outside"), "a reading of no pipe");
    handheld.gauge(b"0.001in\r\n");
    handheld.shows(&golden("too-small"), "a reading too small");
}

/// What the panel asks to be read again is of the same pipe: across the first diameter, and a foot along.
#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn what_is_asked_to_be_read_again_is_of_the_same_pipe() {
    let mut handheld = Handheld::boot();
    reach(&mut handheld);
    for (first, asks, second, then) in [
        (
            &b"12.600in\r\n"[..],
            "cross",
            &b"11.880in\r\n"[..],
            "crossed",
        ),
        (b"7.600in\r\n", "along", b"6.900in\r\n", "read-along"),
    ] {
        handheld.gauge(first);
        // The check to make next stands there once it was looked for.
        thread::sleep(Duration::from_millis(300));
        handheld.press("ctrl");
        handheld.shows(&golden(asks), asks);
        handheld.gauge(second);
        handheld.shows(&golden(then), then);
    }
}

#[test]
#[ignore = "needs the emulator; tests/run runs it"]
fn garbage_and_a_pulled_plug_change_nothing() {
    let mut handheld = Handheld::boot();
    reach(&mut handheld);
    handheld.gauge(b"6.9043in\r\n");
    let answer = golden("answer-690");
    handheld.shows(&answer, "the answer");
    let noise: Vec<u8> = (0..2000u32)
        .map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8)
        .collect();
    handheld.gauge(&noise);
    handheld.gauge(b"\r\n");
    handheld.noise(&noise);
    handheld.noise(&[0, 0]);
    handheld.replug();
    handheld.gauge(b"\r\n6.90");
    handheld.replug();
    // The torn head must not join what comes after a pause.
    thread::sleep(Duration::from_millis(300));
    handheld.gauge(b"6.9043in\r\n");
    handheld.shows(&answer, "the answer after noise");
    // What the host is told of the panel is what stands on it.
    let mut told: Picture = Vec::new();
    for part in Part::all() {
        handheld.ask(&Request::Screen(Some(part)), |said| {
            let Response::Screen(screen) = said else {
                panic!("{said:?}")
            };
            let bytes = screen.piece.expect("a piece").bytes;
            let bits = bytes
                .iter()
                .flat_map(|byte| (0..8).map(move |bit| byte >> (7 - bit) & 1 == 1));
            told.extend(bits);
        });
    }
    assert!(told == answer);
}
