//! The standard normal law in fixed point.

use super::Real;
use super::tables::{EXP2, FAR_TAIL, RSQRT, TAIL};

/// Bits below the point of a standard score `z`.
const Z_BITS: u32 = 15;
/// Beyond this score a tail counts as nothing: 1e-12.
const Z_MAX: i64 = 224 << (Z_BITS - 5);
/// Where the table of the far tail takes over: 3.5.
const Z_FAR: u32 = 112 << (Z_BITS - 5);
/// Places of a chance below the point.
pub(crate) const CHANCE_BITS: u32 = 44;
/// 1/(2 ln 2), Q32: the power of two in the normal density.
const HALF_LOG2_E: u64 = 3_098_164_010;
/// 1/sqrt(2 pi), Q32.
const PHI_0: u64 = 1_713_444_047;

/// One over a standard deviation, kept as a mantissa and a shift.
#[derive(Clone, Copy, Debug)]
pub(crate) struct InverseSigma {
    /// Q32, in 1/2 .. 1.
    mantissa: u32,
    /// `1/sigma = mantissa × 2^-(32 + shift)`.
    shift: u32,
}

impl InverseSigma {
    /// Of a variance in squared counts; a variance of zero counts as one. Relative error below 2e-8.
    #[inline]
    pub(crate) fn of_variance(variance: u64) -> Self {
        // The variance as m × 4^shift with m in 1 .. 4, Q30.
        let variance = variance | 1;
        let shift = variance.ilog2() / 2;
        let m = if shift >= 15 {
            low_word(variance >> (2 * shift - 30))
        } else {
            low_word(variance << (30 - 2 * shift))
        };
        let (low, high) = pair(&RSQRT, m.wrapping_sub(1 << 30) >> 25);
        let fraction = u64::from(m & ((1 << 25) - 1));
        let guess = low - low_word((u64::from(low - high) * fraction) >> 25);
        // One Newton step: r (3 - m r²) / 2.
        let square = (u64::from(guess) * u64::from(guess)) >> 32;
        let product = (u64::from(m) * square) >> 30;
        let correction = low_word((3u64 << 32).wrapping_sub(product) >> 2);
        let root = (u64::from(guess) * u64::from(correction)) >> 31;
        Self {
            mantissa: u32::try_from(root).unwrap_or(u32::MAX),
            shift,
        }
    }

    /// The score of a distance in counts, Q15, held to ±7 beyond which nothing matters.
    #[inline]
    #[allow(
        clippy::cast_possible_truncation,
        reason = "clamped to seven, Q15, before it is narrowed"
    )]
    fn score(self, distance: i32) -> i32 {
        // One place less than the mantissa has, so that a signed multiplication of two words does.
        let product = i64::from(distance) * i64::from((self.mantissa >> 1).cast_signed());
        let z = product >> (31 + self.shift - Z_BITS);
        z.clamp(-Z_MAX, Z_MAX) as i32
    }

    /// The mantissa (Q32) and the shift.
    pub(crate) fn parts(self) -> (u32, u32) {
        (self.mantissa, self.shift)
    }
}

/// The low 32 bits: all there is, where it is used.
#[inline]
#[allow(
    clippy::cast_possible_truncation,
    reason = "callers have shifted the value into 32 bits"
)]
const fn low_word(value: u64) -> u32 {
    value as u32
}

/// Neighbouring entries of a table.
#[inline]
fn pair(table: &[u32], index: u32) -> (u32, u32) {
    let at = index as usize;
    let low = table.get(at).copied().unwrap_or(0);
    let high = table.get(at + 1).copied().unwrap_or(low);
    (low, high)
}

/// The upper tail of a score that is not negative, Q44.
#[inline]
fn tail(z: u32) -> u64 {
    let (table, from, shift): (&[u32], _, _) = if z < Z_FAR {
        (&TAIL, z, CHANCE_BITS - 32)
    } else {
        (&FAR_TAIL, z - Z_FAR, 0)
    };
    let (low, high) = pair(table, from >> (Z_BITS - 5));
    let fraction = u64::from(from & ((1 << (Z_BITS - 5)) - 1));
    (u64::from(low) << shift) - (((u64::from(low - high) * fraction) << shift) >> (Z_BITS - 5))
}

/// `2^-power` of a power in Q30: the mantissa in Q32 and how far it is to be shifted down.
#[inline]
fn exp2_minus(power: u64) -> (u32, u64) {
    let (low, high) = pair(&EXP2, low_word(power >> 24) & 63);
    let fraction = power & ((1 << 24) - 1);
    (
        low - low_word((u64::from(low - high) * fraction) >> 24),
        power >> 30,
    )
}

/// The density of a score, Q44.
fn phi(z: i32) -> u64 {
    let square = u64::from(z.unsigned_abs()) * u64::from(z.unsigned_abs());
    // Q30 × Q32 needs 68 bits; two places of the square are not missed.
    let (unit, shift) = exp2_minus(((square >> 6) * (HALF_LOG2_E >> 4)) >> 22);
    ((u64::from(unit) * PHI_0) >> (64 - CHANCE_BITS))
        .checked_shr(u32::try_from(shift).unwrap_or(u32::MAX))
        .unwrap_or(0)
}

/// `exp(-square / 2)` of a squared score, Q20. Never zero: the far tail is what tells two bad fits apart.
pub(crate) fn exp_half(square: u64) -> Real {
    let power = (u128::from(square) * u128::from(HALF_LOG2_E)) >> 22;
    let (unit, shift) = exp2_minus(u64::try_from(power).unwrap_or(u64::MAX));
    let shift = i32::try_from(shift).unwrap_or(i32::MAX / 2);
    Real::unsigned(u64::from(unit), -32 - shift)
}

/// The density of a normal law at a distance in counts from its mean, per count.
pub(crate) fn density(distance: i32, variance: u64) -> Real {
    let sigma = InverseSigma::of_variance(variance);
    let (mantissa, shift) = sigma.parts();
    // A count of 2^-44 keeps the far tail above zero to seven sigma; 20 places of the mantissa are its better half.
    let unit = phi(sigma.score(distance)) * u64::from(mantissa >> 12);
    Real::unsigned(
        unit,
        12 - 32 - CHANCE_BITS.cast_signed() - shift.cast_signed(),
    )
}

/// The chance that a normal law of mean zero lies between two distances, Q44.
///
/// Relative error below 1 % where the nearer distance is within six sigma, below 1e-4 in the middle.
pub(crate) fn interval(low: i32, high: i32, sigma: InverseSigma) -> u64 {
    let (a, b) = (sigma.score(low), sigma.score(high));
    let width = (b - a).max(0).unsigned_abs();
    if width >> (Z_BITS - 2) == 0 {
        return narrow(low, high, sigma);
    }
    if a >= 0 {
        tail(a.unsigned_abs()).saturating_sub(tail(b.unsigned_abs()))
    } else if b <= 0 {
        tail(b.unsigned_abs()).saturating_sub(tail(a.unsigned_abs()))
    } else {
        (1u64 << CHANCE_BITS).saturating_sub(tail(a.unsigned_abs()) + tail(b.unsigned_abs()))
    }
}

/// The same for an interval below a quarter of sigma: width times density at its middle, with the next term of the
/// series, because the difference of two interpolated tails would show the table's steps.
fn narrow(low: i32, high: i32, sigma: InverseSigma) -> u64 {
    let middle = sigma.score(i32::midpoint(low, high));
    let held = u64::from(high.abs_diff(low));
    let (mantissa, shift) = sigma.parts();
    let width = (held * u64::from(mantissa)) >> (12 + shift);
    // Width and middle are Q20 and Q15: 1 + w² (z² - 1) / 24, Q20.
    let square = (width * width) >> 20;
    let bend = ((i64::from(middle) * i64::from(middle)) >> 10) - (1 << 20);
    let term = (square.cast_signed() * bend / 24) >> 20;
    let factor = ((1 << 20) + term).unsigned_abs();
    let chance = ((phi(middle) >> 4) * width) >> 16;
    (chance * factor) >> 20
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn upper(z: f64) -> f64 {
        0.5 * libm::erfc(z / core::f64::consts::SQRT_2)
    }

    /// The tables themselves, against libm.
    #[test]
    fn tables_are_what_they_say() {
        let near = |got: u32, want: f64| (f64::from(got) - want * 4_294_967_296.0).abs() <= 1.0;
        for (i, entry) in TAIL.iter().enumerate() {
            assert!(near(*entry, upper(i as f64 / 32.0)), "tail {i}");
        }
        for (i, entry) in FAR_TAIL.iter().enumerate() {
            let want = upper(3.5 + i as f64 / 32.0) * 4096.0;
            assert!(near(*entry, want), "far tail {i}");
        }
        for (i, entry) in EXP2.iter().enumerate() {
            assert!(near(*entry, libm::exp2(-(i as f64) / 64.0)), "exp2 {i}");
        }
        for (i, entry) in RSQRT.iter().enumerate() {
            assert!(
                near(*entry, 1.0 / libm::sqrt(1.0 + i as f64 / 32.0)),
                "rsqrt {i}"
            );
        }
        let half_log2_e = core::f64::consts::LOG2_E / 2.0 * 4_294_967_296.0;
        assert!((HALF_LOG2_E as f64 - half_log2_e).abs() < 1.0);
        assert!((PHI_0 as f64 - 4_294_967_296.0 / libm::sqrt(core::f64::consts::TAU)).abs() < 1.0);
    }

    proptest! {
        #[test]
        fn inverse_sigma_is_exact_to_2e_8(variance in 1u64..(1 << 56)) {
            let (mantissa, shift) = InverseSigma::of_variance(variance).parts();
            let got = f64::from(mantissa) * libm::exp2(-32.0 - f64::from(shift));
            let want = 1.0 / libm::sqrt((variance | 1) as f64);
            prop_assert!((got / want - 1.0).abs() < 2e-8, "{got} {want}");
        }

        #[test]
        fn intervals_agree_with_erfc(
            sigma in 1_000i64..4_000_000, centre in -7.0f64..7.0, log_width in -8.0f64..3.0,
        ) {
            let s = sigma as f64;
            let half = libm::exp2(log_width) / 2.0;
            let low = libm::round((centre - half) * s) as i32;
            let high = libm::round((centre + half) * s) as i32;
            prop_assume!(high > low);
            let got = interval(low, high, InverseSigma::of_variance((sigma * sigma) as u64)) as f64
                / libm::exp2(44.0);
            let (a, b) = (f64::from(low) / s, f64::from(high) / s);
            let want = if a > 0.0 { upper(a) - upper(b) } else { upper(-b) - upper(-a) };
            let nearest = if a > 0.0 { a } else if b < 0.0 { -b } else { 0.0 };
            if nearest < 6.0 {
                let counts = 2.0 / libm::exp2(44.0);
                prop_assert!((got - want).abs() < 0.012 * want + counts, "{a} {b}: {got} {want}");
            }
            prop_assert!((got - want).abs() < 1.2e-4, "{a} {b}: {got} {want}");
        }
    }
}
