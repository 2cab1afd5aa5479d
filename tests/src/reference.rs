//! An image of the model's reference rows, for answers that were computed apart.

use springline_compiler::encode::{Draft, encode};
use springline_core::image::Row;

/// Counts in an inch.
const INCH: f64 = 2_540_000.0;

/// The reference rows themselves: family, nominal, OD, sides of the band, out-of-round sigma, prior within the family.
pub const ROWS: &str = include_str!("../data/model-rows.csv");

/// The image that the built-in constants make with the reference rows instead of our own.
///
/// # Panics
///
/// When the data file is not what it should be.
#[must_use]
pub fn image(built_in: &Draft) -> Vec<u8> {
    let mut draft = built_in.clone();
    draft.sizes.clear();
    draft.purchases.clear();
    draft.rows = ROWS
        .lines()
        .filter(|line| !line.starts_with('#'))
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |at: usize| cells[at].parse::<f64>().expect("a number");
            let counts = |inches: f64| (inches * INCH).round() as i32;
            let family = draft
                .families
                .iter()
                .position(|(_, key, _)| key == cells[0])
                .expect("a family of ours");
            let size = draft.sizes.iter().position(|(size, _)| size == cells[1]);
            let size = size.unwrap_or_else(|| {
                draft.sizes.push((cells[1].to_owned(), 0));
                draft.sizes.len() - 1
            });
            let od = number(2);
            Row {
                low: counts(od - number(4)),
                high: counts(od + number(3)),
                od: counts(od),
                share: (number(6) * 4_294_967_296.0).round() as u32,
                oval: (number(5) / od * 1_048_576.0).round() as u16,
                family: u8::try_from(family).expect("few families"),
                size: u8::try_from(size).expect("few sizes"),
                grades: 0xf0,
                ..Row::default()
            }
        })
        .collect();
    encode(&draft)
}
