//! A small floating number made of integers.

use core::cmp::Ordering;

/// A number `mantissa × 2^exponent` in integers only, the same on every machine.
///
/// Weights of pipes span some forty powers of two and cannot share one fixed point; this type carries 30 bits of each.
/// Nothing here can panic: a quotient by zero is zero, and exponents saturate far outside anything that a reading can
/// produce.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Real {
    /// Zero, or of magnitude in `2^30 .. 2^31`.
    mantissa: i32,
    exponent: i32,
}

impl Real {
    /// Nothing.
    pub const ZERO: Self = Self {
        mantissa: 0,
        exponent: 0,
    };
    /// One.
    pub const ONE: Self = Self {
        mantissa: 1 << 30,
        exponent: -30,
    };

    /// `value × 2^exponent`.
    #[must_use]
    #[inline(never)]
    #[allow(clippy::cast_possible_truncation, reason = "the shift leaves 31 bits")]
    pub fn scaled(value: i64, exponent: i32) -> Self {
        let magnitude = value.unsigned_abs();
        if magnitude == 0 {
            return Self::ZERO;
        }
        let shift = 33 - magnitude.leading_zeros().cast_signed();
        let mantissa = if shift > 0 {
            (magnitude >> shift) as i32
        } else {
            (magnitude << -shift) as i32
        };
        Self {
            mantissa: if value < 0 { -mantissa } else { mantissa },
            exponent: exponent.saturating_add(shift),
        }
    }

    /// An unsigned `value × 2^exponent`.
    #[must_use]
    #[inline]
    #[allow(clippy::cast_possible_truncation, reason = "the shift leaves 31 bits")]
    pub fn unsigned(value: u64, exponent: i32) -> Self {
        if value == 0 {
            return Self::ZERO;
        }
        let lead = value.leading_zeros();
        Self {
            mantissa: ((value << lead) >> 33) as i32,
            exponent: exponent.saturating_add(33 - lead.cast_signed()),
        }
    }

    /// An integer.
    #[must_use]
    pub fn integer(value: i64) -> Self {
        Self::scaled(value, 0)
    }

    /// Whether the number is zero.
    #[must_use]
    pub fn is_zero(self) -> bool {
        self.mantissa == 0
    }

    /// The square root of a number that is not negative; zero otherwise.
    #[must_use]
    pub fn sqrt(self) -> Self {
        if self.mantissa <= 0 {
            return Self::ZERO;
        }
        // An even exponent, and 62 bits below the root so that its own 31 are exact.
        let odd = self.exponent & 1;
        let wide = (i64::from(self.mantissa) << (30 + odd)).unsigned_abs();
        Self::unsigned(wide.isqrt(), (self.exponent - odd - 30) >> 1)
    }

    /// A sum of two of opposite signs, the second `gap` places below the first.
    fn less(self, small: Self, gap: i32) -> Self {
        // One bit below the larger mantissa keeps the difference's last place.
        let sum = (i64::from(self.mantissa) << 31) + ((i64::from(small.mantissa) << 31) >> gap);
        Self::scaled(sum, self.exponent.saturating_sub(31))
    }

    /// The number as Q`bits` fixed point, truncated towards zero and saturated to what an `i64` holds.
    #[must_use]
    pub fn to_fixed(self, bits: i32) -> i64 {
        let shift = self.exponent.saturating_add(bits);
        let wide = i64::from(self.mantissa);
        match shift {
            i32::MIN..=-32 => 0,
            // Shifting the magnitude: an arithmetic shift would round towards minus infinity.
            -31..=-1 => {
                let magnitude = (wide.unsigned_abs() >> -shift).cast_signed();
                if wide < 0 { -magnitude } else { magnitude }
            }
            0..=31 => wide << shift,
            _ if wide == 0 => 0,
            _ if wide < 0 => i64::MIN,
            _ => i64::MAX,
        }
    }
}

impl core::ops::Add for Real {
    type Output = Self;

    /// Relative error below 2^-29 of the larger.
    #[inline(never)]
    fn add(self, other: Self) -> Self {
        let (large, small) =
            if other.mantissa == 0 || (self.mantissa != 0 && self.exponent >= other.exponent) {
                (self, other)
            } else {
                (other, self)
            };
        let gap = large.exponent.saturating_sub(small.exponent);
        if small.mantissa == 0 || gap > 31 {
            return large;
        }
        if (large.mantissa ^ small.mantissa) < 0 {
            return large.less(small, gap);
        }
        // Masses are never negative, and only differences need more than one word.
        let sum = large.mantissa.unsigned_abs() + (small.mantissa.unsigned_abs() >> gap);
        let carry = sum >> 31;
        let magnitude = (sum >> carry).cast_signed();
        Self {
            mantissa: if large.mantissa < 0 {
                -magnitude
            } else {
                magnitude
            },
            exponent: large.exponent.saturating_add(carry.cast_signed()),
        }
    }
}

impl core::ops::Neg for Real {
    type Output = Self;

    fn neg(self) -> Self {
        Self {
            mantissa: -self.mantissa,
            exponent: self.exponent,
        }
    }
}

impl core::ops::Sub for Real {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl core::ops::Mul for Real {
    type Output = Self;

    #[inline(never)]
    #[allow(clippy::cast_possible_truncation, reason = "the shift leaves 31 bits")]
    fn mul(self, other: Self) -> Self {
        let product =
            u64::from(self.mantissa.unsigned_abs()) * u64::from(other.mantissa.unsigned_abs());
        if product == 0 {
            return Self::ZERO;
        }
        // Two mantissas of 31 bits make 61 or 62.
        let full = (product >> 61) as u32;
        let magnitude = (product >> (30 + full)) as i32;
        Self {
            mantissa: if (self.mantissa ^ other.mantissa) < 0 {
                -magnitude
            } else {
                magnitude
            },
            exponent: self
                .exponent
                .saturating_add(other.exponent)
                .saturating_add(30 + full.cast_signed()),
        }
    }
}

impl core::ops::Div for Real {
    type Output = Self;

    #[allow(
        clippy::suspicious_arithmetic_impl,
        reason = "the shift keeps the quotient's places"
    )]
    /// Zero where the divisor is zero. Relative error below 2^-29.
    #[inline(never)]
    fn div(self, other: Self) -> Self {
        let divisor = other.mantissa.unsigned_abs();
        // A quotient of two words is one instruction where a quotient of four is a long call: 2^47 over the divisor to 16
        // bits, then one Newton step, r + r (1 - d r).
        let Some(rough) = u32::MAX.checked_div(divisor >> 15) else {
            return Self::ZERO;
        };
        let rough = i64::from(rough);
        let error = (1i64 << 47) - i64::from(divisor) * rough;
        let inverse = (rough << 14) + ((rough * (error >> 2)) >> 31);
        let quotient = (i64::from(self.mantissa) * inverse) >> 30;
        Self::scaled(
            if other.mantissa < 0 {
                -quotient
            } else {
                quotient
            },
            self.exponent
                .saturating_sub(other.exponent)
                .saturating_sub(31),
        )
    }
}

impl core::ops::AddAssign for Real {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl PartialOrd for Real {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Real {
    #[inline]
    fn cmp(&self, other: &Self) -> Ordering {
        if self.mantissa > 0 && other.mantissa > 0 {
            // One comparison of a long number for what is compared by far the most.
            let key = |r: &Self| (i64::from(r.exponent) << 32) | i64::from(r.mantissa);
            return key(self).cmp(&key(other));
        }
        let sign = |r: &Self| r.mantissa.signum();
        sign(self).cmp(&sign(other)).then_with(|| {
            let by_size = (self.exponent, self.mantissa.unsigned_abs())
                .cmp(&(other.exponent, other.mantissa.unsigned_abs()));
            by_size.reverse()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn float(r: Real) -> f64 {
        f64::from(r.mantissa) * libm::exp2(f64::from(r.exponent))
    }

    fn close(got: f64, want: f64) -> bool {
        (got - want).abs() <= want.abs() * 4e-9
    }

    #[test]
    fn the_corners() {
        assert_eq!(Real::ONE / Real::ZERO, Real::ZERO);
        assert_eq!(Real::ZERO + Real::ONE, Real::ONE);
        assert_eq!(Real::ONE + Real::ZERO, Real::ONE);
        assert_eq!(Real::integer(-5).to_fixed(1), -10);
        assert_eq!(Real::integer(i64::MIN).to_fixed(0), i64::MIN);
        assert_eq!(Real::integer(3).to_fixed(-1), 1);
        assert_eq!(Real::integer(-3).to_fixed(-1), -1);
        assert_eq!(Real::integer(2).sqrt().to_fixed(20), 1_482_910);
        assert_eq!(Real::unsigned(u64::MAX, 0).to_fixed(-32), 0xffff_fffe);
        assert!(Real::integer(-3) < Real::integer(-2) && Real::ZERO < Real::ONE);
    }

    proptest! {
        #[test]
        fn arithmetic_agrees_with_f64(a in any::<i64>(), b in any::<i64>(), shift in -40i32..40) {
            let (x, y) = (Real::integer(a), Real::scaled(b, shift));
            let (fx, fy) = (float(x), float(y));
            prop_assert!(close(float(x), a as f64));
            prop_assert!(close(float(x * y), fx * fy));
            let root = if a > 0 { fx.sqrt() } else { 0.0 };
            prop_assert!(close(float(x.sqrt()), root));
            if b != 0 {
                prop_assert!(close(float(x / y), fx / fy));
            }
            let sum = float(x + y);
            prop_assert!((sum - (fx + fy)).abs() <= 2e-9 * fx.abs().max(fy.abs()));
            prop_assert_eq!(x.cmp(&y), fx.partial_cmp(&fy).unwrap());
        }
    }
}
