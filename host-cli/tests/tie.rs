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
