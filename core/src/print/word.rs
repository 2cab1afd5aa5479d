//! Whether a word stands at a place of a line, whole or damaged.

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
    /// It is all there, but what stands right behind it could not be read, so that it may be a longer one.
    pub(super) open: bool,
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

/// How a word may stand in a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Way {
    /// It means something only beside a number, which bears it out.
    pub(super) with_number: bool,
    /// The number comes behind it.
    pub(super) then_number: bool,
    /// A letter or a digit stands right before it.
    pub(super) joined: bool,
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
        let short = self.fit.hits <= 2 && !way.with_number;
        match (last, next) {
            (Some(last), Glyph::Letter(c)) if last.is_ascii_alphabetic() => {
                way.then_number && folded(c).is_ascii_digit()
            }
            (Some(last), Glyph::Digit(_)) if last.is_ascii_digit() => false,
            (Some(last), next) if short && last.is_ascii_alphanumeric() => {
                next.alphanumeric().is_none() && !next.is_lost()
            }
            _ => true,
        }
    }

    /// Whether enough of it was read.
    fn holds(&self, way: Way) -> bool {
        let Fit {
            hits,
            swapped,
            lost,
            ..
        } = self.fit;
        let count = characters(self.pattern);
        let most = match count {
            0 | 1 => 0,
            2 => u8::from(way.with_number),
            3 => 1,
            more => more / 2,
        };
        let clean = count > 2 || way.with_number || !way.joined;
        clean
            && swapped <= most
            && (swapped == 0 || self.solid)
            && (lost == 0 || hits >= 2 && lost + swapped <= count / 2)
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
    walk.fit.open = !walk.fit.cut && !ended && glyph(line, walk.at).0.is_lost();
    (walk.holds(way) && walk.ends(way)).then_some(Fit {
        end: walk.at,
        ..walk.fit
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(pattern: &str) -> Way {
        let number = matches!(pattern, "DR" | "SCH" | "PC" | "CL");
        Way {
            with_number: number,
            then_number: number,
            joined: false,
        }
    }

    /// How much of a line a word takes, and what is lost and swapped.
    fn found(pattern: &str, line: &str) -> Option<(usize, u8, u8)> {
        let line = line.as_bytes();
        let fit = fit(pattern.as_bytes(), 0, (line, 0), way(pattern), &mut 0)?;
        Some((fit.end, fit.lost, fit.swapped))
    }

    #[test]
    fn a_word_may_be_written_in_many_ways() {
        for (pattern, line, end) in [
            ("DR", "dr18", 2),
            ("DR", "D R 18", 3),
            ("DR", "D.R.18", 4),
            ("CIOD", "C.I.O.D. ", 8),
            ("DI", "D.I. ", 4),
            ("C900", "C-900,", 5),
            ("C900", "C 900-16", 5),
            ("PVC1120", "PVC 1120", 8),
            ("A21 51", "A21.51/", 6),
            ("NOT FOR PRESSURE", "not for-pressure", 16),
            ("PVC", "PVC1120", 3),
        ] {
            assert_eq!(found(pattern, line), Some((end, 0, 0)), "{pattern} {line}");
        }
        for (pattern, line) in [
            ("PVC", "PVCO"),
            ("IPS", "I PS"),
            ("GAS", "GASKET"),
            ("C900", "C9001"),
            ("DI", "DI07"),
            ("DI", "DI.."),
            ("DR", "DRAIN"),
            ("D2241", "D 22 41"),
        ] {
            assert_eq!(found(pattern, line), None, "{pattern} {line}");
        }
    }

    #[test]
    fn a_word_may_be_damaged_but_not_beyond_half() {
        for (pattern, line, want) in [
            ("C900", "C9..", (4, 2, 0)),
            ("C900", "C9?", (3, 2, 0)),
            ("C900", "C?00", (4, 1, 0)),
            ("C900", "C..0", (4, 2, 0)),
            ("C900", "C9.. DR", (4, 2, 0)),
            ("C900", "C9OO", (4, 0, 2)),
            ("D2241", "D224…".trim_end(), (7, 1, 0)),
            ("PVC", "P.C", (3, 1, 0)),
            ("SCH", "5CH40", (3, 0, 1)),
            ("CL", "C1 200", (2, 0, 1)),
            ("DR", "DRl8", (2, 0, 0)),
        ] {
            assert_eq!(found(pattern, line), Some(want), "{pattern} {line}");
        }
        for (pattern, line) in [
            ("C900", "C.."),
            ("D2241", "D2.."),
            ("DI", "D1"),
            ("B88", "888"),
            ("IPS", "1P5"),
            ("DR", "D?"),
        ] {
            assert_eq!(found(pattern, line), None, "{pattern} {line}");
        }
        let line = b"900 ";
        let cut = fit(b"C900", 1, (line, 0), way(""), &mut 0).expect("three of four");
        assert_eq!((cut.end, cut.lost, cut.hits), (3, 1, 3));
    }
}
