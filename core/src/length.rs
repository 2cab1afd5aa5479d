//! Lengths as integers.

use core::ops::{Add, Neg, Sub};

/// A length in counts of 10 nm, so that 0.01 mm, 0.001 in, 0.0005 in and 0.0001 in are all exact. Range ±21 m.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i32);

impl Length {
    /// Counts in one inch.
    pub const INCH: i32 = 2_540_000;
    /// Counts in one millimetre.
    pub const MILLIMETRE: i32 = 100_000;
    /// No length.
    pub const ZERO: Self = Self(0);

    /// A length of so many counts of 10 nm.
    #[must_use]
    pub const fn from_counts(counts: i32) -> Self {
        Self(counts)
    }

    /// A length of so many thousandths of an inch; `None` beyond ±845 in.
    #[must_use]
    pub const fn from_mils(mils: i32) -> Option<Self> {
        match mils.checked_mul(Self::INCH / 1000) {
            Some(counts) => Some(Self(counts)),
            None => None,
        }
    }

    /// The length in counts of 10 nm.
    #[must_use]
    pub const fn counts(self) -> i32 {
        self.0
    }

    /// The length in thousandths of an inch, rounded to the nearest, halves away from zero.
    #[must_use]
    pub const fn mils(self) -> i32 {
        const MIL: i32 = Length::INCH / 1000;
        let half = if self.0 < 0 { -MIL / 2 } else { MIL / 2 };
        self.0.saturating_add(half) / MIL
    }
}

impl Add for Length {
    type Output = Self;

    /// Saturates at the ends of the range.
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;

    /// Saturates at the ends of the range.
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;

    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

/// A unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Inches.
    Inch,
}

impl Unit {
    /// Counts of 10 nm in one.
    #[must_use]
    pub const fn counts(self) -> i32 {
        match self {
            Self::Millimetre => Length::MILLIMETRE,
            Self::Inch => Length::INCH,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_steps_of_every_instrument_are_exact() {
        for (counts, per) in [(254_000_000, 100), (127_000_000, 100), (25_400_000, 100)] {
            assert_eq!(counts % per, 0);
        }
        assert_eq!(Length::from_mils(1).map(Length::counts), Some(2540));
        assert_eq!(Length::MILLIMETRE % 100, 0);
    }

    #[test]
    fn mils_round_to_the_nearest() {
        assert_eq!(Length::from_counts(2540 * 6625 + 1269).mils(), 6625);
        assert_eq!(Length::from_counts(2540 * 6625 + 1270).mils(), 6626);
        assert_eq!(Length::from_counts(-1270).mils(), -1);
        assert_eq!(Length::from_mils(i32::MAX), None);
    }
}
