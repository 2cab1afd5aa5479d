//! `cautions.csv` of digging and of water.

use super::cells::cited;
use crate::joints::{Reader, split};
use crate::notes::{SiteCaution, WhenNote};
use crate::read::MATERIALS;
use crate::report::{Cell, Files};

const COLUMNS: &[&str] = &[
    "key", "when", "order", "fold", "short", "full", "source", "grade",
];
/// At most so many characters in a line, and in all of it.
const SHORT: usize = 110;
const FULL: usize = 400;

/// The cautions of both files, the worst first.
pub(super) fn cautions<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    names: [&'static str; 2],
) -> Vec<SiteCaution> {
    let mut all: Vec<SiteCaution> = Vec::new();
    for name in names {
        let table = reader.table(files, name, COLUMNS);
        let rows = table.iter().flat_map(|table| &table.rows);
        for row in rows.filter(|row| row.whole) {
            let key = reader.key(&row["key"]);
            reader.unique(&row["key"], all.iter().any(|held| held.key == key));
            let when = when(reader, &row["when"]);
            let order = row["order"].text.parse::<u8>().ok();
            if order.is_none() {
                reader.report.add(
                    row["order"].place,
                    format!("\"{}\" is no order", row["order"].text),
                    "write a whole number from 0 to 255, the worst lowest",
                );
            }
            let fold = reader.word(&row["fold"], "answer", &[("yes", true), ("no", false)]);
            let short = reader.needed(&row["short"], "text", SHORT);
            let full = reader.needed(&row["full"], "text", FULL);
            let cited = cited(reader, row);
            let (Some(when), Some(order), Some(fold), Some(cited)) = (when, order, fold, cited)
            else {
                continue;
            };
            all.push(SiteCaution {
                key,
                when,
                order,
                fold,
                short,
                full,
                cited,
            });
        }
    }
    all.sort_by_key(|one| one.order);
    all
}

/// Sets of conditions with spaces between them, each joined by `+`.
fn when(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Vec<Vec<WhenNote>>> {
    let mut all = Vec::new();
    for set in split(cell, ' ') {
        let mut conditions = Vec::new();
        for one in split(&set, '+') {
            conditions.push(condition(reader, &one)?);
        }
        all.push(conditions);
    }
    Some(all)
}

fn condition(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<WhenNote> {
    let feet = |text: &str| text.parse::<u8>().ok();
    let found = match cell.text.split_once(':') {
        None => match cell.text.as_str() {
            "fill" => Some(WhenNote::Fill),
            "dig" => Some(WhenNote::Dig),
            "cut" => Some(WhenNote::Cut),
            "surge" => Some(WhenNote::Surge),
            _ => None,
        },
        Some(("material", word)) => {
            let found = MATERIALS.iter().find(|(known, _)| *known == word);
            found.map(|(_, material)| WhenNote::Material(*material as u8))
        }
        Some(("depth", text)) => feet(text).map(WhenNote::Depth),
        Some(("beyond", text)) => feet(text).map(WhenNote::Beyond),
        Some(_) => None,
    };
    if found.is_none() {
        reader.report.add(
            cell.place,
            format!("\"{}\" is no condition", cell.text),
            "write fill, dig, cut or surge, material:WORD, depth:FEET or beyond:FEET, joined by +",
        );
    }
    found
}
