//! `springline read` as its user meets it: golden texts, exit codes, words.

mod common;

use std::process::{Command, Stdio};

use common::{golden, golden_typed, json, springline};

#[test]
fn six_ninety_is_six_inch_iron_size() {
    golden("dia-6.90", &["read", "--dia", "6.90in"]);
}

#[test]
fn clues_part_what_shares_an_od() {
    let clues: [(&str, &[&str]); 5] = [
        ("clues-no-magnet", &["--magnet", "no"]),
        ("clues-iron", &["--material", "iron", "--magnet", "yes"]),
        (
            "clues-blue",
            &["--material", "pvc", "--magnet", "no", "--color", "blue"],
        ),
        ("clues-plans", &["--plans", "ductile-iron:6"]),
        ("clues-hub", &["--magnet", "yes", "--lead-hub", "yes"]),
    ];
    for (name, told) in clues {
        golden(name, &[&["read", "--dia", "6.90in"], told].concat());
    }
}

#[test]
fn what_is_bought_depends_on_the_job() {
    let asked = ["read", "--around", "48.07in", "--material", "pvc"];
    for job in ["coupling", "restraint", "saddle", "length", "tap"] {
        golden(
            &format!("job-{job}"),
            &[&asked[..], &["--job", job]].concat(),
        );
    }
    golden(
        "owner",
        &[
            "read",
            "--dia",
            "9.05in",
            "--magnet",
            "yes",
            "--iron-marks",
            "new",
            "--job",
            "tap",
            "--owner",
            "purveyor",
        ],
    );
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
fn clues_on_an_ips_size() {
    golden(
        "clues-ips",
        &[
            "read",
            "--dia",
            "6.625in",
            "--material",
            "pvc",
            "--color",
            "white",
            "--pressure",
            "yes",
        ],
    );
    golden(
        "clues-gas",
        &["read", "--dia", "6.625in", "--color", "yellow"],
    );
}

#[test]
fn a_clue_that_does_not_go_with_the_rest_is_named() {
    let asked = [
        "read",
        "--dia",
        "4.5in",
        "--magnet",
        "yes",
        "--material",
        "pvc",
    ];
    golden("clues-disagree", &asked);
    let (value, code) = json(&[&asked[..], &["--json", "--explain"]].concat());
    assert_eq!(code, 0);
    assert_eq!(value["contradiction"]["clue"], "magnet");
    assert_eq!(value["contradiction"]["without"]["family"], "ips-pvc");
    assert_eq!(value["terms"][0]["clues"][1]["told"], "a magnet holds");
}

#[test]
fn plans_that_the_tables_do_not_know() {
    golden(
        "mistake-plans",
        &["read", "--dia", "6.90in", "--plans", "clay"],
    );
    golden(
        "mistake-plans-size",
        &["read", "--dia", "6.90in", "--plans", "c900:7"],
    );
}

/// Asked, answered, a slip, a "cannot", and the end of what is typed.
#[test]
fn the_question_is_put_and_its_answer_taken() {
    golden_typed(
        "ask",
        &["read", "--dia", "6.90in", "--ask"],
        "maybe\nno\npvc\ncannot\n\n",
    );
    golden_typed(
        "ask-crossed",
        &[
            "read",
            "--dia",
            "12.6in",
            "--material",
            "pvc",
            "--magnet",
            "no",
            "--pressure",
            "yes",
            "--ask",
        ],
        "11.88in\n12.6in@3 11 7/8in@12\n",
    );
}

#[test]
fn a_check_that_is_none_is_told_with_those_that_are() {
    golden(
        "mistake-cannot",
        &["read", "--dia", "6.90in", "--cannot", "lick"],
    );
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

/// Where nothing that can be done here parts what is left, that is said, and nothing is asked.
#[test]
fn no_check_left() {
    let checks = [
        "material",
        "magnet",
        "color",
        "end",
        "lead-hub",
        "pressure",
        "iron-marks",
        "crossed-diameter",
        "tape",
        "along",
        "print",
    ];
    let cannot = checks.iter().flat_map(|check| ["--cannot", check]);
    let args: Vec<&str> = ["read", "--dia", "6.90in"]
        .into_iter()
        .chain(cannot)
        .collect();
    golden("no-check", &args);
}

#[test]
fn plans_that_are_wrong() {
    let white = ["--material", "pvc", "--color", "white"];
    golden(
        "plans-wrong",
        &[
            &["read", "--dia", "8.625in", "--plans", "c900:8"],
            &white[..],
        ]
        .concat(),
    );
}

#[test]
fn what_is_printed() {
    let print = |name: &str, dia: &str, text: &str| {
        golden(name, &["read", "--dia", dia, "--print", text]);
    };
    print("print", "6.90in", "..IN DR18 PC235 AWWA C9..");
    print("print-class", "6.90in", "CL 200 6 IN PVC");
    print("print-disagrees", "6.90in", "6 IN SDR 21 D2241 200 PSI");
    print("print-wires", "6.625in", "PVC CONDUIT");
    print("print-gas", "4.50in", "4 IN GAS");
    print("print-nothing", "6.625in", "12J7");
    print("print-iron", "9.05in", "8 IN PC350 DI");
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
fn lengths_as_people_type_them_mean_the_same() {
    let od = |text: &str| {
        let (value, _) = json(&["read", "--around", text, "--json"]);
        value["reading"]["od_in"].as_f64().expect("a number")
    };
    let want = od("21.6875in");
    for text in [
        "21 11/16\"",
        "21 11/16in",
        "1ft 9-11/16in",
        "550.8625mm",
        "21.6875",
    ] {
        assert!((od(text) - want).abs() < 1e-6, "{text}");
    }
}

#[test]
fn mistakes_are_told_with_what_would_be_right() {
    for (name, text) in [
        ("zero", "0in"),
        ("minus", "-3in"),
        ("exponent", "1e9in"),
        ("word", "six"),
        ("fraction", "6 1/0in"),
        ("empty", ""),
    ] {
        golden(&format!("mistake-{name}"), &["read", "--dia", text]);
    }
    golden("mistake-none", &["read"]);
    golden("mistake-rise", &["read", "--chord", "8in"]);
    golden(
        "mistake-flat",
        &["read", "--chord", "8in", "--rise", "0.3in"],
    );
    golden(
        "mistake-jaw",
        &["read", "--around", "22in", "--jaw", "40mm"],
    );
    golden(
        "mistake-temperature",
        &["read", "--dia", "6.9in", "--temp", "95"],
    );
    golden("mistake-hour", &["read", "--dia", "6.9in@25"]);
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

/// A reader that has seen enough is no failure.
#[test]
fn a_closed_pipe_is_quiet() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_springline"))
        .args(["tables", "show", "ips-pvc"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command starts");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

/// Every command of the README runs and answers.
#[test]
fn the_readme_tells_the_truth() {
    let readme = include_str!("../../README.md");
    let mut run = 0;
    for line in readme.lines() {
        let Some(rest) = line.strip_prefix("cargo run --release -- ") else {
            continue;
        };
        let command = rest.split('#').next().unwrap_or("").trim();
        let mut args: Vec<String> = Vec::new();
        for (index, part) in command.split('"').enumerate() {
            if index % 2 == 1 {
                args.push(part.to_owned());
            } else {
                args.extend(part.split_whitespace().map(str::to_owned));
            }
        }
        // Paths of the page are from the root.
        let output = Command::new(env!("CARGO_BIN_EXE_springline"))
            .args(&args)
            .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
            .output()
            .expect("the command starts");
        let (out, err) = (
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr),
        );
        let code = output.status.code().unwrap_or(-1);
        assert_eq!(code, 0, "{command}:\n{out}{err}");
        run += 1;
    }
    assert!(run >= 6, "only {run} commands ran");
}
