//! Checks of `differences.csv` against the cells that it speaks of.

use super::Raw;
use crate::model::{Difference, Sources};
use crate::read::number::decimal;
use crate::read::table::{Row, Table};
use crate::read::{CLASS_COLUMNS, OD_COLUMNS};
use crate::report::{Report, choices};

/// Checks every difference.
pub(super) fn check(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    let Some(table) = &raw.differences else {
        return;
    };
    for difference in &sources.differences {
        let Some(row) = table.on(difference.line) else {
            continue;
        };
        let family = raw.families.get(difference.family);
        let of_class = !difference.class.is_empty();
        let target = family.and_then(|f| {
            if of_class {
                f.classes.as_ref()
            } else {
                f.od.as_ref()
            }
        });
        // A table that could not be read was reported.
        if let Some(target) = target {
            compare(report, difference, row, target);
        }
        if same(&difference.kept, &difference.other) {
            report.add(
                row["other"].place,
                "the two values do not differ",
                "correct one of them or remove the row",
            );
        }
    }
}

fn compare(report: &mut Report<'_>, difference: &Difference, row: &Row<'_>, target: &Table<'_>) {
    let of_class = !difference.class.is_empty();
    let columns = if of_class { CLASS_COLUMNS } else { OD_COLUMNS };
    // The columns as this file spells them, with its unit.
    let spelt: Vec<(String, &str)> = columns
        .iter()
        .map(|column| match column.strip_suffix("_*") {
            Some(stem) => (format!("{stem}{}", target.unit.suffix()), *column),
            None => ((*column).to_owned(), *column),
        })
        .collect();
    let Some((_, column)) = spelt.iter().find(|(name, _)| *name == difference.field) else {
        report.add(
            row["field"].place,
            format!("{} has no column \"{}\"", target.file, difference.field),
            format!(
                "use one of: {}",
                choices(
                    &difference.field,
                    spelt.iter().map(|(name, _)| name.as_str())
                )
            ),
        );
        return;
    };
    let key = ["nominal", "variant", "series"];
    let found = target.rows.iter().find(|candidate| {
        candidate.key(key) == row.key(key)
            && (!of_class || candidate["class"].text == difference.class)
    });
    let Some(found) = found else {
        report.add(
            row["nominal"].place,
            format!("{} has no such row", target.file),
            "nominal, variant, series and class are those of the row with the kept value",
        );
        return;
    };
    let cell = &found[column];
    if found.whole && !same(&cell.text, &difference.kept) {
        report.add(
            row["kept"].place,
            format!("kept is {}, the table has {}", difference.kept, cell.text),
            format!("correct one of them; see {}:{}", target.file, found.line),
        );
    }
}

/// Whether two cells say the same, as numbers where both are.
fn same(a: &str, b: &str) -> bool {
    a == b || decimal(a).is_some_and(|number| decimal(b) == Some(number))
}
