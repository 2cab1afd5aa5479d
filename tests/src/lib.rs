//! Tests of the whole: oracles in f64, outside checks, the emulated board.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "oracles are in floats, and what they are held against is in integers"
)]

pub mod exact;
pub mod handheld;
pub mod mixture;
pub mod numbers;
pub mod parts;
pub mod print;
pub mod reference;
pub mod simulator;
pub mod tie;

use springline_compiler::encode::Draft;
use springline_core::Length;
use springline_core::identify::{Answer, identify};
use springline_core::image::Image;
use springline_core::reading::{Clock, Query, Reading};

/// The contents of the built-in image, compiled anew from the sources.
///
/// # Panics
///
/// When the sources do not compile.
#[must_use]
pub fn draft() -> Draft {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tables/sources");
    match springline_compiler::read(folder.as_ref()) {
        Ok(sources) => springline_compiler::assemble::assemble(&sources),
        Err(found) => panic!(
            "{} mistakes in the sources, the first: {}",
            found.len(),
            found[0]
        ),
    }
}

/// A CSV line in cells; a quoted cell may hold commas.
#[must_use]
pub fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells.last_mut().into_iter().for_each(|cell| cell.push(c)),
        }
    }
    cells
}

/// A length of so many inches, to the nearest count.
#[must_use]
pub fn inches(value: f64) -> Length {
    Length::from_counts((value * f64::from(Length::INCH)).round() as i32)
}

/// A caliper reading in inches.
#[must_use]
pub fn dia(value: f64) -> Reading {
    Reading::Diameter {
        value: inches(value),
        clock: None,
        jaw: None,
        sigma: None,
    }
}

/// A caliper reading in inches at a clock hour.
#[must_use]
pub fn dia_at(value: f64, hour: u8) -> Reading {
    Reading::Diameter {
        value: inches(value),
        clock: Some(Clock::half_hours(hour * 2)),
        jaw: None,
        sigma: None,
    }
}

/// A steel tape around the pipe, inches.
#[must_use]
pub fn around(value: f64) -> Reading {
    Reading::Around {
        value: inches(value),
        sigma: None,
    }
}

/// A chord and its rise, inches.
#[must_use]
pub fn chord(chord: f64, rise: f64) -> Reading {
    Reading::Chord {
        chord: inches(chord),
        rise: inches(rise),
        sigma: None,
    }
}

/// The answer to some readings on an unknown site.
///
/// # Panics
///
/// When a reading is refused.
#[must_use]
pub fn answer(image: &Image<'_>, readings: &[Reading]) -> Answer {
    let mut query = Query::new();
    for reading in readings {
        query.add(*reading).expect("room for the readings");
    }
    identify(image, &query).expect("usable readings")
}

/// The share that an answer gives to a family's size, all its variants together.
#[must_use]
pub fn weight(image: &Image<'_>, answer: &Answer, family: &str, nominal: &str) -> f64 {
    answer
        .candidates()
        .iter()
        .filter(|candidate| {
            let row = image.row(candidate.row);
            image.packed_text(image.family(row.family).key) == family
                && image.size(row.size) == nominal
        })
        .map(|candidate| share(candidate.weight.q30()))
        .sum()
}

/// A Q30 weight as a fraction.
#[must_use]
pub fn share(q30: u32) -> f64 {
    f64::from(q30) / 1_073_741_824.0
}
