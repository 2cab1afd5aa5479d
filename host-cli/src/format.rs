//! Writes lengths for people. Exact, and rounded half away from zero.

use crate::parse::{COUNTS_PER_INCH, Unit};

/// Counts of 10 nm in a thousandth of an inch.
const COUNTS_PER_MIL: u64 = COUNTS_PER_INCH as u64 / 1_000;
/// Counts of 10 nm in 1/32 in. This divides the inch exactly, and is odd.
const COUNTS_PER_32ND: u64 = COUNTS_PER_INCH as u64 / 32;
/// Counts of 10 nm in a hundredth of a millimetre.
const COUNTS_PER_HUNDREDTH_MM: u64 = 1_000;

/// Inches to three decimals, with no unit: `6.904`.
pub(crate) fn inches(counts: i64) -> String {
    let mils = nearest(counts, COUNTS_PER_MIL);
    format!("{}{}.{:03}", sign(counts, mils), mils / 1_000, mils % 1_000)
}

/// Inches to the nearest 1/32 in the trade's way, in lowest terms and with no
/// unit: `6 29/32`, `6 1/2`, `29/32`, `6`.
pub(crate) fn inch_fraction(counts: i64) -> String {
    let parts = nearest(counts, COUNTS_PER_32ND);
    let sign = sign(counts, parts);
    let (whole, top) = (parts / 32, parts % 32);
    if top == 0 {
        return format!("{sign}{whole}");
    }
    // The bottom is a power of two, so only twos can cancel.
    let twos = top.trailing_zeros();
    let (top, bottom) = (top >> twos, 32 >> twos);
    if whole == 0 {
        format!("{sign}{top}/{bottom}")
    } else {
        format!("{sign}{whole} {top}/{bottom}")
    }
}

/// Millimetres to two decimals, with no unit: `175.36`.
pub(crate) fn millimetres(counts: i64) -> String {
    let parts = nearest(counts, COUNTS_PER_HUNDREDTH_MM);
    format!("{}{}.{:02}", sign(counts, parts), parts / 100, parts % 100)
}

/// A length in the chosen unit, with it: `6.904 in` or `175.36 mm`.
pub(crate) fn length(counts: i64, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} in", inches(counts)),
        Unit::Millimetre => format!("{} mm", millimetres(counts)),
    }
}

/// A length the way it would be typed, with no idle zeros: `72in`, `1828.8mm`.
pub(crate) fn short(counts: i64, unit: Unit) -> String {
    let (number, mark) = match unit {
        Unit::Inch => (inches(counts), "in"),
        Unit::Millimetre => (millimetres(counts), "mm"),
    };
    let number = number.trim_end_matches('0').trim_end_matches('.');
    format!("{number}{mark}")
}

/// The size of `counts` in parts of `part` counts, rounded half up.
fn nearest(counts: i64, part: u64) -> u64 {
    let size = counts.unsigned_abs();
    size / part + u64::from(size % part >= part.div_ceil(2))
}

/// A minus sign for what is below zero and is not written as zero.
fn sign(counts: i64, parts: u64) -> &'static str {
    if counts < 0 && parts != 0 { "-" } else { "" }
}

/// A nominal size as the tables spell it: `1 1/2in` is `1-1/2`.
pub(crate) fn spelled(size: &str) -> String {
    let size = size.trim();
    let inches = size.strip_suffix('"').or_else(|| size.strip_suffix("in"));
    inches
        .unwrap_or(size)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join("-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parse::{self, Limits};

    fn read(text: &str) -> i64 {
        parse::length(text, Unit::Inch, Limits::AROUND).unwrap()
    }

    #[test]
    fn examples() {
        let counts = 6_904 * 2_540;
        assert_eq!(inches(counts), "6.904");
        assert_eq!(inch_fraction(counts), "6 29/32");
        assert_eq!(millimetres(counts), "175.36");
        assert_eq!(length(counts, Unit::Inch), "6.904 in");
        assert_eq!(length(counts, Unit::Millimetre), "175.36 mm");
        assert_eq!(inch_fraction(read("6.5in")), "6 1/2");
        assert_eq!(inch_fraction(read("29/32in")), "29/32");
        assert_eq!(inch_fraction(read("6in")), "6");
        assert_eq!(inch_fraction(read("6.99in")), "7");
        assert_eq!(short(72 * 2_540_000, Unit::Inch), "72in");
        assert_eq!(short(72 * 2_540_000, Unit::Millimetre), "1828.8mm");
        assert_eq!(short(100 * 2_540_000, Unit::Inch), "100in");
    }

    #[test]
    fn rounds_half_away_from_zero() {
        assert_eq!(inches(1_269), "0.000");
        assert_eq!(inches(1_270), "0.001");
        assert_eq!(inches(-1_269), "0.000");
        assert_eq!(inches(-1_270), "-0.001");
        assert_eq!(millimetres(499), "0.00");
        assert_eq!(millimetres(500), "0.01");
        assert_eq!(millimetres(-499), "0.00");
        assert_eq!(millimetres(-500), "-0.01");
        // A 32nd is an odd count, so nothing can lie halfway.
        assert_eq!(inch_fraction(39_687), "0");
        assert_eq!(inch_fraction(39_688), "1/32");
        assert_eq!(inch_fraction(-39_687), "0");
        assert_eq!(inch_fraction(-39_688), "-1/32");
        assert_eq!(inch_fraction(-read("6 29/32in")), "-6 29/32");
    }

    #[test]
    fn the_ends_do_not_overflow() {
        for counts in [i64::MIN, i64::MAX] {
            assert!(!inches(counts).is_empty());
            assert!(!inch_fraction(counts).is_empty());
            assert!(!millimetres(counts).is_empty());
        }
    }

    #[test]
    fn every_thousandth_comes_back() {
        for mils in 1..=72_000_i64 {
            let counts = mils * 2_540;
            assert_eq!(read(&inches(counts)), counts);
        }
    }

    #[test]
    fn every_32nd_comes_back() {
        for parts in 1..=240 * 32_i64 {
            let counts = parts * 79_375;
            assert_eq!(read(&inch_fraction(counts)), counts);
        }
    }

    #[test]
    fn every_hundredth_of_a_millimetre_comes_back() {
        for parts in 1..=182_880_i64 {
            let text = length(parts * 1_000, Unit::Millimetre);
            assert_eq!(read(&text), parts * 1_000, "{text}");
        }
    }
}
