//! A range stamped on a coupling, a clamp or a saddle, held against a pipe.

use anyhow::{Result, anyhow};

use super::known::Known;
use crate::format;
use crate::parse::{self, Limits, Unit};

/// What a stamped range is worth on a pipe.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Judged {
    /// It holds whatever the tolerance allows.
    Holds,
    /// It holds the OD, not all that the tolerance allows.
    Barely,
    /// It does not hold the OD.
    No,
}

/// Reads `6.60-7.10`, `6.60 to 7.10in`, `6 5/8..7 1/8`.
pub(crate) fn parse(text: &str, unit: Unit) -> Result<(i64, i64)> {
    let help = "write it as 6.60-7.10, or with fractions as \"6 5/8 to 7 1/8\"";
    let unread = || anyhow!("\"{text}\" is no range\n  try: {help}");
    let both = text
        .split_once(" to ")
        .or_else(|| text.split_once(".."))
        .or_else(|| text.split_once('\u{2013}'))
        .or_else(|| (text.matches('-').count() == 1).then(|| text.split_once('-'))?);
    let (low, high) = both.ok_or_else(unread)?;
    let low = parse::length(low.trim(), unit, Limits::DIAMETER)?;
    let high = parse::length(high.trim(), unit, Limits::DIAMETER)?;
    if low >= high {
        return Err(unread());
    }
    Ok((low, high))
}

/// Holds a range against a pipe.
pub(crate) fn judge((low, high): (i64, i64), known: &Known) -> Judged {
    let (least, most) = known.band();
    if low <= least && most <= high {
        Judged::Holds
    } else if (low..=high).contains(&known.od()) {
        Judged::Barely
    } else {
        Judged::No
    }
}

/// The range as people read it.
pub(crate) fn told((low, high): (i64, i64), unit: Unit) -> String {
    format!("{} to {}", bare(low, unit), format::length(high, unit))
}

fn bare(counts: i64, unit: Unit) -> String {
    match unit {
        Unit::Inch => format::inches(counts),
        Unit::Millimetre => format::millimetres(counts),
    }
}
