//! Temperatures of the pipe or the air round it.

use std::cmp::Ordering;
use std::ops::Range;

use super::error::{Fault, ParseError, name_of};
use super::scan::{Number, Scan};
use super::tokens::is_hyphen;

/// Lowest and highest temperature taken, in hundredths of a degree Fahrenheit.
const LOWEST: i64 = -4_000;
const HIGHEST: i64 = 18_000;

const USUAL: &str = "95F or 35C";

#[derive(Clone, Copy)]
enum Scale {
    Fahrenheit,
    Celsius,
}

/// Reads a temperature such as `95F`, `-4 °F` or `35C` as hundredths of a
/// degree Fahrenheit, rounded half away from zero, from -40 to 180 °F.
///
/// # Errors
///
/// A number with no F or C: 35 is a cold day in one scale and a hot one in the
/// other. Also anything that is not a temperature, or lies outside the range.
pub(crate) fn temperature(text: &str) -> Result<i32, ParseError> {
    read(text).map_err(|f| f.dress(text, "temperature", USUAL, |t| read(t).is_ok()))
}

fn read(text: &str) -> Result<i32, Fault> {
    let mut input = Scan::new(text)?;
    input.skip_space();
    let negative = input.peek().is_some_and(is_hyphen);
    if negative {
        input.bump();
        input.skip_space();
    }
    if !input.at_number() {
        return Err(match input.peek() {
            None if input.trimmed().is_empty() => Fault::new(input.here(), "nothing was typed"),
            Some(',') => input.unexpected(),
            _ => Fault::new(input.here(), "a temperature starts with a number"),
        });
    }
    let number = input.number()?;
    let scale = scale(&mut input, &number)?;
    input.skip_space();
    if input.peek().is_some() {
        return Err(input.unexpected());
    }
    hundredths(&number, negative, scale)
        .filter(|value| (LOWEST..=HIGHEST).contains(value))
        .and_then(|value| i32::try_from(value).ok())
        .ok_or_else(|| out_of_range(input.trimmed(), scale))
}

fn out_of_range(span: Range<usize>, scale: Scale) -> Fault {
    let fault = Fault::new(span, "no pipe is measured at that temperature").beyond();
    match scale {
        Scale::Fahrenheit => fault.tell("from -40F to 180F"),
        Scale::Celsius => fault.tell("from -40C to 82.2C"),
    }
}

fn scale(input: &mut Scan, number: &Number) -> Result<Scale, Fault> {
    input.skip_space();
    let start = input.at();
    let mut degree = false;
    if matches!(input.peek(), Some('°' | 'º' | '˚')) {
        degree = true;
        input.bump();
        input.skip_space();
    }
    match input.peek() {
        Some('℉') if !degree => {
            input.bump();
            return Ok(Scale::Fahrenheit);
        }
        Some('℃') if !degree => {
            input.bump();
            return Ok(Scale::Celsius);
        }
        _ => {}
    }
    let mut span = input.run(|c| c.is_ascii_alphabetic());
    let mut word = input.slice(&span).to_ascii_lowercase();
    if !degree {
        for spelling in ["degrees", "degree", "deg"] {
            let Some(rest) = word.strip_prefix(spelling) else {
                continue;
            };
            word = rest.to_owned();
            if word.is_empty() {
                input.skip_space();
                span = input.run(|c| c.is_ascii_alphabetic());
                word = input.slice(&span).to_ascii_lowercase();
            }
            break;
        }
    }
    match word.as_str() {
        "f" | "fahrenheit" => Ok(Scale::Fahrenheit),
        "c" | "celsius" => Ok(Scale::Celsius),
        "" => Err(no_scale(input, number)),
        _ => Err(Fault::new(
            start..input.at(),
            "only F and C are taken for the scale",
        )),
    }
}

/// The fault where F or C should have stood.
fn no_scale(input: &Scan, number: &Number) -> Fault {
    if let Some(c) = input.peek() {
        return Fault::new(
            input.here(),
            format!("F or C should come here, not {}", name_of(c)),
        );
    }
    let typed = input.slice(&(input.trimmed().start..number.span.end));
    Fault::new(
        input.at()..input.at(),
        "say F or C: the number alone could be either",
    )
    .rewrites(vec![format!("{typed}F"), format!("{typed}C")])
}

/// The value in hundredths of a degree Fahrenheit, rounded half away from zero.
fn hundredths(number: &Number, negative: bool, scale: Scale) -> Option<i64> {
    let (factor, zero) = match scale {
        Scale::Fahrenheit => (100, 0),
        // F = C x 9/5 + 32, in hundredths: C x 180 + 3200.
        Scale::Celsius => (180, 3_200),
    };
    let (whole, rest) = number.times(factor)?;
    if !negative {
        return Some(zero + whole + i64::from(rest != Ordering::Less));
    }
    // The exact value is `value` less a part below one. A part of just one half
    // goes up if the value stays above zero, and down if it does not: rounding
    // looks at the sign of the answer, not of what was typed.
    let value = zero - whole;
    Some(match rest {
        Ordering::Less => value,
        Ordering::Equal if value > 0 => value,
        Ordering::Equal | Ordering::Greater => value - 1,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn examples() {
        for (text, want) in [
            ("95F", 9_500),
            ("95 F", 9_500),
            ("95°F", 9_500),
            ("-4F", -400),
            ("35C", 9_500),
            ("35 °C", 9_500),
            ("35 ° c", 9_500),
            ("\u{2212}4 F", -400),
            ("- 4F", -400),
            ("-0F", 0),
            ("0C", 3_200),
            ("68.5f", 6_850),
            (".5F", 50),
            ("20℃", 6_800),
            ("68℉", 6_800),
            ("68 deg F", 6_800),
            ("68degF", 6_800),
            ("20 degrees Celsius", 6_800),
            ("-40F", -4_000),
            ("-40C", -4_000),
            ("180F", 18_000),
            // Fixed points of the two scales: 37 C is 98.6 F by the definition.
            ("37C", 9_860),
        ] {
            assert_eq!(temperature(text), Ok(want), "{text}");
        }
    }

    #[test]
    fn rounds_half_away_from_zero() {
        for (text, want) in [
            ("0.005F", 1),
            ("0.0049999F", 0),
            ("-0.005F", -1),
            ("-0.0049999F", 0),
            ("-0.00500001F", -1),
            // 0.025 C is 4.5 hundredths: 3195.5, above zero, goes up.
            ("-0.025C", 3_196),
            ("-0.0250001C", 3_195),
            ("-0.0249999C", 3_196),
            // 20.025 C is 3604.5 hundredths: -404.5, below zero, goes down.
            ("-20.025C", -405),
            ("-20.0249999C", -404),
            // 17.775 C is 3199.5 hundredths: 0.5 goes up to 1.
            ("-17.775C", 1),
            ("0.025C", 3_205),
        ] {
            assert_eq!(temperature(text), Ok(want), "{text}");
        }
    }

    #[test]
    fn every_tenth_of_a_celsius_degree() {
        for tenths in -400..=822_i32 {
            let sign = if tenths < 0 { "-" } else { "" };
            let text = format!("{sign}{}.{}C", tenths.abs() / 10, tenths.abs() % 10);
            assert_eq!(temperature(&text), Ok(tenths * 18 + 3_200), "{text}");
        }
    }

    #[test]
    fn refused_with_the_place() {
        for (text, span) in [
            ("", 0..0),
            (" ", 1..1),
            ("95", 2..2),
            ("95°", 3..3),
            ("95 deg", 6..6),
            ("-", 1..1),
            ("warm", 0..1),
            ("NaN", 0..1),
            ("inf", 0..1),
            ("95K", 2..3),
            ("95FF", 2..4),
            ("95F C", 4..5),
            ("9..5F", 2..3),
            ("35,5C", 2..3),
            ("1e2F", 1..2),
            ("95%", 2..3),
            ("+95F", 0..1),
            ("--4F", 1..2),
            ("181F", 0..4),
            ("-41F", 0..4),
            (" 83C ", 1..4),
            ("99999999999999999999F", 0..21),
            ("95°℉", 3..4),
            ("95 degF F", 8..9),
        ] {
            assert_eq!(temperature(text).unwrap_err().span, span, "{text}");
        }
    }

    #[test]
    fn a_bare_number_is_asked_for_its_scale() {
        let e = temperature("35").unwrap_err();
        assert_eq!(
            e.to_string(),
            "\"35\" is not a temperature\n  35\n    ^ say F or C: the number alone could be either\n  \
             try: 35F or 35C"
        );
        // 95 C is beyond the range, so only the other is offered.
        assert_eq!(temperature("95°").unwrap_err().help, "95F");
        assert_eq!(temperature("35,5C").unwrap_err().help, "35.5C");
        assert_eq!(temperature("181F").unwrap_err().help, "from -40F to 180F");
    }
}
