//! What the cells of every joint file have in common.

use std::ops::{Deref, DerefMut};

use springline_core::image::{Grade, Material};

use super::bits::Band;
use crate::diagnostic::Diagnostic;
use crate::model::Sources;
use crate::read::MATERIALS;
use crate::read::context::Context;
use crate::read::table::{Row, Table, table};
use crate::report::{Cell, Files, Place, Report, choices};

/// At most so many characters in a key.
const KEY: usize = 16;
/// At most so many characters in a name.
pub(super) const NAME: usize = 24;
/// At most so many characters in a need, a reason or a remark: they live on a handheld.
pub(super) const SHORT: usize = 60;

/// At most so many characters in what only a desk shows.
pub(super) const LONG: usize = 160;

/// The word for a material.
pub(super) fn material_word(material: Material) -> &'static str {
    let found = MATERIALS.iter().find(|(_, held)| *held == material);
    found.map_or("", |(word, _)| word)
}

/// What cells have in common, and what the other files define.
#[derive(Debug)]
pub(crate) struct Reader<'a> {
    context: Context<'a>,
    pub(crate) sources: &'a Sources,
}

impl<'a> Deref for Reader<'a> {
    type Target = Context<'a>;

    fn deref(&self) -> &Self::Target {
        &self.context
    }
}

impl DerefMut for Reader<'_> {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.context
    }
}

impl<'a> Reader<'a> {
    /// What the cells of every file have in common.
    pub(crate) fn context(&mut self) -> &mut Context<'a> {
        &mut self.context
    }

    /// Nothing read yet of these files, beside sources that were read clean.
    pub(crate) fn new(files: &'a Files, sources: &'a Sources) -> Self {
        Self {
            context: Context::of(Report::new(files), sources),
            sources,
        }
    }

    /// What was found wrong.
    pub(crate) fn finish(self) -> Vec<Diagnostic> {
        self.context.report.finish()
    }

    /// Reads a file; `None`, reported, where there is none or its header is wrong.
    pub(crate) fn table(
        &mut self,
        files: &'a Files,
        name: &'static str,
        columns: &[&str],
    ) -> Option<Table<'a>> {
        let Some(text) = files.get(name) else {
            self.report.add(
                Place::file(name),
                "file not found",
                "add it; README.md of its folder says what it holds",
            );
            return None;
        };
        table(&mut self.report, name, text, columns)
    }

    /// A text of at most so many printable ASCII characters; may be empty.
    pub(crate) fn text(&mut self, cell: &Cell<'_>, what: &str, limit: usize) -> String {
        self.context.text(cell, what, limit);
        cell.text.clone()
    }

    /// A text that must be there.
    pub(crate) fn needed(&mut self, cell: &Cell<'_>, what: &str, limit: usize) -> String {
        self.context.needed(cell, what, limit);
        cell.text.clone()
    }

    /// A key: lower-case letters, digits and hyphens.
    pub(crate) fn key(&mut self, cell: &Cell<'_>) -> String {
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if !cell.text.chars().all(fits) {
            self.report.add(
                cell.place,
                format!("key \"{}\" is not a plain word", cell.text),
                "write lower-case letters, digits and hyphens",
            );
            return cell.text.clone();
        }
        self.needed(cell, "key", KEY)
    }

    /// Reports a key that was there before.
    pub(crate) fn unique(&mut self, cell: &Cell<'_>, held: bool) {
        if held {
            self.report.add(
                cell.place,
                format!("key \"{}\" is there twice", cell.text),
                "give one of them another key",
            );
        }
    }

    /// Reports a cell that is none of a list, or empty.
    pub(crate) fn unknown<'k>(
        &mut self,
        cell: &Cell<'_>,
        what: &str,
        known: impl IntoIterator<Item = &'k str>,
    ) {
        let message = if cell.is_empty() {
            format!("missing {what}")
        } else {
            format!("unknown {what} \"{}\"", cell.text)
        };
        let help = format!("use one of: {}", choices(&cell.text, known));
        self.report.add(cell.place, message, help);
    }

    /// A material.
    pub(crate) fn material(&mut self, cell: &Cell<'_>) -> Option<Material> {
        self.word(cell, "material", &MATERIALS)
    }

    /// An OD system.
    pub(crate) fn system(&mut self, cell: &Cell<'_>) -> Option<usize> {
        let Context {
            report, systems, ..
        } = &mut self.context;
        systems.find(report, cell)
    }

    /// A band of sizes.
    pub(crate) fn band(&mut self, cell: &Cell<'_>) -> Option<Band> {
        let band = Band::parse(&cell.text);
        if band.is_none() {
            self.report.add(
                cell.place,
                format!("\"{}\" is not a band of sizes", cell.text),
                "write 6, 2..12, 2.., ..12 or * for every size, the smaller first",
            );
        }
        band
    }

    /// The sources and the grade of a row, which must be there.
    pub(crate) fn cited(&mut self, row: &Row<'_>) -> Option<(Vec<usize>, Grade)> {
        let (source, grade) = (&row["source"], &row["grade"]);
        let datum = self
            .context
            .cited(Some(()), true, "the row", source, grade)?;
        (datum.sources.len() == source.parts().len()).then_some((datum.sources, datum.grade))
    }
}

/// The parts of a cell between separators, each with its own place.
pub(crate) fn split<'a>(cell: &Cell<'a>, separator: char) -> Vec<Cell<'a>> {
    let mut column = cell.place.column + cell.lead;
    let part = |text: &str| {
        let span = text.chars().count();
        column += span + 1;
        Cell {
            text: text.to_owned(),
            place: Place {
                column: column - span - 1,
                span,
                ..cell.place
            },
            lead: 0,
        }
    };
    cell.text.split(separator).map(part).collect()
}
