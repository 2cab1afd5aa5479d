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
    /// Whether a barrel was read a foot along.
    along: bool,
}

/// Which checks there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    /// All of them.
    All,
    /// None a foot along, of the print or of the wall; neither is told, either. It is what they add to that is measured so.
    Outside,
}

/// Does as proposed from what was told on. `None` when the first reading is refused.
#[must_use]
pub fn walk(
    bench: &Bench,
    nature: &Nature,
    (seed, allowed): (u64, Allowed),
    draw: &Draw,
    told: &Told,
) -> Option<Walk> {
    let all = allowed == Allowed::All;
    let told = &Told {
        wall: told.wall.filter(|_| all),
        print: told.print.filter(|_| all),
        ..told.clone()
    };
    let mut site = Site {
        bench,
        nature,
        draw,
        seed,
        shown: draw.shown.clone(),
        told: told.clone(),
        misread: draw.misread,
        along: false,
    };
    let mut walk = Walk::default();
    let inside = [Check::Along, Check::Print, Check::Wall];
    let ruled_out = inside.into_iter().filter(|_| !all);
    let mut cannot = ruled_out.fold(Cannot::none(), Cannot::and);
    let trench = Trench {
        dug: draw.dug,
        cut_end: all && draw.wall.is_some(),
    };
    let mut answer = site.answer()?;
    walk.at_once = answer.outcome == Outcome::Settled;
    while walk.checks < MOST && answer.outcome != Outcome::Settled {
        let asked = query(bench, draw, &site.shown, &site.told);
        let Some(proposal) = propose(&bench.image, &asked, &answer, trench, cannot) else {
            break;
        };
        walk.checks += 1;
        let made = site.make(proposal.check);
        // That nothing can be read of the print shows once it is washed.
        if made || proposal.check == Check::Print {
            walk.minutes += f64::from(proposal.effort) / 100.0;
        }
        if !made {
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
    walk.can = walk.settled || site.everything(draw, told, all);
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
    /// pipe of which only the crown is bare, and the print where no line can be read.
    fn make(&mut self, check: Check) -> bool {
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
            Check::Along => self.along(),
            Check::Print => {
                self.told.print = self.draw.line;
                return self.draw.line.is_some();
            }
            Check::Wall => {
                self.told.wall = self.draw.wall;
                return self.draw.wall.is_some();
            }
        }
        true
    }

    /// Takes the caliper a foot along.
    fn along(&mut self) {
        let mut stream = Stream::new(self.seed, self.draw.number, Part::Along);
        let there = self.draw.pipe.along(self.bench, self.nature, &mut stream);
        let mut reader = Reader::new(&there, self.nature, stream);
        let hour = match self.draw.shown.first() {
            Some(Shown::Diameter(_, hour)) => *hour,
            _ => None,
        };
        let shown = reader.along(hour);
        self.along |= there.barrel() && !reader.misread;
        self.shown.push(shown);
    }

    /// Takes the diameter at right angles to the first, wherever that was held.
    fn cross(&mut self) {
        let mut reader = self.reader(Part::Crossing);
        let shown = reader.across(self.draw.angle + PI / 2.0);
        self.misread |= reader.misread;
        self.shown.push(shown);
    }

    /// The purchase that is right: its own where a barrel was read at either place.
    fn truth(&self) -> usize {
        let pipe = &self.draw.pipe;
        if pipe.barrel() && !self.misread || pipe.listed && self.along {
            self.bench.groups[pipe.row]
        } else {
            self.bench.outside
        }
    }

    /// Whether all clues settle it, alone, with a tape, or with the diameter that crosses; where they are allowed, also with
    /// print and wall, and with the caliper a foot along.
    fn everything(&self, draw: &Draw, told: &Told, all: bool) -> bool {
        let mut told = told.clone();
        told.clues = draw.answers.iter().map(|answer| Some(*answer)).collect();
        let settles = |checks: &[Check]| {
            let mut site = Site {
                shown: draw.shown.clone(),
                told: told.clone(),
                ..*self
            };
            for check in checks {
                // What cannot be made is left out.
                site.make(*check);
            }
            site.answer()
                .is_some_and(|answer| answer.outcome == Outcome::Settled)
        };
        let calipers = draw.shown.iter().all(|s| matches!(s, Shown::Diameter(..)));
        let round = !matches!(draw.shown[..], [Shown::Diameter(..) | Shown::Chord(..)]);
        let around = [&[][..], &[Check::Tape], &[Check::CrossedDiameter]];
        let inside = [
            &[][..],
            &[Check::Print, Check::Wall],
            &[Check::Along],
            &[Check::Print, Check::Wall, Check::Along],
        ];
        around.iter().take(if round { 1 } else { 3 }).any(|around| {
            let ways = inside.iter().take(if all { 4 } else { 1 });
            let mut ways = ways.filter(|way| calipers || !way.contains(&Check::Along));
            ways.any(|way| settles(&[around, *way].concat()))
        })
    }
}
