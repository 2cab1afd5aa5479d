//! A cursor over the bytes of a line.

use crate::gauge::{Decimal, Trouble, Unit};

/// What is left of a line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scan<'a>(&'a [u8]);

impl<'a> Scan<'a> {
    #[inline]
    pub(super) const fn new(line: &'a [u8]) -> Self {
        Self(line)
    }

    /// Whether nothing is left.
    #[inline]
    pub(super) const fn done(self) -> bool {
        self.0.is_empty()
    }

    /// Takes bytes if they come next, letters in either case.
    #[inline]
    pub(super) fn eat(&mut self, wanted: &[u8]) -> bool {
        let found = self.0.get(..wanted.len());
        let same = found.is_some_and(|found| found.eq_ignore_ascii_case(wanted));
        if same {
            self.0 = self.0.get(wanted.len()..).unwrap_or_default();
        }
        same
    }

    /// Takes bytes that must come next.
    #[inline]
    pub(super) fn expect(&mut self, wanted: &[u8]) -> Result<(), Trouble> {
        if self.eat(wanted) {
            Ok(())
        } else {
            Err(Trouble::Form)
        }
    }

    /// Nothing may be left.
    #[inline]
    pub(super) fn end(self) -> Result<(), Trouble> {
        if self.done() {
            Ok(())
        } else {
            Err(Trouble::Form)
        }
    }

    /// Takes so many bytes.
    #[inline]
    pub(super) fn take(&mut self, count: usize) -> Result<Self, Trouble> {
        let (head, tail) = self.0.split_at_checked(count).ok_or(Trouble::Form)?;
        self.0 = tail;
        Ok(Self(head))
    }

    /// Takes bytes up to one of a kind, which stays.
    #[inline]
    pub(super) fn until(&mut self, stop: u8) -> Self {
        self.run(|byte| byte != stop)
    }

    /// Takes the bytes that are of a kind, as many as there are.
    #[inline]
    fn run(&mut self, kind: impl Fn(u8) -> bool) -> Self {
        let count = self.0.iter().take_while(|&&byte| kind(byte)).count();
        let (head, tail) = self.0.split_at_checked(count).unwrap_or_default();
        self.0 = tail;
        Self(head)
    }

    /// The same without blanks at either end.
    #[inline]
    pub(super) const fn trimmed(self) -> Self {
        Self(self.0.trim_ascii())
    }

    #[inline]
    pub(super) const fn length(self) -> usize {
        self.0.len()
    }

    /// Takes a digit.
    #[inline]
    pub(super) fn digit(&mut self) -> Result<u8, Trouble> {
        match self.take(1)?.0 {
            [digit @ b'0'..=b'9'] => Ok(digit & 0xf),
            _ => Err(Trouble::Form),
        }
    }

    /// Takes a whole number of one to three digits, such as a channel.
    #[inline]
    pub(super) fn label(&mut self) -> Result<(), Trouble> {
        match self.run(|byte| byte.is_ascii_digit()).length() {
            1..=3 => Ok(()),
            _ => Err(Trouble::Form),
        }
    }

    /// Takes a number: digits, one mark, digits.
    #[inline]
    pub(super) fn number(&mut self, minus: bool, mark: u8) -> Result<Decimal, Trouble> {
        let whole = self.run(|byte| byte.is_ascii_digit());
        if whole.done() {
            return Err(Trouble::Form);
        }
        if !self.eat(&[mark]) {
            return Err(Trouble::NoPoint);
        }
        let behind = self.run(|byte| byte.is_ascii_digit());
        if behind.done() {
            return Err(Trouble::Form);
        }
        let count = whole.length().saturating_add(behind.length());
        if count > usize::from(Decimal::MAX_DIGITS) {
            return Err(Trouble::Digits);
        }
        let digits = whole.0.iter().chain(behind.0).fold(0_i64, |number, byte| {
            number.wrapping_mul(10).wrapping_add(i64::from(byte & 0xf))
        });
        let places = u8::try_from(behind.length()).map_err(|_| Trouble::Digits)?;
        Decimal::new(if minus { -digits } else { digits }, places).ok_or(Trouble::Digits)
    }

    /// Takes a unit.
    #[inline]
    pub(super) fn unit(&mut self) -> Result<Unit, Trouble> {
        let word = self.run(|byte| !matches!(byte, b' ' | b','));
        let is = |unit: &[u8]| word.0.eq_ignore_ascii_case(unit);
        if is(b"mm") {
            Ok(Unit::Millimetre)
        } else if is(b"in") || is(b"inch") {
            Ok(Unit::Inch)
        } else {
            Err(Trouble::Unit)
        }
    }
}
