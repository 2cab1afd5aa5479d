//! What the cells of these files have in common.

use std::str::FromStr;

use crate::joints::Reader;
use crate::model::{INCH, NominalSize};
use crate::notes::{Cited, indices};
use crate::read::number::{self, Unit};
use crate::read::table::Row;
use crate::report::Cell;

/// A nominal size in whole quarters of an inch.
pub(super) fn size(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<u8> {
    reader.nominal(cell);
    match NominalSize::parse(&cell.text)? {
        NominalSize::Inch(parts) if parts.is_multiple_of(16) && parts <= 255 * 16 => {
            u8::try_from(parts / 16).ok()
        }
        _ => {
            reader.report.add(
                cell.place,
                format!("\"{}\" is no whole quarter of an inch", cell.text),
                "write a size in inches, up to 63-3/4; metric joints are another matter",
            );
            None
        }
    }
}

/// A number that must be there, from one to another.
pub(super) fn number<T: FromStr + PartialOrd + std::fmt::Display>(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    what: &str,
    (low, high): (T, T),
) -> Option<T> {
    let found = cell.text.parse::<T>().ok();
    let found = found.filter(|value| (&low..=&high).contains(&value));
    if found.is_none() {
        let message = if cell.is_empty() {
            format!("missing {what}")
        } else {
            format!("{what} \"{}\" is out of range", cell.text)
        };
        reader.report.add(
            cell.place,
            message,
            format!("write a number from {low} to {high}"),
        );
    }
    found
}

/// A length that must be there.
pub(super) fn length(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    unit: Unit,
    what: &str,
) -> Option<i64> {
    if cell.is_empty() {
        reader
            .report
            .add(cell.place, format!("missing {what}"), "fill the cell");
    }
    reader.length(cell, unit)
}

/// The same in whole parts of an inch, at most 255 of them where `small`.
pub(super) fn parts(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    unit: Unit,
    what: &str,
    (of_an_inch, small): (i64, bool),
) -> Option<i64> {
    let found = length(reader, cell, unit, what)?;
    let part = INCH / of_an_inch;
    let most = if small { 255 } else { 65_535 };
    if found % part != 0 || found <= 0 || found > part * most {
        reader.report.add(
            cell.place,
            format!("{what} of \"{}\" is not in 1/{of_an_inch} in", cell.text),
            format!(
                "a device counts it in 1/{of_an_inch} in, up to {} in",
                most / of_an_inch
            ),
        );
        return None;
    }
    Some(found)
}

/// Where a value of a row comes from; the columns of source and grade by name.
pub(super) fn cited(
    reader: &mut Reader<'_>,
    row: &Row<'_>,
    (source, grade): (&str, &str),
    filled: bool,
) -> Option<Cited> {
    let datum = (**reader).cited(
        filled.then_some(()),
        filled,
        "the row",
        &row[source],
        &row[grade],
    )?;
    (datum.sources.len() == row[source].parts().len()).then(|| Cited {
        sources: indices(&datum.sources),
        grade: datum.grade as u8,
    })
}

/// The same of the columns `source` and `grade`.
pub(super) fn own(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Cited> {
    cited(reader, row, ("source", "grade"), true)
}

/// Reports a row that is not where it should be.
pub(super) fn ordered(reader: &mut Reader<'_>, cell: &Cell<'_>, follows: bool, how: &str) {
    if !follows {
        reader.report.add(cell.place, "out of order", how);
    }
}

/// A plain decimal that must be there, from one to another.
pub(super) fn decimal(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    what: &str,
    (low, high): (f64, f64),
) -> Option<f64> {
    let found = number::float(&cell.text).filter(|value| (low..=high).contains(value));
    if found.is_none() {
        let message = if cell.is_empty() {
            format!("missing {what}")
        } else {
            format!("{what} \"{}\" is out of range", cell.text)
        };
        reader.report.add(
            cell.place,
            message,
            format!("write a number from {low} to {high}"),
        );
    }
    found
}

/// A number as whole parts of one.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "values are positive and small"
)]
pub(super) fn parts_of_one(value: f64, parts: f64) -> u32 {
    (value * parts).round() as u32
}

/// Counts of 10 nm in inches.
#[allow(
    clippy::cast_precision_loss,
    reason = "lengths of parts are far below 2^52 counts"
)]
pub(super) fn inches(counts: i64) -> f64 {
    counts as f64 / INCH as f64
}
