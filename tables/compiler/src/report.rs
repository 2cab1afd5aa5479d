//! Collects diagnostics while the sources are read and checked.

use std::collections::BTreeMap;

use toml::Spanned;

use crate::diagnostic::Diagnostic;

/// The files of a folder by their path in it.
pub(crate) type Files = BTreeMap<String, String>;

/// Where something stands in a file. Line and column count from 1, in characters.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place<'a> {
    pub(crate) file: &'a str,
    pub(crate) line: usize,
    pub(crate) column: usize,
    pub(crate) span: usize,
}

impl<'a> Place<'a> {
    /// A whole file.
    pub(crate) const fn file(file: &'a str) -> Self {
        Self {
            file,
            line: 0,
            column: 0,
            span: 0,
        }
    }

    /// A range of bytes of a file, cut at the end of its first line.
    pub(crate) fn bytes(file: &'a str, text: &str, range: std::ops::Range<usize>) -> Self {
        let before = text.get(..range.start).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let marked = text.get(range).unwrap_or("");
        Self {
            file,
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            span: marked.lines().next().unwrap_or("").chars().count(),
        }
    }
}

/// A text of a file and where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Cell<'a> {
    pub(crate) text: String,
    pub(crate) place: Place<'a>,
    /// How many characters of the place come before the text: 1 for a quote.
    pub(crate) lead: usize,
}

impl<'a> Cell<'a> {
    /// A string of a TOML file.
    pub(crate) fn of(file: &'a str, text: &str, string: &Spanned<String>) -> Self {
        let place = Place::bytes(file, text, string.span());
        Self {
            lead: usize::from(place.span > string.get_ref().chars().count()),
            text: string.get_ref().clone(),
            place,
        }
    }

    /// Whether nothing is there.
    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// The parts between semicolons, each with its own place.
    pub(crate) fn parts(&self) -> Vec<Self> {
        let mut column = self.place.column + self.lead;
        let mut parts = Vec::new();
        for part in self.text.split(';') {
            let span = part.chars().count();
            parts.push(Self {
                text: part.to_owned(),
                place: Place {
                    column,
                    span,
                    ..self.place
                },
                lead: 0,
            });
            column += span + 1;
        }
        parts
    }
}

/// The diagnostics so far.
#[derive(Debug)]
pub(crate) struct Report<'a> {
    files: &'a Files,
    found: Vec<Diagnostic>,
}

impl<'a> Report<'a> {
    /// None yet.
    pub(crate) const fn new(files: &'a Files) -> Self {
        Self {
            files,
            found: Vec::new(),
        }
    }

    /// Adds one.
    pub(crate) fn add(
        &mut self,
        place: Place<'_>,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        let text = self
            .files
            .get(place.file)
            .and_then(|text| text.lines().nth(place.line.checked_sub(1)?))
            .unwrap_or("");
        self.found.push(Diagnostic {
            file: place.file.to_owned(),
            line: place.line,
            column: place.column,
            span: place.span,
            text: text.to_owned(),
            message: message.into(),
            help: help.into(),
        });
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.found.len()
    }

    /// All of them by file and line, each once.
    pub(crate) fn finish(mut self) -> Vec<Diagnostic> {
        self.found.sort();
        self.found.dedup();
        self.found
    }
}

/// Words that a mistyped one may stand for, as a list to read.
pub(crate) fn choices<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> String {
    const SHOWN: usize = 8;
    let mut known: Vec<&str> = known.into_iter().collect();
    let more = known.len() > SHOWN;
    if more {
        known.sort_by_key(|key| distance(word, key));
        known.truncate(SHOWN / 2);
    }
    let list = known.join(", ");
    if more { format!("{list}, ...") } else { list }
}

/// How many letters must be changed, added or removed to make one word of another.
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let above = row[j + 1];
            row[j + 1] = (diagonal + usize::from(x != *y))
                .min(above + 1)
                .min(row[j] + 1);
            diagonal = above;
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::{choices, distance};

    #[test]
    fn distances_between_words() {
        // From memory: the textbook example of this distance.
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
        assert_eq!(distance("abc", "abc"), 0);
    }

    #[test]
    fn a_short_list_is_whole_and_a_long_one_has_the_nearest_first() {
        assert_eq!(choices("x", ["b", "a"]), "b, a");
        let long = [
            "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
        ];
        assert!(choices("sevn", long).starts_with("seven, "));
        assert!(choices("sevn", long).ends_with(", ..."));
    }
}
