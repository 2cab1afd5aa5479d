//! The words of print lines, and what they mean in the tables.
//!
//! [`read_files`] takes the files of `print/`: standards and material codes with the pipe that is marked so, and the words
//! that name them. A standard speaks of pipe variants as joints tell them apart, so that joints are read before.

mod classes;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use springline_core::image::Grade;
use springline_core::image::layout::MAX_STANDARDS;
use springline_core::print::{Contents, Scale, Thing, Unit};

pub(crate) use classes::printed;

use crate::diagnostic::Diagnostic;
use crate::joints::{Bits, Reader, variant_names};
use crate::model::Sources;
use crate::read::table::{Row, Table};
use crate::report::Cell;

/// A standard or a material code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marking {
    /// What it is called.
    pub name: String,
    /// The pipe variants that are marked so.
    pub variants: Bits,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}

/// A word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// How it is printed, in upper case; a space or a hyphen stands for separators of any kind or none.
    pub word: String,
    /// What it is about.
    pub thing: Thing,
    /// What it says: an index, a unit, a scale or a set of contents.
    pub value: u8,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}

/// Everything in `print/`, read and checked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Print {
    /// `standards.csv`.
    pub standards: Vec<Marking>,
    /// `codes.csv`.
    pub codes: Vec<Marking>,
    /// `words.csv`.
    pub words: Vec<Word>,
}

/// The files of the folder.
pub(crate) const FILES: [&str; 3] = ["print/standards.csv", "print/codes.csv", "print/words.csv"];

/// Columns of `standards.csv` and `codes.csv`.
const MARKINGS: &[&str] = &["name", "variants", "source", "grade"];
/// Columns of `words.csv`.
const WORDS: &[&str] = &["word", "thing", "value", "source", "grade"];
/// At most so many characters in a name and in a word.
const NAME: usize = 20;
/// The most material codes: a set of them is one word.
const MAX_CODES: usize = 32;

/// Reads and checks the print files among the files of a folder. The rest of the folder was read before, clean.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<Print, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let print = gather(&mut reader, files);
    let found = reader.finish();
    match print {
        Some(print) if found.is_empty() => Ok(print),
        _ => Err(found),
    }
}

fn gather<'a>(reader: &mut Reader<'a>, files: &'a BTreeMap<String, String>) -> Option<Print> {
    let [standards, codes, words] = FILES;
    let standards = reader.table(files, standards, MARKINGS);
    let codes = reader.table(files, codes, MARKINGS);
    let words = reader.table(files, words, WORDS);
    let (standards, codes) = (standards?, codes?);
    let mut print = Print {
        standards: markings(reader, &standards, MAX_STANDARDS),
        codes: markings(reader, &codes, MAX_CODES),
        words: Vec::new(),
    };
    // Without what they speak of, every word would be a mistake.
    let read = print.standards.len() + print.codes.len();
    if read < standards.rows.len() + codes.rows.len() {
        return None;
    }
    for row in words?.rows.iter().filter(|row| row.whole) {
        if let Some(word) = word(reader, row, &print) {
            print.words.push(word);
        }
    }
    Some(print)
}

fn markings(reader: &mut Reader<'_>, table: &Table<'_>, most: usize) -> Vec<Marking> {
    let names = variant_names(reader.sources);
    let mut all: Vec<Marking> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let name = reader.needed(&row["name"], "name", NAME);
        reader.unique(&row["name"], all.iter().any(|held| held.name == name));
        let variants = names.read(reader, &row["variants"]);
        if all.len() == most {
            reader.report.add(
                row["name"].place,
                "more of them than a device holds",
                format!("keep at most {most}"),
            );
        }
        let cited = reader.cited(row);
        let (Some(variants), Some((sources, grade))) = (variants, cited) else {
            continue;
        };
        all.push(Marking {
            name,
            variants,
            sources,
            grade,
        });
    }
    if let [row] = table.rows.as_slice() {
        reader.report.add(
            row["name"].place,
            "there is only one of them",
            "name another: what is misread is read as another of them",
        );
    }
    all
}

fn word(reader: &mut Reader<'_>, row: &Row<'_>, print: &Print) -> Option<Word> {
    let cell = &row["word"];
    let word = reader.needed(cell, "word", NAME);
    spelling(reader, cell);
    let same = |held: &&Word| joined(&held.word) == joined(&word);
    if let Some(held) = print.words.iter().find(same) {
        reader.report.add(
            cell.place,
            format!("\"{word}\" reads like \"{}\" above", held.word),
            "where words may be parted they need not be; remove one of them",
        );
    }
    let thing = reader.word(&row["thing"], "thing", &Thing::WORDS);
    let cited = reader.cited(row);
    let value = value(reader, &row["value"], thing?, print)?;
    let (sources, grade) = cited?;
    Some(Word {
        word,
        thing: thing?,
        value,
        sources,
        grade,
    })
}

/// Upper case, with single spaces and hyphens inside.
fn spelling(reader: &mut Reader<'_>, cell: &Cell<'_>) {
    let text = &cell.text;
    let sound =
        |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || matches!(c, ' ' | '-' | '"');
    let edge = |c: Option<char>| matches!(c, Some(' ' | '-'));
    if !text.chars().all(sound) || edge(text.chars().next()) || edge(text.chars().next_back()) {
        reader.report.add(
            cell.place,
            format!("\"{text}\" is not written as a word of a line"),
            "write capital letters and digits, and a space or a hyphen where anything may part them",
        );
    }
}

/// A word without what may part it.
fn joined(word: &str) -> String {
    word.replace([' ', '-'], "")
}

/// What a word says, by what it is about.
fn value(reader: &mut Reader<'_>, cell: &Cell<'_>, thing: Thing, print: &Print) -> Option<u8> {
    let named = |reader: &mut Reader<'_>, all: &[Marking], what: &str| {
        let at = all.iter().position(|held| held.name == cell.text);
        if at.is_none() {
            reader.unknown(cell, what, all.iter().map(|held| held.name.as_str()));
        }
        at.and_then(|at| u8::try_from(at).ok())
    };
    let units = |pressure: bool| {
        let of = move |(_, unit): &(&'static str, Unit)| unit.is_pressure() == pressure;
        Unit::WORDS.into_iter().filter(of).collect::<Vec<_>>()
    };
    match thing {
        Thing::Standard => named(reader, &print.standards, "standard"),
        Thing::Material => named(reader, &print.codes, "material code"),
        Thing::Base => reader.system(cell).and_then(|at| u8::try_from(at).ok()),
        Thing::Contents => {
            let mut all = 0;
            for word in crate::joints::split(cell, ' ') {
                all |= reader.word(&word, "contents", &Contents::WORDS)?.0;
            }
            Some(all)
        }
        Thing::SizeBefore | Thing::SizeAfter => {
            let unit = reader.word(cell, "unit", &units(false))?;
            Some(unit as u8)
        }
        Thing::PressureBefore | Thing::PressureAfter => {
            let unit = reader.word(cell, "unit", &units(true))?;
            Some(unit as u8)
        }
        Thing::Class => Some(reader.word(cell, "scale", &Scale::WORDS)? as u8),
        Thing::Plain => {
            if !cell.is_empty() {
                reader.report.add(
                    cell.place,
                    "a plain word has no value",
                    "empty this cell, or say what the word is about",
                );
            }
            Some(0)
        }
    }
}
