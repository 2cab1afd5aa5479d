//! Checks that look at more than one cell.

mod classes;
mod differences;
mod od;
mod shares;

use crate::model::Sources;
use crate::read::FamilyPlaces;
use crate::read::table::{Row, Table};
use crate::report::{Cell, Place, Report};

/// The tables as they were read, for the places of cells. Rows that could not become typed values are still in them.
#[derive(Debug)]
pub(crate) struct Raw<'a> {
    /// Of each family, in the order of [`Sources::families`].
    pub(crate) families: Vec<RawFamily<'a>>,
    /// Whether every family could be read.
    pub(crate) families_known: bool,
    /// The name of each series, in the order of [`Sources::series`].
    pub(crate) series: Vec<Cell<'a>>,
    /// Whether every series could be read.
    pub(crate) series_known: bool,
    pub(crate) sizes: Option<Table<'a>>,
    pub(crate) size_exceptions: Option<Table<'a>>,
    pub(crate) class_shares: Option<Table<'a>>,
    pub(crate) differences: Option<Table<'a>>,
}

/// The tables of a family as they were read.
#[derive(Debug)]
pub(crate) struct RawFamily<'a> {
    pub(crate) places: FamilyPlaces<'a>,
    pub(crate) od: Option<Table<'a>>,
    pub(crate) classes: Option<Table<'a>>,
}

/// A reason why a row may not stand as it is, unless its exception says why it does.
struct Breach<'a> {
    place: Place<'a>,
    message: String,
    help: String,
}

/// Checks everything that could be read.
pub(crate) fn check(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    for (index, (family, tables)) in sources.families.iter().zip(&raw.families).enumerate() {
        if let Some(od) = &tables.od {
            od::check(report, &family.od, od);
            if let Some(classes) = &tables.classes {
                let family = classes::Family {
                    index,
                    rows: &family.classes,
                    od_rows: &family.od,
                    od,
                    classes,
                };
                classes::check(report, sources, raw, &family);
            }
        }
    }
    classes::series(report, sources, raw);
    shares::sites(report, sources, raw);
    shares::sizes(report, sources, raw);
    shares::classes(report, sources, raw);
    differences::check(report, sources, raw);
}

/// Reports rows whose cells agree in all of these columns.
fn duplicates<const N: usize>(
    report: &mut Report<'_>,
    table: &Table<'_>,
    columns: [&str; N],
    at: &str,
) {
    let mut seen = std::collections::HashMap::new();
    for row in &table.rows {
        let key = row.key(columns);
        if let Some(line) = seen.insert(key, row.line) {
            let words: Vec<&str> = key.into_iter().filter(|word| !word.is_empty()).collect();
            report.add(
                row[at].place,
                format!("duplicate row: {} is on line {line} too", words.join(", ")),
                "remove one of them, or tell them apart by variant or series",
            );
        }
    }
}

/// Reports what a row breaches, or an exception where it breaches nothing.
fn excuse(report: &mut Report<'_>, row: &Row<'_>, breaches: Vec<Breach<'_>>) {
    let exception = &row["exception"];
    if exception.is_empty() {
        for breach in breaches {
            report.add(
                breach.place,
                breach.message,
                format!("{}, or say why in exception", breach.help),
            );
        }
    } else if breaches.is_empty() {
        report.add(
            exception.place,
            "an exception that is not needed",
            "the row breaks no check; empty the cell",
        );
    }
}
