//! Numbers as gauges show them.

use crate::length::{Length, Unit};

/// A number with a decimal point, digit for digit: 12.340 is not 12.34. Nothing below zero is left of a zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Decimal {
    digits: i64,
    places: u8,
    step: u8,
}

impl Decimal {
    /// The most digits that are taken.
    pub const MAX_DIGITS: u8 = 10;

    /// A number from its digits without the point, and how many of them are behind it; `None` for more than
    /// [`Decimal::MAX_DIGITS`] digits, or nothing but digits behind the point.
    #[must_use]
    pub const fn new(digits: i64, places: u8) -> Option<Self> {
        if digits.unsigned_abs() >= 10_000_000_000 || places >= Self::MAX_DIGITS {
            return None;
        }
        Some(Self {
            digits,
            places,
            step: 1,
        })
    }

    /// The same, of a display whose last digit goes in steps of so many.
    pub(crate) const fn in_steps_of(mut self, step: u8) -> Self {
        self.step = step;
        self
    }

    /// The digits without the point, with the sign.
    #[must_use]
    pub const fn digits(self) -> i64 {
        self.digits
    }

    /// Digits behind the point.
    #[must_use]
    pub const fn places(self) -> u8 {
        self.places
    }

    /// One step of the display, in units of its last digit: 1, or 5 for a caliper that shows half thousandths.
    #[must_use]
    pub const fn step(self) -> u8 {
        self.step
    }

    /// The number as a length; `None` beyond the range of lengths. What is finer than 10 nm is rounded to the nearest,
    /// halves away from zero: to 0.00001 mm and 0.0001 in nothing is.
    #[must_use]
    pub fn length(self, unit: Unit) -> Option<Length> {
        counts(self.digits, self.places, unit).map(Length::from_counts)
    }

    /// One step of the display as a length, rounded in the same way.
    #[must_use]
    pub fn step_length(self, unit: Unit) -> Length {
        // Five inches at the most: always a length.
        counts(i64::from(self.step), self.places, unit).map_or(Length::ZERO, Length::from_counts)
    }
}

/// Digits behind a point as counts of 10 nm.
fn counts(digits: i64, places: u8, unit: Unit) -> Option<i32> {
    const POWERS: [i64; Decimal::MAX_DIGITS as usize] = [
        1,
        10,
        100,
        1_000,
        10_000,
        100_000,
        1_000_000,
        10_000_000,
        100_000_000,
        1_000_000_000,
    ];
    let power = *POWERS.get(usize::from(places))?;
    let half = if digits < 0 { -(power / 2) } else { power / 2 };
    digits
        .checked_mul(i64::from(unit.counts()))?
        .checked_add(half)?
        .checked_div(power)
        .and_then(|counts| i32::try_from(counts).ok())
}
