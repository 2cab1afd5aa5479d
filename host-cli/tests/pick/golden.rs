//! Lists as they are read, and what is said to mistakes.

use crate::common::{golden, json, springline};
use crate::words;

fn list(name: &str, line: &str) {
    let words = words(line);
    let words: Vec<&str> = ["pick"]
        .into_iter()
        .chain(words.iter().map(String::as_str))
        .collect();
    golden(name, &words);
}

#[test]
fn a_split_in_pip_in_february() {
    list(
        "pick-split-pip",
        "repair split pip 10 --class \"SDR 41\" --damage 10ft --dry no --back-in 8h --temp 38F --valve 60ft --wires 0 --water irrigation --owner ours --shutoff 90psi --depth 4ft --soil clay --drains 300ft",
    );
}

#[test]
fn a_tee_with_a_closing_valve_near_it() {
    list(
        "pick-tee-c900",
        "cut-in tee c900 8 --class \"DR 18\" branch c900:6:\"DR 18\" --valve 6ft --dry no --back-in 12h --temp 60F --wires 3 --water irrigation --owner ours --shutoff 130psi --below 40ft --depth 3ft --coupling 12in --opening 40in --lay 9in --drains 200ft",
    );
}

#[test]
fn a_main_that_feeds_a_manifold() {
    list(
        "pick-manifold",
        "manifold ips-pvc 4 --class \"SDR 21\" --outlet 1-1/2 --valves 4 --dry yes --water irrigation --owner ours --temp 75F --back-in 6h",
    );
}

#[test]
fn lists_unlike_each_other() {
    list(
        "pick-tie-in",
        "tie-in ips-pvc:6:\"SDR 21\" ductile-iron:6 --owner ours --dry no",
    );
    list(
        "pick-road",
        "road ips-pvc 8 --class \"SDR 21\" carrier ductile-iron:8 --length 60ft --owner ours --dry no",
    );
    list(
        "pick-stub",
        "stub c900 8 --class \"DR 18\" --owner ours --dry no --water potable",
    );
    list(
        "pick-valve-pip",
        "repair valve pip 12 --dry no --owner ours",
    );
    list(
        "pick-bell-iron",
        "repair bell cast-iron 6 --class \"Class 100-250\" --dry no --back-in 6h --owner ours",
    );
    list(
        "pick-fitting",
        "repair fitting ips-pvc 4 branch ips-pvc:3 --dry no --owner ours",
    );
    list(
        "pick-saddle",
        "repair saddle ips-pvc 4 --outlet 1 --owner ours",
    );
    list(
        "pick-glued",
        "repair split ips-pvc 2 --class \"Sch 40\" --dry yes --temp 80F --damage 6in --way glued --back-in 4h --highest 120psi --depth 2ft",
    );
    list(
        "pick-tapping",
        "outlet c900 8 --outlet 4 --owner ours --dry no",
    );
    list(
        "pick-hdpe",
        "repair split hdpe-ips 6 --class \"DR 11\" --damage 2ft --dry no --owner ours",
    );
    list(
        "pick-why",
        "stub ductile-iron 6 --way mj --why --owner ours --units mm --highest 1000kPa --depth 1m --gasket rubber",
    );
}

#[test]
fn pipes_that_are_not_told_apart() {
    list(
        "pick-open",
        "repair split ips-pvc:6 or c900:6 --damage 1ft --dry no --back-in 8h --owner ours",
    );
    list(
        "pick-read",
        "repair gasket --dia 6.63in --dry no --owner ours",
    );
}

#[test]
fn nothing_is_listed_for_what_is_not_touched() {
    list("pick-stop", "repair split asbestos-cement 6");
    list("pick-purveyor", "cut-in valve c900 6 --owner purveyor");
    for (pipe, stop) in [
        ("gas-pe 4", true),
        ("drain-pvc 4", false),
        ("conduit 4", false),
        ("sewer-pvc 8", false),
    ] {
        for output in ["--json", "--csv"] {
            let line = format!("pick repair split {pipe} {output}");
            let line: Vec<&str> = line.split(' ').collect();
            let (out, _, code) = springline(&line);
            assert_eq!(code, 1, "{out}");
            assert!(!out.contains("coupling") && !out.contains("saw"), "{out}");
            assert_eq!(out.contains("stop"), stop || output == "--json", "{out}");
        }
        let line = format!("pick repair split {pipe} --json");
        let line: Vec<&str> = line.split(' ').collect();
        assert_eq!(json(&line).0["stop"], stop);
    }
    // Among pipes that are not told apart a stop stops all of them.
    let (out, _, code) = springline(&[
        "pick",
        "repair",
        "split",
        "c900:6",
        "or",
        "asbestos-cement:6",
    ]);
    assert!(
        code == 1 && out.contains("STOP - ASK") && !out.contains("sleeve"),
        "{out}"
    );
}

#[test]
fn mistakes_say_what_there_is() {
    list("pick-mistake-job", "fix split c900 6");
    list("pick-mistake-pipe", "repair split c900 6 iron 8");
    list("pick-mistake-size", "repair split pip 7");
    list("pick-mistake-none", "repair split");
    list("pick-mistake-branch", "cut-in tee c900 8");
    list("pick-mistake-way", "repair split c900 8 --way glued");
    list("pick-mistake-clock", "repair split c900 8 --back-in 8");
    list("pick-mistake-outlet", "outlet c900 8 --outlet 7/3");
    list("pick-mistake-three", "tie-in c900:8 c900:6 c900:4");
    list("pick-mistake-many", "repair split c900 8 --tables tests");
}
