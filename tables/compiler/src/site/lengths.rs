//! `digging/lays.csv` and `taps.csv`.

use springline_core::joint::Owner;

use super::cells::{WHAT, cited, families, number, sizes};
use crate::joints::Reader;
use crate::model::NominalSize;
use crate::notes::{FixedNote, Most, Number, TapNote};
use crate::read::table::Row;
use crate::report::{Cell, Files};

const LAYS: &[&str] = &["part", "name", "how", "sizes", "lay_in", "source", "grade"];
const TAPS: &[&str] = &[
    "owner", "way", "families", "classes", "main", "most", "what", "source", "grade",
];

/// Laying lengths.
pub(super) fn lays<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
) -> Vec<FixedNote> {
    let table = reader.table(files, name, LAYS);
    let rows = table.iter().flat_map(|table| &table.rows);
    let mut all = Vec::new();
    for row in rows.filter(|row| row.whole) {
        let how = reader.needed(&row["how"], "text", WHAT);
        fixed(reader, row, how, &mut all);
    }
    all
}

/// One length. No size of a key has two.
fn fixed(reader: &mut Reader<'_>, row: &Row<'_>, how: String, all: &mut Vec<FixedNote>) {
    let key = reader.key(&row["part"]);
    let name = reader.needed(&row["name"], "name", WHAT);
    let band = sizes(reader, &row["sizes"]);
    let inches = number(reader, &row["lay_in"], 0.0, 120.0);
    let (Some(sizes), Some(inches), Some(cited)) = (band, inches, cited(reader, row)) else {
        return;
    };
    let edges = [sizes.from, sizes.to];
    let meets = |held: &FixedNote| {
        let mut own = edges.iter().flatten();
        let mut its = [held.sizes.from, held.sizes.to].into_iter().flatten();
        held.key == key
            && (own.any(|size| held.sizes.holds(size.get()))
                || its.any(|size| sizes.holds(size.get())))
    };
    if all.iter().any(meets) {
        reader.report.add(
            row["sizes"].place,
            format!("\"{key}\" has a length in this size already"),
            "let the bands of one key not overlap",
        );
    }
    all.push(FixedNote {
        key,
        name,
        how,
        sizes,
        inches,
        cited,
    });
}

/// How large an outlet may be.
pub(super) fn taps<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
) -> Vec<TapNote> {
    let table = reader.table(files, name, TAPS);
    let rows = table.iter().flat_map(|table| &table.rows);
    let mut all = Vec::new();
    for row in rows.filter(|row| row.whole) {
        if let Some(tap) = tap(reader, row) {
            all.push(tap);
        }
    }
    all
}

fn tap(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<TapNote> {
    let owners = [
        ("any", None),
        ("ours", Some(Owner::Ours as u8)),
        ("purveyor", Some(Owner::Purveyor as u8)),
    ];
    let owner = reader.word(&row["owner"], "owner", &owners);
    let direct = reader.word(&row["way"], "way", &[("direct", true), ("saddle", false)]);
    if owner == Some(Some(Owner::Purveyor as u8)) && direct == Some(false) {
        reader.report.add(
            row["owner"].place,
            "what a purveyor allows by saddle is told twice".to_owned(),
            "write it in joints/outlets.csv alone",
        );
    }
    let families = if row["families"].text == "*" {
        Some(Vec::new())
    } else {
        families(reader, &row["families"], &mut Vec::new())
    };
    let classes = classes(reader, &row["classes"], families.as_deref());
    let mains = sizes(reader, &row["main"]);
    let most = most(reader, &row["most"]);
    let what = reader.needed(&row["what"], "text", WHAT);
    let cited = cited(reader, row);
    Some(TapNote {
        owner: owner?,
        direct: direct?,
        families: families?,
        classes: classes?,
        mains: mains?,
        most: most?,
        what,
        cited: cited?,
    })
}

/// Classes as printed, each of one of the families.
fn classes(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    families: Option<&[u8]>,
) -> Option<Vec<String>> {
    if cell.text == "*" {
        return Some(Vec::new());
    }
    let mut all = Vec::new();
    for part in cell.parts() {
        let known = families.unwrap_or_default().iter().any(|at| {
            let family = reader.sources.families.get(usize::from(*at));
            family.is_some_and(|family| family.classes.iter().any(|row| row.class == part.text))
        });
        if !known {
            reader.report.add(
                part.place,
                format!("no class \"{}\" of these families", part.text),
                "write it as in classes/FAMILY.csv, or * for every class",
            );
            return None;
        }
        all.push(part.text);
    }
    Some(all)
}

fn most(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Most> {
    if cell.text == "half" {
        return Some(Most::Half);
    }
    let size = NominalSize::parse(&cell.text);
    if size.is_none() {
        reader.report.add(
            cell.place,
            format!("\"{}\" is no size of an outlet", cell.text),
            "write a nominal size, as 3/4, or half for half of the main",
        );
    }
    size.map(|size| Most::Inches(Number::new(size.inches())))
}
