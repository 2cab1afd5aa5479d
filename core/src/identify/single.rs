//! One reading: a mixture of a few normals on the diameter.

use super::belief::{Band, Belief, Squash, oval, portion, squared};
use super::sight::{Sight, View};
use crate::fixed::Real;
use crate::image::{Component, Family, Row};

/// The density of a reading on a pipe of one row.
pub(super) fn density(belief: &Belief<'_>, sight: &Sight, row: &Row, family: &Family) -> Real {
    let band = belief.band(row, family);
    let own = sight.variance(row.od);
    let at = i64::from(sight.value);
    let round = oval(row.od, row.oval);
    let mixture = Mixture {
        belief,
        band: &band,
        at,
        own,
        od: row.od,
    };
    let density = match sight.view {
        View::Round => belief.density(&band, at, own),
        View::Unknown => {
            let round = squared(round);
            mixture.sum(&belief.law(family).sight, |squash| {
                (squash.mean, squash.variance + round)
            })
        }
        View::Clock(clock) => {
            let (cosine, sine) = clock.loading();
            let settings = belief.settings;
            let seen = (i64::from(cosine) * i64::from(settings.clock_mean)) >> 16;
            let blur = blur(cosine, settings.clock_cosine_variance)
                + blur(sine, settings.clock_sine_variance);
            let blur = u32::try_from(blur).unwrap_or(u32::MAX);
            let round = squared(round);
            mixture.sum(&belief.law(family).squash, |squash| {
                let variance = portion(squash.variance, square_share(seen));
                (
                    (squash.mean * seen) >> 16,
                    variance + portion(squash.power(), blur) + round,
                )
            })
        }
        View::Crown(k) => {
            let k = i64::from(k);
            let round = squared((round * k) >> 16);
            mixture.sum(&belief.law(family).squash, |squash| {
                let variance = scale_variance(squash.variance, k);
                ((squash.mean * k) >> 16, variance + round)
            })
        }
    };
    if sight.scales_with_od() {
        density * Real::integer(at) / Real::integer(i64::from(row.od))
    } else {
        density
    }
}

/// What the terms of a mixture share.
struct Mixture<'a> {
    belief: &'a Belief<'a>,
    band: &'a Band,
    at: i64,
    own: u64,
    od: i32,
}

impl Mixture<'_> {
    /// Adds up the density over the ways of being squashed; `see` says what the reading sees of each: mean and variance.
    fn sum(&self, parts: &[Component], see: impl Fn(&Squash) -> (i64, u64)) -> Real {
        let mut total = Real::ZERO;
        for part in parts.iter().filter(|part| part.weight > 0) {
            let squash = Squash::of(*part, self.od);
            let (mean, variance) = see(&squash);
            total += self
                .belief
                .density(self.band, self.at - mean, self.own + variance)
                * Real::unsigned(squash.weight, -15);
        }
        total
    }
}

/// A Q16 factor squared, as a Q32 share held below one.
fn square_share(factor: i64) -> u32 {
    u32::try_from((factor * factor).unsigned_abs()).unwrap_or(u32::MAX)
}

/// A Q32 variance of the direction, seen through a Q16 loading.
fn blur(loading: i32, variance: u32) -> u64 {
    let loading = u64::from(loading.unsigned_abs());
    (((loading * loading) >> 16) * u64::from(variance)) >> 16
}

/// A variance times the square of a Q16 factor of up to some sixty.
fn scale_variance(variance: u64, factor: i64) -> u64 {
    let square = ((factor * factor) >> 24).unsigned_abs();
    (((variance >> 20) * square) << 12) + (((variance & 0xf_ffff) * square) >> 8)
}

#[cfg(test)]
mod tests {
    use super::super::belief::scaled;
    use super::*;

    #[test]
    fn products_of_variances_keep_their_places() {
        let v = 1u64 << 40;
        assert_eq!(portion(v, u32::MAX) >> 20, (v - (v >> 24)) >> 20);
        assert_eq!(scale_variance(v, 3 << 16), 9 * v);
        assert_eq!(scale_variance(v + 12345, 1 << 16), v + 12345);
        assert_eq!(square_share(1 << 16), u32::MAX);
        assert_eq!(blur(1 << 16, 1 << 20), 1 << 20);
        assert_eq!(scaled(100, 1 << 17, 18), 50);
    }
}
