use super::*;
use crate::unit::{Distance, Duration, Flow, Pressure, Speed, Volume};
use proptest::prelude::*;

proptest! {
    /// What runs through in a time is what the length that passed holds.
    #[test]
    fn flow_speed_and_volume_agree(d in 0.5..60.0, v in 0.1..20.0, s in 1.0..1e5) {
        let bore = Distance::inches(d);
        let flow = flow_at(bore, Speed::feet_per_second(v));
        let passed = flow * Duration::seconds(s);
        let stood = held(bore, Distance::feet(v * s));
        prop_assert!((passed / stood - 1.0).abs() < 1e-12);
        prop_assert!((speed_of(flow, bore).in_feet_per_second() / v - 1.0).abs() < 1e-12);
        // The trade's own figures, of 231 in3: 0.0408 d2 gallons to the foot, 2.448 d2 v gpm.
        prop_assert!((per_foot(bore).in_gallons() / (0.0408 * d * d) - 1.0).abs() < 1e-3);
        prop_assert!((flow.in_gpm() / (2.448 * d * d * v) - 1.0).abs() < 1e-3);
    }

    /// A test that is one meets both points, whichever asks for more.
    #[test]
    fn a_test_meets_both_points(working in 10.0..200.0, fall in 0.0..150.0, rating in 50.0..400.0) {
        let psi = Pressure::psi;
        let test = test_pressure(psi(working), psi(fall), 1.25, 1.5, Some(psi(rating)));
        let low = test.least.in_psi();
        prop_assert!(low >= 1.5 * working - 1e-9 && low - fall >= 1.25 * working - 1e-9);
        let slack = (low - 1.5 * working).min(low - fall - 1.25 * working);
        prop_assert!(slack < 1e-9, "no less would do");
        prop_assert_eq!(test.can_be(), low <= rating);
        prop_assert_eq!(test.is(test.least), test.can_be());
        prop_assert!(!test.is(psi(rating + 1.0)) && !test.is(test.least - psi(0.1)));
    }

    /// By length and by joints are one where a joint comes every 20 ft.
    #[test]
    fn both_forms_of_makeup(joints in 1.0..1000.0, d in 2.0..60.0, p in 20.0..400.0) {
        let (d, p) = (Distance::inches(d), Pressure::psi(p));
        let by = by_joints(joints, d, p, 7400.0);
        prop_assert!((by / makeup(Distance::feet(20.0 * joints), d, p, 148_000.0) - 1.0).abs() < 1e-12);
    }
}

#[test]
fn a_loss_in_the_units_of_old_codes() {
    let loss = Loss {
        volume: Volume::gallons(6.0),
        time: Duration::hours(2.0),
    };
    assert!((loss.flow() / Flow::gph(3.0) - 1.0).abs() < 1e-12);
    assert!((loss.per_hundred_joints(50.0).in_gph() - 6.0).abs() < 1e-12);
    let rate = loss.gallons_per_day_mile_inch(Distance::feet(2640.0), Distance::inches(8.0));
    assert!((rate - 72.0 / 0.5 / 8.0).abs() < 1e-9);
}

#[test]
fn a_wall_leaves_a_bore_or_none() {
    let inches = Distance::inches;
    assert!((bore(inches(6.9), inches(0.383)).expect("one").in_inches() - 6.134).abs() < 1e-9);
    assert_eq!(bore(inches(1.0), inches(0.5)), None);
}
