//! Density of one reading, given the row: every instrument's exact law.

use std::f64::consts::PI;

use super::barrel::Barrel;
use super::family::FAMILIES;
use super::model::{Model, Row};
use super::pair;
use super::quad::{Node, cut_normal, gather, gauss, sums};
use super::query::{Query, Reading};
use super::shape::{chord_factor, deflected, deflection, temperature};

/// Laws of a query that do not depend on the row's size.
pub(super) struct Context<'a> {
    pub(super) model: &'a Model,
    pub(super) query: &'a Query,
    /// Temperature growth of each family, fractions of the OD.
    pub(super) thermal: Vec<Vec<Node>>,
    /// For each diameter read, growth by deflection and temperature of each
    /// family, fractions of the OD.
    pub(super) growth: Vec<Vec<Vec<Node>>>,
    /// Deflection of each family, coarse, for laws of two dimensions.
    pub(super) delta: Vec<Vec<Node>>,
    arcs: Vec<Arc>,
}

/// One possible ratio of rise to diameter, or depth of the jaws, and what the
/// reading then says of the diameter: `weight` × normal(mean, sd).
pub(super) struct Arc {
    pub(super) weight: f64,
    pub(super) mean: f64,
    pub(super) sd: f64,
    /// How many times over deflection and out-of-round are seen.
    factor: f64,
    /// Change of the factor per inch of the diameter seen.
    slope: f64,
}

impl<'a> Context<'a> {
    /// For rows of one family, or of all if `None`.
    pub(super) fn new(model: &'a Model, query: &'a Query, only: Option<usize>) -> Self {
        let mut own = Self {
            model,
            query,
            thermal: thermal(query.temperature),
            growth: Vec::new(),
            delta: Vec::new(),
            arcs: Vec::new(),
        };
        match &query.reading {
            Reading::Diameters(readings) => {
                own.growth = readings.iter().map(|r| own.growth(r.1, only)).collect();
                if readings.len() > 1 {
                    own.delta = own.deflections(32);
                }
            }
            &Reading::ShortJaw { chord, depth, hour } if chord > 2.0 * depth => {
                let sigma = own.caliper(chord);
                own.arcs = jaw_arcs((chord, sigma), depth);
                let law = |f| gather(own.deflected(f, hour).into_iter(), 96);
                own.delta = (0..FAMILIES.len())
                    .map(|f| {
                        if only.is_none_or(|only| only == f) {
                            law(f)
                        } else {
                            Vec::new()
                        }
                    })
                    .collect();
            }
            &Reading::ShortJaw { hour, .. } => own.growth = vec![own.growth(hour, only)],
            &Reading::ChordRise { chord, rise } => {
                own.delta = own.deflections(24);
                own.arcs = arcs(
                    (chord, query.sigma.unwrap_or(0.06)),
                    (rise, query.rise_sigma.unwrap_or(0.045)),
                );
            }
            _ => {}
        }
        own
    }

    fn deflections(&self, n: u32) -> Vec<Vec<Node>> {
        FAMILIES
            .iter()
            .map(|f| deflection(n, self.shape(f.deflection)))
            .collect()
    }

    fn shape(&self, deflection: (f64, f64)) -> (f64, f64) {
        if self.query.buried {
            deflection
        } else {
            (0.0, 0.0)
        }
    }

    /// Deflection × growth of one diameter of this family.
    fn deflected(&self, family: usize, hour: Option<u8>) -> Vec<Node> {
        match hour {
            None if self.query.buried => self.model.any_deflected[family].clone(),
            Some(hour) if self.query.buried => self.model.clock(hour).deflected[family].clone(),
            _ => deflected(self.shape(FAMILIES[family].deflection), hour),
        }
    }

    fn growth(&self, hour: Option<u8>, only: Option<usize>) -> Vec<Vec<Node>> {
        // One family is quicker than all that are kept.
        if self.query.buried && self.query.temperature.is_none() && only.is_none() {
            return match hour {
                None => self.model.any_growth.clone(),
                Some(hour) => self.model.clock(hour).growth.clone(),
            };
        }
        let one = |f: usize| {
            if only.is_some_and(|only| only != f) {
                return Vec::new();
            }
            with_temperature(&self.deflected(f, hour), &self.thermal[f])
        };
        (0..FAMILIES.len()).map(one).collect()
    }

    /// Standard deviation of a caliper across a diameter of `y` inches.
    pub(super) fn caliper(&self, y: f64) -> f64 {
        self.query.sigma.unwrap_or(caliper_sigma(y))
    }

    /// What chord and rise say, if that is the reading.
    pub(super) fn arcs(&self) -> &[Arc] {
        &self.arcs
    }

    /// Density of the reading for this row, per inch of each figure read. Of
    /// several diameters only those in `which` are used.
    pub(super) fn likelihood(&self, row: &Row, which: &[usize]) -> f64 {
        let thermal = &self.thermal[row.family];
        let barrel = row.barrel();
        let wear = row.family().wear;
        match &self.query.reading {
            Reading::Diameters(readings) => match which {
                [] => 1.0,
                &[only] => self.diameter(row, only, readings[only].0),
                _ => {
                    let reached = |&i: &usize| self.diameter(row, i, readings[i].0) > 0.0;
                    if which.iter().all(reached) {
                        pair::likelihood(self, row, which)
                    } else {
                        0.0
                    }
                }
            },
            &Reading::DiameterTape(y) => {
                let sigma = self.query.sigma.unwrap_or(0.004 + 0.0002 * y);
                mix(&barrel, row.od, thermal, y, sigma.hypot(wear))
            }
            &Reading::SteelTape(y) => {
                let sigma = self.query.sigma.unwrap_or(0.030);
                let tilt = cut_normal(10, 0.0, 1.2, 0.0, 90.0);
                rounded(y, 1.0 / 16.0, 6, |m| {
                    let one = |phi: &Node| {
                        let scale = PI / phi.x.to_radians().cos();
                        let sd = (sigma / scale).hypot(wear).hypot(0.002);
                        phi.w / scale * mix(&barrel, row.od, thermal, m / scale - 0.008, sd)
                    };
                    tilt.iter().map(one).sum()
                })
            }
            &Reading::String(y) => {
                let sigma = self.query.sigma.unwrap_or(0.060) / PI;
                let sd = sigma.hypot(wear).hypot(0.003 * row.od).hypot(0.02);
                rounded(y, 1.0 / 8.0, 8, |m| {
                    mix(&barrel, row.od, thermal, m / PI - 0.04, sd) / PI
                })
            }
            &Reading::ShortJaw { chord, depth, .. } if chord <= 2.0 * depth => {
                self.diameter(row, 0, chord)
            }
            Reading::ChordRise { .. } | Reading::ShortJaw { .. } => {
                self.arcs.iter().map(|arc| self.arc(row, arc)).sum()
            }
        }
    }

    fn diameter(&self, row: &Row, reading: usize, y: f64) -> f64 {
        let sd = self.caliper(y).hypot(row.family().wear).hypot(row.oval);
        let growth = &self.growth[reading][row.family];
        mix(&row.barrel(), row.od, growth, y, sd)
    }

    fn arc(&self, row: &Row, arc: &Arc) -> f64 {
        let sd = arc.sd.hypot(row.family().wear).hypot(arc.factor * row.oval);
        let thermal = &self.thermal[row.family];
        let most = arc.factor * largest(&self.delta[row.family]) + largest(thermal);
        if (arc.mean - row.od).abs() > row.od * most + row.barrel().reach() + 9.0 * sd {
            return 0.0;
        }
        // The factor may hang on the very diameter it changes: then equal
        // steps of that diameter are not equal steps of the pipe's.
        let seen = |n: &Node| Node {
            x: arc.factor * n.x,
            w: n.w * (1.0 - arc.slope * row.od * n.x),
        };
        let delta: Vec<Node> = self.delta[row.family].iter().map(seen).collect();
        // The arc says little beside what bands and temperatures spread, so
        // ninety points of growth are plenty.
        let growth = gather(sums(&delta, thermal), 90);
        arc.weight * mix(&row.barrel(), row.od, &growth, arc.mean, sd)
    }
}

fn caliper_sigma(y: f64) -> f64 {
    0.003 + 0.0003 * y
}

/// Temperature growth of each family, fractions of the OD.
pub(super) fn thermal(told: Option<f64>) -> Vec<Vec<Node>> {
    let degrees = temperature(told);
    FAMILIES.iter().map(|f| scaled(&degrees, f.alpha)).collect()
}

/// A law of deflection, and on top of it one of temperature.
pub(super) fn with_temperature(deflected: &[Node], thermal: &[Node]) -> Vec<Node> {
    gather(sums(deflected, thermal), 256)
}

pub(super) fn scaled(nodes: &[Node], by: f64) -> Vec<Node> {
    let one = |n: &Node| Node {
        x: n.x * by,
        w: n.w,
    };
    nodes.iter().map(one).collect()
}

/// The farthest that a law reaches from zero.
fn largest(law: &[Node]) -> f64 {
    law.iter().fold(0.0_f64, |m, n| m.max(n.x.abs()))
}

/// Density at `y` of barrel + OD × growth + normal(0, sd), inches.
fn mix(barrel: &Barrel, od: f64, growth: &[Node], y: f64, sd: f64) -> f64 {
    if (y - od).abs() > od * largest(growth) + barrel.reach() + 9.0 * sd {
        return 0.0;
    }
    growth
        .iter()
        .map(|n| n.w * barrel.density(y - od * n.x, sd))
        .sum()
}

/// Probability of a reading rounded to `step`, per inch.
fn rounded(y: f64, step: f64, n: u32, density: impl Fn(f64) -> f64) -> f64 {
    let rule = gauss(n, y - step / 2.0, y + step / 2.0);
    rule.iter().map(|p| p.w / step * density(p.x)).sum()
}

/// A chord with its standard deviation, over the depths that the jaws may
/// have reached. Weighted so that the sum is per inch of chord.
fn jaw_arcs((chord, sigma): (f64, f64), depth: f64) -> Vec<Arc> {
    let arc = |h: Node| {
        let q = chord / (2.0 * h.x);
        if q <= 1.0 {
            // These jaws do reach.
            return Arc {
                weight: h.w,
                mean: chord,
                sd: sigma,
                factor: 1.0,
                slope: 0.0,
            };
        }
        let factor_at = |d: f64| chord_factor((d / h.x - 1.0).max(1.0).sqrt());
        let (mean, step) = (h.x * (1.0 + q * q), 0.001);
        Arc {
            // The error of the chord is a thousandth of it, so that within it
            // the diameter goes in proportion; over the depth it does not.
            weight: h.w * q,
            mean,
            sd: q * sigma,
            factor: chord_factor(q),
            slope: (factor_at(mean + step) - factor_at(mean - step)) / (2.0 * step),
        }
    };
    let depths = cut_normal(40, depth, 0.02, depth / 4.0, 2.0 * depth);
    depths.into_iter().map(arc).collect()
}

/// Chord and rise, each with its standard deviation, over the ratios of rise
/// to diameter from .10 to .40 that they leave open.
fn arcs((chord, chord_sd): (f64, f64), (rise, rise_sd): (f64, f64)) -> Vec<Arc> {
    let q = chord / (2.0 * rise);
    let middle = 1.0 / (1.0 + q * q);
    let relative = (chord_sd / chord).hypot(rise_sd / rise);
    let spread = 2.0 * q * q * middle * middle * relative;
    let (lo, hi) = (
        (middle - 8.0 * spread).clamp(0.10, 0.40),
        (middle + 8.0 * spread).clamp(0.10, 0.40),
    );
    if hi <= lo {
        return Vec::new();
    }
    let arc = |f: Node| {
        // Chord and rise per inch of diameter, and as read: in units of their
        // own errors.
        let unit = [2.0 * (f.x * (1.0 - f.x)).sqrt() / chord_sd, f.x / rise_sd];
        let read = [chord / chord_sd, rise / rise_sd];
        let precision = unit[0] * unit[0] + unit[1] * unit[1];
        let mean = (unit[0] * read[0] + unit[1] * read[1]) / precision;
        // What is left when the two disagree under this ratio.
        let left = unit[0] * read[1] - unit[1] * read[0];
        let fit = (-0.5 * left * left / precision).exp();
        Arc {
            weight: f.w / 0.30 * fit / (chord_sd * rise_sd * (2.0 * PI * precision).sqrt()),
            mean,
            sd: precision.sqrt().recip(),
            factor: chord_factor(((1.0 - f.x) / f.x).sqrt()),
            slope: 0.0,
        }
    };
    gauss(48, lo, hi).into_iter().map(arc).collect()
}

#[cfg(test)]
mod tests {
    use super::chord_factor;

    /// The two ends that the closed form must meet: half the pipe and a
    /// short arc.
    #[test]
    fn chord_factor_has_its_limits() {
        assert!((chord_factor(1.0) - 1.0).abs() < 1e-12);
        assert!((chord_factor(200.0) - 3.0).abs() < 1e-3);
    }
}
