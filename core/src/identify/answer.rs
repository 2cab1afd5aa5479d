//! What an identification says.

use crate::clue::ClueName;
use crate::fixed::Real;
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
    pub(crate) const fn from_q30(q30: u32) -> Self {
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
    /// All that is left buys the same parts for the job.
    Settled,
    /// What is left buys different parts.
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
    /// How far the answer goes, by purchase.
    pub outcome: Outcome,
    /// Whether the leading purchase holds the share from which it is called likely.
    pub likely: bool,
    /// How many purchases hold the share from which they are counted; at least one.
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
    pub(crate) candidates: [Candidate; MAX_CANDIDATES],
    pub(crate) listed: u8,
}

impl Answer {
    /// That nothing explains the readings.
    pub(crate) const fn new() -> Self {
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

/// A Q32 share of the settings.
pub(super) fn share(q32: u32) -> Real {
    Real::unsigned(u64::from(q32), -32)
}

#[cfg(test)]
mod tests {
    use super::*;

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
}
