//! A bounded walk over the typed characters, and the plain numbers in them.

use std::cmp::Ordering;
use std::ops::Range;

use super::error::{Fault, name_of};

/// The most characters a value may have. Far above any honest reading, and low
/// enough that no typed text can cost time or memory.
pub(super) const MAX_CHARS: usize = 60;

/// Whole parts of more digits than this are beyond every limit, and staying
/// below it keeps every product far inside an `i64`.
const MAX_WHOLE_DIGITS: usize = 9;

/// The typed characters, and how far they have been read.
#[derive(Clone, Debug)]
pub(super) struct Scan {
    chars: Vec<char>,
    from: usize,
    at: usize,
    end: usize,
}

impl Scan {
    /// Takes the characters of `text`, refusing text that is too long.
    pub(super) fn new(text: &str) -> Result<Self, Fault> {
        // One more than is allowed is enough to know, however long the text.
        let chars: Vec<char> = text.chars().take(MAX_CHARS + 1).collect();
        if chars.len() > MAX_CHARS {
            return Err(Fault::new(
                MAX_CHARS..MAX_CHARS + 1,
                format!("too long: {MAX_CHARS} characters at most"),
            ));
        }
        let end = chars.len();
        Ok(Self {
            chars,
            from: 0,
            at: 0,
            end,
        })
    }

    /// The scans before and after the last `mark`; spans stay those of the whole.
    pub(super) fn split_last(&self, mark: char) -> Option<(Self, Self)> {
        let cut = self.chars.iter().rposition(|&c| c == mark)?;
        let mut before = self.clone();
        before.end = cut;
        let mut after = self.clone();
        after.from = cut + 1;
        after.at = cut + 1;
        Some((before, after))
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.peek_by(0)
    }

    pub(super) fn peek_by(&self, ahead: usize) -> Option<char> {
        self.chars[..self.end].get(self.at + ahead).copied()
    }

    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// The span of the next character, or the empty span at the end.
    pub(super) fn here(&self) -> Range<usize> {
        self.at..(self.at + 1).min(self.end)
    }

    pub(super) fn bump(&mut self) {
        self.at = (self.at + 1).min(self.end);
    }

    pub(super) fn back_to(&mut self, at: usize) {
        self.at = at;
    }

    /// Steps over spaces of any kind; says whether there were any.
    pub(super) fn skip_space(&mut self) -> bool {
        let before = self.at;
        self.run(char::is_whitespace);
        self.at > before
    }

    /// Steps over the characters that `wanted` takes, and gives their span.
    pub(super) fn run(&mut self, wanted: impl Fn(char) -> bool) -> Range<usize> {
        let start = self.at;
        while self.peek().is_some_and(&wanted) {
            self.bump();
        }
        start..self.at
    }

    /// The characters of a span.
    pub(super) fn slice(&self, span: &Range<usize>) -> String {
        self.chars[span.clone()].iter().collect()
    }

    /// The characters of a span that may reach beyond the end; `None` where it does.
    pub(super) fn text_at(&self, span: &Range<usize>) -> Option<String> {
        let chars = self.chars[..self.end].get(span.clone())?;
        Some(chars.iter().collect())
    }

    /// This scan's text, trimmed, with one span of it replaced.
    pub(super) fn replaced(&self, span: &Range<usize>, by: &str) -> String {
        let before = self.slice(&(self.from..span.start));
        let after = self.slice(&(span.end..self.end));
        format!("{before}{by}{after}").trim().to_owned()
    }

    /// The span of everything but the spaces around it.
    pub(super) fn trimmed(&self) -> Range<usize> {
        let text = &self.chars[self.from..self.end];
        let solid = |c: &char| !c.is_whitespace();
        match (text.iter().position(solid), text.iter().rposition(solid)) {
            (Some(first), Some(last)) => self.from + first..self.from + last + 1,
            _ => self.at..self.at,
        }
    }

    /// A fault at the next character, which nothing allows there.
    pub(super) fn unexpected(&self) -> Fault {
        match self.peek() {
            Some(',') => self.comma(),
            Some(c) => Fault::new(self.here(), format!("{} does not belong here", name_of(c))),
            None => Fault::new(self.here(), "something is missing here"),
        }
    }

    /// Refuses a comma: it is a decimal mark to some and a thousands mark to
    /// others, a thousandfold apart.
    fn comma(&self) -> Fault {
        let text = self.slice(&self.trimmed());
        let mut rewrites = Vec::new();
        if text.matches(',').count() == 1 {
            rewrites.push(text.replace(',', "."));
        }
        let groups_of_three = text.split(',').skip(1).all(|part| {
            part.chars()
                .take_while(char::is_ascii_digit)
                .take(4)
                .count()
                == 3
        });
        if groups_of_three {
            rewrites.push(text.replace(',', ""));
        }
        Fault::new(
            self.here(),
            "a comma could be a decimal point or a thousands mark",
        )
        .rewrites(rewrites)
    }

    /// Whether a plain number could start at the next character.
    pub(super) fn at_number(&self) -> bool {
        self.peek().is_some_and(|c| c.is_ascii_digit() || c == '.')
    }

    /// Reads digits with at most one decimal point. The caller has seen
    /// [`Self::at_number`].
    pub(super) fn number(&mut self) -> Result<Number, Fault> {
        let whole = self.run(|c| c.is_ascii_digit());
        let mut decimals = self.at..self.at;
        let pointed = self.peek() == Some('.');
        if pointed {
            self.bump();
            decimals = self.run(|c| c.is_ascii_digit());
            if self.peek() == Some('.') {
                return Err(Fault::new(self.here(), "a second decimal point"));
            }
            if decimals.is_empty() {
                return Err(Fault::new(
                    decimals.start - 1..decimals.start,
                    "a digit is missing after the point",
                ));
            }
        }
        if self.peek() == Some(',') {
            return Err(self.comma());
        }
        self.refuse_exponent()?;
        Ok(Number {
            span: whole.start..self.at,
            whole: small_whole(&self.slice(&whole)),
            decimals: self
                .slice(&decimals)
                .chars()
                .filter_map(|c| c.to_digit(10))
                .collect(),
            pointed,
        })
    }

    fn refuse_exponent(&self) -> Result<(), Fault> {
        if !matches!(self.peek(), Some('e' | 'E')) {
            return Ok(());
        }
        let signed = matches!(self.peek_by(1), Some('+' | '-'));
        let digit = self.peek_by(1 + usize::from(signed));
        if digit.is_some_and(|c| c.is_ascii_digit()) {
            return Err(Fault::new(
                self.here(),
                "powers of ten are not taken: write the number out",
            ));
        }
        Ok(())
    }
}

/// The value of a run of digits, or `None` if it is past any use.
fn small_whole(digits: &str) -> Option<u32> {
    let digits = digits.trim_start_matches('0');
    if digits.is_empty() {
        return Some(0);
    }
    if digits.len() > MAX_WHOLE_DIGITS {
        return None;
    }
    digits.parse().ok()
}

/// A number as typed, still exact.
#[derive(Clone, Debug)]
pub(super) struct Number {
    /// Where it stands.
    pub(super) span: Range<usize>,
    /// The whole part, or `None` if it has too many digits to matter.
    pub(super) whole: Option<u32>,
    /// Whether it has a decimal point.
    pub(super) pointed: bool,
    decimals: Vec<u32>,
}

impl Number {
    /// This number times `factor`: the whole part, and how the part left over
    /// compares with one half. Exact for any count of decimals.
    pub(super) fn times(&self, factor: u32) -> Option<(i64, Ordering)> {
        // Long multiplication from the right: what carries out at the left is
        // whole, and the digits written down are the decimals of the product.
        let mut carry = 0_u64;
        let mut lead = 0_u64;
        let mut more = false;
        for &digit in self.decimals.iter().rev() {
            more |= lead != 0;
            let product = u64::from(digit) * u64::from(factor) + carry;
            lead = product % 10;
            carry = product / 10;
        }
        let whole = u64::from(self.whole?) * u64::from(factor) + carry;
        let rest = lead.cmp(&5).then(more.cmp(&false));
        Some((i64::try_from(whole).ok()?, rest))
    }

    /// This number times `factor`, rounded half up (it is never negative).
    pub(super) fn rounded(&self, factor: u32) -> Option<i64> {
        let (whole, rest) = self.times(factor)?;
        Some(whole + i64::from(rest != Ordering::Less))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(text: &str) -> Number {
        Scan::new(text).unwrap().number().unwrap()
    }

    #[test]
    fn long_multiplication_agrees_with_wide_integers() {
        let mut state = 0x9e37_79b9_7f4a_7c15_u64;
        for _ in 0..50_000 {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            let whole = state % 1000;
            let places = u32::try_from(state >> 20 & 15).unwrap();
            let scale = 10_u128.pow(places + 1);
            let part = u128::from(state) % scale;
            let width = usize::try_from(places + 1).unwrap();
            let text = format!("{whole}.{part:0width$}");
            for factor in [1_u32, 100, 180, 100_000, 2_540_000, 30_480_000] {
                let exact = (u128::from(whole) * scale + part) * u128::from(factor);
                let want = (2 * exact + scale) / (2 * scale);
                let got = number(&text).rounded(factor).unwrap();
                assert_eq!(u128::try_from(got).unwrap(), want, "{text} x {factor}");
            }
        }
    }

    #[test]
    fn half_is_seen_exactly() {
        assert_eq!(number("0.5").times(1), Some((0, Ordering::Equal)));
        assert_eq!(number("0.5000").times(1), Some((0, Ordering::Equal)));
        assert_eq!(
            number("0.50000000000000000000000000000001").times(1),
            Some((0, Ordering::Greater))
        );
        assert_eq!(
            number("0.49999999999999999999999999999999").times(1),
            Some((0, Ordering::Less))
        );
        assert_eq!(number("7").times(3), Some((21, Ordering::Less)));
    }

    #[test]
    fn too_many_whole_digits_is_no_value() {
        assert_eq!(number("1000000000").rounded(1), None);
        assert_eq!(number("0000000000999999999").rounded(1), Some(999_999_999));
    }

    #[test]
    fn split_keeps_the_columns_of_the_whole() {
        let (a, b) = Scan::new("1@2@34").unwrap().split_last('@').unwrap();
        assert_eq!(a.slice(&a.trimmed()), "1@2");
        assert_eq!(b.trimmed(), 4..6);
        assert!(Scan::new("12").unwrap().split_last('@').is_none());
    }
}
