//! What can be recognised in a line, one after the other.

use core::ops::Range;

use super::class::{PrintedClass, Scale};
use super::glyph::{Glyph, folded, glyph};
use super::number::{Number, number};
use super::search::{Best, Search};
use super::thing::{Contents, Thing, Unit};
use super::values;
use super::word::{Edge, past_separators};
use crate::image::{Grade, Image, Set};

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
    search: Search<'i, 'l>,
    at: usize,
}

/// What can be recognised in a line, from its beginning to its end.
#[must_use]
pub const fn parts<'i, 'l>(image: &'i Image<'i>, line: &'l [u8]) -> Parts<'i, 'l> {
    Parts {
        search: Search {
            image,
            line,
            steps: 0,
        },
        at: 0,
    }
}

impl Parts<'_, '_> {
    /// How many characters of words were compared so far.
    #[must_use]
    pub const fn steps(&self) -> u32 {
        self.search.steps
    }

    fn glyph(&self, at: usize) -> Glyph {
        glyph(self.search.line, at).0
    }

    /// Whether a word or a number may begin at a place: not amid letters, nor amid digits.
    fn starts(&self, at: usize) -> bool {
        let before = at.checked_sub(1).and_then(|at| self.search.line.get(at));
        match (before, self.glyph(at)) {
            (Some(c), Glyph::Letter(_)) => !c.is_ascii_alphabetic(),
            (Some(c), Glyph::Digit(_)) => !c.is_ascii_digit(),
            (_, Glyph::Letter(_) | Glyph::Digit(_)) => true,
            // Words may be signs.
            (_, Glyph::Other(c)) => c == b'"',
            _ => false,
        }
    }

    /// A number that the tables have, behind a word that ends at a place: with letters that are taken for digits, or else
    /// without.
    fn valid(
        &self,
        word_end: usize,
        says: impl Fn(Number) -> Option<Said>,
    ) -> Option<(Said, usize)> {
        let at = past_separators(self.search.line, word_end);
        // A mark right behind the word is the word's.
        if at != word_end && Edge::before(self.search.line, at) == Edge::Gap {
            return None;
        }
        [true, false].into_iter().find_map(|letters| {
            let found = number(self.search.line, at, letters)?;
            says(found).map(|said| (said, found.end))
        })
    }

    /// A word and, where it needs one, the number behind it.
    fn word(&mut self, at: usize) -> Option<Part> {
        let alone = self.search.best(at, |thing| !thing.has_number(), true);
        let before = self.search.best(at, Thing::is_before_number, false);
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
            (_, Some((said, best))) => Some(Self::part(at, said, &best)),
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
        Self::part(at, found, best)
    }

    fn part(from: usize, (said, end): (Said, usize), best: &Best) -> Part {
        Part {
            said,
            bytes: from..end,
            whole: best.fit.lost == 0 && best.fit.swapped == 0 && !best.fit.open,
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
            .and_then(|at| self.search.line.get(at..at + 2));
        if best.fit.cut && hole.is_some_and(|hole| !hole[0].is_ascii_alphanumeric()) {
            return None;
        }
        let (end, image) = (best.fit.end, self.search.image);
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
                let at = past_separators(self.search.line, end);
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
        let at = past_separators(self.search.line, end);
        match self.search.best(at, |thing| thing == wanted, false) {
            Some(unit) => (said, unit.fit.end),
            None => (said, end),
        }
    }

    /// The part and the year behind a standard: `C900-07`, `D2241-2015`, `S376.2`.
    fn past_edition(&self, end: usize) -> usize {
        let digits = |from: usize| {
            let rest = self.search.line.get(from..).unwrap_or(&[]);
            let digits = rest.iter().take(5).take_while(|c| c.is_ascii_digit());
            digits.count()
        };
        let part = digits(end + 1);
        let end = match self.search.line.get(end) {
            Some(b'.') if part == 1 => end + 2,
            _ => end,
        };
        match self.search.line.get(end) {
            Some(b'-' | b':') if matches!(digits(end + 1), 2 | 4) => end + 1 + digits(end + 1),
            _ => end,
        }
    }

    /// A number and the word behind it that says what it is.
    fn counted(&mut self, at: usize) -> Option<Part> {
        let line = self.search.line;
        if Edge::before(line, at) == Edge::Gap || is_part(line, at) {
            return None;
        }
        let with_letters = number(self.search.line, at, true)?;
        // Where letters are part of the number its end may lie elsewhere.
        let digits = number(self.search.line, at, false);
        let other = digits.filter(|digits| digits.end != with_letters.end);
        let numbers = [Some(with_letters), other];
        for found in numbers.into_iter().flatten().filter(|n| !n.open) {
            let next = past_separators(self.search.line, found.end);
            let wanted =
                |thing| matches!(thing, Thing::SizeAfter | Thing::PressureAfter | Thing::Base);
            let Some(best) = self.search.best(next, wanted, false) else {
                continue;
            };
            let (unit, image) = (Unit::from_code(best.value), self.search.image);
            let (said, end) = match best.thing {
                Thing::SizeAfter => (values::size(image, found, unit?), best.fit.end),
                Thing::PressureAfter => (values::pressure(image, found, unit?), best.fit.end),
                // `8 CIOD`: the base is a part of its own. A damaged one bears nothing out.
                _ if best.fit.lost == 0 && digits == Some(found) => {
                    (values::size(image, found, Unit::Inch), found.end)
                }
                _ => continue,
            };
            if let Some(said) = said {
                return Some(Self::part(at, (said, end), &best));
            }
        }
        None
    }
}

/// Whether a number is what is left of a larger one: behind a letter that may be a digit, the lower part of a fraction, or a
/// fraction whose whole inches could not be read.
fn is_part(line: &[u8], at: usize) -> bool {
    let Some((&before, rest)) = line.get(..at).and_then(<[u8]>::split_last) else {
        return false;
    };
    match before {
        c if c.is_ascii_alphabetic() => folded(c).is_ascii_digit(),
        b'/' => rest
            .last()
            .is_some_and(|c| c.is_ascii_digit() || !c.is_ascii_alphanumeric() && *c != b' '),
        b' ' | b'-' => Edge::before(line, at - 1) == Edge::Gap && line.get(at + 1) == Some(&b'/'),
        _ => false,
    }
}

impl Iterator for Parts<'_, '_> {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        while self.at < self.search.line.len() {
            let at = self.at;
            if self.starts(at)
                && let Some(part) = self.word(at).or_else(|| self.counted(at))
            {
                // Every part is longer than nothing, so that the walk ends.
                self.at = part.bytes.end.max(at + 1);
                return Some(part);
            }
            self.at += glyph(self.search.line, at).1.max(1);
        }
        None
    }
}
