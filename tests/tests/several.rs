//! Several readings of one pipe, and what the technician told about it, against the exact law where that is fast enough.

use springline_core::Length;
use springline_core::identify::{Outcome, identify};
use springline_core::image::Image;
use springline_core::reading::{Query, Reading, ReadingError, Site};
use springline_tables::IMAGE;
use springline_tests::{answer, around, chord, dia, dia_at, inches, share, weight};

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// One diameter of squashed pipe cannot part PIP from IPS and sewer; the one that crosses it does, and shows the squash.
#[test]
fn crossed_diameters_part_what_one_cannot() {
    let image = image();
    let one = answer(&image, &[dia(12.6)]);
    assert_eq!(one.outcome, Outcome::Split);
    assert!(weight(&image, &one, "pip", "12") > 0.2 && weight(&image, &one, "ips-pvc", "12") > 0.2);
    let two = answer(&image, &[dia_at(12.6, 3), dia_at(11.88, 12)]);
    assert!(weight(&image, &two, "pip", "12") > 0.98);
    let round = two.out_of_round.expect("crossed diameters");
    assert_eq!(round.spread.mils(), 720);
    assert!((f64::from(round.share) / 65536.0 - 0.0588).abs() < 0.0002);
    assert!((f64::from(two.od.mils()) - 12240.0).abs() <= 1.0);
}

/// Order does not matter, nor does which end of a diameter is named.
#[test]
fn readings_have_no_order() {
    let image = image();
    let a = answer(&image, &[dia_at(12.6, 3), dia_at(11.88, 12)]);
    let b = answer(&image, &[dia_at(11.88, 6), dia_at(12.6, 9)]);
    assert_eq!(a.candidates(), b.candidates());
}

/// Three diameters at 60° balance like two at right angles.
#[test]
fn three_diameters_at_sixty_degrees_cancel_the_squash() {
    let image = image();
    // 12.24 in PIP squashed by 2.5 %: D (1 - d cos 2t) at 12, 2 and 4 o'clock.
    let at = |hour: u8| 12.24 * (1.0 - 0.025 * (f64::from(hour) * 60.0).to_radians().cos());
    let three = answer(
        &image,
        &[dia_at(at(12), 12), dia_at(at(2), 2), dia_at(at(4), 4)],
    );
    assert!(weight(&image, &three, "pip", "12") > 0.98);
    assert!((f64::from(three.od.mils()) - 12240.0).abs() <= 2.0);
}

/// A tape is not moved by squash, so that a tape and a diameter together say more than the diameter.
#[test]
fn a_tape_joins_a_diameter() {
    let image = image();
    let both = answer(
        &image,
        &[dia(12.6), around(12.24 * std::f64::consts::PI + 0.03)],
    );
    assert!(weight(&image, &both, "pip", "12") > 0.95);
}

/// Two readings at one clock position are one diameter read twice, and say nothing more about the squash.
#[test]
fn two_at_one_clock_average_nothing() {
    let image = image();
    let once = answer(&image, &[dia_at(12.6, 3)]);
    let twice = answer(&image, &[dia_at(12.6, 3), dia_at(12.6, 3)]);
    for (family, size) in [("pip", "12"), ("ips-pvc", "12"), ("sewer-pvc", "12")] {
        let (a, b) = (
            weight(&image, &once, family, size),
            weight(&image, &twice, family, size),
        );
        assert!((a - b).abs() < 0.03, "{family}: {a} {b}");
    }
}

/// Readings that no pipe explains together are at odds, and the answer is outside the tables, not a mean of the two.
#[test]
fn readings_at_odds_are_not_averaged() {
    let image = image();
    let odd = answer(&image, &[around(20.85), around(28.5)]);
    assert!(odd.disagreement);
    assert_eq!(odd.outcome, Outcome::Outside);
    let fine = answer(&image, &[around(20.85), around(20.9)]);
    assert!(!fine.disagreement);
    assert!(weight(&image, &fine, "ips-pvc", "6") > 0.5);
}

/// Short jaws touch a chord: 40 mm jaws on a 114.3 mm pipe show 109.03 mm (circle geometry, 2 sqrt(40 (114.3 - 40))).
#[test]
fn a_caliper_beyond_its_jaws_is_a_chord() {
    let image = image();
    let mut query = Query::new();
    query
        .add(Reading::Diameter {
            value: inches(109.03 / 25.4),
            clock: None,
            jaw: Some(Length::from_counts(40 * Length::MILLIMETRE)),
            sigma: None,
        })
        .expect("room for one");
    let short = identify(&image, &query).expect("a usable reading");
    assert!(short.short_jaws);
    assert!((f64::from(short.od.counts()) / 100_000.0 - 114.3).abs() < 0.02);
    assert!(weight(&image, &short, "ips-pvc", "4") > 0.5);
    // Jaws that reach make no difference.
    let reach = answer(&image, &[dia(4.5)]);
    assert!(!reach.short_jaws);
}

/// Rigid pipe and pipe that is not buried are not squashed: 12.6 in is then no 12.24 in PIP.
#[test]
fn pipe_on_a_rack_is_not_squashed() {
    let image = image();
    let mut query = Query::new();
    query.add(dia(12.6)).expect("room for one");
    query.buried = false;
    let racked = identify(&image, &query).expect("a usable reading");
    let buried = answer(&image, &[dia(12.6)]);
    assert!(weight(&image, &racked, "pip", "12") < weight(&image, &buried, "pip", "12") / 10.0);
}

/// Hot plastic is larger than its standard prints; told so, the engine takes it back to size.
#[test]
fn a_told_temperature_shifts_plastic() {
    let image = image();
    let at = |temperature| {
        let mut query = Query::new();
        // 6.14 in PIP and 6.125 in copper lie .015 apart; plastic at 120 °F has grown by .0086 in.
        query
            .add(Reading::DiameterTape {
                value: inches(6.157),
                sigma: None,
            })
            .expect("room for one");
        query.temperature = temperature;
        let answer = identify(&image, &query).expect("a usable reading");
        weight(&image, &answer, "hdpe-ips", "6") + share(answer.outside.q30())
    };
    assert!(at(Some(12_000)) < at(Some(4_000)));
}

/// A sigma of the user's own, however large, widens the answer and never wraps round to a narrow one.
#[test]
fn a_large_sigma_is_a_large_sigma() {
    let image = image();
    let sigma = |own: f64| {
        let mut query = Query::new();
        let value = inches(48.07);
        let sigma = Some(inches(own));
        query
            .add(Reading::Around { value, sigma })
            .expect("room for one");
        let answer = identify(&image, &query).expect("a usable reading");
        f64::from(answer.sigma.counts()) / 2_540_000.0
    };
    for own in [0.001, 0.03, 1.0, 20.0, 21.0, 30.0, 39.0] {
        // The step of 1/16 in, and a tape's thickness and slant, are on top.
        let want = (own / std::f64::consts::PI).hypot(0.0057).hypot(0.0051);
        assert!(
            (sigma(own) / want - 1.0).abs() < 0.03,
            "{own}: {} {want}",
            sigma(own)
        );
    }
}

#[test]
fn the_site_moves_the_priors() {
    let image = image();
    let on = |site| {
        let mut query = Query::new();
        query.add(dia(6.9)).expect("room for one");
        query.site = site;
        let answer = identify(&image, &query).expect("a usable reading");
        weight(&image, &answer, "ductile-iron", "6")
    };
    assert!(on(Site::Municipal) > on(Site::Irrigation));
}

#[test]
fn readings_that_no_pipe_can_give_are_refused() {
    let image = image();
    let refused = |reading: Reading| {
        let mut query = Query::new();
        query.add(reading).expect("room for one");
        identify(&image, &query).expect_err("not a usable reading")
    };
    assert_eq!(refused(dia(0.0)), ReadingError::NotPositive);
    assert_eq!(refused(dia(-3.0)), ReadingError::NotPositive);
    assert_eq!(refused(dia(120.0)), ReadingError::OutOfRange);
    assert_eq!(refused(chord(6.0, 4.0)), ReadingError::RiseTooHigh);
    assert_eq!(refused(chord(16.0, 0.5)), ReadingError::RiseTooLow);
    assert_eq!(refused(chord(2.0, 0.35)), ReadingError::RiseUnsure);
    assert_eq!(
        identify(&image, &Query::new()).expect_err("nothing read"),
        ReadingError::None
    );
    let mut query = Query::new();
    for _ in 0..Query::CAPACITY {
        query.add(dia(6.9)).expect("room");
    }
    assert_eq!(query.add(dia(6.9)), Err(ReadingError::TooMany));
}
