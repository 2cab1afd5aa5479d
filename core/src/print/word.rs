//! Whether a word stands at a place of a line, whole or damaged.

#[cfg(test)]
mod tests;

use super::glyph::{Glyph, folded, glyph};

/// The most separators that may stand between two pieces of a word, or a word and its number.
const SEPARATORS: usize = 3;

/// A word that was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fit {
    /// Where the line goes on.
    pub(super) end: usize,
    /// Characters that are as they should be.
    pub(super) hits: u8,
    /// Characters that were taken for others.
    pub(super) swapped: u8,
    /// Characters that could not be read.
    pub(super) lost: u8,
    /// The end could not be read, nor how much of it there was.
    pub(super) cut: bool,
    /// It is all there, but what stands right before or behind it could not be read, so that it may be a longer one.
    pub(super) open: bool,
    /// So much of it was read that it may be it. What was read of others only casts doubt.
    pub(super) enough: bool,
}

impl Fit {
    /// The larger the better a word fits: first by what is as it should be, then by what is missing.
    pub(super) const fn rank(self) -> (u8, bool, u8) {
        (self.hits, !self.is_unsure(), u8::MAX - self.swapped)
    }

    /// Whether it may as well be another word.
    pub(super) const fn is_unsure(self) -> bool {
        self.lost > 0 || self.open
    }
}

/// Where the number is that a word needs to mean anything; it bears the word out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Needs {
    /// None is needed.
    Nothing,
    /// Before the word.
    Before,
    /// Behind it.
    Behind,
}

/// What stands right before a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Edge {
    /// Nothing, or what parts words.
    Clean,
    /// A letter or a digit.
    Joined,
    /// The full stop of an abbreviation, or of letters that stand apart.
    Stop,
    /// Something that could not be read.
    Gap,
}

impl Edge {
    /// What stands before a place.
    pub(super) fn before(line: &[u8], at: usize) -> Self {
        let before = |back: usize| at.checked_sub(back).and_then(|at| line.get(at));
        match before(1) {
            Some(c) if c.is_ascii_alphanumeric() => Self::Joined,
            Some(b'.') if before(2).is_some_and(u8::is_ascii_alphabetic) => Self::Stop,
            // The last byte of an ellipsis ends no other character that matters.
            Some(b'.' | b'?' | b'_' | b'*' | 0xa6) => Self::Gap,
            _ => Self::Clean,
        }
    }
}

/// How a word may stand in a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Way {
    pub(super) needs: Needs,
    pub(super) edge: Edge,
}

/// Passes over a few separators: spaces, hyphens, strokes and such. A full stop is one too.
pub(super) fn past_separators(line: &[u8], mut at: usize) -> usize {
    for _ in 0..SEPARATORS {
        at = match glyph(line, at) {
            (Glyph::Other(b' ' | b'\t' | b'-' | b'/' | b':' | b'=' | b'#'), bytes) => at + bytes,
            (Glyph::Gap, bytes) if line.get(at) == Some(&b'.') => at + bytes,
            _ => break,
        };
    }
    at
}

fn characters(pattern: &[u8]) -> u8 {
    let count = pattern.iter().filter(|c| !matches!(c, b' ' | b'-')).count();
    u8::try_from(count).unwrap_or(u8::MAX)
}

/// Whether a word may be parted before one of its characters: where letters meet digits, or when every letter stands alone.
fn may_part(pattern: &[u8], p: usize, line: &[u8], at: usize, after: usize) -> bool {
    let is_digit = |c: Option<&u8>| c.is_some_and(u8::is_ascii_digit);
    let before = p.checked_sub(1).and_then(|p| pattern.get(p));
    if is_digit(before) != is_digit(pattern.get(p)) {
        return true;
    }
    let alone = match at.checked_sub(2) {
        Some(two) => !line.get(two).is_some_and(u8::is_ascii_alphanumeric),
        None => true,
    };
    alone && !is_digit(before) && !line.get(after + 1).is_some_and(u8::is_ascii_alphabetic)
}

/// A word while it is followed along a line.
struct Walk<'a> {
    pattern: &'a [u8],
    line: &'a [u8],
    /// The place in the pattern.
    p: usize,
    /// The place in the line.
    at: usize,
    fit: Fit,
    /// A letter that is taken for no digit was as it should be.
    solid: bool,
    /// Its letters are parted by full stops.
    stops: bool,
}

impl Walk<'_> {
    /// Takes the next character of the pattern, where it stands here.
    fn takes(&mut self, found: Glyph, bytes: usize, want: u8) -> bool {
        match found.alphanumeric() {
            Some(c) if c == want => {
                self.fit.hits += 1;
                self.solid |= c.is_ascii_alphabetic() && folded(c) == c;
            }
            Some(c) if folded(c) == folded(want) => self.fit.swapped += 1,
            None if found == Glyph::Other(want) => self.fit.hits += 1,
            _ => return false,
        }
        self.p += 1;
        self.at += bytes;
        true
    }

    /// Goes on behind a mark for something that could not be read.
    fn lose(&mut self, mark: Glyph, bytes: usize, want: u8, steps: &mut u32) {
        let after = self.at + bytes;
        let next = glyph(self.line, after).0.alphanumeric();
        let as_wanted = next.is_some_and(|c| folded(c) == folded(want));
        let stop = mark == Glyph::Gap && self.line.get(self.at) == Some(&b'.');
        let parts = || may_part(self.pattern, self.p, self.line, self.at, after);
        if stop && as_wanted && parts() {
            self.at = after;
            self.stops = true;
        } else if next.is_some() && mark == Glyph::Gap {
            self.fit.lost += 1;
            self.p += 1;
            self.at = after;
        } else {
            let rest = self.pattern.get(self.p..).unwrap_or(&[]);
            let tail = |from: &usize| {
                let tail = rest.get(*from..).unwrap_or(&[]);
                let here = self.line.get(after..).unwrap_or(&[]);
                *steps += 1;
                here.len() >= tail.len()
                    && here
                        .iter()
                        .zip(tail)
                        .all(|(c, want)| c.eq_ignore_ascii_case(want))
            };
            let found = if next.is_some() {
                (0..rest.len()).find(tail)
            } else {
                None
            };
            let (gone, kept) = rest.split_at(found.unwrap_or(rest.len()));
            self.fit.lost += characters(gone);
            self.fit.hits += characters(kept);
            self.fit.cut = kept.is_empty();
            self.at = after + kept.len();
            self.p = self.pattern.len();
        }
    }

    /// Whether the word ends where the line goes on.
    fn ends(&self, way: Way) -> bool {
        if self.fit.cut {
            return true;
        }
        let last = self.at.checked_sub(1).and_then(|at| self.line.get(at));
        let next = glyph(self.line, self.at).0;
        let short = characters(self.pattern) <= 2 && way.needs == Needs::Nothing;
        match (last, next) {
            (Some(last), Glyph::Letter(c)) if last.is_ascii_alphabetic() => {
                way.needs == Needs::Behind && folded(c).is_ascii_digit()
            }
            (Some(last), Glyph::Digit(_)) if last.is_ascii_digit() => false,
            (Some(last), next) if short && last.is_ascii_alphanumeric() => {
                next.alphanumeric().is_none()
            }
            _ => true,
        }
    }

    /// Whether enough of it was read to say that it is there.
    fn is_enough(&self, way: Way) -> bool {
        let Fit {
            hits,
            swapped,
            lost,
            open,
            ..
        } = self.fit;
        let count = characters(self.pattern);
        match lost {
            // Two letters are a word only where they stand alone.
            0 => count > 2 || way.needs != Needs::Nothing || !open,
            // A few digits may be the end of anything.
            _ if way.edge == Edge::Gap => {
                hits >= if self.solid { 3 } else { 4 } && lost + swapped <= count / 2
            }
            _ => hits >= 2 && lost + swapped <= count / 2,
        }
    }

    /// Whether what was read may be it.
    fn holds(&self, way: Way, skip: usize) -> bool {
        let Fit { swapped, lost, .. } = self.fit;
        let count = characters(self.pattern);
        let most = match count {
            0 | 1 => 0,
            2 => u8::from(way.needs != Needs::Nothing),
            3 => 1,
            more => more / 2,
        };
        let clean = count > 2 || way.needs != Needs::Nothing || way.edge != Edge::Joined;
        let before = characters(self.pattern.get(..skip).unwrap_or(&[]));
        clean
            && swapped <= most
            && (swapped == 0 || self.solid)
            // What is damaged at both ends may be anything, and so may what is left of letters that stand apart.
            && (!matches!(way.edge, Edge::Gap | Edge::Stop) || lost == before)
    }
}

/// How a word stands at a place of a line; `skip` bytes of its beginning could not be read. `steps` counts what is compared.
pub(super) fn fit(
    pattern: &[u8],
    skip: usize,
    (line, at): (&[u8], usize),
    way: Way,
    steps: &mut u32,
) -> Option<Fit> {
    let mut walk = Walk {
        pattern,
        line,
        p: skip,
        at,
        fit: Fit {
            end: at,
            hits: 0,
            swapped: 0,
            lost: characters(pattern.get(..skip)?),
            cut: false,
            open: false,
            enough: false,
        },
        solid: false,
        stops: false,
    };
    while let Some(want) = pattern.get(walk.p) {
        *steps += 1;
        let (found, bytes) = glyph(line, walk.at);
        if matches!(want, b' ' | b'-') {
            walk.at = past_separators(line, walk.at);
            walk.p += 1;
            continue;
        }
        if walk.takes(found, bytes, want.to_ascii_uppercase()) {
            continue;
        }
        if walk.p == skip {
            return None;
        }
        if found.is_lost() {
            walk.lose(found, bytes, *want, steps);
            continue;
        }
        let after = past_separators(line, walk.at);
        let next = glyph(line, after).0.alphanumeric();
        let goes_on = next.is_some_and(|c| folded(c) == folded(*want));
        if after == walk.at || !goes_on || !may_part(pattern, walk.p, line, walk.at, after) {
            return None;
        }
        walk.at = after;
    }
    // The last stop of `C.I.O.D.` belongs to it.
    if walk.stops && line.get(walk.at) == Some(&b'.') && glyph(line, walk.at).1 == 1 {
        walk.at += 1;
    }
    let ended = line.get(walk.at.wrapping_sub(1)) == Some(&b'.');
    let marked = !ended && glyph(line, walk.at).0.is_lost();
    walk.fit.open = !walk.fit.cut && (marked || way.edge == Edge::Gap);
    walk.fit.enough = walk.is_enough(way);
    (walk.holds(way, skip) && walk.ends(way)).then_some(Fit {
        end: walk.at,
        ..walk.fit
    })
}
