//! Parts, what holds them and cautions over the link: every page of every pipe is what the core says.

use springline_core::image::Image;
use springline_core::joint::{Form, Owner, Task};
use springline_core::link::{
    HELD_PAGE, HeldAsked, HeldSaid, Link, MAX_FRAME, NoPipe, PARTS_PAGE, PartsSaid, PipeAsked,
    Receiver, Reply, Request, Response, Room,
};
use springline_tables::IMAGE;
use springline_tests::parts::{Answers, ask_held, ask_parts, held, parts, pipes};

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// A device that knows parts, behind both ends of a link.
struct Device {
    image: Image<'static>,
    link: Link,
}

impl Answers for Device {
    fn ask<T>(&mut self, request: &Request, take: impl FnOnce(Response<'_>) -> T) -> T {
        let mut buffer = [0; MAX_FRAME];
        let frame = request.write(9, &mut buffer).expect("room for any frame");
        let calls: Vec<_> = frame
            .iter()
            .filter_map(|byte| self.link.push(*byte))
            .collect();
        let [call] = &calls[..] else {
            panic!("{} calls", calls.len())
        };
        let mut room = Room::new();
        let said = match call.asked.expect("a request") {
            Request::Parts(asked) => Response::Parts(PartsSaid::of(&self.image, &asked, &mut room)),
            Request::Held(asked) => Response::Held(HeldSaid::of(&self.image, &asked, &mut room)),
            other => panic!("{other:?}"),
        };
        let mut buffer = [0; MAX_FRAME];
        let frame = said
            .write(call.sequence, &mut buffer)
            .expect("room for any frame");
        let mut receiver = Receiver::new();
        for byte in frame {
            if let Some(payload) = receiver.push(*byte) {
                let reply = Reply::read(payload.expect("a whole frame")).expect("a response");
                assert_eq!(reply.sequence, 9);
                return take(reply.said);
            }
        }
        panic!("no response")
    }
}

fn device() -> Device {
    Device {
        image: image(),
        link: Link::new(),
    }
}

#[test]
fn every_page_says_what_the_core_says() {
    let (image, mut device) = (image(), device());
    let all = pipes(&image);
    assert!(all.len() > 250, "{}", all.len());
    let (mut pages, mut refused) = (0, 0);
    for (asked, pipe) in &all {
        for task in core::iter::once(None).chain(Task::ALL.iter().copied().map(Some)) {
            let wanted = parts(&image, *asked, pipe, task);
            assert_eq!(ask_parts(&mut device, *asked, task), Ok(wanted.clone()));
            pages += wanted.1.len().div_ceil(PARTS_PAGE);
            refused += usize::from(wanted.0.is_some());
        }
        let every = (0u8..).take(image.parts().len()).step_by(7).map(Some);
        for part in core::iter::once(None).chain(every) {
            let wanted = held(&image, *asked, pipe, part);
            assert_eq!(ask_held(&mut device, *asked, part), Ok(wanted));
        }
    }
    assert!(pages > 2000 && refused > 100, "{pages} and {refused}");
}

/// Pages of what holds begin anywhere: what was told before is left out.
#[test]
fn a_page_begins_where_it_is_asked_to() {
    let image = image();
    let (asked, pipe) = pipes(&image)
        .into_iter()
        .find(|(asked, pipe)| held(&image, *asked, pipe, None).len() > HELD_PAGE)
        .expect("a pipe with much to say of");
    let all = held(&image, asked, &pipe, None);
    for from in 0..=u8::try_from(all.len()).expect("few") + 1 {
        let mut room = Room::new();
        let asked = HeldAsked {
            pipe: asked,
            part: None,
            from,
        };
        let said = HeldSaid::of(&image, &asked, &mut room).expect("a page");
        let rest = all.get(usize::from(from)..).unwrap_or(&[]);
        let told: Vec<_> = said.held.iter().collect();
        assert_eq!(told, rest[..rest.len().min(HELD_PAGE)]);
        assert_eq!(said.next.is_some(), rest.len() > HELD_PAGE);
    }
}

#[test]
fn what_there_is_not_is_told() {
    let (image, mut device) = (image(), device());
    let key = |at: u8| image.packed_text(image.family(at).key);
    let family = (0..=255).find(|at| key(*at) == "c900").expect("C900");
    let size = |text: &str| {
        (0..=255)
            .find(|at| image.size(*at) == text)
            .expect("a size")
    };
    let pipe = PipeAsked {
        family,
        size: size("6"),
        class: None,
        form: Form::PlainSquare,
        owner: Owner::Unknown,
    };
    assert!(ask_parts(&mut device, pipe, None).is_ok());
    let none = PipeAsked { size: 255, ..pipe };
    assert_eq!(ask_parts(&mut device, none, None), Err(NoPipe::Size));
    let none = PipeAsked {
        family: 255,
        ..pipe
    };
    assert_eq!(ask_held(&mut device, none, None), Err(NoPipe::Size));
    // The first label is that of no class.
    let none = PipeAsked {
        class: Some(0),
        ..pipe
    };
    assert_eq!(ask_parts(&mut device, none, None), Err(NoPipe::Class));
    let count = u8::try_from(image.parts().len()).expect("few");
    assert!(ask_held(&mut device, pipe, Some(count - 1)).is_ok());
    for part in [count, 255] {
        assert_eq!(ask_held(&mut device, pipe, Some(part)), Err(NoPipe::Part));
    }
    // Old cast iron has several diameters of one size.
    let rows: Vec<_> = image.rows_from(0).collect();
    let several = rows.iter().find(|row| {
        let alike = |other: &&springline_core::image::Row| {
            (other.family, other.size) == (row.family, row.size)
        };
        rows.iter().filter(alike).count() > 1
    });
    let row = several.expect("a size of several diameters");
    let several = PipeAsked {
        family: row.family,
        size: row.size,
        ..pipe
    };
    assert_eq!(ask_parts(&mut device, several, None), Err(NoPipe::Several));
}
