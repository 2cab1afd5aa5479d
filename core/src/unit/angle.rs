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
    #[inline]
    pub fn sin(self) -> f64 {
        self.circle(0)
    }

    /// Its cosine.
    #[must_use]
    #[inline]
    pub fn cos(self) -> f64 {
        self.circle(1)
    }

    /// Its tangent: as the quotient of the other two, which are there already and cost a handheld no more flash.
    #[must_use]
    #[inline]
    pub fn tan(self) -> f64 {
        self.sin() / self.cos()
    }

    /// The sine so many quarter turns on. Whole quarter turns are taken off in degrees, where that is exact; what is left lies within
    /// 45° of nothing, where nine terms of a series are all that a number of 53 bits holds. A library's functions reduce radians of
    /// any size, for 5 KB of flash.
    #[inline(never)]
    fn circle(self, quarters: i32) -> f64 {
        let half = 0.5_f64.copysign(self.0);
        // The cast cuts off towards nothing.
        #[expect(clippy::cast_possible_truncation, reason = "the cast saturates")]
        let turned = (self.0 / 90.0 + half) as i32;
        let x = (self.0 - 90.0 * f64::from(turned)).to_radians();
        let quarter = turned.wrapping_add(quarters);
        let (terms, times) = if quarter & 1 == 0 {
            (&SINE, x)
        } else {
            (&COSINE, 1.0)
        };
        let square = x * x;
        let sum = terms.iter().rfold(0.0, |sum, term| sum * square + term);
        if quarter & 2 == 0 {
            sum * times
        } else {
            -sum * times
        }
    }
}

/// One over the factorials of odd numbers, signs in turn: the series of the sine.
const SINE: [f64; 9] = series(1);
/// The same of even numbers: that of the cosine.
const COSINE: [f64; 9] = series(0);

const fn series(first: u64) -> [f64; 9] {
    let mut terms = [0.0; 9];
    let (mut at, mut factorial, mut number) = (0, 1.0, first);
    while at < terms.len() {
        #[expect(clippy::cast_precision_loss, reason = "below 20")]
        let both = ((number + 1) * (number + 2)) as f64;
        terms[at] = 1.0 / factorial;
        factorial *= -both;
        number += 2;
        at += 1;
    }
    terms
}
