//! When glue is offered.

use crate::common::json;

/// No glue where it cannot be dry, is cold, or must be back before anybody knows that it has cured.
#[test]
fn glue_waits_for_dry_warm_and_time() {
    let glued = |more: &str| {
        let line = format!("pick repair split ips-pvc 3 --json {more}");
        let line: Vec<&str> = line.split_whitespace().collect();
        let (value, _) = json(&line);
        let one = &value["alternatives"][0];
        let others = one["others"].as_array().expect("others");
        let found = others
            .iter()
            .find(|other| other["way"] == "glued")
            .expect("it is considered");
        (
            one["way"] == "slip",
            found["why_not"].as_str().map(str::to_owned),
        )
    };
    for (more, why) in [
        ("--dry yes", None),
        ("", Some("dry")),
        ("--dry no", Some("dry")),
        ("--dry yes --temp 38F", Some("colder")),
        ("--dry yes --back-in 8h", Some("cures")),
    ] {
        let (first, held) = glued(more);
        assert!(first, "a gasketed coupling is the first choice: {more}");
        match (why, held) {
            (None, None) => {}
            (Some(why), Some(held)) => assert!(held.contains(why), "{more}: {held}"),
            (why, held) => panic!("{more}: {held:?} for {why:?}"),
        }
    }
}
