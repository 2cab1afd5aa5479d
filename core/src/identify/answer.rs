//! What an identification says.

use crate::fixed::Real;
use crate::image::Settings;
use crate::length::Length;

/// A share of all belief, Q30: `Weight::ONE` is certainty.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Weight(u32);

impl Weight {
    /// Certainty.
    pub const ONE: Self = Self(1 << 30);
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// The share in Q30.
    #[must_use]
    pub const fn q30(self) -> u32 {
        self.0
    }

    /// Part of a total; the nearest Q30 below.
    pub(super) fn of(part: Real, total: Real) -> Self {
        let share = (part / total).to_fixed(30).clamp(0, 1 << 30);
        Self(u32::try_from(share).unwrap_or(0))
    }

    /// This without another; nothing when the other is larger.
    pub(super) const fn less(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }

    /// Both together.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

/// How far an answer goes. Words for code and JSON; people are shown others, because a split is a burst and things
/// settle in trenches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// All that is left is one pipe.
    Settled,
    /// Several pipes are left.
    Split,
    /// Nothing in the tables explains the reading.
    Outside,
}

/// A row of the tables that a reading may be of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// Index of the row.
    pub row: u16,
    /// Its share of all belief.
    pub weight: Weight,
}

/// How oval a pipe was found to be, from diameters that cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutOfRound {
    /// Largest minus smallest of the diameters.
    pub spread: Length,
    /// That spread as a share of their mean, Q16.
    pub share: u32,
}

/// The most candidates that an answer lists; what more there are goes to its rest.
pub const MAX_CANDIDATES: usize = 24;

/// What an identification says. Candidates, `rest` and `outside` sum to [`Weight::ONE`] exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The average diameter that the readings point to, before deflection and temperature.
    pub od: Length,
    /// One sigma of the instruments on it.
    pub sigma: Length,
    /// How far the answer goes, by family and size.
    pub outcome: Outcome,
    /// Whether the leading candidate holds the share from which it is called likely.
    pub likely: bool,
    /// How many answers, by family and size, hold the share from which they are counted; at least one.
    pub counted: u8,
    /// Candidates too small or too many to list.
    pub rest: Weight,
    /// Pipes in no table, readings of a bell or sleeve, misreadings.
    pub outside: Weight,
    /// How oval the pipe is, when diameters that cross were given.
    pub out_of_round: Option<OutOfRound>,
    /// A caliper's jaws did not reach the widest point: its reading was taken as a chord.
    pub short_jaws: bool,
    /// Two readings differ by more than any pipe of the tables explains.
    pub disagreement: bool,
    pub(super) candidates: [Candidate; MAX_CANDIDATES],
    pub(super) listed: u8,
}

impl Answer {
    /// The candidates, the weightiest first; those of equal weight in the order of the tables.
    #[must_use]
    pub fn candidates(&self) -> &[Candidate] {
        self.candidates
            .get(..usize::from(self.listed))
            .unwrap_or(&[])
    }
}

/// One row's mass while masses are gathered.
#[derive(Clone, Copy)]
pub(super) struct Ranked {
    pub(super) row: u16,
    /// Family and size: what rows have in common that are one answer.
    pub(super) pipe: (u8, u8),
    pub(super) mass: Real,
}

impl Ranked {
    const NOTHING: Self = Self {
        row: 0,
        pipe: (0, 0),
        mass: Real::ZERO,
    };
}

/// The rows' masses while they are gathered: the largest few, and the sum of the others.
pub(super) struct Ranking {
    best: [Ranked; MAX_CANDIDATES],
    held: usize,
    rest: Real,
}

impl Ranking {
    pub(super) const fn new() -> Self {
        Self {
            best: [Ranked::NOTHING; MAX_CANDIDATES],
            held: 0,
            rest: Real::ZERO,
        }
    }

    /// Takes in one row's mass.
    pub(super) fn add(&mut self, mut moving: Ranked) {
        let at = self.best().partition_point(|held| held.mass >= moving.mass);
        let behind = self.held - at;
        // Each that is smaller moves down one place; the last of a full list gives way.
        for slot in self.best.iter_mut().skip(at).take(behind + 1) {
            core::mem::swap(slot, &mut moving);
        }
        if self.held < MAX_CANDIDATES {
            self.held += 1;
        } else {
            self.rest += moving.mass;
        }
    }

    /// The rows, the largest first.
    pub(super) fn best(&self) -> &[Ranked] {
        self.best.get(..self.held).unwrap_or(&[])
    }

    /// The mass of the rows that are not listed.
    pub(super) fn rest(&self) -> Real {
        self.rest
    }

    /// The mass of every row.
    pub(super) fn total(&self) -> Real {
        self.best()
            .iter()
            .fold(self.rest, |sum, ranked| sum + ranked.mass)
    }

    /// The rows joined by family and size, those first whose leading row is the largest; `rest` of them is not joined.
    pub(super) fn groups(&self) -> Groups {
        let mut groups = Groups {
            all: [((0, 0), Real::ZERO); MAX_CANDIDATES],
            held: 0,
        };
        for ranked in self.best() {
            groups.add(ranked);
        }
        groups
    }
}

/// Masses by family and size.
pub(super) struct Groups {
    all: [((u8, u8), Real); MAX_CANDIDATES],
    held: usize,
}

impl Groups {
    fn add(&mut self, ranked: &Ranked) {
        for (index, (pipe, mass)) in self.all.iter_mut().enumerate() {
            if index == self.held {
                (*pipe, *mass) = (ranked.pipe, ranked.mass);
                self.held += 1;
                return;
            }
            if *pipe == ranked.pipe {
                *mass += ranked.mass;
                return;
            }
        }
    }

    /// The mass of each group.
    pub(super) fn masses(&self) -> impl Iterator<Item = Real> {
        self.all.iter().take(self.held).map(|(_, mass)| *mass)
    }
}

/// A Q32 share of the settings.
pub(super) fn share(q32: u32) -> Real {
    Real::scaled(i64::from(q32), -32)
}

/// The share from which a candidate is shown.
pub(super) fn shown(settings: &Settings) -> Real {
    share(settings.shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ranked(row: u16, mass: Real) -> Ranked {
        Ranked {
            row,
            pipe: ((row % 3) as u8, 0),
            mass,
        }
    }

    #[test]
    fn a_ranking_keeps_the_largest_and_sums_the_rest() {
        let mut ranking = Ranking::new();
        for row in 0..60u16 {
            // 37 is prime to 60, so that masses arrive in no order.
            ranking.add(ranked(row, Real::integer(i64::from((row * 37) % 60))));
        }
        let masses: Vec<i64> = ranking.best().iter().map(|r| r.mass.to_fixed(0)).collect();
        let want: Vec<i64> = (0..24).map(|i| 59 - i).collect();
        assert_eq!(masses, want);
        assert_eq!(ranking.rest.to_fixed(0), (0..=35).sum::<i64>());
        assert_eq!(ranking.total().to_fixed(0), (0..60).sum::<i64>());
    }

    #[test]
    fn equal_masses_keep_the_order_of_the_tables() {
        let mut ranking = Ranking::new();
        for row in 0..4 {
            ranking.add(ranked(row, Real::ONE));
        }
        let rows: Vec<u16> = ranking.best().iter().map(|r| r.row).collect();
        assert_eq!(rows, [0, 1, 2, 3]);
        let groups: Vec<i64> = ranking.groups().masses().map(|m| m.to_fixed(0)).collect();
        assert_eq!(groups, [2, 1, 1]);
    }
}
