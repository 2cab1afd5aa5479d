//! Short texts without a formatter: the machinery of `core::fmt` would cost more flash than the screens.

use heapless::String;
use springline_core::gauge::Decimal;
use springline_core::{Length, Unit};

/// A line of text, longer than any panel shows.
pub(crate) type Line = String<48>;

/// Adds a text; what has no room is left out, and the tests of the screens see to it that nothing is.
pub(crate) fn add<const N: usize>(line: &mut String<N>, text: &str) {
    for c in text.chars() {
        if line.push(c).is_err() {
            return;
        }
    }
}

/// Adds a number.
pub(crate) fn number<const N: usize>(line: &mut String<N>, value: u32) {
    let mut digits = [0u8; 10];
    let mut left = value;
    let mut held = 0;
    for digit in digits.iter_mut().rev() {
        *digit = b'0' + u8::try_from(left % 10).unwrap_or(0);
        left /= 10;
        held += 1;
        if left == 0 {
            break;
        }
    }
    let shown = digits.iter().skip(digits.len() - held);
    for digit in shown {
        let _ = line.push(char::from(*digit));
    }
}

/// Adds a number as a gauge shows it, digit for digit.
pub(crate) fn decimal<const N: usize>(line: &mut String<N>, shown: Decimal) {
    if shown.digits() < 0 {
        add(line, "-");
    }
    let scale = 10u64.pow(u32::from(shown.places()));
    let digits = shown.digits().unsigned_abs();
    // Ten digits at most, so that neither is out of range; only checked division spares the board a panic.
    let whole = digits.checked_div(scale).unwrap_or(0);
    number(line, u32::try_from(whole).unwrap_or(u32::MAX));
    if shown.places() > 0 {
        add(line, ".");
        fraction(line, digits.checked_rem(scale).unwrap_or(0), scale);
    }
}

/// Adds what stands behind a point: of a scale of ten, a hundred, a thousand, with its leading zeros.
fn fraction<const N: usize>(line: &mut String<N>, part: u64, scale: u64) {
    let mut least = scale / 10;
    while least > 1 && part < least {
        add(line, "0");
        least /= 10;
    }
    number(line, u32::try_from(part).unwrap_or(0));
}

/// Adds a length as a caliper shows it: thousandths of an inch, or hundredths of a millimetre.
pub(crate) fn length<const N: usize>(line: &mut String<N>, length: Length, unit: Unit) {
    let (step, places, name) = match unit {
        Unit::Inch => (Length::INCH.unsigned_abs() / 1000, 3, " in"),
        Unit::Millimetre => (Length::MILLIMETRE.unsigned_abs() / 100, 2, " mm"),
    };
    let steps = (length.counts().unsigned_abs() + step / 2) / step;
    let whole = if places == 3 { 1000 } else { 100 };
    number(line, steps / whole);
    add(line, ".");
    fraction(line, u64::from(steps % whole), u64::from(whole));
    add(line, name);
}

#[cfg(test)]
mod tests {
    use std::borrow::ToOwned;
    use std::string::ToString;

    use super::*;

    fn shown(counts: i32, unit: Unit) -> std::string::String {
        let mut line = Line::new();
        length(&mut line, Length::from_counts(counts), unit);
        line.as_str().to_owned()
    }

    #[test]
    fn lengths_are_shown_as_a_caliper_shows_them() {
        for (inches, text) in [
            (6.9043, "6.904 in"),
            (0.4, "0.400 in"),
            (66.0, "66.000 in"),
            (1.0006, "1.001 in"),
            (12.05, "12.050 in"),
        ] {
            let counts = (inches * f64::from(Length::INCH)).round();
            #[allow(clippy::cast_possible_truncation, reason = "below 2^31")]
            let counts = counts as i32;
            assert_eq!(shown(counts, Unit::Inch), text);
        }
        assert_eq!(shown(17_536_922, Unit::Millimetre), "175.37 mm");
        assert_eq!(shown(4_000_000, Unit::Millimetre), "40.00 mm");
    }

    #[test]
    fn what_a_gauge_shows_is_shown() {
        for (digits, places, text) in [
            (69_043, 4, "6.9043"),
            (-50, 3, "-0.050"),
            (175_370, 3, "175.370"),
            (12, 0, "12"),
            (1, 9, "0.000000001"),
        ] {
            let mut line = Line::new();
            decimal(&mut line, Decimal::new(digits, places).expect("a number"));
            assert_eq!(line.as_str(), text);
        }
    }

    #[test]
    fn numbers_have_no_leading_zero() {
        for value in [0, 7, 10, 409, u32::MAX] {
            let mut line = Line::new();
            number(&mut line, value);
            assert_eq!(line.as_str(), value.to_string());
        }
    }

    #[test]
    fn what_has_no_room_is_left_out() {
        let mut line: String<4> = String::new();
        add(&mut line, "abcdef");
        assert_eq!(line.as_str(), "abcd");
    }
}
