//! The print sections of the image: the words of print lines, and what they mean in the tables.

pub(super) mod check;
mod record;

pub use record::{Marking, PrintSettings, PrintWord};

use super::{Image, Set, Text};
use crate::print::PrintedClass;

/// The tables of the print sections.
#[derive(Clone, Copy, Debug)]
pub(super) struct Print<'a> {
    settings: PrintSettings,
    standards: &'a [[u8; Marking::SIZE]],
    codes: &'a [[u8; Marking::SIZE]],
    words: &'a [[u8; PrintWord::SIZE]],
    /// By label.
    printed: &'a [[u8; 2]],
}

impl<'a> Image<'a> {
    /// The constants of print lines.
    #[must_use]
    pub const fn print_settings(&self) -> &PrintSettings {
        &self.print.settings
    }

    /// Standards, in the order of their indices.
    pub fn standards(&self) -> impl ExactSizeIterator<Item = Marking> + 'a {
        self.print.standards.iter().map(Marking::from_bytes)
    }

    /// A standard.
    #[must_use]
    #[inline]
    pub fn standard(&self, index: u8) -> Marking {
        super::lookup!(self.print.standards, Marking, index)
    }

    /// Material codes, in the order of their indices.
    pub fn codes(&self) -> impl ExactSizeIterator<Item = Marking> + 'a {
        self.print.codes.iter().map(Marking::from_bytes)
    }

    /// A material code.
    #[must_use]
    #[inline]
    pub fn code(&self, index: u8) -> Marking {
        super::lookup!(self.print.codes, Marking, index)
    }

    /// What a standard or a material code is called.
    #[must_use]
    pub fn marking(&self, marking: Marking) -> &'a str {
        self.short_text(marking.name, marking.length)
    }

    /// The pipe variants that are marked so.
    #[must_use]
    #[inline]
    pub fn marked(&self, marking: Marking) -> Set {
        self.set(marking.variants)
    }

    /// Words of print lines, by their first characters.
    pub fn print_words(&self) -> impl ExactSizeIterator<Item = PrintWord> + 'a {
        self.print.words.iter().map(PrintWord::from_bytes)
    }

    /// The words whose first character counts as some sign.
    pub(crate) fn print_words_of(
        &self,
        sign: u8,
    ) -> impl ExactSizeIterator<Item = PrintWord> + use<'a> {
        let (words, text) = (self.print.words, self.text);
        let first = |bytes: &[u8; PrintWord::SIZE]| {
            let word = PrintWord::from_bytes(bytes);
            text.get(usize::from(word.word))
                .map_or(0, |c| crate::print::folded(*c))
        };
        let from = words.partition_point(|bytes| first(bytes) < sign);
        let to = words.partition_point(|bytes| first(bytes) <= sign);
        let found = words.get(from..to).unwrap_or(&[]);
        found.iter().map(PrintWord::from_bytes)
    }

    /// A word of print lines as it is written.
    #[must_use]
    pub fn print_word(&self, word: PrintWord) -> &'a str {
        self.short_text(word.word, word.length)
    }

    /// What a label is as a class in print.
    #[must_use]
    #[inline]
    pub fn printed(&self, label: u8) -> PrintedClass {
        let held = self.print.printed.get(usize::from(label));
        held.map_or(PrintedClass::NONE, |bytes| {
            PrintedClass(u16::from_le_bytes(*bytes))
        })
    }

    /// What labels are as classes in print.
    #[must_use]
    pub fn printed_classes(&self) -> impl ExactSizeIterator<Item = PrintedClass> + 'a {
        let all = self.print.printed.iter();
        all.map(|bytes| PrintedClass(u16::from_le_bytes(*bytes)))
    }

    /// The pressures that classes are printed with, psi; some more than once.
    pub fn pressures(&self) -> impl Iterator<Item = u16> + 'a {
        let listed = self.classes.iter().map(super::ListedClass::from_bytes);
        let psi = listed.map(|class| class.psi_and_grade & 0xfff);
        psi.filter(|psi| *psi > 0)
    }

    fn short_text(&self, offset: u16, length: u8) -> &'a str {
        let length = u16::from(length);
        self.text(Text { offset, length })
    }
}
