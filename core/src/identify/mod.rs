//! From readings to a set of pipes with weights.
//!
//! Readings become sights of the diameter (`sight`). A window of rows is found by search in the sorted table, and only those
//! rows are weighed: by `single` for one reading, by `balanced` where size and shape part cleanly, by `general`
//! otherwise. What is in no table is weighed by `outside` and competes with the rows. See `DEVELOPERS.md` for the model.

mod answer;
mod balanced;
mod belief;
mod general;
mod outside;
mod sight;
mod single;

pub use answer::{Answer, Candidate, MAX_CANDIDATES, OutOfRound, Outcome, Weight};

use answer::{Groups, Ranked, Ranking, share, shown};
use balanced::Balanced;
use belief::Belief;
use general::Shape;
use sight::{Sights, View};

use crate::fixed::Real;
use crate::image::{Family, Image, Row};
use crate::length::Length;
use crate::reading::{Query, Reading, ReadingError};

/// Out-of-round of a pipe that is in no table, a Q20 share: .0025.
const UNLISTED_OVAL: u16 = 2621;

/// Says what pipe the readings may be of.
///
/// # Errors
///
/// A [`ReadingError`] when there is no reading, or one that no pipe can give.
pub fn identify(image: &Image<'_>, query: &Query) -> Result<Answer, ReadingError> {
    let sights = Sights::of(image, query)?;
    let belief = Belief::new(image, query);
    let disagreement = disagree(&sights);
    let plan = Plan::of(&sights, disagreement);
    let mut ranking = Ranking::new();
    let mut outside = plan.weigh(&belief, &mut ranking);
    if disagreement {
        outside += misread(&belief, &sights);
    }
    let mut answer = conclude(&belief, &ranking, outside);
    (answer.od, answer.sigma) = plan.size();
    answer.out_of_round = out_of_round(&sights);
    answer.short_jaws = query.readings().zip(sights.iter()).any(|(reading, sight)| {
        matches!(reading, Reading::Diameter { .. }) && matches!(sight.view, View::Crown(_))
    });
    answer.disagreement = disagreement;
    Ok(answer)
}

/// How a set of readings is weighed.
enum Plan<'a> {
    Single(&'a sight::Sight),
    Balanced(Balanced),
    General(&'a Sights),
}

impl<'a> Plan<'a> {
    fn of(sights: &'a Sights, disagreement: bool) -> Self {
        let mut all = sights.iter();
        match (all.next(), all.next()) {
            (Some(only), None) => Self::Single(only),
            _ => match Balanced::of(sights) {
                // Readings at odds are compared with misreadings, for which only full densities will do.
                Some(balanced) if !disagreement => Self::Balanced(balanced),
                _ => Self::General(sights),
            },
        }
    }

    /// The average diameter that the readings point to, and one sigma of the instruments on it.
    fn size(&self) -> (Length, Length) {
        let (at, variance) = match self {
            Self::Single(sight) => (i64::from(sight.value), sight.variance(sight.value)),
            Self::Balanced(balanced) => (i64::from(balanced.at), balanced.variance),
            Self::General(sights) => middle(sights),
        };
        let sigma = i64::try_from(variance.isqrt()).unwrap_or(i64::MAX);
        (length(at), length(sigma))
    }

    /// Weighs every row that could give the readings, and returns the mass of pipes in no table.
    fn weigh(&self, belief: &Belief<'_>, ranking: &mut Ranking) -> Real {
        let settings = belief.settings;
        let sum = settings.bell_share + settings.misread_share + settings.unlisted_share;
        let window = self.window(belief);
        let first = belief
            .image
            .first_row(|row| i64::from(row.reach) >= window.0);
        for (index, row) in (first..).zip(belief.image.rows_from(first)) {
            if i64::from(row.low) > window.1 {
                break;
            }
            let family = belief.image.family(row.family);
            if i64::from(row.high) < window.0 || self.is_far(belief, &row, &family) {
                continue;
            }
            let density = self.density(belief, &row, &family);
            if density > Real::ZERO {
                let prior = u64::from(belief.prior(row.family)) * u64::from(row.share);
                ranking.add(Ranked {
                    row: u16::try_from(index).unwrap_or(u16::MAX),
                    pipe: (row.family, row.size),
                    mass: density * Real::unsigned(prior, -64),
                });
            }
        }
        // Rows hold what the others leave of one: the others are raised instead of each row lowered.
        self.unlisted(belief) / (Real::ONE - share(sum))
    }

    /// Whether a row is too far from the readings to be worth weighing.
    fn is_far(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> bool {
        match self {
            Self::Single(sight) => {
                let shape = match sight.view {
                    View::Round => 0,
                    View::Unknown | View::Clock(_) => 1 << 16,
                    View::Crown(k) => k,
                };
                belief.is_far(row, family, sight.value, sight.variance(row.od), shape)
            }
            Self::Balanced(balanced) => {
                belief.is_far(row, family, balanced.at, balanced.variance, 0)
            }
            Self::General(_) => false,
        }
    }

    fn density(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> Real {
        match self {
            Self::Single(sight) => single::density(belief, sight, row, family),
            Self::Balanced(balanced) => balanced.density(belief, row, family),
            Self::General(sights) => {
                let band = belief.band(row, family);
                let law = belief.law(family);
                let shape = Shape {
                    law: &law,
                    od: row.od,
                    oval: row.oval,
                };
                let mut sum = Real::ZERO;
                general::terms(belief, sights, &shape, |term| {
                    sum += term.factor * belief.density(&band, term.at, term.variance);
                });
                sum
            }
        }
    }

    /// The mass of bells and sleeves, of pipes that nobody listed and, for a single reading, of misreadings.
    fn unlisted(&self, belief: &Belief<'_>) -> Real {
        let settings = belief.settings;
        let at = |at: i64, alone: bool| {
            let misread = if alone { settings.misread_share } else { 0 };
            share(settings.unlisted_share + misread) * outside::log_uniform(belief, at)
                + share(settings.bell_share) * outside::bell(belief, at)
        };
        match self {
            Self::Single(sight) => at(i64::from(sight.value), true),
            Self::Balanced(balanced) => {
                let mut shape = Real::ZERO;
                for (law, weight) in belief.laws() {
                    shape += weight * balanced.shape(belief, &law, balanced.at, UNLISTED_OVAL);
                }
                at(i64::from(balanced.at), false) * shape
            }
            Self::General(sights) => {
                let (middle, _) = middle(sights);
                let od = i32::try_from(middle).unwrap_or(i32::MAX);
                let mut sum = Real::ZERO;
                for (law, weight) in belief.laws() {
                    let shape = Shape {
                        law: &law,
                        od,
                        oval: UNLISTED_OVAL,
                    };
                    general::terms(belief, sights, &shape, |term| sum += weight * term.factor);
                }
                at(middle, false) * sum
            }
        }
    }

    /// Low and high edge of the bands that may give the readings.
    fn window(&self, belief: &Belief<'_>) -> (i64, i64) {
        match self {
            Self::Single(sight) => reach(belief, sight),
            Self::Balanced(balanced) => {
                let sigma = balanced.variance.isqrt().cast_signed();
                widen(belief, i64::from(balanced.at), sigma, 0)
            }
            Self::General(sights) => {
                let each = || sights.iter().map(|sight| reach(belief, sight));
                let low = each().map(|(low, _)| low);
                let high = each().map(|(_, high)| high);
                let inner = (low.clone().max(), high.clone().min());
                match inner {
                    (Some(low), Some(high)) if low <= high => (low, high),
                    _ => (low.min().unwrap_or(0), high.max().unwrap_or(0)),
                }
            }
        }
    }
}

/// The bands that may give one reading.
fn reach(belief: &Belief<'_>, sight: &sight::Sight) -> (i64, i64) {
    let squash = if belief.buried() {
        belief.settings.squash_reach
    } else {
        // Out-of-round as made alone: a quarter of what a squash can do covers it.
        belief.settings.squash_reach / 4
    };
    let squash = i64::from(squash);
    let at = i64::from(sight.value);
    let sigma = |od: i32| sight.variance(od).isqrt().cast_signed();
    match sight.view {
        View::Round => widen(belief, at, sigma(sight.value), 0),
        View::Unknown | View::Clock(_) => widen(belief, at, sigma(sight.value), squash),
        View::Crown(k) => {
            let squash = (squash * i64::from(k)) >> 16;
            let (low, mut high) = widen(belief, at, sigma(sight.value), squash);
            // A larger pipe under the same rise is less certain than the one that was read: the upper edge is sought step by
            // step, and held where a straight edge would tell nothing.
            for _ in 0..4 {
                let larger = i32::try_from(high.min(16 * at)).unwrap_or(i32::MAX);
                high = widen(belief, at, sigma(larger), squash).1;
            }
            (low, high.min(16 * at))
        }
    }
}

/// A diameter's window: six and a half sigma, what a row may stand beyond its band, and a Q32 share for the shape.
fn widen(belief: &Belief<'_>, at: i64, sigma: i64, shape: i64) -> (i64, i64) {
    let settings = belief.settings;
    let moved = shape + i64::from(settings.reach_share);
    // Counted on the pipe and not on the reading, which a squash makes larger: one part in sixteen more.
    let moved = moved + (moved >> 4);
    let away = 13 * sigma / 2 + i64::from(settings.reach) + (((at >> 8) * moved) >> 24);
    (at - away, at + away)
}

/// The readings' mean by weight of their instruments, shape left aside, and its variance.
fn middle(sights: &Sights) -> (i64, u64) {
    let (mut sum, mut weight) = (Real::ZERO, Real::ZERO);
    for sight in sights.iter() {
        let w = Real::ONE / Real::unsigned(sight.variance(sight.value).max(1), 0);
        sum += w * Real::integer(i64::from(sight.value));
        weight += w;
    }
    let variance = (Real::ONE / weight).to_fixed(0).unsigned_abs();
    ((sum / weight).to_fixed(0), variance)
}

/// Whether two readings differ by more than instruments and any shape of pipe are likely to explain.
fn disagree(sights: &Sights) -> bool {
    sights.iter().enumerate().any(|(index, a)| {
        sights.iter().skip(index + 1).any(|b| {
            let apart = (i64::from(a.value) - i64::from(b.value)).abs();
            let noise = (a.variance(a.value) + b.variance(b.value))
                .isqrt()
                .cast_signed();
            let round = a.view == View::Round && b.view == View::Round;
            // Two per cent is an ordinary squash of one diameter; two of them lie twice that apart.
            let shape = if round { 0 } else { i64::from(a.value) / 16 };
            apart > 4 * noise + shape
        })
    })
}

/// The mass of one of several readings being misread while the others are of one pipe.
fn misread(belief: &Belief<'_>, sights: &Sights) -> Real {
    let mut sum = Real::ZERO;
    for (index, wrong) in sights.iter().enumerate() {
        let others = sights.without(index);
        let plan = match others.iter().next() {
            Some(only) if others.len() == 1 => Plan::Single(only),
            Some(_) => Plan::General(&others),
            None => continue,
        };
        let mut ranking = Ranking::new();
        let unlisted = plan.weigh(belief, &mut ranking);
        sum += share(belief.settings.misread_share)
            * outside::log_uniform(belief, i64::from(wrong.value))
            * (ranking.total() + unlisted);
    }
    sum
}

/// How oval the pipe is, from diameters at told clock positions a right angle apart.
fn out_of_round(sights: &Sights) -> Option<OutOfRound> {
    let clocks = || {
        sights.iter().filter_map(|sight| match sight.view {
            View::Clock(clock) => Some((clock.loading(), i64::from(sight.value))),
            _ => None,
        })
    };
    let crossed = clocks()
        .any(|((u, _), _)| clocks().any(|((other, _), _)| i64::from(u) * i64::from(other) < 0));
    let (least, most) = (
        clocks().map(|(_, value)| value).min()?,
        clocks().map(|(_, value)| value).max()?,
    );
    crossed.then(|| OutOfRound {
        spread: length(most - least),
        share: u32::try_from(((most - least) << 17) / (most + least).max(1)).unwrap_or(0),
    })
}

fn length(counts: i64) -> Length {
    Length::from_counts(i32::try_from(counts).unwrap_or(i32::MAX))
}

/// Weights from masses. Every threshold is held against the sum of the rest, never against one minus a rounded weight.
fn conclude(belief: &Belief<'_>, ranking: &Ranking, outside: Real) -> Answer {
    let settings = belief.settings;
    let total = ranking.total() + outside;
    let mut answer = Answer {
        od: Length::ZERO,
        sigma: Length::ZERO,
        outcome: Outcome::Outside,
        likely: false,
        counted: 1,
        rest: Weight::ZERO,
        outside: Weight::ONE,
        out_of_round: None,
        short_jaws: false,
        disagreement: false,
        candidates: [Candidate {
            row: 0,
            weight: Weight::ZERO,
        }; MAX_CANDIDATES],
        listed: 0,
    };
    if total.is_zero() {
        return answer;
    }
    let least = shown(settings) * total;
    for (slot, ranked) in answer.candidates.iter_mut().zip(ranking.best()) {
        if ranked.mass < least {
            break;
        }
        *slot = Candidate {
            row: ranked.row,
            weight: Weight::of(ranked.mass, total),
        };
        answer.listed += 1;
    }
    answer.outside = Weight::of(outside, total);
    balance(&mut answer);

    let groups = ranking.groups();
    let best = groups.masses().max().unwrap_or(Real::ZERO);
    answer.likely = best >= share(settings.likely) * total;
    answer.outcome = if outside >= share(settings.outside_at_least) * total {
        Outcome::Outside
    } else if left_beside(&groups, best, ranking) + outside <= share(settings.settled_rest) * total
    {
        Outcome::Settled
    } else {
        Outcome::Split
    };
    let least = share(settings.counted) * total;
    let counted = groups.masses().filter(|mass| *mass >= least).count();
    answer.counted = u8::try_from(counted.max(1)).unwrap_or(u8::MAX);
    answer
}

/// Makes weights sum to one exactly: what rounding leaves over goes to the rest, what it took too much comes off the
/// largest.
fn balance(answer: &mut Answer) {
    let listed = usize::from(answer.listed);
    let taken = answer
        .candidates()
        .iter()
        .fold(answer.outside, |sum, candidate| sum.plus(candidate.weight));
    answer.rest = Weight::ONE.less(taken);
    let excess = taken.less(Weight::ONE);
    match answer
        .candidates
        .get_mut(..listed)
        .and_then(<[_]>::first_mut)
    {
        Some(leader) if leader.weight >= answer.outside => {
            leader.weight = leader.weight.less(excess);
        }
        _ => answer.outside = answer.outside.less(excess),
    }
}

/// The mass of every row that is not of the leading group, added up and not subtracted from the whole.
fn left_beside(groups: &Groups, best: Real, ranking: &Ranking) -> Real {
    let mut leader_seen = false;
    let mut left = ranking.rest();
    for mass in groups.masses() {
        if mass == best && !leader_seen {
            leader_seen = true;
        } else {
            left += mass;
        }
    }
    left
}
