//! The command as its user meets it: golden texts, exit codes, JSON.
//!
//! `SPRINGLINE_RENEW=1 cargo test -p springline --test cli` writes the golden texts anew; read the difference.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;

/// What the command said: standard output, standard error, exit code.
fn springline(args: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_springline"))
        .args(args)
        .output()
        .expect("the command starts");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    (
        text(output.stdout),
        text(output.stderr),
        output.status.code().unwrap_or(-1),
    )
}

/// Holds everything that the command says against a golden text.
fn golden(name: &str, args: &[&str]) {
    let (out, err, code) = springline(args);
    let quoted: Vec<String> = args
        .iter()
        .map(|arg| {
            if arg.is_empty() || arg.contains(' ') {
                format!("'{arg}'")
            } else {
                (*arg).to_owned()
            }
        })
        .collect();
    let got = format!(
        "$ springline {}\n{out}{err}[exit {code}]\n",
        quoted.join(" ")
    );
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(format!("{name}.txt"));
    if std::env::var_os("SPRINGLINE_RENEW").is_some() {
        fs::write(&path, &got).expect("the golden text can be written");
        return;
    }
    let want = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        got == want,
        "{} has changed:\n{got}\nit was:\n{want}",
        path.display()
    );
}

#[test]
fn six_ninety_is_six_inch_iron_size() {
    golden("dia-6.90", &["read", "--dia", "6.90in"]);
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

#[test]
fn readings_at_odds() {
    golden(
        "odds",
        &["read", "--around", "20.85in", "--around", "28.5in"],
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
fn lengths_as_people_type_them_mean_the_same() {
    let od = |text: &str| {
        let (out, err, _) = springline(&["read", "--around", text, "--json"]);
        let value: Value = serde_json::from_str(&out).unwrap_or_else(|_| panic!("{text}: {err}"));
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
    golden("mistake-hour", &["read", "--dia", "6.9in@25"]);
    golden("mistake-family", &["tables", "show", "c90"]);
    golden("mistake-size", &["tables", "show", "c900", "7"]);
}

#[test]
fn the_terms_behind_an_answer() {
    golden("explain", &["read", "--dia", "6.90in", "--explain"]);
}

#[test]
fn what_is_known_of_a_size() {
    golden("show-c900-6", &["tables", "show", "c900", "6"]);
}

#[test]
fn answers_are_short_and_carry_no_percentages_before_the_answer() {
    for dia in [
        "0.84in", "2.375in", "4.5in", "6.9in", "8.4in", "12.6in", "15.3in", "24.8in", "32in",
        "61.6in",
    ] {
        let (out, _, code) = springline(&["read", "--dia", dia]);
        assert!(code < 2, "{dia}");
        assert!(out.lines().count() <= 24, "{dia}:\n{out}");
        assert!(
            !out.lines().take(4).any(|line| line.contains('%')),
            "{dia}:\n{out}"
        );
        for word in ["split", "outside", "settled"] {
            assert!(
                !out.contains(&format!(" {word} "))
                    || word == "outside" && out.contains("outside diameter"),
                "{dia}: {word}"
            );
        }
    }
}

/// The keys that others rely on, and weights that sum to one.
#[test]
fn json_has_its_fixed_keys() {
    for (args, outcome, exit) in [
        (vec!["--dia", "6.90in"], "split", 0),
        (vec!["--dia", "5.2in"], "outside", 1),
        (
            vec!["--dia", "12.6in@3", "--dia", "11.88in@12"],
            "settled",
            0,
        ),
    ] {
        let (out, _, code) = springline(&[&["read", "--json"], &args[..]].concat());
        assert_eq!(code, exit);
        let value: Value = serde_json::from_str(&out).expect("JSON");
        assert_eq!(value["schema"], "springline-read/1");
        assert_eq!(value["outcome"], outcome);
        assert!(value["reading"]["od_in"].is_f64() && value["reading"]["u_in"].is_f64());
        assert!(value["stop"].is_boolean() && value["cautions"].is_array());
        assert!(value.get("next_check").is_some());
        let candidates = value["candidates"].as_array().expect("a list");
        let mut sum = value["rest_weight"].as_f64().expect("a number")
            + value["outside_weight"].as_f64().expect("a number");
        for candidate in candidates {
            for key in ["family", "od_system", "nominal"] {
                assert!(candidate[key].is_string(), "{key}");
            }
            sum += candidate["weight"].as_f64().expect("a number");
        }
        assert!((sum - 1.0).abs() < 1e-12, "{sum}");
    }
    let (out, _, _) = springline(&["read", "--dia", "12.6in", "--json"]);
    let value: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(value["next_check"]["check"], "crossed-diameter");
}

#[test]
fn the_tables_check_clean_and_mistakes_are_found() {
    let sources = concat!(env!("CARGO_MANIFEST_DIR"), "/../tables/sources");
    let (out, err, code) = springline(&["tables", "check", sources]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("no mistakes"));
    let folder = std::env::temp_dir().join(format!("springline-check-{}", std::process::id()));
    copy(Path::new(sources), &folder);
    let file = folder.join("od/c900.csv");
    let text = fs::read_to_string(&file)
        .expect("a table")
        .replacen("hi-data", "hi-dta", 1);
    fs::write(&file, text).expect("a broken table");
    let (out, _, code) = springline(&["tables", "check", &folder.to_string_lossy()]);
    fs::remove_dir_all(&folder).expect("the copy goes away");
    assert_eq!(code, 1);
    assert!(
        out.contains("od/c900.csv:2:") && out.contains("hi-dta") && out.contains('^'),
        "{out}"
    );
    let (_, err, code) = springline(&["tables", "check", "no-such-folder"]);
    assert_eq!(code, 2);
    assert!(err.contains("not a folder"));
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        let target = to.join(path.file_name().expect("a name"));
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).expect("a copy");
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
        if args.first().map(String::as_str) == Some("tables") && args.len() == 2 {
            args.push(concat!(env!("CARGO_MANIFEST_DIR"), "/../tables/sources").to_owned());
        }
        let args: Vec<&str> = args.iter().map(String::as_str).collect();
        let (out, err, code) = springline(&args);
        assert_eq!(code, 0, "{command}:\n{out}{err}");
        run += 1;
    }
    assert!(run >= 6, "only {run} commands ran");
}
