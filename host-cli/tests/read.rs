//! `springline read` as its user meets it: golden texts of readings, exit codes, how long an answer is.

mod common;

use common::{golden, json, springline};

#[test]
fn six_ninety_is_six_inch_iron_size() {
    golden("dia-6.90", &["read", "--dia", "6.90in"]);
}

#[test]
fn an_answer_is_never_longer_than_a_screen() {
    let readings = [
        "2.375", "4.5", "4.8", "5.2", "6.0", "6.275", "6.63", "6.9", "9.05", "12.6", "15.3", "24",
        "30.5",
    ];
    let told: [&[&str]; 6] = [
        &[],
        &["--material", "pvc"],
        &["--magnet", "yes"],
        &["--magnet", "yes", "--material", "pvc", "--color", "blue"],
        &["--material", "iron", "--job", "tap", "--owner", "purveyor"],
        &["--job", "coupling"],
    ];
    for reading in readings {
        for told in told {
            let asked = [&["read", "--dia", reading][..], told].concat();
            let (out, _, _) = springline(&asked);
            assert!(out.lines().count() <= 24, "{asked:?}:\n{out}");
            assert!(
                out.lines().all(|line| line.chars().count() <= 78),
                "{asked:?}:\n{out}"
            );
        }
    }
}

#[test]
fn six_six_two_five_is_six_inch_ips() {
    golden("dia-6.625", &["read", "--dia", "6.625in"]);
}

#[test]
fn a_tape_at_the_size_that_five_families_share() {
    golden("around-48.07", &["read", "--around", "48.07in"]);
}

#[test]
fn not_in_the_tables_unless_the_site_says_so() {
    golden("dia-5.2", &["read", "--dia", "5.2in"]);
    golden(
        "dia-5.2-municipal",
        &["read", "--dia", "5.2in", "--site", "municipal"],
    );
}

#[test]
fn one_squashed_diameter_and_the_one_that_crosses_it() {
    golden("dia-12.6", &["read", "--dia", "12.6in"]);
    golden(
        "dia-12.6-crossed",
        &["read", "--dia", "12.6in@3", "--dia", "11.88in@12"],
    );
}

#[test]
fn a_half_buried_crown_and_jaws_too_short() {
    golden("chord", &["read", "--chord", "8in", "--rise", "1 13/32in"]);
    golden(
        "jaw",
        &[
            "read", "--dia", "109.03mm", "--jaw", "40mm", "--units", "mm",
        ],
    );
}

/// A turned end, a barrel: where asbestos-cement leads, nobody cuts.
#[test]
fn asbestos_cement_in_the_lead_is_a_stop() {
    golden("stop", &["read", "--around", "37.16in"]);
    let (value, code) = json(&["read", "--around", "37.16in", "--json"]);
    assert_eq!(code, 1);
    assert_eq!(value["stop"], true);
    assert_eq!(value["candidates"][0]["family"], "asbestos-cement");
    let (value, _) = json(&["read", "--dia", "6.90in", "--json"]);
    assert_eq!(value["stop"], false);
}

/// So short a chord fits pipe of so many sizes that asbestos-cement is not listed and yet holds more than the warning needs.
#[test]
fn asbestos_cement_is_warned_of_even_where_it_is_not_listed() {
    let (out, _, _) = springline(&["read", "--chord", "2.16in", "--rise", "0.36in"]);
    assert!(out.contains("! ASBESTOS-CEMENT"), "{out}");
    let (out, _, _) = springline(&["read", "--dia", "2.375in"]);
    assert!(!out.contains("ASBESTOS"), "{out}");
}

#[test]
fn readings_at_odds() {
    golden(
        "odds",
        &["read", "--around", "20.85in", "--around", "28.5in"],
    );
}

#[test]
fn walls_and_places() {
    let settled = [
        "read",
        "--dia",
        "6.90in",
        "--wall",
        "0.39in",
        "--material",
        "pvc",
        "--magnet",
        "no",
        "--color",
        "blue",
        "--pressure",
        "yes",
    ];
    golden("wall", &settled);
    golden(
        "wall-iron",
        &[
            "read",
            "--dia",
            "6.90in",
            "--wall",
            "0.31in",
            "--material",
            "iron",
        ],
    );
    golden(
        "wall-warm",
        &[
            "read",
            "--dia",
            "6.90in",
            "--wall",
            "0.39in",
            "--material",
            "pvc",
            "--temp",
            "95F",
        ],
    );
    golden("along", &["read", "--dia", "7.6in", "--along", "6.9in"]);
    golden(
        "across",
        &["read", "--dia", "12.6in", "--dia", "11.88in@across"],
    );
    let tap = [
        "read",
        "--dia",
        "6.90in",
        "--material",
        "pvc",
        "--job",
        "tap",
        "--magnet",
        "no",
    ];
    golden(
        "job-tap-class",
        &[
            &tap[..],
            &["--color", "blue", "--pressure", "yes", "--owner", "ours"],
        ]
        .concat(),
    );
    golden(
        "mistake-wall",
        &["read", "--dia", "6.90in", "--wall", "6in"],
    );
}

#[test]
fn cold_and_hot() {
    golden("cold", &["read", "--dia", "3.49in", "--temp", "-4F"]);
    golden(
        "hot",
        &["read", "--dia", "3.51in", "--temp", "49C", "--buried", "no"],
    );
}

#[test]
fn the_terms_behind_an_answer() {
    golden("explain", &["read", "--dia", "6.90in", "--explain"]);
}

/// What a person reads: short, in words of the trench, no percentages before the answer.
#[test]
fn answers_are_short_and_in_words_of_the_trench() {
    let dia = |text: &str| vec!["--dia".to_owned(), text.to_owned()];
    let mut all: Vec<Vec<String>> = [
        "0.84in", "2.375in", "4.5in", "5.2in", "6.9in", "8.4in", "12.6in", "15.3in", "24.8in",
        "32in", "61.6in",
    ]
    .map(dia)
    .to_vec();
    for (chord, rise) in [("3in", "0.8in"), ("8in", "1.406in"), ("16in", "3in")] {
        let args = ["--chord", chord, "--rise", rise, "--temp", "-4F"];
        all.push(args.map(str::to_owned).to_vec());
    }
    for args in all {
        let mut words = vec!["read"];
        words.extend(args.iter().map(String::as_str));
        let (out, err, code) = springline(&words);
        assert!(code < 2, "{args:?}: {err}");
        assert!(out.lines().count() <= 24, "{args:?}:\n{out}");
        assert!(
            out.lines().all(|line| line.chars().count() <= 78),
            "{args:?}:\n{out}"
        );
        assert!(
            !out.lines().take(4).any(|line| line.contains('%')),
            "{args:?}:\n{out}"
        );
        let lower = out.to_lowercase();
        let said = |word: &str| {
            lower
                .split(|c: char| !c.is_alphabetic())
                .any(|part| part == word)
        };
        // A split is a burst, outside is a diameter, a trench settles; and nothing is ever called safe.
        for word in ["split", "outside", "settled", "safe", "safely"] {
            assert!(!said(word), "{args:?}: {word}\n{out}");
        }
    }
}
