//! The 13-digit SPC frame: 52 clocked bits that a gauge sends when it is asked.
//!
//! Digits go in order, the lowest bit of each first, a high line being 1:
//!
//! | digit | meaning |
//! | --- | --- |
//! | 1 | F a reading; 6, 7 held largest and smallest; 0 a stored entry; 1 to 5 count, largest, smallest, mean, deviation |
//! | 2 to 4 | F F F; of a stored entry its number |
//! | 5 | 0 plus, 8 minus |
//! | 6 to 11 | six decimal digits, the highest first; all F off scale |
//! | 12 | digits behind the point, 0 to 5 |
//! | 13 | 0 mm, 1 in; 2 to 4 mm and 5 to 7 in with a verdict of the gauge's own limits; else without unit |
//!
//! A first digit of 8 marks the form with eight digits: 2 is F, the value stands in 3, 4 and 6 to 11, and 12 is 4 to 7.
//! A gauge of seven digits that speaks the six-digit form drops its highest; nothing in the frame can tell.
//!
//! What a frame can be held against: its length, digits 1 to 4, digits that are none, the range of digits 5, 12 and 13.
//! A flip that makes one decimal digit of another, turns the sign, moves the point or changes the unit is another
//! reading.
//!
//! The gauge's clock rests high and data are read where it falls. Timings of public manuals differ; the union is taken.
//! From a public interface specification of 1997 and manuals beside it, whose addresses are withheld.

use super::edges::{Edges, Frame, Sampled, Timing, elapsed};
use super::{Decimal, Event, Fault, GaugeReading, NotLive, Trouble, Unit, event};

/// Digits in a frame.
pub const DIGITS: usize = 13;
const BITS: u8 = 52;

/// The digit that stands where there is none.
const NONE: u8 = 0xf;

/// Manuals say 100 µs, instruments were measured at 62.
const SHORTEST: u32 = 50;

/// A gauge may take 2 s to answer; microseconds.
const PATIENCE: u32 = 2_500_000;

/// Reads 13-digit SPC frames from the edges of two lines.
#[derive(Clone, Copy, Debug)]
pub struct Spc13 {
    edges: Edges,
    asked: Option<u32>,
}

impl Spc13 {
    /// A decoder that waits for the first silence: the time now, and the levels that the two lines have.
    #[must_use]
    pub const fn new(now: u32, clock: bool, data: bool) -> Self {
        let timing = Timing {
            shortest: SHORTEST,
            sampled: Sampled::Leaving,
            inverts: false,
        };
        Self {
            edges: Edges::new(timing, now, clock, data),
            asked: None,
        }
    }

    /// Takes in that the gauge was asked at that time (its request line pulled low). Where no clock comes in 2.5 s,
    /// `elapse` says so once. The line must be let go after the first clock and before the last, or the gauge may send
    /// again; it must be pulled by an open drain, as the gauge's side bears little more than 1.5 V.
    pub fn asked(&mut self, now: u32) {
        self.asked = Some(now);
    }

    /// Takes in an edge of the clock: when it was, in microseconds, the level of the clock after it, and the level of
    /// the data line while the clock is low. Edges of the data line may be told as well. Times may wrap; they should be
    /// true to some ten microseconds, as a level shorter than 50 µs is taken for a glitch.
    pub fn edge(&mut self, now: u32, clock: bool, data: bool) -> Option<Event> {
        if !clock {
            self.asked = None;
        }
        self.edges.edge(now, clock, data).map(frame)
    }

    /// Takes in that time passed. Called every few milliseconds, it brings a reading 5 ms after its last edge; without
    /// it a reading comes with the first edge of the next, and a frame behind half an hour without any call may be lost.
    pub fn elapse(&mut self, now: u32) -> Option<Event> {
        let framed = self.edges.elapse(now).map(frame);
        if framed.is_some() {
            return framed;
        }
        if elapsed(self.asked?, now) < PATIENCE {
            return None;
        }
        self.asked = None;
        Some(Event::Damaged(Trouble::NoAnswer))
    }

    /// Reads the digits of a whole frame, the first that was sent first, each 0 to 15.
    ///
    /// # Errors
    ///
    /// [`Trouble::Marks`], [`Trouble::BadDigit`] or [`Trouble::NoUnit`] when the frame breaks a rule of the table
    /// above, [`Trouble::TooLarge`] when no caliper spans it.
    pub fn digits(digits: &[u8; DIGITS]) -> Result<Event, Trouble> {
        let [kind, a, b, c, sign, d6, d7, d8, d9, d10, d11, places, flag] = *digits;
        let number = [d6, d7, d8, d9, d10, d11];
        let entry = [a, b, c];
        let not_live = match kind {
            8 if a == NONE => {
                let number = [b, c, d6, d7, d8, d9, d10, d11];
                return value(number, sign, (4..=7).contains(&places), places, flag);
            }
            0 => Some(stored(entry)?),
            _ if entry != [NONE; 3] => return Err(Trouble::Marks),
            0xf => None,
            1 => return count(number).map(Event::NotLive),
            2 => Some(NotLive::Largest),
            3 => Some(NotLive::Smallest),
            4 => Some(NotLive::Mean),
            5 => Some(NotLive::Deviation),
            6 => Some(NotLive::HeldLargest),
            7 => Some(NotLive::HeldSmallest),
            _ => return Err(Trouble::Marks),
        };
        let event = value(number, sign, places <= 5, places, flag)?;
        Ok(not_live.map_or(event, Event::NotLive))
    }
}

/// The sign, the number, its point and its unit.
fn value<const N: usize>(
    number: [u8; N],
    sign: u8,
    pointed: bool,
    places: u8,
    flag: u8,
) -> Result<Event, Trouble> {
    let minus = match sign {
        0 => false,
        8 => true,
        _ => return Err(Trouble::Marks),
    };
    if !pointed {
        return Err(Trouble::BadDigit);
    }
    let (unit, judged) = match flag {
        0 => (Unit::Millimetre, false),
        1 => (Unit::Inch, false),
        2..=4 => (Unit::Millimetre, true),
        5..=7 => (Unit::Inch, true),
        _ => return Err(Trouble::NoUnit),
    };
    if number == [NONE; N] {
        return Ok(Event::Fault(Fault::OffScale));
    }
    let size = decimal(number)?;
    let digits = if minus { -size } else { size };
    let shown = Decimal::new(digits, places).ok_or(Trouble::Digits)?;
    let reading = GaugeReading::new(shown, Some(unit))?;
    Ok(Event::Reading(reading.with_verdict(judged)))
}

/// A stored entry by its number. The first is 1: number 0 is a data line that is stuck low.
fn stored(entry: [u8; 3]) -> Result<NotLive, Trouble> {
    match u16::try_from(decimal(entry)?) {
        Ok(0) | Err(_) => Err(Trouble::Marks),
        Ok(entry) => Ok(NotLive::Stored(entry)),
    }
}

/// How many entries are stored.
fn count(number: [u8; 6]) -> Result<NotLive, Trouble> {
    let [NONE, NONE, NONE, count @ ..] = number else {
        return Err(Trouble::Marks);
    };
    let count = u16::try_from(decimal(count)?);
    count.map(NotLive::Count).map_err(|_| Trouble::BadDigit)
}

/// Decimal digits as a number.
fn decimal<const N: usize>(digits: [u8; N]) -> Result<i64, Trouble> {
    digits.iter().try_fold(0, |number: i64, &digit| {
        if digit > 9 {
            return Err(Trouble::BadDigit);
        }
        // Eight digits at the most.
        Ok(number.wrapping_mul(10).wrapping_add(i64::from(digit)))
    })
}

/// What came between two silences.
fn frame(framed: Result<Frame, Trouble>) -> Event {
    event(framed.and_then(|frame| {
        if frame.count != BITS {
            return Err(Trouble::Bits(frame.count));
        }
        let mut digits = [0; DIGITS];
        let mut bits = frame.bits;
        for digit in &mut digits {
            *digit = bits.to_le_bytes()[0] & 0xf;
            bits >>= 4;
        }
        Spc13::digits(&digits)
    }))
}
