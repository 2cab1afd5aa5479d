//! A kind of measure: its units, how much of it is taken, and how it is read.

use std::ops::Range;

use super::{FEET, FEET_OF_HEAD, METRES};
use crate::parse::error::{Fault, ParseError};
use crate::parse::quantity::{at_quantity, quantity};
use crate::parse::scan::Scan;

/// Parts of one that a typed number is kept to; enough for a hair of a mile and a second of a day.
const PARTS: u32 = 1_000_000;

/// How one unit is spelled, and what so many of it are.
pub(super) type Spelled<T> = (&'static [&'static str], fn(f64) -> T);

/// What a kind of value is called, in what it may be typed, and how much of it is taken.
pub(super) struct Kind<T: 'static> {
    pub(super) what: &'static str,
    pub(super) usual: &'static str,
    pub(super) units: &'static [Spelled<T>],
    /// Of a number without a unit, where that is plain enough.
    pub(super) bare: Option<fn(f64) -> T>,
    /// Whether two may follow each other, as feet and inches do.
    pub(super) joined: Option<fn(T, T) -> T>,
    pub(super) least: T,
    pub(super) most: T,
    /// From where to where, in words.
    pub(super) range: &'static str,
}

impl<T: Copy + PartialOrd> Kind<T> {
    /// Reads a value of this kind.
    pub(super) fn read(&self, text: &str) -> Result<T, ParseError> {
        self.whole(text).map_err(|fault| {
            fault.dress(text, self.what, self.usual, |text| self.whole(text).is_ok())
        })
    }

    fn whole(&self, text: &str) -> Result<T, Fault> {
        let mut input = Scan::new(text)?;
        let mut sum = self.one(&mut input)?;
        input.skip_space();
        if let Some(join) = self.joined
            && at_quantity(&input)
        {
            sum = join(sum, self.one(&mut input)?);
            input.skip_space();
        }
        if input.peek().is_some() {
            return Err(input.unexpected());
        }
        if sum < self.least || sum > self.most {
            return Err(Fault::new(input.trimmed(), "more than is met with")
                .beyond()
                .tell(self.range));
        }
        Ok(sum)
    }

    /// A unit of several words, where one stands there; else the unit that was read.
    fn longer(&self, input: &mut Scan, unit: &Range<usize>) -> Range<usize> {
        let mut most = unit.end;
        for name in self.units.iter().flat_map(|(names, _)| names.iter()) {
            let end = unit.start + name.chars().count();
            let whole = input.text_at(&(unit.start..end));
            let whole = whole.is_some_and(|text| text.to_lowercase() == *name);
            let next = input.text_at(&(end..end + 1)).unwrap_or_default();
            if whole && end > most && !next.starts_with(char::is_alphanumeric) {
                most = end;
            }
        }
        if most > unit.end {
            input.back_to(most);
        }
        unit.start..most
    }

    /// A number and its unit.
    fn one(&self, input: &mut Scan) -> Result<T, Fault> {
        input.skip_space();
        if !at_quantity(input) {
            return Err(match input.peek() {
                None if input.trimmed().is_empty() => Fault::new(input.here(), "nothing was typed"),
                Some(',') => input.unexpected(),
                _ => Fault::new(
                    input.here(),
                    format!("a {} starts with a number", self.what),
                ),
            });
        }
        let number = quantity(input)?;
        input.skip_space();
        let unit = input.run(|c| c.is_alphabetic() || "/'\"′″’”°²³".contains(c));
        // A cubic metre or a square inch may be written with its digit.
        let unit = match input.peek() {
            Some('2' | '3') if input.peek_by(1).is_none_or(|c| c == '/') && !unit.is_empty() => {
                input.bump();
                unit.start..input.run(|c| c.is_alphabetic() || c == '/').end
            }
            _ => unit,
        };
        let unit = self.longer(input, &unit);
        let word = input.slice(&unit).to_lowercase();
        let made = if word.is_empty() {
            self.bare
        } else {
            let named =
                |(names, _): &&Spelled<T>| names.iter().any(|name| name.to_lowercase() == word);
            self.units.iter().find(named).map(|&(_, made)| made)
        };
        let Some(made) = made else {
            return Err(if word.is_empty() {
                let typed = input.slice(&(input.trimmed().start..number.span.end));
                let rewrites = self
                    .units
                    .iter()
                    .map(|(names, _)| format!("{typed}{}", names[0]));
                Fault::new(
                    number.span.end..number.span.end,
                    "say the unit: the number alone could be any",
                )
                .rewrites(rewrites.collect())
            } else {
                let head = self.units.iter().any(|(names, _)| names == &FEET_OF_HEAD);
                let length = FEET.contains(&word.as_str()) || METRES.contains(&word.as_str());
                let fault = Fault::new(unit, format!("not a unit of a {}", self.what));
                if head && length {
                    let typed = input.slice(&(input.trimmed().start..number.span.end));
                    let of = if FEET.contains(&word.as_str()) {
                        "ft"
                    } else {
                        "m"
                    };
                    fault.tell(format!("{typed}{of}-head, where it is a head of water"))
                } else {
                    fault
                }
            });
        };
        #[allow(
            clippy::cast_precision_loss,
            reason = "limits lie far below 2^53 parts"
        )]
        let value = number
            .counts(PARTS)
            .map(|counts| counts as f64 / f64::from(PARTS));
        value.map(made).ok_or_else(|| {
            Fault::new(number.span.clone(), "more than is met with")
                .beyond()
                .tell(self.range)
        })
    }
}
