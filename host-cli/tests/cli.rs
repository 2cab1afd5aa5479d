//! The command as such: lengths as they are typed, mistakes, closed pipes, and what the README says of it.

mod common;

use std::process::{Command, Stdio};

use common::{golden, json};

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
