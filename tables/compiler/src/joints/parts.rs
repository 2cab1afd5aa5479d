//! `parts.csv`: parts as sets of joint ends; `runs.csv`: what they do in a straight run.

use super::bits::Band;
use super::lists::Dictionary;
use super::model::Part;
use super::piece::Piece;
use super::reader::{LONG, NAME, Reader, split};
use crate::read::table::{Row, Table};
use crate::report::Cell;
use springline_core::image::Part as Record;
use springline_core::joint::{Act, Run, Stock, Task, Thread};

/// Columns of `parts.csv`.
pub(super) const PARTS: &[&str] = &[
    "key", "name", "tasks", "act", "ends", "sizes", "stock", "outlet", "pieces", "comes", "less",
    "wont", "source", "grade",
];
/// Columns of `runs.csv`.
pub(super) const RUNS: &[&str] = &["part", "run", "bends", "source", "grade"];
/// Bends as they are written: the smallest that a part is made as, from one.
const BENDS: [(&str, u8); 3] = [("45", 1), ("22-1/2", 2), ("11-1/4", 3)];
/// The most ends that a part has.
const MOST_ENDS: usize = 4;
/// Outlets as they are written, in the order of [`Record::OUTLETS`].
pub(super) const OUTLETS: [&str; 9] = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"];

/// The rows of `parts.csv`.
pub(super) fn parts(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let held = parts.iter().any(|held| held.key == row["key"].text);
        reader.unique(&row["key"], held);
        parts.extend(part(reader, dictionary, row));
    }
    parts
}

/// The rows of `runs.csv`, put to their parts.
pub(super) fn runs(reader: &mut Reader<'_>, parts: &mut [Part], table: &Table<'_>) {
    for row in table.rows.iter().filter(|row| row.whole) {
        let run = reader.word(&row["run"], "run", Run::WORDS);
        reader.cited(row);
        let cell = &row["part"];
        let Some(at) = parts.iter().position(|part| part.key == cell.text) else {
            reader.unknown(cell, "part", parts.iter().map(|part| part.key.as_str()));
            continue;
        };
        reader.unique(cell, parts[at].run.is_some());
        if parts[at].ends.len() != 2 {
            let message = format!("\"{}\" has not two ends", cell.text);
            let help = "only a part with two ends joins two pipes";
            reader.report.add(cell.place, message, help);
        }
        parts[at].run = run;
        if !row["bends"].is_empty() {
            parts[at].bends = reader.word(&row["bends"], "bend", &BENDS).unwrap_or(0);
        }
    }
}

fn part(reader: &mut Reader<'_>, dictionary: &Dictionary, row: &Row<'_>) -> Option<Part> {
    let key = reader.key(&row["key"]);
    let name = reader.needed(&row["name"], "name", NAME);
    let ends = ends(reader, dictionary, &row["ends"]);
    let band = reader.band(&row["sizes"]);
    let words = split(&row["tasks"], ' ');
    let tasks: Option<Vec<Task>> = words
        .iter()
        .map(|word| reader.word(word, "task", Task::WORDS))
        .collect();
    let act = reader.word(&row["act"], "act", Act::WORDS);
    let stock = stock(reader, &row["stock"]);
    let outlet = outlet(reader, &row["outlet"]);
    let pieces = pieces(reader, &row["pieces"]);
    let comes = reader.text(&row["comes"], "comes", LONG);
    let less = reader.text(&row["less"], "less", LONG);
    let wont = reader.text(&row["wont"], "wont", LONG);
    let (sources, grade) = reader.cited(row)?;
    let (stock, others) = stock?;
    Some(Part {
        key,
        name,
        ends: ends?,
        band: band?,
        tasks: tasks?,
        act: act?,
        stock,
        others,
        outlet: outlet?,
        run: None,
        bends: 0,
        pieces: pieces?,
        comes,
        less,
        wont,
        sources,
        grade,
        line: row.line,
    })
}

/// What it is made as; nothing for a part that is one thing.
fn pieces(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Vec<Piece>> {
    if cell.is_empty() {
        return Some(Vec::new());
    }
    let words = split(cell, ' ');
    words
        .iter()
        .map(|word| reader.word(word, "piece", Piece::WORDS))
        .collect()
}

/// The ends of a cell, as indices, a double one twice.
fn ends(reader: &mut Reader<'_>, dictionary: &Dictionary, cell: &Cell<'_>) -> Option<Vec<usize>> {
    let known = &dictionary.ends.keys;
    let words = split(cell, ' ');
    let mut ends = Vec::new();
    for word in &words {
        if let Some(at) = known.iter().position(|key| *key == word.text) {
            ends.push(at);
        } else {
            reader.unknown(word, "joint end", known.iter().map(String::as_str));
        }
    }
    if words.len() > MOST_ENDS {
        let message = format!("{} ends, and a part has at most {MOST_ENDS}", words.len());
        reader
            .report
            .add(cell.place, message, "name each kind once");
    }
    (ends.len() == words.len() && words.len() <= MOST_ENDS).then_some(ends)
}

/// `counter`, or with it `10.. order`, `2 rare`: how it is got, and bands of sizes that are got otherwise.
fn stock(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<(Stock, Vec<(Band, Stock)>)> {
    let mut parts = split(cell, ';').into_iter();
    let usual = reader.word(&parts.next()?, "stock", Stock::WORDS);
    let mut others = Vec::new();
    for part in parts {
        let text = part.text.trim();
        let both = text.split_once(' ').and_then(|(band, word)| {
            let stock = Stock::WORDS.iter().find(|(held, _)| *held == word)?;
            Some((Band::parse(band)?, stock.1))
        });
        match both {
            Some(both) if others.len() < 2 => others.push(both),
            _ => {
                reader.report.add(
                    part.place,
                    format!("\"{text}\" is not a band and how it is got"),
                    "write at most two, as 10.. order or 2 rare",
                );
                return None;
            }
        }
    }
    Some((usual?, others))
}

/// `npt-female 3/4 1`: a thread, and the sizes of it; nothing for a part without an outlet.
#[expect(
    clippy::option_option,
    reason = "the outer one is a mistake, the inner one is no outlet"
)]
fn outlet(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Option<(Thread, u16)>> {
    if cell.is_empty() {
        return Some(None);
    }
    let mut words = split(cell, ' ').into_iter();
    let thread = reader.word(&words.next()?, "thread", Thread::WORDS)?;
    let mut sizes = 0;
    for word in words {
        if let Some(at) = OUTLETS.iter().position(|size| *size == word.text) {
            sizes |= 1 << at;
        } else {
            reader.unknown(&word, "outlet size", OUTLETS);
            return None;
        }
    }
    debug_assert_eq!(OUTLETS.len(), Record::OUTLETS.len());
    Some(Some((thread, sizes)))
}
