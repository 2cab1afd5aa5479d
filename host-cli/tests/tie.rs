//! `springline tie-in` as its user meets it: golden texts, mistakes, keys, and what must and must never be said.

mod common;

use common::{golden, json, springline};
use serde_json::Value;

#[test]
fn a_steel_riser_to_ips() {
    golden(
        "tie-riser",
        &[
            "tie-in",
            "steel:4:free",
            "ips-pvc:4:SDR 21",
            "--owner",
            "ours",
        ],
    );
}

#[test]
fn iron_to_pip() {
    golden("tie-pip", &["tie-in", "ductile-iron:12", "pip:12"]);
}

#[test]
fn ips_to_c900_where_neither_moves() {
    golden(
        "tie-ips-c900",
        &["tie-in", "ips-pvc:8:SDR 21:fixed", "c900:8:DR 18:fixed"],
    );
}

#[test]
fn c900_to_iron_that_moves() {
    golden(
        "tie-c900-iron",
        &["tie-in", "c900:6:DR 18:fixed", "ductile-iron:6:free"],
    );
}

#[test]
fn none_and_why() {
    golden("tie-none", &["tie-in", "ductile-iron:24", "ips-pvc:2"]);
    golden("tie-none-fixed", &["tie-in", "steel:1", "steel:1"]);
}

#[test]
fn nothing_is_put_on_what_is_not_water() {
    for family in [
        "gas-pe",
        "asbestos-cement",
        "conduit",
        "drain-pvc",
        "sewer-pvc",
    ] {
        let end = format!("{family}:6");
        for args in [["tie-in", &end, "c900:6"], ["tie-in", "c900:6", &end]] {
            let (out, _, code) = springline(&args);
            assert_eq!(code, 1, "{out}");
            assert!(
                out.contains("ASK") && out.contains("No parts are given"),
                "{out}"
            );
            assert!(!out.contains("WAY") && !out.contains("6 in"), "{out}");
            let stop = matches!(family, "gas-pe" | "asbestos-cement");
            assert_eq!(out.contains("STOP - ASK"), stop, "{out}");
        }
    }
}

#[test]
fn mistakes_say_what_there_is() {
    golden("tie-mistake-end", &["tie-in", "c900", "c900:8"]);
    golden("tie-mistake-word", &["tie-in", "c900:8:loose", "c900:8"]);
    golden(
        "tie-mistake-twice",
        &["tie-in", "c900:8:free:fixed", "c900:8"],
    );
    golden("tie-mistake-family", &["tie-in", "c900:8", "iron:8"]);
}

#[test]
fn ends_out_of_line() {
    golden(
        "tie-offset",
        &[
            "tie-in",
            "ductile-iron:8:free",
            "ductile-iron:8",
            "--offset",
            "14",
            "--owner",
            "ours",
        ],
    );
    golden(
        "tie-angle",
        &[
            "tie-in",
            "ips-pvc:3:SDR 21",
            "ips-pvc:3:free",
            "--angle",
            "33",
            "--wet",
        ],
    );
    golden(
        "tie-mistake-angle",
        &["tie-in", "c900:8", "c900:8", "--angle", "steep"],
    );
    golden(
        "tie-mistake-time",
        &["tie-in", "c900:8", "c900:8", "--back-in", "soon"],
    );
    // 14 in at 45 degrees: 14 times the root of 2, and 14; within an inch it is in line.
    let (value, _) = json(&["tie-in", "c900:8", "c900:8", "--offset", "14", "--json"]);
    let taken = value["taken"].as_str().expect("words");
    assert!(
        taken.contains("by 45s 19.799 in from centre to centre, 14.000 in of it"),
        "{taken}"
    );
    assert_eq!(value["bends"], 2);
    for way in value["ways"].as_array().expect("ways") {
        let turns = way["pieces"].as_array().expect("pieces").iter();
        let told: Vec<&str> = turns.filter_map(|piece| piece["turn"].as_str()).collect();
        assert!(
            told == ["as a 45 bend"; 2] || told == ["for an offset of 14.000 in"],
            "{told:?}"
        );
    }
    let (value, _) = json(&["tie-in", "c900:8", "c900:8", "--offset", "1", "--json"]);
    assert_eq!(value["bends"], 0);
}

/// Water back in hours: what is by order or cures is behind all that is not, and says so.
#[test]
fn against_the_clock() {
    golden(
        "tie-back-in",
        &[
            "tie-in",
            "ips-pvc:2:SDR 21:free",
            "ips-pvc:2:SDR 21",
            "--back-in",
            "5h",
            "--dry",
        ],
    );
    let ways = |args: &[&str]| {
        let (value, _) = json(&[args, &["--json"]].concat());
        let ways = value["ways"].as_array().expect("ways").clone();
        ways.iter()
            .map(|way| (parts(way).join(" "), way["late"].as_bool() == Some(true)))
            .collect::<Vec<_>>()
    };
    let asked = ["tie-in", "ips-pvc:2:free", "ips-pvc:2", "--dry"];
    let calm = ways(&asked);
    assert_eq!(calm[0], ("fitting-40".to_owned(), false), "{calm:?}");
    let hurried = ways(&[&asked[..], &["--back-in", "5h"]].concat());
    assert!(
        !hurried[0].1 && !hurried[0].0.contains("fitting-40"),
        "{hurried:?}"
    );
    assert!(hurried.is_sorted_by_key(|(_, late)| *late), "{hurried:?}");
    let wet = ways(&["tie-in", "ips-pvc:2:free", "ips-pvc:2", "--wet"]);
    assert!(
        wet.iter().all(|(parts, _)| !parts.contains("fitting-40")),
        "{wet:?}"
    );
}

/// Ends that go together as they are, flanges of class 250, threads, and what stays on an end.
#[test]
fn ends_as_they_are() {
    golden(
        "tie-bell",
        &["tie-in", "ductile-iron:8:bell", "c900:8:DR 18:free"],
    );
    golden(
        "tie-250",
        &[
            "tie-in",
            "ductile-iron:8:flanged",
            "ductile-iron:8:flanged-250:free",
        ],
    );
    golden(
        "tie-riser-dry",
        &[
            "tie-in",
            "steel:2:threaded",
            "ips-pvc:2:free",
            "--dry",
            "--owner",
            "ours",
        ],
    );
    golden(
        "tie-fused",
        &[
            "tie-in",
            "hdpe-ips:6:DR 11:free",
            "hdpe-ips:6:DR 11",
            "--dry",
        ],
    );
    golden(
        "tie-none-keep",
        &["tie-in", "c900:8:bell:keep", "ductile-iron:8:free"],
    );
    let direct = |from: &str, to: &str| {
        let (value, _) = json(&["tie-in", from, to, "--dry", "--json"]);
        value["ways"][0]["direct"]["joint"]
            .as_str()
            .map(str::to_owned)
    };
    let is = |word: &str| Some(word.to_owned());
    assert_eq!(direct("c900:8:bell:keep", "c900:8:free"), is("bell"));
    // PVC goes into an iron bell, iron never into one of PVC; a bell takes nothing that is fixed, or of another OD.
    assert_eq!(
        direct("ductile-iron:8:bell:keep", "c900:8:free"),
        is("bell")
    );
    assert_eq!(direct("c900:8:bell", "ductile-iron:8:free"), None);
    assert_eq!(direct("c900:8:bell", "c900:8"), None);
    assert_eq!(direct("ips-pvc:8:bell", "c900:8:free"), None);
    assert_eq!(direct("hdpe-ips:6:DR 11", "hdpe-ips:6:DR 17:free"), None);
    assert_eq!(
        direct("hdpe-ips:6:DR 11", "hdpe-ips:6:DR 11:free"),
        is("fused")
    );
    assert_eq!(
        direct("steel:8:flanged", "steel:8:flanged:free"),
        is("flanges")
    );
    assert_eq!(
        direct("steel:8:flanged-250", "steel:8:flanged-250:free"),
        is("flanges")
    );
    assert_eq!(direct("steel:8:flanged-250", "steel:8:flanged:free"), None);
}

fn parts(way: &Value) -> Vec<&str> {
    let pieces = way["pieces"].as_array().expect("pieces");
    pieces
        .iter()
        .filter_map(|piece| piece["part"].as_str())
        .collect()
}

/// Common practice, no source: each pair has what must be offered and what must never be.
#[test]
fn what_must_and_must_never_be_offered() {
    for (args, must, never) in [
        (["ips-pvc:8", "c900:8"], "sleeve-mj", "slip-ips"),
        (
            ["ductile-iron:12", "pip:12"],
            "coupling-sleeve",
            "sleeve-mj",
        ),
        (["c900:6", "ductile-iron:6"], "sleeve-mj", "slip-ciod"),
        (["ips-pvc:3", "c900:6"], "reducer-mj", "coupling-wide"),
        (
            ["c900:6:free", "ips-pvc:6:free"],
            "sleeve-mj",
            "coupling-spl-c9",
        ),
        (["c900:8:flanged", "c900:8"], "flange-grip-pvc", "slip-ips"),
        (["hdpe-dips:8", "c900:8"], "sleeve-mj", "coupling-sleeve"),
        (["ips-pvc:6", "ips-pvc:6"], "slip-ips", "fitting-40"),
        (
            ["steel:4:flanged-250:free", "c900:4"],
            "spool-125-250",
            "slip-ips",
        ),
        (
            ["steel:1:threaded:keep:free", "ips-pvc:1"],
            "fitting-thread",
            "adapter-female",
        ),
        (
            ["pip:15", "ductile-iron:14"],
            "coupling-sleeve",
            "sleeve-mj",
        ),
    ] {
        let (value, _) = json(&["tie-in", args[0], args[1], "--json"]);
        assert_eq!(value["schema"], "springline-tie-in/1");
        let ways = value["ways"].as_array().expect("ways");
        let offered: Vec<&str> = ways.iter().flat_map(parts).collect();
        assert!(offered.contains(&must), "{args:?}: {offered:?}");
        assert!(!offered.contains(&never), "{args:?}: {offered:?}");
        for way in ways {
            let free = args.iter().any(|end| end.ends_with(":free"));
            assert!(free || way["closing"].is_object(), "{args:?}: {way}");
            // Sides of one joint meet: the first and the last are on the two pipes.
            let sides: Vec<&Value> = way["pieces"]
                .as_array()
                .expect("pieces")
                .iter()
                .flat_map(|piece| piece["sides"].as_array().expect("sides"))
                .collect();
            let on = |what: &str| sides.iter().filter(|side| side["on"] == what).count();
            assert_eq!((on("first"), on("second")), (1, 1), "{way}");
            assert!(on("part") % 2 == 0 && on("cut-of-first") % 2 == 0, "{way}");
        }
        let cautions = value["cautions"].to_string();
        assert!(cautions.contains("\"pressure\"") && cautions.contains("\"trench\""));
    }
}

/// A counter is told which fitting it is, both flanges of an adapter, and a bolt set for every flange joint.
#[test]
fn nothing_is_asked_back() {
    let say = |args: &[&str], way: usize| {
        let (value, _) = json(&[args, &["--json"]].concat());
        value["ways"][way]["say"]
            .as_str()
            .expect("words")
            .to_owned()
    };
    let said = say(
        &["tie-in", "steel:2:threaded", "ips-pvc:2:free", "--dry"],
        0,
    );
    assert!(
        said.starts_with("One threaded steel fitting as a coupling: "),
        "{said}"
    );
    let said = say(
        &["tie-in", "steel:8:flanged", "steel:8:flanged-250:free"],
        0,
    );
    for class in ["flange class 125/150", "flange class 250/300"] {
        assert!(said.contains(class), "{said}");
    }
    let (value, _) = json(&[
        "tie-in",
        "ductile-iron:8:free",
        "ductile-iron:8",
        "--offset",
        "14",
        "--json",
    ]);
    let mut looked = 0;
    for way in value["ways"].as_array().expect("ways") {
        let pieces = way["pieces"].as_array().expect("pieces");
        let sides: Vec<&Value> = pieces
            .iter()
            .flat_map(|piece| piece["sides"].as_array().expect("sides"))
            .collect();
        let between = sides.iter().filter(|side| side["on"] == "part").count();
        let less = pieces
            .iter()
            .flat_map(|piece| piece["less"].as_array().expect("less"));
        let sets: u64 = less
            .filter(|less| {
                less["what"]
                    .as_str()
                    .expect("words")
                    .starts_with("bolt set")
            })
            .map(|less| less["count"].as_u64().expect("a number"))
            .sum();
        assert_eq!(sets, between as u64 / 2, "{way}");
        looked += sets;
    }
    assert!(looked >= 3, "{looked}");
}

/// What nothing holds is said, and counted.
#[test]
fn a_coupling_that_holds_nothing_is_said_to() {
    let (out, _, _) = springline(&["tie-in", "ductile-iron:12", "pip:12"]);
    assert!(out.contains("HOLDS  NOTHING"), "{out}");
    let (out, _, _) = springline(&["tie-in", "hdpe-ips:6", "ips-pvc:6"]);
    assert!(
        !out.contains("HOLDS  NOTHING") && out.contains("pulls gasketed bells apart"),
        "{out}"
    );
}
