//! What `springline restrain` refuses, and what it says there is.

mod common;

use common::springline;

fn run(line: &str) -> (String, String, i32) {
    let args: Vec<&str> = ["restrain"].into_iter().chain(line.split(' ')).collect();
    springline(&args)
}

#[test]
fn nothing_is_reckoned_of_what_is_not_water() {
    for family in [
        "gas-pe",
        "asbestos-cement",
        "conduit",
        "drain-pvc",
        "sewer-pvc",
    ] {
        let (out, _, code) = run(&format!("{family} 6 bend --pressure 100psi --depth 3ft"));
        assert_eq!(code, 1, "{out}");
        assert!(out.contains("No numbers are given"), "{out}");
        assert!(
            !out.contains("lb") && !out.contains("psi") && !out.contains("RESTRAIN"),
            "{out}"
        );
        let stop = matches!(family, "gas-pe" | "asbestos-cement");
        assert_eq!(out.contains("STOP - ASK"), stop, "{out}");
    }
}

#[test]
fn muck_and_sharp_bends_are_referred() {
    for (line, word) in [
        (
            "c900 8 bend --pressure 100psi --depth 3ft --soil muck",
            "An engineer",
        ),
        (
            "c900 8 bend --pressure 100psi --depth 3ft --soil peat --block",
            "An engineer",
        ),
        (
            "c900 8 bend --angle 135 --pressure 100psi --depth 3ft",
            "two bends",
        ),
        (
            "copper 2 bend --pressure 100psi --depth 3ft",
            "Ask who made",
        ),
    ] {
        let (out, _, code) = run(line);
        assert_eq!(code, 1, "{out}");
        assert!(out.contains(word) && !out.contains("RESTRAIN"), "{out}");
    }
}

/// Nothing but an error that says so.
#[track_caller]
fn refused(line: &str, says: &str) {
    let (out, err, code) = run(line);
    assert_eq!((code, out.as_str()), (2, ""), "{line}");
    assert!(err.contains(says), "{line}: {err}");
}

#[test]
fn mistakes_say_what_there_is() {
    let most = "--pressure 100psi --depth 3ft";
    for (line, says) in [
        (format!("c900 7 bend {most}"), "try one of: 4, 6, 8"),
        (
            format!("c900 8 bend {most} --class DR99"),
            "try one of: DR 14",
        ),
        (format!("c900 8 bend {most} --angle 50"), "11-1/4, 22-1/2"),
        (format!("c900 8 bend {most} --soil loam"), "sandy-clay"),
        (format!("c900 8 bend {most} --branch 4"), "a tee or a wye"),
        (format!("c900 8 tee {most}"), "--branch 4"),
        (format!("c900 8 reducer --to 12 {most}"), "--to 4, 6\n"),
        (
            format!("c900 8 bend {most} --trench light --soil sand"),
            "bedded, granular, compacted",
        ),
        (format!("c900 8 bend {most} --wrapped"), "iron and steel"),
        (
            format!("c900 8 bend {most} --block --bearing best"),
            "nrcs, handbook, trade",
        ),
        (format!("c900 8 bend {most} --cure 24h"), "--block"),
        (String::from("c900 8 bend --depth 3ft"), "--shutoff 130psi"),
        (
            String::from("c900 8 bend --pressure 100 --depth 3ft"),
            "say the unit",
        ),
        (
            String::from("c900 8 bend --pressure 100psi --depth 0ft"),
            "--depth 3ft",
        ),
        (
            String::from("c900 8 bend --pressure 100psi --below 10ft --depth 3ft"),
            "--shutoff",
        ),
        (
            String::from("c900 8 bend --pressure 100psi --depth 3ft --stick 0ft"),
            "--stick 20ft",
        ),
    ] {
        refused(&line, says);
    }
}

#[test]
fn sizes_and_numbers_that_are_none() {
    let most = "--pressure 100psi --depth 3ft";
    for (line, says) in [
        (format!("c900 6 reducer --to 6 {most}"), "--to 4\n"),
        (format!("c900 4 reducer --to 4 {most}"), "FAMILY:SIZE"),
        (format!("c900 6 tee --branch 8 {most}"), "--branch 4, 6\n"),
        (format!("c900 6 wye --branch 8 {most}"), "--branch 4, 6\n"),
        (
            format!("c900 6 tee --branch foo:4 {most}"),
            "try one of: ips-pvc, c900",
        ),
        (format!("foo 6 bend {most}"), "try one of: ips-pvc, c900"),
        (format!("c900 nan bend {most}"), "try one of: 4, 6, 8"),
        (format!("c900 8 elbow {most}"), "bend-up, bend-down"),
        (
            format!("c900 8 bend {most} --angle nan"),
            "90, 45 or 22-1/2",
        ),
        (format!("c900 8 bend {most} --angle 0"), "11-1/4, 22-1/2"),
        (
            format!("c900 8 bend {most} --angle -45"),
            "45, without the dash",
        ),
        (
            format!("c900 8 bend {most} --valve nan"),
            "40ft, 3ft 6in or 12m",
        ),
        (format!("c900 8 bend {most} --temp nan"), "95F or 35C"),
        (
            format!("c900 8 bend {most} --temp 900F"),
            "from -40F to 180F",
        ),
        (
            format!("c900 8 dead-end {most} --far-valve 5ft"),
            "runs on from",
        ),
        (
            format!("c900 8 bend {most} --far-valve 5ft --far-dead-end 6ft"),
            "cannot be used with",
        ),
        (
            String::from("c900 8 bend --pressure -5psi --depth 3ft"),
            "5psi, without the dash",
        ),
        (
            String::from("c900 8 bend --pressure 130ft --depth 3ft"),
            "130ft-head",
        ),
        (
            String::from("c900 8 bend --pressure inf --depth 3ft"),
            "130psi, 9bar",
        ),
        (
            String::from("c900 8 bend --pressure 0psi --depth 3ft"),
            "--shutoff 130psi",
        ),
        (
            String::from("c900 8 bend --pressure 2000psi --depth 3ft"),
            "from 0psi to 1000psi",
        ),
        (
            String::from("c900 8 bend --pressure 100psi --depth -3ft"),
            "3ft, without the dash",
        ),
    ] {
        refused(&line, says);
    }
}

#[test]
fn wyes_that_are_none() {
    let most = "--pressure 100psi --depth 3ft";
    for (line, says) in [
        (format!("c900 8 even-wye --between 90 {most}"), "--branch 4"),
        (format!("c900 8 even-wye --branch 4 {most}"), "--between 90"),
        (
            format!("c900 8 even-wye --branch 4 --between 180 {most}"),
            "less than 180",
        ),
        (
            format!("c900 8 even-wye --branch 4 --between 90 --block {most}"),
            "restrain all three",
        ),
        (
            format!("c900 8 wye --branch 4 --between 90 {most}"),
            "an even wye",
        ),
    ] {
        refused(&line, says);
    }
}
