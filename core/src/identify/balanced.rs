//! Readings in which the average diameter and the shape part cleanly: tapes, and diameters that cross evenly.
//!
//! Two diameters at right angles, or three at 60°, give the average without the squash, and the squash without the
//! average. So a row needs its band once, and its squash law only for what is left of the differences. Where two are at right
//! angles and nobody told how they lie, half their difference is what a single diameter would see of the squash.

use super::belief::{Belief, Squash, oval, portion, scaled, squared};
use super::sight::View;
use super::sights::Sights;
use crate::fixed::{DENSITY_BITS, Real, density};
use crate::image::{Family, Row};

/// Readings reduced to an average and, where diameters cross, the two parts of the second harmonic.
#[derive(Clone, Copy, Debug)]
pub(super) struct Balanced {
    pub(super) at: i32,
    pub(super) variance: u64,
    /// Along the told clock positions: the part that a squash makes, and the part that it does not.
    harmonics: Option<[(i32, u64); 2]>,
    /// Whether three or more directions tell the second part.
    skew: bool,
    /// Half the difference of two diameters at right angles whose direction nobody told, and its variance.
    pair: Option<(i32, u64)>,
}

impl Balanced {
    /// Reduces readings; `None` when they do not balance, or see the pipe in a way that mixes shape and size.
    pub(super) fn of(sights: &Sights) -> Option<Self> {
        let (mut sum, mut weight) = (Real::ZERO, Real::ZERO);
        let mut add = |value: Real, variance: Real| {
            sum += value / variance;
            weight += Real::ONE / variance;
        };
        // Sums over the clock positions, of loadings in Q16.
        let (mut count, mut total, mut noise) = (0i64, 0i64, 0u64);
        let (mut u, mut v, mut uv, mut uu, mut vv, mut uy, mut vy) =
            (0, 0, 0, 0i64, 0i64, 0i64, 0i64);
        let (mut waiting, mut pair) = (None, None);
        for sight in sights.iter() {
            let value = i64::from(sight.value);
            match sight.view {
                View::Unknown if waiting.is_none() && pair.is_none() => waiting = Some(*sight),
                View::Across if let Some(first) = waiting.take() => {
                    let noise =
                        (first.variance(first.value) + sight.variance(sight.value)).max(1) / 4;
                    add(
                        Real::integer(i64::from(i32::midpoint(first.value, sight.value))),
                        Real::unsigned(noise.max(1), 0),
                    );
                    pair = Some(((first.value - sight.value) / 2, noise));
                }
                View::Round => add(
                    Real::integer(value),
                    Real::unsigned(sight.variance(sight.value), 0),
                ),
                View::Clock(clock) => {
                    let (a, b) = clock.loading();
                    let (a, b) = (i64::from(a), i64::from(b));
                    count += 1;
                    total += value;
                    noise += sight.variance(sight.value);
                    u += a;
                    v += b;
                    uv += a * b;
                    uu += (a * a) >> 16;
                    vv += (b * b) >> 16;
                    uy += (a * value) >> 8;
                    vy += (b * value) >> 8;
                }
                View::Unknown | View::Across | View::Crown(_) => return None,
            }
        }
        // One shape cannot be seen along told directions and along others at once.
        if waiting.is_some() || (pair.is_some() && count > 0) {
            return None;
        }
        let mut harmonics = None;
        if count > 0 {
            // Rounding of the loadings leaves a few counts of Q16.
            if u.abs() > 4 || v.abs() > 4 || (uv >> 16).abs() > 4 {
                return None;
            }
            let noise = noise / count.unsigned_abs();
            add(
                Real::integer(total) / Real::integer(count),
                Real::unsigned(noise, 0) / Real::integer(count),
            );
            let part = |squares: i64, along: i64| {
                if squares < 1 << 10 {
                    return (0, 0);
                }
                let variance = (noise << 4) / (squares >> 12).unsigned_abs().max(1);
                (narrow((along << 8) / squares), variance.max(1))
            };
            harmonics = Some([part(uu, uy), part(vv, vy)]);
        }
        let at = narrow((sum / weight).to_fixed(0));
        Some(Self {
            at,
            variance: (Real::ONE / weight).to_fixed(0).unsigned_abs().max(1),
            harmonics,
            skew: vv >= 1 << 10,
            pair,
        })
    }

    /// The density of these readings on a pipe of one row.
    pub(super) fn density(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> Real {
        let band = belief.band(row, family);
        let size = belief.density(&band, self.at, self.variance);
        if size.is_zero() {
            return size;
        }
        size * self.shape(belief, belief.law(family), row.od, row.oval)
    }

    /// The density of the differences alone, on a pipe of this squash law and OD.
    pub(super) fn shape(&self, belief: &Belief<'_>, law: u8, od: i32, share: u16) -> Real {
        let round = squared(oval(od, share));
        if let Some((half, variance)) = self.pair {
            let mut sum = 0;
            for part in belief.image.sight(law) {
                let squash = Squash::of(part, od);
                let variance = squared(squash.sd) + round + variance;
                sum += density(half - squash.mean, variance, squash.weight);
            }
            return Real::unsigned(sum, -DENSITY_BITS);
        }
        let Some([along, across]) = self.harmonics else {
            return Real::ONE;
        };
        let law = belief.image.squash(law);
        let settings = belief.settings;
        let mean_cosine = settings.clock_mean.cast_signed();
        let (mut plain, mut skewed) = (0, Real::ZERO);
        for part in law {
            let squash = Squash::of(part, od);
            let power = squash.power();
            let mean = scaled(squash.mean, mean_cosine, 16);
            let variance = squared(scaled(squash.sd, mean_cosine, 16))
                + portion(power, settings.clock_cosine_variance)
                + round;
            let term = density(along.0 - mean, variance + along.1, squash.weight);
            if self.skew {
                let variance = portion(power, settings.clock_sine_variance) + round;
                let other = density(across.0, variance + across.1, 1 << 15);
                skewed +=
                    Real::unsigned(term, -DENSITY_BITS) * Real::unsigned(other, -DENSITY_BITS);
            } else {
                plain += term;
            }
        }
        if self.skew {
            skewed
        } else {
            Real::unsigned(plain, -DENSITY_BITS)
        }
    }
}

/// A length back from a wider number.
fn narrow(counts: i64) -> i32 {
    i32::try_from(counts).unwrap_or(i32::MAX)
}
