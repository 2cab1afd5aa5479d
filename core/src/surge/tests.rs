use super::*;
use crate::unit::{Acceleration, Distance, Duration, Pressure, Speed, UnitWeight};
use proptest::prelude::*;

/// The peak at the valve of a level line without friction that is fed by a tank, in head above the steady one: the method of
/// characteristics on a grid of reaches, each as long as a wave goes in a step.
fn peak(length: f64, wave: f64, speed: f64, time: f64, gravity: f64) -> f64 {
    const REACHES: usize = 200;
    let step = length / wave / REACHES as f64;
    let impedance = wave / gravity;
    let (mut head, mut flow) = ([0.0; REACHES + 1], [speed; REACHES + 1]);
    let mut highest: f64 = 0.0;
    let steps = ((time + 6.0 * length / wave) / step) as usize;
    for n in 1..=steps {
        let (was_head, was_flow) = (head, flow);
        for at in 1..REACHES {
            // Along the lines from either side.
            let plus = was_head[at - 1] + impedance * was_flow[at - 1];
            let minus = was_head[at + 1] - impedance * was_flow[at + 1];
            head[at] = f64::midpoint(plus, minus);
            flow[at] = (plus - minus) / (2.0 * impedance);
        }
        // The tank keeps its head.
        flow[0] = (head[0] - (was_head[1] - impedance * was_flow[1])) / impedance;
        // The valve says how much passes.
        let passed = 1.0 - (n as f64 * step / time).min(1.0);
        flow[REACHES] = speed * passed;
        let plus = was_head[REACHES - 1] + impedance * was_flow[REACHES - 1];
        head[REACHES] = plus - impedance * flow[REACHES];
        highest = highest.max(head[REACHES]);
    }
    highest
}

const FPS: fn(f64) -> Speed = Speed::feet_per_second;

proptest! {
    /// A stop at once, and an even closure of any time, against the characteristics. Closures of a whole number of critical
    /// times and between them: the highest of them all is met first, so that the formula holds everywhere.
    #[test]
    fn closures_are_those_of_the_characteristics(
        length in 100.0..5000.0, wave in 700.0..4600.0, speed in 0.5..10.0, times in 0.05..8.0,
    ) {
        let gravity = Acceleration::GRAVITY;
        let time = times * 2.0 * length / wave;
        let ours = closing(
            Distance::feet(length), FPS(wave), FPS(speed), Duration::seconds(time), gravity,
        );
        let oracle = peak(length, wave, speed, time, gravity.in_feet_per_second_squared());
        // The grid knows the end of a closure to a step.
        prop_assert!((ours.head.in_feet() / oracle - 1.0).abs() < 0.01, "{ours:?} {oracle}");
        prop_assert_eq!(ours.at_once, times <= 1.0);
    }

    /// The wave speed is that of a wall and a bore that store as much as the formula says: from the volume that a length of
    /// line takes up under one psi.
    #[test]
    fn a_wave_is_as_slow_as_the_line_stores(
        od in 1.0..48.0, dr in 9.0..64.0, bulk in 250e3..350e3, stiffness in 1e5..3e7, held in 0.8..1.0,
    ) {
        let (weight, gravity) = (UnitWeight::pcf(62.4), Acceleration::GRAVITY);
        let wall = od / dr;
        let bore = od - 2.0 * wall;
        let water = Water {
            sound: sound(Pressure::psi(bulk), weight, gravity),
            bulk: Pressure::psi(bulk),
        };
        let shell = Shell::of(
            Distance::inches(od), Distance::inches(wall), Pressure::psi(stiffness), held,
        ).expect("a bore");
        let area = |d: f64| core::f64::consts::FRAC_PI_4 * d * d;
        // One psi squeezes the water and widens the bore by its hoop strain, 1·d/(2·t·E).
        let small = 1e-3;
        let strain = small * bore / (2.0 * wall * stiffness) * held;
        let stored = (area(bore * (1.0 + strain)) - area(bore)) / area(bore) + small / bulk;
        let (density, modulus) = (62.4 / gravity.in_feet_per_second_squared(), small / stored * 144.0);
        let want = (modulus / density).sqrt();
        let got = wave_speed(&water, &shell).in_feet_per_second();
        prop_assert!((got / want - 1.0).abs() < 1e-4, "{got} {want}");
    }

    /// What is asked for more is never less: a faster wave, faster water, a thicker wall, a quicker closure.
    #[test]
    fn surge_grows(dr in 10.0..60.0, more in 1.01..3.0, speed in 0.1..10.0) {
        let water = Water { sound: FPS(4660.0), bulk: Pressure::psi(300e3) };
        let of = |dr: f64| {
            let shell = Shell { ratio: dr - 2.0, stiffness: Pressure::psi(4e5), anchorage: 1.0 };
            rise(wave_speed(&water, &shell), FPS(speed), Acceleration::GRAVITY)
        };
        prop_assert!(of(dr) > of(dr * more));
        let close = |t: f64| closing(
            Distance::feet(1000.0), FPS(1300.0), FPS(speed), Duration::seconds(t), Acceleration::GRAVITY,
        ).head;
        prop_assert!(close(more) >= close(more * 1.3));
    }

    #[test]
    fn stress_and_pressure_are_each_others_inverse(psi in 1.0..1000.0, dr in 9.0..64.0) {
        let back = hoop_pressure(hoop_stress(Pressure::psi(psi), dr), dr);
        prop_assert!((back.in_psi() / psi - 1.0).abs() < 1e-12);
    }
}

#[test]
fn at_the_critical_time_both_formulas_agree() {
    let (length, wave, speed) = (Distance::feet(1000.0), FPS(1300.0), FPS(5.0));
    let time = critical_time(length, wave);
    let whole = rise(wave, speed, Acceleration::GRAVITY);
    assert!((slow(length, speed, time, Acceleration::GRAVITY) / whole - 1.0).abs() < 1e-12);
    assert!(closing(length, wave, speed, time, Acceleration::GRAVITY).at_once);
}

#[test]
fn what_is_no_pipe_has_no_shell() {
    let of = |od, wall| {
        Shell::of(
            Distance::inches(od),
            Distance::inches(wall),
            Pressure::psi(4e5),
            1.0,
        )
    };
    assert_eq!(of(6.9, 0.0), None);
    assert_eq!(of(6.9, 3.45), None);
    assert!(of(6.9, 0.383).is_some());
}

#[test]
fn a_class_and_its_limits() {
    let limit = Limit {
        recurring: 1.0,
        occasional: 1.6,
        allowance: Pressure::ZERO,
    };
    let psi = Pressure::psi;
    let of = |working, left| {
        held_against(
            psi(235.0),
            left,
            psi(working),
            [psi(30.0), psi(122.0)],
            &limit,
        )
        .map(|check| check.holds())
    };
    assert_eq!(of(160.0, 1.0), [true, true, true]);
    assert_eq!(of(220.0, 1.0), [true, false, true]);
    assert_eq!(of(160.0, 0.62), [false, false, false]);
    let iron = Limit {
        occasional: 1.0,
        allowance: psi(100.0),
        ..limit
    };
    let [_, recurring, _] = held_against(psi(350.0), 1.0, psi(350.0), [psi(100.0); 2], &iron);
    assert!(recurring.holds());
}
