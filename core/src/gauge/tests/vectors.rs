//! `tests/data/gauge-vectors.csv`: each row with its public source.

use super::wire::{self, FORMS};
use crate::gauge::ascii::Ascii;
use crate::gauge::clocked24::Clocked24;
use crate::gauge::spc13::Spc13;
use crate::gauge::{Event, Fault, NotLive, Unit};

const VECTORS: &str = include_str!("../../../../tests/data/gauge-vectors.csv");

#[derive(Debug)]
struct Vector {
    id: &'static str,
    format: &'static str,
    outcome: &'static str,
    value: &'static str,
    unit: Option<Unit>,
    raw: &'static str,
}

fn vectors() -> impl Iterator<Item = Vector> {
    VECTORS.lines().skip(2).map(|line| {
        // The text of a line may hold commas, and is last.
        let mut cells = line.splitn(7, ',');
        let mut next = || cells.next().expect(line);
        let (id, format, outcome, value) = (next(), next(), next(), next());
        let unit = match next() {
            "mm" => Some(Unit::Millimetre),
            "in" => Some(Unit::Inch),
            "" => None,
            other => panic!("{id}: {other}"),
        };
        assert!(!next().is_empty(), "{id} has a source");
        Vector {
            id,
            format,
            outcome,
            value,
            unit,
            raw: next(),
        }
    })
}

fn unescaped(raw: &str) -> Vec<u8> {
    let raw = raw.replace("\\r", "\r").replace("\\n", "\n");
    raw.replace("\\t", "\t").replace("\\x20", " ").into_bytes()
}

/// One event at most is what every row must come to.
fn only(events: &[Event], id: &str) -> Option<Event> {
    assert!(events.len() <= 1, "{id}: {events:?}");
    events.first().copied()
}

impl Vector {
    fn check(&self, got: Option<Event>) {
        let id = self.id;
        match (self.outcome, got) {
            ("reading", Some(Event::Reading(reading))) => {
                assert_eq!(reading.unit(), self.unit, "{id}");
                let digits: i64 = self.value.replace('.', "").parse().unwrap();
                let (_, behind) = self.value.split_once('.').unwrap();
                assert_eq!(reading.shown().digits(), digits, "{id}");
                assert_eq!(usize::from(reading.shown().places()), behind.len(), "{id}");
                if let Some(unit) = self.unit {
                    let metres = if unit == Unit::Inch { 0.0254 } else { 0.001 };
                    let counts = self.value.parse::<f64>().unwrap() * metres * 1e8;
                    let got = reading.length().unwrap().counts();
                    assert!((f64::from(got) - counts).abs() < 0.501, "{id}: {got}");
                }
            }
            ("notlive", Some(Event::NotLive(kept))) => assert_eq!(named(kept), self.value, "{id}"),
            ("fault", Some(Event::Fault(fault))) => assert_eq!(faulty(fault), self.value, "{id}"),
            ("damaged", Some(Event::Damaged(_))) | ("nothing", None) => {}
            _ => panic!("{self:?}: {got:?}"),
        }
    }
}

fn named(kept: NotLive) -> String {
    match kept {
        NotLive::HeldLargest => "held-largest".into(),
        NotLive::HeldSmallest => "held-smallest".into(),
        NotLive::HeldSpread => "held-spread".into(),
        NotLive::Stored(entry) => format!("stored-{entry}"),
        NotLive::Count(count) => format!("count-{count}"),
        NotLive::Largest => "largest".into(),
        NotLive::Smallest => "smallest".into(),
        NotLive::Mean => "mean".into(),
        NotLive::Deviation => "deviation".into(),
    }
}

fn faulty(fault: Fault) -> String {
    match fault {
        Fault::OffScale => "off-scale".into(),
        Fault::NoData => "no-data".into(),
        Fault::TimedOut => "timed-out".into(),
        Fault::Sensor => "sensor".into(),
        Fault::Code(code) => format!("code-{code}"),
    }
}

#[test]
fn every_vector_is_read_as_it_must_be() {
    let mut count = 0;
    for vector in vectors().filter(|vector| vector.outcome != "trap") {
        let id = vector.id;
        match vector.format {
            "clocked24" => {
                let edges = wire::clocked24(vector.raw);
                for edges in [edges.clone(), wire::inverted(&edges)] {
                    vector.check(only(&wire::heard::<Clocked24>(&edges), id));
                    let edges = wire::clock_only(&edges);
                    vector.check(only(&wire::heard::<Clocked24>(&edges), id));
                }
            }
            "spc13" => {
                let edges = wire::clocked52(vector.raw);
                vector.check(only(&wire::heard::<Spc13>(&edges), id));
                let edges = wire::clock_only(&edges);
                vector.check(only(&wire::heard::<Spc13>(&edges), id));
            }
            name => {
                let (_, form) = FORMS.iter().find(|form| form.0 == name).expect(name);
                let events = wire::said(&mut Ascii::new(*form), &unescaped(vector.raw));
                vector.check(only(&events, id));
            }
        }
        count += 1;
    }
    assert!(count >= 100, "{count} vectors");
}

#[test]
fn a_capture_read_at_the_wrong_edge_is_a_trap() {
    let rows: Vec<Vector> = vectors().collect();
    let traps: Vec<&[Vector]> = rows
        .windows(2)
        .filter(|pair| pair[1].outcome == "trap")
        .collect();
    for pair in &traps {
        let [right, wrong] = pair else {
            unreachable!("windows of two")
        };
        // The model of the wire is that of the captures: whoever reads it at the other edge finds what they found.
        let edges = wire::clocked24(right.raw);
        assert_eq!(wire::at_falling(&edges), wrong.raw, "{}", wrong.id);
        // Lines of which one alone is turned over.
        for odd in [(true, false), (false, true)] {
            let turned = edges
                .iter()
                .map(|&(at, clock, data)| (at, clock != odd.0, data != odd.1));
            let events = wire::heard::<Clocked24>(&turned.collect::<Vec<_>>());
            assert!(
                matches!(events[..], [Event::Damaged(_)]),
                "{}: {events:?}",
                right.id
            );
        }
    }
    assert_eq!(traps.len(), 10);
}

/// What no form may take for a number, none does; and a line of one form is never another number in another.
#[test]
fn no_form_reads_what_another_form_says() {
    let rows = vectors().filter(|vector| !matches!(vector.format, "clocked24" | "spc13"));
    for vector in rows {
        for (name, form) in FORMS {
            // A blank ends a word there, and cuts lines of other forms: it is for gauges that type none.
            if name == "keyed-blank" && vector.raw.contains(' ') {
                continue;
            }
            for event in wire::said(&mut Ascii::new(form), &unescaped(vector.raw)) {
                let Event::Reading(reading) = event else {
                    continue;
                };
                let context = format!("{} as {name}: {event:?}", vector.id);
                assert_eq!(vector.outcome, "reading", "{context}");
                let digits: i64 = vector.value.replace('.', "").parse().unwrap();
                assert_eq!(reading.shown().digits(), digits, "{context}");
                assert_eq!(reading.unit(), vector.unit, "{context}");
            }
        }
    }
}

/// The frame as it was captured, edge for edge: nothing of the encoders is in it.
#[test]
fn a_captured_frame_is_read() {
    let edges = wire::merged(&wire::CAPTURED_CLOCK, &wire::CAPTURED_DATA);
    for edges in [edges.clone(), wire::inverted(&edges)] {
        let [Event::Reading(reading)] = wire::heard::<Clocked24>(&edges)[..] else {
            panic!("no reading");
        };
        assert_eq!(reading.length().unwrap().counts(), 12_345_000);
    }
    // Without a call to `elapse` behind it, the next frame's first edge brings it.
    let mut decoder = Clocked24::new(0, true, true);
    let twice = [10_000, 81_900].map(|begin| {
        let events = edges
            .iter()
            .filter_map(|&(at, clock, data)| decoder.edge(begin + at, clock, data));
        events.count()
    });
    assert_eq!(twice, [0, 1]);
}
