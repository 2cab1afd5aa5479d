//! The largest of each message, against the sizes that are promised.

use super::super::*;
use super::{list, payload, request, response};
use crate::clue::{ClueName, Plans, Told};
use crate::identify::{Answer, Hazards, MAX_CANDIDATES, OutOfRound, Weight};
use crate::image::layout::MAX_CLUES;
use crate::joint::{Form, Owner, Task};
use crate::length::Length;
use crate::numbers::{About, Figures, NoNumbers, SiteTold};
use crate::print::Line;
use crate::reading::{Clock, Query, Reading, ReadingError};

const LONGEST: Length = Length::from_counts(i32::MIN);

pub(super) fn query() -> Query {
    let mut query = Query::new();
    query.temperature = Some(i32::MIN);
    for _ in 0..Query::CAPACITY {
        let reading = Reading::Diameter {
            value: LONGEST,
            clock: Some(Clock::ACROSS),
            jaw: Some(LONGEST),
            sigma: Some(LONGEST),
        };
        query.add(reading).unwrap();
    }
    for clue in (0..).take(MAX_CLUES) {
        query.clues.tell(Told { clue, answer: 255 });
    }
    query.clues.plans = Some(Plans {
        family: 255,
        size: Some(255),
    });
    query.clues.print = Some(Line {
        standards: [u64::MAX; 2],
        materials: [u32::MAX; 2],
        bases: [u16::MAX; 2],
        sizes: [u16::MAX; 2],
        classes: [u16::MAX; 2],
        pressures: [u16::MAX; 2],
        contents: 255,
    });
    query
}

/// A full list whose every weight takes as many bytes as it can: of 26 weights that sum to 2^30 four hold the 2^28 that
/// take five bytes only when the others hold nothing, so that three do, and all others four.
pub(super) fn answer() -> Answer {
    let mut answer = Answer::new();
    answer.od = LONGEST;
    answer.sigma = LONGEST;
    answer.counted = 255;
    answer.hazards = Hazards {
        cement: Weight::ONE,
        gas: Weight::ONE,
    };
    answer.contradiction = Some(ClueName::Clue(255));
    answer.out_of_round = Some(OutOfRound {
        spread: LONGEST,
        share: u32::MAX,
    });
    let mut left = 1 << 30;
    let candidates = (0..=u16::MAX).take(MAX_CANDIDATES).map(|at| {
        let q30 = if at < 3 { 1 << 28 } else { 1 << 21 };
        left -= q30;
        (u16::MAX - at, q30)
    });
    list(&mut answer, candidates);
    answer.rest = Weight::from_q30(1 << 21);
    answer.outside = Weight::from_q30(left - (1 << 21));
    answer
}

#[test]
fn no_request_is_longer_than_promised() {
    let bytes = payload(&request(0, &Request::Identify(query())));
    assert_eq!(bytes.len(), MAX_REQUEST);
    assert!(matches!(
        Call::read(&bytes).asked,
        Ok(Request::Identify(again)) if again == query()
    ));
    let pipe = PipeAsked {
        family: 255,
        size: 255,
        class: Some(255),
        form: Form::Flanged,
        owner: Owner::Purveyor,
    };
    let site = SiteTold {
        psi: Some(SiteTold::MOST_PSI),
        cover: Some(SiteTold::MOST_INCHES),
        soil: Some(254),
        wet: true,
        open: true,
        stick: Some(SiteTold::MOST_INCHES),
        fahrenheit: Some(SiteTold::HOTTEST),
    };
    let about = About::Glue;
    let numbers = Request::Numbers(NumbersAsked { pipe, about, site });
    assert_eq!(payload(&request(0, &numbers)).len(), 21);
    for asked in [
        Request::Set(Setting::JawDepth(Some(LONGEST))),
        Request::Screen(Part::at(768)),
        Request::Parts(PartsAsked {
            pipe,
            task: Some(Task::Join),
            from: 255,
        }),
        Request::Held(HeldAsked {
            pipe,
            part: Some(255),
            from: 255,
        }),
    ] {
        assert!(payload(&request(0, &asked)).len() < 20);
    }
}

#[test]
fn no_response_is_longer_than_promised() {
    let text = Text::new("0123456789abcdef0123456789abcdef").unwrap();
    assert_eq!(text.as_str().len(), Text::MAX);
    assert_eq!(Text::new("0123456789abcdef0123456789abcdef0"), None);
    let hello = Hello {
        protocol: VERSION,
        model: text,
        serial: text,
        firmware: text,
        data_set: text,
        counter: u32::MAX,
        digest: [255; 32],
    };
    // A frame whose check value takes five bytes.
    let frame = [1; PANEL];
    let screen = Screen::of(&frame, Part::at(768));
    assert!(screen.crc >= 1 << 28);
    let entry = Entry {
        count: u32::MAX,
        answer: answer(),
    };
    let parts = PartsSaid {
        refused: Some(u16::MAX),
        parts: Records(&[[0; 6]; PARTS_PAGE]),
        next: Some(255),
    };
    let held = HeldSaid {
        refused: Some(u16::MAX),
        held: Records(&[[2, 255]; HELD_PAGE]),
        next: Some(255),
    };
    let numbers = NumbersSaid {
        refused: Some(u16::MAX),
        figures: Records(&[[255; 8]; Figures::MOST]),
        why: Some(NoNumbers::TooMuchPressure),
    };
    for (said, bytes) in [
        (Response::Numbers(Ok(numbers)), 83),
        (Response::Hello(hello), 173),
        (Response::Screen(screen), MAX_RESPONSE),
        (Response::Identify(Ok(answer())), 225),
        (Response::Identify(Err(ReadingError::RiseUnsure)), 5),
        (Response::Log(Some(entry)), 230),
        (Response::Parts(Ok(parts)), 204),
        (Response::Held(Ok(held)), 43),
    ] {
        let framed = response(255, &said);
        let payload = payload(&framed);
        assert_eq!(payload.len(), bytes, "{said:?}");
        assert!(payload.len() <= MAX_RESPONSE);
        assert!(framed.len() <= encoded(bytes));
        let reply = Reply::read(&payload).unwrap();
        assert_eq!((reply.sequence, reply.said), (255, said));
    }
}
