//! The image says what the sources say.

#![allow(
    clippy::cast_possible_truncation,
    reason = "there are at most 64 variants and ends"
)]

use springline_core::image::Image;
use springline_core::joint::{Role, Use, best, hangs_on, restraints, sealing};

use super::real;
use crate::assemble::{Weights, assemble, merged};
use crate::encode::encode;
use crate::joints::{Cell, Form, Groups, Job};
use crate::model::NominalSize;

fn bytes() -> Vec<u8> {
    encode(&assemble(real().0))
}

/// The index in the image of each nominal size of the sources.
fn size_of(image: &Image<'_>, size: NominalSize) -> u8 {
    let text = size.to_string();
    (0..=u8::MAX)
        .find(|at| image.size(*at) == text)
        .expect("every size")
}

#[test]
fn every_cell_has_its_verdict_need_and_reason() {
    let (sources, joints) = real();
    let bytes = bytes();
    let image = Image::new(&bytes).expect("an image");
    let mut size = (NominalSize::Inch(0), 0);
    for (_, cell) in joints.space.cells() {
        if size.0 != cell.size {
            size = (cell.size, size_of(&image, cell.size));
        }
        let row = joints.row(cell).expect("a row");
        let (variant, end) = (cell.variant as u8, cell.end as u8);
        let found = sealing(&image, variant, size.1, cell.form, end).expect("a row");
        let lines = joints.rows.iter().position(|held| held == row);
        assert_eq!(Some(usize::from(found.row)), lines);
        assert_eq!(
            (found.verdict, found.kind, found.grade),
            (row.verdict, row.kind, row.grade)
        );
        if cell.form == Form::PlainSquare {
            assert_eq!(image.phrase(found.need).to_string(), row.need);
            assert_eq!(image.phrase(found.reason).to_string(), row.reason);
        }
    }
    let name = |end: &crate::joints::End| end.name.clone();
    let names = image
        .joint_ends()
        .map(|end| image.phrase(end.name).to_string());
    assert!(names.eq(joints.ends.iter().map(name)));
    for job in Job::ALL {
        for (at, end) in (0u8..).zip(&joints.ends) {
            let hangs = match job {
                Job::None => end.coupling || end.saddle,
                Job::Coupling => end.coupling,
                Job::Saddle => end.saddle,
                Job::Tap => end.tap,
                Job::Length | Job::Restraint => false,
            };
            assert_eq!(hangs_on(&image, at, *job), hangs);
        }
    }
    assert_eq!(image.family_count(), sources.families.len());
}

#[test]
fn every_row_has_its_purchases_its_variants_and_what_holds_it() {
    let (sources, joints) = real();
    let bytes = bytes();
    let image = Image::new(&bytes).expect("an image");
    let groups = Groups::of(&joints, sources);
    let weights = Weights::of(sources);
    let mut rows = Vec::new();
    for (index, family) in sources.families.iter().enumerate() {
        for merged in merged(index, family, &sources.settings.tolerance, &weights) {
            let held = (0u16..).zip(image.rows_from(0)).find(|(_, row)| {
                usize::from(row.family) == index
                    && i64::from(row.od) == merged.od
                    && image.size(row.size) == merged.nominal
            });
            let (at, row) = held.expect("the row is in the image");
            let size = NominalSize::parse(&merged.nominal).expect("a size");
            // The variants that the sources give to the size and the classes of the row.
            let own = |variant: &usize| {
                joints.variants[*variant].family == index
                    && joints.space.sizes(*variant).contains(&size)
            };
            let known: Vec<usize> = (0..joints.variants.len()).filter(own).collect();
            let found: Vec<usize> = image.variants_of(&row).iter().map(usize::from).collect();
            assert!(!found.is_empty(), "{} {size}", family.key);
            assert!(found.iter().all(|variant| known.contains(variant)));
            let holding: Vec<_> = restraints(&image, row, image.variants_of(&row))
                .map(|(at, _)| at)
                .collect();
            let listed = |listing: &crate::joints::Listing| {
                matches!(listing.used, Use::Holds | Use::Itself | Use::Blocks)
                    && (listing.system.is_some() || listing.material.is_some())
                    && listing
                        .ends
                        .iter()
                        .any(|end| joints.ends[end].role != Role::Other)
                    && listing
                        .system
                        .is_none_or(|system| system == usize::from(row.system))
                    && found.iter().any(|variant| listing.variants.has(*variant))
                    && listing.band.holds(size)
            };
            let told: Vec<u8> = (0u8..)
                .zip(&joints.restraints)
                .filter(|(_, listing)| listed(listing))
                .map(|(at, _)| at)
                .collect();
            assert_eq!(holding, told, "{} {size}", family.key);
            rows.push((at, groups.of_row(index, merged.parts[0])));
        }
    }
    assert_eq!(rows.len(), image.row_count());
    for job in Job::ALL {
        for (one, of_one) in &rows {
            for (other, of_other) in &rows {
                let same = image.purchase(*job, *one) == image.purchase(*job, *other);
                let told = of_one[*job as usize] == of_other[*job as usize];
                assert_eq!(same, told, "rows {one} and {other} for {}", job.key());
            }
        }
    }
}

#[test]
fn the_best_class_decides_and_a_difference_is_told() {
    let (_, joints) = real();
    let bytes = bytes();
    let image = Image::new(&bytes).expect("an image");
    let end = |key: &str| joints.end(key).expect(key) as u8;
    let find = |family: &str, size: &str| {
        let mut rows = image.rows_from(0);
        rows.find(|row| {
            image.packed_text(image.family(row.family).key) == family
                && image.size(row.size) == size
        })
        .expect(family)
    };
    // Strap saddles stop at SDR 26, and thinner IPS PVC is in the tables.
    let row = find("ips-pvc", "6");
    let variants = image.variants_of(&row);
    let strap = best(&image, &row, variants, Form::PlainSquare, end("strap-ips")).expect("a row");
    assert_eq!(strap.sealing.verdict, crate::joints::Verdict::Fits);
    assert!(strap.by_class);
    let row = find("ductile-iron", "6");
    let mj = best(
        &image,
        &row,
        image.variants_of(&row),
        Form::PlainSquare,
        end("mj"),
    );
    assert!(mj.is_some_and(|mj| !mj.by_class));
    assert_eq!(
        sealing(&image, 63, row.size, Form::PlainSquare, 0),
        None,
        "no such variant"
    );
    assert!(
        joints
            .row(Cell {
                variant: 0,
                size: NominalSize::Inch(7),
                form: Form::Belled,
                end: 0
            })
            .is_none()
    );
}
