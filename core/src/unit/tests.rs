use proptest::prelude::*;

use super::*;
use crate::Length;

/// Factors as printed in NIST Special Publication 811 (2008), appendix B.8, to the digits given there.
#[test]
fn factors_are_those_of_the_published_table() {
    let close = |ours: f64, printed: f64| {
        assert!(
            (ours / printed - 1.0).abs() < 5e-7,
            "{ours} where {printed} is printed"
        );
    };
    close(Force::lbf(1.0).in_newtons(), 4.448_222);
    close(Pressure::psi(1.0).in_kpa(), 6.894_757);
    close(Pressure::psi(1.0).in_mpa() * 1e3, 6.894_757);
    close(Pressure::bar(1.0).in_kpa(), 100.0);
    close(Pressure::psf(1.0).in_kpa() * 1e3, 47.880_26);
    close(
        LineLoad::lbf_per_foot(1.0).in_kn_per_metre() * 1e3,
        14.593_90,
    );
    close(Torque::foot_pounds(1.0).in_newton_metres(), 1.355_818);
    close(Volume::gallons(1.0).in_litres(), 3.785_412);
    close(Volume::cubic_feet(1.0).in_litres(), 28.316_85);
    close(Volume::cubic_yards(1.0).in_cubic_metres(), 0.764_554_9);
    close(Volume::quarts(1.0).in_litres(), 0.946_352_9);
    close(Area::square_feet(1.0).in_square_metres(), 0.092_903_04);
    close(Area::square_inches(1.0).in_square_mm(), 645.16);
    close(Flow::gpm(1.0).in_litres_per_second() * 1e2, 6.309_020);
    close(Speed::feet_per_second(1.0).in_metres_per_second(), 0.3048);
    close(
        UnitWeight::pcf(1.0).in_kn_per_cubic_metre(),
        16.018_46 * 9.806_65e-3,
    );
    close(
        Acceleration::feet_per_second_squared(1.0).in_metres_per_second_squared(),
        0.3048,
    );
    close(Distance::feet(1.0).in_metres(), 0.3048);
    close(Temperature::celsius(38.0).in_fahrenheit(), 100.4);
}

#[test]
fn products_are_of_the_type_that_they_are() {
    let area = Area::circle(Distance::inches(12.0));
    let push: Force = Pressure::psi(100.0) * area;
    assert!((push.in_lbf() - 11_309.73).abs() < 0.01);
    let soil: Pressure = UnitWeight::pcf(100.0) * Distance::feet(3.0);
    assert!((soil.in_psf() - 300.0).abs() < 1e-9);
    let load: LineLoad = soil * Distance::feet(1.0);
    assert!((load.in_lbf_per_foot() - 300.0).abs() < 1e-9);
    let length: Distance = push / load;
    assert!((length.in_feet() - 37.699).abs() < 1e-3);
    let flow: Flow = area * Speed::feet_per_second(1.0);
    assert!((flow.in_gpm() - 352.5).abs() < 0.1);
    let water: Volume = flow * Duration::minutes(2.0);
    assert!((water.in_gallons() - 705.0).abs() < 0.2);
    let fallen: Speed = Acceleration::GRAVITY * Duration::seconds(1.0);
    assert!((fallen.in_feet_per_second() - 32.174).abs() < 1e-3);
}

#[test]
fn a_length_is_the_same_distance() {
    assert!(
        (Distance::from(Length::from_counts(Length::INCH * 3)).in_inches() - 3.0).abs() < 1e-12
    );
}

#[test]
fn lengths_go_up_to_marks_of_a_tape() {
    let mark = Distance::inches(1.0 / 32.0);
    assert!((Distance::inches(1.01).up_to(mark).in_inches() - 1.03125).abs() < 1e-12);
    assert!((Distance::inches(1.03125).up_to(mark).in_inches() - 1.03125).abs() < 1e-12);
    assert!((Distance::inches(1.01).to_nearest(mark).in_inches() - 1.0).abs() < 1e-12);
}

proptest! {
    /// Each unit gives back what was put in.
    #[test]
    fn in_and_out(value in -1e6..1e6_f64) {
        let same = |other: f64| prop_assert_close(value, other);
        same(Pressure::kpa(value).in_kpa())?;
        same(Pressure::psf(value).in_psf())?;
        same(Force::kn(value).in_kn())?;
        same(Distance::metres(value).in_metres())?;
        same(Volume::cubic_metres(value).in_cubic_metres())?;
        same(Flow::litres_per_second(value).in_litres_per_second())?;
        same(Torque::newton_metres(value).in_newton_metres())?;
        same(Temperature::celsius(value).in_celsius())?;
        same(LineLoad::kn_per_metre(value).in_kn_per_metre())?;
        same(UnitWeight::kn_per_cubic_metre(value).in_kn_per_cubic_metre())?;
    }

    /// The tangent that is a quotient is that of the standard library.
    #[test]
    fn tangents(degrees in -89.0..89.0_f64) {
        prop_assert_close(Angle::degrees(degrees).tan(), degrees.to_radians().tan())?;
    }
}

fn prop_assert_close(a: f64, b: f64) -> Result<(), TestCaseError> {
    prop_assert!((a - b).abs() <= 1e-9 * (1.0 + a.abs()), "{} and {}", a, b);
    Ok(())
}

/// Against the system's own functions, of radians, every hundredth of a degree twice round both ways; and exactly where it is known.
#[test]
fn sines_and_cosines() {
    let mut most: f64 = 0.0;
    for step in -72_000..=72_000 {
        let degrees = f64::from(step) / 100.0;
        let angle = Angle::degrees(degrees);
        let (sin, cos) = degrees.to_radians().sin_cos();
        most = most
            .max((angle.sin() - sin).abs())
            .max((angle.cos() - cos).abs());
    }
    // Radians of two turns are off by 1e-15 themselves.
    assert!(most < 2e-15, "{most:e}");
    for (degrees, sin, cos) in [
        (0.0, 0.0, 1.0),
        (90.0, 1.0, 0.0),
        (-90.0, -1.0, 0.0),
        (180.0, 0.0, -1.0),
    ] {
        let angle = Angle::degrees(degrees);
        assert!((angle.sin() - sin).abs() < 1e-300 && (angle.cos() - cos).abs() < 1e-300);
    }
    assert!((Angle::degrees(30.0).sin() - 0.5).abs() < 1e-15);
}
