//! The wall classes of a row.

use springline_core::image::Class;

use super::Pool;
use super::rows::Merged;
use crate::model::{ClassRow, Sources};

/// The classes of one row of the image, each printed designation, wall and pressure once.
pub(super) fn of(sources: &Sources, family: usize, row: &Merged, labels: &mut Pool) -> Vec<Class> {
    let index = family;
    let family = &sources.families[index];
    let mut found: Vec<&ClassRow> = Vec::new();
    for part in &row.parts {
        let od = &family.od[*part];
        let here = family.classes.iter().filter(|class| {
            class.nominal == od.nominal && class.variant == od.variant && class.series == od.series
        });
        for class in here {
            let print = |class: &ClassRow| (class.class.clone(), wall(class), psi(class));
            if !found.iter().any(|held| print(held) == print(class)) {
                found.push(class);
            }
        }
    }
    let shares = shares(sources, index, &found);
    found
        .iter()
        .zip(shares)
        .map(|(class, share)| {
            let grade = class.wall.as_ref().map_or(15, |datum| datum.grade as u16);
            Class {
                wall: wall(class),
                psi_and_grade: psi(class).min(0xfff) | grade << 12,
                label: labels.index(&class.class),
                share: (-16.0 * libm::log2(share.max(1e-4))).round() as u8,
            }
        })
        .collect()
}

/// Thousandths of an inch.
fn wall(class: &ClassRow) -> u16 {
    class
        .wall
        .as_ref()
        .map_or(0, |datum| ((datum.value + 1270) / 2540) as u16)
}

fn psi(class: &ClassRow) -> u16 {
    class.psi.as_ref().map_or(0, |datum| datum.value as u16)
}

/// A class that has a share takes it, one that is printed under two pressures takes its part of it; what is left goes
/// equally to the others, and the whole is normalised.
fn shares(sources: &Sources, family: usize, found: &[&ClassRow]) -> Vec<f64> {
    let told = |class: &ClassRow| {
        let share = sources
            .class_shares
            .iter()
            .find(|share| share.family == family && share.class == class.class)?;
        let prints = found
            .iter()
            .filter(|other| other.class == class.class)
            .count();
        Some(share.share.value / prints as f64)
    };
    let raw: Vec<Option<f64>> = found.iter().map(|class| told(class)).collect();
    let sum: f64 = raw.iter().flatten().sum();
    let others = raw.iter().filter(|share| share.is_none()).count();
    let other = if others == 0 {
        0.0
    } else {
        (1.0 - sum).max(0.01) / others as f64
    };
    let total = sum + other * others as f64;
    raw.into_iter()
        .map(|share| share.unwrap_or(other) / total)
        .collect()
}
