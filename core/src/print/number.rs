//! Numbers as they are printed: whole ones, decimals, fractions of an inch.

use super::glyph::{Glyph, folded, glyph};

/// The most digits before the point: what is longer is a date or a serial number.
const DIGITS: usize = 4;

/// A number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Number {
    /// In parts of 6400, which a sixty-fourth and a hundredth both go into.
    value: u32,
    /// Where the line goes on.
    pub(super) end: usize,
    /// What comes right behind it could not be read, so that there may be more of it.
    pub(super) open: bool,
}

impl Number {
    /// As a whole number of parts; `None` where it is none.
    fn parts(self, of_one: u32) -> Option<u32> {
        let size = 6400 / of_one;
        self.value.is_multiple_of(size).then_some(self.value / size)
    }

    /// In tenths.
    pub(super) fn tenths(self) -> Option<u32> {
        self.parts(10)
    }

    /// In sixty-fourths.
    pub(super) fn sixty_fourths(self) -> Option<u32> {
        self.parts(64)
    }

    /// As a whole number.
    pub(super) fn whole(self) -> Option<u32> {
        self.parts(1)
    }
}

/// Digits from a place on: their number, how many they are, how many of them are no letters, and where the line goes on.
struct Digits {
    value: u32,
    count: usize,
    real: usize,
    end: usize,
}

/// A letter counts as the digit that it is taken for when nothing but such letters stand before the next digit or the end of
/// the word: `23S` and `DR l8`, but not the unit of `6IN`.
fn is_digit_here(line: &[u8], at: usize) -> bool {
    for ahead in at..=at + DIGITS {
        match glyph(line, ahead).0 {
            Glyph::Letter(c) if folded(c).is_ascii_digit() => {}
            Glyph::Letter(_) => return false,
            _ => return true,
        }
    }
    false
}

/// `None` for more than a few.
fn digits(line: &[u8], at: usize, letters: bool) -> Option<Digits> {
    let mut found = Digits {
        value: 0,
        count: 0,
        real: 0,
        end: at,
    };
    loop {
        let digit = match glyph(line, found.end).0 {
            Glyph::Digit(c) => {
                found.real += 1;
                c
            }
            Glyph::Letter(c)
                if letters && folded(c).is_ascii_digit() && is_digit_here(line, found.end) =>
            {
                folded(c)
            }
            _ => break,
        };
        if found.count == DIGITS {
            return None;
        }
        found.value = found.value * 10 + u32::from(digit - b'0');
        found.count += 1;
        found.end += 1;
    }
    // A word of nothing but letters is a word, unless it is one.
    (found.real > 0 || found.count == 1).then_some(found)
}

/// A proper fraction of an inch, in parts of 6400, and where the line goes on.
fn fraction(line: &[u8], at: usize, letters: bool) -> Option<(u32, usize)> {
    let top = digits(line, at, letters)?;
    if line.get(top.end) != Some(&b'/') {
        return None;
    }
    let below = digits(line, top.end + 1, letters)?;
    let proper = below.value.is_power_of_two() && below.value <= 64 && top.value < below.value;
    (proper && top.value > 0).then(|| (top.value * (6400 / below.value), below.end))
}

/// The number at a place of a line; `letters` that are taken for digits count as such.
pub(super) fn number(line: &[u8], at: usize, letters: bool) -> Option<Number> {
    let closed = |value: u32, end: usize| {
        let next = glyph(line, end).0;
        (value > 0 && !matches!(next, Glyph::Digit(_))).then_some(Number {
            value,
            end,
            open: next.is_lost(),
        })
    };
    if let Some((value, end)) = fraction(line, at, letters) {
        return closed(value, end);
    }
    let whole = digits(line, at, letters)?;
    let value = whole.value * 6400;
    let stop = line.get(whole.end) == Some(&b'.');
    if stop && let Some(places) = digits(line, whole.end + 1, letters) {
        // Three places are a diameter or a wall, not a size or a class.
        return match places.count {
            1 => closed(value + places.value * 640, places.end),
            2 => closed(value + places.value * 64, places.end),
            _ => None,
        };
    }
    if matches!(line.get(whole.end), Some(b' ' | b'-'))
        && let Some((more, end)) = fraction(line, whole.end + 1, letters)
    {
        return closed(value + more, end);
    }
    closed(value, whole.end)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Option<(u32, usize, bool)> {
        number(line.as_bytes(), 0, true).map(|n| (n.value, n.end, n.open))
    }

    #[test]
    fn numbers_are_read_as_they_are_printed() {
        for (line, value, end) in [
            ("18", 18 * 6400, 2),
            ("13.5 ", 13 * 6400 + 3200, 4),
            ("1-1/2", 9600, 5),
            ("1 1/2 IN", 9600, 5),
            ("3/4\"", 4800, 3),
            ("1.25", 8000, 4),
            ("6IN", 6 * 6400, 1),
            ("200PSI", 200 * 6400, 3),
            ("23S", 235 * 6400, 3),
            ("l8", 18 * 6400, 2),
            ("4O ", 40 * 6400, 2),
            ("6/8-10", 4800, 3),
            ("6/10", 6 * 6400, 1),
        ] {
            assert_eq!(read(line), Some((value, end, false)), "{line}");
        }
        assert_eq!(read("18.."), Some((18 * 6400, 2, true)));
        assert_eq!(read("2?"), Some((2 * 6400, 1, true)));
    }

    #[test]
    fn other_things_are_no_numbers() {
        for line in [
            "", "IN", "SOIL", "0", "20070412", "6.625", "6.900", "..18", "x",
        ] {
            assert_eq!(read(line), None, "{line}");
        }
        let tenths = number(b"13.5", 0, true).and_then(Number::tenths);
        assert_eq!(tenths, Some(135));
        let half = number(b"1/2", 0, true).expect("a fraction");
        assert_eq!((half.sixty_fourths(), half.whole()), (Some(32), None));
    }
}
