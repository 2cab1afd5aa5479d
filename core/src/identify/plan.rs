//! How a set of readings is weighed: which rows, by which of the ways, against what is in no table.

use super::answer::share;
use super::apart::Apart;
use super::balanced::Balanced;
use super::belief::Belief;
use super::ranking::{Ranked, Ranking};
use super::sight::{Sight, View};
use super::sights::Sights;
use super::{general, length, outside, single};
use crate::fixed::Real;
use crate::image::{Family, Row};
use crate::length::Length;

/// Out-of-round of a pipe that is in no table, a Q20 share: .0025.
pub(super) const UNLISTED_OVAL: u16 = 2621;

/// Every mass that the readings leave.
pub(super) struct Weighed {
    pub(super) ranking: Ranking,
    /// Pipes in no table, bells, misreadings.
    pub(super) outside: Real,
}

impl Weighed {
    /// All of it.
    pub(super) fn total(&self) -> Real {
        self.ranking.total() + self.outside
    }
}

/// How a set of readings is weighed.
pub(super) enum Plan<'a> {
    Single(&'a Sight),
    Balanced(Balanced),
    General(&'a Sights),
    Apart(Apart<'a>),
}

impl<'a> Plan<'a> {
    /// Readings of one place, reduced to an average and a shape where they balance.
    pub(super) fn of(sights: &'a Sights, balanced: Option<Balanced>) -> Self {
        let mut all = sights.iter();
        match (balanced, all.next(), all.next()) {
            (Some(balanced), ..) => Self::Balanced(balanced),
            (None, Some(only), None) => Self::Single(only),
            _ => Self::General(sights),
        }
    }

    /// The average diameter that the readings point to, and one sigma of the instruments on it.
    pub(super) fn size(&self) -> (Length, Length) {
        let (at, variance) = match self {
            Self::Single(sight) => (i64::from(sight.value), sight.variance(sight.value)),
            Self::Balanced(balanced) => (i64::from(balanced.at), balanced.variance),
            Self::General(sights) => middle(sights),
            Self::Apart(apart) => apart.size(),
        };
        let sigma = i64::try_from(variance.isqrt()).unwrap_or(i64::MAX);
        (length(at), length(sigma))
    }

    /// Weighs every row that could give the readings, and returns the mass of pipes in no table.
    pub(super) fn weigh(&self, belief: &Belief<'_>, ranking: &mut Ranking) -> Real {
        let settings = belief.settings;
        let keep_families = belief.is_told();
        let has_print = belief.has_print();
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
            let mut density = self.density(belief, &row, &family);
            if density > Real::ZERO {
                if let Some(factor) = belief.size_factor(row.size) {
                    density = density * factor;
                }
                let bare = density;
                if let Some(inside) = belief.inside() {
                    density = density * inside.chance(&row);
                }
                if keep_families {
                    let share = Real::unsigned(u64::from(row.share), -32);
                    ranking.note_family(row.family, density * share);
                }
                let prior = u64::from(belief.prior(row.family)) * u64::from(row.share);
                let prior = Real::unsigned(prior, -64);
                let mass = density * prior;
                if let (true, Some(inside)) = (has_print, belief.inside()) {
                    ranking.note_without_print(bare * inside.without_print(&row) * prior);
                }
                ranking.note(&family, mass);
                ranking.add(Ranked {
                    row: u16::try_from(index).unwrap_or(u16::MAX),
                    family: row.family,
                    mass,
                });
            }
        }
        // Rows hold what the others leave of one: the others are raised instead of each row lowered.
        let unlisted = self.unlisted(belief) / (Real::ONE - share(sum));
        let Some(inside) = belief.inside() else {
            return unlisted;
        };
        let (told, without_print) = inside.unlisted();
        ranking.note_without_print(unlisted * without_print);
        unlisted * told
    }

    /// Whether a row is too far from the readings to be worth weighing.
    fn is_far(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> bool {
        match self {
            Self::Single(sight) => is_far(belief, row, family, sight),
            Self::Balanced(balanced) => {
                belief.is_far(row, family, balanced.at, balanced.variance, 0)
            }
            Self::General(_) => false,
            Self::Apart(apart) => apart.is_far(|sight| is_far(belief, row, family, sight)),
        }
    }

    fn density(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> Real {
        match self {
            Self::Single(sight) => single::density(belief, sight, row, family),
            Self::Balanced(balanced) => balanced.density(belief, row, family),
            Self::General(sights) => general::density(belief, sights, row, family),
            Self::Apart(apart) => apart.density(belief, row, family),
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
                    shape += weight * balanced.shape(belief, law, balanced.at, UNLISTED_OVAL);
                }
                at(i64::from(balanced.at), false) * shape
            }
            Self::General(sights) => {
                let (middle, _) = middle(sights);
                let od = i32::try_from(middle).unwrap_or(i32::MAX);
                at(middle, false) * general::unlisted_shape(belief, sights, od, UNLISTED_OVAL)
            }
            Self::Apart(apart) => apart.unlisted(belief),
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
            Self::Apart(apart) => {
                let each = || apart.sights().iter().map(|sight| reach(belief, sight));
                let low = each().map(|(low, _)| low).min();
                let high = each().map(|(_, high)| high).max();
                (low.unwrap_or(0), high.unwrap_or(0))
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

/// Whether a row is too far from one reading to be worth weighing.
fn is_far(belief: &Belief<'_>, row: &Row, family: &Family, sight: &Sight) -> bool {
    let shape = match sight.view {
        View::Round => 0,
        View::Unknown | View::Across | View::Clock(_) => 1 << 16,
        View::Crown(k) => k,
    };
    belief.is_far(row, family, sight.value, sight.variance(row.od), shape)
}

/// The bands that may give one reading.
fn reach(belief: &Belief<'_>, sight: &Sight) -> (i64, i64) {
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
        View::Unknown | View::Across | View::Clock(_) => {
            widen(belief, at, sigma(sight.value), squash)
        }
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

/// A diameter's window: six sigma, what a row may stand beyond its band, and a Q32 share for the shape.
fn widen(belief: &Belief<'_>, at: i64, sigma: i64, shape: i64) -> (i64, i64) {
    let settings = belief.settings;
    let moved = shape + i64::from(settings.reach_share);
    // Counted on the pipe and not on the reading, which a squash makes larger: one part in sixteen more.
    let moved = moved + (moved >> 4);
    let away = 6 * sigma + i64::from(settings.reach) + (((at >> 8) * moved) >> 24);
    (at - away, at + away)
}

/// The readings' mean by weight of their instruments, shape left aside, and its variance.
pub(super) fn middle(sights: &Sights) -> (i64, u64) {
    let (mut sum, mut weight) = (Real::ZERO, Real::ZERO);
    for sight in sights.iter() {
        let w = Real::ONE / Real::unsigned(sight.variance(sight.value).max(1), 0);
        sum += w * Real::integer(i64::from(sight.value));
        weight += w;
    }
    let variance = (Real::ONE / weight).to_fixed(0).unsigned_abs();
    ((sum / weight).to_fixed(0), variance)
}
