//! Checks of `classes/KEY.csv` against `od/KEY.csv` and `series.toml`.

use super::{Breach, Raw, duplicates, excuse};
use crate::model::{ClassRow, INCH, OdRow, PressureRule, Sources};
use crate::read::number::inches;
use crate::read::table::{Row, Table};
use crate::report::Report;

/// No wall of a dimension ratio is thinner. From memory: the floor of ASTM D2241.
const FLOOR: i64 = INCH * 60 / 1000;
/// A printed wall may differ from the computed one by so much: half a unit of its last digit and the rounding of tables
/// kept in millimetres. Common practice, no source.
const WALL: i64 = INCH * 15 / 10_000;
/// A printed pressure may be so much below the formula, and so much above it: the standards round. Common practice, no
/// source.
const PRESSURE: (f64, f64) = (0.98, 1.005);

/// A family's rows, typed and as read.
pub(super) struct Family<'t, 'a> {
    pub(super) index: usize,
    pub(super) rows: &'t [ClassRow],
    pub(super) od_rows: &'t [OdRow],
    pub(super) od: &'t Table<'a>,
    pub(super) classes: &'t Table<'a>,
}

/// Checks the rows of a family.
pub(super) fn check(
    report: &mut Report<'_>,
    sources: &Sources,
    raw: &Raw<'_>,
    family: &Family<'_, '_>,
) {
    let columns = ["nominal", "variant", "series", "class"];
    duplicates(report, family.classes, columns, "class");
    for row in family.rows {
        let Some(cells) = family.classes.on(row.line) else {
            continue;
        };
        let rule = sources
            .series_of(family.index, &row.series)
            .map(|series| series.rule);
        if rule.is_none() && raw.series_known && !row.series.is_empty() {
            report.add(
                cells["series"].place,
                format!("series \"{}\" is not in series.toml", row.series),
                "add a [[series]] that says how its pressure is printed",
            );
        }
        let columns = ["nominal", "variant", "series"];
        let key = cells.key(columns);
        if !family.od.rows.iter().any(|od| od.key(columns) == key) {
            let words: Vec<&str> = key.into_iter().filter(|word| !word.is_empty()).collect();
            report.add(
                cells["nominal"].place,
                format!("no OD row for {}", words.join(", ")),
                format!("add it to {} or correct this row", family.od.file),
            );
            continue;
        }
        // An OD that was reported is nothing to compare with.
        let od = family.od_rows.iter().find(|od| {
            [&od.nominal, &od.variant, &od.series] == [&row.nominal, &row.variant, &row.series]
        });
        if let Some(od) = od.filter(|od| super::od::plausible(od.od.value)) {
            class(report, row, cells, od.od.value, rule);
        }
    }
}

fn class(
    report: &mut Report<'_>,
    row: &ClassRow,
    cells: &Row<'_>,
    od: i64,
    rule: Option<PressureRule>,
) {
    let wall = row.wall.as_ref().map(|wall| wall.value);
    if let Some(wall) = wall
        && (wall == 0 || wall * 2 >= od)
    {
        report.add(
            cells["wall_*"].place,
            format!(
                "a wall of {} in in an OD of {} in",
                inches(wall),
                inches(od)
            ),
            "it must lie above 0 and below half the OD",
        );
        return;
    }
    let mut breaches = Vec::new();
    if let Some(ratio) = row.dimension_ratio() {
        if let Some(wall) = wall {
            let expected = wall_of(od, ratio);
            if (wall - expected).abs() > WALL {
                breaches.push(Breach {
                    place: cells["wall_*"].place,
                    message: format!(
                        "the wall is {} in, {} of this OD makes it {} in",
                        inches(wall),
                        row.class,
                        inches(expected)
                    ),
                    help: "correct the wall or the class".to_owned(),
                });
            }
        }
        if let (Some(psi), Some(PressureRule::DesignStress(stress))) = (&row.psi, rule) {
            let expected = 2.0 * stress / (ratio - 1.0);
            let printed = f64::from(psi.value) / expected;
            if printed < PRESSURE.0 || printed > PRESSURE.1 {
                breaches.push(Breach {
                    place: cells["psi"].place,
                    message: format!(
                        "psi is {}, the formula of series \"{}\" makes it {expected:.0}",
                        psi.value, row.series
                    ),
                    help: "correct it".to_owned(),
                });
            }
        }
    }
    excuse(report, cells, breaches);
}

/// The wall of a dimension ratio, counts of 10 nm.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "an OD is below 100 in and a ratio above 2, so the counts are far below 2^52"
)]
fn wall_of(od: i64, ratio: f64) -> i64 {
    ((od as f64 / ratio).round() as i64).max(FLOOR)
}

/// Reports series of `series.toml` that no row is of.
pub(super) fn series(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    for (series, cell) in sources.series.iter().zip(&raw.series) {
        let Some(od) = raw.families.get(series.family).and_then(|f| f.od.as_ref()) else {
            continue;
        };
        if !od
            .rows
            .iter()
            .any(|row| row["series"].text == series.series)
        {
            report.add(
                cell.place,
                format!("no row of {} is of series \"{}\"", od.file, series.series),
                "correct the name or remove the series",
            );
        }
    }
}
