//! `springline assemble` as its user meets it: golden texts, mistakes, keys, and what must never be said.

mod common;

use common::{golden, json, springline};

#[test]
fn gasketed() {
    golden(
        "assemble-bell",
        &[
            "assemble", "c900", "8", "--joint", "bell", "--bell", "6-1/2in", "--turn", "10",
            "--joints", "30",
        ],
    );
    golden(
        "assemble-push",
        &["assemble", "c900", "8", "--joint", "push-on"],
    );
    golden(
        "assemble-push-ips",
        &[
            "assemble", "ips-pvc", "6", "--class", "SDR 21", "--joint", "push-on", "--bell", "5in",
        ],
    );
    golden(
        "assemble-push-iron",
        &[
            "assemble",
            "ductile-iron",
            "12",
            "--joint",
            "push-on",
            "--turn",
            "22-1/2",
            "--why",
        ],
    );
    golden(
        "assemble-mj-iron",
        &["assemble", "ductile-iron", "4", "--joint", "mj"],
    );
    golden(
        "assemble-mj-ips",
        &["assemble", "ips-pvc", "6", "--joint", "mj"],
    );
    golden(
        "assemble-pip-mm",
        &[
            "assemble", "pip", "15", "--joint", "bell", "--units", "mm", "--length", "60m",
            "--temp", "35C", "--runs", "12C",
        ],
    );
}

#[test]
fn glued() {
    golden(
        "assemble-glue",
        &["assemble", "ips-pvc", "4", "--joint", "solvent"],
    );
    golden(
        "assemble-glue-cold",
        &[
            "assemble",
            "ips-pvc",
            "6",
            "--class",
            "SDR 26",
            "--joint",
            "solvent",
            "--temp",
            "45F",
            "--pressure",
            "170psi",
            "--joints",
            "12",
        ],
    );
    golden(
        "assemble-glue-hot",
        &[
            "assemble", "ips-pvc", "12", "--joint", "solvent", "--temp", "105F",
        ],
    );
}

#[test]
fn what_does_not_go() {
    golden(
        "assemble-no",
        &["assemble", "c900", "6", "--joint", "solvent"],
    );
    golden(
        "assemble-too-far",
        &[
            "assemble",
            "ductile-iron",
            "6",
            "--joint",
            "push-on",
            "--angle",
            "7",
        ],
    );
    for family in [
        "gas-pe",
        "asbestos-cement",
        "conduit",
        "drain-pvc",
        "sewer-pvc",
    ] {
        for joint in ["bell", "push-on", "mj", "solvent"] {
            let (out, _, code) = springline(&["assemble", family, "6", "--joint", joint]);
            assert_eq!(code, 1, "{out}");
            assert!(out.contains("ASK") && !out.contains("DEPTH"), "{out}");
            assert!(!out.contains("1  ") && !out.contains("6 in"), "{out}");
            let stop = matches!(family, "gas-pe" | "asbestos-cement");
            assert_eq!(out.contains("STOP - ASK"), stop, "{out}");
        }
    }
}

#[test]
fn mistakes_say_what_there_is() {
    golden(
        "assemble-mistake-length",
        &[
            "assemble", "c900", "8", "--joint", "bell", "--length", "100ft",
        ],
    );
    golden(
        "assemble-mistake-temp",
        &[
            "assemble", "ips-pvc", "4", "--joint", "solvent", "--temp", "60",
        ],
    );
    golden(
        "assemble-mistake-bell",
        &[
            "assemble", "c900", "8", "--joint", "bell", "--bell", "1/4in",
        ],
    );
    golden(
        "assemble-mistake-size",
        &["assemble", "c900", "7", "--joint", "bell"],
    );
}

/// MJ figures are of bare iron with a plain gland.
#[test]
fn no_turn_where_there_is_no_figure() {
    let (iron, code) = json(&["assemble", "ductile-iron", "8", "--joint", "mj", "--json"]);
    assert_eq!(
        (iron["schema"].as_str(), code),
        (Some("springline-assemble/1"), 0)
    );
    assert!((iron["turn"]["most_degrees"].as_f64().unwrap() - 5.35).abs() < 1e-9);
    for args in [
        &["ductile-iron", "8", "--joint", "mj", "--restraint"][..],
        &["c900", "8", "--joint", "mj"],
        &["ips-pvc", "8", "--joint", "mj"],
        &["c900", "8", "--joint", "bell", "--restraint"],
        &["ips-pvc", "8", "--joint", "solvent"],
    ] {
        let (value, code) = json(&[&["assemble"], args, &["--json"]].concat());
        assert!(
            value["turn"].is_null() && value["no_turn"].is_string(),
            "{args:?}"
        );
        assert_eq!(code, 0);
        let (value, code) = json(&[&["assemble"], args, &["--json", "--angle", "1"]].concat());
        assert!(value["none"].is_string() && code == 1, "{args:?}");
    }
}

/// Wet unless told, and the colder and the larger never sooner.
#[test]
fn cement() {
    let hours = |size: &str, temp: &str, wet: &str| {
        let args = [
            "assemble",
            "ips-pvc",
            size,
            "--joint",
            "solvent",
            "--temp",
            temp,
            "--pressure",
            "150psi",
        ];
        let (value, _) = json(&[&args[..], &["--json", "--wet", wet]].concat());
        value["glue"]["bands"][0]["waits"][0]["cure_h"]
            .as_f64()
            .unwrap()
    };
    assert!((hours("6", "45F", "yes") - 1.5 * hours("6", "45F", "no")).abs() < 1e-9);
    assert!(
        hours("6", "60F", "no") > hours("6", "61F", "no"),
        "the edge is the colder's"
    );
    assert!(
        hours("3-1/2", "70F", "no") > hours("3", "70F", "no"),
        "between two sizes, the larger"
    );
    let plain = [
        "assemble", "ips-pvc", "6", "--joint", "solvent", "--temp", "45F", "--json",
    ];
    let (value, _) = json(&plain);
    assert_eq!(value["glue"]["wet"], true);
}

/// Bells are no standard: no depth without one that was measured.
#[test]
fn no_mark_without_a_bell() {
    for joint in ["bell", "push-on"] {
        let args = ["assemble", "c900", "8", "--joint", joint, "--json"];
        let (value, _) = json(&args);
        assert!(value["mark_in"].is_null(), "{value}");
        let (value, _) = json(&[&args[..], &["--bell", "6in"]].concat());
        assert_eq!(value["mark_in"], 5.5);
    }
}
