//! What cells of every file have in common: references, grades, citations, texts, lengths.

use super::document::Document;
use super::number::{self, Unit};
use crate::model::{Datum, Grade, NominalSize, Sources};
use crate::report::{Cell, Report, choices};

/// Keys that cells refer to.
#[derive(Debug)]
pub(crate) struct Known {
    what: &'static str,
    file: &'static str,
    pub(crate) keys: Vec<String>,
    /// Whether all of them could be read. A missing one is no mistake of the cell otherwise.
    pub(crate) complete: bool,
}

impl Known {
    const fn new(what: &'static str, file: &'static str) -> Self {
        Self {
            what,
            file,
            keys: Vec::new(),
            complete: false,
        }
    }

    /// The index of a key; `None` for an unknown one, which is reported.
    pub(crate) fn find(&self, report: &mut Report<'_>, cell: &Cell<'_>) -> Option<usize> {
        let at = self.keys.iter().position(|key| *key == cell.text);
        if at.is_none() && self.complete {
            let Self { what, file, .. } = self;
            let list = choices(&cell.text, self.keys.iter().map(String::as_str));
            let (message, help) = if cell.is_empty() {
                (format!("missing {what}"), format!("use one of: {list}"))
            } else {
                let entry = if *what == "source" {
                    format!("[{}]", cell.text)
                } else {
                    "it".to_owned()
                };
                (
                    format!("unknown {what} \"{}\"", cell.text),
                    format!("add {entry} to {file} or use one of: {list}"),
                )
            };
            report.add(cell.place, message, help);
        }
        at
    }
}

/// The report and the keys known so far.
#[derive(Debug)]
pub(crate) struct Context<'a> {
    pub(crate) report: Report<'a>,
    pub(crate) sources: Known,
    pub(crate) systems: Known,
    pub(crate) families: Known,
}

impl<'a> Context<'a> {
    /// Nothing known yet.
    pub(crate) const fn new(report: Report<'a>) -> Self {
        Self {
            report,
            sources: Known::new("source", "sources.toml"),
            systems: Known::new("OD system", "od-systems.toml"),
            families: Known::new("family", "families.toml"),
        }
    }

    /// All that sources which were read clean define.
    pub(crate) fn of(report: Report<'a>, sources: &Sources) -> Self {
        let mut context = Self::new(report);
        let Self {
            sources: cited,
            systems,
            families,
            ..
        } = &mut context;
        cited
            .keys
            .extend(sources.sources.iter().map(|held| held.key.clone()));
        systems
            .keys
            .extend(sources.systems.iter().map(|held| held.key.clone()));
        families
            .keys
            .extend(sources.families.iter().map(|held| held.key.clone()));
        for known in [cited, systems, families] {
            known.complete = true;
        }
        context
    }

    /// The sources of a cell.
    pub(crate) fn sources(&mut self, cell: &Cell<'_>) -> Vec<usize> {
        let mut found = Vec::new();
        for part in cell.parts() {
            if let Some(at) = self.sources.find(&mut self.report, &part) {
                if found.contains(&at) {
                    self.report.add(
                        part.place,
                        format!("source \"{}\" is named twice", part.text),
                        "name it once",
                    );
                } else {
                    found.push(at);
                }
            }
        }
        found
    }

    /// The family of a cell.
    pub(crate) fn family(&mut self, cell: &Cell<'_>) -> Option<usize> {
        self.families.find(&mut self.report, cell)
    }

    /// A word of a fixed list.
    pub(crate) fn word<T: Copy>(
        &mut self,
        cell: &Cell<'_>,
        what: &str,
        words: &[(&str, T)],
    ) -> Option<T> {
        let found = words.iter().find(|(word, _)| *word == cell.text);
        if found.is_none() {
            let (message, verb) = if cell.is_empty() {
                (format!("missing {what}"), "write")
            } else {
                (format!("unknown {what} \"{}\"", cell.text), "use")
            };
            let list = choices(&cell.text, words.iter().map(|(word, _)| *word));
            self.report
                .add(cell.place, message, format!("{verb} one of: {list}"));
        }
        found.map(|(_, value)| *value)
    }

    /// A grade.
    pub(crate) fn grade(&mut self, cell: &Cell<'_>) -> Option<Grade> {
        self.word(cell, "grade", &Grade::ALL.map(|grade| (grade.key(), grade)))
    }

    /// A value with its source and grade. `filled` says whether its cell holds anything, right or wrong.
    pub(crate) fn cited<T>(
        &mut self,
        value: Option<T>,
        filled: bool,
        name: &str,
        source: &Cell<'_>,
        grade: &Cell<'_>,
    ) -> Option<Datum<T>> {
        if !filled {
            for (cell, what) in [(source, "source"), (grade, "grade")] {
                if !cell.is_empty() {
                    self.report.add(
                        cell.place,
                        format!("a {what} without a value"),
                        format!("fill {name} or empty this cell"),
                    );
                }
            }
            return None;
        }
        let sources = if source.is_empty() {
            self.report.add(
                source.place,
                format!("{name} has no source"),
                "name a key of sources.toml; \"practice\" and \"memory\" are keys too",
            );
            Vec::new()
        } else {
            self.sources(source)
        };
        let known = if grade.is_empty() {
            let list = Grade::ALL.map(Grade::key).join(", ");
            self.report.add(
                grade.place,
                format!("{name} has no grade"),
                format!("write one of: {list}"),
            );
            None
        } else {
            self.grade(grade)
        };
        if known == Some(Grade::TwoSources) && !source.is_empty() && source.parts().len() < 2 {
            self.report.add(
                grade.place,
                format!("{name} has one source and the grade of two"),
                "name the second source after a semicolon, or grade it one-source",
            );
        }
        Some(Datum {
            value: value?,
            sources,
            grade: known?,
        })
    }

    /// A length; `None` for an empty cell or, reported, for one that holds none.
    pub(crate) fn length(&mut self, cell: &Cell<'_>, unit: Unit) -> Option<i64> {
        if cell.is_empty() {
            return None;
        }
        let length = number::length(&cell.text, unit);
        if length.is_none() {
            self.report.add(
                cell.place,
                format!("\"{}\" is not a length", cell.text),
                "write digits with a point and no unit, no finer than 0.0001 in or 0.00001 mm",
            );
        }
        length
    }

    /// A share above 0 and at most 1; `None` for an empty cell or, reported, for one that holds none.
    pub(crate) fn share(&mut self, cell: &Cell<'_>) -> Option<f64> {
        if cell.is_empty() {
            return None;
        }
        let share = number::float(&cell.text).filter(|share| *share > 0.0 && *share <= 1.0);
        if share.is_none() {
            self.report.add(
                cell.place,
                format!("\"{}\" is not a share", cell.text),
                "write a number above 0 and at most 1",
            );
        }
        share
    }

    /// A nominal size.
    pub(crate) fn nominal(&mut self, cell: &Cell<'_>) {
        if NominalSize::parse(&cell.text).is_none() {
            let message = if cell.is_empty() {
                "missing nominal size".to_owned()
            } else {
                format!("\"{}\" is not a nominal size", cell.text)
            };
            self.report.add(
                cell.place,
                message,
                "write it as on the pipe: 6, 1-1/2, 3/4, DN150 or 160mm",
            );
        }
    }

    /// A text that devices show: at most so many printable ASCII characters.
    pub(crate) fn text(&mut self, cell: &Cell<'_>, what: &str, limit: usize) {
        let count = cell.text.chars().count();
        if !cell.text.chars().all(|c| matches!(c, ' '..='~')) {
            self.report.add(
                cell.place,
                format!("{what} \"{}\" is not printable ASCII", cell.text),
                "devices show ASCII only; write it in other letters",
            );
        } else if cell.text.trim() != cell.text {
            self.report.add(
                cell.place,
                format!("{what} \"{}\" begins or ends with a space", cell.text),
                "remove the space",
            );
        } else if count > limit {
            self.report.add(
                cell.place,
                format!("{what} \"{}\" has {count} characters", cell.text),
                format!("a device shows {limit}; shorten it"),
            );
        }
    }

    /// A text that must be there.
    pub(crate) fn needed(&mut self, cell: &Cell<'_>, what: &str, limit: usize) {
        if cell.is_empty() {
            self.report
                .add(cell.place, format!("missing {what}"), "fill the cell");
        } else {
            self.text(cell, what, limit);
        }
    }

    /// A number of a TOML file that must lie between two others, both allowed.
    pub(crate) fn between(
        &mut self,
        document: &Document<'_>,
        name: &str,
        number: Option<(f64, std::ops::Range<usize>)>,
        low: f64,
        high: f64,
    ) {
        if let Some((value, range)) = number
            && !(low..=high).contains(&value)
        {
            self.report.add(
                document.place(range),
                format!("{name} = {value} is out of range"),
                format!("it must lie between {low} and {high}"),
            );
        }
    }
}
