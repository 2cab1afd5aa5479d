//! Many draws, on as many threads as there are cores; what is found hangs on neither.

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

use springline_core::identify::{Answer, MAX_CANDIDATES, Outcome};

use super::bench::Bench;
use super::draw::{Draw, Told};
use super::engine::{ask, best, query};
use super::instrument::Instrument;
use super::nature::Nature;
use super::truth::{self, Exact};
use super::walk::{Allowed, Walk, walk};
use crate::share;

/// What is drawn, and how much is made of it.
#[derive(Clone, Copy, Debug)]
pub struct Task {
    /// The world.
    pub nature: Nature,
    /// The seed.
    pub seed: u64,
    /// How many draws.
    pub draws: u64,
    /// One instrument alone, or those of the field.
    pub only: Option<Instrument>,
    /// Every how many draws the exact law is asked; never if nought.
    pub exact: u64,
    /// Every how many draws the proposals are followed; never if nought.
    pub walks: u64,
}

/// What became of a draw.
#[derive(Clone, Debug)]
pub struct Record {
    /// Its number.
    pub number: u64,
    /// What it was read with.
    pub instrument: Instrument,
    /// How far the answer went.
    pub outcome: Outcome,
    /// The weight of the purchase with the largest.
    pub weight: f64,
    /// Whether that is the right one.
    pub right: bool,
    /// The same draw by the exact law.
    pub exact: Option<Box<ByLaw>>,
    /// Whether a wall or a line of print was told.
    pub inside: bool,
    /// The proposals followed.
    pub walks: Option<Box<Walks>>,
}

/// What following the proposals came to: from what is told in the field and from the reading alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Walks {
    /// With every check.
    pub all: (Walk, Walk),
    /// Without print, wall and the reading a foot along.
    pub outside: (Walk, Walk),
}

/// A draw by the exact law.
#[derive(Clone, Debug)]
pub struct ByLaw {
    /// The weight of the purchase with the largest, and whether that is the right one.
    pub best: (f64, bool),
    /// The weight of the purchase that leads for the engine.
    pub of_engines: f64,
    /// Largest difference of any weight from the engine's.
    pub difference: f64,
    /// Weights of all purchases above [`SMALL`], and of what is outside, each with whether it is so.
    pub weights: Vec<(f64, bool)>,
    /// Surprise at the truth less the doubt before it, bits, and the variance that it should have.
    pub surprise: (f64, f64),
    /// The largest weight of a purchase once every clue is answered.
    pub answered: f64,
}

/// Weights below this are not held against the truth one by one.
pub const SMALL: f64 = 0.002;

/// Draws that a thread takes at a time.
const BATCH: u64 = 500;

/// Draws; those whose reading no pipe can give are left out, and counted.
///
/// # Panics
///
/// When a thread panics.
#[must_use]
pub fn run(bench: &Bench, task: &Task) -> (Vec<Record>, u64) {
    let next = AtomicU64::new(0);
    let done: Mutex<Vec<(u64, Vec<Record>)>> = Mutex::new(Vec::new());
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let from = next.fetch_add(BATCH, Ordering::Relaxed);
                    if from >= task.draws {
                        return;
                    }
                    let numbers = from..(from + BATCH).min(task.draws);
                    let records = numbers.filter_map(|number| record(bench, task, number));
                    let records = (from, records.collect());
                    done.lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .push(records);
                }
            });
        }
    });
    let mut batches = done.into_inner().unwrap_or_else(PoisonError::into_inner);
    batches.sort_by_key(|batch| batch.0);
    let records: Vec<Record> = batches.into_iter().flat_map(|batch| batch.1).collect();
    let refused = task.draws - records.len() as u64;
    (records, refused)
}

/// One draw; `None` when its reading is refused.
#[must_use]
pub fn record(bench: &Bench, task: &Task, number: u64) -> Option<Record> {
    let draw = Draw::new(bench, &task.nature, (task.seed, number), task.only);
    let answer = ask(bench, &query(bench, &draw, &draw.shown, &draw.told)).ok()?;
    let (group, weight) = best(bench, &answer);
    let truth = draw.truth(bench);
    let among = |every: u64| every != 0 && number.is_multiple_of(every);
    let exact = among(task.exact)
        .then(|| by_law(bench, &draw, &answer))
        .flatten();
    let walks = among(task.walks).then(|| {
        let one =
            |allowed, told: &Told| walk(bench, &task.nature, (task.seed, allowed), &draw, told);
        let bare = Told {
            clues: vec![None; bench.clues.len()],
            ..Told::default()
        };
        let both = |allowed| Some((one(allowed, &draw.told)?, one(allowed, &bare)?));
        Some(Box::new(Walks {
            all: both(Allowed::All)?,
            outside: both(Allowed::Outside)?,
        }))
    });
    Some(Record {
        number,
        instrument: draw.instrument,
        outcome: answer.outcome,
        weight,
        right: group == truth,
        exact,
        inside: draw.told.wall.is_some() || draw.told.print.is_some(),
        walks: walks.flatten(),
    })
}

fn by_law(bench: &Bench, draw: &Draw, answer: &Answer) -> Option<Box<ByLaw>> {
    let parts = truth::readings(bench, draw, &draw.told)?;
    let exact = truth::answer(bench, draw, &draw.told, &parts);
    let truth = draw.truth(bench);
    let mut everything = draw.told.clone();
    everything.clues = draw.answers.iter().map(|answer| Some(*answer)).collect();
    let answered = truth::answer(bench, draw, &everything, &parts);
    let (at, weight) = exact.best();
    let engines = best(bench, answer).0;
    let bits = |p: &f64| -libm::log2(*p);
    let weights = exact.groups.iter();
    let positive = || weights.clone().filter(|p| **p > 0.0);
    let doubt: f64 = positive().map(|p| p * bits(p)).sum();
    let squares: f64 = positive().map(|p| p * bits(p) * bits(p)).sum();
    let pairs = exact
        .groups
        .iter()
        .enumerate()
        .map(|(group, p)| (*p, group == truth));
    Some(Box::new(ByLaw {
        best: (weight, at == truth),
        of_engines: exact.groups.get(engines).copied().unwrap_or(0.0),
        difference: difference(&exact, answer),
        surprise: (
            bits(&exact.groups[truth].max(1e-300)) - doubt,
            squares - doubt * doubt,
        ),
        weights: pairs.filter(|(p, _)| *p > SMALL).collect(),
        answered: answered.best().1,
    }))
}

/// Largest difference of any weight of the two answers. A row that the engine does not list for being too small may have
/// anything up to the least that is listed.
fn difference(exact: &Exact, answer: &Answer) -> f64 {
    const SHOWN: f64 = 0.0005;
    let mut worst = (share(answer.outside.q30()) - exact.outside).abs();
    let mut listed = vec![false; exact.rows.len()];
    for candidate in answer.candidates() {
        let row = usize::from(candidate.row);
        listed[row] = true;
        worst = worst.max((share(candidate.weight.q30()) - exact.rows[row]).abs());
    }
    if answer.candidates().len() < MAX_CANDIDATES {
        let left = exact
            .rows
            .iter()
            .zip(&listed)
            .filter(|(_, listed)| !**listed);
        worst = left.fold(worst, |worst, (weight, _)| worst.max(weight - SHOWN));
    }
    worst
}
