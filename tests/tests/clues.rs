//! What clues do to an answer: plans, contradictions, stops. The figures of plans are worked out here by hand from the shares
//! of the model (common practice, no source).

use springline_core::clue::{ClueName, Plans};
use springline_core::identify::{Answer, Outcome, identify};
use springline_core::image::Image;
use springline_core::reading::{Query, Reading};
use springline_tables::IMAGE;
use springline_tests::{around, dia, share, weight};

fn ask(image: &Image<'_>, reading: Reading, clues: &[(&str, &str)]) -> Answer {
    let mut query = Query::new();
    query.add(reading).expect("room for one");
    for (clue, answer) in clues {
        let told = image.find_clue(clue, answer).expect("a clue of ours");
        query.clues.tell(told);
    }
    identify(image, &query).expect("a usable reading")
}

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn plans(image: &Image<'_>, family: &str, size: Option<&str>) -> Plans {
    let find = |key: &str| {
        (0u8..)
            .zip(image.families())
            .find(|(_, f)| image.packed_text(f.key) == key)
            .map(|(index, _)| index)
    };
    Plans {
        family: find(family).expect("a family of ours"),
        size: size.and_then(|size| (0..=u8::MAX).find(|at| image.size(*at) == size)),
    }
}

#[test]
fn keys_that_are_not_there_are_not_found() {
    let image = image();
    assert!(image.find_clue("magnet", "perhaps").is_none());
    assert!(image.find_clue("smell", "yes").is_none());
    // An answer of another clue is none of this one.
    assert!(image.find_clue("magnet", "blue").is_none());
}

/// Wrong plans name a family as often as it is met, p, whatever the pipe is: odds of the named one against any other are
/// multiplied by (.90 + .10 p) / (.10 p).
#[test]
fn plans_multiply_the_odds_of_what_they_name() {
    let image = image();
    let before = ask(&image, dia(6.90), &[]);
    let iron = 0.6 * 0.024 + 0.4 * 0.285;
    for (named, share) in [
        ("ductile-iron", iron),
        ("hdpe-dips", 0.6 * 0.004 + 0.4 * 0.02),
    ] {
        let mut query = Query::new();
        query.add(dia(6.90)).expect("room for one");
        query.clues.plans = Some(plans(&image, named, None));
        let after = identify(&image, &query).expect("a usable reading");
        let odds = |answer: &Answer| {
            weight(&image, answer, named, "6") / weight(&image, answer, "c900", "6")
        };
        let factor = (0.90 + 0.10 * share) / (0.10 * share);
        let got = odds(&after) / odds(&before);
        assert!((got / factor - 1.0).abs() < 0.01, "{named}: {got} {factor}");
    }
}

/// Aluminum is not met on a municipal site: no pipe there is made likelier or less likely by plans that name it.
#[test]
fn plans_that_name_what_is_not_met_here_say_nothing() {
    let image = image();
    let mut query = Query::new();
    query.add(dia(6.90)).expect("room for one");
    query.site = springline_core::reading::Site::Municipal;
    let before = identify(&image, &query).expect("a usable reading");
    query.clues.plans = Some(plans(&image, "aluminum", None));
    let after = identify(&image, &query).expect("a usable reading");
    let c900 = |answer| weight(&image, answer, "c900", "6");
    assert!((c900(&before) - c900(&after)).abs() < 1e-6);
}

#[test]
fn plans_that_name_a_size_part_14_from_15() {
    let image = image();
    let mut query = Query::new();
    query.add(around(48.07)).expect("room for one");
    let both = |answer: &Answer| {
        (
            weight(&image, answer, "c900", "14"),
            weight(&image, answer, "pip", "15"),
        )
    };
    let (c900, pip) = both(&identify(&image, &query).expect("usable"));
    query.clues.plans = Some(plans(&image, "pip", Some("15")));
    let (c900_told, pip_told) = both(&identify(&image, &query).expect("usable"));
    assert!(
        (pip / c900 - 1.0).abs() < 0.3,
        "as likely as not: {pip} {c900}"
    );
    assert!(c900_told < 0.0005, "no longer shown: {c900_told}");
    assert!(pip_told > 0.99);
}

#[test]
fn a_clue_that_the_rest_speaks_against_is_named() {
    let image = image();
    let name = |answer: &Answer| match answer.contradiction {
        Some(ClueName::Clue(clue)) => image.packed_text(image.clue(clue).key),
        Some(ClueName::Plans) => "plans",
        Some(ClueName::Print) => "print",
        None => "",
    };
    let holds = [("magnet", "yes"), ("material", "pvc")];
    assert_eq!(name(&ask(&image, dia(4.5), &holds)), "magnet");
    let fine = [("magnet", "no"), ("material", "pvc"), ("color", "blue")];
    assert_eq!(name(&ask(&image, dia(6.90), &fine)), "");
    let iron = [("magnet", "yes"), ("material", "iron"), ("color", "purple")];
    assert_eq!(name(&ask(&image, dia(6.90), &iron)), "");
    let copper = [
        ("magnet", "yes"),
        ("material", "copper"),
        ("iron-marks", "new"),
    ];
    assert_eq!(name(&ask(&image, dia(6.90), &copper)), "material");
    let mut query = Query::new();
    query.add(dia(6.90)).expect("room for one");
    query.clues.plans = Some(plans(&image, "copper", None));
    let answer = identify(&image, &query).expect("usable");
    assert_eq!(name(&answer), "plans", "copper is not made at that size");
}

#[test]
fn asbestos_cement_stops_until_plastic_is_confirmed() {
    let image = image();
    let stop = |clues: &[(&str, &str)]| ask(&image, dia(6.90), clues).stop.cement;
    assert!(!stop(&[]), "it does not lead and nothing points at it");
    assert!(stop(&[("magnet", "no")]));
    assert!(stop(&[("color", "grey")]));
    assert!(stop(&[("material", "cement")]));
    assert!(!stop(&[("magnet", "no"), ("material", "pvc")]));
    let free = ask(&image, dia(6.625), &[("magnet", "no")]);
    assert!(!free.stop.cement, "no asbestos-cement is near 6.625 in");
}

#[test]
fn yellow_on_an_ips_size_is_gas_until_proved_otherwise() {
    let image = image();
    let stop = |reading, clues: &[(&str, &str)]| ask(&image, reading, clues).stop.gas;
    assert!(!stop(dia(6.625), &[]));
    assert!(stop(dia(6.625), &[("color", "yellow")]));
    assert!(
        !stop(dia(9.05), &[("color", "yellow")]),
        "no gas pipe is near 9.05 in"
    );
}

/// Clues say nothing of pipe in no table: its mass stays what the readings make it.
#[test]
fn clues_alone_do_not_move_a_reading_into_the_tables() {
    let image = image();
    let (bare, told) = (
        ask(&image, dia(7.60), &[]),
        ask(&image, dia(7.60), &[("material", "iron")]),
    );
    assert_eq!(told.outcome, Outcome::Outside);
    assert!((share(bare.outside.q30()) - share(told.outside.q30())).abs() < 0.05);
}
