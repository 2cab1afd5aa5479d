//! Decimal numbers, read exactly.

use crate::model::{INCH, MILLIMETRE};

/// The unit of the lengths in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    Inch,
    Millimetre,
}

impl Unit {
    /// How a column name ends.
    pub(crate) const fn suffix(self) -> &'static str {
        match self {
            Self::Inch => "_in",
            Self::Millimetre => "_mm",
        }
    }

    /// Counts of 10 nm.
    const fn counts(self) -> i64 {
        match self {
            Self::Inch => INCH,
            Self::Millimetre => MILLIMETRE,
        }
    }
}

/// A plain decimal as digits and how many of them come after the point, without trailing zeros there.
pub(crate) fn decimal(text: &str) -> Option<(i64, u32)> {
    let (whole, part) = match text.split_once('.') {
        Some((_, "")) => return None,
        Some(halves) => halves,
        None => (text, ""),
    };
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || !digits(whole) || !digits(part) {
        return None;
    }
    let part = part.trim_end_matches('0');
    let places = u32::try_from(part.len()).ok()?;
    Some((format!("{whole}{part}").parse().ok()?, places))
}

/// A length in counts of 10 nm; `None` if it is no plain decimal or not a whole number of counts.
pub(crate) fn length(text: &str, unit: Unit) -> Option<i64> {
    let (digits, places) = decimal(text)?;
    let scaled = digits.checked_mul(unit.counts())?;
    let divisor = 10_i64.checked_pow(places)?;
    (scaled % divisor == 0).then(|| scaled / divisor)
}

/// A plain decimal as a float.
pub(crate) fn float(text: &str) -> Option<f64> {
    decimal(text)?;
    text.parse().ok()
}

/// Counts of 10 nm as a text in inches, to a ten-thousandth.
#[allow(
    clippy::cast_precision_loss,
    reason = "lengths of pipe are far below 2^52 counts"
)]
pub(crate) fn inches(counts: i64) -> String {
    let text = format!("{:.4}", counts as f64 / INCH as f64);
    match text.strip_suffix('0') {
        Some(shorter) => shorter.to_owned(),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::{Unit, decimal, float, inches, length};

    #[test]
    fn lengths_are_exact() {
        assert_eq!(length("6.625", Unit::Inch), Some(16_827_500));
        assert_eq!(length("0.0025", Unit::Inch), Some(6_350));
        assert_eq!(length("0.00005", Unit::Inch), Some(127));
        assert_eq!(length("98", Unit::Millimetre), Some(9_800_000));
        assert_eq!(length("0.65", Unit::Millimetre), Some(65_000));
        assert_eq!(length("0", Unit::Millimetre), Some(0));
        assert_eq!(length("25.4", Unit::Millimetre), length("1", Unit::Inch));
    }

    #[test]
    fn what_is_no_length() {
        for text in [
            "",
            ".",
            "1.",
            ".5",
            "-1",
            "+1",
            "1e3",
            "1,5",
            " 1",
            "1 ",
            "nan",
            "0.000001",
            "99999999999999",
            "99999999999999999999",
            "1.2.3",
            "0x1",
        ] {
            assert_eq!(length(text, Unit::Inch), None, "{text:?}");
        }
    }

    #[test]
    fn trailing_zeros_do_not_matter() {
        assert_eq!(decimal("0.050"), decimal("0.05"));
        assert_ne!(decimal("50"), decimal("5"));
        assert_eq!(float("0.50"), Some(0.5));
        assert_eq!(float("inf"), None);
        assert_eq!(inches(16_827_500), "6.625");
        assert_eq!(inches(6_350), "0.0025");
    }
}
