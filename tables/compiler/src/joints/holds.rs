//! `restraints.csv`, `saddles.csv` and `parts.csv`: what goes on the joints.

use super::lists::Dictionary;
use super::model::{Listing, Part};
use super::reader::{NAME, Reader, SHORT, split};
use crate::read::table::{Row, Table};
use springline_core::joint::Stock;

/// Columns of `restraints.csv` and `saddles.csv`.
pub(super) const LISTINGS: &[&str] = &[
    "key", "name", "variants", "material", "system", "ends", "sizes", "remark", "source", "grade",
];
/// Columns of `parts.csv`.
pub(super) const PARTS: &[&str] = &[
    "key", "name", "ends", "sizes", "stock", "remark", "source", "grade",
];

/// The rows of `restraints.csv` or `saddles.csv`.
pub(super) fn listings(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
) -> Vec<Listing> {
    let mut listings: Vec<Listing> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let held = listings.iter().any(|held| held.key == row["key"].text);
        reader.unique(&row["key"], held);
        listings.extend(listing(reader, dictionary, row));
    }
    listings
}

fn listing(reader: &mut Reader<'_>, dictionary: &Dictionary, row: &Row<'_>) -> Option<Listing> {
    let key = reader.key(&row["key"]);
    let name = reader.needed(&row["name"], "name", NAME);
    let variants = dictionary.variants.read(reader, &row["variants"]);
    let material = reader.material(&row["material"]);
    let system = reader.system(&row["system"]);
    let ends = dictionary.ends.read(reader, &row["ends"]);
    let band = reader.band(&row["sizes"]);
    let remark = reader.text(&row["remark"], "remark", SHORT);
    let (sources, grade) = reader.cited(row)?;
    Some(Listing {
        key,
        name,
        variants: variants?,
        material: material?,
        system: system?,
        ends: ends?,
        band: band?,
        remark,
        sources,
        grade,
        line: row.line,
    })
}

/// The rows of `parts.csv`.
pub(super) fn parts(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let held = parts.iter().any(|held| held.key == row["key"].text);
        reader.unique(&row["key"], held);
        parts.extend(part(reader, dictionary, row));
    }
    parts
}

fn part(reader: &mut Reader<'_>, dictionary: &Dictionary, row: &Row<'_>) -> Option<Part> {
    let key = reader.key(&row["key"]);
    let name = reader.needed(&row["name"], "name", NAME);
    let known = &dictionary.ends.keys;
    let mut ends = Vec::new();
    let words = split(&row["ends"], ' ');
    for word in &words {
        if let Some(at) = known.iter().position(|key| *key == word.text) {
            ends.push(at);
        } else {
            reader.unknown(word, "joint end", known.iter().map(String::as_str));
        }
    }
    let band = reader.band(&row["sizes"]);
    let stock = reader.word(&row["stock"], "stock", Stock::WORDS);
    let remark = reader.text(&row["remark"], "remark", SHORT);
    let (sources, grade) = reader.cited(row)?;
    (ends.len() == words.len()).then_some(())?;
    Some(Part {
        key,
        name,
        ends,
        band: band?,
        stock: stock?,
        remark,
        sources,
        grade,
        line: row.line,
    })
}
