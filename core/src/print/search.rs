//! The image's words at a place of a line.

use super::glyph::{Glyph, folded, glyph};
use super::thing::Thing;
use super::word::{Edge, Fit, Needs, Way, fit};
use crate::image::{Grade, Image, PrintWord};

/// Looks for words in a line, and counts what that takes.
#[derive(Clone, Debug)]
pub(super) struct Search<'i, 'l> {
    pub(super) image: &'i Image<'i>,
    pub(super) line: &'l [u8],
    /// How many characters of words were compared so far.
    pub(super) steps: u32,
}

/// The word that fits best at a place, and the values of all that fit as well.
pub(super) struct Best {
    pub(super) fit: Fit,
    pub(super) thing: Thing,
    /// The values, a bit each.
    pub(super) values: u64,
    /// The value of the first of them.
    pub(super) value: u8,
    pub(super) grade: Grade,
}

impl Best {
    /// Takes in a word that fits as well: none is said where they are about different things.
    fn join(&mut self, word: PrintWord, thing: Thing) -> bool {
        let many = matches!(thing, Thing::Standard | Thing::Base | Thing::Material);
        self.values |= 1 << (word.value & 63);
        self.thing == thing && (many || self.value == word.value)
    }
}

impl Search<'_, '_> {
    /// Goes through the words that may stand at a place.
    fn each(&mut self, at: usize, mut take: impl FnMut(PrintWord, Thing, Fit)) {
        let sign = match glyph(self.line, at).0 {
            Glyph::Letter(c) | Glyph::Digit(c) | Glyph::Other(c) => folded(c),
            _ => return,
        };
        let (line, image, steps) = (self.line, self.image, &mut self.steps);
        let edge = Edge::before(line, at);
        let mut try_one = |word: PrintWord, skip: usize| {
            let thing = Thing::from_code(word.thing_and_grade & 15)?;
            let needs = match thing {
                Thing::SizeAfter | Thing::PressureAfter => Needs::Before,
                thing if thing.is_before_number() => Needs::Behind,
                _ => Needs::Nothing,
            };
            let way = Way { needs, edge };
            let pattern = image.print_word(word).as_bytes();
            let found = fit(pattern, skip, (line, at), way, steps)?;
            take(word, thing, found);
            Some(())
        };
        for word in image.print_words_of(sign) {
            try_one(word, 0);
        }
        if edge == Edge::Gap {
            // Something of a word may be missing before this.
            for word in image.print_words() {
                let most = usize::from(word.length) / 2;
                let _ = (1..=most).find_map(|skip| try_one(word, skip));
            }
        }
    }

    /// The word that fits best at a place, among those that are wanted. Where something could not be read, whatever fits as
    /// well counts too: its value beside the first, or nothing at all when it is about something else.
    pub(super) fn best(
        &mut self,
        at: usize,
        wanted: impl Fn(Thing) -> bool,
        all: bool,
    ) -> Option<Best> {
        let mut best: Option<Best> = None;
        self.each(at, |word, thing, fit| {
            let better = best
                .as_ref()
                .is_none_or(|held| fit.rank() > held.fit.rank());
            if wanted(thing) && fit.enough && better {
                best = Some(Best {
                    fit,
                    thing,
                    values: 1 << (word.value & 63),
                    value: word.value,
                    grade: Grade::from_code(word.thing_and_grade >> 4).unwrap_or(Grade::Memory),
                });
            }
        });
        let mut best = best?;
        let mut sound = true;
        if best.fit.is_unsure() || best.fit.swapped > 0 {
            self.each(at, |word, thing, fit| {
                let as_good = fit.rank() == best.fit.rank()
                    || fit.hits == best.fit.hits && best.fit.is_unsure();
                if as_good && (all || wanted(thing)) {
                    sound &= best.join(word, thing);
                }
            });
        }
        sound.then_some(best)
    }
}
