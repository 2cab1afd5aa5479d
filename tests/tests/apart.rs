//! Two diameters at right angles of which nobody told how they lie, and a reading a foot along, against plain draws.
//!
//! The draws are of the probability model itself (uniform band, heat, coat, out-of-round, squash, direction), with none of the
//! core's mixtures; the constants of families are those that the exact law has typed a second time. What is of no barrel is
//! added in closed form by the same model: .0035 of places are of a bell, even from 1.05 to 1.30 of the OD, .0015 of readings are
//! misread, log-uniform .5 to 72 in.

mod draws;

use std::f64::consts::PI;

use draws::{Pipe, Random};
use springline_core::identify::{Answer, Outcome, identify};
use springline_core::image::Image;
use springline_core::reading::{Clock, Query, Reading};
use springline_tables::IMAGE;
use springline_tests::exact::{Model, Row};
use springline_tests::{dia, draft, inches, reference, share, weight};

/// Pipes drawn of each row.
const DRAWS: u32 = 60_000;

fn answer(image: &Image<'_>, readings: &[Reading]) -> Answer {
    let mut query = Query::new();
    for reading in readings {
        query.add(*reading).expect("room for the readings");
    }
    identify(image, &query).expect("usable readings")
}

fn across(value: f64) -> Reading {
    Reading::Diameter {
        value: inches(value),
        clock: Some(Clock::ACROSS),
        jaw: None,
        sigma: None,
    }
}

fn along(value: f64) -> Reading {
    Reading::Along {
        value: inches(value),
        clock: None,
        jaw: None,
        sigma: None,
    }
}

fn normal(x: f64, at: f64, sd: f64) -> f64 {
    let z = (x - at) / sd;
    libm::exp(-z * z / 2.0) / (sd * (2.0 * PI).sqrt())
}

/// The chance that a caliper shows this on a diameter.
fn shows(value: f64, diameter: f64) -> f64 {
    normal(value, diameter, 0.003 + 0.0003 * diameter)
}

/// How likely two readings are on a pipe of a row, drawn `DRAWS` times.
fn likelihood(row: &Row, first: f64, second: f64, is_along: bool) -> f64 {
    let mut random = Random(0x5EED_0BAD_CAFE_0001 ^ row.od.to_bits());
    let (mut both, mut here, mut there) = (0.0, 0.0, 0.0);
    for _ in 0..DRAWS {
        let pipe = Pipe::draw(row, None, &mut random);
        let angle = random.direction();
        let a = shows(first, pipe.across(angle, 1.0));
        let b = if is_along {
            let angle = random.direction();
            shows(second, pipe.along(&mut random).across(angle, 1.0))
        } else {
            shows(second, pipe.across(angle + PI / 2.0, 1.0))
        };
        both += a * b;
        here += a;
        there += b;
    }
    let count = f64::from(DRAWS);
    let mut sum = both / count;
    if is_along {
        // One of the two places is of no barrel.
        sum += not_of_barrel(first, row.od) * there / count;
        sum += not_of_barrel(second, row.od) * here / count;
    }
    sum
}

fn not_of_barrel(value: f64, od: f64) -> f64 {
    let bell = if (1.05 * od..=1.30 * od).contains(&value) {
        0.0035 / (0.25 * od)
    } else {
        0.0
    };
    bell + 0.0015 / (value * (72.0f64 / 0.5).ln())
}

/// The largest difference between the engine's share of a row among all listed ones and that of the draws.
fn worst(model: &Model, image: &Image<'_>, first: f64, second: f64, is_along: bool) -> f64 {
    let other = if is_along { along } else { across };
    let found = answer(image, &[dia(first), other(second)]);
    let near = |row: &&Row| {
        let close = |value: f64| (row.od / value - 1.0).abs() < 0.09;
        close(first) || close(second)
    };
    let rows: Vec<&Row> = model.rows.iter().filter(near).collect();
    let masses: Vec<f64> = rows
        .iter()
        .map(|row| row.unknown_prior * likelihood(row, first, second, is_along))
        .collect();
    let total: f64 = masses.iter().sum();
    let listed: f64 = found
        .candidates()
        .iter()
        .map(|candidate| share(candidate.weight.q30()))
        .sum::<f64>()
        + share(found.rest.q30());
    let mut sums: Vec<(String, f64)> = Vec::new();
    for (row, mass) in rows.iter().zip(&masses) {
        let name = format!("{} {}", row.family().name, row.nominal);
        match sums.iter_mut().find(|(held, _)| *held == name) {
            Some((_, sum)) => *sum += mass / total,
            None => sums.push((name, mass / total)),
        }
    }
    let mut worst = 0.0f64;
    for (name, want) in &sums {
        let (family, nominal) = name.split_once(' ').expect("two words");
        let got = weight(image, &found, family, nominal) / listed;
        // What is too small to list is in the rest.
        if got == 0.0 && *want < 0.002 {
            continue;
        }
        if (got - want).abs() > 0.01 {
            println!("{first} and {second}: {name} {got:.4}, drawn {want:.4}");
        }
        worst = worst.max((got - want).abs());
    }
    worst
}

/// At right angles at no told hour: within .015 of plain draws in every share.
#[test]
fn an_untold_crossing_is_weighed_as_drawn() {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let model = Model::new();
    let mut all = 0.0f64;
    for (first, second) in [
        (6.90, 6.90),
        (6.93, 6.87),
        (12.60, 11.88),
        (11.88, 12.60),
        (12.75, 12.75),
        (8.66, 8.56),
        (15.35, 15.25),
        (4.52, 4.47),
    ] {
        all = all.max(worst(&model, &image, first, second, false));
    }
    println!("an untold crossing: shares off by at most {all:.4}");
    assert!(all < 0.015, "{all}");
}

/// A foot along: within .03 of plain draws in every share, whether both are of the barrel, one of a bell, or one misread.
#[test]
fn a_foot_along_is_weighed_as_drawn() {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let model = Model::new();
    let mut all = 0.0f64;
    for (first, second) in [
        (6.90, 6.905),
        (6.90, 6.91),
        (8.20, 6.90),
        (6.90, 8.20),
        (12.60, 12.35),
        (8.70, 8.62),
        (15.30, 15.32),
        (7.60, 6.90),
    ] {
        all = all.max(worst(&model, &image, first, second, true));
    }
    println!("a foot along: shares off by at most {all:.4}");
    assert!(all < 0.03, "{all}");
}

/// The same diameters with and without their hours: told ones say more of the squash, untold ones no less of the size.
#[test]
fn an_untold_crossing_cancels_the_squash() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let untold = answer(&image, &[dia(12.6), across(11.88)]);
    assert!(weight(&image, &untold, "pip", "12") > 0.98);
    assert_eq!(untold.od, answer(&image, &[dia(11.88), across(12.6)]).od);
    // Across a diameter whose hour was told it is at the hour three on.
    let told = |clock: Clock| Reading::Diameter {
        value: inches(12.6),
        clock: Some(clock),
        jaw: None,
        sigma: None,
    };
    let at = |clock: Clock| Reading::Diameter {
        value: inches(11.88),
        clock: Some(clock),
        jaw: None,
        sigma: None,
    };
    let three = Clock::half_hours(6);
    let twelve = Clock::half_hours(0);
    assert_eq!(
        answer(&image, &[told(three), across(11.88)]),
        answer(&image, &[told(three), at(twelve)])
    );
}

/// A bell first and the barrel a foot along: the barrel is what it is, whichever was read first, and that is no disagreement.
#[test]
fn a_bell_is_mended_a_foot_along() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let alone = answer(&image, &[dia(7.60)]);
    assert_eq!(alone.outcome, Outcome::Outside);
    for (first, second) in [(7.60, 6.90), (6.90, 7.60)] {
        let both = answer(&image, &[dia(first), along(second)]);
        assert_eq!(both.outcome, Outcome::Split, "{first} {second}");
        assert!(!both.disagreement);
        assert!(weight(&image, &both, "c900", "6") > 0.4);
        assert!((f64::from(both.od.mils()) - 6900.0).abs() < 10.0);
    }
    // Two places that are of no listed barrel are of none.
    let neither = answer(&image, &[dia(7.60), along(7.61)]);
    assert_eq!(neither.outcome, Outcome::Outside);
}

/// Readings of one place that no pipe gives together are taken again, whatever the other place says.
#[test]
fn a_place_at_odds_is_not_mended_by_another() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let at = |value: f64, hour: u8| Reading::Diameter {
        value: inches(value),
        clock: Some(Clock::half_hours(2 * hour)),
        jaw: None,
        sigma: None,
    };
    for readings in [
        &[at(2.698, 3), at(5.021, 12), along(5.064)][..],
        &[at(1.304, 12), at(6.974, 2), at(6.929, 4), along(6.854)],
    ] {
        let odd = answer(&image, readings);
        assert!(odd.disagreement);
        assert_eq!(odd.outcome, Outcome::Outside);
    }
}

/// With both diameters along and none before, they are of one place.
#[test]
fn readings_of_one_place_are_the_same_wherever_that_is() {
    let image = Image::new(IMAGE).expect("the built-in image");
    assert_eq!(
        answer(&image, &[along(6.9)]).candidates(),
        answer(&image, &[dia(6.9)]).candidates()
    );
}
