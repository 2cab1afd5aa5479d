//! A number with its fraction, as read off a tape: `6.904`, `29/32`, `6 29/32`,
//! `6-29/32`, `6½`.

use std::ops::Range;

use super::error::Fault;
use super::scan::{Number, Scan};
use super::tokens::{is_hyphen, is_stroke, ready_made};

/// The divisions a tape or rule is marked in.
const TAPE: [u32; 6] = [2, 4, 8, 16, 32, 64];

/// A fraction below one, with a bottom from [`TAPE`].
#[derive(Clone, Copy, Debug)]
struct Fraction {
    top: u32,
    bottom: u32,
}

/// What stands before a unit: a number, a fraction, or a whole number and one.
#[derive(Clone, Debug)]
pub(super) struct Quantity {
    /// Where it stands.
    pub(super) span: Range<usize>,
    number: Option<Number>,
    fraction: Option<Fraction>,
}

impl Quantity {
    /// Whether it has a fraction in it.
    pub(super) fn has_fraction(&self) -> bool {
        self.fraction.is_some()
    }

    /// Whether it is a plain whole number.
    pub(super) fn is_whole(&self) -> bool {
        self.fraction.is_none() && self.number.as_ref().is_some_and(|n| !n.pointed)
    }

    /// The whole part, or `None` if it has too many digits to matter.
    pub(super) fn whole(&self) -> Option<u32> {
        self.number.as_ref().map_or(Some(0), |n| n.whole)
    }

    /// This many of a unit of `size` counts, rounded once, half up (it is never
    /// negative); `None` if far too large.
    pub(super) fn counts(&self, size: u32) -> Option<i64> {
        // Only one of the two terms can be other than whole: decimals and a
        // fraction are never taken together.
        let plain = self
            .number
            .as_ref()
            .map_or(Some(0), |number| number.rounded(size))?;
        let part = self.fraction.map_or(0, |f| {
            let (top, bottom) = (i64::from(f.top), i64::from(f.bottom));
            (2 * top * i64::from(size) + bottom) / (2 * bottom)
        });
        plain.checked_add(part)
    }
}

/// Whether a quantity could start at the next character.
pub(super) fn at_quantity(input: &Scan) -> bool {
    input.at_number() || input.peek().is_some_and(|c| ready_made(c).is_some())
}

/// Reads a quantity. The caller has seen [`at_quantity`].
pub(super) fn quantity(input: &mut Scan) -> Result<Quantity, Fault> {
    let start = input.at();
    if let Some(fraction) = ready_made_next(input)? {
        return Ok(done(input, start, None, Some(fraction)));
    }
    let number = input.number()?;
    let after = input.at();
    let spaced = input.skip_space();
    match input.peek() {
        Some(c) if is_stroke(c) => {
            let fraction = fraction_from(input, &number, true)?;
            Ok(done(input, start, None, Some(fraction)))
        }
        Some(c) if ready_made(c).is_some() => {
            refuse_decimals(&number)?;
            let fraction = ready_made_next(input)?;
            Ok(done(input, start, Some(number), fraction))
        }
        Some(c) if is_hyphen(c) => {
            let hyphen = input.here();
            let loose = || {
                Fault::new(
                    hyphen.clone(),
                    "a hyphen stands only between a whole number and its fraction",
                )
            };
            input.bump();
            if spaced || !at_quantity(input) {
                return Err(loose());
            }
            let fraction = second(input, &number)?.ok_or_else(loose)?;
            Ok(done(input, start, Some(number), Some(fraction)))
        }
        Some(_) if input.at_number() => {
            let place = input.at();
            let fraction = second(input, &number)?.ok_or_else(|| {
                Fault::new(
                    place..input.at(),
                    "a second number with no fraction stroke or unit to join it",
                )
            })?;
            Ok(done(input, start, Some(number), Some(fraction)))
        }
        _ => {
            input.back_to(after);
            Ok(done(input, start, Some(number), None))
        }
    }
}

fn done(
    input: &Scan,
    start: usize,
    number: Option<Number>,
    fraction: Option<Fraction>,
) -> Quantity {
    Quantity {
        span: start..input.at(),
        number,
        fraction,
    }
}

/// The fraction after a whole number, or `None` if what follows is no fraction.
fn second(input: &mut Scan, whole: &Number) -> Result<Option<Fraction>, Fault> {
    if let Some(fraction) = ready_made_next(input)? {
        refuse_decimals(whole)?;
        return Ok(Some(fraction));
    }
    let top = input.number()?;
    let after = input.at();
    input.skip_space();
    if !input.peek().is_some_and(is_stroke) {
        input.back_to(after);
        return Ok(None);
    }
    refuse_decimals(whole)?;
    fraction_from(input, &top, false).map(Some)
}

fn refuse_decimals(number: &Number) -> Result<(), Fault> {
    if number.pointed {
        return Err(Fault::new(
            number.span.clone(),
            "decimals and a fraction cannot be used together",
        ));
    }
    Ok(())
}

fn ready_made_next(input: &mut Scan) -> Result<Option<Fraction>, Fault> {
    let Some((top, bottom)) = input.peek().and_then(ready_made) else {
        return Ok(None);
    };
    if !TAPE.contains(&bottom) {
        return Err(not_on_a_tape(input.here()));
    }
    input.bump();
    Ok(Some(Fraction { top, bottom }))
}

fn not_on_a_tape(span: Range<usize>) -> Fault {
    Fault::new(span, "tapes are not marked in this division")
        .tell("halves, 4ths, 8ths, 16ths, 32nds or 64ths, or decimals as in 6.5in")
}

/// Reads the stroke and the bottom of a fraction whose top is `top`.
fn fraction_from(input: &mut Scan, top: &Number, alone: bool) -> Result<Fraction, Fault> {
    if top.pointed {
        return Err(Fault::new(
            top.span.clone(),
            "a fraction takes whole numbers only",
        ));
    }
    input.bump();
    input.skip_space();
    if !input.at_number() {
        return Err(Fault::new(
            input.here(),
            "the number below the line is missing",
        ));
    }
    let below = input.number()?;
    if below.pointed {
        return Err(Fault::new(
            below.span,
            "a fraction takes whole numbers only",
        ));
    }
    let bottom = match below.whole {
        Some(0) => {
            return Err(Fault::new(
                below.span,
                "a fraction cannot have 0 below the line",
            ));
        }
        Some(bottom) if TAPE.contains(&bottom) => bottom,
        _ => return Err(not_on_a_tape(below.span)),
    };
    match top.whole {
        Some(top) if top < bottom => Ok(Fraction { top, bottom }),
        _ => Err(top_heavy(input, top, bottom, alone)),
    }
}

/// Refuses 629/32: it is far more often 6 29/32 with the space lost than the
/// nineteen inches it amounts to.
fn top_heavy(input: &Scan, top: &Number, bottom: u32, alone: bool) -> Fault {
    let fault = Fault::new(
        top.span.clone(),
        "the top of a fraction must be less than the bottom",
    );
    let (true, Some(value)) = (alone, top.whole) else {
        return fault;
    };
    let digits = input.slice(&top.span);
    let mut rewrites: Vec<String> = (1..digits.len())
        .map(|cut| digits.split_at(cut))
        .filter(|(_, part)| !part.starts_with('0'))
        .map(|(whole, part)| format!("{whole} {part}"))
        .collect();
    if !value.is_multiple_of(bottom) {
        rewrites.push(format!("{} {}", value / bottom, value % bottom));
    }
    rewrites.dedup();
    fault.rewrites(
        rewrites
            .iter()
            .map(|by| input.replaced(&top.span, by))
            .collect(),
    )
}
