//! Quantities as a panel shows them: lengths to hold never shorter, pressures to stay below never higher.

use springline_core::Unit;
use springline_core::unit::{Angle, Distance, Duration, Force, Pressure, Temperature, Torque};

use super::text::{Line, add, number};

/// A number of no more than so many decimals, given in units of the last of them; idle zeros are left out.
#[inline(never)]
fn decimals(line: &mut Line, mut count: u32, mut places: u8) {
    while places > 0 && count.is_multiple_of(10) {
        count /= 10;
        places -= 1;
    }
    let scale = if places == 2 { 100 } else { 10 };
    if places == 0 {
        return number(line, count);
    }
    number(line, count / scale);
    add(line, ".");
    let rest = count % scale;
    if places == 2 && rest < 10 {
        add(line, "0");
    }
    number(line, rest);
}

/// Whole units of a value that is not below nothing: what is behind the point falls away.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast holds to the ends of its range"
)]
#[inline(never)]
fn whole(value: f64) -> u32 {
    value as u32
}

/// The nearest whole units.
pub(crate) fn nearest(value: f64) -> u32 {
    whole(value + 0.5)
}

/// A force: `13684 lb`, or `60.9 kN`.
#[inline(never)]
pub(crate) fn force(line: &mut Line, force: Force, unit: Unit) {
    if unit == Unit::Inch {
        number(line, nearest(force.in_lbf()));
        add(line, " lb");
    } else {
        decimals(line, nearest(force.in_kn() * 10.0), 1);
        add(line, " kN");
    }
}

/// A pressure as it was told: `150 psi`, or `10.34 bar`.
#[inline(never)]
pub(crate) fn pressure(line: &mut Line, pressure: Pressure, unit: Unit) {
    if unit == Unit::Inch {
        number(line, nearest(pressure.in_psi()));
        add(line, " psi");
    } else {
        decimals(line, nearest(pressure.in_bar() * 100.0), 2);
        add(line, " bar");
    }
}

/// A pressure to stay below, rounded down: whole psi, or tenths of a bar; `false` where nothing is left of it.
#[inline(never)]
pub(crate) fn below(line: &mut Line, pressure: Pressure, unit: Unit) -> bool {
    let (value, places, name) = match unit {
        Unit::Inch => (pressure.in_psi(), 0, " psi"),
        Unit::Millimetre => (pressure.in_bar() * 10.0, 1, " bar"),
    };
    let count = whole(value + 1e-9);
    decimals(line, count, places);
    add(line, name);
    count > 0
}

/// A place along a line or down to it, as it was told: `6.5 ft`, or `1.98 m`.
#[inline(never)]
pub(crate) fn place(line: &mut Line, distance: Distance, unit: Unit) {
    if unit == Unit::Inch {
        decimals(line, nearest(distance.in_feet() * 10.0), 1);
        add(line, " ft");
    } else {
        decimals(line, nearest(distance.in_metres() * 100.0), 2);
        add(line, " m");
    }
}

/// A length to hold, rounded up: whole feet, or tenths of a metre.
#[inline(never)]
pub(crate) fn length(line: &mut Line, distance: Distance, unit: Unit) {
    if unit == Unit::Inch {
        number(line, whole(distance.in_feet() + (1.0 - 1e-6)));
        add(line, " ft");
    } else {
        decimals(line, whole(distance.in_metres() * 10.0 + (1.0 - 1e-6)), 1);
        add(line, " m");
    }
}

/// Inches to the nearest 1/32, as bolts and wrenches are bought in any country: `3-1/2 in`.
#[inline(never)]
pub(crate) fn inches(line: &mut Line, distance: Distance) {
    let mut parts = nearest(distance.in_inches() * 32.0);
    let whole = parts / 32;
    parts %= 32;
    if whole > 0 || parts == 0 {
        number(line, whole);
    }
    if parts > 0 {
        add(line, if whole > 0 { "-" } else { "" });
        let twos = parts.trailing_zeros().min(5);
        number(line, parts >> twos);
        add(line, "/");
        number(line, 32 >> twos);
    }
    add(line, " in");
}

/// A depth or an offset: `3-1/2 in`, or `89 mm`.
#[inline(never)]
pub(crate) fn depth(line: &mut Line, distance: Distance, unit: Unit) {
    if unit == Unit::Inch {
        inches(line, distance);
    } else {
        number(line, nearest(distance.in_mm()));
        add(line, " mm");
    }
}

/// An angle to the tenth of a degree below: `5.3 deg`.
#[inline(never)]
pub(crate) fn angle(line: &mut Line, angle: Angle) {
    decimals(line, whole(angle.in_degrees() * 10.0 + 1e-6), 1);
    add(line, " deg");
}

/// Two torques, from one to the other: `75 to 90 ft-lb`.
#[inline(never)]
pub(crate) fn torques(line: &mut Line, [low, high]: [Torque; 2], unit: Unit) {
    let of = |torque: Torque| {
        nearest(match unit {
            Unit::Inch => torque.in_foot_pounds(),
            Unit::Millimetre => torque.in_newton_metres(),
        })
    };
    number(line, of(low));
    add(line, " to ");
    number(line, of(high));
    add(line, if unit == Unit::Inch { " ft-lb" } else { " N m" });
}

/// How warm: `70 F`, or `21 C`.
#[inline(never)]
pub(crate) fn temperature(line: &mut Line, at: Temperature, unit: Unit) {
    let (degrees, name) = match unit {
        Unit::Inch => (at.in_fahrenheit(), " F"),
        Unit::Millimetre => (at.in_celsius(), " C"),
    };
    let count = nearest(if degrees < 0.0 { -degrees } else { degrees });
    add(line, if degrees < 0.0 && count > 0 { "-" } else { "" });
    number(line, count);
    add(line, name);
}

/// How long, never shorter: `45 min`, `1 h 30 min`, `72 h`.
#[inline(never)]
pub(crate) fn lasts(line: &mut Line, time: Duration) {
    let minutes = whole(time.in_minutes() + (1.0 - 1e-6));
    if minutes >= 60 {
        number(line, minutes / 60);
        add(line, " h");
    }
    if minutes < 60 || !minutes.is_multiple_of(60) {
        add(line, if minutes < 60 { "" } else { " " });
        number(line, minutes % 60);
        add(line, " min");
    }
}

/// A factor in hundredths: `1.5`.
pub(crate) fn hundredths(line: &mut Line, hundredths: u16) {
    decimals(line, u32::from(hundredths), 2);
}

#[cfg(test)]
mod tests {
    use std::borrow::ToOwned;
    use std::string::String;

    use super::*;

    fn shown(figure: impl FnOnce(&mut Line)) -> String {
        let mut line = Line::new();
        figure(&mut line);
        line.as_str().to_owned()
    }

    #[test]
    fn lengths_are_never_shorter_and_pressures_never_higher() {
        let (us, metric) = (Unit::Inch, Unit::Millimetre);
        let feet = |feet, unit| shown(|line| length(line, Distance::feet(feet), unit));
        assert_eq!(feet(20.0, us), "20 ft");
        assert_eq!(feet(20.01, us), "21 ft");
        assert_eq!(feet(20.0, metric), "6.1 m");
        assert_eq!(feet(19.69, metric), "6.1 m");
        for (psi, unit, text, any) in [
            (3.99, us, "3 psi", true),
            (0.99, us, "0 psi", false),
            (4.2, metric, "0.2 bar", true),
            (1.4, metric, "0 bar", false),
        ] {
            let mut line = Line::new();
            assert_eq!(below(&mut line, Pressure::psi(psi), unit), any);
            assert_eq!(line.as_str(), text);
        }
    }

    #[test]
    fn figures_are_as_people_read_them() {
        let (us, metric) = (Unit::Inch, Unit::Millimetre);
        let push = Force::lbf(13_684.4);
        assert_eq!(shown(|line| force(line, push, us)), "13684 lb");
        assert_eq!(shown(|line| force(line, push, metric)), "60.9 kN");
        let psi = Pressure::psi(150.0);
        assert_eq!(shown(|line| pressure(line, psi, metric)), "10.34 bar");
        for (inches_of, text) in [
            (0.75, "3/4 in"),
            (3.5, "3-1/2 in"),
            (2.0, "2 in"),
            (1.15625, "1-5/32 in"),
            (0.0, "0 in"),
        ] {
            let of = Distance::inches(inches_of);
            assert_eq!(shown(|line| inches(line, of)), text);
        }
        assert_eq!(
            shown(|line| depth(line, Distance::inches(3.5), metric)),
            "89 mm"
        );
        assert_eq!(shown(|line| angle(line, Angle::degrees(8.3))), "8.3 deg");
        assert_eq!(shown(|line| angle(line, Angle::degrees(5.39))), "5.3 deg");
        for (fahrenheit, text) in [(14.0, "-10 C"), (32.0, "0 C"), (70.0, "21 C")] {
            let at = Temperature::fahrenheit(fahrenheit);
            assert_eq!(shown(|line| temperature(line, at, metric)), text);
        }
        for (minutes, text) in [(30.0, "30 min"), (60.0, "1 h"), (90.2, "1 h 31 min")] {
            let time = Duration::minutes(minutes);
            assert_eq!(shown(|line| lasts(line, time)), text);
        }
        assert_eq!(shown(|line| hundredths(line, 150)), "1.5");
        assert_eq!(shown(|line| hundredths(line, 105)), "1.05");
        assert_eq!(
            shown(|line| place(line, Distance::inches(36.0), metric)),
            "0.91 m"
        );
    }
}
