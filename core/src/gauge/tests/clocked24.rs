//! Frames of 24 bits: every word, and every way in which edges go wrong.

use proptest::prelude::*;

use super::wire::{Edge, clock_only, clocked24, heard, inverted, listen, word24};
use crate::gauge::clocked24::Clocked24;
use crate::gauge::{Event, GaugeReading, Trouble, Unit};

fn length(event: Event) -> Option<i32> {
    match event {
        Event::Reading(reading) => reading.length().map(crate::Length::counts),
        _ => None,
    }
}

fn readings(events: &[Event]) -> Vec<i32> {
    events.iter().filter_map(|event| length(*event)).collect()
}

/// A reading that a caliper may show: counts, minus, unit.
fn shown() -> impl Strategy<Value = (u32, bool, Unit)> {
    (0_u32..=105_000, any::<bool>(), any::<bool>()).prop_map(|(size, minus, inch)| {
        // 0.0005 in a count: 82 677 of them are 1050 mm.
        let unit = if inch { Unit::Inch } else { Unit::Millimetre };
        (if inch { size.min(82_677) } else { size }, minus, unit)
    })
}

fn counts((size, minus, unit): (u32, bool, Unit)) -> i32 {
    let count = if unit == Unit::Inch { 1_270 } else { 1_000 };
    let counts = i32::try_from(size).unwrap() * count;
    if minus { -counts } else { counts }
}

fn bits((size, minus, unit): (u32, bool, Unit)) -> String {
    word24(size, minus, unit)
}

/// All 2^24 words against the description, which is put here in decimal fractions of a unit.
#[test]
fn every_word() {
    let step = if cfg!(miri) { 65_521 } else { 1 };
    let (mut read, mut refused) = (0_u32, 0_u32);
    for word in (0..1_u32 << 24).step_by(step) {
        let size = f64::from(word % (1 << 20));
        let inch = word >= 1 << 23;
        let counts = if inch { size * 1_270.0 } else { size * 1_000.0 };
        let counts = if word >> 20 & 1 == 1 { -counts } else { counts };
        let got = Clocked24::word(word);
        if word >> 21 & 3 != 0 {
            assert_eq!(got, Err(Trouble::Marks));
        } else if counts.abs() > 105_000_000.0 {
            assert_eq!(got, Err(Trouble::TooLarge));
            refused += 1;
        } else {
            assert_eq!(length(got.unwrap()), Some(counts as i32), "{word:06x}");
            read += 1;
        }
    }
    if !cfg!(miri) {
        // Two signs of each count up to 1050 mm, and of each half thousandth up to the same.
        assert_eq!(read, 2 * (105_001 + 82_678));
        assert_eq!(refused, (4 << 20) - read);
    }
    assert_eq!(Clocked24::word(1 << 24), Err(Trouble::Marks));
}

#[test]
fn every_value_comes_back_over_the_wire() {
    let step = if cfg!(miri) { 9_973 } else { 1 };
    let mut decoder = Clocked24::new(0, true, true);
    let mut from = 0;
    for unit in [Unit::Millimetre, Unit::Inch] {
        // 0 to 600 mm, 0 to 24 in.
        let last = if unit == Unit::Inch { 48_000 } else { 60_000 };
        for size in (0..=last).step_by(step) {
            let what = (size, size % 3 == 0, unit);
            let edges = clock_only(&clocked24(&bits(what)));
            let events = listen(&mut decoder, from, &edges);
            assert_eq!(readings(&events), [counts(what)], "{what:?}");
            // The clock of the times wraps some dozen times over.
            from = from.wrapping_add(1 << 20);
        }
    }
}

#[test]
fn a_display_steps_by_what_its_last_digit_does() {
    let step = |bits| match Clocked24::word(bits) {
        Ok(Event::Reading(reading)) => (reading.shown().step(), reading.step_or(Unit::Inch)),
        other => panic!("{other:?}"),
    };
    let counts = crate::Length::from_counts;
    assert_eq!(step(0x64), (1, counts(1_000)));
    assert_eq!(step(1 << 23 | 0x64), (5, counts(1_270)));
}

/// A data line that is off, at either level and in either wiring.
#[test]
fn a_data_line_that_stands_is_refused() {
    let zero = clock_only(&clocked24(&"0".repeat(24)));
    for level in [true, false] {
        let stuck: Vec<Edge> = zero.iter().map(|edge| (edge.0, edge.1, level)).collect();
        let why = if level {
            Trouble::Marks
        } else {
            Trouble::Stuck
        };
        for edges in [stuck.clone(), inverted(&stuck)] {
            assert_eq!(heard::<Clocked24>(&edges), [Event::Damaged(why)]);
        }
    }
}

/// Which flips are another reading, and no other: all but bits 21 and 22.
#[test]
fn a_flipped_bit_is_known_in_two_places() {
    let word = 1_234;
    let known = (0..24).filter(|bit| Clocked24::word(word ^ 1 << bit).is_err());
    // The highest bits of the size are more than a caliper spans.
    assert_eq!(known.collect::<Vec<_>>(), [17, 18, 19, 21, 22]);
}

#[test]
fn a_frame_that_never_rests_is_too_slow() {
    let edges: Vec<Edge> = (0..48).map(|at| (at * 1_400, at % 2 == 1, true)).collect();
    assert_eq!(heard::<Clocked24>(&edges), [Event::Damaged(Trouble::Slow)]);
    let edges: Vec<Edge> = (0..48)
        .map(|at| (at * 1_200, at % 2 == 1, at > 8))
        .collect();
    assert_ne!(heard::<Clocked24>(&edges), [Event::Damaged(Trouble::Slow)]);
}

#[test]
fn long_silences_do_not_wrap_into_short_ones() {
    let edges = clocked24(&word24(10_516, false, Unit::Millimetre));
    let mut decoder = Clocked24::new(0, true, true);
    assert_eq!(readings(&listen(&mut decoder, 0, &edges)), [10_516_000]);
    // 2^32 µs later to the microsecond, the times are those of the last edge again.
    let last = 60_000 + edges.last().unwrap().0;
    let later = edges
        .iter()
        .map(|&(at, clock, data)| (at.wrapping_add(last), clock, data));
    let mut events: Vec<Event> = later
        .filter_map(|(now, clock, data)| decoder.edge(now, clock, data))
        .collect();
    events.extend(decoder.elapse(last + 60_000));
    assert_eq!(readings(&events), [10_516_000]);
}

/// A frame of the right length again, as one pulse was lost and one is a glitch.
#[test]
fn a_glitch_does_not_stand_in_for_a_pulse() {
    let mut edges = clock_only(&clocked24(&word24(10_516, false, Unit::Millimetre)));
    let whole = edges.clone();
    // Between two groups, where the clock rests for long.
    let (rests, _, data) = edges[7];
    edges.splice(
        8..8,
        [(rests + 100, false, data), (rests + 119, true, data)],
    );
    assert_eq!(
        heard::<Clocked24>(&edges),
        [Event::Damaged(Trouble::Glitch)]
    );
    edges.drain(20..22);
    assert_eq!(edges.len(), whole.len());
    assert_eq!(
        heard::<Clocked24>(&edges),
        [Event::Damaged(Trouble::Glitch)]
    );
    // As long as the shortest true level it is a pulse, and only the count of bits can tell.
    let mut edges = whole;
    edges.splice(
        8..8,
        [(rests + 100, false, data), (rests + 120, true, data)],
    );
    assert_eq!(
        heard::<Clocked24>(&edges),
        [Event::Damaged(Trouble::Bits(25))]
    );
}

/// An edge is told after which neither line is another: two came, and the driver saw one.
#[test]
fn an_edge_that_changes_nothing_is_one_too_few() {
    let whole = clock_only(&clocked24(&word24(10_516, false, Unit::Millimetre)));
    for at in [0, 1, 13, 46] {
        let mut edges = whole.clone();
        let (now, clock, data) = edges[at];
        edges.insert(at + 1, (now + 25, clock, data));
        let events = heard::<Clocked24>(&edges);
        assert_eq!(events, [Event::Damaged(Trouble::MissedEdge)], "{at}");
    }
}

/// The first pulse of 25 comes too late to be seen: what is left has the length of a frame and is none.
#[test]
fn a_missed_edge_ends_a_silence() {
    let longer = word24(10_516, false, Unit::Millimetre) + "0";
    let edges = clock_only(&clocked24(&longer));
    let mut decoder = Clocked24::new(0, true, true);
    assert_eq!(decoder.elapse(60_000), None);
    let missed = decoder.edge(60_000 + edges[1].0, true, true);
    assert_eq!(missed, Some(Event::Damaged(Trouble::MissedEdge)));
    let mut events = Vec::new();
    for &(at, clock, data) in &edges[2..] {
        events.extend(decoder.elapse(59_990 + at));
        events.extend(decoder.edge(60_000 + at, clock, data));
    }
    events.extend(decoder.elapse(120_000));
    assert_eq!(events, []);
}

/// A frame whose end is only known from an edge that is itself amiss.
#[test]
fn a_whole_frame_is_read_whatever_comes_behind_it() {
    let mut decoder = Clocked24::new(0, true, true);
    assert_eq!(decoder.elapse(60_000), None);
    for &(at, clock, data) in &clocked24(&word24(10_516, false, Unit::Millimetre)) {
        assert_eq!(decoder.edge(60_000 + at, clock, data), None);
    }
    let read = decoder.edge(120_000, true, true).and_then(length);
    assert_eq!(read, Some(10_516_000));
}

#[test]
fn a_look_at_the_clock_that_comes_late_is_no_silence() {
    let edges = clocked24(&word24(10_516, false, Unit::Millimetre));
    let mut decoder = Clocked24::new(0, true, true);
    assert_eq!(decoder.elapse(60_000), None);
    for &(at, clock, data) in &edges {
        assert_eq!(decoder.edge(60_000 + at, clock, data), None);
        assert_eq!(decoder.elapse(59_999 + at), None);
    }
    let read = decoder.elapse(120_000).and_then(length);
    assert_eq!(read, Some(10_516_000));
}

proptest! {
    #[test]
    fn a_frame_that_is_joined_in_its_middle_is_not_read(
        what in shown(), from in any::<u32>(), skipped in 1_usize..40, turned in any::<bool>(),
    ) {
        let edges = clock_only(&clocked24(&bits(what)));
        let edges = if turned { inverted(&edges) } else { edges };
        // A decoder that was just made, with no silence behind it.
        let (at, clock, data) = edges[skipped - 1];
        let mut decoder = Clocked24::new(from.wrapping_add(at), clock, data);
        let mut events = Vec::new();
        for &(at, clock, data) in &edges[skipped..] {
            events.extend(decoder.edge(from.wrapping_add(at), clock, data));
        }
        prop_assert_eq!(&events, &[]);
        let events = listen(&mut decoder, from.wrapping_add(10_000), &edges);
        prop_assert_eq!(readings(&events), [counts(what)]);
    }

    /// One edge or one pulse that nobody saw.
    #[test]
    fn a_lost_edge_is_never_a_reading(
        what in shown(), at in 0_usize..47, both in any::<bool>(), turned in any::<bool>(),
    ) {
        let mut edges = clock_only(&clocked24(&bits(what)));
        edges.drain(at..=at + usize::from(both));
        let edges = if turned { inverted(&edges) } else { edges };
        let mut decoder = Clocked24::new(0, !turned, !turned);
        let events = listen(&mut decoder, 0, &edges);
        prop_assert_eq!(readings(&events), [0; 0], "{:?}", events);
        prop_assert!(!events.is_empty());
        let whole = clocked24(&bits(what));
        let whole = if turned { inverted(&whole) } else { whole };
        // An odd number of edges leaves the decoder at the wrong level: that costs the next frame, and no more.
        let again: Vec<Event> = [1 << 20, 2 << 20]
            .iter()
            .flat_map(|from| listen(&mut decoder, *from, &whole))
            .collect();
        prop_assert!(readings(&again).ends_with(&[counts(what)]), "{:?}", again);
        prop_assert!(readings(&again).iter().all(|&read| read == counts(what)));
    }

    /// A pulse of 1 to 19 µs on the clock, anywhere.
    #[test]
    fn a_glitch_is_never_another_reading(
        what in shown(), begin in -8_000_i32..14_000, width in 1_u32..20,
    ) {
        let all = clocked24(&bits(what));
        let frame = clock_only(&all);
        let data = all.iter().rev().find(|edge| i64::from(edge.0) <= i64::from(begin)).is_none_or(|edge| edge.2);
        let begin = u32::try_from(begin + 20_000).unwrap();
        let mut edges: Vec<Edge> = frame.iter().map(|e| (e.0 + 20_000, e.1, e.2)).collect();
        let after = edges.iter().position(|edge| edge.0 > begin).unwrap_or(edges.len());
        let level = after.checked_sub(1).is_none_or(|before| edges[before].1);
        // What the true edges do within the glitch is lost in it.
        let within = edges.get(after).is_some_and(|edge| edge.0 <= begin + width);
        edges.insert(after, (begin, !level, data));
        if within {
            edges.remove(after + 1);
        } else {
            edges.insert(after + 1, (begin + width, level, data));
        }
        let mut decoder = Clocked24::new(0, true, true);
        let events = listen(&mut decoder, 0, &edges);
        prop_assert!(readings(&events).iter().all(|&read| read == counts(what)), "{:?}", events);
        let again = listen(&mut decoder, 1 << 20, &frame);
        prop_assert_eq!(readings(&again), [counts(what)]);
    }

    #[test]
    fn it_is_in_step_after_any_edges(
        noise in prop::collection::vec((any::<u32>(), 0_u8..20, any::<bool>(), any::<bool>()), 0..200),
        from in any::<u32>(),
        what in shown(),
    ) {
        let mut decoder = Clocked24::new(from, true, true);
        let mut now = from;
        for (wait, scale, clock, data) in noise {
            now = now.wrapping_add(wait >> (12 + scale));
            let event = if scale == 0 {
                decoder.elapse(now)
            } else {
                decoder.edge(now, clock, data)
            };
            if let Some(Event::Reading(reading)) = event {
                prop_assert!(reading.length().unwrap() <= GaugeReading::LARGEST);
            }
        }
        // The clock rests high again; noise may have left it low.
        let _ = decoder.edge(now, true, true);
        let events = listen(&mut decoder, now, &clocked24(&bits(what)));
        let read = readings(&events);
        prop_assert_eq!(read.last(), Some(&counts(what)), "{:?}", events);
    }

    #[test]
    fn edges_of_the_data_line_change_nothing(what in shown(), turned in any::<bool>()) {
        let all = clocked24(&bits(what));
        let all = if turned { inverted(&all) } else { all };
        let clock = clock_only(&all);
        prop_assert_eq!(clock.len(), 48);
        prop_assert_eq!(heard::<Clocked24>(&all), heard::<Clocked24>(&clock));
    }
}
