//! `od/KEY.csv` and `classes/KEY.csv`, row by row.

use super::catalog::{NAME, PROSE};
use super::context::Context;
use super::number::Unit;
use super::table::{Row, Table};
use crate::model::{ClassRow, Limits, OdRow, WallKind};
use crate::report::Cell;

/// Columns of `od/KEY.csv`; a `*` stands for the unit.
pub(crate) const OD: &[&str] = &[
    "nominal",
    "variant",
    "series",
    "standard",
    "od_*",
    "od_source",
    "od_grade",
    "plus_*",
    "minus_*",
    "tol_source",
    "tol_grade",
    "out_of_round_*",
    "oor_source",
    "oor_grade",
    "row_share",
    "exception",
];

/// Columns of `classes/KEY.csv`.
pub(crate) const CLASSES: &[&str] = &[
    "nominal",
    "variant",
    "series",
    "class",
    "wall_*",
    "wall_kind",
    "wall_source",
    "wall_grade",
    "psi",
    "psi_source",
    "psi_grade",
    "exception",
];

/// The greatest pressure a class may have, psi. Common practice, no source: far above any buried pipe.
const PSI: u32 = 5000;

/// The rows of `od/KEY.csv` that could be read; the others are reported.
pub(crate) fn od_rows(context: &mut Context<'_>, table: &Table<'_>) -> Vec<OdRow> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| od_row(context, row, table.unit))
        .collect()
}

fn od_row(context: &mut Context<'_>, row: &Row<'_>, unit: Unit) -> Option<OdRow> {
    size_and_series(context, row);
    context.needed(&row["standard"], "standard", PROSE);
    context.text(&row["exception"], "exception", PROSE);
    let cell = &row["od_*"];
    if cell.is_empty() {
        context
            .report
            .add(cell.place, "missing OD", "fill it or remove the row");
    }
    let od = context.length(cell, unit);
    let od = context.cited(
        od,
        !cell.is_empty(),
        &column("od", unit),
        &row["od_source"],
        &row["od_grade"],
    );
    let tolerance = tolerance(context, row, unit);
    let cell = &row["out_of_round_*"];
    let out_of_round = context.length(cell, unit);
    let out_of_round = context.cited(
        out_of_round,
        !cell.is_empty(),
        &column("out_of_round", unit),
        &row["oor_source"],
        &row["oor_grade"],
    );
    let row_share = context.share(&row["row_share"]);
    Some(OdRow {
        nominal: row["nominal"].text.clone(),
        variant: row["variant"].text.clone(),
        series: row["series"].text.clone(),
        standard: row["standard"].text.clone(),
        od: od?,
        tolerance,
        out_of_round,
        row_share,
        exception: filled(&row["exception"]),
        line: row.line,
    })
}

/// The tolerance: both limits or neither.
fn tolerance(
    context: &mut Context<'_>,
    row: &Row<'_>,
    unit: Unit,
) -> Option<crate::model::Datum<Limits>> {
    let (plus, minus) = (&row["plus_*"], &row["minus_*"]);
    for (cell, name, other) in [(plus, "plus", minus), (minus, "minus", plus)] {
        if cell.is_empty() && !other.is_empty() {
            context.report.add(
                cell.place,
                format!("missing {}", column(name, unit)),
                "a tolerance has both limits or neither; 0 is a limit",
            );
        }
    }
    let limits = (context.length(plus, unit), context.length(minus, unit));
    let limits = match limits {
        (Some(plus), Some(minus)) => Some(Limits { plus, minus }),
        _ => None,
    };
    context.cited(
        limits,
        !plus.is_empty() || !minus.is_empty(),
        "the tolerance",
        &row["tol_source"],
        &row["tol_grade"],
    )
}

/// The rows of `classes/KEY.csv` that could be read; the others are reported.
pub(crate) fn class_rows(context: &mut Context<'_>, table: &Table<'_>) -> Vec<ClassRow> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.map(|row| class_row(context, row, table.unit))
        .collect()
}

fn class_row(context: &mut Context<'_>, row: &Row<'_>, unit: Unit) -> ClassRow {
    size_and_series(context, row);
    context.needed(&row["class"], "class", NAME);
    context.text(&row["exception"], "exception", PROSE);
    let cell = &row["wall_*"];
    let wall = context.length(cell, unit);
    let wall = context.cited(
        wall,
        !cell.is_empty(),
        &column("wall", unit),
        &row["wall_source"],
        &row["wall_grade"],
    );
    let kind = &row["wall_kind"];
    let wall_kind = match (cell.is_empty(), kind.is_empty()) {
        (true, true) => None,
        (true, false) => {
            context.report.add(
                kind.place,
                "a wall_kind without a wall",
                "fill the wall or empty this cell",
            );
            None
        }
        (false, _) => {
            let words = [("min", WallKind::Min), ("nominal", WallKind::Nominal)];
            context.word(kind, "wall_kind", &words)
        }
    };
    let cell = &row["psi"];
    let psi = psi(context, cell);
    let psi = context.cited(
        psi,
        !cell.is_empty(),
        "psi",
        &row["psi_source"],
        &row["psi_grade"],
    );
    ClassRow {
        nominal: row["nominal"].text.clone(),
        variant: row["variant"].text.clone(),
        series: row["series"].text.clone(),
        class: row["class"].text.clone(),
        wall,
        wall_kind,
        psi,
        exception: filled(&row["exception"]),
        line: row.line,
    }
}

fn size_and_series(context: &mut Context<'_>, row: &Row<'_>) {
    context.nominal(&row["nominal"]);
    context.text(&row["variant"], "variant", NAME);
    context.needed(&row["series"], "series", PROSE);
}

fn psi(context: &mut Context<'_>, cell: &Cell<'_>) -> Option<u32> {
    if cell.is_empty() {
        return None;
    }
    let digits = cell.text.bytes().all(|b| b.is_ascii_digit());
    let psi = cell.text.parse().ok().filter(|psi| (1..=PSI).contains(psi));
    if !digits || psi.is_none() {
        context.report.add(
            cell.place,
            format!("\"{}\" is not a pressure", cell.text),
            format!("write a whole number from 1 to {PSI}"),
        );
        return None;
    }
    psi
}

fn column(stem: &str, unit: Unit) -> String {
    format!("{stem}{}", unit.suffix())
}

fn filled(cell: &Cell<'_>) -> Option<String> {
    (!cell.is_empty()).then(|| cell.text.clone())
}
