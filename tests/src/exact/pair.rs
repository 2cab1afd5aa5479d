//! Two or three diameters of one pipe.
//!
//! Given the directions and the deflection, readings differ from the barrel's
//! diameter by something normal. Its part that all readings share is handled
//! with the barrel; the rest is a density of their differences.

use std::f64::consts::PI;

use super::family::FAMILIES;
use super::instrument::{Context, scaled};
use super::model::Row;
use super::quad::{Node, gather, sums};
use super::query::Reading;
use super::shape::{any_direction, growth, hour_angle, hour_offset};

/// Points `x` at which the barrel's diameter is seen with error normal(0, sd),
/// weighted by the density of the differences between the readings.
pub(super) struct Seen {
    pub(super) points: Vec<Node>,
    sd: f64,
}

/// What the readings have in common that is not the barrel's law.
#[derive(Clone, Copy)]
struct Pipe {
    od: f64,
    wear: f64,
    oval: f64,
}

pub(super) fn likelihood(context: &Context<'_>, row: &Row, which: &[usize]) -> f64 {
    let pipe = Pipe {
        od: row.od,
        wear: row.family().wear,
        oval: row.oval,
    };
    let barrel = row.barrel();
    let thermal = scaled(&context.thermal[row.family], -row.od);
    let one = |seen: &Seen| -> f64 {
        let points = gather(sums(&seen.points, &thermal), 128);
        let densities = points.iter().map(|p| p.w * barrel.density(p.x, seen.sd));
        densities.sum()
    };
    seen(context, row.family, pipe, which).iter().map(one).sum()
}

/// The same for something of unknown diameter that deflects and is out of
/// round like this family: a bell, or a pipe that is in no table.
pub(super) fn shape_only(context: &Context<'_>, family: usize, which: &[usize]) -> Vec<Seen> {
    let Reading::Diameters(readings) = &context.query.reading else {
        return Vec::new();
    };
    let mut od = 0.0;
    let mut count = 0.0;
    for &i in which {
        od += readings[i].0;
        count += 1.0;
    }
    od /= count;
    let pipe = Pipe {
        od,
        wear: FAMILIES[family].wear,
        oval: od * context.model.oval_share[family],
    };
    seen(context, family, pipe, which)
}

fn seen(context: &Context<'_>, family: usize, pipe: Pipe, which: &[usize]) -> Vec<Seen> {
    let Reading::Diameters(readings) = &context.query.reading else {
        return Vec::new();
    };
    let ys: Vec<f64> = which.iter().map(|&i| readings[i].0).collect();
    let sigmas: Vec<f64> = ys.iter().map(|&y| context.caliper(y)).collect();
    let hours: Option<Vec<u8>> = which.iter().map(|&i| readings[i].1).collect();
    let delta = &context.delta[family];
    match hours {
        Some(hours) => vec![clocked(&ys, &sigmas, &hours, pipe, delta)],
        None => loose(
            [ys[0], ys[1]],
            [sigmas[0], sigmas[1]],
            pipe,
            delta,
            context.query.buried,
        ),
    }
}

/// Clock positions with one error between them: the angles from one to the
/// next are exact, and so is the covariance.
fn clocked(ys: &[f64], sigmas: &[f64], hours: &[u8], pipe: Pipe, delta: &[Node]) -> Seen {
    let angles: Vec<f64> = hours.iter().map(|&h| hour_angle(h)).collect();
    let common = Common::new(&angles, sigmas, pipe);
    let mut points = Vec::new();
    let mut z = ys.to_vec();
    for u in hour_offset(24) {
        let grown: Vec<f64> = angles.iter().map(|a| pipe.od * growth(a + u.x)).collect();
        for d in delta {
            for ((z, y), grown) in z.iter_mut().zip(ys).zip(&grown) {
                *z = y - d.x * grown;
            }
            points.push(common.project(&z, u.w * d.w));
        }
    }
    Seen {
        points: gather(points.into_iter(), 128),
        sd: common.sd,
    }
}

/// Two unknown directions, each with its own law.
fn loose(ys: [f64; 2], sigmas: [f64; 2], pipe: Pipe, delta: &[Node], buried: bool) -> Vec<Seen> {
    // The shared part grows with the cosine of twice the angle between them;
    // readings of like angle are kept together, in this many classes.
    const CLASSES: u8 = 16;
    let directions = any_direction(16, 48);
    let quarter = PI / 2.0;
    let mut classes: Vec<(Vec<Node>, f64, f64)> =
        (0..CLASSES).map(|_| (Vec::new(), 0.0, 0.0)).collect();
    // A pipe and its mirror image read alike: half the first directions do.
    for first in directions.iter().filter(|n| n.x < quarter) {
        for second in &directions {
            let common = Common::new(&[first.x, second.x], &sigmas, pipe);
            let class = &mut classes[class_of(first.x - second.x, CLASSES)];
            for d in delta {
                let bent = if buried { pipe.od * d.x } else { 0.0 };
                let z = [
                    ys[0] - bent * growth(first.x),
                    ys[1] - bent * growth(second.x),
                ];
                let point = common.project(&z, 2.0 * first.w * second.w * d.w);
                class.1 += point.w;
                class.2 += point.w * common.sd;
                class.0.push(point);
            }
        }
    }
    classes.retain(|c| c.1 > 0.0);
    let seen = |(points, weight, sds): (Vec<Node>, f64, f64)| Seen {
        points: gather(points.into_iter(), 64),
        sd: sds / weight,
    };
    classes.into_iter().map(seen).collect()
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a class number: a squared cosine times the number of classes"
)]
fn class_of(between: f64, classes: u8) -> usize {
    let near = between.cos().powi(2) * f64::from(classes);
    (near as usize).min(usize::from(classes) - 1)
}

/// The normal part of several readings, split into what they share and the
/// density of the rest.
struct Common {
    inverse: Vec<Vec<f64>>,
    /// How the best estimate of the shared diameter weighs the readings.
    weights: Vec<f64>,
    sd: f64,
    scale: f64,
}

impl Common {
    fn new(angles: &[f64], sigmas: &[f64], pipe: Pipe) -> Self {
        let n = angles.len();
        let cell = |i: usize, j: usize| {
            let own = if i == j { sigmas[i].powi(2) } else { 0.0 };
            let oval = pipe.oval.powi(2) * (2.0 * (angles[i] - angles[j])).cos();
            own + pipe.wear.powi(2) + oval
        };
        let covariance = (0..n)
            .map(|i| (0..n).map(|j| cell(i, j)).collect())
            .collect();
        let (inverse, determinant) = invert(covariance);
        let sums: Vec<f64> = inverse.iter().map(|r| r.iter().sum()).collect();
        let variance = sums.iter().sum::<f64>().recip();
        let freedom: f64 = angles.iter().skip(1).map(|_| 2.0 * PI).product();
        Self {
            inverse,
            weights: sums.iter().map(|s| s * variance).collect(),
            sd: variance.sqrt(),
            scale: (variance / (determinant * freedom)).sqrt(),
        }
    }

    fn project(&self, z: &[f64], weight: f64) -> Node {
        let mean: f64 = z.iter().zip(&self.weights).map(|(z, w)| z * w).sum();
        let mut square = 0.0;
        for (a, row) in z.iter().zip(&self.inverse) {
            for (b, cell) in z.iter().zip(row) {
                square += (a - mean) * cell * (b - mean);
            }
        }
        Node {
            x: mean,
            w: weight * self.scale * (-0.5 * square).exp(),
        }
    }
}

/// Inverse and determinant of a small positive definite matrix.
fn invert(mut matrix: Vec<Vec<f64>>) -> (Vec<Vec<f64>>, f64) {
    let n = matrix.len();
    let mut inverse: Vec<Vec<f64>> = (0..n)
        .map(|i| (0..n).map(|j| if i == j { 1.0 } else { 0.0 }).collect())
        .collect();
    let mut determinant = 1.0;
    for k in 0..n {
        let pivot = matrix[k][k];
        determinant *= pivot;
        for j in 0..n {
            matrix[k][j] /= pivot;
            inverse[k][j] /= pivot;
        }
        for i in (0..n).filter(|&i| i != k) {
            let factor = matrix[i][k];
            for j in 0..n {
                matrix[i][j] -= factor * matrix[k][j];
                inverse[i][j] -= factor * inverse[k][j];
            }
        }
    }
    (inverse, determinant)
}
