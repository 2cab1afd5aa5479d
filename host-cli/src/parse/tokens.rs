//! The marks a length can hold besides digits: strokes, hyphens, ready-made
//! fractions, and units.

use super::error::Fault;
use super::scan::Scan;
use super::{COUNTS_PER_FOOT, COUNTS_PER_INCH, COUNTS_PER_MM};

/// A unit as typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Typed {
    Inch,
    Foot,
    Millimetre,
    Centimetre,
}

impl Typed {
    /// Counts of 10 nm in one of this unit.
    pub(super) fn counts(self) -> u32 {
        match self {
            Self::Inch => COUNTS_PER_INCH,
            Self::Foot => COUNTS_PER_FOOT,
            Self::Millimetre => COUNTS_PER_MM,
            Self::Centimetre => 10 * COUNTS_PER_MM,
        }
    }

    /// Whether the unit is a metric one.
    pub(super) fn is_metric(self) -> bool {
        matches!(self, Self::Millimetre | Self::Centimetre)
    }

    fn from_word(word: &str) -> Option<Self> {
        Some(match word.to_ascii_lowercase().as_str() {
            "in" | "inch" | "inches" => Self::Inch,
            "ft" | "foot" | "feet" => Self::Foot,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Self::Millimetre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Self::Centimetre,
            _ => return None,
        })
    }
}

/// Hyphens, the dashes that editors make of them, and the minus sign.
pub(super) fn is_hyphen(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2013}' | '\u{2212}')
}

/// The stroke of a fraction.
pub(super) fn is_stroke(c: char) -> bool {
    matches!(c, '/' | '\u{2044}' | '\u{2215}')
}

fn is_single_mark(c: char) -> bool {
    matches!(
        c,
        '\'' | '\u{2032}' | '\u{2018}' | '\u{2019}' | '\u{b4}' | '\u{2b9}'
    )
}

fn is_double_mark(c: char) -> bool {
    matches!(c, '"' | '\u{2033}' | '\u{201c}' | '\u{201d}' | '\u{2ba}')
}

/// The value of a one-character fraction: top and bottom.
pub(super) fn ready_made(c: char) -> Option<(u32, u32)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

/// Reads a unit if one is next; `None` leaves the scan where it was.
pub(super) fn unit(input: &mut Scan) -> Result<Option<Typed>, Fault> {
    let before = input.at();
    input.skip_space();
    let Some(c) = input.peek() else {
        input.back_to(before);
        return Ok(None);
    };
    if is_double_mark(c) {
        input.bump();
        return Ok(Some(Typed::Inch));
    }
    if is_single_mark(c) {
        input.bump();
        // Two single marks are how a double mark is made on some keyboards.
        if input.peek().is_some_and(is_single_mark) {
            input.bump();
            return Ok(Some(Typed::Inch));
        }
        return Ok(Some(Typed::Foot));
    }
    let span = input.run(|c| c.is_ascii_alphabetic());
    if span.is_empty() {
        input.back_to(before);
        return Ok(None);
    }
    let word = input.slice(&span);
    let unit = Typed::from_word(&word)
        .ok_or_else(|| Fault::new(span, "not a unit: in, ft, mm and cm are taken"))?;
    // "in." and "ft." are abbreviations and often keep their stop.
    if matches!(word.to_ascii_lowercase().as_str(), "in" | "ft") && input.peek() == Some('.') {
        if input.peek_by(1).is_some_and(|c| c.is_ascii_digit()) {
            return Err(Fault::new(
                input.here(),
                "this point could end the unit or start a decimal: put a space by it",
            ));
        }
        input.bump();
    }
    Ok(Some(unit))
}
