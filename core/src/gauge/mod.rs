//! What a caliper's plug says: bytes or edges in, readings out.
//!
//! Three formats, each in a file of its own: [`ascii`] lines, the [`spc13`] frame of thirteen digits that a host asks
//! for, and the [`clocked24`] frame of 24 bits that sends itself. A decoder owns no port and no clock. Bytes are pushed,
//! edges come with their time, and each call returns at most one [`Event`]. Any input at all is taken, in bounded work
//! and without a panic, and after any damage a decoder is in step again at the next end of a line or the next silence.
//!
//! # What a reading is worth
//!
//! None of the formats carries a checksum. A flipped bit in a digit is another digit, and only the shape around the
//! digits can be held against the line (each format says what of it can). A value is fit to be shown when several
//! frames in a row agree, which is for the caller to see to, as only it knows how often its gauge speaks.
//!
//! What is held (a largest value), stored or computed by the gauge is not what its jaws measure now: it comes out as
//! [`Event::NotLive`], without a value, so that nobody can take it for a diameter.
//!
//! # Adding a format
//!
//! One file beside these and its line below. It has a decoder with `push` (bytes) or `edge` and `elapse` (times in
//! microseconds that may wrap; `edges.rs` does the framing), and one function from a whole line or frame to
//! `Result<Event, Trouble>` that refuses whatever its format does not say. What it shares is here: [`Decimal`] keeps
//! digits exact, [`GaugeReading`] refuses what no caliper spans, [`Trouble`] says why. In `tests/` it has an encoder
//! (`wire.rs`), lines in `tests/data/gauge-vectors.csv` with their public source, and a branch in the fuzz target
//! `gauge`.

pub mod ascii;
pub mod clocked24;
mod decimal;
mod edges;
pub mod spc13;
mod trouble;

#[cfg(test)]
mod tests;

pub use decimal::Decimal;
pub use trouble::{Fault, Trouble};

use crate::length::{Length, Unit};

/// What a gauge said, or what became of it on the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[must_use]
pub enum Event {
    /// What the jaws measure now.
    Reading(GaugeReading),
    /// A whole line or frame with a value that is not what the jaws measure now.
    NotLive(NotLive),
    /// The gauge says that it cannot measure.
    Fault(Fault),
    /// A line or frame that must not be believed. One event, however long the damage is.
    Damaged(Trouble),
}

/// A value that is not what the jaws measure now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NotLive {
    /// The largest value since the hold began.
    HeldLargest,
    /// The smallest value since the hold began.
    HeldSmallest,
    /// The largest less the smallest since the hold began.
    HeldSpread,
    /// An entry of the gauge's memory, by its number.
    Stored(u16),
    /// How many entries its memory has.
    Count(u16),
    /// The largest of its entries.
    Largest,
    /// The smallest of its entries.
    Smallest,
    /// The mean of its entries.
    Mean,
    /// The standard deviation of its entries.
    Deviation,
}

/// A live reading: the number as it was shown, and its unit where the gauge told it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GaugeReading {
    shown: Decimal,
    unit: Option<Unit>,
    judged: bool,
}

impl GaugeReading {
    /// The longest reading that is taken, either way from zero: 1050 mm.
    ///
    /// ASME B89.1.14 covers calipers to 1000 mm or 40 in; the rest is what a jaw may run past its scale (common
    /// practice, no source).
    pub const LARGEST: Length = Length::from_counts(1050 * Length::MILLIMETRE);

    /// A reading, its unit where the gauge told it.
    ///
    /// # Errors
    ///
    /// [`Trouble::TooLarge`] when no caliper spans it: in its unit, or in millimetres where none was told.
    pub fn new(shown: Decimal, unit: Option<Unit>) -> Result<Self, Trouble> {
        // What is too long in millimetres is so in inches all the more.
        spanned(shown, unit.unwrap_or(Unit::Millimetre))?;
        Ok(Self {
            shown,
            unit,
            judged: false,
        })
    }

    /// The same, with a verdict that the gauge added from limits of its own.
    pub(crate) const fn with_verdict(mut self, judged: bool) -> Self {
        self.judged = judged;
        self
    }

    /// The number as the gauge shows it.
    #[must_use]
    pub const fn shown(&self) -> Decimal {
        self.shown
    }

    /// The unit, where the gauge told it.
    #[must_use]
    pub const fn unit(&self) -> Option<Unit> {
        self.unit
    }

    /// Whether the gauge added a verdict from limits of its own. Makers give the codes opposite meanings, so that
    /// which verdict it was is not told.
    #[must_use]
    pub const fn judged(&self) -> bool {
        self.judged
    }

    /// The length, where the gauge told its unit.
    #[must_use]
    pub fn length(&self) -> Option<Length> {
        self.shown.length(self.unit?)
    }

    /// The length, in a unit that the user chose where the gauge told none. A unit that was told stands.
    ///
    /// # Errors
    ///
    /// [`Trouble::TooLarge`] when no caliper spans it in that unit.
    pub fn length_or(&self, chosen: Unit) -> Result<Length, Trouble> {
        spanned(self.shown, self.unit.unwrap_or(chosen))
    }

    /// One step of the display, in the unit that was told or in the one that the user chose.
    #[must_use]
    pub fn step_or(&self, chosen: Unit) -> Length {
        self.shown.step_length(self.unit.unwrap_or(chosen))
    }
}

/// A number as a length that a caliper may span.
fn spanned(shown: Decimal, unit: Unit) -> Result<Length, Trouble> {
    let within =
        |length: &Length| (-GaugeReading::LARGEST..=GaugeReading::LARGEST).contains(length);
    shown.length(unit).filter(within).ok_or(Trouble::TooLarge)
}

/// What a decoder returns for a line or frame that it read through.
fn event(read: Result<Event, Trouble>) -> Event {
    read.unwrap_or_else(Event::Damaged)
}
