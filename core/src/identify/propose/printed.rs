//! The print line as a check: legible or not, and where it is, how surely it tells one pipe from another.
//!
//! A line names up to six things, each read with a chance of its own line's. Two pipes stay together when none of the things in
//! which they differ could be read.

use super::standing::{Gathered, Masses, Standing, Worth};
use crate::identify::belief::Belief;
use crate::image::{Material, Row};

/// How often a line on what is cast, drawn or moulded can be read, Q15: stencilled at best, and gone after years in the ground;
/// what is cast on iron is a clue of its own. Common practice, no source.
const STENCILLED: u64 = 1 << 10;
/// The chance that of so many things none is read, Q15: the mean of (1 - p)^n for a p that is even between .2 and .95.
const NONE_READ: [u64; 5] = [32768, 13926, 7453, 4473, 2863];

/// What the print line is worth.
pub(super) fn worth(belief: &Belief<'_>, standing: &Standing) -> Worth {
    let image = belief.image;
    let mut gathered = Gathered::default();
    let mut rest = 1u64 << 30;
    for left in standing.rows() {
        let row = image.row(left.row);
        let (mut against, mut unread) = (0u64, 0u64);
        for other in standing
            .rows()
            .iter()
            .filter(|other| other.group != left.group)
        {
            let differ = differences(belief, &row, &image.row(other.row));
            let none = NONE_READ.get(differ).copied().unwrap_or(0);
            against += u64::from(other.weight);
            unread += (u64::from(other.weight) * none) >> 15;
        }
        // What is in no table has a line of its own.
        against += u64::from(standing.others);
        let told = against
            .saturating_sub(unread)
            .saturating_mul(1 << 15)
            .checked_div(against);
        let told = (told.unwrap_or(0) * legible(belief, &row)) >> 15;
        let parted = (u64::from(left.weight) * told) >> 15;
        let mut masses = Masses::NONE;
        masses.add(left.group, u32::try_from(parted).unwrap_or(0));
        gathered.take(standing, &masses);
        rest = rest.saturating_sub(parted);
    }
    gathered.take(standing, &standing.now(rest));
    standing.worth(gathered)
}

/// How often the line of a row's pipes can be read, Q15.
fn legible(belief: &Belief<'_>, row: &Row) -> u64 {
    let material = belief.image.family(row.family).material;
    let plastic = [Material::Pvc as u8, Material::Pe as u8].contains(&material);
    if plastic {
        u64::from(belief.image.print_settings().legible >> 17)
    } else {
        STENCILLED
    }
}

/// In how many things that a line names two pipes differ: standard, OD base, size, material.
fn differences(belief: &Belief<'_>, a: &Row, b: &Row) -> usize {
    let material = |row: &Row| belief.image.family(row.family).material;
    usize::from(a.family != b.family)
        + usize::from(a.system != b.system)
        + usize::from(a.size != b.size)
        + usize::from(material(a) != material(b))
}
