//! The print sections of the image.

use springline_core::image::layout::section;
use springline_core::image::{Marking, PrintSettings, PrintWord};

use super::{Parts, Texts};

/// The print lines of an image, texts still apart.
#[derive(Clone, Debug, Default)]
pub struct DraftPrint {
    /// The constants.
    pub settings: PrintSettings,
    /// Each standard with the set of its variants.
    pub standards: Vec<(String, u8)>,
    /// Each material code with the set of its variants.
    pub codes: Vec<(String, u8)>,
    /// Each word with what it is about and its grade, and what it says; in any order.
    pub words: Vec<(String, u8, u8)>,
    /// What each label is as a class in print.
    pub printed: Vec<u16>,
}

impl DraftPrint {
    /// Writes the sections.
    pub(super) fn encode(&self, texts: &mut Texts, parts: &mut Parts) {
        let mut markings = |all: &[(String, u8)]| -> Vec<_> {
            let one = |(name, variants): &(String, u8)| {
                let (name, length) = texts.put_short(name);
                let variants = *variants;
                Marking {
                    name,
                    length,
                    variants,
                }
                .to_bytes()
            };
            all.iter().map(one).collect()
        };
        let (standards, codes) = (markings(&self.standards), markings(&self.codes));
        let mut words: Vec<_> = self.words.iter().collect();
        let sign = |word: &str| {
            word.bytes()
                .next()
                .map_or(0, springline_core::print::folded)
        };
        words.sort_by_key(|(word, ..)| sign(word));
        let words: Vec<_> = words
            .into_iter()
            .map(|(text, thing_and_grade, value)| {
                let (word, length) = texts.put_any_case(text);
                PrintWord {
                    word,
                    length,
                    thing_and_grade: *thing_and_grade,
                    value: *value,
                }
                .to_bytes()
            })
            .collect();
        let printed: Vec<_> = self
            .printed
            .iter()
            .map(|class| class.to_le_bytes())
            .collect();
        parts.add(section::PRINT, &[self.settings.to_bytes()]);
        parts.add(section::STANDARDS, &standards);
        parts.add(section::CODES, &codes);
        parts.add(section::PRINT_WORDS, &words);
        parts.add(section::PRINTED, &printed);
    }
}
