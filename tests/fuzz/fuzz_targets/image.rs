//! Any bytes as a table image: refused, or as good as any other.
//!
//! A check value keeps a fuzzer out of everything behind it, so that it is made right in two of three ways of using the
//! bytes: behind a header of their own, or as changes of the built-in image.

#![no_main]

use libfuzzer_sys::fuzz_target;
use springline_core::Length;
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::image::layout::{CRC, ENVELOPE, FORMAT, MAGIC};
use springline_core::image::record::Header;
use springline_core::joint::{
    Doing, Form, Job, Owner, Pipe, best, cautions, fits, holders, restraints, saddles,
};
use springline_core::print::read;
use springline_core::reading::{Query, Reading};
use springline_tables::IMAGE;

const BODY: usize = ENVELOPE + Header::SIZE;

fuzz_target!(|data: &[u8]| {
    let Some((way, data)) = data.split_first() else {
        return;
    };
    match way % 3 {
        0 => exercise(data),
        1 => {
            let mut bytes = vec![0; BODY];
            bytes.extend_from_slice(data);
            let sections = data.len().min(64) as u16 / 3;
            exercise(&sealed(bytes, sections));
        }
        _ => {
            let mut bytes = IMAGE.to_vec();
            let sections = u16::from_le_bytes([IMAGE[ENVELOPE + 6], IMAGE[ENVELOPE + 7]]);
            for change in data.chunks_exact(3) {
                let at = usize::from(u16::from_le_bytes([change[0], change[1]]));
                if let Some(byte) = bytes.get_mut(BODY + at) {
                    *byte = change[2];
                }
            }
            exercise(&sealed(bytes, sections));
        }
    }
});

/// Gives bytes a header that fits them.
fn sealed(mut bytes: Vec<u8>, sections: u16) -> Vec<u8> {
    let header = Header {
        magic: MAGIC,
        format: FORMAT,
        sections,
        length: (bytes.len() - ENVELOPE) as u32,
        crc: CRC.checksum(&bytes[BODY..]),
    };
    bytes[ENVELOPE..BODY].copy_from_slice(&header.to_bytes());
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
    for (at, row) in (0u16..).zip(image.rows_from(0)).step_by(60) {
        let variants = image.variants_of(&row);
        for end in 0..=40 {
            let _ = best(image, &row, variants, Form::Belled, end);
        }
        let pipe = Pipe {
            row,
            variants,
            form: Form::PlainSquare,
        };
        let mut doing = Doing::default();
        for fit in fits(image, &pipe, Owner::Purveyor) {
            doing = doing.or(Doing::of(image, &fit));
            let _ = holders(image, row, variants, fit.end).count();
        }
        let due = cautions(image, std::iter::once(row), Owner::Purveyor, doing);
        assert!(due.count() <= image.cautions().len());
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

/// Reads and uses an image as a device would.
fn exercise(bytes: &[u8]) {
    let Ok(image) = Image::new(bytes) else {
        return;
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
    let line = read(
        &image,
        b"DN 200 PC 235 ?IPS DR18 TYPE L CL 52 NOT FOR PRESSURE C9..",
    );
    for row in image.rows_from(0).step_by(60) {
        let _ = line.chance(&image, &row, None);
    }
    let length = |mils| Length::from_mils(mils).expect("a short length");
    let (value, sigma) = (length(6_900), None);
    let caliper = Reading::Diameter {
        value,
        clock: None,
        jaw: None,
        sigma,
    };
    let chord = Reading::Chord {
        chord: length(5_600),
        rise: length(1_400),
        sigma,
    };
    for readings in [
        &[caliper][..],
        &[Reading::Around {
            value: length(48_070),
            sigma,
        }],
        &[chord],
        &[caliper, chord],
    ] {
        let mut query = Query::new();
        for reading in readings {
            query.add(*reading).expect("room for a few");
        }
        if let Ok(answer) = identify(&image, &query) {
            let listed = answer
                .candidates()
                .iter()
                .map(|candidate| u64::from(candidate.weight.q30()))
                .sum::<u64>();
            let all = listed + u64::from(answer.rest.q30()) + u64::from(answer.outside.q30());
            assert_eq!(all, 1 << 30, "weights sum to one");
        }
    }
}
