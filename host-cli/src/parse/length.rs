//! Lengths: what a tape, a rule or a caliper gave.

use std::cmp::max;
use std::ops::Range;

use super::clock;
use super::error::{Fault, ParseError, name_of};
use super::quantity::{Quantity, at_quantity, quantity};
use super::scan::Scan;
use super::tokens::{Typed, is_hyphen, ready_made, unit};
use super::{COUNTS_PER_FOOT, COUNTS_PER_INCH, Unit};
use crate::format;

/// Examples for the `try:` line.
const USUAL: &str = "6 1/2in, 6.5in or 165mm";

/// The shortest and longest length taken, both included, in counts of 10 nm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Limits {
    /// The shortest length taken. Below one count is the same as one count: a
    /// pipe has a size.
    pub(crate) min: i64,
    /// The longest length taken.
    pub(crate) max: i64,
}

impl Limits {
    /// For a reading across the pipe: more than 0, up to 72 in.
    pub(crate) const DIAMETER: Self = Self {
        min: 1,
        max: 72 * COUNTS_PER_INCH as i64,
    };
    /// For a reading round the pipe: more than 0, up to 240 in.
    pub(crate) const AROUND: Self = Self {
        min: 1,
        max: 240 * COUNTS_PER_INCH as i64,
    };
}

/// Reads a length as counts of 10 nm, rounded once, half away from zero.
///
/// A number with no unit is in `bare`. After feet a number with no unit is in
/// inches, whatever `bare` is.
///
/// # Errors
///
/// Anything that is not a length or lies outside `limits`, with the place of
/// the fault.
pub(crate) fn length(text: &str, bare: Unit, limits: Limits) -> Result<i64, ParseError> {
    read(text, bare, limits)
        .map_err(|f| f.dress(text, "length", USUAL, |t| read(t, bare, limits).is_ok()))
}

/// Reads a length that may have a clock position, as in `6.90in@3`: the counts
/// as [`length`] gives them, and the half hours as [`clock`](super::clock())
/// gives them if there is an `@`. The last `@` divides the two.
///
/// # Errors
///
/// As for the two parts; the place of the fault is in the whole text.
pub(crate) fn length_at_clock(
    text: &str,
    bare: Unit,
    limits: Limits,
) -> Result<(i64, Option<u8>), ParseError> {
    let what = "length at a clock position";
    let dress_length = |f: Fault| f.dress(text, "length", USUAL, |t| read(t, bare, limits).is_ok());
    let input = Scan::new(text).map_err(dress_length)?;
    let Some((mut before, mut after)) = input.split_last('@') else {
        return length(text, bare, limits).map(|counts| (counts, None));
    };
    let counts = whole_length(&mut before, bare, limits)
        .map_err(|f| f.dress(text, what, USUAL, |t| read(t, bare, limits).is_ok()))?;
    let half_hours = clock::position(&mut after)
        .map_err(|f| f.dress(text, what, clock::USUAL, |t| super::clock(t).is_ok()))?;
    Ok((counts, Some(half_hours)))
}

fn read(text: &str, bare: Unit, limits: Limits) -> Result<i64, Fault> {
    whole_length(&mut Scan::new(text)?, bare, limits)
}

/// Reads the whole of a scan as a length within the limits.
fn whole_length(input: &mut Scan, bare: Unit, limits: Limits) -> Result<i64, Fault> {
    let reading = reading(input, bare)?;
    let min = max(limits.min, 1);
    let span = input.trimmed();
    match reading.counts {
        Some(counts) if (min..=limits.max).contains(&counts) => Ok(counts),
        Some(0) => Err(Fault::new(span, "it must be more than 0").beyond()),
        Some(counts) if counts < min => Err(range_fault(
            span,
            "too small",
            &reading,
            limits,
            &input.slice(&input.trimmed()),
        )),
        _ => Err(range_fault(
            span,
            "too large",
            &reading,
            limits,
            &input.slice(&input.trimmed()),
        )),
    }
}

/// A length as read, before it is held against any limit.
struct Reading {
    /// `None` if it is past any use.
    counts: Option<i64>,
    /// Whether it was typed in a metric unit.
    metric: bool,
    /// Whether it was typed with no unit.
    bare: bool,
}

fn range_fault(
    span: Range<usize>,
    message: &str,
    reading: &Reading,
    limits: Limits,
    typed: &str,
) -> Fault {
    let (unit, other) = if reading.metric {
        (Unit::Millimetre, "in")
    } else {
        (Unit::Inch, "mm")
    };
    if reading.bare {
        let taken = if reading.metric {
            "millimetres"
        } else {
            "inches"
        };
        // Most often the size is right and the unit is not the one meant.
        return Fault::new(span, format!("{message}, taken as {taken}"))
            .beyond()
            .rewrites(vec![format!("{typed}{other}")]);
    }
    let low = if limits.min <= 1 {
        "more than 0".to_owned()
    } else {
        format!("from {}", format::short(limits.min, unit))
    };
    let high = format::short(limits.max, unit);
    Fault::new(span, message)
        .beyond()
        .tell(format!("{low}, up to {high}"))
}

fn reading(input: &mut Scan, bare: Unit) -> Result<Reading, Fault> {
    input.skip_space();
    if !at_quantity(input) {
        return Err(no_number(input));
    }
    let first = quantity(input)?;
    let typed = unit(input)?;
    let reading = match typed {
        Some(Typed::Foot) => match inches_after_feet(input, &first)? {
            Some(inches) => Reading {
                counts: add(
                    first.counts(COUNTS_PER_FOOT),
                    inches.counts(COUNTS_PER_INCH),
                ),
                metric: false,
                bare: false,
            },
            None => single(input, &first, Typed::Foot, false)?,
        },
        Some(unit) => single(input, &first, unit, false)?,
        None => {
            let unit = match bare {
                Unit::Inch => Typed::Inch,
                Unit::Millimetre => Typed::Millimetre,
            };
            single(input, &first, unit, true)?
        }
    };
    expect_end(input, typed.is_some())?;
    Ok(reading)
}

fn add(a: Option<i64>, b: Option<i64>) -> Option<i64> {
    a?.checked_add(b?)
}

fn single(input: &Scan, first: &Quantity, unit: Typed, bare: bool) -> Result<Reading, Fault> {
    if unit.is_metric() && first.has_fraction() {
        return Err(if bare {
            let inches = input.slice(&first.span);
            Fault::new(
                first.span.clone(),
                "a bare number is millimetres here, and those take no fraction",
            )
            .rewrites(vec![format!("{inches}in")])
        } else {
            Fault::new(
                first.span.clone(),
                "metric lengths take decimals, not a fraction",
            )
        });
    }
    Ok(Reading {
        counts: first.counts(unit.counts()),
        metric: unit.is_metric(),
        bare,
    })
}

/// The inches that follow feet, if there are any.
fn inches_after_feet(input: &mut Scan, feet: &Quantity) -> Result<Option<Quantity>, Fault> {
    let after = input.at();
    input.skip_space();
    // Drawings write 1'-9"; here the hyphen only keeps the two apart.
    let hyphen = input.here();
    let hyphened = input.peek().is_some_and(is_hyphen);
    if hyphened {
        input.bump();
        input.skip_space();
    }
    if !at_quantity(input) {
        if hyphened {
            return Err(Fault::new(hyphen, "inches should follow this"));
        }
        input.back_to(after);
        return Ok(None);
    }
    let inches = quantity(input)?;
    let before_unit = input.at();
    match unit(input)? {
        None | Some(Typed::Inch) => {}
        Some(_) => {
            input.back_to(before_unit);
            input.skip_space();
            let start = input.at();
            // The unit was read once already, so it is there to be read again.
            unit(input)?;
            return Err(Fault::new(start..input.at(), "only inches can follow feet"));
        }
    }
    if !feet.is_whole() {
        return Err(Fault::new(
            feet.span.clone(),
            "feet must be a whole number when inches follow",
        )
        .tell("1ft 9 11/16in, or all in one unit as in 21.7in"));
    }
    if inches.whole().is_none_or(|whole| whole >= 12) {
        return Err(Fault::new(
            inches.span,
            "inches after feet must be less than 12",
        ));
    }
    Ok(Some(inches))
}

/// The fault where a length should have started and no number did.
fn no_number(input: &mut Scan) -> Fault {
    let start = input.at();
    match input.peek() {
        None => Fault::new(start..start, "the length is missing"),
        Some(',') => input.unexpected(),
        Some(c) if is_hyphen(c) || c == '+' => {
            let fault = Fault::new(input.here(), "a length has no sign before it");
            fault.rewrites(vec![input.replaced(&input.here(), "")])
        }
        Some(_) => {
            let word = input.run(|c| c.is_ascii_alphabetic());
            input.back_to(start);
            let span = if word.is_empty() { input.here() } else { word };
            match unit(input) {
                Ok(Some(_)) => {
                    Fault::new(start..input.at(), "the number before the unit is missing")
                }
                _ => Fault::new(span, "a length starts with a number in digits"),
            }
        }
    }
}

/// Refuses anything left over.
fn expect_end(input: &mut Scan, has_unit: bool) -> Result<(), Fault> {
    let read = input.at();
    input.skip_space();
    let start = input.at();
    let Some(c) = input.peek() else {
        return Ok(());
    };
    if has_unit && (input.at_number() || ready_made(c).is_some()) {
        input.run(|_| true);
        return Err(Fault::new(
            start..input.trimmed().end,
            "nothing may follow the unit; a fraction goes before it",
        ));
    }
    if has_unit && let Ok(Some(_)) = unit(input) {
        let end = input.at();
        let kept = input.replaced(&(read..end), "");
        return Err(Fault::new(start..end, "a second unit").rewrites(vec![kept]));
    }
    input.back_to(start);
    if c == '/' {
        return Err(Fault::new(input.here(), "a second fraction stroke"));
    }
    if c == ',' {
        return Err(input.unexpected());
    }
    let word = input.run(|c| c.is_ascii_alphabetic());
    input.back_to(start);
    let span = if word.is_empty() { input.here() } else { word };
    Err(Fault::new(
        span,
        format!("{} does not belong here", name_of(c)),
    ))
}

#[cfg(test)]
mod tests;
