//! A TOML file whose values know where they stand.

use std::ops::Range;

use serde::de::DeserializeOwned;
use toml::Spanned;
use toml::de::{DeTable, DeValue, ValueDeserializer};

use crate::report::{Cell, Place, Report};

/// A file.
#[derive(Debug)]
pub(crate) struct Document<'a> {
    pub(crate) file: &'a str,
    text: &'a str,
    root: Spanned<DeTable<'a>>,
}

impl<'a> Document<'a> {
    /// Reads a file; `None` when its syntax is wrong, which is reported.
    pub(crate) fn parse(report: &mut Report<'_>, file: &'a str, text: &'a str) -> Option<Self> {
        let (root, errors) = DeTable::parse_recoverable(text);
        for error in &errors {
            complain(report, file, text, error, 0..0);
        }
        errors.is_empty().then_some(Self { file, text, root })
    }

    /// The place of a range of bytes.
    pub(crate) fn place(&self, range: Range<usize>) -> Place<'a> {
        Place::bytes(self.file, self.text, range)
    }

    /// A string as a cell.
    pub(crate) fn cell(&self, string: &Spanned<String>) -> Cell<'a> {
        Cell::of(self.file, self.text, string)
    }

    /// The top-level tables by their keys, in the order of the file.
    pub(crate) fn entries(&self) -> Vec<(Cell<'a>, &Spanned<DeValue<'a>>)> {
        let mut entries: Vec<_> = self.root.get_ref().iter().collect();
        entries.sort_by_key(|(key, _)| key.span().start);
        entries
            .into_iter()
            .map(|(key, value)| {
                let cell = Cell {
                    text: key.get_ref().to_string(),
                    place: self.place(key.span()),
                    lead: 0,
                };
                (cell, value)
            })
            .collect()
    }

    /// The tables of the one list that the file holds, such as every `[[family]]`. Anything else in it is reported.
    pub(crate) fn list(&self, report: &mut Report<'_>, name: &str) -> Vec<&Spanned<DeValue<'a>>> {
        let mut items = Vec::new();
        for (key, value) in self.entries() {
            match value.get_ref().as_array() {
                Some(list) if key.text == name => items.extend(list.iter()),
                _ => report.add(
                    key.place,
                    format!("unknown entry \"{}\"", key.text),
                    format!("this file holds [[{name}]] only"),
                ),
            }
        }
        items
    }

    /// A table as a typed value; `None`, reported, where it does not fit.
    pub(crate) fn typed<T: DeserializeOwned>(
        &self,
        report: &mut Report<'_>,
        value: &Spanned<DeValue<'a>>,
    ) -> Option<T> {
        let whole = value.span();
        T::deserialize(ValueDeserializer::from(value.clone()))
            .map_err(|error| complain(report, self.file, self.text, &error, whole))
            .ok()
    }

    /// The whole file as a typed value.
    pub(crate) fn whole<T: DeserializeOwned>(&self, report: &mut Report<'_>) -> Option<T> {
        let root = DeValue::Table(self.root.get_ref().clone());
        self.typed(report, &Spanned::new(self.root.span(), root))
    }

    /// The place of a value, by the keys that lead to it; the whole file where it is not.
    pub(crate) fn at(&self, path: &[&str]) -> Place<'a> {
        let range = path.split_first().and_then(|(first, rest)| {
            let mut value = self.root.get_ref().get(*first)?;
            for key in rest {
                value = value.get_ref().get(*key)?;
            }
            Some(value.span())
        });
        range.map_or(Place::file(self.file), |range| self.place(range))
    }

    /// A number and its range of bytes, by the keys that lead to it.
    pub(crate) fn number(&self, path: &[&str]) -> Option<(f64, Range<usize>)> {
        let (first, rest) = path.split_first()?;
        number_in(self.root.get_ref().get(*first)?, rest)
    }
}

/// A number inside a table, by the keys that lead to it, and its range of bytes.
pub(crate) fn number_in(
    value: &Spanned<DeValue<'_>>,
    path: &[&str],
) -> Option<(f64, Range<usize>)> {
    let mut value = value;
    for key in path {
        value = value.get_ref().get(*key)?;
    }
    let text = match value.get_ref() {
        DeValue::Float(number) => number.as_str(),
        DeValue::Integer(number) => number.as_str(),
        _ => return None,
    };
    Some((text.replace('_', "").parse().ok()?, value.span()))
}

/// Reports what the TOML reader says.
fn complain(
    report: &mut Report<'_>,
    file: &str,
    text: &str,
    error: &toml::de::Error,
    whole: Range<usize>,
) {
    let message = error.message().replace('`', "\"");
    let help = if message.starts_with("missing field") {
        "add it under this heading"
    } else if message.starts_with("unknown field") {
        "remove it or correct its name"
    } else {
        "texts stand between quotes, numbers do not; the head of the file says what belongs where"
    };
    let place = Place::bytes(file, text, error.span().unwrap_or(whole));
    report.add(place, message, help);
}
