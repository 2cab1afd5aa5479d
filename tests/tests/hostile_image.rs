//! Bytes that are not an image, or not quite: never a panic, never an unbounded loop.

use proptest::prelude::*;
use springline_core::clue::{Clues, Plans, Told};
use springline_core::fixed::Real;
use springline_core::identify::{Cannot, Trench, identify, propose};
use springline_core::image::layout::{CRC, ENVELOPE, section};
use springline_core::image::{Image, ImageError, directory};
use springline_core::joint::{
    Doing, Form, Job, Owner, Pipe, best, cautions, fit, restraints, saddles,
};
use springline_core::print::read;
use springline_core::reading::Query;
use springline_tables::IMAGE;
use springline_tests::{around, chord, dia};

/// A trench in which everything can be reached.
const DUG: Trench = Trench {
    dug: true,
    cut_end: true,
};

/// Makes the check value right again, so that the checks behind it are reached.
fn sealed(mut bytes: Vec<u8>) -> Vec<u8> {
    let crc = CRC.checksum(&bytes[ENVELOPE + 16..]);
    bytes[ENVELOPE + 12..ENVELOPE + 16].copy_from_slice(&crc.to_le_bytes());
    bytes
}

/// Asks everything of joints that a device would ask of a few rows.
fn joints(image: &Image<'_>) {
    for row in image.matrix() {
        let _ = (
            image.phrase(row.need).words().count(),
            image.phrase(row.reason).words().count(),
        );
    }
    for caution in image.cautions() {
        let _ = image.phrase(caution.short).words().count();
    }
    if let Some(row) = image.rows_from(0).next() {
        let pipe = Pipe {
            row,
            variants: image.variants_of(&row),
            form: Form::PlainSquare,
        };
        // A few parts, and one that there is not.
        let parts = [0, 33, 66, 255];
        let some = parts.map(|part| fit(image, &pipe, part, Owner::Purveyor));
        let doing = some.iter().flatten();
        let doing = doing.fold(Doing::default(), |held, fit| held.or(Doing::of(image, fit)));
        let due = cautions(image, [row].into_iter(), Owner::Purveyor, doing);
        assert!(due.count() <= image.cautions().len() && some[3].is_none());
    }
    for (at, row) in (0u16..).zip(image.rows_from(0)).step_by(60) {
        let variants = image.variants_of(&row);
        for end in 0..=40 {
            let _ = best(image, &row, variants, Form::Belled, end);
        }
        let names = restraints(image, row, variants).chain(saddles(image, row, variants));
        for (_, listing) in names {
            let _ = image
                .phrase(listing.name)
                .words()
                .map(str::len)
                .sum::<usize>();
        }
        for job in Job::ALL {
            assert!(
                image.purchase(*job, at) <= at,
                "a purchase has its first row before it"
            );
        }
    }
}

/// Uses an accepted image as hard as a device would.
fn exercise(bytes: &[u8]) -> bool {
    let Ok(image) = Image::new(bytes) else {
        return false;
    };
    for row in image.rows_from(0) {
        let _ = (
            image.size(row.size),
            image.label(row.variant),
            image.source(row.source),
        );
        let _ = image.packed_text(image.family(row.family).name);
        assert_eq!(image.classes(&row).len(), usize::from(row.classes));
    }
    joints(&image);
    for line in [
        "..IN DR18 PC235 AWWA C9..",
        "DN 200 PN 10 ?IPS TYPE L CL 52 NOT FOR PRESSURE",
    ] {
        let line = read(&image, line.as_bytes());
        for row in image.rows_from(0).step_by(60) {
            let chance = line.chance(&image, &row, None);
            assert!(chance >= Real::ZERO && chance <= Real::ONE);
        }
        let _ = line.is_plastic(&image);
    }
    let mut clues = Clues::new();
    // Some are of this image, some of none.
    for (clue, answer) in [(0, 0), (1, 7), (2, 30), (3, 255), (9, 1)] {
        clues.tell(Told { clue, answer });
    }
    clues.plans = Some(Plans {
        family: 200,
        size: Some(7),
    });
    let readings = [dia(6.9), around(48.07), chord(8.0, 1.4)];
    for (reading, clues) in readings.into_iter().zip([clues, Clues::new(), clues]) {
        let mut query = Query::new();
        query.clues = clues;
        query.add(reading).expect("room for one");
        if let Ok(answer) = identify(&image, &query) {
            let sum: u64 = answer
                .candidates()
                .iter()
                .map(|candidate| u64::from(candidate.weight.q30()))
                .sum();
            assert!(sum <= 1 << 30);
            let _ = propose(&image, &query, &answer, DUG, Cannot::none());
        }
    }
    true
}

#[test]
fn a_change_of_any_byte_is_noticed() {
    let mut bytes = IMAGE.to_vec();
    for at in ENVELOPE..bytes.len() {
        bytes[at] ^= 0x55;
        assert!(Image::new(&bytes).is_err(), "byte {at}");
        bytes[at] ^= 0x55;
    }
}

/// The same behind the check value: refused or usable, never a panic. Every byte, two changes each.
#[test]
fn a_change_that_passes_the_check_value_is_refused_or_harmless() {
    let (mut accepted, mut refused) = (0, 0);
    for at in ENVELOPE..IMAGE.len() {
        for change in [0x01, 0xff] {
            let mut bytes = IMAGE.to_vec();
            bytes[at] ^= change;
            if exercise(&sealed(bytes)) {
                accepted += 1;
            } else {
                refused += 1;
            }
        }
    }
    println!("{accepted} accepted, {refused} refused");
    assert!(
        accepted > 1000 && refused > 1000,
        "the gate is neither shut nor open"
    );
}

/// Where a section lies, the bytes of a record, and how many there are.
fn place(id: u16) -> (usize, usize, usize) {
    let found = directory(IMAGE).find(|(_, entry)| entry.id == id);
    let entry = found.expect("a section").1;
    (
        entry.offset as usize,
        entry.record as usize,
        entry.count as usize,
    )
}

/// The gate refuses a record of a section that was changed.
fn refused(id: u16, change: &dyn Fn(&mut [u8])) {
    let (start, record, count) = place(id);
    let mut bytes = IMAGE.to_vec();
    change(&mut bytes[start..start + record * count]);
    let found = Image::new(&sealed(bytes)).err();
    assert!(
        matches!(found, Some(ImageError::Record(in_section, _)) if in_section == id),
        "{id}: {found:?}"
    );
}

/// A caution that speaks of what there is not would never be due, and words must lie in the text.
#[test]
fn cautions_and_words_that_would_mislead_are_refused() {
    for (at, value) in [
        // Where its text starts, an act, a task, a set of ends, and the pipe: no such question, no such material.
        (1, 0xff),
        (2, 1 << 6),
        (3, 1 << 6),
        (4, 250),
        (5, 7 << 5),
        (5, 1 << 5 | 31),
    ] {
        refused(section::CAUTIONS, &|all| all[at] = value);
    }
    refused(section::WORD_RUNS, &|all| all.fill(255));
}

/// Words of print lines out of order would not be found, and what one says must be there.
#[test]
fn a_print_section_that_would_mislead_is_refused() {
    let word = place(section::PRINT_WORDS).1;
    refused(section::PRINT_WORDS, &|all| {
        let last = all.len() - word;
        for at in 0..word {
            all.swap(at, last + at);
        }
    });
    refused(section::PRINT_WORDS, &|all| {
        // The first word names a standard that there is not.
        all[3] = 0;
        all[4] = 200;
    });
    refused(section::PRINTED, &|all| all[3] = 0xf0);
    refused(section::STANDARDS, &|all| all[3] = 255);
    refused(section::CODES, &|all| all[2] = 0);
    refused(section::PRINT, &|all| all[..4].fill(0));
}

#[test]
fn every_length_is_refused_but_the_right_one() {
    for length in 0..IMAGE.len() {
        assert!(Image::new(&IMAGE[..length]).is_err());
    }
    assert!(exercise(IMAGE));
}

proptest! {
    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..2048)) {
        exercise(&bytes);
    }

    #[test]
    fn any_few_changes(changes in prop::collection::vec((ENVELOPE..IMAGE.len(), any::<u8>()), 1..12)) {
        let mut bytes = IMAGE.to_vec();
        for (at, value) in changes {
            bytes[at] = value;
        }
        exercise(&bytes);
        exercise(&sealed(bytes));
    }
}
