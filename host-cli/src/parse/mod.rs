//! Reads lengths, temperatures, clock positions, pressures and the like as people type them.
//!
//! Of readings, nothing uses floating point: one that sits on the edge between
//! two pipes must land on the same side on every machine. Digits and fractions
//! are exact until they are rounded, once, to a whole count.

mod clock;
mod error;
mod length;
mod measure;
mod quantity;
mod scan;
mod temperature;
mod tokens;

pub(crate) use clock::clock;
#[allow(
    unused_imports,
    reason = "for a caller that keeps or inspects the error"
)]
pub(crate) use error::ParseError;
pub(crate) use length::{Limits, length, length_at_clock};
pub(crate) use measure::{angle, distance, duration, flow, pressure, speed, volume};
pub(crate) use temperature::temperature;

/// Counts of 10 nm in one inch (the inch is 25.4 mm by definition).
pub(crate) const COUNTS_PER_INCH: u32 = 2_540_000;
/// Counts of 10 nm in one millimetre.
pub(crate) const COUNTS_PER_MM: u32 = 100_000;
/// Counts of 10 nm in one foot of twelve inches.
pub(crate) const COUNTS_PER_FOOT: u32 = 12 * COUNTS_PER_INCH;

/// The unit that a bare number is taken to be in, and that lengths are shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    /// Inches.
    Inch,
    /// Millimetres.
    Millimetre,
}

#[cfg(test)]
mod fuzz;
