//! Short texts made of the image's words.
//!
//! Needs, reasons and names say the same few hundred words over and over, so that a phrase is a run of word numbers, a byte
//! for the most frequent and two for the others: two fifths of the room, and a narrow panel breaks lines between words anyway.
//! Where a word lies is not kept: those of one length lie together.

use core::fmt;

use super::record::WordRun;

/// Word numbers below this take one byte.
pub const SHORT_WORDS: u16 = 252;
/// The most words that two bytes can tell apart beside them.
pub const MAX_WORDS: usize = SHORT_WORDS as usize + 4 * 256;

/// Words that follow the one before them without a space.
pub const MARKS: [char; 4] = [',', ';', ':', '.'];

/// Whether a word is one of [`MARKS`].
#[must_use]
pub fn is_mark(word: &str) -> bool {
    word.len() == 1 && word.starts_with(MARKS)
}

/// A short text; empty where there is nothing to say.
#[derive(Clone, Copy)]
pub struct Phrase<'a> {
    pub(super) codes: &'a [u8],
    pub(super) runs: &'a [[u8; WordRun::SIZE]],
    pub(super) text: &'a [u8],
}

impl<'a> Phrase<'a> {
    /// Whether there is nothing to say.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.codes.is_empty()
    }

    /// The words, without the spaces between them. [`MARKS`] are words too.
    pub fn words(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let Self { runs, text, codes } = *self;
        numbers(codes).map(move |number| word(runs, text, number))
    }
}

/// The word numbers of codes.
pub(super) fn numbers(codes: &[u8]) -> impl Iterator<Item = u16> {
    let mut bytes = codes.iter().copied().map(u16::from);
    core::iter::from_fn(move || {
        let first = bytes.next()?;
        match first.checked_sub(SHORT_WORDS) {
            None => Some(first),
            Some(high) => Some(SHORT_WORDS + high * 256 + bytes.next()?),
        }
    })
}

/// The code of a word number, for the compiler.
#[must_use]
pub fn code(number: u16) -> ([u8; 2], usize) {
    match number.checked_sub(SHORT_WORDS) {
        None => ([number.to_le_bytes()[0], 0], 1),
        Some(rest) => {
            let [low, high] = rest.to_le_bytes();
            ([high.wrapping_add(SHORT_WORDS.to_le_bytes()[0]), low], 2)
        }
    }
}

fn word<'a>(runs: &[[u8; WordRun::SIZE]], text: &'a [u8], number: u16) -> &'a str {
    let (mut left, mut from) = (usize::from(number), 0);
    for run in runs.iter().map(WordRun::from_bytes) {
        let (length, count) = (usize::from(run.length), usize::from(run.count));
        if left < count {
            from += left * length;
            let bytes = text.get(from..from + length).unwrap_or(&[]);
            return core::str::from_utf8(bytes).unwrap_or("");
        }
        left -= count;
        from += count * length;
    }
    ""
}

impl fmt::Display for Phrase<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, word) in self.words().enumerate() {
            if index > 0 && !is_mark(word) {
                f.write_str(" ")?;
            }
            f.write_str(word)?;
        }
        Ok(())
    }
}

impl fmt::Debug for Phrase<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.words()).finish()
    }
}

/// The same words.
impl PartialEq for Phrase<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.words().eq(other.words())
    }
}

impl Eq for Phrase<'_> {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_numbers_again() {
        let asked = [0, 1, 251, 252, 253, 507, 508, 1275];
        let codes: Vec<u8> = asked
            .iter()
            .flat_map(|number| {
                let (bytes, length) = code(*number);
                bytes.into_iter().take(length)
            })
            .collect();
        assert_eq!(codes.len(), 3 + 5 * 2);
        assert_eq!(usize::from(asked[7]) + 1, MAX_WORDS);
        assert!(numbers(&codes).eq(asked));
        // A code that is cut off is no word.
        assert!(numbers(&codes[..codes.len() - 1]).eq(asked[..7].iter().copied()));
    }

    #[test]
    fn words_are_read_with_spaces_between_them() {
        // Words of three letters, then of one, then of two.
        let runs = [[3, 2], [1, 3], [2, 1]];
        let text = b"cuttee,a...";
        let phrase = |codes| Phrase {
            codes,
            runs: &runs,
            text,
        };
        assert_eq!(phrase(&[3, 0, 2, 1, 9]).to_string(), "a cut, tee ");
        // A mark follows without a space; what only begins with one does not.
        assert_eq!(phrase(&[0, 4, 5, 4]).to_string(), "cut. ...");
        assert!(!phrase(&[0]).is_empty());
    }
}
