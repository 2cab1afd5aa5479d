//! Any line of print: parts in order, chances between none and one, and work that is bounded.

use springline_core::fixed::Real;
use springline_core::image::Image;
use springline_core::print::{Line, parts, read};
use springline_tables::IMAGE;
use springline_tests::print::cases;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// Parts come one behind the other, and what they took is theirs.
fn walks(image: &Image<'_>, line: &[u8]) -> u32 {
    let mut walk = parts(image, line);
    let mut end = 0;
    for part in walk.by_ref() {
        assert!(
            part.bytes.start >= end && part.bytes.end > part.bytes.start,
            "{part:?} of {line:?}"
        );
        assert!(part.bytes.end <= line.len(), "{part:?} of {line:?}");
        end = part.bytes.end;
    }
    walk.steps()
}

/// Characters compared for one of the line's and one word: the most that any line below takes.
const STEPS: usize = 4;

#[test]
fn every_end_of_every_line_is_read_in_bounded_time() {
    let image = image();
    let bound = |line: &[u8]| line.len() * image.print_words().len() * STEPS;
    let mut most: f64 = 0.0;
    let mut walk = |line: &[u8]| {
        let steps = walks(&image, line);
        let unit = (line.len() * image.print_words().len()).max(1);
        most = most.max(f64::from(steps) / f64::from(u32::try_from(unit).expect("a short line")));
        assert!(
            steps as usize <= bound(line),
            "{steps} for {:?}",
            String::from_utf8_lossy(line)
        );
    };
    for case in cases() {
        for at in 0..=case.line.len() {
            walk(&case.line.as_bytes()[..at]);
            walk(&case.line.as_bytes()[at..]);
        }
    }
    // Long ones, each of what costs most: marks, words that nearly fit, letters that may be digits.
    let hard = [
        ".N.",
        "?N",
        "NOT FOR PRESSUR",
        "?T FOR PRESSURE ",
        "..E",
        "P.V.C.",
        "1 ",
        "1/",
        "I1l",
        "D.",
        "C9..",
        "..?",
        "PRESSURE ",
    ];
    for piece in hard {
        walk(piece.repeat(4096 / piece.len()).as_bytes());
    }
    println!("{most:.2} characters compared for one of the line's and one word");
}

mod any {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn bytes_are_read_in_bounded_time(line in prop::collection::vec(any::<u8>(), 0..200)) {
            let image = image();
            let steps = walks(&image, &line) as usize;
            prop_assert!(steps <= line.len() * image.print_words().len() * STEPS);
        }

        #[test]
        fn nearly_lines_are_read_in_bounded_time(line in "[A-Z0-9 .?_*/\"-]{0,120}") {
            let image = image();
            let steps = walks(&image, line.as_bytes()) as usize;
            prop_assert!(steps <= line.len() * image.print_words().len() * STEPS);
            let read = read(&image, line.as_bytes());
            // A pipe is as likely as anything, or likelier than nothing.
            for row in image.rows_from(0).step_by(37) {
                let chance = read.chance(&image, &row, None);
                prop_assert!(chance > Real::ZERO && chance <= Real::ONE);
            }
        }

        /// A line that comes from elsewhere may say what no image has.
        #[test]
        fn any_line_has_a_chance(
            sets in any::<([u64; 2], [u32; 2], [u16; 2])>(),
            values in any::<([u16; 2], [u16; 2], [u16; 2], u8)>(),
            class in any::<Option<u8>>(),
        ) {
            let image = image();
            let (standards, materials, bases) = sets;
            let (sizes, classes, pressures, contents) = values;
            let line = Line { standards, materials, bases, sizes, classes, pressures, contents };
            for row in image.rows_from(0).step_by(53) {
                let chance = line.chance(&image, &row, class);
                prop_assert!(chance >= Real::ZERO && chance <= Real::ONE);
            }
            let _ = (line.is_plastic(&image), line.disagrees(&image), line.variants(&image));
        }
    }
}
