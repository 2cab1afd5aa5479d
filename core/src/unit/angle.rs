//! Angles: how far a line turns, and how soil slides.

/// An angle. Of a bend it is the change of direction: a quarter turn is 90°.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Angle {
    /// Straight on.
    pub const ZERO: Self = Self(0.0);

    /// Degrees.
    #[must_use]
    pub const fn degrees(value: f64) -> Self {
        Self(value)
    }

    /// Whole degrees and minutes of arc, as deflections are printed.
    #[must_use]
    pub const fn degrees_and_minutes(degrees: f64, minutes: f64) -> Self {
        Self(degrees + minutes / 60.0)
    }

    /// Degrees.
    #[must_use]
    pub const fn in_degrees(self) -> f64 {
        self.0
    }

    /// So many times it.
    #[must_use]
    pub const fn times(self, times: f64) -> Self {
        Self(self.0 * times)
    }

    /// Half of it.
    #[must_use]
    pub const fn half(self) -> Self {
        Self(self.0 / 2.0)
    }

    /// The two together.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }

    /// Its sine.
    #[must_use]
    pub fn sin(self) -> f64 {
        libm::sin(self.0.to_radians())
    }

    /// Its cosine.
    #[must_use]
    pub fn cos(self) -> f64 {
        libm::cos(self.0.to_radians())
    }

    /// Its tangent: as the quotient of the other two, which are there already and cost a handheld no more flash.
    #[must_use]
    pub fn tan(self) -> f64 {
        self.sin() / self.cos()
    }
}
