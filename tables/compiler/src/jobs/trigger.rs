//! What lines and ways hang on.

use springline_core::joint::Run;

use super::model::{Circumstance, Trigger};
use crate::joints::{Names, Reader, condition, split};
use crate::report::Cell;

/// What triggers speak of.
pub(super) struct Words {
    pub(super) ends: Names,
    pub(super) jobs: Vec<String>,
}

/// The place of a key in a list; `None`, reported, where it is not there.
pub(super) fn named(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    what: &str,
    known: &[String],
) -> Option<usize> {
    let at = known.iter().position(|key| *key == cell.text);
    if at.is_none() {
        reader.unknown(cell, what, known.iter().map(String::as_str));
    }
    at
}

/// Conditions joined by `+`, of which one such row is enough.
pub(super) fn triggers(
    reader: &mut Reader<'_>,
    words: &Words,
    cell: &Cell<'_>,
) -> Option<Vec<Vec<Trigger>>> {
    split(cell, ' ')
        .iter()
        .map(|all| {
            split(all, '+')
                .iter()
                .map(|one| trigger(reader, words, one))
                .collect()
        })
        .collect()
}

fn trigger(reader: &mut Reader<'_>, words: &Words, cell: &Cell<'_>) -> Option<Trigger> {
    let parts = split(cell, ':');
    if let [about, word] = &parts[..] {
        let joints = &reader.sources.joints;
        match about.text.as_str() {
            "family" => return reader.family(word).map(Trigger::Family),
            "job" => return named(reader, word, "job", &words.jobs).map(Trigger::Job),
            "said" => {
                let said = reader.word(word, "circumstance", Circumstance::WORDS);
                return said.map(Trigger::Said);
            }
            "run" => return reader.word(word, "run", Run::WORDS).map(Trigger::Run),
            "part" => {
                let known: Vec<String> = joints.parts.iter().map(|one| one.key.clone()).collect();
                return named(reader, word, "part", &known).map(Trigger::Part);
            }
            _ => {}
        }
    }
    condition(reader, &words.ends, cell).map(Trigger::Joint)
}
