//! Scripted jobs: what `springline fits` must answer at an invented trench, and what it must never.

mod common;

use common::{json, springline};

/// The cells of a line, quotes doubled inside quotes.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut chars = line.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                cells.last_mut().expect("a cell").push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            c => cells.last_mut().expect("a cell").push(c),
        }
    }
    cells
}

/// Words of a command line, with quotes.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().expect("a word").push(c),
        }
    }
    words
}

#[test]
fn jobs_are_answered_as_a_practitioner_would() {
    let all = include_str!("jobs.csv").lines();
    let mut jobs = 0;
    for line in all.filter(|line| !line.starts_with('#')).skip(1) {
        let [job, args, must, never] = &cells(line)[..] else {
            panic!("four cells: {line}");
        };
        let asked = words(args);
        let asked: Vec<&str> = ["fits"]
            .into_iter()
            .chain(asked.iter().map(String::as_str))
            .collect();
        let (text, _, _) = springline(&asked);
        let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let (value, _) = json(&[&asked[..], &["--json"]].concat());
        let rows = value["rows"].as_array().expect("rows");
        let verdict = |part: &str| {
            let row = rows.iter().find(|row| row["part"] == part);
            row.map(|row| row["verdict"].as_str().expect("a word").to_owned())
        };
        for one in must.split("; ").filter(|one| !one.is_empty()) {
            if let Some(said) = one.strip_prefix('"') {
                let said = said.trim_end_matches('"');
                assert!(plain.contains(said), "{job}: \"{said}\" is missing\n{text}");
            } else {
                let (part, wanted) = one.split_once('=').expect("PART=VERDICT");
                assert_eq!(
                    verdict(part).as_deref(),
                    Some(wanted),
                    "{job}: {part}\n{text}"
                );
            }
        }
        for one in never.split("; ").filter(|one| !one.is_empty()) {
            if let Some(said) = one.strip_prefix('"') {
                let said = said.trim_end_matches('"');
                assert!(!plain.contains(said), "{job}: \"{said}\" is said\n{text}");
            } else {
                // Known to the tables, so that a slip of the pen is no pass.
                let known = include_str!("../../tables/sources/joints/parts.csv");
                assert!(known.contains(&format!("\n{one},")), "{job}: no part {one}");
                let found = verdict(one);
                assert!(
                    found.as_deref().is_none_or(|found| found == "no"),
                    "{job}: {one} is {found:?}\n{text}"
                );
            }
        }
        jobs += 1;
    }
    assert!(jobs >= 12, "{jobs}");
}

/// What must come with what: typed by hand, not read from `cautions.csv`. Common practice, no source.
#[test]
fn no_trigger_comes_without_its_caution() {
    let parts: Vec<&str> = include_str!("../../tables/sources/joints/parts.csv")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .skip(1)
        .filter_map(|line| line.split(',').next())
        .collect();
    assert!(parts.len() > 90);
    let mut seen = std::collections::BTreeSet::new();
    for (family, size) in [
        ("ips-pvc", "4"),
        ("c900", "8"),
        ("ductile-iron", "12"),
        ("pip", "8"),
        ("hdpe-dips", "6"),
        ("steel", "2"),
        ("copper", "1"),
    ] {
        for part in &parts {
            let (value, _) = json(&["fits", family, size, "--part", part, "--json"]);
            let row = &value["rows"][0];
            let list = value["cautions"].as_array().expect("cautions");
            let keys: Vec<&str> = list
                .iter()
                .map(|one| one["caution"].as_str().expect("a key"))
                .collect();
            let must = |key: &str, why: &str| {
                assert!(
                    keys.contains(&key),
                    "{family} {part}: {key} for {why}: {keys:?}"
                );
            };
            must("trench", "every trench");
            if row["verdict"] == "no" {
                continue;
            }
            let act = row["act"].as_str().expect("an act");
            let end = row["end"].as_str().expect("an end");
            must("pressure", "every part that is put on");
            match act {
                "cut" => {
                    for key in ["lock-out", "dead-end", "open-trench", "potable", "power"] {
                        must(key, "a cut");
                    }
                    if family == "ductile-iron" {
                        must("dust", "cut iron");
                    }
                    if ["c900", "ductile-iron", "hdpe-dips"].contains(&family) {
                        must("unknown-grey", "a cut at an iron size");
                    }
                }
                "tap" => {
                    must("tap", "a tap");
                    must("power", "a tap");
                }
                "crew" => must("crew", "a crew"),
                _ => {}
            }
            for (word, key) in [
                ("solvent", "vapour"),
                ("gasket bell", "over-insert"),
                ("sleeve coupling", "no-hold"),
                ("clamp", "no-hold"),
                ("flange class", "flange"),
                ("fusion", "fusion"),
                ("weld", "weld"),
                ("solder socket", "weld"),
            ] {
                // A weld of cement is no weld of steel.
                if end.starts_with(word) || end.contains(word) && word != "weld" {
                    must(key, end);
                    seen.insert(key);
                }
            }
            let orders = list.first().expect("one")["caution"].as_str();
            assert!(
                orders == Some("pressure") || orders == Some("trench"),
                "{orders:?}"
            );
        }
    }
    assert_eq!(seen.len(), 6, "{seen:?}");
}

/// Where nobody may touch it, the stop is the first line of all, however many there are.
#[test]
fn a_stop_and_the_trench_are_never_folded() {
    for family in ["asbestos-cement", "gas-pe"] {
        let (text, _, code) = springline(&["fits", family, "6"]);
        assert_eq!(code, 1);
        assert!(text.contains("STOP"), "{text}");
        assert!(text.contains("! Locate (private lines too)"), "{text}");
    }
    for (family, size) in [("c900", "6"), ("ductile-iron", "8"), ("steel", "4")] {
        let (text, _, _) = springline(&["fits", family, size]);
        let cautions = text.lines().filter(|line| line.starts_with("! ")).count();
        assert!(cautions <= 6, "{text}");
        assert!(text.contains("! Locate (private lines too)"), "{text}");
        assert!(text.contains("more (--why, --json)"), "{text}");
    }
}
