//! `springline fits` as its user meets it: golden texts, exit codes, keys.

mod common;

use common::{golden, json, springline};

#[test]
fn a_page_for_a_pipe_that_is_known() {
    golden("fits-c900-6", &["fits", "c900", "6"]);
    golden("fits-ips-8", &["fits", "ips-pvc", "8", "--class", "SDR 21"]);
    golden(
        "fits-measured",
        &["fits", "c900", "6.9in", "--owner", "ours"],
    );
    golden(
        "fits-purveyor",
        &[
            "fits", "c900", "8", "--owner", "purveyor", "--class", "DR 18",
        ],
    );
}

#[test]
fn a_job_in_full() {
    golden(
        "fits-repair",
        &[
            "fits", "ips-pvc", "8", "--class", "SDR 21", "--job", "repair",
        ],
    );
    golden(
        "fits-outlet",
        &["fits", "c900", "4", "--job", "saddle", "--owner", "ours"],
    );
    golden(
        "fits-restraint",
        &["fits", "ductile-iron", "12", "--job", "restraint"],
    );
}

#[test]
fn one_part_with_every_reason() {
    golden("fits-part", &["fits", "c900", "4", "--part", "saddle-ciod"]);
    golden(
        "fits-part-no",
        &["fits", "c900", "4", "--part", "saddle-ips"],
    );
    golden(
        "fits-part-250",
        &[
            "fits",
            "ductile-iron",
            "8",
            "--end",
            "flanged",
            "--part",
            "regulator-250",
        ],
    );
}

#[test]
fn a_stamped_range_is_judged() {
    golden("fits-range", &["fits", "c900", "6", "--range", "6.60-7.10"]);
    golden(
        "fits-range-no",
        &[
            "fits",
            "c900",
            "6",
            "--part",
            "clamp-full",
            "--range",
            "6.60-6.85",
        ],
    );
    golden(
        "fits-range-tight",
        &[
            "fits",
            "c900",
            "6",
            "--part",
            "clamp-full",
            "--range",
            "6.60-6.905",
        ],
    );
    golden(
        "fits-range-none",
        &[
            "fits",
            "c900",
            "6",
            "--part",
            "valve-mj",
            "--range",
            "6.60-7.10",
        ],
    );
}

#[test]
fn pipe_that_nothing_is_put_on() {
    for (name, family) in [
        ("fits-stop-cement", "asbestos-cement"),
        ("fits-stop-gas", "gas-pe"),
        ("fits-conduit", "conduit"),
    ] {
        golden(name, &["fits", family, "6"]);
        let (value, code) = json(&["fits", family, "6", "--json"]);
        assert_eq!(code, 1);
        let rows = value["rows"].as_array().expect("rows");
        assert_eq!(rows.len(), 1, "{value}");
        assert_eq!(rows[0]["verdict"], "refer");
        assert!(value["pipe"]["od_in"].is_null());
    }
}

#[test]
fn mistakes_say_what_there_is() {
    golden("fits-mistake-od", &["fits", "c900", "6.625in"]);
    golden("fits-mistake-size", &["fits", "c900", "7"]);
    golden(
        "fits-mistake-class",
        &["fits", "c900", "6", "--class", "Sch 40"],
    );
    golden(
        "fits-mistake-part",
        &["fits", "c900", "6", "--part", "elbow"],
    );
    golden("fits-mistake-ods", &["fits", "cast-iron", "6"]);
    golden(
        "fits-mistake-range",
        &["fits", "c900", "6", "--range", "wide"],
    );
}

/// Every answer has the fixed keys, and fits a page.
#[test]
fn keys_and_pages() {
    for (family, size) in [
        ("c900", "6"),
        ("ips-pvc", "2"),
        ("hdpe-ips", "8"),
        ("steel", "4"),
        ("pip", "12"),
    ] {
        let (value, code) = json(&["fits", family, size, "--json"]);
        assert_eq!(code, 0);
        assert_eq!(value["schema"], "springline-fits/1");
        assert_eq!(value["pipe"]["family"], family);
        assert_eq!(value["pipe"]["nominal"], size);
        for row in value["rows"].as_array().expect("rows") {
            for key in [
                "part", "verdict", "needs", "holds", "reason", "source", "grade",
            ] {
                assert!(!row[key].is_null(), "{key} of {row}");
            }
            let refuses =
                ["no", "refer", "adapter"].contains(&row["verdict"].as_str().expect("a word"));
            assert!(!refuses || row["reason"] != "", "{row}");
        }
        let (out, _, _) = springline(&["fits", family, size]);
        assert!(out.lines().count() <= 75, "{out}");
        assert!(out.lines().all(|line| line.chars().count() <= 78), "{out}");
        assert!(!out.contains('%'));
    }
}
