//! Figures as people read them.

use serde_json::{Value, json};
use springline_compiler::notes::{Cited, Notes};
use springline_core::assembly::Nominal;
use springline_core::image::Grade;
use springline_core::unit::{Distance, Torque};

use crate::fits::caution::Due;
use crate::fits::sheet::keys;
use crate::format;
use crate::parse::{COUNTS_PER_INCH, Unit};

/// Counts of 10 nm.
#[allow(
    clippy::cast_possible_truncation,
    reason = "a length in a trench is far below 2^52 counts"
)]
pub(crate) fn counts(length: Distance) -> i64 {
    (length.in_inches() * f64::from(COUNTS_PER_INCH)).round() as i64
}

/// A length from counts of 10 nm.
#[allow(
    clippy::cast_precision_loss,
    reason = "lengths of parts are far below 2^52 counts"
)]
pub(crate) fn distance(counts: i64) -> Distance {
    Distance::inches(counts as f64 / f64::from(COUNTS_PER_INCH))
}

/// `4 1/2 in` to the nearest 1/32, or `114 mm`.
pub(crate) fn length(length: Distance, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} in", format::inch_fraction(counts(length))),
        Unit::Millimetre => format!("{:.0} mm", length.in_mm()),
    }
}

/// The size of a bolt or a wrench, which is bought in inches: `3/4 in`, or `3/4 in (19 mm)`.
pub(crate) fn bought(length: Distance, unit: Unit) -> String {
    let inches = format::inch_fraction(counts(length));
    match unit {
        Unit::Inch => format!("{inches} in"),
        Unit::Millimetre => format!("{inches} in ({:.0} mm)", length.in_mm()),
    }
}

/// `20 ft`, or `6.1 m`.
pub(crate) fn far(length: Distance, unit: Unit) -> String {
    match unit {
        Unit::Inch => {
            let feet = format!("{:.1}", length.in_feet());
            format!("{} ft", feet.strip_suffix(".0").unwrap_or(&feet))
        }
        Unit::Millimetre => format!("{:.1} m", length.in_metres()),
    }
}

/// `68`, without its unit.
pub(crate) fn bare_torque(torque: Torque, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{:.0}", torque.in_foot_pounds()),
        Unit::Millimetre => format!("{:.0}", torque.in_newton_metres()),
    }
}

/// The unit of torques.
pub(crate) const fn torque_unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "ft-lb",
        Unit::Millimetre => "N m",
    }
}

/// `2-1/2` of ten quarters.
pub(crate) fn size(size: Nominal) -> String {
    let quarters = u32::from(size.in_quarters());
    springline_compiler::model::NominalSize::Inch(quarters * 16).to_string()
}

/// Behind a figure: that it is recalled or common practice; nothing where it was read.
pub(crate) const fn mark(grade: Grade) -> &'static str {
    match grade {
        Grade::Memory => " (from memory)",
        Grade::Practice => " (common practice)",
        _ => "",
    }
}

/// Where something comes from.
pub(crate) struct Sourced {
    pub(crate) what: String,
    pub(crate) keys: Vec<String>,
    pub(crate) grade: Grade,
}

impl Sourced {
    pub(crate) fn of(notes: &Notes, what: &str, cited: &Cited) -> Self {
        Self {
            what: what.to_owned(),
            keys: keys(notes, Some(cited)),
            grade: Grade::from_code(cited.grade).unwrap_or(Grade::Memory),
        }
    }

    /// For `--why`: `bolts: c110-flange, b165-flange; two-sources.`
    pub(crate) fn line(&self) -> String {
        format!(
            "{}: {}; {}.",
            self.what,
            self.keys.join(", "),
            self.grade.key()
        )
    }

    /// For `--json`.
    pub(crate) fn json(&self) -> Value {
        json!({ "what": self.what, "source": self.keys, "grade": self.grade.key() })
    }
}

/// Cautions for `--json`.
pub(crate) fn cautions(all: &[Due]) -> Value {
    all.iter()
        .map(|one| {
            json!({
                "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
                "grade": one.grade.map(Grade::key),
            })
        })
        .collect()
}

/// A figure without digits that nobody measures.
pub(crate) fn number(value: f64) -> Value {
    json!((value * 10_000.0).round() / 10_000.0)
}
