//! One character of a line at a time.

/// What stands at a place of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Glyph {
    /// A letter, in upper case.
    Letter(u8),
    /// A digit.
    Digit(u8),
    /// A mark for one character that could not be read, or at the edge of a word for any number; a lone full stop may also be
    /// what it looks like.
    Gap,
    /// A mark for any number of characters.
    Hole,
    /// Anything else.
    Other(u8),
    /// Behind the last.
    End,
}

impl Glyph {
    /// The letter or digit.
    pub(super) const fn alphanumeric(self) -> Option<u8> {
        match self {
            Self::Letter(c) | Self::Digit(c) => Some(c),
            _ => None,
        }
    }

    /// Whether something could not be read here.
    pub(super) const fn is_lost(self) -> bool {
        matches!(self, Self::Gap | Self::Hole)
    }
}

const fn is_mark(byte: u8) -> bool {
    matches!(byte, b'.' | b'?' | b'_' | b'*')
}

/// What stands at a place, and how many bytes it takes.
pub(super) fn glyph(line: &[u8], at: usize) -> (Glyph, usize) {
    let rest = line.get(at..).unwrap_or(&[]);
    match rest {
        [] => (Glyph::End, 0),
        [c, ..] if c.is_ascii_alphabetic() => (Glyph::Letter(c.to_ascii_uppercase()), 1),
        [c, ..] if c.is_ascii_digit() => (Glyph::Digit(*c), 1),
        [c, ..] if is_mark(*c) => {
            let marks = rest.iter().take_while(|c| is_mark(**c)).count();
            (if marks > 1 { Glyph::Hole } else { Glyph::Gap }, marks)
        }
        // An ellipsis, and the quotes that phones write for inches.
        [0xe2, 0x80, 0xa6, ..] => (Glyph::Hole, 3),
        [0xe2, 0x80, 0x9c | 0x9d | 0xb3, ..] => (Glyph::Other(b'"'), 3),
        [c, ..] => (Glyph::Other(*c), 1),
    }
}

/// The same sign for letters and digits that are taken for each other; what looks like a digit is one.
#[must_use]
pub const fn folded(c: u8) -> u8 {
    match c.to_ascii_uppercase() {
        b'O' => b'0',
        b'I' | b'L' => b'1',
        b'Z' => b'2',
        b'S' => b'5',
        b'G' => b'6',
        b'B' => b'8',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_character_is_one_thing() {
        let line = "aZ7.5..?…” -".as_bytes();
        let mut at = 0;
        let mut seen = Vec::new();
        loop {
            let (found, bytes) = glyph(line, at);
            if found == Glyph::End {
                break;
            }
            seen.push(found);
            at += bytes;
        }
        let want = [
            Glyph::Letter(b'A'),
            Glyph::Letter(b'Z'),
            Glyph::Digit(b'7'),
            Glyph::Gap,
            Glyph::Digit(b'5'),
            Glyph::Hole,
            Glyph::Hole,
            Glyph::Other(b'"'),
            Glyph::Other(b' '),
            Glyph::Other(b'-'),
        ];
        assert_eq!(seen, want);
        assert_eq!(glyph(line, 99), (Glyph::End, 0));
    }

    #[test]
    fn what_is_taken_for_each_other_is_the_same() {
        for pair in ["O0", "I1", "L1", "l1", "S5", "B8", "Z2", "G6"] {
            let [a, b] = [pair.as_bytes()[0], pair.as_bytes()[1]];
            assert_eq!(folded(a), folded(b), "{pair}");
        }
        assert_ne!(folded(b'C'), folded(b'G'));
    }
}
