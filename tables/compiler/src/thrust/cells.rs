//! Figures of cells, and what the files must hold together.

use springline_core::thrust::Procedure;

use super::{KEYS, Thrust};
use crate::joints::Reader;
use crate::read::number;
use crate::read::table::Table;
use crate::report::{Cell, Place};

/// Words for whose row it is.
pub(super) const PROCEDURES: [(&str, Procedure); 2] =
    [("iron", Procedure::Iron), ("pvc", Procedure::Pvc)];

/// A figure between two others.
pub(super) fn figure(reader: &mut Reader<'_>, cell: &Cell<'_>, low: f64, high: f64) -> Option<f64> {
    let found = number::float(&cell.text).filter(|one| (low..=high).contains(one));
    if found.is_none() {
        let message = if cell.is_empty() {
            String::from("missing figure")
        } else {
            format!("\"{}\" is no figure for this column", cell.text)
        };
        reader.report.add(
            cell.place,
            message,
            format!("write digits with a point, from {low} to {high}"),
        );
    }
    found
}

/// The same, or zero for an empty cell.
pub(super) fn optional(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    low: f64,
    high: f64,
) -> Option<f64> {
    if cell.is_empty() {
        return Some(0.0);
    }
    figure(reader, cell, low, high)
}

/// What no single row tells: every constant is there once, each procedure has soils, one table of bearing is the default, and
/// each has a row for soil that nobody knows.
pub(super) fn whole<'a>(
    reader: &mut Reader<'a>,
    thrust: &Thrust,
    soils: &Table<'a>,
    constants: &Table<'a>,
    tables: &Table<'a>,
    bearings: &Table<'a>,
) {
    for (key, ..) in KEYS {
        let held = constants.rows.iter().filter(|row| row["key"].text == key);
        let held: Vec<_> = held.collect();
        match held[..] {
            [_] => {}
            [] => reader.report.add(
                Place::file(constants.file),
                format!("no row for {key}"),
                "add it",
            ),
            [_, second, ..] => reader.report.add(
                second["key"].place,
                format!("{key} is there twice"),
                "remove one of them",
            ),
        }
    }
    for (word, procedure) in PROCEDURES {
        if !thrust.soils.iter().any(|soil| soil.procedure == procedure) {
            reader.report.add(
                Place::file(soils.file),
                format!("no soil of the procedure {word}"),
                "add one: a soil that nobody knows is the worst of them",
            );
        }
    }
    if thrust.soils.len() > 200 {
        let place = Place::file(soils.file);
        reader
            .report
            .add(place, "more than 200 soils", "remove some");
    }
    let defaults = thrust.tables.iter().filter(|table| table.default).count();
    if defaults != 1 {
        reader.report.add(
            Place::file(tables.file),
            format!("{defaults} tables are the default"),
            "write default for one and choice for the others",
        );
    }
    for (at, table) in thrust.tables.iter().enumerate() {
        let unknown = |one: &super::Bearing| {
            one.table == at && one.words.iter().any(|word| word == "unknown")
        };
        if !thrust.bearings.iter().any(unknown) {
            reader.report.add(
                Place::file(bearings.file),
                format!("{} has no row for soil that nobody knows", table.key),
                "put \"unknown\" among the words of its poorest",
            );
        }
    }
}
