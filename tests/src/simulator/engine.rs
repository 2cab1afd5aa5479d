//! The engine's answer to a draw.

use springline_core::clue::Plans;
use springline_core::identify::{Answer, identify};
use springline_core::reading::{Query, Reading, ReadingError, Site};

use super::bench::Bench;
use super::draw::{Draw, Told};
use super::instrument::Shown;
use crate::{exact, inches, share};

/// What the engine is asked: readings, and what is told beside them.
///
/// # Panics
///
/// When there are more readings than a query holds.
#[must_use]
pub fn query(bench: &Bench, draw: &Draw, shown: &[Shown], told: &Told) -> Query {
    let mut query = Query::new();
    for shown in shown {
        query.add(shown.reading()).expect("room for the readings");
    }
    if let Some(wall) = told.wall {
        let (value, sigma) = (inches(wall), None);
        query
            .add(Reading::Wall { value, sigma })
            .expect("room for the wall");
    }
    query.clues.print = told.print;
    if told.site {
        query.site = match draw.pipe.site {
            exact::Site::Unknown => Site::Unknown,
            exact::Site::Irrigation => Site::Irrigation,
            exact::Site::Municipal => Site::Municipal,
        };
    }
    query.temperature = told.temperature.map(|t| (100.0 * t).round() as i32);
    for (clue, answer) in told.clues.iter().enumerate() {
        if let Some(answer) = answer {
            query.clues.tell(bench.told(clue, *answer));
        }
    }
    query.clues.plans = told.plans.map(|(family, size)| Plans {
        family: bench.family(family),
        size: size.map(|row| bench.size(row)),
    });
    query
}

/// The answer to that.
///
/// # Errors
///
/// When a reading is refused.
pub fn ask(bench: &Bench, query: &Query) -> Result<Answer, ReadingError> {
    identify(&bench.image, query)
}

/// The purchase with the largest weight among those listed, and that weight; of none, no purchase at all.
#[must_use]
pub fn best(bench: &Bench, answer: &Answer) -> (usize, f64) {
    let mut sums: Vec<(usize, f64)> = Vec::new();
    for candidate in answer.candidates() {
        let group = bench.groups[usize::from(candidate.row)];
        let weight = share(candidate.weight.q30());
        match sums.iter_mut().find(|(held, _)| *held == group) {
            Some((_, sum)) => *sum += weight,
            None => sums.push((group, weight)),
        }
    }
    let best = sums.into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
    best.unwrap_or((usize::MAX, 0.0))
}
