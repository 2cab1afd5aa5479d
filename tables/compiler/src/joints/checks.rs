//! Checks of restraints and saddles against the pipe that they are for and against the matrix.

use super::model::Listing;
use super::reader::Reader;
use super::space::Cell;
use super::{Joints, bits::Bits, reader::material_word};
use crate::read::table::Table;
use crate::report::Place;
use springline_core::joint::{Form, Use, Verdict};

/// What must seal where something is listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Must {
    /// A restraint: each of its ends, on each of its variants, in some size and form.
    Somewhere,
    /// A saddle: everywhere in its band.
    Everywhere,
}

/// Checks the rows of `restraints.csv` or `saddles.csv`.
pub(super) fn listings(
    reader: &mut Reader<'_>,
    joints: &Joints,
    table: &Table<'_>,
    listings: &[Listing],
    must: Must,
) {
    // What must not be used is bored for another pipe.
    let used = |one: &&Listing| matches!(one.used, Use::Holds | Use::Itself | Use::Blocks);
    for listing in listings.iter().filter(used) {
        let Some(row) = table.on(listing.line) else {
            continue;
        };
        for variant in listing.variants.iter() {
            listed(reader, joints, listing, variant, row["variants"].place);
            for end in listing.ends.iter() {
                seals(
                    reader,
                    joints,
                    (listing, must),
                    (variant, end),
                    row["ends"].place,
                );
            }
        }
    }
}

/// The material and the OD system are those of the pipe.
fn listed(
    reader: &mut Reader<'_>,
    joints: &Joints,
    listing: &Listing,
    variant: usize,
    place: Place<'_>,
) {
    let variant = &joints.variants[variant];
    let family = &reader.sources.families[variant.family];
    if let Some(material) = listing.material
        && family.material != material
    {
        let message = format!(
            "{} is of {}, the row says {}",
            variant.key,
            material_word(family.material),
            material_word(material)
        );
        let help = "it must be listed for the material that it bites into";
        reader.report.add(place, message, help);
    }
    if let Some(system) = listing.system
        && family.system != system
        && family.system_else != Some(system)
    {
        let message = format!(
            "{} is not of OD system {}",
            variant.key, reader.sources.systems[system].key
        );
        reader
            .report
            .add(place, message, "a body or ring fits one OD system");
    }
}

/// The matrix lets the joint seal.
fn seals(
    reader: &mut Reader<'_>,
    joints: &Joints,
    (listing, must): (&Listing, Must),
    (variant, end): (usize, usize),
    place: Place<'_>,
) {
    let sizes = joints.space.sizes(variant).iter().copied();
    let held: Vec<_> = sizes.filter(|size| listing.band.holds(*size)).collect();
    let seals = |size: &_| {
        let row = |form: &Form| {
            joints.row(Cell {
                variant,
                size: *size,
                form: *form,
                end,
            })
        };
        let sealing = |row: &super::MatrixRow| row.verdict <= Verdict::FitsWith;
        Form::ALL.iter().filter_map(row).any(sealing)
    };
    let refused = match must {
        Must::Somewhere if held.iter().any(seals) => None,
        Must::Somewhere => Some("any size".to_owned()),
        Must::Everywhere => held
            .iter()
            .find(|size| !seals(size))
            .map(ToString::to_string),
    };
    if let Some(size) = refused {
        let message = format!(
            "the matrix has no joint of {} on {} in {size}",
            joints.ends[end].key, joints.variants[variant].key
        );
        let advice = "correct the row, or the verdict in matrix.csv";
        reader.report.add(place, message, advice);
    }
}

/// Whether a listing is about any of these variants.
pub(super) fn applies(listing: &Listing, variants: Bits) -> bool {
    !listing.variants.and(variants).is_empty()
}
