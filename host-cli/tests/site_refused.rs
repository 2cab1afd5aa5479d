//! What `springline surge`, `fill`, `dig` and `cut` refuse, and what they say there is.

mod common;

use common::{golden, json, springline};
use serde_json::Value;

#[test]
fn nothing_is_reckoned_of_what_is_not_to_be_touched() {
    golden(
        "cut-stop",
        &[
            "cut",
            "asbestos-cement",
            "6",
            "--damage",
            "1ft",
            "--kind",
            "split",
        ],
    );
    for args in [
        &["surge", "gas-pe", "2", "--velocity", "5ft/s"][..],
        &["fill", "asbestos-cement", "6", "--length", "100ft"],
        &["dig", "gas-pe", "2", "--cover", "3ft"],
        &["cut", "gas-pe", "2", "--damage", "1ft", "--kind", "split"],
        &["dig", "sewer-pvc", "8", "--cover", "3ft"],
        &["fill", "conduit", "4", "--length", "100ft"],
        &["cut", "drain-pvc", "4", "--opening", "12in"],
    ] {
        let (out, _, code) = springline(args);
        assert_eq!(code, 1, "{args:?}: {out}");
        assert!(out.contains("No numbers are given"), "{args:?}: {out}");
        let mut with = args.to_vec();
        with.push("--json");
        let (value, code) = json(&with);
        assert_eq!((code, value["no"].as_bool()), (1, Some(true)), "{args:?}");
        assert_eq!(
            value["figures"].as_object().map(serde_json::Map::len),
            Some(0)
        );
        let stop = args[1].starts_with("gas") || args[1].starts_with("asbestos");
        assert_eq!(value["stop"], Value::Bool(stop), "{args:?}");
    }
}

#[test]
fn mistakes_say_what_there_is() {
    for (name, args) in [
        (
            "site-mistake-size",
            &["surge", "c900", "7", "--velocity", "5ft/s"][..],
        ),
        (
            "site-mistake-wall",
            &["surge", "c900", "12", "--velocity", "5ft/s"],
        ),
        (
            "site-mistake-set",
            &[
                "surge",
                "c900",
                "12",
                "--class",
                "DR 18",
                "--velocity",
                "5ft/s",
                "--set",
                "z",
            ],
        ),
        (
            "site-mistake-unit",
            &["surge", "c900", "12", "--class", "DR 18", "--velocity", "5"],
        ),
        (
            "site-mistake-length",
            &["fill", "c900", "8", "--length", "0ft"],
        ),
        (
            "site-mistake-bare",
            &["dig", "c900", "8", "--cover", "3ft", "--bare", "0in"],
        ),
        ("site-mistake-nothing", &["cut", "c900", "8"]),
        (
            "site-mistake-part",
            &[
                "cut",
                "c900",
                "8",
                "--opening",
                "5ft",
                "--part",
                "tee-flanged",
            ],
        ),
        (
            "site-mistake-side",
            &[
                "cut",
                "c900",
                "8",
                "--opening",
                "5ft",
                "--lay",
                "8-1/2in",
                "--to",
                "mj",
            ],
        ),
        (
            "site-mistake-short",
            &["cut", "c900", "8", "--opening", "6in", "--lay", "8-1/2in"],
        ),
    ] {
        golden(name, args);
        assert_eq!(springline(args).2, 2, "{args:?}");
    }
}

/// Bad input of every verb that reckons: an error with what there is, and nothing on standard output.
#[test]
fn bad_input_is_told_what_there_is() {
    for (line, says) in [
        (
            "surge c900 6 --class DR99 --velocity 5ft/s",
            "try one of: DR 14, DR 17",
        ),
        (
            "surge c900 6 --class DR18 --velocity -5ft/s",
            "5ft/s, without the dash",
        ),
        (
            "surge c900 6 --class DR18 --velocity nan",
            "5ft/s or 1.5m/s",
        ),
        (
            "surge c900 6 --class DR18 --velocity 0ft/s",
            "makes no surge",
        ),
        (
            "surge c900 6 --class DR18 --velocity 5ft/s --wall 4in",
            "--wall at a cut end",
        ),
        (
            "surge c900 6 --class DR18 --velocity 5ft/s --working 130ft",
            "130ft-head",
        ),
        (
            "surge c900 6 --class DR18 --velocity 5ft/s --per-day 0",
            "1..=100000",
        ),
        ("fill c900 8 --length -5ft", "5ft, without the dash"),
        ("fill c900 8 --length nan", "40ft, 3ft 6in or 12m"),
        ("fill c900 7 --length 100ft", "try one of: 4, 6, 8"),
        (
            "fill c900 8 --length 100ft --test 2000psi",
            "from 0psi to 1000psi",
        ),
        ("dig c900 8 --cover -3ft", "3ft, without the dash"),
        ("dig c900 8 --cover nan", "40ft, 3ft 6in or 12m"),
        ("dig c900 5 --cover 3ft", "try one of: 4, 6, 8"),
        ("cut c900 8 --opening -5ft", "5ft, without the dash"),
        ("cut c900 8 --opening nan", "6 1/2in, 6.5in or 165mm"),
        ("cut c900 8 --opening 5ft --part foo", "flanged-90"),
        ("cut c900 8 --opening 5ft --from foo", "solvent-40"),
        ("bolts flange 7", "try one of: 2, 2-1/2, 3"),
        ("bolts flange 6 --class 999", "125, 150, 250, 300"),
        ("bolts foo 6", "flange, mj"),
        ("bolts mj 7", "try one of"),
        ("assemble c900 7 --joint push-on", "try one of: 4, 6, 8"),
        ("assemble c900 6 --joint foo", "possible values"),
        ("assemble foo 6 --joint mj", "try one of: ips-pvc"),
    ] {
        let (out, err, code) = springline(&line.split(' ').collect::<Vec<_>>());
        assert_eq!((code, out.as_str()), (2, ""), "{line}");
        assert!(err.contains(says), "{line}: {err}");
    }
}
