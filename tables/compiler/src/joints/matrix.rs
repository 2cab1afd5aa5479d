//! `matrix.csv`: the verdicts.

use super::lists::Dictionary;
use super::model::MatrixRow;
use super::reader::{Reader, SHORT};
use crate::read::table::{Row, Table};
use springline_core::joint::{Kind, Verdict};

/// Columns of `matrix.csv`.
pub(super) const MATRIX: &[&str] = &[
    "variants", "forms", "ends", "sizes", "verdict", "kind", "need", "reason", "source", "grade",
];

/// The rows, and whether all of them could be read.
pub(super) fn rows(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
) -> (Vec<MatrixRow>, bool) {
    let rows: Vec<MatrixRow> = table
        .rows
        .iter()
        .filter(|row| row.whole)
        .filter_map(|row| matrix_row(reader, dictionary, row))
        .collect();
    let complete = rows.len() == table.rows.len();
    (rows, complete)
}

fn matrix_row(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    row: &Row<'_>,
) -> Option<MatrixRow> {
    let variants = dictionary.variants.read(reader, &row["variants"]);
    let forms = dictionary.forms.read(reader, &row["forms"]);
    let ends = dictionary.ends.read(reader, &row["ends"]);
    let band = reader.band(&row["sizes"]);
    let verdict = reader.word(&row["verdict"], "verdict", Verdict::WORDS);
    let cell = &row["kind"];
    let kind = (!cell.is_empty()).then(|| reader.word(cell, "kind", Kind::WORDS));
    if let Some(verdict) = verdict {
        reasons(reader, row, verdict);
    }
    let need = reader.text(&row["need"], "need", SHORT);
    let reason = reader.text(&row["reason"], "reason", SHORT);
    let (sources, grade) = reader.cited(row)?;
    Some(MatrixRow {
        variants: variants?,
        forms: forms?,
        ends: ends?,
        band: band?,
        verdict: verdict?,
        kind: kind.flatten(),
        need,
        reason,
        sources,
        grade,
        line: row.line,
    })
}

/// Checks that a verdict says why and what it needs, and nothing that it does not need.
fn reasons(reader: &mut Reader<'_>, row: &Row<'_>, verdict: Verdict) {
    let word = verdict.key();
    if verdict >= Verdict::Adapter {
        for (column, help) in [
            (
                "kind",
                "say what the reason is about: dimension, material ...",
            ),
            ("reason", "name the dimension or the material that decides"),
        ] {
            let cell = &row[column];
            if cell.is_empty() {
                let message = format!("\"{word}\" without a {column}");
                reader.report.add(cell.place, message, help);
            }
        }
    }
    let cell = &row["need"];
    match verdict {
        Verdict::FitsWith | Verdict::Adapter if cell.is_empty() => reader.report.add(
            cell.place,
            format!("\"{word}\" without a need"),
            "say what must be ordered, cut or put in",
        ),
        Verdict::Fits | Verdict::No if !cell.is_empty() => reader.report.add(
            cell.place,
            format!("\"{word}\" with a need"),
            "what needs something is fits-with or adapter; else empty the cell",
        ),
        _ => {}
    }
}
