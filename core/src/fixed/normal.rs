//! The standard normal law in fixed point.

use super::Real;
use super::tables::{EXP2, FAR_TAIL, LOG2, RSQRT, TAIL};

/// Bits below the point of a standard score `z`.
const Z_BITS: u32 = 15;
/// Beyond this score a tail counts as nothing: 1e-12.
const Z_MAX: i32 = 224 << (Z_BITS - 5);
/// Where the table of the far tail takes over: 3.5.
const Z_FAR: u32 = 112 << (Z_BITS - 5);
/// Places of a chance below the point.
pub(crate) const CHANCE_BITS: u32 = 44;
/// 1/(2 ln 2), Q32: the power of two in the normal density.
const HALF_LOG2_E: u32 = 3_098_164_010;
/// 1/sqrt(2 pi), Q32.
const PHI_0: u32 = 1_713_444_047;

/// One over a standard deviation, kept as a mantissa and a shift.
#[derive(Clone, Copy, Debug)]
pub(crate) struct InverseSigma {
    /// Q32, in 1/2 .. 1.
    mantissa: u32,
    /// `1/sigma = mantissa × 2^-(32 + shift)`.
    shift: u32,
}

impl InverseSigma {
    /// Of a variance in squared counts; a variance of zero counts as one. Relative error below 3e-5: a table suffices, since
    /// even at six sigma that moves a density by a thousandth.
    #[inline]
    pub(crate) fn of_variance(variance: u64) -> Self {
        // The variance as m × 4^shift with m in 1 .. 4, Q30.
        let variance = variance | 1;
        let lead = variance.leading_zeros() & !1;
        let m = low_word((variance << lead) >> 32);
        let (low, high) = pair(&RSQRT, (m >> 24).wrapping_sub(64));
        let fraction = m & ((1 << 24) - 1);
        Self {
            mantissa: low - high_word((low - high) << 7, fraction << 1),
            shift: 31 - lead / 2,
        }
    }

    /// The score of a distance in counts, Q15, held to ±7 beyond which nothing matters.
    #[inline]
    fn score(self, distance: i32) -> i32 {
        // A standard deviation is less than twice 2^shift: sixteen times that is beyond any score that counts.
        if distance.unsigned_abs() >> (self.shift + 4).min(31) != 0 {
            return if distance < 0 { -Z_MAX } else { Z_MAX };
        }
        // Q26 of 2^shift, so that the upper word of one signed product is the score.
        let places = 26 - self.shift.cast_signed();
        let scaled = if places < 0 {
            distance >> -places
        } else {
            distance << places
        };
        let product = i64::from(scaled) * i64::from((self.mantissa >> 1).cast_signed());
        (upper(product) >> (25 - Z_BITS)).clamp(-Z_MAX, Z_MAX)
    }

    /// The mantissa (Q32) and the shift.
    fn parts(self) -> (u32, u32) {
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

/// The upper word of a product of two.
#[inline]
const fn high_word(a: u32, b: u32) -> u32 {
    low_word((a as u64 * b as u64) >> 32)
}

/// The upper word of a signed long number.
#[inline]
#[allow(clippy::cast_possible_truncation, reason = "32 bits are left")]
const fn upper(value: i64) -> i32 {
    (value >> 32) as i32
}

/// Neighbouring entries of a table.
#[inline]
fn pair<const N: usize>(table: &[u32; N], index: u32) -> (u32, u32) {
    match table.get(index as usize..) {
        Some([low, high, ..]) => (*low, *high),
        _ => (0, 0),
    }
}

/// The upper tail of a score that is not negative and below [`Z_FAR`], Q32.
#[inline]
fn near_tail(z: u32) -> u32 {
    let (low, high) = pair(&TAIL, z >> (Z_BITS - 5));
    // Six places of the step are not missed; with them the product would not fit a word.
    low - ((((low - high) >> 6) * (z & ((1 << (Z_BITS - 5)) - 1))) >> (Z_BITS - 5 - 6))
}

/// The upper tail of a score from [`Z_FAR`] on, Q44, which is 32 bits long there.
#[inline]
fn far_tail(z: u32) -> u32 {
    let from = z - Z_FAR;
    let (low, high) = pair(&FAR_TAIL, from >> (Z_BITS - 5));
    low - high_word(low - high, from << (32 - (Z_BITS - 5)))
}

/// The upper tail of a score that is not negative, Q32.
#[inline]
fn tail(z: u32) -> u32 {
    if z < Z_FAR {
        near_tail(z)
    } else {
        far_tail(z) >> (CHANCE_BITS - 32)
    }
}

/// `2^-power` of a power in Q22, its fraction: Q32.
#[inline]
fn exp2_minus(power: u32) -> u32 {
    let (low, high) = pair(&EXP2, (power >> 16) & 63);
    low - ((((low - high) >> 10) * (power & 0xffff)) >> 6)
}

/// Two to the minus a sixteenth of `power`.
pub(crate) fn exp2_sixteenths(power: u8) -> Real {
    let unit = exp2_minus(u32::from(power) << 18 & 0x3f_ffff);
    Real::unsigned(u64::from(unit), -32 - i32::from(power >> 4))
}

/// The density of a score: its mantissa, Q32, and how far it is to be shifted down.
#[inline]
fn phi(z: i32) -> (u32, u32) {
    let z = z.unsigned_abs() << 12;
    let power = high_word(high_word(z, z), HALF_LOG2_E);
    (high_word(exp2_minus(power), PHI_0), power >> 22)
}

/// The base-two logarithm of a Q30 share above zero, Q16: never above zero. Absolute error below 1e-4.
pub(crate) fn log2_share(q30: u32) -> i32 {
    let q30 = q30.max(1);
    let lead = q30.leading_zeros();
    // The leading one goes; six bits find the entry, sixteen lie between two.
    let mantissa = (q30 << lead) << 1;
    let (low, high) = pair(&LOG2, mantissa >> 26);
    let between = (((high - low) >> 10) * ((mantissa >> 10) & 0xffff)) >> 6;
    let part = (low + between) >> 14;
    part.cast_signed() + ((1 - lead.cast_signed()) << 16)
}

/// `exp(-square / 2)` of a squared score, Q20. Never zero: the far tail is what tells two bad fits apart.
pub(crate) fn exp_half(square: u64) -> Real {
    let power = if square >> 32 == 0 {
        (square * u64::from(HALF_LOG2_E)) >> 30
    } else {
        let power = (u128::from(square) * u128::from(HALF_LOG2_E)) >> 30;
        u64::try_from(power).unwrap_or(u64::MAX)
    };
    let unit = exp2_minus(low_word(power & 0x3f_ffff));
    let shift = i32::try_from(power >> 22).unwrap_or(i32::MAX / 2);
    Real::unsigned(u64::from(unit), -32 - shift)
}

/// Places of a [`density`] below the point.
pub(crate) const DENSITY_BITS: i32 = 68;

/// A share (Q15) of the density of a normal law at a distance in counts from its mean, per count, in [`DENSITY_BITS`].
///
/// A fixed point that holds the peak of the narrowest law that counts, sigma 2^6 counts, and seven sigma of one of 40 in.
pub(crate) fn density(distance: i32, variance: u64, share: u16) -> u64 {
    let sigma = InverseSigma::of_variance(variance);
    let (mantissa, shift) = sigma.parts();
    let (unit, down) = phi(sigma.score(distance));
    // Q32 of 2^-shift, then Q47; 16 places up fill the word.
    let part = u64::from(high_word(unit, mantissa)) * u64::from(share);
    let down = down + shift.max(6);
    (part << 16).checked_shr(down - 5).unwrap_or(0)
}

/// The chance that a normal law of mean zero lies between two distances, Q44.
///
/// Relative error below 1 % where the nearer distance is within six sigma, below 1e-4 in the middle.
#[inline]
pub(crate) fn interval(low: i32, high: i32, sigma: InverseSigma) -> u64 {
    let (a, b) = (sigma.score(low), sigma.score(high));
    if a == Z_MAX || b == -Z_MAX {
        return 0;
    }
    // A quarter of a sigma at most.
    let held = high.abs_diff(low);
    if held >> sigma.shift.saturating_sub(2) == 0 {
        return narrow(sigma.score(i32::midpoint(low, high)), held, sigma);
    }
    // The law is symmetric: an interval below zero is that above it.
    let (near, far) = if b <= 0 { (-b, -a) } else { (a, b) };
    let (near, far) = (near, far.unsigned_abs());
    let chance = if near < 0 {
        // One is 2^32 and does not fit; a count below it does.
        u32::MAX - (tail(near.unsigned_abs()) + tail(far))
    } else if near.unsigned_abs() < Z_FAR {
        near_tail(near.unsigned_abs()).saturating_sub(tail(far))
    } else {
        return u64::from(far_tail(near.unsigned_abs()).saturating_sub(far_tail(far)));
    };
    u64::from(chance) << (CHANCE_BITS - 32)
}

/// The same for an interval of less than a quarter of sigma about a score, `held` counts wide: width times density at its middle, with the next term of the
/// series, because the difference of two interpolated tails would show the table's steps.
fn narrow(z: i32, held: u32, sigma: InverseSigma) -> u64 {
    let (mantissa, shift) = sigma.parts();
    // Q32 of 2^shift, a quarter of it at most.
    let held = held << (32 - shift).min(31);
    let width = high_word(held, mantissa);
    // 1 + w² (z² - 1) / 24: Q32 times Q20.
    let square = high_word(width, width);
    let bend = upper(i64::from(z << 11) * i64::from(z << 11)) - (1 << 20);
    let term = upper(i64::from(square >> 1) * i64::from(bend)) / 12;
    let width = high_word(width << 1, ((1 << 20) + term).unsigned_abs() << 11);
    let (unit, down) = phi(z);
    (u64::from(unit) * u64::from(width))
        .checked_shr(64 - CHANCE_BITS + down)
        .unwrap_or(0)
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
        for (i, entry) in LOG2.iter().enumerate() {
            let want = libm::log2(1.0 + i as f64 / 64.0) * 1_073_741_824.0;
            assert!((f64::from(*entry) - want).abs() <= 1.0, "log2 {i}");
        }
        for (i, entry) in RSQRT.iter().enumerate() {
            assert!(
                near(*entry, 1.0 / libm::sqrt(1.0 + i as f64 / 64.0)),
                "rsqrt {i}"
            );
        }
        let half_log2_e = core::f64::consts::LOG2_E / 2.0 * 4_294_967_296.0;
        assert!((f64::from(HALF_LOG2_E) - half_log2_e).abs() < 1.0);
        assert!(
            (f64::from(PHI_0) - 4_294_967_296.0 / libm::sqrt(core::f64::consts::TAU)).abs() < 1.0
        );
    }

    #[test]
    fn sixteenths_are_powers_of_two() {
        for power in 0..=255u8 {
            let want = libm::exp2(-f64::from(power) / 16.0);
            let got = exp2_sixteenths(power).to_fixed(40) as f64 / libm::exp2(40.0);
            assert!((got - want).abs() <= want * 1e-4, "{power}: {got} {want}");
        }
    }

    proptest! {
        #[test]
        fn logarithms_of_shares_agree(q30 in 1u32..=1 << 30) {
            let got = f64::from(log2_share(q30)) / 65536.0;
            let want = libm::log2(f64::from(q30) / 1_073_741_824.0);
            prop_assert!((got - want).abs() < 1e-4, "{got} {want}");
        }

        #[test]
        fn inverse_sigma_is_exact_to_3e_5(variance in 1u64..(1 << 56)) {
            let (mantissa, shift) = InverseSigma::of_variance(variance).parts();
            let got = f64::from(mantissa) * libm::exp2(-32.0 - f64::from(shift));
            let want = 1.0 / libm::sqrt((variance | 1) as f64);
            prop_assert!((got / want - 1.0).abs() < 3e-5, "{got} {want}");
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
