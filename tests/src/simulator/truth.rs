//! What should be believed: the exact law's answer to a draw.

use super::bench::Bench;
use super::draw::{Draw, Told};
use super::instrument::exactly;
use crate::exact::{FAMILIES, Parts, Query, Site, parts};

/// Pipes that are disguised, as believed.
const DISGUISED: f64 = 0.01;

/// An exact answer.
#[derive(Clone, Debug)]
pub struct Exact {
    /// The weight of each row.
    pub rows: Vec<f64>,
    /// The weight of everything else.
    pub outside: f64,
    /// The weight of each purchase, and last of everything else.
    pub groups: Vec<f64>,
}

impl Exact {
    /// The purchase with the largest weight, outside left aside.
    #[must_use]
    pub fn best(&self) -> (usize, f64) {
        let groups = &self.groups[..self.groups.len() - 1];
        let best = (0..groups.len()).max_by(|a, b| groups[*a].total_cmp(&groups[*b]));
        best.map_or((0, 0.0), |at| (at, groups[at]))
    }
}

/// What the readings of a draw say of each row; `None` where the exact law does not cover them, or what was told: it knows of no
/// wall, no print and no second place.
#[must_use]
pub fn readings(bench: &Bench, draw: &Draw, told: &Told) -> Option<Parts> {
    if told.wall.is_some() || told.print.is_some() {
        return None;
    }
    let mut query = Query::new(exactly(&draw.shown)?);
    query.temperature = told.temperature;
    Some(parts(&bench.model, &query))
}

/// The exact answer, of readings and of what was told.
#[must_use]
pub fn answer(bench: &Bench, draw: &Draw, told: &Told, parts: &Parts) -> Exact {
    let site = if told.site {
        draw.pipe.site
    } else {
        Site::Unknown
    };
    let priors: Vec<f64> = bench.model.rows.iter().map(|row| row.prior(site)).collect();
    let chances = chances(bench, told, &priors);
    let mass = |density: &[f64]| -> Vec<f64> {
        let all = priors.iter().zip(&chances).zip(density);
        all.map(|((prior, chance), density)| prior * chance * density)
            .collect()
    };
    let mut rows = mass(&parts.listed);
    let mut outside: f64 = mass(&parts.outside).iter().sum();
    let total = rows.iter().sum::<f64>() + outside;
    if total > 0.0 {
        for row in &mut rows {
            *row /= total;
        }
        outside /= total;
    } else {
        outside = 1.0;
    }
    let mut groups = vec![0.0; bench.outside + 1];
    for (group, row) in bench.groups.iter().zip(&rows) {
        groups[*group] += row;
    }
    groups[bench.outside] = outside;
    Exact {
        rows,
        outside,
        groups,
    }
}

/// The chance of everything told, by row.
fn chances(bench: &Bench, told: &Told, priors: &[f64]) -> Vec<f64> {
    let rows = &bench.model.rows;
    let product = |family: usize, hidden: bool| -> f64 {
        let clues = bench.clues.iter().zip(&told.clues);
        clues
            .filter(|(clue, _)| clue.hidden == hidden)
            .filter_map(|(clue, answer)| answer.map(|answer| clue.chances[family][answer]))
            .product()
    };
    let mut shares = vec![0.0; FAMILIES.len()];
    for (row, prior) in rows.iter().zip(priors) {
        shares[row.family] += prior;
    }
    let hidden: Vec<f64> = (0..FAMILIES.len()).map(|f| product(f, true)).collect();
    let anyone: f64 = shares.iter().zip(&hidden).map(|(s, h)| s * h).sum();
    let families: Vec<f64> = (0..FAMILIES.len())
        .map(|family| {
            let seen = (1.0 - DISGUISED) * hidden[family] + DISGUISED * anyone;
            let plans = told.plans.map_or(1.0, |(named, _)| {
                let right = if named == family { 0.90 } else { 0.0 };
                right + 0.10 * shares[named]
            });
            seen * product(family, false) * plans
        })
        .collect();
    let named = told.plans.and_then(|(_, size)| size);
    let sized = named.map(|named| {
        let met: f64 = rows
            .iter()
            .zip(priors)
            .filter(|(row, _)| row.nominal == rows[named].nominal)
            .map(|(_, prior)| prior)
            .sum();
        (&rows[named].nominal, met)
    });
    rows.iter()
        .map(|row| {
            let size = sized.map_or(1.0, |(nominal, met)| {
                let right = if *nominal == row.nominal { 0.93 } else { 0.0 };
                right + 0.07 * met
            });
            families[row.family] * size
        })
        .collect()
}
