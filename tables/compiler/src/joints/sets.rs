//! Sets as they are written: `*`, keys and names of sets with spaces between them, and what is taken out after a `-`.

use super::bits::Bits;
use super::reader::{Reader, split};
use crate::report::Cell;

/// The things that a set can hold, and the names of sets.
#[derive(Clone, Debug)]
pub(crate) struct Names {
    /// What one of them is called in messages.
    what: &'static str,
    pub(crate) keys: Vec<String>,
    sets: Vec<(String, Bits)>,
}

impl Names {
    /// Things by their keys.
    pub(super) fn new(what: &'static str, keys: Vec<String>) -> Self {
        Self {
            what,
            keys,
            sets: Vec::new(),
        }
    }

    /// Gives a set a name; whether the name was free.
    pub(super) fn name(&mut self, name: &str, set: Bits) -> bool {
        let free = self.find(name).is_none();
        if free {
            self.sets.push((name.to_owned(), set));
        }
        free
    }

    /// A thing or a set by its name.
    pub(super) fn find(&self, name: &str) -> Option<Bits> {
        if name == "*" {
            return Some(Bits::below(self.keys.len()));
        }
        let thing = self.keys.iter().position(|key| key == name);
        let set = || self.sets.iter().find(|(held, _)| held == name);
        thing.map(Bits::one).or_else(|| set().map(|(_, set)| *set))
    }

    /// The set that a cell describes; `None`, reported, where it is none.
    pub(crate) fn read(&self, reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Bits> {
        let mut set = Bits::default();
        let mut sound = true;
        for word in split(cell, ' ') {
            let (name, out) = match word.text.strip_prefix('-') {
                Some(name) => (name, true),
                None => (word.text.as_str(), false),
            };
            let Some(part) = self.find(name) else {
                sound = false;
                let what = format!("{} or set", self.what);
                let known = self
                    .keys
                    .iter()
                    .chain(self.sets.iter().map(|(name, _)| name));
                reader.unknown(&word, &what, known.map(String::as_str));
                continue;
            };
            // A word that changes nothing is a slip or a left-over: the set is not what it seems.
            if out && part.and(set) != part || !out && !part.and(set).is_empty() {
                sound = false;
                let where_ = if out {
                    "not all of it was"
                } else {
                    "some of it was"
                };
                reader.report.add(
                    word.place,
                    format!("\"{}\": {where_} in the set before", word.text),
                    "name each thing once, and take out only what was put in",
                );
            }
            set = if out {
                set.without(part)
            } else {
                set.with(part)
            };
        }
        if sound && set.is_empty() {
            sound = false;
            reader
                .report
                .add(cell.place, "an empty set", "name what is in it");
        }
        sound.then_some(set)
    }
}
