//! Any bytes as a line of print, and any values as a line that was read: parts that come one behind the other, and chances.

#![no_main]

use libfuzzer_sys::arbitrary::{Result, Unstructured};
use libfuzzer_sys::fuzz_target;
use springline_core::fixed::Real;
use springline_core::image::Image;
use springline_core::print::{Line, parts, read};
use springline_tables::IMAGE;

/// Characters compared for one of the line's and one word, at most.
const STEPS: usize = 4;

fuzz_target!(|data: &[u8]| {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    let mut walk = parts(&image, data);
    let mut end = 0;
    for part in walk.by_ref() {
        assert!(part.bytes.start >= end && part.bytes.end > part.bytes.start);
        assert!(part.bytes.end <= data.len());
        end = part.bytes.end;
    }
    assert!(walk.steps() as usize <= data.len() * image.print_words().len() * STEPS);
    chances(&image, &read(&image, data));
    if let Ok(line) = line(&mut Unstructured::new(data)) {
        chances(&image, &line);
    }
});

fn chances(image: &Image<'_>, line: &Line) {
    for row in image.rows_from(0).step_by(41) {
        for class in [None, Some(0), Some(200)] {
            let chance = line.chance(image, &row, class);
            assert!(chance >= Real::ZERO && chance <= Real::ONE);
        }
    }
    let _ = line.is_plastic(image);
}

fn line(from: &mut Unstructured<'_>) -> Result<Line> {
    Ok(Line {
        standards: from.arbitrary()?,
        materials: from.arbitrary()?,
        bases: from.arbitrary()?,
        sizes: from.arbitrary()?,
        classes: from.arbitrary()?,
        pressures: from.arbitrary()?,
        contents: from.arbitrary()?,
    })
}
