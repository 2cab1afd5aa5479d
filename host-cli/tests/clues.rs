//! `springline read` told what is seen, felt and printed: golden texts, questions, mistakes.

mod common;

use common::{golden, golden_typed, json};

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
