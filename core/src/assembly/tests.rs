use proptest::prelude::*;

use super::*;
use crate::unit::{Angle, Distance, Warming};

fn inches(value: f64) -> Distance {
    Distance::inches(value)
}

#[test]
fn orders_that_are_known() {
    // Common practice, no source.
    let order = |bolts| star(bolts).collect::<Vec<_>>();
    assert_eq!(order(2), [1, 2]);
    assert_eq!(order(4), [1, 3, 2, 4]);
    assert_eq!(order(6), [1, 4, 3, 6, 2, 5]);
    assert_eq!(order(8), [1, 5, 3, 7, 2, 6, 4, 8]);
    assert_eq!(order(12), [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]);
    assert_eq!(
        order(16),
        [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16]
    );
    assert_eq!(
        order(20),
        [
            1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19
        ]
    );
    assert_eq!(order(0), []);
}

proptest! {
    /// Every bolt once, each pair across from each other, the next pair about a quarter turn on.
    #[test]
    fn stars(half in 1..60_u8) {
        let bolts = 2 * half;
        let order: Vec<u8> = star(bolts).collect();
        let mut sorted = order.clone();
        sorted.sort_unstable();
        prop_assert_eq!(sorted, (1..=bolts).collect::<Vec<_>>());
        for pair in order.chunks(2) {
            prop_assert_eq!(pair[0].abs_diff(pair[1]), half, "{:?}", &order);
        }
        if half >= 4 {
            let step = f64::from(order[2].abs_diff(order[0])) / f64::from(bolts);
            prop_assert!((0.2..0.33).contains(&step), "{}", step);
            // No two that are tightened one after the other are neighbours, but where nothing else is left.
            let beside = order.windows(2).filter(|two| two[0].abs_diff(two[1]) == 1).count();
            prop_assert_eq!(beside, 0, "{:?}", &order);
        }
    }

    /// The end of a turned stick lies on the circle that its radius draws, and its offset is what a plumb line shows.
    #[test]
    fn turns(length in 5.0..50.0_f64, degrees in 0.1..10.0_f64) {
        let turn = Turn { stick: Distance::feet(length), angle: Angle::degrees(degrees) };
        let delta = degrees.to_radians();
        prop_assert!((turn.offset().in_feet() - length * delta.tan()).abs() < 1e-9);
        // Sticks are chords: each spans δ as seen from the centre.
        let radius = turn.radius().in_feet();
        let chord = ((radius * delta.sin()).powi(2) + (radius - radius * delta.cos()).powi(2)).sqrt();
        prop_assert!((chord - length).abs() < 1e-6, "{} and {}", chord, length);
        let joints = turn.joints(Angle::degrees(45.0)).unwrap();
        prop_assert!(f64::from(joints) * degrees >= 45.0 - 1e-6);
        prop_assert!(f64::from(joints - 1) * degrees < 45.0);
    }

    /// More to hold together takes a longer bolt, a stud one nut and its thread more than a bolt.
    #[test]
    fn grips(one in 0.5..4.0_f64, other in 0.5..4.0_f64, between in 0.0..10.0_f64, washers in 0.0..1.0_f64, sixteenths in 8..32_u8) {
        let d = f64::from(sixteenths) / 16.0;
        let grip = Grip { flanges: [inches(one), inches(other)], between: inches(between), washers: inches(washers) };
        let (bolt, stud) = (grip.bolt(inches(d)).in_inches(), grip.stud(inches(d)).in_inches());
        prop_assert!((bolt - (one + other + between + washers + d + d / 3.0)).abs() < 1e-9);
        prop_assert!((stud - bolt - (d + d / 3.0)).abs() < 1e-9);
        let swapped = Grip { flanges: [inches(other), inches(one)], ..grip };
        prop_assert!((swapped.bolt(inches(d)).in_inches() - bolt).abs() < 1e-9);
    }

    /// Cooling by as much takes back what warming gave.
    #[test]
    fn movements(feet in 1.0..1000.0_f64, degrees in 0.0..100.0_f64) {
        let length = Distance::feet(feet);
        let warm = movement(length, Warming::fahrenheit(degrees), 3e-5);
        let cool = movement(length, Warming::fahrenheit(-degrees), 3e-5);
        prop_assert!((warm + cool).in_inches().abs() < 1e-9);
        prop_assert!((warm.in_inches() - feet * 12.0 * degrees * 3e-5).abs() < 1e-9);
    }
}

#[test]
fn nothing_turned_and_nothing_left() {
    let straight = Turn {
        stick: Distance::feet(20.0),
        angle: Angle::ZERO,
    };
    assert_eq!(straight.joints(Angle::degrees(10.0)), None);
    assert!(!straight.radius().is_finite());
    assert_eq!(straight.offset(), Distance::ZERO);
    assert_eq!(mark(inches(4.0), inches(0.5)), Some(inches(3.5)));
    assert_eq!(mark(inches(0.5), inches(0.5)), None);
}

#[test]
fn nominal_sizes() {
    assert_eq!(Nominal::of_measure(96), Some(Nominal::quarters(6)));
    assert_eq!(Nominal::of_measure(8), None, "1/8 in");
    assert_eq!(Nominal::of_measure(64 * 66), None, "66 in");
    assert!((Nominal::quarters(10).in_inches() - 2.5).abs() < 1e-12);
}

#[test]
fn hexagons() {
    // From memory: heavy hex across flats, ASME B18.2.2.
    for (bolt, flats) in [(0.625, 1.0625), (0.75, 1.25), (1.0, 1.625), (1.25, 2.0)] {
        assert!((across_flats(inches(bolt), true).in_inches() - flats).abs() < 1e-12);
    }
}
