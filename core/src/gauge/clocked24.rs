//! The 24-bit clocked frame of inexpensive calipers, which sends itself some eight to fourteen times a second.
//!
//! Six groups of four clocks, the lowest bit first:
//!
//! | bit | meaning |
//! | --- | --- |
//! | 0 to 19 | size: 0.01 mm, or 0.0005 in |
//! | 20 | minus (sign and size, not two's complement) |
//! | 21, 22 | nothing: always clear |
//! | 23 | inches |
//!
//! At the caliper's pads the clock rests high and data are settled at its rising edge. A transistor in each line turns
//! both over. Either is found by the level at which the clock rests, and data are read at the edge back to it: at the
//! other edge every bit comes one late, which doubles the value, loses the inch and looks sound. Where only one line is
//! turned over bits 21 and 22 are set, and the frame is refused.
//!
//! What a frame can be held against is its length and those two bits. A flip in any of the other 22, the unit among
//! them, is another reading. A data line that is low from the first edge to the last is refused: that of a closed
//! caliper is still high at the first, a broken one is not.
//!
//! From public captures: `github.com/sigrokproject/sigrok-dumps` commit 0ad13477, folder `caliper`.

use super::edges::{Edges, Frame, Sampled, Timing};
use super::{Decimal, Event, GaugeReading, Trouble, Unit, event};

/// Bits in a frame.
const BITS: u8 = 24;
const SIZE: u32 = (1 << 20) - 1;
const MINUS: u32 = 1 << 20;
const CLEAR: u32 = 0b11 << 21;
const INCH: u32 = 1 << 23;

/// The shortest level measured is 23 µs; glitches are shorter.
const SHORTEST: u32 = 20;

/// Reads 24-bit clocked frames from the edges of two lines.
#[derive(Clone, Copy, Debug)]
pub struct Clocked24 {
    edges: Edges,
}

impl Clocked24 {
    /// A decoder that waits for the first silence: the time now, and the levels that the two lines have.
    #[must_use]
    pub const fn new(now: u32, clock: bool, data: bool) -> Self {
        let timing = Timing {
            shortest: SHORTEST,
            sampled: Sampled::Returning,
            inverts: true,
        };
        Self {
            edges: Edges::new(timing, now, clock, data),
        }
    }

    /// Takes in an edge of the clock: when it was, in microseconds, the level of the clock after it, and the level of
    /// the data line within 47 µs of it. Edges of the data line may be told as well. Times may wrap; they should be
    /// true to a few microseconds, as a level shorter than 20 µs is taken for a glitch.
    pub fn edge(&mut self, now: u32, clock: bool, data: bool) -> Option<Event> {
        self.edges.edge(now, clock, data).map(frame)
    }

    /// Takes in that time passed. Called every few milliseconds, it brings a reading 5 ms after its last edge; without
    /// it a reading comes with the first edge of the next, and a frame behind half an hour without any call may be lost.
    pub fn elapse(&mut self, now: u32) -> Option<Event> {
        self.edges.elapse(now).map(frame)
    }

    /// Reads the bits of a whole frame, the first in the lowest place.
    ///
    /// # Errors
    ///
    /// [`Trouble::Marks`] when bits are set that have no meaning, [`Trouble::TooLarge`] when no caliper spans it.
    pub fn word(bits: u32) -> Result<Event, Trouble> {
        if bits & CLEAR != 0 || bits >> BITS != 0 {
            return Err(Trouble::Marks);
        }
        let (unit, places, step) = if bits & INCH == 0 {
            (Unit::Millimetre, 2, 1)
        } else {
            (Unit::Inch, 4, 5)
        };
        let size = i64::from(bits & SIZE) * i64::from(step);
        let digits = if bits & MINUS == 0 { size } else { -size };
        let shown = Decimal::new(digits, places).ok_or(Trouble::Digits)?;
        GaugeReading::new(shown.in_steps_of(step), Some(unit)).map(Event::Reading)
    }
}

/// What came between two silences.
fn frame(framed: Result<Frame, Trouble>) -> Event {
    event(framed.and_then(|frame| {
        if frame.count != BITS {
            return Err(Trouble::Bits(frame.count));
        }
        if !frame.high {
            return Err(Trouble::Stuck);
        }
        Clocked24::word(u32::try_from(frame.bits).map_err(|_| Trouble::Marks)?)
    }))
}
