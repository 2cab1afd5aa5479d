//! `springline bolts` as its user meets it: golden texts, mistakes, keys, and what must never be said.

mod common;

use common::{golden, json, springline};

#[test]
fn flanges() {
    golden("bolts-flange", &["bolts", "flange", "8"]);
    golden(
        "bolts-flange-rubber",
        &["bolts", "flange", "8", "--gasket", "rubber", "--why"],
    );
    golden(
        "bolts-flange-pvc",
        &[
            "bolts",
            "flange",
            "8",
            "--flanges",
            "iron,pvc",
            "--thick",
            "1-1/8in,1-1/2in",
            "--washers",
            "2",
            "--gasket",
            "rubber",
        ],
    );
    golden(
        "bolts-flange-wafer",
        &[
            "bolts",
            "flange",
            "6",
            "--between",
            "wafer",
            "--body",
            "2-1/4in",
        ],
    );
    golden(
        "bolts-flange-lug",
        &["bolts", "flange", "10", "--between", "lug"],
    );
    golden(
        "bolts-flange-250",
        &["bolts", "flange", "12", "--class", "300", "--units", "mm"],
    );
}

#[test]
fn what_does_not_go_together() {
    golden(
        "bolts-no-class",
        &["bolts", "flange", "8", "--class", "125,250"],
    );
    golden(
        "bolts-no-face",
        &[
            "bolts",
            "flange",
            "6",
            "--flanges",
            "steel,iron",
            "--faces",
            "raised,flat",
        ],
    );
}

#[test]
fn mechanical_joints() {
    golden("bolts-mj", &["bolts", "mj", "12"]);
    golden("bolts-mj-restraint", &["bolts", "mj", "36", "--restraint"]);
}

#[test]
fn mistakes_say_what_there_is() {
    golden("bolts-mistake-size", &["bolts", "flange", "7"]);
    golden("bolts-mistake-mj", &["bolts", "mj", "5"]);
    golden("bolts-mistake-metric", &["bolts", "flange", "DN150"]);
    golden(
        "bolts-mistake-class",
        &["bolts", "flange", "8", "--class", "PN16"],
    );
    golden(
        "bolts-mistake-thick",
        &["bolts", "flange", "8", "--thick", "1in,1in,1in"],
    );
    golden(
        "bolts-mistake-body",
        &["bolts", "flange", "8", "--body", "2in"],
    );
    for size in ["", "0", "-8", "8/3", "9999999999", "eight"] {
        let (out, err, code) = springline(&["bolts", "flange", "--", size]);
        assert_eq!(code, 2, "{size}: {out}");
        assert!(
            out.is_empty() && err.starts_with("error: "),
            "{size}: {err}"
        );
    }
}

/// Only full-face rubber or sheet between flat faces of iron or steel, on bolts that are told, has a figure.
#[test]
fn no_torque_where_it_hangs_on_what_is_not_told() {
    let with = |more: &[&str]| {
        let (value, _) = json(&[&["bolts", "flange", "8", "--json"], more].concat());
        assert_eq!(value["schema"], "springline-bolts/1");
        value
    };
    let figure = with(&["--gasket", "rubber"]);
    // A valve manual's figure for dry bolts: one source, and no check of it.
    assert_eq!(figure["torque_ftlb"][0], 68.0);
    assert!(
        figure["torque_condition"]
            .as_str()
            .unwrap()
            .contains("Shore A")
    );
    assert_eq!(
        with(&["--gasket", "rubber", "--bolts", "oiled"])["torque_ftlb"][0],
        51.0
    );
    for more in [
        &[][..],
        &["--gasket", "rubber", "--flanges", "iron,pvc"],
        &["--gasket", "rubber", "--flanges", "hdpe"],
        &["--gasket", "rubber", "--flanges", "steel,bronze"],
        &["--gasket", "rubber", "--bolts", "stainless"],
        &["--gasket", "rubber", "--class", "250"],
        &["--gasket", "rubber", "--between", "lug"],
        &[
            "--gasket",
            "rubber",
            "--flanges",
            "steel",
            "--faces",
            "raised",
        ],
    ] {
        let value = with(more);
        assert!(value["torque_ftlb"].is_null(), "{more:?}: {value}");
        assert!(value["round_ftlb"].is_null() && value["no_torque"].is_string());
    }
    // Nor a length where a thickness is not known, or with a restraint.
    for more in [
        &["--flanges", "pvc"][..],
        &["--class", "250"],
        &["--between", "wafer"],
    ] {
        let value = with(more);
        assert!(
            value["length_in"].is_null() && value["stud_in"].is_null(),
            "{more:?}"
        );
        assert!(value["no_length"].as_str().unwrap().contains("measure"));
    }
    let (value, _) = json(&["bolts", "mj", "8", "--restraint", "--json"]);
    assert!(value["length_in"].is_null() && value["count"] == 6);
}

/// What is added between the flanges makes bolts longer, never shorter.
#[test]
fn more_to_hold_takes_longer_bolts() {
    let length = |more: &[&str]| {
        let (value, _) = json(&[&["bolts", "flange", "8", "--json"], more].concat());
        value["length_in"].as_f64().unwrap()
    };
    assert!((length(&[]) - 3.5).abs() < 1e-9);
    assert!((length(&["--gasket-thick", "1/16in"]) - 3.5).abs() < 1e-9);
    let mut last = length(&[]);
    for more in [
        &["--washers", "2"][..],
        &["--washers", "2", "--gasket-thick", "1/2in"],
        &["--thick", "1.12in,3in"],
        &["--between", "filler", "--body", "2in"],
    ] {
        assert!(length(more) > last, "{more:?}");
        last = length(more);
    }
}
