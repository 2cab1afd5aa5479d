//! The exact law of the probability model, in f64, by direct integration.
//!
//! It shares no line with the engine or the compiler: it knows no mixtures of
//! normals, reads its own rows, and types the families' constants a second
//! time. What it says is what the engine's answers are held against.
//!
//! # The model
//!
//! A pipe is drawn from the rows by their priors. Its average OD is uniform
//! over the row's band; 5 % of iron and asbestos-cement pipes lie anywhere in
//! a band three times as wide about the same middle. Temperature is
//! normal(75, 17) °F cut at 20 and 140, and what a user tells of it is off by
//! normal(0, 4). 45 % of pipes carry a coat of up to 0.020 in, uniform; wear
//! is normal. Out-of-round is a second harmonic with two normal components.
//! A buried flexible pipe is deflected by δ, normal(m, d) cut at 0 and m + 4d:
//! a diameter at θ from the crown grows by −δ cos 2θ of the OD. All growth is
//! a fraction of the nominal OD, so that everything adds up.
//!
//! A diameter of unknown direction lies within 23° of the springline in seven
//! cases of ten, anywhere in the rest; a clock position is good to 15°, and
//! several clock positions of one pipe are off together. Tapes see neither
//! deflection nor out-of-round. Chord and rise see both several times over,
//! and the true rise is .10 to .40 of the diameter, uniform. Short jaws see a
//! chord at their depth, and are taken to see deflection and out-of-round by
//! the factor of a chord with that rise, in the direction measured across.
//!
//! # What is no barrel of a listed pipe
//!
//! For one reading: .0035 of them are of a bell, uniform from 1.05 to 1.30 ×
//! the OD of a listed pipe; .0015 are misread, log-uniform .5 to 72 in; .005
//! of pipes are in no table, log-uniform alike. All of that, together, is the
//! outside weight.
//!
//! Several diameters of one pipe share whether they are of the bell and
//! whether the pipe is listed; each has its own chance of .0015 to be misread,
//! independently, and a misread diameter says nothing of the pipe. As soon as
//! one of them is misread the case counts as outside, as it does for a single
//! reading: a set that only fits when part of it is thrown away is to be taken
//! again. A bell or an unlisted pipe deflects and is out of round like a pipe
//! drawn from the priors; a bell or an unlisted pipe that is misread too is
//! left out (one in a hundred thousand). Chord and rise are one reading: when
//! misread they are those of a diameter that is log-uniform.
//!
//! Where the mass of everything vanishes, all of it is outside.

mod barrel;
mod family;
mod instrument;
mod model;
mod outside;
mod pair;
mod quad;
mod query;
mod shape;

use std::collections::BTreeMap;

pub use family::{FAMILIES, Family};
pub use model::{Model, Row};
pub use query::{Posterior, Query, Reading, Site};

use instrument::Context;

/// Density of the whole reading for a pipe of this row, read on its barrel
/// and not misread; per inch of each figure read.
///
/// # Panics
///
/// If the reading mixes diameters with and without clock position, or has
/// more than the law covers.
#[must_use]
pub fn density(model: &Model, query: &Query, row: &Row) -> f64 {
    let all = whole(&query.reading);
    Context::new(model, query, Some(row.family)).likelihood(row, &all)
}

/// The same for every row of the model, in its order.
///
/// # Panics
///
/// As [`density`].
#[must_use]
pub fn densities(model: &Model, query: &Query) -> Vec<f64> {
    let all = whole(&query.reading);
    let context = Context::new(model, query, None);
    let rows = model.rows.iter();
    rows.map(|row| context.likelihood(row, &all)).collect()
}

/// What readings say of each row of the model, in its order, whatever its
/// prior and its clues: the answer is linear in those.
#[derive(Debug, Clone)]
pub struct Parts {
    /// Density of a barrel of the row, none of the readings misread.
    pub listed: Vec<f64>,
    /// Density of everything else that carries the prior and the clues of the
    /// row: its bell, a misreading, pipe in no table.
    pub outside: Vec<f64>,
}

/// The parts of an answer.
///
/// # Panics
///
/// As [`density`].
#[must_use]
pub fn parts(model: &Model, query: &Query) -> Parts {
    let all = whole(&query.reading);
    let context = Context::new(model, query, None);
    let good = outside::all_good(all.len());
    let rows = model.rows.iter();
    Parts {
        listed: rows
            .map(|row| good * context.likelihood(row, &all))
            .collect(),
        outside: outside::masses(&context, &all),
    }
}

/// What the pipe is.
///
/// # Panics
///
/// As [`density`].
#[must_use]
pub fn posterior(model: &Model, query: &Query) -> Posterior {
    let parts = parts(model, query);
    let mut merged: BTreeMap<(&'static str, &str), f64> = BTreeMap::new();
    let mut outside = 0.0;
    let densities = parts.listed.iter().zip(&parts.outside);
    for (row, (listed, other)) in model.rows.iter().zip(densities) {
        let prior = row.prior(query.site) * query.clue(row.family().name);
        *merged
            .entry((row.family().name, row.nominal.as_str()))
            .or_default() += prior * listed;
        outside += prior * other;
    }
    let total = merged.values().sum::<f64>() + outside;
    if total.is_nan() || total <= 0.0 {
        let nothing =
            |((family, nominal), _): ((&'static str, &str), f64)| (family, nominal.to_owned(), 0.0);
        return Posterior {
            weights: merged.into_iter().map(nothing).collect(),
            outside: 1.0,
        };
    }
    let mut weights: Vec<_> = merged
        .into_iter()
        .map(|((family, nominal), mass)| (family, nominal.to_owned(), mass / total))
        .collect();
    weights.sort_by(|a, b| b.2.total_cmp(&a.2));
    Posterior {
        weights,
        outside: outside / total,
    }
}

/// Places of all readings, once they are known to be of a kind covered.
fn whole(reading: &Reading) -> Vec<usize> {
    let Reading::Diameters(readings) = reading else {
        return vec![0];
    };
    let clocked = readings.iter().filter(|r| r.1.is_some()).count();
    let covered = match readings.len() {
        1 => true,
        2 => clocked == 0 || clocked == 2,
        3 => clocked == 3,
        _ => false,
    };
    assert!(covered, "no law for these diameters: {readings:?}");
    (0..readings.len()).collect()
}
