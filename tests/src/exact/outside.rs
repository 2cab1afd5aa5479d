//! Mass of everything that is no barrel of a listed pipe.

use std::f64::consts::PI;

use super::barrel::smeared_uniform;
use super::family::FAMILIES;
use super::instrument::{Arc, Context};
use super::model::Row;
use super::pair::shape_only;
use super::query::Reading;

/// Readings that are of a bell, coupling or sleeve.
const BELL: f64 = 0.0035;
/// Readings that are misread.
const MISREAD: f64 = 0.0015;
/// Pipes that are in no table.
const UNLISTED: f64 = 0.005;
/// Chance of one reading to be misread, given a listed pipe's barrel: so that
/// with one reading exactly [`MISREAD`] of all is.
const SLIP: f64 = MISREAD / (1.0 - BELL - UNLISTED);

/// Probability of a listed pipe's barrel with `n` readings, none misread.
pub(super) fn all_good(n: usize) -> f64 {
    (0..n).fold(1.0 - BELL - UNLISTED, |p, _| p * (1.0 - SLIP))
}

/// Density at `d` inches of a diameter that is log-uniform from .5 to 72 in.
fn anything(d: f64) -> f64 {
    if (0.5..=72.0).contains(&d) {
        1.0 / (d * 144_f64.ln())
    } else {
        0.0
    }
}

/// Density at `d` inches of a bell of this OD.
fn bell(row: &Row, d: f64, sd: f64) -> f64 {
    let (lo, hi) = (1.05 * row.od, 1.30 * row.od);
    if d > lo - 9.0 * sd && d < hi + 9.0 * sd {
        smeared_uniform(d, lo, hi, sd)
    } else {
        0.0
    }
}

/// What each row brings to the mass of all of it, per prior times clues of the
/// row: a bell of that row's pipe, or the row's clues on a pipe or a reading
/// that is of no row.
pub(super) fn masses(context: &Context<'_>, all: &[usize]) -> Vec<f64> {
    let rows = &context.model.rows;
    let sigma = context.query.sigma;
    // A diameter, inches of it per inch read, and how sharp it is: bells and
    // unlisted pipes are spread too wide for more than that to matter.
    let (d, slope, sd) = match &context.query.reading {
        Reading::Diameters(readings) if readings.len() > 1 => {
            return several(context, all, readings);
        }
        Reading::Diameters(readings) => (readings[0].0, 1.0, context.caliper(readings[0].0)),
        &Reading::DiameterTape(y) => (y, 1.0, sigma.unwrap_or(0.004 + 0.0002 * y)),
        &Reading::SteelTape(y) => (y / PI - 0.008, 1.0 / PI, sigma.unwrap_or(0.030) / PI),
        &Reading::String(y) => (y / PI - 0.04, 1.0 / PI, sigma.unwrap_or(0.060) / PI),
        &Reading::ShortJaw { chord, depth, .. } if chord <= 2.0 * depth => {
            (chord, 1.0, context.caliper(chord))
        }
        Reading::ChordRise { .. } | Reading::ShortJaw { .. } => {
            let one = |row: &Row, arc: &Arc| {
                let others = (MISREAD + UNLISTED) * anything(arc.mean);
                arc.weight * (BELL * bell(row, arc.mean, arc.sd) + others)
            };
            let arcs = context.arcs();
            return rows
                .iter()
                .map(|row| arcs.iter().map(|arc| one(row, arc)).sum())
                .collect();
        }
    };
    let others = (MISREAD + UNLISTED) * anything(d);
    rows.iter()
        .map(|row| slope * (BELL * bell(row, d, sd) + others))
        .collect()
}

/// Several diameters: bell or unlisted together, misread one by one.
fn several(context: &Context<'_>, all: &[usize], readings: &[(f64, Option<u8>)]) -> Vec<f64> {
    let rows = &context.model.rows;
    let mut masses = vec![0.0; rows.len()];
    for family in 0..FAMILIES.len() {
        for seen in shape_only(context, family, all) {
            let weight: f64 = seen.points.iter().map(|p| p.w).sum();
            if weight <= 0.0 {
                continue;
            }
            let d = seen.points.iter().map(|p| p.w * p.x).sum::<f64>() / weight;
            let sd = context.caliper(d);
            for (mass, row) in masses.iter_mut().zip(rows) {
                if row.family == family {
                    *mass += weight * (BELL * bell(row, d, sd) + UNLISTED * anything(d));
                }
            }
        }
    }
    // Every way to have misread some, but not none.
    for slips in 1..(1_u32 << all.len()) {
        let (bad, good): (Vec<usize>, Vec<usize>) = all.iter().partition(|&&i| slips >> i & 1 == 1);
        let chance = bad.iter().fold(1.0 - BELL - UNLISTED, |p, &i| {
            p * SLIP * anything(readings[i].0)
        });
        let chance = good.iter().fold(chance, |p, _| p * (1.0 - SLIP));
        for (mass, row) in masses.iter_mut().zip(rows) {
            *mass += chance * context.likelihood(row, &good);
        }
    }
    masses
}
