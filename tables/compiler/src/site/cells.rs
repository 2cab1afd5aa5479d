//! What the cells of these files have in common.

use crate::joints::{Band, Reader};
use crate::model::Datum;
use crate::notes::{Cited, Number, SizeNote};
use crate::read::number::float;
use crate::read::table::Row;
use crate::report::Cell;

/// At most so many characters in a name, a rule or a remark.
pub(super) const WHAT: usize = 100;

/// A number from one to another, both allowed.
pub(super) fn number(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    low: f64,
    high: f64,
) -> Option<Number> {
    let value = float(&cell.text).filter(|value| (low..=high).contains(value));
    if value.is_none() {
        let message = if cell.is_empty() {
            String::from("missing number")
        } else {
            format!("\"{}\" is no number from {low} to {high}", cell.text)
        };
        reader.report.add(
            cell.place,
            message,
            "write digits with a point, no unit and no sign",
        );
    }
    value.map(Number::new)
}

/// Where a row comes from.
pub(super) fn cited(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Cited> {
    let (sources, grade) = reader.cited(row)?;
    Some(crate::notes::cited(&Datum {
        value: (),
        sources,
        grade,
    }))
}

/// Where another column of a row comes from.
pub(super) fn cited_as(
    reader: &mut Reader<'_>,
    name: &str,
    source: &Cell<'_>,
    grade: &Cell<'_>,
) -> Option<Cited> {
    let datum = reader
        .context()
        .cited(Some(()), true, name, source, grade)?;
    Some(crate::notes::cited(&datum))
}

/// Families between semicolons, each once in a file, or `*` for none in particular.
pub(super) fn families(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    held: &mut Vec<u8>,
) -> Option<Vec<u8>> {
    let mut all = Vec::new();
    let mut sound = true;
    for part in cell.parts() {
        let Some(at) = reader.family(&part).and_then(|at| u8::try_from(at).ok()) else {
            sound = false;
            continue;
        };
        if held.contains(&at) {
            reader.report.add(
                part.place,
                format!("family \"{}\" is there twice", part.text),
                "name it in one row",
            );
        }
        held.push(at);
        all.push(at);
    }
    sound.then_some(all)
}

/// A band of sizes in inches.
pub(super) fn sizes(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<SizeNote> {
    let Band { from, to } = reader.band(cell)?;
    Some(SizeNote {
        from: from.map(|size| Number::new(size.inches())),
        to: to.map(|size| Number::new(size.inches())),
    })
}
