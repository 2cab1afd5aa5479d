//! What happens to a technician who does as proposed.

use std::f64::consts::PI;

use springline_core::identify::{Answer, Cannot, Check, Outcome, Trench, propose};

use super::bench::Bench;
use super::draw::{Draw, Told};
use super::engine::{ask, best, query};
use super::instrument::{Instrument, Reader, Shown};
use super::nature::Nature;
use super::random::{Part, Stream};

/// How it went.
#[allow(
    clippy::struct_excessive_bools,
    reason = "each says what became of one walk, and they are counted apart"
)]
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Walk {
    /// Whether the first answer was settled.
    pub at_once: bool,
    /// Whether the last one was.
    pub settled: bool,
    /// Whether the purchase that it settled on is the right one.
    pub right: bool,
    /// Checks made, those that could not be made among them.
    pub checks: u32,
    /// Of these, those that could not be made.
    pub cannot: u32,
    /// Minutes that they took.
    pub minutes: f64,
    /// Whether everything that the trench allows settles it.
    pub can: bool,
}

/// The most checks that anybody makes.
const MOST: u32 = 24;

/// A technician's knowledge of a draw while it grows.
struct Site<'a> {
    bench: &'a Bench,
    nature: &'a Nature,
    draw: &'a Draw,
    seed: u64,
    shown: Vec<Shown>,
    told: Told,
    misread: bool,
}

/// Does as proposed from what was told on. `None` when the first reading is refused.
#[must_use]
pub fn walk(bench: &Bench, nature: &Nature, seed: u64, draw: &Draw, told: &Told) -> Option<Walk> {
    let mut site = Site {
        bench,
        nature,
        draw,
        seed,
        shown: draw.shown.clone(),
        told: told.clone(),
        misread: draw.misread,
    };
    let mut walk = Walk::default();
    // The other half of the one place for checks that are not drawn yet; see `make`.
    let mut cannot = [Check::Along, Check::Print, Check::Wall]
        .into_iter()
        .fold(Cannot::none(), Cannot::and);
    let trench = Trench {
        dug: draw.dug,
        cut_end: false,
    };
    let mut answer = site.answer()?;
    walk.at_once = answer.outcome == Outcome::Settled;
    while walk.checks < MOST && answer.outcome != Outcome::Settled {
        let asked = query(bench, draw, &site.shown, &site.told);
        let Some(proposal) = propose(&bench.image, &asked, &answer, trench, cannot) else {
            break;
        };
        walk.checks += 1;
        if site.make(proposal.check) {
            walk.minutes += f64::from(proposal.effort) / 100.0;
        } else {
            walk.cannot += 1;
            cannot = cannot.and(proposal.check);
        }
        match site.answer() {
            Some(next) => answer = next,
            // A misreading that no pipe can give: what was read before it stands.
            None => break,
        }
    }
    walk.settled = answer.outcome == Outcome::Settled;
    walk.right = walk.settled && best(bench, &answer).0 == site.truth();
    walk.can = walk.settled || site.everything(draw, told);
    Some(walk)
}

impl Site<'_> {
    fn answer(&self) -> Option<Answer> {
        ask(
            self.bench,
            &query(self.bench, self.draw, &self.shown, &self.told),
        )
        .ok()
    }

    fn reader(&self, part: Part) -> Reader<'_> {
        let stream = Stream::new(self.seed, self.draw.number, part);
        Reader::new(&self.draw.pipe, self.nature, stream)
    }

    /// Makes a check; whether it could be made. Every question has its answer: what cannot be made is a diameter across a
    /// pipe of which only the crown is bare.
    fn make(&mut self, check: Check) -> bool {
        // THE PLACE FOR CHECKS THAT ARE NOT DRAWN YET, together with those that `walk` rules out: the reading again a foot along
        // (coat, instrument and whether it is of the barrel drawn anew), the print line and the wall (`super::wall`).
        match check {
            Check::Clue(index) => match self.bench.clue(index) {
                Some(clue) => self.told.clues[clue] = Some(self.draw.answers[clue]),
                None => return false,
            },
            Check::CrossedDiameter => {
                if self.draw.instrument == Instrument::Chord {
                    return false;
                }
                self.cross();
            }
            Check::Tape => {
                let mut reader = self.reader(Part::Tape);
                let shown = reader.steel_tape();
                self.misread |= reader.misread;
                self.shown.push(shown);
            }
            Check::Along | Check::Print | Check::Wall => return false,
        }
        true
    }

    /// Takes the diameter at right angles to the first, wherever that was held.
    fn cross(&mut self) {
        let mut reader = self.reader(Part::Crossing);
        let shown = reader.across(self.draw.angle + PI / 2.0);
        self.misread |= reader.misread;
        self.shown.push(shown);
    }

    fn truth(&self) -> usize {
        if self.misread {
            self.bench.outside
        } else {
            self.draw.truth(self.bench)
        }
    }

    /// Whether all clues settle it, alone, with a tape, or with the diameter that crosses.
    fn everything(&self, draw: &Draw, told: &Told) -> bool {
        let mut told = told.clone();
        told.clues = draw.answers.iter().map(|answer| Some(*answer)).collect();
        let settles = |check: Option<Check>| {
            let mut site = Site {
                shown: draw.shown.clone(),
                told: told.clone(),
                ..*self
            };
            check.is_none_or(|check| site.make(check))
                && site
                    .answer()
                    .is_some_and(|answer| answer.outcome == Outcome::Settled)
        };
        let round = !matches!(draw.shown[..], [Shown::Diameter(..) | Shown::Chord(..)]);
        settles(None)
            || !round && (settles(Some(Check::Tape)) || settles(Some(Check::CrossedDiameter)))
    }
}
