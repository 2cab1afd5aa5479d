//! `outlets.csv`: the largest outlet that an owner allows off a main.

use super::bits::Band;
use super::parts::OUTLETS;
use super::reader::Reader;
use crate::read::table::{Row, Table};
use crate::report::Cell;
use springline_core::image::{Grade, Part};
use springline_core::joint::Owner;

/// Columns of `outlets.csv`.
pub(super) const COLUMNS: &[&str] = &[
    "owner", "mains", "most", "apart_in", "bell_in", "source", "grade",
];

/// What an owner allows off a main by saddle or direct tap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutletRule {
    /// Whose main it is.
    pub owner: Owner,
    /// The sizes of main.
    pub mains: Band,
    /// The largest outlet, sixty-fourths of an inch.
    pub most: u16,
    /// How far taps are from each other, in.
    pub apart: u16,
    /// How far they are from a bell, in.
    pub bell: u16,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}

/// The rows of `outlets.csv`.
pub(super) fn outlets(reader: &mut Reader<'_>, table: &Table<'_>) -> Vec<OutletRule> {
    let whole = table.rows.iter().filter(|row| row.whole);
    whole.filter_map(|row| outlet(reader, row)).collect()
}

fn outlet(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<OutletRule> {
    let owner = reader.word(&row["owner"], "owner", Owner::WORDS);
    let mains = reader.band(&row["mains"]);
    let most = OUTLETS.iter().position(|size| *size == row["most"].text);
    if most.is_none() {
        reader.unknown(&row["most"], "outlet size", OUTLETS);
    }
    let apart = inches(reader, &row["apart_in"]);
    let bell = inches(reader, &row["bell_in"]);
    let (sources, grade) = reader.cited(row)?;
    Some(OutletRule {
        owner: owner?,
        mains: mains?,
        most: *Part::OUTLETS.get(most?)?,
        apart: apart?,
        bell: bell?,
        sources,
        grade,
    })
}

/// Whole inches.
fn inches(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<u16> {
    let inches = cell.text.parse().ok();
    if inches.is_none() {
        let message = format!("\"{}\" is no distance", cell.text);
        reader.report.add(cell.place, message, "write whole inches");
    }
    inches
}
