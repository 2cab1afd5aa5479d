//! What an identification says.

use crate::clue::ClueName;
use crate::fixed::Real;
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Carries, Family, Material};
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

    /// Of a share in Q30.
    pub(super) const fn from_q30(q30: u32) -> Self {
        Self(q30)
    }

    /// Part of a whole of which `inverse` is the inverse; the nearest Q30 below.
    #[inline]
    pub(super) fn of(part: Real, inverse: Real) -> Self {
        let share = (part * inverse).to_fixed(30).clamp(0, 1 << 30);
        Self(u32::try_from(share).unwrap_or(0))
    }

    /// A Q32 share of the settings.
    pub(super) const fn share(q32: u32) -> Self {
        Self(q32 >> 2)
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

/// What could hurt someone: masses, shares, or whether to stop.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Hazards<T> {
    /// Asbestos-cement.
    pub cement: T,
    /// Pipe that carries fuel gas.
    pub gas: T,
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
    /// Asbestos-cement and gas pipe of every size, listed or in the rest: a caution must not hang on what fits a list.
    pub hazards: Hazards<Weight>,
    /// Stop, and ask who is licensed for asbestos-cement, or the gas utility.
    pub stop: Hazards<bool>,
    /// The clue that the readings and the other clues speak against.
    pub contradiction: Option<ClueName>,
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
    /// That nothing explains the readings.
    pub(super) const fn new() -> Self {
        Self {
            od: Length::ZERO,
            sigma: Length::ZERO,
            outcome: Outcome::Outside,
            likely: false,
            counted: 1,
            rest: Weight::ZERO,
            outside: Weight::ONE,
            hazards: Hazards {
                cement: Weight::ZERO,
                gas: Weight::ZERO,
            },
            stop: Hazards {
                cement: false,
                gas: false,
            },
            contradiction: None,
            out_of_round: None,
            short_jaws: false,
            disagreement: false,
            candidates: [Candidate {
                row: 0,
                weight: Weight::ZERO,
            }; MAX_CANDIDATES],
            listed: 0,
        }
    }

    /// The candidates, the weightiest first; those of equal weight in the order of the tables.
    #[must_use]
    pub fn candidates(&self) -> &[Candidate] {
        self.candidates
            .get(..usize::from(self.listed))
            .unwrap_or(&[])
    }

    /// Lists a candidate in its place: by weight, and those of equal weight in the order of the tables.
    pub(super) fn list(&mut self, new: Candidate) {
        let mut at = usize::from(self.listed);
        if at == MAX_CANDIDATES {
            return;
        }
        self.listed += 1;
        while let Some(before) = at
            .checked_sub(1)
            .and_then(|i| self.candidates.get(i).copied())
            && (before.weight, new.row) < (new.weight, before.row)
        {
            if let Some(slot) = self.candidates.get_mut(at) {
                *slot = before;
            }
            at -= 1;
        }
        if let Some(slot) = self.candidates.get_mut(at) {
            *slot = new;
        }
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
    all: [Ranked; MAX_CANDIDATES],
    held: usize,
    /// The smallest that is held, once no more can be.
    smallest: usize,
    rest: Real,
    /// The asbestos-cement among all of them, and what carries gas.
    hazards: Hazards<Real>,
    /// Densities by family, before its share; kept only where something was told.
    families: [Real; MAX_FAMILIES],
}

impl Ranking {
    pub(super) const fn new() -> Self {
        Self {
            all: [Ranked::NOTHING; MAX_CANDIDATES],
            held: 0,
            smallest: 0,
            rest: Real::ZERO,
            hazards: Hazards {
                cement: Real::ZERO,
                gas: Real::ZERO,
            },
            families: [Real::ZERO; MAX_FAMILIES],
        }
    }

    /// Notes a row that could hurt someone.
    pub(super) fn note(&mut self, family: &Family, mass: Real) {
        if family.material == Material::Cement as u8 {
            self.hazards.cement += mass;
        }
        if family.carries == Carries::Gas as u8 {
            self.hazards.gas += mass;
        }
    }

    /// The mass of what could hurt someone.
    pub(super) const fn hazards(&self) -> &Hazards<Real> {
        &self.hazards
    }

    /// Notes the density of a row, before its family's share.
    pub(super) fn note_family(&mut self, family: u8, density: Real) {
        if let Some(sum) = self.families.get_mut(usize::from(family)) {
            *sum += density;
        }
    }

    /// The density of the readings on a family's pipes.
    pub(super) fn of_family(&self, family: u8) -> Real {
        self.families
            .get(usize::from(family))
            .copied()
            .unwrap_or(Real::ZERO)
    }

    /// Takes in one row's mass.
    pub(super) fn add(&mut self, new: Ranked) {
        if let Some(slot) = self.all.get_mut(self.held) {
            *slot = new;
            self.held += 1;
            if self.held < MAX_CANDIDATES {
                return;
            }
        } else if let Some(slot) = self.all.get_mut(self.smallest)
            && new.mass > slot.mass
        {
            self.rest += slot.mass;
            *slot = new;
        } else {
            self.rest += new.mass;
            return;
        }
        // Of equals the last gives way, as the order of the tables has it.
        let mut least: Option<Real> = None;
        for (index, ranked) in self.all.iter().enumerate() {
            if least.is_none_or(|least| ranked.mass <= least) {
                (self.smallest, least) = (index, Some(ranked.mass));
            }
        }
    }

    /// The mass of every row.
    pub(super) fn total(&self) -> Real {
        let held = self.all.iter().take(self.held);
        held.fold(self.rest, |sum, ranked| sum + ranked.mass)
    }

    /// The rows' shares of a whole of which `inverse` is the inverse, in the order in which they came.
    pub(super) fn shares(&self, inverse: Real) -> impl Iterator<Item = (&Ranked, Weight)> {
        let held = self.all.iter().take(self.held);
        held.map(move |ranked| (ranked, Weight::of(ranked.mass, inverse)))
    }

    /// The mass of the rows that are not held.
    pub(super) const fn rest(&self) -> Real {
        self.rest
    }
}

/// A row below this is nobody's: 24 of them move no threshold by more than a fifty-thousandth.
const NEGLIGIBLE: Weight = Weight(1 << 10);

/// Shares by family and size.
pub(super) struct Groups {
    all: [((u8, u8), Weight); MAX_CANDIDATES],
    held: usize,
    rest: Weight,
}

impl Groups {
    /// None yet, beside a share that belongs to none.
    pub(super) const fn new(rest: Weight) -> Self {
        Self {
            all: [((0, 0), Weight::ZERO); MAX_CANDIDATES],
            held: 0,
            rest,
        }
    }

    pub(super) fn add(&mut self, pipe: (u8, u8), part: Weight) {
        if part < NEGLIGIBLE {
            self.rest = self.rest.plus(part);
            return;
        }
        let held = self.all.iter_mut().take(self.held);
        for (known, weight) in held {
            if *known == pipe {
                *weight = weight.plus(part);
                return;
            }
        }
        if let Some(slot) = self.all.get_mut(self.held) {
            *slot = (pipe, part);
            self.held += 1;
        }
    }

    /// The share of each group.
    pub(super) fn weights(&self) -> impl Iterator<Item = Weight> {
        self.all.iter().take(self.held).map(|(_, weight)| *weight)
    }

    /// The family of the largest group.
    pub(super) fn leader(&self) -> Option<(u8, Weight)> {
        let held = self.all.iter().take(self.held);
        held.max_by_key(|(_, weight)| *weight)
            .map(|((family, _), weight)| (*family, *weight))
    }

    /// The share of the largest group, and that of all others: added up and not subtracted from the whole, because one minus
    /// a rounded weight is not what is left.
    pub(super) fn best_and_rest(&self) -> (Weight, Weight) {
        let (mut best, mut rest) = (Weight::ZERO, self.rest);
        for weight in self.weights() {
            if weight > best {
                rest = rest.plus(best);
                best = weight;
            } else {
                rest = rest.plus(weight);
            }
        }
        (best, rest)
    }
}

/// A Q32 share of the settings.
pub(super) fn share(q32: u32) -> Real {
    Real::unsigned(u64::from(q32), -32)
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
        assert_eq!(ranking.rest.to_fixed(0), (0..=35).sum::<i64>());
        assert_eq!(ranking.total().to_fixed(0), (0..60).sum::<i64>());
        // Of 64, so that shares are exact.
        let whole = Real::scaled(1, -6);
        let mut kept: Vec<u32> = ranking.shares(whole).map(|(_, w)| w.q30() >> 24).collect();
        kept.sort_unstable();
        assert_eq!(kept, (36..60).collect::<Vec<u32>>());
    }

    #[test]
    fn the_last_of_equals_gives_way() {
        let mut ranking = Ranking::new();
        for row in 0..30 {
            ranking.add(ranked(row, Real::ONE));
        }
        let kept: Vec<u16> = ranking.shares(Real::ONE).map(|(r, _)| r.row).collect();
        assert_eq!(kept, (0..24).collect::<Vec<u16>>());
    }

    #[test]
    fn candidates_are_listed_by_weight_and_then_in_the_order_of_the_tables() {
        let mut answer = Answer::new();
        for (row, weight) in [(4, 3), (7, 9), (2, 3), (5, 1), (9, 9), (3, 5)] {
            answer.list(Candidate {
                row,
                weight: Weight(weight),
            });
        }
        let rows: Vec<u16> = answer.candidates().iter().map(|c| c.row).collect();
        assert_eq!(rows, [7, 9, 3, 2, 4, 5]);
        for row in 10..60 {
            answer.list(Candidate {
                row,
                weight: Weight(1),
            });
        }
        assert_eq!(answer.candidates().len(), MAX_CANDIDATES);
    }

    #[test]
    fn groups_join_and_what_is_left_is_added_up() {
        let mut groups = Groups::new(Weight(1));
        for (pipe, part) in [(1, 40), (2, 30), (1, 25), (3, 5)] {
            groups.add((pipe, 0), Weight(part << 20));
        }
        groups.add((4, 0), Weight(1023));
        let joined: Vec<u32> = groups.weights().map(|w| w.q30() >> 20).collect();
        assert_eq!(joined, [65, 30, 5]);
        let (best, rest) = groups.best_and_rest();
        assert_eq!((best.q30(), rest.q30()), (65 << 20, (35 << 20) + 1024));
    }
}
