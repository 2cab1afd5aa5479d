//! The rows' masses while they are gathered, and their shares by what is one answer.

use super::answer::{Hazards, MAX_CANDIDATES, Weight};
use crate::fixed::Real;
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Carries, Family, Material};

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
const NEGLIGIBLE: Weight = Weight::from_q30(1 << 10);

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
    fn groups_join_and_what_is_left_is_added_up() {
        let mut groups = Groups::new(Weight::from_q30(1));
        for (pipe, part) in [(1, 40), (2, 30), (1, 25), (3, 5)] {
            groups.add((pipe, 0), Weight::from_q30(part << 20));
        }
        groups.add((4, 0), Weight::from_q30(1023));
        let joined: Vec<u32> = groups.weights().map(|w| w.q30() >> 20).collect();
        assert_eq!(joined, [65, 30, 5]);
        let (best, rest) = groups.best_and_rest();
        assert_eq!((best.q30(), rest.q30()), (65 << 20, (35 << 20) + 1024));
    }
}
