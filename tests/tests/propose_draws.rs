//! Readings as checks against seeded draws: pipes that give the first reading are measured again, and what that settles is
//! counted. The draws know nothing of the engine; they are those of the exact law.

mod draws;

use std::f64::consts::PI;

use draws::{Pipe, Random};
use springline_core::clue::Clues;
use springline_core::identify::{Answer, Cannot, Check, Outcome, Trench, identify, propose};
use springline_core::image::Image;
use springline_core::joint::Job;
use springline_core::reading::{Clock, Query, Reading};
use springline_tests::exact::{Model, Row};
use springline_tests::{dia, draft, inches, reference, share};

/// A trench in which everything can be reached.
const DUG: Trench = Trench {
    dug: true,
    cut_end: true,
};

/// Pipes that are measured again for each reading.
const PIPES: u32 = 400;
/// A pipe gives the first reading when it comes so near, inches.
const NEAR: f64 = 0.01;

fn doubt(image: &Image<'_>, answer: &Answer) -> f64 {
    let mut sums: Vec<(u16, f64)> = Vec::new();
    for candidate in answer.candidates() {
        let key = image.purchase(Job::None, candidate.row);
        let weight = share(candidate.weight.q30());
        match sums.iter_mut().find(|(held, _)| *held == key) {
            Some((_, sum)) => *sum += weight,
            None => sums.push((key, weight)),
        }
    }
    let others = share(answer.outside.q30()) + share(answer.rest.q30());
    let all = sums.iter().map(|(_, sum)| *sum).chain([others]);
    all.filter(|p| *p > 0.0).map(|p| -p * libm::log2(p)).sum()
}

fn at(value: f64, clock: Option<u8>) -> Reading {
    Reading::Diameter {
        value: inches(value),
        clock: clock.map(Clock::half_hours),
        jaw: None,
        sigma: None,
    }
}

/// One row by its prior, among those that may give the reading.
fn pick<'a>(rows: &[&'a Row], random: &mut Random) -> &'a Row {
    let total: f64 = rows.iter().map(|row| row.unknown_prior).sum();
    let mut left = random.uniform() * total;
    for row in rows {
        left -= row.unknown_prior;
        if left <= 0.0 {
            return row;
        }
    }
    rows[rows.len() - 1]
}

/// The nearest half hour of a direction, as a technician tells it.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "twelve half hours go around half the pipe"
)]
fn half_hour(angle: f64) -> u8 {
    (angle.to_degrees() / 15.0).round().rem_euclid(12.0) as u8
}

/// What each of the two readings does: the share that settles, and the doubt that is left on average.
fn measured(image: &Image<'_>, model: &Model, first: f64, clues: &Clues) -> [(f64, f64); 2] {
    let near: Vec<&Row> = model
        .rows
        .iter()
        .filter(|row| (row.od / first - 1.0).abs() < 0.1)
        .collect();
    let mut random = Random(0x9E37_79B9_7F4A_7C15);
    let mut sums = [(0.0, 0.0); 2];
    let mut pipes = 0;
    while pipes < PIPES {
        let pipe = Pipe::draw(pick(&near, &mut random), None, &mut random);
        let angle = random.direction();
        let shown = pipe.caliper(angle, &mut random);
        if (shown - first).abs() > NEAR {
            continue;
        }
        pipes += 1;
        let half_hour = half_hour(angle);
        let crossing = pipe.caliper(angle + PI / 2.0, &mut random);
        let across = pipe.diameter + random.normal(0.008, 0.002);
        let slant = random.normal(0.0, 1.2).to_radians();
        let around = PI * across / libm::cos(slant) + random.normal(0.0, 0.03);
        let around = Reading::Around {
            value: inches((around * 16.0).round() / 16.0),
            sigma: None,
        };
        let crossed = [
            at(shown, Some(half_hour)),
            at(crossing, Some((half_hour + 6) % 12)),
        ];
        for (sum, readings) in sums.iter_mut().zip([crossed, [at(shown, None), around]]) {
            let mut query = Query::new();
            query.clues = *clues;
            for reading in readings {
                query.add(reading).expect("room for two");
            }
            let answer = identify(image, &query).expect("usable readings");
            sum.0 += f64::from(u8::from(answer.outcome == Outcome::Settled)) / f64::from(PIPES);
            sum.1 += doubt(image, &answer) / f64::from(PIPES);
        }
    }
    sums
}

#[test]
fn a_crossing_diameter_and_a_tape_do_about_what_is_expected_of_them() {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let model = Model::new();
    let (mut settles_off, mut worst_doubt, mut cases) = (0.0f64, 0.0f64, 0.0f64);
    for first in [4.9, 6.5, 8.3, 10.3, 12.6, 15.3, 18.5] {
        let mut query = Query::new();
        query.add(dia(first)).expect("room for one");
        let answer = identify(&image, &query).expect("a usable reading");
        let now = doubt(&image, &answer);
        let done = measured(&image, &model, first, &query.clues);
        let checks = [Check::CrossedDiameter, Check::Tape];
        for ((check, other), (settles, left)) in checks
            .into_iter()
            .zip([Check::Tape, Check::CrossedDiameter])
            .zip(done)
        {
            let mut cannot = Cannot::none().and(other);
            for check in [Check::Along, Check::Print, Check::Wall] {
                cannot = cannot.and(check);
            }
            for clue in 0..16 {
                cannot = cannot.and(Check::Clue(clue));
            }
            let proposal = propose(&image, &query, &answer, DUG, cannot);
            let expected = proposal.map_or((0.0, 0.0), |proposal| {
                assert_eq!(proposal.check, check);
                (
                    share(proposal.settles.q30()),
                    f64::from(proposal.less_doubt) / 65_536.0,
                )
            });
            println!(
                "{first} in, {check:?}: expected {:.3} and {:.3} bits of {now:.3}, found {settles:.3} and {:.3}",
                expected.0,
                expected.1,
                now - left
            );
            settles_off += (expected.0 - settles).abs();
            cases += 1.0;
            worst_doubt = worst_doubt.max((expected.1 - (now - left)).abs());
        }
    }
    let settles_off = settles_off / cases;
    println!(
        "doubt off by at most {worst_doubt:.3} bits, the chance to settle by {settles_off:.3} on average"
    );
    // Whether a reading settles hangs on a threshold that three points of a row meet or miss together; doubt has no edge.
    assert!(settles_off < 0.12 && worst_doubt < 0.25);
}
