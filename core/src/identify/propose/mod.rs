//! The check that would settle it: of those that could still be made, the one that does most for its minutes.
//!
//! A check is worth the chance that it settles the answer, and something for each bit of doubt that it takes away, per minute
//! (a rule by the chance of buying wrong alone gets stuck where no single answer moves the leader). Clues are weighed in closed
//! form over their answers (`clues`), readings on a few points of what each surviving row would show (`readings`, `walls`), the
//! print line by the things in which pipes differ (`printed`), the reading again by how likely the first was of the barrel (`along`).

mod along;
mod class;
mod clues;
mod printed;
mod readings;
mod standing;
mod walls;

use super::answer::{Answer, Outcome, Weight};
use super::belief::Belief;
use super::sights::Sights;
use crate::image::Image;
use crate::image::layout::MAX_CLUES;
use crate::reading::{Query, Reading};
use standing::{Standing, Worth};

/// A check that can be made on a pipe in the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Check {
    /// A clue of the image, an index.
    Clue(u8),
    /// A second diameter at right angles to the first.
    CrossedDiameter,
    /// A tape around the pipe.
    Tape,
    /// The reading again, a foot along.
    Along,
    /// What is printed on the pipe.
    Print,
    /// The wall at a cut end.
    Wall,
}

/// What can be reached in the trench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Trench {
    /// Both sides of the pipe, so that a tape goes around at once.
    pub dug: bool,
    /// A cut end, so that the wall can be read.
    pub cut_end: bool,
}

/// The check that does most for its minutes, and what it is expected to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// The check.
    pub check: Check,
    /// The chance that it settles the answer.
    pub settles: Weight,
    /// By how much it is expected to lessen the doubt between answers, Q16 bits.
    pub less_doubt: u32,
    /// What it takes, hundredths of a minute.
    pub effort: u16,
}

/// Checks that cannot be made here.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cannot(u32);

impl Cannot {
    /// Every check can be made.
    #[must_use]
    pub const fn none() -> Self {
        Self(0)
    }

    /// This check too cannot be made.
    #[must_use]
    pub fn and(self, check: Check) -> Self {
        Self(self.0 | Self::bit(check))
    }

    /// Whether a check cannot be made.
    #[must_use]
    pub fn holds(self, check: Check) -> bool {
        self.0 & Self::bit(check) != 0
    }

    fn bit(check: Check) -> u32 {
        let place = match check {
            Check::Clue(clue) => usize::from(clue).min(MAX_CLUES - 1),
            Check::CrossedDiameter => MAX_CLUES,
            Check::Tape => MAX_CLUES + 1,
            Check::Along => MAX_CLUES + 2,
            Check::Print => MAX_CLUES + 3,
            Check::Wall => MAX_CLUES + 4,
        };
        1 << place
    }
}

/// A check worth less than this a minute, one in 1024 (Q30), is not worth asking for: two that do little may settle it together, but
/// below it nearly all are made in vain.
const LEAST: u64 = 1 << 20;

/// The check to make next, if one helps. `answer` is what [`super::identify`] says to the same query.
///
/// Where the answer is settled and the job hangs on the class, it is what tells the classes apart.
///
/// Where the reading is of no pipe in the tables, it is the reading again a foot along, by common practice: what reads so is most
/// often a bell, a coupling or a slip, and no clue tells that as well.
#[must_use]
pub fn propose(
    image: &Image<'_>,
    query: &Query,
    answer: &Answer,
    trench: Trench,
    cannot: Cannot,
) -> Option<Proposal> {
    if answer.outcome == Outcome::Settled {
        return class::check(image, query, answer, trench, cannot);
    }
    if answer.disagreement {
        return None;
    }
    let mut sights = Sights::new();
    sights.read(image, query).ok()?;
    let belief = Belief::new(image, query);
    let standing = Standing::of(image, query.job, answer);
    let settings = belief.settings;
    let again = !cannot.holds(Check::Along) && along::can_be_made(query);
    if again && answer.outcome == Outcome::Outside {
        return Some(along::first_of_all(settings, answer));
    }
    let mut best: Option<(u64, Proposal)> = None;
    let mut offer = |check: Check, effort: u16, worth: Worth| {
        let doubt = u64::from(settings.doubt_share);
        let value =
            u64::from(worth.settles.q30()) + (((u64::from(worth.less_doubt) << 14) * doubt) >> 32);
        let better = match &best {
            None => true,
            // Value per minute, without a division.
            Some((held, of)) => value * u64::from(of.effort) > held * u64::from(effort),
        };
        if value * 100 >= LEAST * u64::from(effort) && better {
            let proposal = Proposal {
                check,
                settles: worth.settles,
                less_doubt: worth.less_doubt,
                effort,
            };
            best = Some((value, proposal));
        }
    };
    let shows = clues::Shows::new(&belief, &query.clues);
    for (index, clue) in (0u8..).zip(image.clues()) {
        let check = Check::Clue(index);
        if query.clues.answer(index).is_none() && !cannot.holds(check) {
            offer(check, clue.effort, shows.worth(&belief, &standing, &clue));
        }
    }
    if let Some(rounds) = readings::Rounds::of(&belief, &sights, &standing) {
        let tape = if trench.dug {
            settings.tape_dug_effort
        } else {
            settings.tape_effort
        };
        let crossed = (Check::CrossedDiameter, settings.crossed_effort);
        for (check, effort) in [crossed, (Check::Tape, tape)] {
            if !cannot.holds(check) {
                offer(check, effort, rounds.worth(&belief, &standing, check));
            }
        }
    }
    if !cannot.holds(Check::Print) && query.clues.print.is_none() {
        let worth = printed::worth(&belief, &standing);
        offer(Check::Print, settings.print_effort, worth);
    }
    if again {
        let worth = along::worth(settings, &standing, answer);
        offer(Check::Along, settings.along_effort, worth);
    }
    let walls = |reading: &Reading| matches!(reading, Reading::Wall { .. });
    if trench.cut_end && !cannot.holds(Check::Wall) && !query.readings().any(walls) {
        offer(
            Check::Wall,
            settings.wall_effort,
            walls::worth(&belief, &standing, query.clues.print),
        );
    }
    best.map(|(_, proposal)| proposal)
}
