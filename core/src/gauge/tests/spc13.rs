//! Frames of thirteen digits: every value, and every way in which they go wrong.

use proptest::prelude::*;

use super::wire::{Clocked, Edge, clock_only, clocked52, heard, listen, spc13};
use crate::gauge::spc13::{DIGITS, Spc13};
use crate::gauge::{Event, NotLive, Trouble, Unit};

fn digits(text: &str) -> [u8; DIGITS] {
    let digit = |at: usize| u8::from_str_radix(&text[at..=at], 16).unwrap();
    core::array::from_fn(digit)
}

/// The number of a reading: digits, places, unit.
fn number(event: Event) -> Option<(i64, u8, Unit)> {
    match event {
        Event::Reading(reading) => {
            let shown = reading.shown();
            Some((shown.digits(), shown.places(), reading.unit()?))
        }
        _ => None,
    }
}

fn numbers(events: &[Event]) -> Vec<(i64, u8, Unit)> {
    events.iter().filter_map(|event| number(*event)).collect()
}

/// A reading that a caliper may show: six digits, places, unit flag.
fn shown() -> impl Strategy<Value = (i64, u8, u8)> {
    (-999_999_i64..=999_999, 0_u8..=5, 0_u8..=7).prop_filter("spanned", |&(size, places, flag)| {
        fits(size, places, unit(flag))
    })
}

fn fits(size: i64, places: u8, unit: Unit) -> bool {
    let millimetres = if unit == Unit::Inch { 25.4 } else { 1.0 };
    let value = size.abs() as f64 * millimetres / 10_f64.powi(places.into());
    // Half a count of 10 nm, to which lengths are rounded.
    value < 1_050.000_005
}

fn unit(flag: u8) -> Unit {
    if [0, 2, 3, 4].contains(&flag) {
        Unit::Millimetre
    } else {
        Unit::Inch
    }
}

fn text((size, places, flag): (i64, u8, u8)) -> String {
    let sign = if size < 0 { 8 } else { 0 };
    format!("FFFF{sign}{:06}{places}{flag}", size.abs())
}

#[test]
fn every_value_comes_back() {
    let step = if cfg!(miri) { 99_991 } else { 1 };
    for size in (0_i64..1_000_000).step_by(step) {
        for places in 0_u8..=5 {
            for (flag, sign) in [(0_u8, 1), (1, -1)] {
                let mut frame = [0xf; DIGITS];
                frame[4] = if sign < 0 { 8 } else { 0 };
                let mut left = size;
                for digit in frame[5..11].iter_mut().rev() {
                    *digit = (left % 10) as u8;
                    left /= 10;
                }
                frame[11] = places;
                frame[12] = flag;
                let unit = unit(flag);
                let want = if fits(size, places, unit) {
                    Ok((sign * size, places, unit))
                } else {
                    Err(Trouble::TooLarge)
                };
                let got = Spc13::digits(&frame).map(|event| number(event).unwrap());
                assert_eq!(got, want, "{frame:x?}");
            }
        }
    }
}

#[test]
fn every_hundredth_and_thousandth_comes_back_over_the_wire() {
    let step = if cfg!(miri) { 9_973 } else { 1 };
    let mut decoder = Spc13::new(0, true, true);
    let mut from = 0;
    for (places, flag, last) in [(2, 0, 60_000), (3, 1, 24_000)] {
        for size in (0..=last).step_by(step) {
            let size = if size % 3 == 0 { -size } else { size };
            let edges = clocked52(&spc13(&text((size, places, flag))));
            let events = listen(&mut decoder, from, &edges);
            assert_eq!(numbers(&events), [(size, places, unit(flag))]);
            from = from.wrapping_add(1 << 20);
        }
    }
}

#[test]
fn eight_digits_have_their_own_first_digit() {
    let read = |text: &str| Spc13::digits(&digits(text)).map(number);
    let mm = Unit::Millimetre;
    assert_eq!(read("8F98076543250"), Ok(Some((98_765_432, 5, mm))));
    assert_eq!(read("8F00000001071"), Ok(Some((10, 7, Unit::Inch))));
    assert_eq!(read("8F00000001030"), Err(Trouble::BadDigit));
    assert_eq!(read("8F00000001080"), Err(Trouble::BadDigit));
    assert_eq!(read("8E00000001040"), Err(Trouble::Marks));
    assert_eq!(read("8F0A000001040"), Err(Trouble::BadDigit));
}

#[test]
fn a_verdict_is_told_and_not_which() {
    for flag in 0_u8..=7 {
        let frame = digits(&text((12_345, 3, flag)));
        let Ok(Event::Reading(reading)) = Spc13::digits(&frame) else {
            panic!("no reading");
        };
        assert_eq!(reading.judged(), flag > 1);
        assert_eq!(reading.unit(), Some(unit(flag)));
    }
    for flag in 8..=15 {
        let mut frame = digits(&text((12_345, 3, 0)));
        frame[12] = flag;
        assert_eq!(Spc13::digits(&frame), Err(Trouble::NoUnit));
    }
}

/// Every first digit: one alone is a reading, and none that is not a format's is anything.
#[test]
fn only_f_is_live() {
    let read = |first: char| {
        let frame = digits(&text((12_345, 2, 0)).replacen('F', &first.to_string(), 1));
        Spc13::digits(&frame)
    };
    for first in "0123456789ABCDE".chars() {
        let got = read(first);
        assert!(!matches!(got, Ok(Event::Reading(_))), "{first}: {got:?}");
    }
    assert!(matches!(read('F'), Ok(Event::Reading(_))));
    assert_eq!(read('6'), Ok(Event::NotLive(NotLive::HeldLargest)));
    for first in "9ABCDE".chars() {
        assert_eq!(read(first), Err(Trouble::Marks));
    }
}

#[test]
fn a_gauge_that_does_not_answer_is_told_once() {
    let mut decoder = Spc13::new(0, true, true);
    let asked = u32::MAX - 1_000;
    decoder.asked(asked);
    assert_eq!(decoder.elapse(asked.wrapping_add(2_499_999)), None);
    let silent = Some(Event::Damaged(Trouble::NoAnswer));
    assert_eq!(decoder.elapse(asked.wrapping_add(2_500_000)), silent);
    assert_eq!(decoder.elapse(asked.wrapping_add(5_000_000)), None);
    // Two seconds are not too long, and an answer is an answer.
    decoder.asked(0);
    assert_eq!(decoder.elapse(2_000_000), None);
    let edges = clocked52(&spc13(&text((12_345, 2, 0))));
    let events = listen(&mut decoder, 2_000_000, &edges);
    assert_eq!(numbers(&events), [(12_345, 2, Unit::Millimetre)]);
    assert_eq!(decoder.elapse(9_000_000), None);
}

#[test]
fn a_clock_that_rests_low_is_the_wrong_wiring() {
    let edges = clock_only(&clocked52(&spc13(&text((12_345, 2, 0)))));
    let turned: Vec<Edge> = edges.iter().map(|edge| (edge.0, !edge.1, edge.2)).collect();
    let events = heard::<Spc13>(&turned);
    assert_eq!(events, [Event::Damaged(Trouble::Idle)]);
}

/// All bits are there, and the clock did not come back to where it rests.
#[test]
fn a_frame_whose_last_edge_is_lost_is_refused() {
    let mut edges = clock_only(&clocked52(&spc13(&text((12_345, 2, 0)))));
    edges.pop();
    let events = listen(&mut Spc13::new(0, true, true), 0, &edges);
    assert_eq!(events, [Event::Damaged(Trouble::MissedEdge)]);
}

/// Timings that public manuals and measurements give, from the quickest to the slowest.
#[test]
fn every_known_timing_is_taken() {
    let bits = spc13(&text((-12_345, 3, 1)));
    for (low, high) in [(70, 62), (105, 136), (100, 100), (250, 250), (410, 400)] {
        let edges: Vec<Edge> = (0_u32..)
            .zip(bits.bytes())
            .flat_map(|(at, bit)| {
                let began = at * (low + high);
                [(began, false, bit == b'1'), (began + low, true, true)]
            })
            .collect();
        let events = heard::<Spc13>(&edges);
        assert_eq!(numbers(&events), [(-12_345, 3, Unit::Inch)], "{low} {high}");
    }
}

proptest! {
    /// A flip is another reading in the sign's highest bit, in a decimal digit, in the point and in the unit. In the
    /// other places the frame is refused, or is what it says: held.
    #[test]
    fn a_flipped_bit_is_known_where_the_frame_can_know(what in shown()) {
        let bits = spc13(&text(what));
        let mut known = 0;
        // Miri takes its time over 52 frames.
        let step = if cfg!(miri) { 9 } else { 1 };
        for at in (0..bits.len()).step_by(step) {
            let flipped: String = bits
                .chars()
                .enumerate()
                .map(|(place, bit)| if (place == at) == (bit == '0') { '1' } else { '0' })
                .collect();
            let [event] = heard::<Spc13>(&clocked52(&flipped))[..] else {
                return Err(TestCaseError::fail("one event"));
            };
            let blind = at == 19 || (20..44).contains(&at) || (44..48).contains(&at) || (48..51).contains(&at);
            if !blind {
                prop_assert_eq!(number(event), None, "{}", at);
                known += 1;
            }
        }
        prop_assert!(cfg!(miri) || known == 20, "{}", known);
    }

    #[test]
    fn a_lost_edge_is_never_a_reading(what in shown(), at in 0_usize..103, both in any::<bool>()) {
        let whole = clocked52(&spc13(&text(what)));
        let mut edges = clock_only(&whole);
        edges.drain(at..=at + usize::from(both));
        let mut decoder = Spc13::new(0, true, true);
        let events = listen(&mut decoder, 0, &edges);
        prop_assert_eq!(numbers(&events), []);
        prop_assert!(!events.is_empty());
        let again: Vec<Event> = [1 << 20, 2 << 20]
            .iter()
            .flat_map(|from| listen(&mut decoder, *from, &whole))
            .collect();
        prop_assert!(!numbers(&again).is_empty());
        prop_assert!(numbers(&again).iter().all(|read| (read.0, read.1) == (what.0, what.1)));
    }

    /// A clock that is one or more too many, or a second frame on the heels of the first.
    #[test]
    fn a_clock_too_many_is_never_a_reading(what in shown(), more in 1_usize..60) {
        let bits = spc13(&text(what));
        let longer: String = bits.chars().cycle().take(52 + more).collect();
        let events = heard::<Spc13>(&clocked52(&longer));
        prop_assert_eq!(events, [Event::Damaged(Trouble::Bits(u8::try_from(52 + more).unwrap()))]);
    }

    #[test]
    fn any_digits_are_refused_or_as_they_say(frame in any::<[u8; DIGITS]>(), nibbles in any::<bool>()) {
        let frame = if nibbles { frame.map(|digit| digit & 0xf) } else { frame };
        if let Ok(Event::Reading(reading)) = Spc13::digits(&frame) {
            prop_assert!(frame.iter().all(|&digit| digit < 16));
            prop_assert!(reading.length().is_some());
        }
    }

    #[test]
    fn it_is_in_step_after_any_edges(
        noise in prop::collection::vec((any::<u32>(), 0_u8..20, any::<bool>(), any::<bool>()), 0..200),
        from in any::<u32>(),
        what in shown(),
    ) {
        let mut decoder = Spc13::new(from, true, true);
        let mut now = from;
        for (wait, scale, clock, data) in noise {
            now = now.wrapping_add(wait >> (12 + scale));
            let _ = if scale == 0 {
                Clocked::elapse(&mut decoder, now)
            } else {
                Clocked::edge(&mut decoder, now, clock, data)
            };
        }
        // The clock rests high again; noise may have left it low.
        let _ = decoder.edge(now, true, true);
        let events = listen(&mut decoder, now, &clocked52(&spc13(&text(what))));
        let read = numbers(&events);
        prop_assert_eq!(read.last().map(|read| (read.0, read.1)), Some((what.0, what.1)));
    }
}
