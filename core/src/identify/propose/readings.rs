//! Readings as checks: a tape, or a diameter that crosses the first.
//!
//! Both see the average diameter. What each surviving row would show of it is taken as a normal, made of its band, its surface
//! and of what the first reading already says; the outcome is weighed on three points of each.

use super::Check;
use super::standing::{Gathered, Left, Masses, Standing, Worth};
use crate::fixed::{DENSITY_BITS, Real, density};
use crate::identify::belief::{Belief, oval, scaled, squared};
use crate::identify::sight::{Sight, View};
use crate::identify::sights::Sights;
use crate::image::Component;
use crate::reading::Tool;

/// Rows that are followed; what more there are stays as it is.
const MOST: usize = 8;

/// A normal on the average diameter: mean and variance, counts.
#[derive(Clone, Copy)]
struct Normal {
    mean: i32,
    variance: u64,
}

/// What the rows that are left would show to a reading that sees all round.
pub(super) struct Rounds<'a> {
    sight: &'a Sight,
    rows: [Option<(Left, Normal)>; MOST],
    /// Pipe in no table: about the first reading, as far off as an ordinary squash.
    others: Normal,
}

impl<'a> Rounds<'a> {
    /// `None` where the readings see all round already, or may.
    pub(super) fn of(belief: &Belief<'_>, sights: &'a Sights, standing: &Standing) -> Option<Self> {
        let mut all = sights.iter();
        let sight = all.next()?;
        // Readings of one diameter, or of the crown, are one view; two of unknown direction may cross already.
        let alone = all.clone().next().is_none();
        let one_view = sight.view != View::Unknown && all.all(|other| other.view == sight.view);
        if sight.view == View::Round || !(alone || one_view) {
            return None;
        }
        let mut rows = [None; MOST];
        for (slot, left) in rows.iter_mut().zip(standing.rows()) {
            *slot = Some((*left, expected(belief, sight, left.row)));
        }
        let others = Normal {
            mean: sight.value,
            variance: sight.variance(sight.value) + squared(sight.value / 50),
        };
        Some(Self {
            sight,
            rows,
            others,
        })
    }

    /// What such a reading is worth.
    pub(super) fn worth(&self, belief: &Belief<'_>, standing: &Standing, check: Check) -> Worth {
        let own = own_variance(belief, self.sight.value, check);
        let mut gathered = Gathered::default();
        let mut followed = 0u32;
        for (left, normal) in self.rows.iter().flatten() {
            followed = followed.saturating_add(left.weight);
            let sigma = (normal.variance + own).isqrt();
            // The root of three sigma, on either side: a third of the weight is a sixth each.
            let away = i32::try_from((sigma * 1774) >> 10).unwrap_or(i32::MAX / 4);
            for (at, sixths) in [(-away, 1), (0, 4), (away, 1)] {
                let masses = self.masses(standing, normal.mean.saturating_add(at), own);
                // Scaled to the chance of this point, so that points add up to the row's weight.
                let chance = u64::from(left.weight) * sixths / 6;
                gathered.take(standing, &masses.scaled(chance));
            }
        }
        // What is not followed stays as doubtful as it is: it is gathered as it stands, at its share.
        let rest = (1u32 << 30).saturating_sub(followed);
        gathered.take(standing, &standing.now(u64::from(rest)));
        standing.worth(gathered)
    }

    /// The groups after a reading of so much, in Q30 of their sum.
    fn masses(&self, standing: &Standing, at: i32, own: u64) -> Masses {
        let mass = |weight: u32, normal: &Normal| {
            let density = density(at - normal.mean, normal.variance + own, 1 << 15);
            Real::unsigned(u64::from(weight), -30) * Real::unsigned(density, -DENSITY_BITS)
        };
        let others = mass(standing.others, &self.others);
        let mut total = others;
        let mut each = [(0u8, Real::ZERO); MOST];
        for (slot, (left, normal)) in each.iter_mut().zip(self.rows.iter().flatten()) {
            *slot = (left.group, mass(left.weight, normal));
            total += slot.1;
        }
        let inverse = Real::ONE / total;
        let share = |mass: Real| u32::try_from((mass * inverse).to_fixed(30)).unwrap_or(0);
        let mut masses = Masses::NONE;
        for (group, mass) in each {
            masses.add(group, share(mass));
        }
        masses.others = share(others);
        masses
    }
}

/// The variance of the reading itself, on the average diameter.
fn own_variance(belief: &Belief<'_>, at: i32, check: Check) -> u64 {
    let tool = match check {
        Check::Tape => Tool::SteelTape,
        _ => Tool::Caliper,
    };
    let own = Sight::of_tool(belief.image, tool, at);
    // The mean of two diameters.
    if tool == Tool::Caliper { own / 2 } else { own }
}

/// The average diameter of a row's pipes, coat and all, after the first reading: the band as a normal, met by the reading.
fn expected(belief: &Belief<'_>, sight: &Sight, row: u16) -> Normal {
    let row = belief.image.row(row);
    let family = belief.image.family(row.family);
    let (middle, spread) = belief.surface(&row, &family);
    let (mean, shape) = match sight.view {
        View::Round => (0, 0),
        View::Unknown => moments(belief.image.sight(belief.law(&family)), row.od, 1 << 16),
        View::Across => moments(belief.image.sight(belief.law(&family)), row.od, -(1 << 16)),
        View::Clock(clock) => moments(belief.squash(&family), row.od, clock.loading().0),
        View::Crown(k) => moments(belief.squash(&family), row.od, k),
    };
    let noise = sight.variance(row.od) + shape + squared(oval(row.od, row.oval));
    let off = Real::integer(i64::from(sight.value) - i64::from(middle) - i64::from(mean));
    let both = Real::unsigned(spread + noise, 0);
    let gain = Real::unsigned(spread, 0) / both;
    let moved = i32::try_from((gain * off).to_fixed(0)).unwrap_or(0);
    let variance = (gain * Real::unsigned(noise, 0)).to_fixed(0);
    Normal {
        mean: middle.saturating_add(moved),
        variance: variance.unsigned_abs(),
    }
}

/// Mean and variance of a mixture on a pipe of an OD, seen through a Q16 loading.
fn moments(parts: impl Iterator<Item = Component>, od: i32, loading: i32) -> (i32, u64) {
    let (mut mean, mut power) = (0i64, 0u64);
    for part in parts {
        let at = scaled(scaled(od, i32::from(part.mean), 18), loading, 16);
        let sd = scaled(scaled(od, i32::from(part.sd), 18), loading, 16);
        mean += i64::from(at) * i64::from(part.weight);
        power += ((squared(at) + squared(sd)) >> 15) * u64::from(part.weight);
    }
    let mean = i32::try_from(mean >> 15).unwrap_or(0);
    (mean, power.saturating_sub(squared(mean)))
}
