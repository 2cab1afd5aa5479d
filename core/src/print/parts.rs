//! What can be recognised in a line, one after the other.

use core::ops::Range;

use super::class::{PrintedClass, Scale};
use super::glyph::{Glyph, folded, glyph};
use super::number::{Number, number};
use super::thing::{Contents, Thing, Unit};
use super::values;
use super::word::{Fit, Way, fit, past_separators};
use crate::image::{Grade, Image, PrintWord, Set};

/// What a part of a line says. Where it fits several values, all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// One of these standards, indices into the image's.
    Standard(Set),
    /// One of these OD systems, a bit for each index.
    Base(u16),
    /// One of these material codes, a bit for each index.
    Material(u32),
    /// It carries one of these.
    Contents(Contents),
    /// One of these nominal sizes, indices: `DN200` is iron of that DN, or plastic of 200 mm.
    Size(u8, Option<u8>),
    /// A class.
    Class(PrintedClass),
    /// A pressure, psi.
    Pressure(u16),
    /// Nothing of the pipe: the name of who issues standards.
    Plain,
}

/// A part of a line that was recognised.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// What it says.
    pub said: Said,
    /// The bytes of the line that it was taken from.
    pub bytes: Range<usize>,
    /// Whether every character was there and as it should be.
    pub whole: bool,
    /// How far it can be trusted that the word means this.
    pub grade: Grade,
}

/// Walks over a line. See [`parts`].
#[derive(Clone, Debug)]
pub struct Parts<'i, 'l> {
    image: &'i Image<'i>,
    line: &'l [u8],
    at: usize,
    steps: u32,
}

/// What can be recognised in a line, from its beginning to its end.
#[must_use]
pub const fn parts<'i, 'l>(image: &'i Image<'i>, line: &'l [u8]) -> Parts<'i, 'l> {
    Parts {
        image,
        line,
        at: 0,
        steps: 0,
    }
}

/// The word that fits best at a place, and the values of all that fit as well.
struct Best {
    fit: Fit,
    thing: Thing,
    /// The values, a bit each.
    values: u64,
    /// The value of the first of them.
    value: u8,
    grade: Grade,
}

impl Best {
    /// Takes in a word that fits as well: none is said where they are about different things.
    fn join(&mut self, word: PrintWord, thing: Thing) -> bool {
        let many = matches!(thing, Thing::Standard | Thing::Base | Thing::Material);
        self.values |= 1 << (word.value & 63);
        self.thing == thing && (many || self.value == word.value)
    }
}

impl Parts<'_, '_> {
    /// How many characters of words were compared so far.
    #[must_use]
    pub const fn steps(&self) -> u32 {
        self.steps
    }

    fn glyph(&self, at: usize) -> Glyph {
        glyph(self.line, at).0
    }

    /// Whether a word or a number may begin at a place: not amid letters, nor amid digits.
    fn starts(&self, at: usize) -> bool {
        let before = at.checked_sub(1).and_then(|at| self.line.get(at));
        match (before, self.glyph(at)) {
            (Some(c), Glyph::Letter(_)) => !c.is_ascii_alphabetic(),
            (Some(c), Glyph::Digit(_)) => !c.is_ascii_digit(),
            (_, Glyph::Letter(_) | Glyph::Digit(_)) => true,
            // Words may be signs.
            (_, Glyph::Other(c)) => c == b'"',
            _ => false,
        }
    }

    /// What could not be read, or not alone, before a place.
    fn after_gap(&self, at: usize) -> bool {
        let before = at.checked_sub(1).and_then(|at| self.line.get(at));
        before.is_some_and(|c| matches!(c, b'.' | b'?' | b'_' | b'*' | 0xa6))
    }

    /// The word that fits best at a place, among those that are wanted; `None` too where two that fit alike say different
    /// things.
    fn best(&mut self, at: usize, wanted: impl Fn(Thing) -> bool) -> Option<Best> {
        let sign = match self.glyph(at) {
            Glyph::Letter(c) | Glyph::Digit(c) | Glyph::Other(c) => folded(c),
            _ => return None,
        };
        let before = at.checked_sub(1).and_then(|at| self.line.get(at));
        let joined = before.is_some_and(u8::is_ascii_alphanumeric);
        let found = self.among(self.image.print_words_of(sign), (at, joined), 0, &wanted);
        if found.is_some() || !self.after_gap(at) {
            return found;
        }
        // Something of a word may be missing before this.
        self.among(self.image.print_words(), (at, joined), usize::MAX, &wanted)
    }

    /// The best of some words, of which so many characters may be missing.
    fn among(
        &mut self,
        words: impl Iterator<Item = PrintWord>,
        (at, joined): (usize, bool),
        skips: usize,
        wanted: &impl Fn(Thing) -> bool,
    ) -> Option<Best> {
        let mut best: Option<Best> = None;
        let mut sound = true;
        for word in words {
            let Some(thing) = Thing::from_code(word.thing_and_grade & 15) else {
                continue;
            };
            if !wanted(thing) {
                continue;
            }
            let pattern = self.image.print_word(word).as_bytes();
            let way = Way {
                with_number: thing.has_number(),
                then_number: matches!(
                    thing,
                    Thing::SizeBefore | Thing::Class | Thing::PressureBefore
                ),
                joined,
            };
            let most = skips.min(pattern.len() / 2);
            let place = (self.line, at);
            let steps = &mut self.steps;
            let found =
                (skips.min(1)..=most).find_map(|skip| fit(pattern, skip, place, way, steps));
            let Some(found) = found else {
                continue;
            };
            match &mut best {
                Some(held) if held.fit.rank() > found.rank() => {}
                // What is damaged may be any that it fits.
                Some(held)
                    if held.fit.rank() == found.rank()
                        || held.fit.hits == found.hits
                            && held.fit.is_unsure()
                            && found.is_unsure() =>
                {
                    sound &= held.join(word, thing);
                }
                _ => {
                    sound = true;
                    best = Some(Best {
                        fit: found,
                        thing,
                        values: 1 << (word.value & 63),
                        value: word.value,
                        grade: Grade::from_code(word.thing_and_grade >> 4).unwrap_or(Grade::Memory),
                    });
                }
            }
        }
        best.filter(|_| sound)
    }

    /// A number that the tables have, behind a word that ends at a place: with letters that are taken for digits, or else
    /// without.
    fn valid(
        &self,
        word_end: usize,
        says: impl Fn(Number) -> Option<Said>,
    ) -> Option<(Said, usize)> {
        let at = past_separators(self.line, word_end);
        // A mark right behind the word is the word's.
        if at != word_end && self.after_gap(at) && !self.after_stop(at) {
            return None;
        }
        [true, false].into_iter().find_map(|letters| {
            let found = number(self.line, at, letters)?;
            says(found).map(|said| (said, found.end))
        })
    }

    /// Whether the mark before a place is the full stop of an abbreviation: `SCH. 40`, `C.I.O.D.`.
    fn after_stop(&self, at: usize) -> bool {
        let before = |back: usize| at.checked_sub(back).and_then(|at| self.line.get(at));
        before(1) == Some(&b'.') && before(2).is_some_and(u8::is_ascii_alphabetic)
    }

    /// A word and, where it needs one, the number behind it.
    fn word(&mut self, at: usize) -> Option<Part> {
        let alone = self.best(at, |thing| !thing.has_number());
        let before = |thing| {
            matches!(
                thing,
                Thing::SizeBefore | Thing::Class | Thing::PressureBefore
            )
        };
        let before = self.best(at, before);
        let numbered = before.and_then(|best| Some((self.behind(&best)?, best)));
        let taken = |found: &(Said, usize), best: &Best| {
            usize::from(best.fit.hits) + found.1.saturating_sub(best.fit.end)
        };
        // `CL51` is a class and not a spoilt `C151`: its number bears it out.
        match (alone, numbered) {
            (Some(alone), Some((said, best)))
                if usize::from(alone.fit.hits) >= taken(&said, &best) =>
            {
                Some(self.named(at, &alone))
            }
            (_, Some((said, best))) => Some(self.part(at, said, &best)),
            (Some(alone), None) => Some(self.named(at, &alone)),
            (None, None) => None,
        }
    }

    /// What a word says that needs no number.
    fn named(&self, at: usize, best: &Best) -> Part {
        let end = best.fit.end;
        let found = match best.thing {
            Thing::Standard => (Said::Standard(Set(best.values)), self.past_edition(end)),
            Thing::Base => (Said::Base((best.values & 0xffff) as u16), end),
            Thing::Material => (Said::Material((best.values & 0xffff_ffff) as u32), end),
            Thing::Contents => (Said::Contents(Contents(best.value)), end),
            _ => (Said::Plain, end),
        };
        self.part(at, found, best)
    }

    fn part(&self, from: usize, (said, end): (Said, usize), best: &Best) -> Part {
        Part {
            said,
            bytes: from..end,
            whole: best.fit.lost == 0 && best.fit.swapped == 0 && !self.after_gap(from),
            grade: best.grade,
        }
    }

    /// What the number or the letter behind a word says, and the unit behind that.
    fn behind(&mut self, best: &Best) -> Option<(Said, usize)> {
        // After a hole it may be anybody's number.
        let hole = best
            .fit
            .end
            .checked_sub(2)
            .and_then(|at| self.line.get(at..at + 2));
        if best.fit.cut && hole.is_some_and(|hole| !hole[0].is_ascii_alphanumeric()) {
            return None;
        }
        let (end, image) = (best.fit.end, self.image);
        match best.thing {
            Thing::SizeBefore => {
                let unit = Unit::from_code(best.value)?;
                let found = self.valid(end, |number| values::size(image, number, unit))?;
                Some(self.with_unit(found, Thing::SizeAfter))
            }
            Thing::PressureBefore => {
                let unit = Unit::from_code(best.value)?;
                let found = self.valid(end, |number| values::pressure(image, number, unit))?;
                Some(self.with_unit(found, Thing::PressureAfter))
            }
            _ if best.value == Scale::Weight as u8 => {
                Some((Said::Class(values::weight(image)?), end))
            }
            _ => {
                let scale = Scale::from_code(u16::from(best.value))?;
                let at = past_separators(self.line, end);
                if let (Glyph::Letter(c), false) = (
                    self.glyph(at),
                    self.glyph(at + 1).alphanumeric().is_some() || self.glyph(at + 1).is_lost(),
                ) && let Some(class) = values::letter(image, scale, c)
                {
                    return Some((Said::Class(class), at + 1));
                }
                let found = self.valid(end, |number| values::class(image, number, scale))?;
                match found.0 {
                    Said::Pressure(_) => Some(self.with_unit(found, Thing::PressureAfter)),
                    _ => Some(found),
                }
            }
        }
    }

    /// Takes a unit that only says again what a number is.
    fn with_unit(&mut self, (said, end): (Said, usize), wanted: Thing) -> (Said, usize) {
        let at = past_separators(self.line, end);
        match self.best(at, |thing| thing == wanted) {
            Some(unit) => (said, unit.fit.end),
            None => (said, end),
        }
    }

    /// The part and the year behind a standard: `C900-07`, `D2241-2015`, `S376.2`.
    fn past_edition(&self, end: usize) -> usize {
        let digits = |from: usize| {
            let rest = self.line.get(from..).unwrap_or(&[]);
            let digits = rest.iter().take(5).take_while(|c| c.is_ascii_digit());
            digits.count()
        };
        let part = digits(end + 1);
        let end = match self.line.get(end) {
            Some(b'.') if part == 1 => end + 2,
            _ => end,
        };
        match self.line.get(end) {
            Some(b'-' | b':') if matches!(digits(end + 1), 2 | 4) => end + 1 + digits(end + 1),
            _ => end,
        }
    }

    /// A number and the word behind it that says what it is.
    fn counted(&mut self, at: usize) -> Option<Part> {
        let image = self.image;
        let plain = number(self.line, at, true)?;
        if self.after_gap(at) {
            return None;
        }
        // Where letters are part of the number its end may lie elsewhere.
        let bare = number(self.line, at, false).filter(|bare| bare.end != plain.end);
        for found in [Some(plain), bare]
            .into_iter()
            .flatten()
            .filter(|n| !n.open)
        {
            let next = past_separators(self.line, found.end);
            let wanted =
                |thing| matches!(thing, Thing::SizeAfter | Thing::PressureAfter | Thing::Base);
            let Some(best) = self.best(next, wanted) else {
                continue;
            };
            let unit = Unit::from_code(best.value);
            let (said, end) = match best.thing {
                Thing::SizeAfter => (values::size(image, found, unit?), best.fit.end),
                Thing::PressureAfter => (values::pressure(image, found, unit?), best.fit.end),
                // `8 CIOD`: the base is a part of its own.
                _ => (values::size(image, found, Unit::Inch), found.end),
            };
            if let Some(said) = said {
                return Some(self.part(at, (said, end), &best));
            }
        }
        None
    }
}

impl Iterator for Parts<'_, '_> {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        while self.at < self.line.len() {
            let at = self.at;
            if self.starts(at)
                && let Some(part) = self.word(at).or_else(|| self.counted(at))
            {
                // Every part is longer than nothing, so that the walk ends.
                self.at = part.bytes.end.max(at + 1);
                return Some(part);
            }
            self.at += glyph(self.line, at).1.max(1);
        }
        None
    }
}
