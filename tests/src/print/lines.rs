//! Lines of print as marking clauses have them, with whose they are.

use std::collections::BTreeSet;

use springline_core::print::Contents;

use crate::cells;

/// A line of `print-lines.csv`: what it says and whose it is. Empty where nothing is said.
#[derive(Clone, Debug)]
pub struct Case {
    /// The line.
    pub line: String,
    /// Every family that it allows.
    pub families: BTreeSet<String>,
    /// The nominal size.
    pub size: String,
    /// The classes that it allows.
    pub classes: BTreeSet<String>,
    /// The pressure that it names, zero for none.
    pub psi: u16,
    /// What it says of the contents, bits of [`Contents`].
    pub contents: u8,
}

/// Every line of the file.
///
/// # Panics
///
/// When the file is not as its head says.
#[must_use]
pub fn cases() -> Vec<Case> {
    let file = include_str!("../../outside/print-lines.csv")
        .lines()
        .skip(1);
    let rows = file.filter(|line| !line.starts_with('#')).map(|line| {
        // A quote inside a cell is doubled.
        let cells = cells(&line.replace("\"\"", "\u{1}"));
        let list = |at: usize| {
            let parts = cells[at].split(';').filter(|part| !part.is_empty());
            parts.map(str::to_owned).collect()
        };
        let contents = cells[5]
            .split(' ')
            .filter(|word| !word.is_empty())
            .map(|word| {
                let found = Contents::WORDS.iter().find(|(held, _)| *held == word);
                found.expect("a word for contents").1.0
            });
        assert!(!cells[6].is_empty(), "{line} has no source");
        Case {
            line: cells[0].replace('\u{1}', "\""),
            families: list(1),
            size: cells[2].clone(),
            classes: list(3),
            psi: cells[4].parse().unwrap_or(0),
            contents: contents.fold(0, |all, one| all | one),
        }
    });
    rows.collect()
}
