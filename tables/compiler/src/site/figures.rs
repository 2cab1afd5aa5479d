//! `figures.csv` of each folder: figures by themselves, each by its key.

use super::cells::{WHAT, cited, number};
use crate::joints::{OutletRule, Reader};
use crate::notes::{Cited, FigureNote};
use crate::report::{Cell, Files, Place};

/// Columns.
const COLUMNS: &[&str] = &["key", "value", "unit", "what", "source", "grade"];

/// A figure that must be there: its key, its unit, and from where to where it can be.
type Known = (&'static str, &'static str, f64, f64);

/// Those of `surge/`.
pub(super) const SURGE: &[Known] = &[
    ("water-weight", "pcf", 60.0, 66.0),
    ("speed-limit", "ft/s", 1.0, 20.0),
    ("working-share", "share", 0.1, 1.0),
    ("fatigue-scale", "number", 1.0, 1e15),
    ("fatigue-power", "number", 1.0, 10.0),
    ("valve-times", "times", 1.0, 100.0),
];

/// Those of `water/`.
pub(super) const WATER: &[Known] = &[
    ("fill-speed", "ft/s", 0.1, 5.0),
    ("flush-speed", "ft/s", 1.0, 10.0),
    ("flush-new", "ft/s", 1.0, 10.0),
    ("flush-least", "volumes", 1.0, 10.0),
    ("flush-most", "volumes", 1.0, 20.0),
    ("test-high", "times", 1.0, 3.0),
    ("test-low", "times", 1.0, 3.0),
    ("test-floor", "psi", 0.0, 500.0),
    ("test-hours", "h", 0.1, 72.0),
    ("test-swing", "psi", 0.1, 50.0),
    ("makeup", "number", 10_000.0, 1e6),
    ("makeup-older", "number", 10_000.0, 1e6),
    ("makeup-joints", "number", 1_000.0, 1e5),
];

/// Those of `digging/`.
pub(super) const DIGGING: &[Known] = &[
    ("under", "in", 0.0, 60.0),
    ("under-large", "in", 0.0, 60.0),
    ("large", "in", 1.0, 120.0),
    ("beside", "in", 0.0, 120.0),
    ("sump", "in", 0.0, 60.0),
    ("slide-more", "in", 0.0, 60.0),
    ("other-more", "in", 0.0, 60.0),
    ("cut-back", "in", 0.0, 120.0),
    ("clamp-beyond", "in", 0.0, 24.0),
    ("gap", "in", 0.0, 6.0),
    ("gap-most", "in", 0.0, 6.0),
    ("gasket", "in", 0.0, 1.0),
    ("gouge", "share", 0.0, 1.0),
    ("tap-apart", "in", 0.0, 240.0),
    ("tap-bell", "in", 0.0, 240.0),
];

/// How far taps are from each other and from a bell is in `joints/outlets.csv`, too: of one source there is one figure.
fn agrees(reader: &mut Reader<'_>, key: &str, cell: &Cell<'_>, value: f64, cited: &Cited) {
    let of = |rule: &OutletRule| match key {
        "tap-apart" => Some(rule.apart),
        "tap-bell" => Some(rule.bell),
        _ => None,
    };
    let outlets = &reader.sources.joints.outlets;
    let same = |rule: &&OutletRule| {
        let mut own = rule.sources.iter().filter_map(|at| u16::try_from(*at).ok());
        own.any(|at| cited.sources.contains(&at))
    };
    let differs = |inches: &u16| (f64::from(*inches) - value).abs() > 1e-9;
    let other = outlets.iter().filter(same).filter_map(of).find(differs);
    if let Some(other) = other {
        reader.report.add(
            cell.place,
            format!("\"{key}\" is {other} in joints/outlets.csv, by the same source"),
            "let both be what the source has",
        );
    }
}

/// The figures of a file. A key that is missing and one that nobody asks for are mistakes.
pub(super) fn figures<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
    known: &[Known],
) -> Vec<FigureNote> {
    let Some(table) = reader.table(files, name, COLUMNS) else {
        return Vec::new();
    };
    let mut all: Vec<FigureNote> = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let cell = &row["key"];
        let Some(&(key, unit, low, high)) = known.iter().find(|one| one.0 == cell.text) else {
            reader.unknown(cell, "figure", known.iter().map(|one| one.0));
            continue;
        };
        reader.unique(cell, seen.contains(&key));
        seen.push(key);
        let value = number(reader, &row["value"], low, high);
        reader.word(&row["unit"], "unit", &[(unit, ())]);
        let what = reader.needed(&row["what"], "text", WHAT);
        let (Some(value), Some(cited)) = (value, cited(reader, row)) else {
            continue;
        };
        agrees(reader, key, &row["value"], value.get(), &cited);
        all.push(FigureNote {
            key: key.to_owned(),
            value,
            unit: unit.to_owned(),
            what,
            cited,
        });
    }
    for (key, unit, ..) in known.iter().filter(|one| !seen.contains(&one.0)) {
        reader.report.add(
            Place::file(name),
            format!("no figure \"{key}\""),
            format!("add its row, in {unit}; README.md in this folder says what it is"),
        );
    }
    all
}
