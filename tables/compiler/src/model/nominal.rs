//! Nominal sizes as they are written on the pipe.

use std::fmt;

/// What a nominal size says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NominalSize {
    /// Inches, counted in sixty-fourths: `6`, `1-1/2`, `3/4`.
    Inch(u32),
    /// A DN number: `DN150`.
    Dn(u32),
    /// Millimetres of OD: `160mm`.
    Millimetre(u32),
}

impl NominalSize {
    /// Reads a nominal size. There is one way to write each: fractions are in lowest terms, numbers have no leading
    /// zero.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let size = if let Some(number) = text.strip_prefix("DN") {
            Self::Dn(whole(number)?)
        } else if let Some(number) = text.strip_suffix("mm") {
            Self::Millimetre(whole(number)?)
        } else if let Some((inches, part)) = text.split_once('-') {
            Self::Inch(whole(inches)? * 64 + fraction(part)?)
        } else if text.contains('/') {
            Self::Inch(fraction(text)?)
        } else {
            Self::Inch(whole(text)? * 64)
        };
        (size.to_string() == text).then_some(size)
    }

    /// The size in inches, as far as sizes compare across the ways of writing them: a DN is 25 to the inch.
    #[must_use]
    pub fn inches(self) -> f64 {
        match self {
            Self::Inch(parts) => f64::from(parts) / 64.0,
            Self::Dn(number) => f64::from(number) / 25.0,
            Self::Millimetre(number) => f64::from(number) / 25.4,
        }
    }
}

impl fmt::Display for NominalSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Dn(number) => write!(f, "DN{number}"),
            Self::Millimetre(number) => write!(f, "{number}mm"),
            Self::Inch(parts) => {
                let (inches, rest) = (parts / 64, parts % 64);
                let down = rest.trailing_zeros().min(6);
                let (top, bottom) = (rest >> down, 64_u32 >> down);
                match (inches, rest) {
                    (_, 0) => write!(f, "{inches}"),
                    (0, _) => write!(f, "{top}/{bottom}"),
                    _ => write!(f, "{inches}-{top}/{bottom}"),
                }
            }
        }
    }
}

/// A whole number from 1 to 9999.
fn whole(text: &str) -> Option<u32> {
    text.parse().ok().filter(|n| (1..10_000).contains(n))
}

/// A proper fraction with a power of two below, in sixty-fourths.
fn fraction(text: &str) -> Option<u32> {
    let (top, bottom) = text.split_once('/')?;
    let (top, bottom) = (whole(top)?, whole(bottom)?);
    (top < bottom && bottom <= 64 && bottom.is_power_of_two()).then(|| top * (64 / bottom))
}

#[cfg(test)]
mod tests {
    use super::NominalSize;

    #[test]
    fn sizes_are_read_and_written_alike() {
        for (text, inches) in [
            ("6", 6.0),
            ("1-1/2", 1.5),
            ("3/4", 0.75),
            ("5/8", 0.625),
            ("DN150", 6.0),
            ("254mm", 10.0),
        ] {
            let size = NominalSize::parse(text).expect(text);
            assert_eq!(size.to_string(), text);
            assert!((size.inches() - inches).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn other_ways_of_writing_are_refused() {
        for text in [
            "", "0", "06", "6in", "6.5", "1-2/4", "2/4", "4/3", "1-", "-1/2", "DN", "dn150", "DN0",
            "mm", "160 mm", "1/3", "6 ", "+6", "99999",
        ] {
            assert_eq!(NominalSize::parse(text), None, "{text:?}");
        }
    }
}
