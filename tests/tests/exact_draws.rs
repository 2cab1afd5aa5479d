//! The exact law against seeded draws of the generative model.
//!
//! The draws go from the pipe to the reading, step by step as the model tells
//! it, and use nothing of the law's own arithmetic. In a few places the law
//! takes a shorter way (growth as a fraction of the nominal OD, the factor of
//! a chord from the chord as read); the draws take the long one.

use std::f64::consts::PI;

mod draws;

use draws::{Pipe, Random};
use springline_tests::exact::{Model, Query, Reading, Row, density};

const DRAWS: usize = 200_000;

fn row<'a>(model: &'a Model, family: &str, nominal: &str) -> &'a Row {
    model
        .rows
        .iter()
        .find(|r| r.family().name == family && r.nominal == nominal)
        .expect("a listed row")
}

/// Weights and places of three points of Gauss on -1..1, as printed in any
/// handbook of mathematics.
const THREE: [(f64, f64); 3] = [
    (-0.774_596_669_241_483_4, 5.0 / 9.0),
    (0.0, 8.0 / 9.0),
    (0.774_596_669_241_483_4, 5.0 / 9.0),
];

/// Mean over a box of what `f` says of the point.
fn box_mean(center: &[f64], half: &[f64], f: &mut dyn FnMut(&[f64]) -> f64) -> f64 {
    fn level(
        point: &mut Vec<f64>,
        center: &[f64],
        half: &[f64],
        f: &mut dyn FnMut(&[f64]) -> f64,
    ) -> f64 {
        let at = point.len();
        if at == center.len() {
            return f(point);
        }
        let mut sum = 0.0;
        for (x, weight) in THREE {
            point.push(center[at] + x * half[at]);
            sum += weight / 2.0 * level(point, center, half, f);
            point.pop();
        }
        sum
    }
    level(&mut Vec::new(), center, half, f)
}

/// Counts draws in boxes about some of the draws themselves, and compares
/// with the integral of the density over each box.
fn compare(
    what: &str,
    row: &Row,
    half: &[f64],
    told: Option<f64>,
    draw: impl Fn(&Pipe, &mut Random) -> Vec<f64>,
    reading: impl Fn(&[f64]) -> Reading,
) {
    const BOXES: usize = 16;
    let model = Model::new();
    let mut random = Random(0x9E37_79B9_7F4A_7C15);
    let mut next = || {
        let pipe = Pipe::draw(row, told, &mut random);
        draw(&pipe, &mut random)
    };
    let centers: Vec<Vec<f64>> = (0..BOXES).map(|_| next()).collect();
    let mut counts = [0_u32; BOXES];
    for _ in 0..DRAWS {
        let point = next();
        for (count, center) in counts.iter_mut().zip(&centers) {
            let mut sides = point.iter().zip(center).zip(half);
            if sides.all(|((p, c), h)| (p - c).abs() <= *h) {
                *count += 1;
            }
        }
    }
    let volume: f64 = half.iter().map(|h| 2.0 * h).product();
    let draws = f64::from(u32::try_from(DRAWS).expect("fits"));
    let mut square = 0.0;
    for (count, center) in counts.into_iter().zip(&centers) {
        let mean = box_mean(center, half, &mut |point| {
            let mut query = Query::new(reading(point));
            query.temperature = told;
            density(&model, &query, row)
        });
        let expected = mean * volume * draws;
        let error = (f64::from(count) - expected) / expected.max(1.0).sqrt();
        println!("{what}: at {center:.3?} drawn {count}, expected {expected:.1} ({error:+.2})");
        // Four standard errors, and one part in a hundred for the shorter ways.
        let room = 4.0 * expected.max(1.0).sqrt() + 0.01 * expected;
        assert!(
            (f64::from(count) - expected).abs() < room,
            "{what}: {center:?}"
        );
        square += error * error;
    }
    println!("{what}: mean square error {:.2}", square / 16.0);
}

#[test]
fn one_diameter() {
    let model = Model::new();
    let unknown = |pipe: &Pipe, random: &mut Random| {
        let angle = random.direction();
        vec![pipe.caliper(angle, random)]
    };
    for (family, nominal, told) in [
        ("pip", "12", None),
        ("cast-iron", "6", None),
        ("c900", "6", None),
        ("gas-pe", "12", Some(110.0)),
        ("conduit", "1/2", None),
    ] {
        let row = row(&model, family, nominal);
        let half = [0.0015 * row.od];
        compare(family, row, &half, told, unknown, |y| {
            Reading::caliper(y[0])
        });
    }
    let on_top = |pipe: &Pipe, random: &mut Random| {
        let angle = random.between(-15.0, 15.0).to_radians();
        vec![pipe.caliper(angle, random)]
    };
    let pip = row(&model, "pip", "12");
    compare("pip at 12", pip, &[0.02], None, on_top, |y| {
        Reading::Diameters(vec![(y[0], Some(12))])
    });
}

/// The whole distribution function of one law, not only pieces of it.
#[test]
fn distribution_of_one_diameter() {
    let model = Model::new();
    let pip = row(&model, "pip", "12");
    let mut random = Random(0x1234_5678_9ABC_DEF1);
    let mut drawn: Vec<f64> = (0..DRAWS)
        .map(|_| {
            let pipe = Pipe::draw(pip, None, &mut random);
            let angle = random.direction();
            pipe.caliper(angle, &mut random)
        })
        .collect();
    drawn.sort_by(f64::total_cmp);
    let total = f64::from(u32::try_from(DRAWS).expect("fits"));
    let (mut cdf, mut worst) = (0.0_f64, 0.0_f64);
    for step in 0..250 {
        let lo = 11.0 + 0.01 * f64::from(step);
        let mean = box_mean(&[lo + 0.005], &[0.005], &mut |y| {
            density(&model, &Query::new(Reading::caliper(y[0])), pip)
        });
        cdf += 0.01 * mean;
        let below = drawn.partition_point(|&y| y <= lo + 0.01);
        let share = f64::from(u32::try_from(below).expect("fits")) / total;
        worst = worst.max((cdf - share).abs());
    }
    println!("largest difference of the distribution function {worst:.5}");
    assert!((cdf - 1.0).abs() < 1e-4, "the law sums to {cdf}");
    // Kolmogorov's bound for one case in a thousand is 1.95 / √n.
    assert!(worst < 1.95 / total.sqrt(), "{worst}");
}

#[test]
fn crossed_diameters() {
    let model = Model::new();
    let clocked = |hours: Vec<u8>| {
        move |pipe: &Pipe, random: &mut Random| {
            let off = random.between(-15.0, 15.0);
            let across = |h: &u8| pipe.caliper((30.0 * f64::from(*h) + off).to_radians(), random);
            hours.iter().map(across).collect()
        }
    };
    let reading = |hours: Vec<u8>| {
        move |y: &[f64]| {
            let each = y.iter().zip(&hours).map(|(y, h)| (*y, Some(*h)));
            Reading::Diameters(each.collect())
        }
    };
    for (family, nominal, hours, half) in [
        ("pip", "12", vec![3, 12], vec![0.04, 0.04]),
        ("ips-pvc", "6", vec![12, 2], vec![0.015, 0.015]),
        ("cast-iron", "6", vec![3, 12], vec![0.015, 0.015]),
        ("hdpe-ips", "8", vec![12, 2, 4], vec![0.04, 0.04, 0.04]),
    ] {
        let row = row(&model, family, nominal);
        let draw = clocked(hours.clone());
        compare(family, row, &half, None, draw, reading(hours));
    }
}

#[test]
fn two_unknown_directions() {
    let model = Model::new();
    let draw = |pipe: &Pipe, random: &mut Random| {
        let (one, other) = (random.direction(), random.direction());
        vec![pipe.caliper(one, random), pipe.caliper(other, random)]
    };
    for (family, nominal, half) in [("pip", "12", 0.03), ("c900", "6", 0.008)] {
        let row = row(&model, family, nominal);
        compare(family, row, &[half, half], None, draw, |y| {
            Reading::Diameters(vec![(y[0], None), (y[1], None)])
        });
    }
}

#[test]
fn tapes() {
    let model = Model::new();
    let tape = |pipe: &Pipe, random: &mut Random| {
        let d = pipe.diameter;
        vec![random.normal(d, 0.004 + 0.0002 * d)]
    };
    for (family, nominal, told) in [
        ("ductile-iron", "8", None),
        ("gas-pe", "12", None),
        ("gas-pe", "12", Some(100.0)),
    ] {
        let row = row(&model, family, nominal);
        compare(family, row, &[0.006], told, tape, |y| {
            Reading::DiameterTape(y[0])
        });
    }
    // Rounded readings come on a lattice: a box that is just as wide as one
    // step, its middle on the lattice, and flat, holds one reading.
    let steel = |pipe: &Pipe, random: &mut Random| {
        let tilt = random.normal(0.0, 1.2_f64.to_radians());
        let around = PI * (pipe.diameter + random.normal(0.008, 0.002)) / tilt.cos();
        vec![(random.normal(around, 0.030) * 16.0).round() / 16.0]
    };
    let string = |pipe: &Pipe, random: &mut Random| {
        let stretch = random.normal(1.0, 0.003);
        let around = PI * (pipe.diameter * stretch + random.normal(0.04, 0.02));
        vec![(random.normal(around, 0.060) * 8.0).round() / 8.0]
    };
    let onto = |y: f64, steps: f64| (y * steps).round() / steps;
    let pip = row(&model, "pip", "15");
    compare("steel tape", pip, &[1.0 / 32.0], None, steel, |y| {
        Reading::SteelTape(onto(y[0], 16.0))
    });
    let c900 = row(&model, "c900", "12");
    compare("string", c900, &[1.0 / 16.0], None, string, |y| {
        Reading::String(onto(y[0], 8.0))
    });
}

/// The factor of a chord, written out from the rise and the diameter.
fn factor(diameter: f64, rise: f64) -> f64 {
    let q = ((diameter - rise) / rise).sqrt();
    let a = 2.0 * (1.0 / q).atan();
    let (sin, cos) = a.sin_cos();
    let twice = (2.0 * a).cos();
    0.5 * (2.0 * q * twice * sin + (1.0 - q * q) * (1.0 - twice * cos)).abs()
}

#[test]
fn chords() {
    let model = Model::new();
    let in_trench = |pipe: &Pipe, random: &mut Random| {
        let share = random.between(0.10, 0.40);
        let k = factor(1.0, share);
        let d = pipe.across(PI / 2.0, k);
        let chord = 2.0 * d * (share * (1.0 - share)).sqrt();
        vec![random.normal(chord, 0.06), random.normal(share * d, 0.045)]
    };
    for (family, nominal, half) in [("c900", "6", 0.1), ("pip", "12", 0.2)] {
        let row = row(&model, family, nominal);
        compare(family, row, &[half, half / 2.0], None, in_trench, |y| {
            Reading::ChordRise {
                chord: y[0],
                rise: y[1],
            }
        });
    }
    let depth = 40.0 / 25.4;
    let jaws = |pipe: &Pipe, random: &mut Random| {
        let angle = random.direction();
        let jaw = random.normal(depth, 0.02);
        // The factor is that of the arc as it is, already bent.
        let mut d = pipe.diameter;
        for _ in 0..30 {
            d = pipe.across(angle, factor(d, jaw));
        }
        let chord = 2.0 * (jaw * (d - jaw)).sqrt();
        vec![random.normal(chord, 0.003 + 0.0003 * chord)]
    };
    for (family, nominal) in [("pip", "12"), ("ductile-iron", "6")] {
        let row = row(&model, family, nominal);
        compare(family, row, &[0.02], None, jaws, |y| Reading::ShortJaw {
            chord: y[0],
            depth,
            hour: None,
        });
    }
}
