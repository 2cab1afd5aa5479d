//! The rows' masses while they are gathered, and their shares by what is one answer.

use super::answer::{Hazards, MAX_CANDIDATES, Weight};
use crate::fixed::Real;
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Carries, Family, Material};

/// One row's mass while masses are gathered.
#[derive(Clone, Copy)]
pub(super) struct Ranked {
    pub(super) row: u16,
    pub(super) family: u8,
    pub(super) mass: Real,
}

impl Ranked {
    const NOTHING: Self = Self {
        row: 0,
        family: 0,
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
    /// The mass of everything as it were without the print.
    without_print: Real,
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
            without_print: Real::ZERO,
        }
    }

    /// Notes a mass as it were without the print.
    pub(super) fn note_without_print(&mut self, mass: Real) {
        self.without_print += mass;
    }

    /// The mass of everything as it were without the print.
    pub(super) const fn without_print(&self) -> Real {
        self.without_print
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

/// One purchase's share, and the family of the largest row in it.
#[derive(Clone, Copy)]
struct Group {
    purchase: u16,
    weight: Weight,
    family: u8,
    largest: Weight,
}

/// Shares by purchase.
pub(super) struct Groups {
    all: [Group; MAX_CANDIDATES],
    held: usize,
    rest: Weight,
}

impl Groups {
    const NONE: Group = Group {
        purchase: 0,
        weight: Weight::ZERO,
        family: 0,
        largest: Weight::ZERO,
    };

    /// None yet, beside a share that belongs to none.
    pub(super) const fn new(rest: Weight) -> Self {
        Self {
            all: [Self::NONE; MAX_CANDIDATES],
            held: 0,
            rest,
        }
    }

    /// Takes in a row's share. What it buys is asked for only where it counts.
    pub(super) fn add(&mut self, ranked: &Ranked, part: Weight, purchase: impl FnOnce() -> u16) {
        if part < NEGLIGIBLE {
            self.rest = self.rest.plus(part);
            return;
        }
        let purchase = purchase();
        let held = self.all.iter().take(self.held);
        let known = held
            .into_iter()
            .position(|group| group.purchase == purchase);
        let at = known.unwrap_or(self.held);
        if let Some(group) = self.all.get_mut(at) {
            group.purchase = purchase;
            group.weight = group.weight.plus(part);
            if part > group.largest {
                (group.family, group.largest) = (ranked.family, part);
            }
            self.held = self.held.max(at + 1);
        }
    }

    /// The share of each group.
    pub(super) fn weights(&self) -> impl Iterator<Item = Weight> {
        self.all.iter().take(self.held).map(|group| group.weight)
    }

    /// The leading family of the largest group.
    pub(super) fn leader(&self) -> Option<(u8, Weight)> {
        let held = self.all.iter().take(self.held);
        held.max_by_key(|group| group.weight)
            .map(|group| (group.family, group.weight))
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
            family: (row % 3) as u8,
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
        let row = |row| ranked(row, Real::ONE);
        for (purchase, part) in [(1, 40), (2, 30), (1, 25), (3, 5)] {
            let part = Weight::from_q30(part << 20);
            groups.add(&row(part.q30() as u16), part, || purchase);
        }
        groups.add(&row(4), Weight::from_q30(1023), || 4);
        // Of the purchase that leads, the family of its largest row.
        assert_eq!(groups.leader(), Some((0, Weight::from_q30(65 << 20))));
        let joined: Vec<u32> = groups.weights().map(|w| w.q30() >> 20).collect();
        assert_eq!(joined, [65, 30, 5]);
        let (best, rest) = groups.best_and_rest();
        assert_eq!((best.q30(), rest.q30()), (65 << 20, (35 << 20) + 1024));
    }
}
