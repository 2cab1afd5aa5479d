//! What is left of an answer, by group, and what an outcome of a check would leave of it.

use crate::fixed::log2_share;
use crate::identify::answer::{Answer, MAX_CANDIDATES, Weight};
use crate::image::{Image, Row};
use crate::joint::Job;

/// One row that is left.
#[derive(Clone, Copy)]
pub(super) struct Left {
    pub(super) row: u16,
    pub(super) family: u8,
    /// Which of the groups it belongs to.
    pub(super) group: u8,
    /// Its share of all belief, Q30.
    pub(super) weight: u32,
}

/// The rows that are left, in groups that are one purchase each; pipes in no table and too small to list count as one more.
pub(super) struct Standing {
    rows: [Left; MAX_CANDIDATES],
    held: usize,
    pub(super) groups: usize,
    /// What is in no group, Q30.
    pub(super) others: u32,
    /// The doubt between the groups, Q16 bits.
    doubt: u32,
    /// Settled: all but one group have at most this, Q30.
    settled: u32,
}

/// Masses by group, Q30, and of what is in none.
#[derive(Clone, Copy)]
pub(super) struct Masses {
    pub(super) groups: [u32; MAX_CANDIDATES],
    pub(super) others: u32,
}

impl Masses {
    pub(super) const NONE: Self = Self {
        groups: [0; MAX_CANDIDATES],
        others: 0,
    };

    /// These times a Q30 share.
    pub(super) fn scaled(mut self, share: u64) -> Self {
        let scale = |mass: u32| u32::try_from((u64::from(mass) * share) >> 30).unwrap_or(u32::MAX);
        for mass in &mut self.groups {
            *mass = scale(*mass);
        }
        self.others = scale(self.others);
        self
    }

    /// Adds to a group.
    pub(super) fn add(&mut self, group: u8, mass: u32) {
        if let Some(sum) = self.groups.get_mut(usize::from(group)) {
            *sum = sum.saturating_add(mass);
        }
    }
}

/// What a check is expected to do.
#[derive(Clone, Copy)]
pub(super) struct Worth {
    pub(super) settles: Weight,
    /// Q16 bits.
    pub(super) less_doubt: u32,
}

/// What is gathered over the outcomes of a check.
#[derive(Clone, Copy, Default)]
pub(super) struct Gathered {
    /// The chance of those that settle, Q30.
    settles: u32,
    /// The doubt that is left, times its chance, Q46 bits.
    doubt: u64,
}

impl Standing {
    pub(super) fn of(image: &Image<'_>, job: Job, answer: &Answer) -> Self {
        let nothing = Left {
            row: 0,
            family: 0,
            group: 0,
            weight: 0,
        };
        let mut standing = Self {
            rows: [nothing; MAX_CANDIDATES],
            held: 0,
            groups: 0,
            others: answer.rest.plus(answer.outside).q30(),
            doubt: 0,
            settled: image.settings().settled_rest >> 2,
        };
        let purchases = image.purchases(job);
        let mut keys = [0u16; MAX_CANDIDATES];
        let mut masses = Masses::NONE;
        for (slot, candidate) in standing.rows.iter_mut().zip(answer.candidates()) {
            let Row { family, .. } = image.row(candidate.row);
            let purchase = purchases.of(candidate.row);
            let known = keys.iter().take(standing.groups);
            let group = known
                .enumerate()
                .find(|(_, key)| **key == purchase)
                .map_or(standing.groups, |(group, _)| group);
            if let (true, Some(key)) = (group == standing.groups, keys.get_mut(group)) {
                *key = purchase;
                standing.groups += 1;
            }
            *slot = Left {
                row: candidate.row,
                family,
                group: u8::try_from(group).unwrap_or(u8::MAX),
                weight: candidate.weight.q30(),
            };
            masses.add(slot.group, slot.weight);
            standing.held += 1;
        }
        masses.others = standing.others;
        let mut now = Gathered::default();
        now.take(&standing, &masses);
        standing.doubt = now.mean();
        standing
    }

    /// The rows.
    pub(super) fn rows(&self) -> &[Left] {
        self.rows.get(..self.held).unwrap_or(&[])
    }

    /// The groups as they stand, with so much of them in all, Q30.
    pub(super) fn now(&self, whole: u64) -> Masses {
        let mut now = Masses::NONE;
        for left in self.rows() {
            now.add(left.group, left.weight);
        }
        now.others = self.others;
        now.scaled(whole)
    }

    /// What a check is worth of which all outcomes were gathered.
    pub(super) fn worth(&self, gathered: Gathered) -> Worth {
        Worth {
            settles: Weight::from_q30(gathered.settles.min(1 << 30)),
            less_doubt: self.doubt.saturating_sub(gathered.mean()),
        }
    }
}

impl Gathered {
    /// Takes in one outcome: masses whose sum is its chance.
    pub(super) fn take(&mut self, standing: &Standing, masses: &Masses) {
        let part = |mass: u32| u64::from(mass) * u64::from(log2_share(mass).unsigned_abs());
        let (mut sum, mut best, mut parts) = (masses.others, 0, part(masses.others));
        for mass in masses.groups.iter().take(standing.groups) {
            sum = sum.saturating_add(*mass);
            best = best.max(*mass);
            parts += part(*mass);
        }
        // Entropy times the sum: sum log sum less the sum of m log m, all logarithms being negative.
        self.doubt += parts.saturating_sub(part(sum));
        let left = masses
            .others
            .saturating_add(sum.saturating_sub(best).saturating_sub(masses.others));
        if u64::from(left) << 30 <= u64::from(sum) * u64::from(standing.settled) {
            self.settles = self.settles.saturating_add(sum);
        }
    }

    fn mean(&self) -> u32 {
        u32::try_from(self.doubt >> 30).unwrap_or(u32::MAX)
    }
}
