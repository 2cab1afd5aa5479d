//! Temperatures, and how far apart two are.

use core::ops::Sub;

/// A temperature. Two cannot be added; their difference is a [`Warming`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// How much warmer: a difference of temperatures, and of nothing else.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Warming(f64);

impl Temperature {
    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(value: f64) -> Self {
        Self(value)
    }

    /// Degrees Celsius.
    #[must_use]
    pub const fn celsius(value: f64) -> Self {
        Self(value * 1.8 + 32.0)
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn in_fahrenheit(self) -> f64 {
        self.0
    }

    /// Degrees Celsius.
    #[must_use]
    pub const fn in_celsius(self) -> f64 {
        (self.0 - 32.0) / 1.8
    }
}

impl Sub for Temperature {
    type Output = Warming;
    fn sub(self, other: Self) -> Warming {
        Warming(self.0 - other.0)
    }
}

impl Warming {
    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(value: f64) -> Self {
        Self(value)
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn in_fahrenheit(self) -> f64 {
        self.0
    }

    /// Degrees Celsius, which are kelvins.
    #[must_use]
    pub const fn in_celsius(self) -> f64 {
        self.0 / 1.8
    }
}
