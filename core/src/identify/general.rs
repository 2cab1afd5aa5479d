//! Any readings together: a linear model of size and shape, solved for each row and each way of holding the instrument.
//!
//! A reading is `D + u P + v Q` and its own error: D the average diameter, P the squash along the springline (or the told
//! clock), Q the skewed part. Given a component of the squash law and, for each diameter of unknown direction, whether it
//! was taken across the springline or anywhere, everything is normal but D, which is uniform over the row's band. P and Q
//! are eliminated; what is left is a normal on D and a factor.

use super::belief::{Belief, Squash, oval, portion, scaled, squared};
use super::sight::{Sight, View};
use super::sights::Sights;
use crate::fixed::{Real, exp_half};
use crate::image::{Family, Law, Row};
use crate::reading::Query;

/// One over 2 pi, Q32.
const INVERSE_TAU: i64 = 683_565_276;
/// Half, Q32: the mean square of a cosine over all directions.
const HALF: u32 = 1 << 31;
/// The cosine of an angle in each quarter of half a turn: mean, Q16, and variance, Q32.
const QUARTERS: [(i64, u32); 4] = [
    (59_003, 33_244_838),
    (24_440, 183_044_546),
    (-24_440, 183_044_546),
    (-59_003, 33_244_838),
];
/// Up to so many diameters of unknown direction every way of holding each is told apart.
const FEW: usize = 3;

/// What one component of the model leaves: a normal on the average diameter, and its weight.
struct Term {
    factor: Real,
    at: i32,
    variance: u64,
}

/// A pipe as far as its shape goes.
struct Shape<'a> {
    law: &'a Law,
    od: i32,
    /// One sigma of out-of-round, Q20 share.
    oval: u16,
}

/// The density of readings on a pipe of one row.
pub(super) fn density(belief: &Belief<'_>, sights: &Sights, row: &Row, family: &Family) -> Real {
    let band = belief.band(row, family);
    let law = belief.image.law(belief.law(family));
    let shape = Shape {
        law: &law,
        od: row.od,
        oval: row.oval,
    };
    let mut sum = Real::ZERO;
    terms(belief, sights, &shape, |term| {
        sum += term.factor * belief.density(&band, term.at, term.variance);
    });
    sum
}

/// How likely the differences of readings are on a pipe of this size that is in no table: over the squash laws of those met.
pub(super) fn unlisted_shape(belief: &Belief<'_>, sights: &Sights, od: i32, oval: u16) -> Real {
    let mut sum = Real::ZERO;
    for (law, weight) in belief.laws() {
        let law = belief.image.law(law);
        let shape = Shape {
            law: &law,
            od,
            oval,
        };
        terms(belief, sights, &shape, |term| sum += weight * term.factor);
    }
    sum
}

/// Calls `each` with every term of the readings on a pipe of this shape. Densities are of all readings jointly, per count
/// each.
fn terms(belief: &Belief<'_>, sights: &Sights, shape: &Shape<'_>, mut each: impl FnMut(&Term)) {
    let unknown = sights
        .iter()
        .filter(|sight| matches!(sight.view, View::Unknown | View::Across))
        .count();
    let told = sights
        .iter()
        .any(|sight| matches!(sight.view, View::Clock(_)));
    let ways = Way::of(belief, unknown);
    let combinations = ways.len().pow(u32::try_from(unknown).unwrap_or(u32::MAX));
    for part in &shape.law.squash {
        if part.weight == 0 {
            continue;
        }
        let squash = Squash::of(*part, shape.od);
        for combination in 0..combinations {
            let mut choices = Choices {
                ways: &ways,
                left: combination,
                weight: Real::scaled(i64::from(squash.weight), -15),
            };
            let mut system = System::new(belief, shape, &squash, told);
            system.take_in(sights, shape, &squash, &mut choices);
            if let Some(mut term) = system.solve(sights.len()) {
                term.factor = term.factor * choices.weight;
                each(&term);
            }
        }
    }
}

/// One way of holding a caliper whose direction nobody told: what it sees of the squash, and how that varies.
#[derive(Clone, Copy)]
struct Way {
    weight: Real,
    /// Cosine of the second harmonic, Q16.
    cosine: i64,
    /// Its variance, Q32.
    variance: u32,
}

impl Way {
    /// Across the springline, or anywhere. Anywhere is cut into quarters, each a narrow normal, or for many
    /// readings, where the combinations would run away, taken as one.
    fn of(belief: &Belief<'_>, unknown: usize) -> Ways {
        let settings = belief.settings;
        let across = Real::scaled(i64::from(settings.springline_share), -32);
        let springline = Self {
            weight: across,
            cosine: i64::from(settings.springline_mean),
            variance: settings.springline_variance,
        };
        let anywhere = Real::ONE - across;
        let mut ways = Ways::new(springline);
        if unknown > FEW {
            ways.push(Self {
                weight: anywhere,
                cosine: 0,
                variance: HALF,
            });
        } else {
            for (cosine, variance) in QUARTERS {
                ways.push(Self {
                    weight: anywhere / Real::integer(4),
                    cosine,
                    variance,
                });
            }
        }
        ways
    }
}

/// The few ways, in place.
struct Ways {
    all: [Way; 5],
    held: usize,
}

impl Ways {
    const fn new(first: Way) -> Self {
        Self {
            all: [first; 5],
            held: 1,
        }
    }

    fn push(&mut self, way: Way) {
        if let Some(slot) = self.all.get_mut(self.held) {
            *slot = way;
            self.held += 1;
        }
    }

    const fn len(&self) -> usize {
        self.held
    }
}

/// One way for each diameter of unknown direction, counted through as the digits of a number.
struct Choices<'a> {
    ways: &'a Ways,
    left: usize,
    weight: Real,
}

impl Choices<'_> {
    fn next(&mut self) -> Way {
        let first = self.ways.all[0];
        let digit = self.left.checked_rem(self.ways.held).unwrap_or(0);
        self.left = self.left.checked_div(self.ways.held).unwrap_or(0);
        let way = self.ways.all.get(digit).copied().unwrap_or(first);
        self.weight = self.weight * way.weight;
        way
    }
}

/// The normal equations of D, P and Q, about the first reading.
#[derive(Default)]
struct System {
    about: i64,
    s: Real,
    su: Real,
    sv: Real,
    suu: Real,
    suv: Real,
    svv: Real,
    sy: Real,
    suy: Real,
    svy: Real,
    syy: Real,
    /// Product of the precisions of everything taken in.
    precision: Real,
}

impl System {
    /// Starts from what is believed of the shape.
    fn new(belief: &Belief<'_>, shape: &Shape<'_>, squash: &Squash, told: bool) -> Self {
        let settings = belief.settings;
        let round = squared(oval(shape.od, shape.oval));
        let power = squash.power();
        let (mean, along, skew) = if told {
            let cosine = settings.clock_mean.cast_signed();
            (
                scaled(squash.mean, cosine, 16),
                squared(scaled(squash.sd, cosine, 16))
                    + portion(power, settings.clock_cosine_variance),
                portion(power, settings.clock_sine_variance),
            )
        } else {
            (squash.mean, squared(squash.sd), 0)
        };
        let precision = |variance: u64| Real::ONE / Real::unsigned(variance + round + 1, 0);
        let (p, q) = (precision(along), precision(skew));
        let mean = Real::integer(i64::from(mean));
        Self {
            suu: p,
            svv: q,
            suy: p * mean,
            syy: p * mean * mean,
            precision: p * q,
            ..Self::default()
        }
    }

    fn take_in(
        &mut self,
        sights: &Sights,
        shape: &Shape<'_>,
        squash: &Squash,
        choices: &mut Choices<'_>,
    ) {
        self.about = sights
            .iter()
            .next()
            .map_or(0, |sight| i64::from(sight.value));
        let round = squared(oval(shape.od, shape.oval));
        let q16 = |share: i64| Real::scaled(share, -16);
        for sight in sights.iter() {
            let own = sight.variance(shape.od);
            let (u, v, own) = match sight.view {
                View::Round => (Real::ZERO, Real::ZERO, own),
                View::Clock(clock) => {
                    let (u, v) = clock.loading();
                    (q16(i64::from(u)), q16(i64::from(v)), own)
                }
                View::Crown(k) => (q16(i64::from(k)), Real::ZERO, own),
                View::Unknown | View::Across => {
                    let way = choices.next();
                    // The skewed half of its out-of-round is the reading's own: nobody knows to which side it leans.
                    let square =
                        u32::try_from((way.cosine * way.cosine).unsigned_abs()).unwrap_or(u32::MAX);
                    let blur =
                        portion(squash.power(), way.variance) + (round - portion(round, square));
                    (q16(way.cosine), Real::ZERO, own + blur)
                }
            };
            self.add(sight, u, v, own);
        }
    }

    fn add(&mut self, sight: &Sight, u: Real, v: Real, variance: u64) {
        let w = Real::ONE / Real::unsigned(variance.max(1), 0);
        let y = Real::integer(i64::from(sight.value) - self.about);
        let (wu, wv, wy) = (w * u, w * v, w * y);
        self.s += w;
        self.su += wu;
        self.sv += wv;
        self.suu += wu * u;
        self.suv += wu * v;
        self.svv += wv * v;
        self.sy += wy;
        self.suy += wy * u;
        self.svy += wy * v;
        self.syy += wy * y;
        self.precision = self.precision * w;
    }

    /// Eliminates the shape. `None` when the readings say nothing about the size.
    fn solve(mut self, readings: usize) -> Option<Term> {
        // Q, then P: Schur complements of the symmetric system.
        let q = self.svv;
        if q > Real::ZERO {
            let (a, b, c) = (self.sv / q, self.suv / q, self.svy / q);
            self.s = self.s - a * self.sv;
            self.su = self.su - a * self.suv;
            self.suu = self.suu - b * self.suv;
            self.sy = self.sy - a * self.svy;
            self.suy = self.suy - b * self.svy;
            self.syy = self.syy - c * self.svy;
        }
        let p = self.suu;
        if p > Real::ZERO {
            let (a, c) = (self.su / p, self.suy / p);
            self.s = self.s - a * self.su;
            self.sy = self.sy - a * self.suy;
            self.syy = self.syy - c * self.suy;
        }
        if self.s <= Real::ZERO {
            return None;
        }
        let mean = self.sy / self.s;
        let misfit = (self.syy - mean * self.sy)
            .to_fixed(20)
            .max(0)
            .unsigned_abs();
        let mut factor = (self.precision / (q * p * self.s)).sqrt() * exp_half(misfit);
        // The normal of D itself is the band's business; one root of 2 pi stays for each further reading.
        let root = Real::scaled(INVERSE_TAU, -32).sqrt();
        for _ in 1..readings.min(Query::CAPACITY) {
            factor = factor * root;
        }
        Some(Term {
            factor,
            at: i32::try_from(self.about + mean.to_fixed(0)).unwrap_or(i32::MAX),
            variance: (Real::ONE / self.s).to_fixed(0).unsigned_abs().max(1),
        })
    }
}
