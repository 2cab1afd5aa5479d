//! Quantities as people read them, in the unit of the setting.

use springline_core::unit::{Distance, Flow, Speed, Volume};

use crate::format;
use crate::parse::Unit;
pub(crate) use crate::show::{plain, pressure, rated, whole};

/// A stretch of line: `2,000 ft` or `610 m`.
pub(crate) fn line(length: Distance, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} ft", plain(length.in_feet())),
        Unit::Millimetre => format!("{} m", plain(length.in_metres())),
    }
}

/// A length by tape, to 1/32 in or 1 mm: `8 1/2 in`, `11 ft 11 in`, `3632 mm`.
pub(crate) fn tape(length: Distance, unit: Unit) -> String {
    match unit {
        Unit::Inch => {
            let marks = (length.in_inches() * 32.0).round();
            let feet = (marks / 384.0).floor();
            let inches = Distance::inches((marks - 384.0 * feet) / 32.0);
            let inches_text = format!("{} in", format::inch_fraction(counts(inches)));
            if marks < 36.0 * 32.0 {
                format!("{} in", format::inch_fraction(counts(length)))
            } else if inches_text == "0 in" {
                format!("{feet:.0} ft")
            } else {
                format!("{feet:.0} ft {inches_text}")
            }
        }
        Unit::Millimetre => format!("{:.0} mm", length.in_mm()),
    }
}

/// A length as a shovel keeps to it, up to the next inch or 10 mm.
pub(crate) fn shovel(length: Distance, unit: Unit) -> String {
    tape(
        length.up_to(match unit {
            Unit::Inch => Distance::inches(1.0),
            Unit::Millimetre => Distance::mm(10.0),
        }),
        unit,
    )
}

/// Counts of 10 nm.
#[allow(
    clippy::cast_possible_truncation,
    reason = "lengths by tape are far below 2^53 counts"
)]
pub(crate) fn counts(length: Distance) -> i64 {
    (length.in_inches() * 2_540_000.0).round() as i64
}

/// `5 ft/s` or `1.5 m/s`.
pub(crate) fn speed(speed: Speed, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} ft/s", plain(speed.in_feet_per_second())),
        Unit::Millimetre => format!("{} m/s", plain(speed.in_metres_per_second())),
    }
}

/// `92 gpm` or `5.8 L/s`.
pub(crate) fn flow(flow: Flow, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} gpm", plain(flow.in_gpm())),
        Unit::Millimetre => format!("{} L/s", plain(flow.in_litres_per_second())),
    }
}

/// `4,406 gal` or `16,700 L`.
pub(crate) fn volume(volume: Volume, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} gal", plain(volume.in_gallons())),
        Unit::Millimetre => format!("{} L", plain(volume.in_litres())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_people_write_them() {
        let all = [
            0.0,
            0.0123,
            0.5,
            1.474,
            12.34,
            99.96,
            123.4,
            4406.2,
            1_234_567.0,
        ];
        let want = [
            "0",
            "0.012",
            "0.5",
            "1.47",
            "12.3",
            "100",
            "123",
            "4,406",
            "1,234,567",
        ];
        assert_eq!(all.map(plain), want);
        assert_eq!([whole(-0.4), whole(-1427.6)], ["0", "-1,428"]);
    }

    #[test]
    fn lengths_by_tape() {
        let of = |inches: f64| tape(Distance::inches(inches), Unit::Inch);
        assert_eq!(of(8.5), "8 1/2 in");
        assert_eq!(of(40.5), "3 ft 4 1/2 in");
        assert_eq!(of(143.0), "11 ft 11 in");
        assert_eq!(of(144.0), "12 ft");
        assert_eq!(
            of(143.99),
            "12 ft",
            "it is no eleven feet and twelve inches"
        );
        assert_eq!(tape(Distance::inches(143.0), Unit::Millimetre), "3632 mm");
    }
}
