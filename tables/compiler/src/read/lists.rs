//! `sizes.csv`, `size-exceptions.csv`, `class-shares.csv`, `differences.csv` and `derating.csv`.

use super::catalog::{NAME, PROSE};
use super::context::Context;
use super::families::MATERIALS;
use super::table::{Row, Table};
use crate::model::{ClassShare, Datum, Derating, Difference, SizeException, SizeWeight};

/// Columns of `sizes.csv`.
pub(crate) const SIZES: &[&str] = &["nominal", "weight", "source", "grade"];
/// Columns of `size-exceptions.csv`.
pub(crate) const SIZE_EXCEPTIONS: &[&str] = &["family", "nominal", "weight", "source", "grade"];
/// Columns of `class-shares.csv`.
pub(crate) const CLASS_SHARES: &[&str] = &["family", "class", "share", "source", "grade"];
/// Columns of `derating.csv`.
pub(crate) const DERATINGS: &[&str] = &["material", "fahrenheit", "factor", "source", "grade"];
/// Columns of `differences.csv`.
pub(crate) const DIFFERENCES: &[&str] = &[
    "family",
    "nominal",
    "variant",
    "series",
    "class",
    "field",
    "kept",
    "kept_source",
    "other",
    "other_source",
    "reason",
];

/// The rows of `sizes.csv`.
pub(crate) fn sizes(context: &mut Context<'_>, table: &Table<'_>) -> Vec<SizeWeight> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| size(context, row)).collect()
}

fn size(context: &mut Context<'_>, row: &Row<'_>) -> Option<SizeWeight> {
    context.nominal(&row["nominal"]);
    Some(SizeWeight {
        nominal: row["nominal"].text.clone(),
        weight: weight(context, row, "weight")?,
        line: row.line,
    })
}

/// A share that must be there, with its source and grade.
fn weight(context: &mut Context<'_>, row: &Row<'_>, name: &str) -> Option<Datum<f64>> {
    let cell = &row[name];
    if cell.is_empty() {
        context.report.add(
            cell.place,
            format!("missing {name}"),
            "fill the cell or remove the row",
        );
    }
    let value = context.share(cell);
    context.cited(value, !cell.is_empty(), name, &row["source"], &row["grade"])
}

/// The rows of `size-exceptions.csv`.
pub(crate) fn size_exceptions(context: &mut Context<'_>, table: &Table<'_>) -> Vec<SizeException> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| {
        let family = context.family(&row["family"]);
        let size = size(context, row)?;
        Some(SizeException {
            family: family?,
            size,
        })
    })
    .collect()
}

/// The rows of `class-shares.csv`.
pub(crate) fn class_shares(context: &mut Context<'_>, table: &Table<'_>) -> Vec<ClassShare> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| {
        let family = context.family(&row["family"]);
        context.needed(&row["class"], "class", NAME);
        let share = weight(context, row, "share")?;
        Some(ClassShare {
            family: family?,
            class: row["class"].text.clone(),
            share,
            line: row.line,
        })
    })
    .collect()
}

/// The rows of `derating.csv`: by material, each with rising temperatures and falling factors.
pub(crate) fn deratings(context: &mut Context<'_>, table: &Table<'_>) -> Vec<Derating> {
    let rows = table.rows.iter().filter(|row| row.whole);
    let mut all: Vec<Derating> = Vec::new();
    for row in rows {
        let material = context.word(&row["material"], "material", &MATERIALS);
        let cell = &row["fahrenheit"];
        let fahrenheit = cell.text.parse::<u8>().ok();
        if fahrenheit.is_none() {
            context.report.add(
                cell.place,
                format!("\"{}\" is no temperature", cell.text),
                "write whole degrees F, up to 255",
            );
        }
        let factor = weight(context, row, "factor");
        let (Some(material), Some(fahrenheit), Some(factor)) = (material, fahrenheit, factor)
        else {
            continue;
        };
        let new = Derating {
            material,
            fahrenheit,
            factor,
            line: row.line,
        };
        if let Some(before) = all.last() {
            let follows = before.material < new.material
                || before.material == new.material
                    && before.fahrenheit < new.fahrenheit
                    && before.factor.value >= new.factor.value;
            if !follows {
                context.report.add(
                    cell.place,
                    "out of order",
                    "materials in the order of families.toml, temperatures rising and factors falling",
                );
            }
        }
        all.push(new);
    }
    all
}

/// The rows of `differences.csv`.
pub(crate) fn differences(context: &mut Context<'_>, table: &Table<'_>) -> Vec<Difference> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| {
        let family = context.family(&row["family"]);
        context.nominal(&row["nominal"]);
        for name in ["series", "field", "kept", "other", "reason"] {
            context.needed(&row[name], name, PROSE);
        }
        let kept_sources = context.sources(&row["kept_source"]);
        let other_sources = context.sources(&row["other_source"]);
        let text = |name: &str| row[name].text.clone();
        Some(Difference {
            family: family?,
            nominal: text("nominal"),
            variant: text("variant"),
            series: text("series"),
            class: text("class"),
            field: text("field"),
            kept: text("kept"),
            kept_sources,
            other: text("other"),
            other_sources,
            reason: text("reason"),
            line: row.line,
        })
    })
    .collect()
}
