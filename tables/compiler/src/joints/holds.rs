//! `restraints.csv` and `saddles.csv`: what must be listed for its pipe.

use super::lists::Dictionary;
use super::model::Listing;
use super::reader::{NAME, Reader, SHORT};
use crate::read::table::{Row, Table};
use springline_core::joint::Use;

/// Columns of `restraints.csv`.
pub(super) const RESTRAINTS: &[&str] = &[
    "key", "name", "use", "variants", "material", "system", "ends", "sizes", "remark", "source",
    "grade",
];
/// Columns of `saddles.csv`.
pub(super) const SADDLES: &[&str] = &[
    "key", "name", "variants", "material", "system", "ends", "sizes", "remark", "source", "grade",
];

/// The rows of `restraints.csv` or `saddles.csv`.
pub(super) fn listings(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
    used: bool,
) -> Vec<Listing> {
    let mut listings: Vec<Listing> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let held = listings.iter().any(|held| held.key == row["key"].text);
        reader.unique(&row["key"], held);
        listings.extend(listing(reader, dictionary, row, used));
    }
    listings
}

fn listing(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    row: &Row<'_>,
    used: bool,
) -> Option<Listing> {
    let key = reader.key(&row["key"]);
    let name = reader.needed(&row["name"], "name", NAME);
    let used = if used {
        reader.word(&row["use"], "use", Use::WORDS)
    } else {
        Some(Use::Holds)
    };
    let variants = dictionary.variants.read(reader, &row["variants"]);
    // A star: all are alike to it.
    let any = |column: &str| row[column].text == "*";
    let material = if any("material") {
        Some(None)
    } else {
        reader.material(&row["material"]).map(Some)
    };
    let system = if any("system") {
        Some(None)
    } else {
        reader.system(&row["system"]).map(Some)
    };
    let ends = dictionary.ends.read(reader, &row["ends"]);
    let band = reader.band(&row["sizes"]);
    let remark = reader.text(&row["remark"], "remark", SHORT);
    let (sources, grade) = reader.cited(row)?;
    Some(Listing {
        key,
        name,
        used: used?,
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
