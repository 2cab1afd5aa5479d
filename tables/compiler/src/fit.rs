//! Fits the squash of buried pipe by a few normals.
//!
//! What a single diameter sees of a squash is the product of two unlike things: how far the pipe is squashed (a normal cut
//! at both ends) and where the caliper was held (across the springline, or anywhere). The engine works on a handful of
//! normals instead. They are found here by expectation-maximisation on the law smoothed by the out-of-round that every
//! reading adds anyway, with a fixed number of rounds and pure-Rust functions, so that the same sources give the same bytes
//! on every machine.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "counts of bins and fixed-point steps, all far inside their types"
)]

use std::f64::consts::PI;

use libm::{cos, exp, sin, sqrt};
use springline_core::image::{Component, Law};

/// Deflection of buried pipe as a share of the OD: normal, cut at 0 and at `mean + 4 sd`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deflection {
    /// Mean before the cut.
    pub mean: f64,
    /// Standard deviation before the cut.
    pub sd: f64,
}

/// Where single diameters are taken. Angles in degrees around the pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Share taken across the springline.
    pub springline_share: f64,
    /// How far from the springline those may be.
    pub springline_half_angle: f64,
    /// How far a told clock position may be off.
    pub clock_half_angle: f64,
}

/// Mean of the cosine, and variances of cosine and sine, of twice an angle that is uniform within ± so many degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Mean of the cosine.
    pub mean: f64,
    /// Variance of the cosine.
    pub cosine: f64,
    /// Variance of the sine.
    pub sine: f64,
}

impl Spread {
    /// Of a half angle in degrees around the pipe.
    #[must_use]
    pub fn of(half_angle: f64) -> Self {
        let a = 2.0 * half_angle * PI / 180.0;
        let mean = sin(a) / a;
        let second = sin(2.0 * a) / (2.0 * a);
        Self {
            mean,
            cosine: 0.5 * (1.0 + second) - mean * mean,
            sine: 0.5 * (1.0 - second),
        }
    }
}

/// The smoothing, as a share of the OD: less than the out-of-round of any squashed pipe.
const SMOOTH: f64 = 0.0016;
const BINS: usize = 640;
const ROUNDS: usize = 500;

/// The law of rigid pipe: no squash at all.
#[must_use]
pub fn rigid() -> Law {
    let mut law = Law::default();
    let nothing = Component {
        weight: 1 << 15,
        mean: 0,
        sd: 0,
    };
    law.sight[0] = nothing;
    law.squash[0] = nothing;
    law
}

/// The mixtures of one deflection.
#[must_use]
pub fn law(deflection: Deflection, direction: Direction) -> Law {
    let squash = squash_law(deflection);
    Law {
        squash: quantised(&fit::<{ Law::SQUASH }>(&squash)),
        sight: quantised(&fit::<{ Law::SIGHT }>(&sight_law(&squash, direction))),
    }
}

/// A law as weighted points.
type Points = Vec<(f64, f64)>;

fn squash_law(deflection: Deflection) -> Points {
    let top = deflection.mean + 4.0 * deflection.sd;
    (0..400)
        .map(|i| {
            let x = (f64::from(i) + 0.5) / 400.0 * top;
            let z = (x - deflection.mean) / deflection.sd;
            (x, exp(-0.5 * z * z))
        })
        .collect()
}

fn sight_law(squash: &Points, direction: Direction) -> Points {
    let mut points = Points::new();
    let mut add = |half_angle: f64, share: f64| {
        // The cosine is even: half of the range tells all of it.
        for j in 0..200 {
            let angle = (f64::from(j) + 0.5) / 200.0 * 2.0 * half_angle * PI / 180.0;
            let seen = cos(angle);
            points.extend(
                squash
                    .iter()
                    .map(|(x, weight)| (x * seen, weight * share / 200.0)),
            );
        }
    };
    add(direction.springline_half_angle, direction.springline_share);
    add(90.0, 1.0 - direction.springline_share);
    points
}

/// A normal of a mixture while it is fitted.
#[derive(Clone, Copy, Debug)]
struct Normal {
    weight: f64,
    mean: f64,
    variance: f64,
}

fn fit<const N: usize>(points: &Points) -> [Normal; N] {
    let bins = histogram(points);
    let mut parts = start::<N>(&bins);
    for _ in 0..ROUNDS {
        let mut sums = [(0.0, 0.0, 0.0); N];
        for (x, mass) in &bins {
            let densities = parts.map(|part| {
                let z = x - part.mean;
                part.weight / sqrt(part.variance) * exp(-0.5 * z * z / part.variance)
            });
            let total: f64 = densities.iter().sum();
            if total <= 0.0 {
                continue;
            }
            for (sum, density) in sums.iter_mut().zip(densities) {
                let share = mass * density / total;
                sum.0 += share;
                sum.1 += share * x;
                sum.2 += share * x * x;
            }
        }
        for (part, (weight, first, second)) in parts.iter_mut().zip(sums) {
            let mean = first / weight;
            *part = Normal {
                weight,
                mean,
                variance: (second / weight - mean * mean).max(SMOOTH * SMOOTH),
            };
        }
    }
    parts.map(|part| Normal {
        variance: part.variance - SMOOTH * SMOOTH,
        ..part
    })
}

/// The smoothed law in bins of mass one, those that hold nothing left out.
fn histogram(points: &Points) -> Vec<(f64, f64)> {
    let low = points.iter().map(|(x, _)| *x).fold(f64::MAX, f64::min) - 5.0 * SMOOTH;
    let high = points.iter().map(|(x, _)| *x).fold(f64::MIN, f64::max) + 5.0 * SMOOTH;
    let step = (high - low) / BINS as f64;
    let mut rough = vec![0.0; BINS];
    for (x, weight) in points {
        let at = ((x - low) / step) as usize;
        rough[at.min(BINS - 1)] += weight;
    }
    let reach = (5.0 * SMOOTH / step) as usize + 1;
    let kernel: Vec<f64> = (0..=reach)
        .map(|i| {
            let z = i as f64 * step / SMOOTH;
            exp(-0.5 * z * z)
        })
        .collect();
    let smooth: Vec<f64> = (0..BINS)
        .map(|i| {
            let from = i.saturating_sub(reach);
            let to = (i + reach).min(BINS - 1);
            (from..=to).map(|j| rough[j] * kernel[i.abs_diff(j)]).sum()
        })
        .collect();
    let total: f64 = smooth.iter().sum();
    smooth
        .into_iter()
        .enumerate()
        .map(|(i, mass)| (low + (i as f64 + 0.5) * step, mass / total))
        .filter(|(_, mass)| *mass > 1e-12)
        .collect()
}

/// Starts at even quantiles.
fn start<const N: usize>(bins: &[(f64, f64)]) -> [Normal; N] {
    let mean: f64 = bins.iter().map(|(x, mass)| x * mass).sum();
    let variance: f64 = bins
        .iter()
        .map(|(x, mass)| (x - mean) * (x - mean) * mass)
        .sum();
    std::array::from_fn(|i| {
        let goal = (i as f64 + 0.5) / N as f64;
        let mut passed = 0.0;
        let at = bins.iter().find(|(_, mass)| {
            passed += mass;
            passed >= goal
        });
        Normal {
            weight: 1.0 / N as f64,
            mean: at.map_or(mean, |(x, _)| *x),
            variance: variance / N as f64,
        }
    })
}

/// Rounds to the image's steps; the largest weight takes what rounding leaves, so that they sum to one exactly.
fn quantised<const N: usize>(parts: &[Normal; N]) -> [Component; N] {
    let mut components = parts.map(|part| Component {
        weight: (part.weight * 32768.0 + 0.5) as u16,
        mean: (part.mean * 262_144.0).round() as i16,
        sd: (sqrt(part.variance.max(0.0)) * 262_144.0 + 0.5) as u16,
    });
    let sum: i32 = components.iter().map(|part| i32::from(part.weight)).sum();
    if let Some(largest) = components.iter_mut().max_by_key(|part| part.weight) {
        largest.weight = u16::try_from(i32::from(largest.weight) + 32768 - sum).unwrap_or(0);
    }
    components
}

#[cfg(test)]
mod tests {
    use super::*;

    const DIRECTION: Direction = Direction {
        springline_share: 0.7,
        springline_half_angle: 23.0,
        clock_half_angle: 15.0,
    };

    fn mean_and_variance(parts: &[Component]) -> (f64, f64) {
        let each = || {
            parts.iter().map(|part| {
                (
                    f64::from(part.weight) / 32768.0,
                    f64::from(part.mean) / 262_144.0,
                    f64::from(part.sd) / 262_144.0,
                )
            })
        };
        let mean: f64 = each().map(|(w, m, _)| w * m).sum();
        let square: f64 = each().map(|(w, m, s)| w * (m * m + s * s)).sum();
        (mean, square - mean * mean)
    }

    /// Mean and variance of the true laws, by their own sums: the mixture keeps both.
    #[test]
    fn mixtures_keep_mean_and_variance() {
        for (mean, sd) in [
            (0.008, 0.007),
            (0.004, 0.004),
            (0.020, 0.012),
            (0.010, 0.010),
        ] {
            let fitted = law(Deflection { mean, sd }, DIRECTION);
            let squash = squash_law(Deflection { mean, sd });
            let sight = sight_law(&squash, DIRECTION);
            for (points, parts) in [(&squash, &fitted.squash[..]), (&sight, &fitted.sight[..])] {
                let total: f64 = points.iter().map(|(_, w)| w).sum();
                let m: f64 = points.iter().map(|(x, w)| x * w).sum::<f64>() / total;
                let v: f64 = points
                    .iter()
                    .map(|(x, w)| (x - m) * (x - m) * w)
                    .sum::<f64>()
                    / total;
                let (got, variance) = mean_and_variance(parts);
                assert!((got - m).abs() < 2e-5, "mean {got} {m}");
                assert!((variance / v - 1.0).abs() < 0.02, "variance {variance} {v}");
            }
            assert_eq!(
                fitted
                    .sight
                    .iter()
                    .map(|c| u32::from(c.weight))
                    .sum::<u32>(),
                32768
            );
        }
    }

    #[test]
    fn spreads_of_an_angle() {
        let clock = Spread::of(15.0);
        assert!((clock.mean - 0.954_93).abs() < 1e-5);
        assert!((clock.mean * clock.mean + clock.cosine + clock.sine - 1.0).abs() < 1e-12);
        let all = Spread::of(90.0);
        assert!(all.mean.abs() < 1e-12 && (all.cosine - 0.5).abs() < 1e-12);
    }
}
