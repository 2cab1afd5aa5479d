//! An answer on the wire, and why there is none. The order of variants and fields is the protocol.
//!
//! A new field of [`Answer`] does not compile here until it is on the wire, which makes a new version of the protocol.

use heapless::Vec;
use serde::{Deserialize, Serialize};

use super::counts::Counts;
use crate::clue::ClueName;
use crate::identify::{Answer, Candidate, Hazards, MAX_CANDIDATES, OutOfRound, Outcome, Weight};
use crate::reading::ReadingError;

/// The most candidates of an answer on the wire.
const CANDIDATES: usize = 24;
const _: () = assert!(MAX_CANDIDATES <= CANDIDATES);

/// Values that no answer holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Impossible {
    /// More candidates than an answer lists.
    Candidates,
    /// Weights that do not sum to one, or a share of more than one.
    Weights,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireOutcome {
    Settled,
    Split,
    Outside,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireName {
    Clue(u8),
    Plans,
    Print,
}

/// An answer; weights in Q30.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct WireAnswer {
    pub(super) od: Counts,
    pub(super) sigma: Counts,
    pub(super) outcome: WireOutcome,
    pub(super) likely: bool,
    pub(super) counted: u8,
    /// Row and weight, in the order of the answer.
    pub(super) candidates: Vec<(u16, u32), CANDIDATES>,
    pub(super) rest: u32,
    pub(super) outside: u32,
    /// Asbestos-cement, gas.
    pub(super) hazards: (u32, u32),
    /// Asbestos-cement, gas.
    pub(super) stop: (bool, bool),
    pub(super) contradiction: Option<WireName>,
    /// Spread, and its share in Q16.
    pub(super) out_of_round: Option<(Counts, u32)>,
    pub(super) short_jaws: bool,
    pub(super) disagreement: bool,
}

impl From<&Answer> for WireAnswer {
    fn from(answer: &Answer) -> Self {
        // Field by field, so that none is forgotten. Of the candidates only those that are listed count.
        let Answer {
            od,
            sigma,
            outcome,
            likely,
            counted,
            rest,
            outside,
            hazards,
            stop,
            contradiction,
            out_of_round,
            short_jaws,
            disagreement,
            candidates: _,
            listed: _,
        } = answer;
        let mut new = Self {
            od: (*od).into(),
            sigma: (*sigma).into(),
            outcome: match outcome {
                Outcome::Settled => WireOutcome::Settled,
                Outcome::Split => WireOutcome::Split,
                Outcome::Outside => WireOutcome::Outside,
            },
            likely: *likely,
            counted: *counted,
            candidates: Vec::new(),
            rest: rest.q30(),
            outside: outside.q30(),
            hazards: (hazards.cement.q30(), hazards.gas.q30()),
            stop: (stop.cement, stop.gas),
            contradiction: contradiction.map(|name| match name {
                ClueName::Clue(clue) => WireName::Clue(clue),
                ClueName::Plans => WireName::Plans,
                ClueName::Print => WireName::Print,
            }),
            out_of_round: out_of_round.map(|oval| (oval.spread.into(), oval.share)),
            short_jaws: *short_jaws,
            disagreement: *disagreement,
        };
        for candidate in answer.candidates() {
            // It cannot be full: see the assertion above.
            let _ = new.candidates.push((candidate.row, candidate.weight.q30()));
        }
        new
    }
}

impl TryFrom<WireAnswer> for Answer {
    type Error = Impossible;

    fn try_from(wire: WireAnswer) -> Result<Self, Impossible> {
        let one = Weight::ONE.q30();
        let listed = wire.candidates.iter().map(|(_, weight)| *weight);
        let all: u64 = listed.chain([wire.rest, wire.outside]).map(u64::from).sum();
        let (cement, gas) = wire.hazards;
        if all != u64::from(one) || cement > one || gas > one {
            return Err(Impossible::Weights);
        }
        let mut answer = Self::new();
        answer.od = wire.od.into();
        answer.sigma = wire.sigma.into();
        answer.outcome = match wire.outcome {
            WireOutcome::Settled => Outcome::Settled,
            WireOutcome::Split => Outcome::Split,
            WireOutcome::Outside => Outcome::Outside,
        };
        answer.likely = wire.likely;
        answer.counted = wire.counted;
        answer.rest = Weight::from_q30(wire.rest);
        answer.outside = Weight::from_q30(wire.outside);
        answer.hazards = Hazards {
            cement: Weight::from_q30(cement),
            gas: Weight::from_q30(gas),
        };
        let (cement, gas) = wire.stop;
        answer.stop = Hazards { cement, gas };
        answer.contradiction = wire.contradiction.map(|name| match name {
            WireName::Clue(clue) => ClueName::Clue(clue),
            WireName::Plans => ClueName::Plans,
            WireName::Print => ClueName::Print,
        });
        answer.out_of_round = wire.out_of_round.map(|(spread, share)| OutOfRound {
            spread: spread.into(),
            share,
        });
        answer.short_jaws = wire.short_jaws;
        answer.disagreement = wire.disagreement;
        for (row, weight) in wire.candidates {
            let slot = answer.candidates.get_mut(usize::from(answer.listed));
            *slot.ok_or(Impossible::Candidates)? = Candidate {
                row,
                weight: Weight::from_q30(weight),
            };
            answer.listed += 1;
        }
        Ok(answer)
    }
}

/// Why readings have no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireReadingError {
    None,
    TooMany,
    NotPositive,
    OutOfRange,
    RiseTooHigh,
    RiseTooLow,
    RiseUnsure,
}

impl From<ReadingError> for WireReadingError {
    fn from(error: ReadingError) -> Self {
        match error {
            ReadingError::None => Self::None,
            ReadingError::TooMany => Self::TooMany,
            ReadingError::NotPositive => Self::NotPositive,
            ReadingError::OutOfRange => Self::OutOfRange,
            ReadingError::RiseTooHigh => Self::RiseTooHigh,
            ReadingError::RiseTooLow => Self::RiseTooLow,
            ReadingError::RiseUnsure => Self::RiseUnsure,
        }
    }
}

impl From<WireReadingError> for ReadingError {
    fn from(error: WireReadingError) -> Self {
        match error {
            WireReadingError::None => Self::None,
            WireReadingError::TooMany => Self::TooMany,
            WireReadingError::NotPositive => Self::NotPositive,
            WireReadingError::OutOfRange => Self::OutOfRange,
            WireReadingError::RiseTooHigh => Self::RiseTooHigh,
            WireReadingError::RiseTooLow => Self::RiseTooLow,
            WireReadingError::RiseUnsure => Self::RiseUnsure,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_that_no_answer_holds_are_refused() {
        let wire = WireAnswer::from(&Answer::new());
        assert_eq!(Answer::try_from(wire.clone()), Ok(Answer::new()));
        let refused = |change: fn(&mut WireAnswer)| {
            let mut wire = wire.clone();
            change(&mut wire);
            assert_eq!(Answer::try_from(wire), Err(Impossible::Weights));
        };
        refused(|wire| wire.outside -= 1);
        refused(|wire| wire.rest = 1);
        refused(|wire| wire.rest = u32::MAX);
        refused(|wire| wire.candidates.push((0, u32::MAX)).unwrap());
        refused(|wire| wire.hazards.0 = (1 << 30) + 1);
        refused(|wire| wire.hazards.1 = u32::MAX);
    }
}
