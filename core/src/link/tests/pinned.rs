//! Bytes of every message, spelled out: what stands here never changes under one version.

use super::super::*;
use super::{list, payload, request, response};
use crate::clue::{ClueName, Plans, Told};
use crate::identify::{Answer, Hazards, OutOfRound, Outcome, Weight};
use crate::image::layout::CRC;
use crate::joint::Job;
use crate::length::{Length, Unit};
use crate::print::Line;
use crate::reading::{Clock, Query, Reading, ReadingError, Site};

/// A request and a payload are one another's.
#[track_caller]
pub(super) fn asks(asked: Request, expected: &[u8]) {
    let bytes = [&[1, 77], expected].concat();
    assert_eq!(payload(&request(77, &asked)), bytes);
    let call = Call {
        sequence: 77,
        asked: Ok(asked),
    };
    assert_eq!(Call::read(&bytes), call);
}

/// A response and a payload are one another's.
#[track_caller]
pub(super) fn says(said: Response<'_>, expected: &[u8]) {
    let bytes = [&[1, 78], expected].concat();
    assert_eq!(payload(&response(78, &said)), bytes);
    assert_eq!(Reply::read(&bytes), Ok(Reply { sequence: 78, said }));
}

fn length(counts: i32) -> Length {
    Length::from_counts(counts)
}

/// A query with one reading, and how its bytes begin.
#[track_caller]
fn reads(reading: Reading, expected: &[u8]) {
    let mut query = Query::new();
    query.add(reading).unwrap();
    // Site unknown, buried, no temperature, no clues, no plans, no job, no print.
    let expected = [&[1, 1], expected, &[0, 1, 0, 0, 0, 0, 0]].concat();
    asks(Request::Identify(query), &expected);
}

#[test]
fn a_frame_is_spelled_out() {
    let frame = request(77, &Request::Hello);
    let [a, b, c, d] = CRC.checksum(&[1, 77, 0]).to_le_bytes();
    // What Python's zlib.crc32(bytes([1, 77, 0])) gives.
    assert_eq!([a, b, c, d], [0x6d, 0x82, 0x54, 0xbb]);
    assert_eq!(frame, [0, 3, 1, 77, 5, a, b, c, d, 0]);
}

#[test]
fn jobs() {
    for (job, code) in Job::ALL.iter().zip(0u8..) {
        let mut query = Query::new();
        query.job = *job;
        asks(Request::Identify(query), &[1, 0, 0, 1, 0, 0, 0, code, 0]);
    }
}

#[test]
fn small_requests() {
    asks(Request::Hello, &[0]);
    asks(Request::Screen(None), &[2, 0]);
    asks(Request::Screen(Part::at(0)), &[2, 1, 0]);
    asks(Request::Screen(Part::at(256)), &[2, 1, 0x80, 2]);
    asks(Request::Screen(Part::at(768)), &[2, 1, 0x80, 6]);
    asks(Request::Log(0), &[4, 0]);
    asks(Request::Log(255), &[4, 255]);
}

#[test]
fn settings() {
    asks(Request::Set(Setting::Unit(Unit::Inch)), &[3, 0, 0]);
    asks(Request::Set(Setting::Unit(Unit::Millimetre)), &[3, 0, 1]);
    asks(Request::Set(Setting::JawDepth(None)), &[3, 1, 0]);
    let depth = Setting::JawDepth(Some(length(-65)));
    asks(Request::Set(depth), &[3, 1, 1, 0x81, 1]);
    asks(Request::Set(Setting::Site(Site::Unknown)), &[3, 2, 0]);
    asks(Request::Set(Setting::Site(Site::Irrigation)), &[3, 2, 1]);
    asks(Request::Set(Setting::Site(Site::Municipal)), &[3, 2, 2]);
    asks(Request::Set(Setting::Buried(false)), &[3, 3, 0]);
    asks(Request::Set(Setting::Buried(true)), &[3, 3, 1]);
    asks(Request::Set(Setting::GaugeUnit(Unit::Inch)), &[3, 4, 0]);
    let gauge = Setting::GaugeUnit(Unit::Millimetre);
    asks(Request::Set(gauge), &[3, 4, 1]);
}

#[test]
fn readings() {
    // 1 is spelled 2, 2 is spelled 4: postcard's zigzag; 64 is spelled 80 01.
    let (one, two) = (length(1), Some(length(2)));
    reads(
        Reading::Diameter {
            value: one,
            clock: None,
            jaw: None,
            sigma: None,
        },
        &[0, 2, 0, 0, 0],
    );
    reads(
        Reading::Diameter {
            value: length(64),
            clock: Some(Clock::half_hours(11)),
            jaw: two,
            sigma: Some(one),
        },
        &[0, 0x80, 1, 1, 11, 1, 4, 1, 2],
    );
    let value = one;
    let sigma = two;
    reads(Reading::DiameterTape { value, sigma }, &[1, 2, 1, 4]);
    reads(Reading::Around { value, sigma }, &[2, 2, 1, 4]);
    reads(Reading::String { value, sigma }, &[3, 2, 1, 4]);
    let (chord, rise) = (length(3), length(-1));
    let sigma = None;
    reads(Reading::Chord { chord, rise, sigma }, &[4, 6, 1, 0]);
    reads(
        Reading::Along {
            value,
            clock: Some(Clock::ACROSS),
            jaw: two,
            sigma,
        },
        &[5, 2, 1, 12, 1, 4, 0],
    );
    reads(Reading::Wall { value, sigma: two }, &[6, 2, 1, 4]);
}

#[test]
fn what_else_a_query_holds() {
    let mut query = Query::new();
    query.site = Site::Municipal;
    query.buried = false;
    query.temperature = Some(-1);
    query.clues.tell(Told {
        clue: 15,
        answer: 200,
    });
    query.clues.tell(Told { clue: 3, answer: 9 });
    query.clues.plans = Some(Plans {
        family: 5,
        size: None,
    });
    let expected = [1, 0, 2, 0, 1, 1, 2, 3, 9, 15, 200, 1, 5, 0, 0, 0];
    asks(Request::Identify(query), &expected);
    query.site = Site::Irrigation;
    query.clues.plans = Some(Plans {
        family: 5,
        size: Some(130),
    });
    let expected = [1, 0, 1, 0, 1, 1, 2, 3, 9, 15, 200, 1, 5, 1, 130, 0, 0];
    asks(Request::Identify(query), &expected);
    let mut query = Query::new();
    query.clues.print = Some(Line {
        standards: [1, 128],
        materials: [2, 0],
        bases: [3, 0],
        sizes: [4, 0x0605],
        classes: [7, 0],
        pressures: [235, 150],
        contents: 17,
    });
    let line = [1, 128, 1, 2, 0, 3, 0, 4, 0x85, 12, 7, 0, 235, 1, 150, 1, 17];
    let expected = [&[1, 0, 0, 1, 0, 0, 0, 0, 1], &line[..]].concat();
    asks(Request::Identify(query), &expected);
}

#[test]
fn hello() {
    let text = |text| Text::new(text).unwrap();
    let mut digest = [0; 32];
    digest[0] = 0xd1;
    digest[31] = 0x9e;
    let said = Hello {
        protocol: 1,
        model: text("M"),
        serial: text("S7"),
        firmware: text("0.1"),
        data_set: text(""),
        counter: 300,
        digest,
    };
    let head = [
        0, 1, 1, b'M', 2, b'S', b'7', 3, b'0', b'.', b'1', 0, 0xac, 2,
    ];
    says(Response::Hello(said), &[&head[..], &digest].concat());
}

/// An answer that has everything, and its bytes.
fn answer() -> (Answer, Vec<u8>) {
    let mut answer = Answer::new();
    answer.od = length(1);
    answer.sigma = length(2);
    answer.outcome = Outcome::Split;
    answer.likely = true;
    answer.counted = 3;
    answer.rest = Weight::from_q30(5);
    answer.outside = Weight::from_q30((1 << 30) - 135);
    answer.hazards = Hazards {
        cement: Weight::from_q30(7),
        gas: Weight::from_q30(8),
    };
    answer.stop.gas = true;
    answer.contradiction = Some(ClueName::Clue(4));
    answer.out_of_round = Some(OutOfRound {
        spread: length(6),
        share: 10,
    });
    answer.disagreement = true;
    list(&mut answer, [(300, 128), (2, 2)]);
    let head = [2, 4, 1, 1, 3, 2, 0xac, 2, 0x80, 1, 2, 2, 5];
    let rest = [
        0xf9, 0xfe, 0xff, 0xff, 3, 7, 8, 0, 1, 1, 0, 4, 1, 12, 10, 0, 1,
    ];
    (answer, [&head[..], &rest].concat())
}

#[test]
fn answers() {
    let (mut said, bytes) = answer();
    says(
        Response::Identify(Ok(said)),
        &[&[1, 0], &bytes[..]].concat(),
    );
    // Where the outcome, the stops, the contradiction and the jaws are.
    said.outcome = Outcome::Settled;
    said.stop = Hazards {
        cement: true,
        gas: false,
    };
    said.contradiction = Some(ClueName::Plans);
    said.out_of_round = None;
    said.short_jaws = true;
    said.disagreement = false;
    let head = [1, 0, 2, 4, 0];
    let tail = [1, 0, 1, 1, 0, 1, 0];
    let expected = [&head[..], &bytes[3..20], &tail].concat();
    says(Response::Identify(Ok(said)), &expected);
    let nothing = [1, 0, 0, 0, 2, 0, 1, 0, 0, 0x80, 0x80, 0x80, 0x80, 4];
    let expected = [&nothing[..], &[0; 8]].concat();
    says(Response::Identify(Ok(Answer::new())), &expected);
}

#[test]
fn readings_without_an_answer() {
    for (number, error) in (0..).zip([
        ReadingError::None,
        ReadingError::TooMany,
        ReadingError::NotPositive,
        ReadingError::OutOfRange,
        ReadingError::RiseTooHigh,
        ReadingError::RiseTooLow,
        ReadingError::RiseUnsure,
    ]) {
        says(Response::Identify(Err(error)), &[1, 1, number]);
    }
}

#[test]
fn screens() {
    let mut frame = [0; PANEL];
    frame[256..512].fill(9);
    frame[257] = 0;
    // What Python's zlib.crc32 gives of these bytes, and its spelling.
    assert_eq!(CRC.checksum(&frame), 0x4d20_e9b2);
    let crc = [2, 0xb2, 0xd3, 0x83, 0xe9, 4];
    says(
        Response::Screen(Screen::of(&frame, None)),
        &[&crc[..], &[0]].concat(),
    );
    let head = [&crc[..], &[1, 0x80, 2, 0x80, 2]].concat();
    says(
        Response::Screen(Screen::of(&frame, Part::at(256))),
        &[&head[..], &frame[256..512]].concat(),
    );
}

#[test]
fn settings_done_and_not_done_and_the_log() {
    says(Response::Set(Ok(())), &[3, 0]);
    says(Response::Set(Err(NotSet::OutOfRange)), &[3, 1, 0]);
    says(Response::Set(Err(NotSet::Absent)), &[3, 1, 1]);
    says(Response::Set(Err(NotSet::NotNow)), &[3, 1, 2]);
    says(Response::Log(None), &[4, 0]);
    let (answer, bytes) = answer();
    let entry = Entry { count: 200, answer };
    says(
        Response::Log(Some(entry)),
        &[&[4, 1, 0xc8, 1], &bytes[..]].concat(),
    );
}

#[test]
fn refusals() {
    says(Response::Refused(Refusal::Version { ours: 1 }), &[112, 1]);
    let unknown = Refusal::Unknown { number: 255 };
    says(Response::Refused(unknown), &[113, 255]);
    says(Response::Refused(Refusal::Malformed), &[114]);
}

#[test]
fn numbers_kept_free_are_free() {
    let taken = [
        number::HELLO,
        number::IDENTIFY,
        number::SCREEN,
        number::SET,
        number::LOG,
        number::PARTS,
        number::HELD,
        number::NUMBERS,
        number::VERSION,
        number::UNKNOWN,
        number::MALFORMED,
    ];
    for (at, taken_one) in taken.iter().enumerate() {
        assert!(!number::STORAGE.contains(taken_one) && !number::UPDATE.contains(taken_one));
        assert!(*taken_one <= number::LAST && !taken[..at].contains(taken_one));
    }
    assert_eq!((number::STORAGE, number::UPDATE), (16..=31, 32..=47));
}
