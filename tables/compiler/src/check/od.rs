//! Checks of `od/KEY.csv`.

use super::{Breach, duplicates, excuse};
use crate::model::{INCH, MILLIMETRE, NominalSize, OdRow};
use crate::read::number::inches;
use crate::read::table::{Row, Table};
use crate::report::{Place, Report};

/// The OD lies above this; counts of 10 nm.
const LEAST: i64 = INCH * 3 / 10;
/// The OD lies below this.
const GREATEST: i64 = INCH * 100;
/// A tolerance is below one part in so many of the OD. Common practice, no source: five times the widest in use.
const PART: i64 = 10;

/// Whether an OD is one that pipe can have.
pub(super) const fn plausible(od: i64) -> bool {
    LEAST < od && od < GREATEST
}

/// Checks the rows of a family.
pub(super) fn check(report: &mut Report<'_>, rows: &[OdRow], table: &Table<'_>) {
    if table.rows.is_empty() {
        report.add(
            Place::file(table.file),
            "no rows",
            "add the sizes of the family or remove the family",
        );
    }
    duplicates(report, table, ["nominal", "variant", "series"], "nominal");
    for row in rows {
        if let Some(raw) = table.on(row.line) {
            od(report, row, raw);
        }
    }
    shares(report, rows, table);
}

fn od(report: &mut Report<'_>, row: &OdRow, raw: &Row<'_>) {
    let value = row.od.value;
    if !plausible(value) {
        report.add(
            raw["od_*"].place,
            format!("an OD of {} in is out of range", inches(value)),
            "it must lie above 0.3 in and below 100 in",
        );
        return;
    }
    let mut breaches = Vec::new();
    let limits = row
        .tolerance
        .as_ref()
        .map(|datum| datum.value)
        .into_iter()
        .flat_map(|limits| [("plus_*", limits.plus), ("minus_*", limits.minus)]);
    let out_of_round = row
        .out_of_round
        .as_ref()
        .map(|datum| ("out_of_round_*", datum.value));
    for (column, length) in limits.chain(out_of_round) {
        if length * PART >= value {
            breaches.push(Breach {
                place: raw[column].place,
                message: format!(
                    "{} in is a tenth of the OD of {} in or more",
                    inches(length),
                    inches(value)
                ),
                help: "see where the point stands".to_owned(),
            });
        }
    }
    if let Some(NominalSize::Millimetre(nominal)) = NominalSize::parse(&row.nominal)
        && i64::from(nominal) * MILLIMETRE != value
    {
        breaches.push(Breach {
            place: raw["od_*"].place,
            message: format!("the OD is not the {nominal} mm that the nominal size says"),
            help: "correct one of them".to_owned(),
        });
    }
    excuse(report, raw, breaches);
}

/// Within a nominal size either every row has a share or none, and they do not exceed 1 together.
fn shares(report: &mut Report<'_>, rows: &[OdRow], table: &Table<'_>) {
    for (at, first) in rows.iter().enumerate() {
        if rows[..at].iter().any(|row| row.nominal == first.nominal) {
            continue;
        }
        let size: Vec<&OdRow> = rows[at..]
            .iter()
            .filter(|row| row.nominal == first.nominal)
            .collect();
        let shared = size.iter().filter(|row| row.row_share.is_some()).count();
        if shared != 0 && shared != size.len() {
            for row in size.iter().filter(|row| row.row_share.is_none()) {
                if let Some(raw) = table.on(row.line).filter(|raw| raw["row_share"].is_empty()) {
                    report.add(
                        raw["row_share"].place,
                        format!(
                            "missing row_share: other rows of nominal {} have one",
                            row.nominal
                        ),
                        "give every row of a nominal size a share, or none",
                    );
                }
            }
        }
        let sum: f64 = size.iter().filter_map(|row| row.row_share).sum();
        if sum > 1.0 + 1e-9
            && let Some(raw) = size.last().and_then(|row| table.on(row.line))
        {
            report.add(
                raw["row_share"].place,
                format!("the shares of nominal {} sum to {sum:.3}", first.nominal),
                "they may not exceed 1",
            );
        }
    }
}
