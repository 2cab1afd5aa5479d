//! One reading: a mixture of a few normals on the diameter.

use super::band::Band;
use super::belief::{Belief, Squash, oval, portion, scaled, squared};
use super::sight::{Sight, View};
use crate::fixed::Real;
use crate::image::{Component, Family, Row};

/// The density of a reading on a pipe of one row.
pub(super) fn density(belief: &Belief<'_>, sight: &Sight, row: &Row, family: &Family) -> Real {
    let mixture = Mixture {
        belief,
        band: belief.band(row, family),
        at: sight.value,
        own: sight.variance(row.od),
        od: row.od,
    };
    let round = oval(row.od, row.oval);
    let chance = match sight.view {
        View::Round => belief.chance(&mixture.band, mixture.at, mixture.own),
        View::Unknown => {
            let round = squared(round);
            mixture.chance(belief.image.sight(belief.law(family)), |squash| {
                (squash.mean, squared(squash.sd) + round)
            })
        }
        // Alone where the one before it was left out: what that one saw of the squash, this one sees the other way round.
        View::Across => {
            let round = squared(round);
            mixture.chance(belief.image.sight(belief.law(family)), |squash| {
                (-squash.mean, squared(squash.sd) + round)
            })
        }
        View::Clock(clock) => {
            let (cosine, sine) = clock.loading();
            let settings = belief.settings;
            let seen = scaled(cosine, settings.clock_mean.cast_signed(), 16);
            let blur = blur(cosine, settings.clock_cosine_variance)
                + blur(sine, settings.clock_sine_variance);
            let blur = u32::try_from(blur).unwrap_or(u32::MAX);
            let round = squared(round);
            mixture.chance(belief.squash(family), |squash| {
                let variance = squared(scaled(squash.sd, seen, 16));
                (
                    scaled(squash.mean, seen, 16),
                    variance + portion(squash.power(), blur) + round,
                )
            })
        }
        View::Crown(k) => {
            let round = squared(scaled(round, k, 16));
            mixture.chance(belief.squash(family), |squash| {
                let variance = squared(scaled(squash.sd, k, 16));
                (scaled(squash.mean, k, 16), variance + round)
            })
        }
    };
    let density = mixture.band.density(chance);
    if sight.scales_with_od() && !density.is_zero() {
        density * Real::integer(i64::from(sight.value)) / Real::integer(i64::from(row.od))
    } else {
        density
    }
}

/// What the terms of a mixture share.
struct Mixture<'a> {
    belief: &'a Belief<'a>,
    band: Band,
    at: i32,
    own: u64,
    od: i32,
}

impl Mixture<'_> {
    /// Adds up the chance over the ways of being squashed; `see` says what the reading sees of each: mean and variance.
    #[inline]
    fn chance(
        &self,
        parts: impl Iterator<Item = Component>,
        see: impl Fn(&Squash) -> (i32, u64),
    ) -> u64 {
        let mut total = 0;
        for part in parts {
            let squash = Squash::of(part, self.od);
            let (mean, variance) = see(&squash);
            let chance = self
                .belief
                .chance(&self.band, self.at - mean, self.own + variance);
            total += chance * u64::from(squash.weight);
        }
        total >> 15
    }
}

/// A Q32 variance of the direction, seen through a Q16 loading.
fn blur(loading: i32, variance: u32) -> u64 {
    let loading = u64::from(loading.unsigned_abs());
    (((loading * loading) >> 16) * u64::from(variance)) >> 16
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn products_of_variances_keep_their_places() {
        let v = 1u64 << 40;
        assert_eq!(portion(v, u32::MAX) >> 20, (v - (v >> 24)) >> 20);
        assert_eq!(scaled(-100, 3 << 16, 16), -300);
        assert_eq!(blur(1 << 16, 1 << 20), 1 << 20);
        assert_eq!(scaled(100, 1 << 17, 18), 50);
    }
}
