//! Clock positions: where round the pipe a reading was taken.

use super::error::{Fault, ParseError};
use super::scan::Scan;

/// Examples for the `try:` line.
pub(super) const USUAL: &str = "3, 7:30 or 10.5";

/// Reads a clock position, looking along the pipe, as half hours since twelve:
/// `12` is 0, `12:30` is 1, `3` is 6, `11:30` is 23.
///
/// Takes the hour (1 to 12) alone, with `:00` or `:30`, or with `.0` or `.5`.
///
/// # Errors
///
/// Anything else, with the place of the fault.
pub(crate) fn clock(text: &str) -> Result<u8, ParseError> {
    read(text).map_err(|f| f.dress(text, "clock position", USUAL, |t| read(t).is_ok()))
}

fn read(text: &str) -> Result<u8, Fault> {
    position(&mut Scan::new(text)?)
}

/// Reads a whole scan as a clock position.
pub(super) fn position(input: &mut Scan) -> Result<u8, Fault> {
    input.skip_space();
    let digits = input.run(|c| c.is_ascii_digit());
    if digits.is_empty() {
        return Err(match input.peek() {
            None => Fault::new(input.here(), "the clock position is missing"),
            Some(_) => Fault::new(
                input.here(),
                "a clock position starts with an hour from 1 to 12",
            ),
        });
    }
    let Ok(hour @ 1..=12) = input.slice(&digits).parse::<u8>() else {
        return Err(Fault::new(
            digits,
            "hours run from 1 to 12, and 12 is the top",
        ));
    };
    let half = match input.peek() {
        Some(':') => {
            input.bump();
            minutes(input)?
        }
        Some('.') => {
            input.bump();
            tenths(input, hour)?
        }
        _ => false,
    };
    input.skip_space();
    if input.peek().is_some() {
        return Err(input.unexpected());
    }
    Ok(hour % 12 * 2 + u8::from(half))
}

fn minutes(input: &mut Scan) -> Result<bool, Fault> {
    let span = input.run(|c| c.is_ascii_digit());
    match input.slice(&span).as_str() {
        "00" => Ok(false),
        "30" => Ok(true),
        _ => Err(Fault::new(
            span,
            "only the hour (:00) and the half hour (:30) are taken",
        )),
    }
}

fn tenths(input: &mut Scan, hour: u8) -> Result<bool, Fault> {
    let span = input.run(|c| c.is_ascii_digit());
    match input.slice(&span).as_str() {
        "0" => Ok(false),
        "5" => Ok(true),
        // 7.30 may be half past seven, or seven and three tenths.
        other => {
            let fault = Fault::new(span, "only .0 and .5 of an hour are taken");
            Err(match other {
                "30" => fault.rewrites(vec![format!("{hour}:30")]),
                "50" => fault.rewrites(vec![format!("{hour}.5")]),
                _ => fault,
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_half_hour_both_ways() {
        for half_hours in 0..24_u8 {
            let hour = if half_hours < 2 { 12 } else { half_hours / 2 };
            let (minutes, tenths) = if half_hours % 2 == 0 {
                ("00", "0")
            } else {
                ("30", "5")
            };
            assert_eq!(clock(&format!("{hour}:{minutes}")), Ok(half_hours));
            assert_eq!(clock(&format!(" {hour:02}.{tenths} ")), Ok(half_hours));
            if half_hours % 2 == 0 {
                assert_eq!(clock(&hour.to_string()), Ok(half_hours));
            }
        }
    }

    #[test]
    fn examples() {
        assert_eq!(clock("3"), Ok(6));
        assert_eq!(clock("12"), Ok(0));
        assert_eq!(clock("7:30"), Ok(15));
        assert_eq!(clock("10.5"), Ok(21));
    }

    #[test]
    fn refused_with_the_place() {
        for (text, span) in [
            ("", 0..0),
            ("  ", 2..2),
            ("0", 0..1),
            ("13", 0..2),
            ("99999999999", 0..11),
            ("-3", 0..1),
            ("three", 0..1),
            ("7:15", 2..4),
            ("7:3", 2..3),
            ("7:", 2..2),
            ("7.", 2..2),
            ("7.25", 2..4),
            ("7.30", 2..4),
            ("7:30:00", 4..5),
            ("3 4", 2..3),
            ("3@", 1..2),
        ] {
            assert_eq!(clock(text).unwrap_err().span, span, "{text}");
        }
        assert_eq!(clock("7.30").unwrap_err().help, "7:30");
        assert_eq!(clock("7.50").unwrap_err().help, "7.5");
        assert_eq!(clock("7:15").unwrap_err().help, USUAL);
    }
}
