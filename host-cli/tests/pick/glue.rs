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
        // 3 in at 60 to 100 F and up to 180 psi by the handbook's table: not moved for 30 min, 2 h to cure, 3 h where it is damp;
        // above that pressure 12 h, and in the band up to 40 F 6 h and 16 h.
        ("--dry yes --back-in 4h --temp 80F --highest 120psi", None),
        (
            "--dry yes --back-in 3h --temp 80F --highest 120psi",
            Some("it has not cured"),
        ),
        (
            "--dry yes --back-in 3h --temp 80F --highest 120psi --wet no",
            None,
        ),
        ("--dry yes --back-in 4h --temp 80F", Some("longer figure")),
        (
            "--dry yes --back-in 4h --temp 80F --shutoff 150psi --below 100ft",
            Some("not cured"),
        ),
        (
            "--dry yes --back-in 4h --temp 40F --highest 120psi",
            Some("not moved for 6 h, then 24 h"),
        ),
        (
            "--dry yes --back-in 4h --temp 120F --highest 120psi",
            Some("no times above 100 F"),
        ),
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

/// The clock of a glued job says how much of the time is left for all before the glue.
#[test]
fn the_clock_counts_set_and_cure() {
    let line = "pick repair split ips-pvc 2 --json --dry yes --temp 80F --highest 120psi --back-in 4h --way glued";
    let line: Vec<&str> = line.split(' ').collect();
    let (value, _) = json(&line);
    let lines = value["lines"].as_array().expect("lines");
    let clock = lines.iter().find(|line| line["section"] == "clock");
    let clock = clock
        .and_then(|line| line["text"].as_str())
        .expect("a clock");
    assert!(
        clock.contains("not moved for 30 min, then 3 h to cure")
            && clock.contains("glued within 30 min from now"),
        "{clock}"
    );
    let can = |key: &str| {
        let found = lines.iter().find(|line| line["key"] == key).expect(key);
        found["text"].as_str().unwrap_or_default().to_owned()
    };
    // 60 joints of 2 in to a quart of cement, twice as many to one of primer.
    assert!(can("cement").ends_with("1 qt for 4 joints"));
    assert!(can("primer").ends_with("1 qt for 4 joints"));
}
