//! Mass of everything that is no barrel of a listed pipe.

use std::f64::consts::PI;

use super::barrel::smeared_uniform;
use super::family::FAMILIES;
use super::instrument::{Arc, Context};
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

/// Density at `d` inches of the bell of a pipe drawn from the priors of one
/// family (all if `None`), with its clues.
fn bell(context: &Context<'_>, family: Option<usize>, d: f64, sd: f64) -> f64 {
    let query = context.query;
    let rows = context.model.rows.iter();
    rows.filter(|row| family.is_none_or(|f| f == row.family))
        .filter(|row| d > 1.05 * row.od - 9.0 * sd && d < 1.30 * row.od + 9.0 * sd)
        .map(|row| {
            let prior = row.prior(query.site) * query.clue(row.family().name);
            prior * smeared_uniform(d, 1.05 * row.od, 1.30 * row.od, sd)
        })
        .sum()
}

/// Prior times clues of each family.
fn family_masses(context: &Context<'_>) -> Vec<f64> {
    let mut masses = vec![0.0; FAMILIES.len()];
    for row in &context.model.rows {
        let clue = context.query.clue(row.family().name);
        masses[row.family] += row.prior(context.query.site) * clue;
    }
    masses
}

/// Mass of all of it, beside `prior × likelihood` of the rows.
pub(super) fn mass(context: &Context<'_>, all: &[usize]) -> f64 {
    let clues: f64 = family_masses(context).iter().sum();
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
            let one = |arc: &Arc| {
                let bells = BELL * bell(context, None, arc.mean, arc.sd);
                let others = (MISREAD + UNLISTED) * clues * anything(arc.mean);
                arc.weight * (bells + others)
            };
            return context.arcs().iter().map(one).sum();
        }
    };
    slope * (BELL * bell(context, None, d, sd) + (MISREAD + UNLISTED) * clues * anything(d))
}

/// Several diameters: bell or unlisted together, misread one by one.
fn several(context: &Context<'_>, all: &[usize], readings: &[(f64, Option<u8>)]) -> f64 {
    let query = context.query;
    let mut sum = 0.0;
    for (family, mass) in family_masses(context).into_iter().enumerate() {
        if mass <= 0.0 {
            continue;
        }
        for seen in shape_only(context, family, all) {
            let weight: f64 = seen.points.iter().map(|p| p.w).sum();
            if weight <= 0.0 {
                continue;
            }
            let d = seen.points.iter().map(|p| p.w * p.x).sum::<f64>() / weight;
            let sd = context.caliper(d);
            let bells = BELL * bell(context, Some(family), d, sd);
            sum += weight * (bells + UNLISTED * mass * anything(d));
        }
    }
    // Every way to have misread some, but not none.
    for slips in 1..(1_u32 << all.len()) {
        let (bad, good): (Vec<usize>, Vec<usize>) = all.iter().partition(|&&i| slips >> i & 1 == 1);
        let chance = bad.iter().fold(1.0 - BELL - UNLISTED, |p, &i| {
            p * SLIP * anything(readings[i].0)
        });
        let chance = good.iter().fold(chance, |p, _| p * (1.0 - SLIP));
        for row in &context.model.rows {
            let prior = row.prior(query.site) * query.clue(row.family().name);
            if prior > 0.0 {
                sum += chance * prior * context.likelihood(row, &good);
            }
        }
    }
    sum
}
