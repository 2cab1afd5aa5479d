//! Encoders: what a gauge would send. They know the formats' descriptions and nothing of the decoders.

use crate::gauge::ascii::{Ascii, End, Form, Mark};
use crate::gauge::clocked24::Clocked24;
use crate::gauge::spc13::Spc13;
use crate::gauge::{Event, Unit};

/// The lines after one of them moved: when, the clock, the data.
pub(super) type Edge = (u32, bool, bool);

/// A decoder of edges.
pub(super) trait Clocked {
    fn new(now: u32, clock: bool, data: bool) -> Self;
    fn edge(&mut self, now: u32, clock: bool, data: bool) -> Option<Event>;
    fn elapse(&mut self, now: u32) -> Option<Event>;
}

impl Clocked for Clocked24 {
    fn new(now: u32, clock: bool, data: bool) -> Self {
        Clocked24::new(now, clock, data)
    }
    fn edge(&mut self, now: u32, clock: bool, data: bool) -> Option<Event> {
        Clocked24::edge(self, now, clock, data)
    }
    fn elapse(&mut self, now: u32) -> Option<Event> {
        Clocked24::elapse(self, now)
    }
}

impl Clocked for Spc13 {
    fn new(now: u32, clock: bool, data: bool) -> Self {
        Spc13::new(now, clock, data)
    }
    fn edge(&mut self, now: u32, clock: bool, data: bool) -> Option<Event> {
        Spc13::edge(self, now, clock, data)
    }
    fn elapse(&mut self, now: u32) -> Option<Event> {
        Spc13::elapse(self, now)
    }
}

/// Silence, the edges, silence: all that comes out. Time begins at `from`, and the edges count from its end of silence.
pub(super) fn listen<C: Clocked>(decoder: &mut C, from: u32, edges: &[Edge]) -> Vec<Event> {
    let begin = from.wrapping_add(60_000);
    let mut events: Vec<Event> = [from, begin]
        .into_iter()
        .filter_map(|now| decoder.elapse(now))
        .collect();
    let mut last = begin;
    for &(at, clock, data) in edges {
        last = begin.wrapping_add(at);
        events.extend(decoder.edge(last, clock, data));
    }
    events.extend(decoder.elapse(last.wrapping_add(60_000)));
    events
}

/// What a new decoder makes of edges, which end as they began: with both lines at rest.
pub(super) fn heard<C: Clocked>(edges: &[Edge]) -> Vec<Event> {
    let (_, clock, _) = edges[edges.len() - 1];
    listen(&mut C::new(0, clock, clock), 0, edges)
}

/// The clock of one captured frame: it rests high and turns over at each of these microseconds. The caliper showed
/// 123.45 mm: `github.com/sigrokproject/sigrok-dumps` commit 0ad13477, folder `caliper`.
pub(super) const CAPTURED_CLOCK: [u32; 48] = [
    0, 138, 193, 331, 383, 520, 572, 700, 938, 1067, 1124, 1256, 1311, 1436, 1488, 1613, 1852,
    1977, 2028, 2162, 2217, 2351, 2404, 2538, 2764, 2897, 2949, 3083, 3137, 3260, 3314, 3444, 3681,
    3817, 3873, 4000, 4052, 4180, 4232, 4359, 4623, 4750, 4803, 4936, 4989, 5115, 5164, 5299,
];

/// The data of the same frame: they rest high too.
pub(super) const CAPTURED_DATA: [u32; 36] = [
    302, 411, 493, 595, 1413, 1511, 1587, 1878, 1950, 2054, 2131, 2243, 2325, 2431, 2509, 2789,
    3240, 3341, 3415, 3708, 3788, 3899, 3973, 4075, 4155, 4255, 4332, 4649, 4723, 4830, 4907, 5012,
    5089, 5193, 5271, 5429,
];

/// Turns times at which each of two lines turns over into edges; both rest high.
pub(super) fn merged(clock: &[u32], data: &[u32]) -> Vec<Edge> {
    let on_clock = clock.iter().map(|&at| (at, true));
    let mut turns: Vec<(u32, bool)> = on_clock.chain(data.iter().map(|&at| (at, false))).collect();
    turns.sort_unstable();
    let (mut clock, mut data) = (true, true);
    let mut edges: Vec<Edge> = Vec::new();
    for (now, of_clock) in turns {
        if of_clock {
            clock = !clock;
        } else {
            data = !data;
        }
        if edges.last().is_some_and(|edge| edge.0 == now) {
            edges.pop();
        }
        edges.push((now, clock, data));
    }
    edges
}

/// A 24-bit frame at the captured clock. Each bit is there from 27 µs before the clock rises until 26 µs after it has
/// fallen again, and the line rests high between.
pub(super) fn clocked24(bits: &str) -> Vec<Edge> {
    let bits: Vec<bool> = bits.bytes().map(|bit| bit == b'1').collect();
    let mut clock = CAPTURED_CLOCK.to_vec();
    while clock.len() < 2 * bits.len() {
        let last = clock[clock.len() - 1];
        clock.extend([last + 53, last + 185]);
    }
    clock.truncate(2 * bits.len());
    let mut data = Vec::new();
    for (at, bit) in bits.iter().enumerate() {
        if !bit {
            let fall = clock.get(2 * at + 2).copied();
            let until = fall.unwrap_or(clock[2 * at + 1] + 104) + 26;
            data.extend([clock[2 * at + 1] - 27, until]);
        }
    }
    merged(&clock, &data)
}

/// Bits of a 24-bit word in the order in which they go.
pub(super) fn word24(size: u32, minus: bool, unit: Unit) -> String {
    let mut bits: String = (0..20).map(|at| one(size >> at & 1 == 1)).collect();
    bits.extend([one(minus), '0', '0', one(unit == Unit::Inch)]);
    bits
}

/// Bits of digits in the order in which they go, from their hexadecimal signs.
pub(super) fn spc13(digits: &str) -> String {
    digits
        .chars()
        .flat_map(|digit| {
            let digit = digit.to_digit(16).unwrap();
            (0..4).map(move |at| one(digit >> at & 1 == 1))
        })
        .collect()
}

/// A 13-digit frame: data 15 µs before the clock falls, low and high for 100 µs each.
pub(super) fn clocked52(bits: &str) -> Vec<Edge> {
    let mut edges = Vec::new();
    let mut was = true;
    for (at, bit) in (0_u32..).zip(bits.bytes()) {
        let data = bit == b'1';
        if data != was {
            edges.push((at * 200, true, data));
        }
        was = data;
        edges.extend([(at * 200 + 15, false, data), (at * 200 + 115, true, data)]);
    }
    edges
}

fn one(bit: bool) -> char {
    if bit { '1' } else { '0' }
}

/// The edges of the clock alone, as a driver may tell no others.
pub(super) fn clock_only(edges: &[Edge]) -> Vec<Edge> {
    // A whole frame ends where the clock rests.
    let mut before = edges.last().is_none_or(|edge| edge.1);
    let mut kept = edges.to_vec();
    kept.retain(|edge| core::mem::replace(&mut before, edge.1) != edge.1);
    kept
}

/// Both lines through a transistor each.
pub(super) fn inverted(edges: &[Edge]) -> Vec<Edge> {
    let turned = edges.iter().map(|&(at, clock, data)| (at, !clock, !data));
    turned.collect()
}

/// The bits that somebody finds who reads at the falling edges of the clock.
pub(super) fn at_falling(edges: &[Edge]) -> String {
    let clock = clock_only(edges);
    let falling = clock.iter().filter(|edge| !edge.1);
    falling.map(|edge| one(edge.2)).collect()
}

/// A keyboard's forms.
pub(super) const fn keyed(mark: Mark, end: End) -> Form {
    Form::Keyed { mark, end }
}

/// Every form with the name it has among the vectors.
pub(super) const FORMS: [(&str, Form); 13] = [
    ("coded", Form::Coded),
    ("numbered", Form::Numbered),
    ("typed", Form::Typed),
    ("columns", Form::Columns),
    ("padded", Form::Padded),
    ("signed", Form::Signed),
    ("bare", Form::Bare),
    ("radio", Form::Radio),
    ("keyed", keyed(Mark::Point, End::Line)),
    ("keyed-comma", keyed(Mark::Comma, End::Line)),
    ("keyed-tab", keyed(Mark::Point, End::Tab)),
    ("keyed-blank", keyed(Mark::Point, End::Blank)),
    ("keyed-ends-comma", keyed(Mark::Point, End::Comma)),
];

/// A line of a form. Digits so many places behind a point; the unit is left out where the form has none.
pub(super) fn line(form: Form, digits: i64, places: usize, unit: Unit) -> String {
    let minus = digits < 0;
    let digits = format!("{:0>1$}", digits.unsigned_abs(), places + 1);
    let (whole, behind) = digits.split_at(digits.len() - places);
    let number = format!("{whole}.{behind}");
    let plus = if minus { '-' } else { '+' };
    let dash = if minus { "-" } else { "" };
    let (small, inch) = match unit {
        Unit::Inch => ("in", "inch"),
        Unit::Millimetre => ("mm", "mm"),
    };
    let large = small.to_uppercase();
    match form {
        Form::Coded => format!("01A{plus}{number:0>8}\r"),
        Form::Numbered => format!("001, {dash}{number}, NRM, 01\r\n"),
        Form::Typed => format!("1 MW{plus}{number:0>8} {inch}\r\n"),
        Form::Columns => format!("{plus}{number:>8}, {large}\r\n"),
        Form::Padded => format!("{:13}{dash:>1}{number:>7} {small}\r", ""),
        Form::Signed => format!("{plus}{number:0>7} {inch}\r"),
        Form::Bare => format!("{plus}{number}\r"),
        Form::Radio => format!("{dash}{number} {large} 3 5\r\n"),
        Form::Keyed { mark, end } => {
            let number = match mark {
                Mark::Point => number,
                Mark::Comma => number.replace('.', ","),
            };
            let end = match end {
                End::Line => "\n",
                End::Tab => "\t",
                End::Comma => ",",
                End::Blank => " ",
            };
            format!("{dash}{number}{small}{end}")
        }
    }
}

/// Whether lines of a form tell their unit.
pub(super) fn tells(form: Form) -> bool {
    !matches!(form, Form::Coded | Form::Numbered | Form::Bare)
}

/// Everything that a decoder says of bytes.
pub(super) fn said(decoder: &mut Ascii, bytes: &[u8]) -> Vec<Event> {
    bytes
        .iter()
        .filter_map(|&byte| decoder.push(byte))
        .collect()
}
