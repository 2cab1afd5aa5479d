//! The wall classes of a row.

use springline_core::image::ListedClass;

use super::Pool;
use super::rows::Merged;
use crate::joints::Variant;
use crate::model::{ClassRow, NominalSize, Sources};

/// Lists of classes, each kept once: sizes of a family differ in their walls and seldom in anything else.
#[derive(Default)]
pub(super) struct Lists {
    pub(super) classes: Vec<ListedClass>,
    pub(super) starts: Vec<u16>,
    lengths: Vec<usize>,
}

impl Lists {
    /// The index of a list. An image has at most 256; the check of the whole refuses more.
    pub(super) fn index(&mut self, list: &[ListedClass]) -> u8 {
        let held = |at: usize| {
            let start = usize::from(self.starts[at]);
            &self.classes[start..start + self.lengths[at]]
        };
        let at = (0..self.starts.len()).find(|at| held(*at) == list);
        let at = at.unwrap_or_else(|| {
            self.starts
                .push(u16::try_from(self.classes.len()).unwrap_or(u16::MAX));
            self.lengths.push(list.len());
            self.classes.extend_from_slice(list);
            self.starts.len() - 1
        });
        u8::try_from(at).unwrap_or(u8::MAX)
    }
}

/// The classes of one row of the image with their walls, each printed designation, wall and pressure once.
pub(super) fn of(
    sources: &Sources,
    family: usize,
    row: &Merged,
    labels: &mut Pool,
) -> Vec<(ListedClass, u16)> {
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
            let listed = ListedClass {
                psi_and_grade: psi(class).min(0xfff) | grade << 12,
                label: labels.index(&class.class),
                share: (-16.0 * libm::log2(share.max(1e-4))).round() as u8,
                variant: variant(sources, index, class),
            };
            (listed, wall(class))
        })
        .collect()
}

/// The pipe variant of a class; every class has one, which was checked.
fn variant(sources: &Sources, family: usize, class: &ClassRow) -> u8 {
    let size = NominalSize::parse(&class.nominal);
    let of = |variant: &Variant| {
        variant.family == family && size.is_some_and(|size| variant.covers(&class.class, size))
    };
    let at = sources.joints.variants.iter().position(of);
    at.and_then(|at| u8::try_from(at).ok()).unwrap_or(0)
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
