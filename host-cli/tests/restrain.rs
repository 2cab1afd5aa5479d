//! `springline restrain` as its user meets it: golden texts, figures, keys of the JSON.

mod common;

use common::{golden, json, springline};

/// A golden text of a command line without quotes.
fn said(name: &str, line: &str) {
    let args: Vec<&str> = ["restrain"].into_iter().chain(line.split(' ')).collect();
    golden(name, &args);
}

fn run(line: &str) -> (String, String, i32) {
    let args: Vec<&str> = ["restrain"].into_iter().chain(line.split(' ')).collect();
    springline(&args)
}

fn value(line: &str) -> (serde_json::Value, i32) {
    let args: Vec<&str> = ["restrain"]
        .into_iter()
        .chain(line.split(' '))
        .chain(["--json"])
        .collect();
    json(&args)
}

#[test]
fn a_bend_at_a_pump() {
    let pump = "ips-pvc 6 bend --shutoff 130psi --below 40ft --depth 3ft --owner ours";
    said("restrain-pump-open", &format!("{pump} --backfill open"));
    said(
        "restrain-pump-done",
        &format!("{pump} --backfill done --class SDR26"),
    );
    said(
        "restrain-pump-why",
        &format!("{pump} --backfill done --why"),
    );
}

#[test]
fn a_dead_end() {
    said(
        "restrain-dead-end",
        "c900 12 dead-end --test 150psi --depth 4ft --soil sand --class DR18",
    );
}

#[test]
fn a_cut_in_tee_with_a_closing_valve() {
    let tee = "c900 8 tee --branch 6 --static 80psi --test 150psi --depth 3ft --soil clay --valve 6ft --class DR18";
    said("restrain-tee", tee);
    said(
        "restrain-tee-run",
        &format!("{tee} --run-restrained 8ft --branch-dead-end 10ft --backfill done"),
    );
}

#[test]
fn what_lies_up_and_down() {
    said(
        "restrain-up-block",
        "ductile-iron 8 bend-down --angle 45 --pressure 150psi --depth 3ft --block --back-in 8h",
    );
    said(
        "restrain-drop",
        "pip 10 offset --drop 1.2m --angle 45 --working 5bar --surge 2bar --depth 1m --soil silty-sand --units mm",
    );
}

#[test]
fn blocks() {
    let bend = "c900 8 bend --pressure 100psi --depth 3ft --soil sand";
    said(
        "restrain-block",
        &format!("{bend} --block --cure 72h --back-in 4days"),
    );
    said("restrain-block-half", &format!("{bend} --block half"));
    for (more, why) in [
        ("--back-in 24h", "before the concrete has cured"),
        ("--fast-mix --back-in 23h", "before the concrete has cured"),
        ("--fill", "dug before"),
        ("--cut-behind 6ft", "within its reach"),
        ("--bearing handbook --pressure 180psi", "wider than twice"),
    ] {
        let base = bend.replace(
            "--pressure 100psi",
            if more.contains("--pressure") {
                ""
            } else {
                "--pressure 100psi"
            },
        );
        let line = format!("{base} --block {more}").replace("  ", " ");
        let (out, err, code) = run(&line);
        assert_eq!(code, 0, "{line}: {err}");
        let plain = out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            plain.contains("NO BLOCK") && plain.contains(why),
            "{line}: {out}"
        );
        // Restraint is offered whole, and the block is not what the open trench rests on.
        assert!(
            plain.contains("RESTRAIN EACH SIDE") && !plain.contains("against the cured block"),
            "{out}"
        );
    }
    let (out, ..) = run(&format!("{bend} --block --fast-mix --back-in 24h"));
    assert!(out.contains("against the cured block"), "{out}");
    let (out, ..) = run("c900 8 bend --pressure 100psi --depth 1.9ft --soil sand --block");
    assert!(out.contains("so little cover"), "{out}");
    // Never the highest column unless it is asked for by name, and never two.
    let (low, _) = value(&format!("{bend} --block"));
    let (high, _) = value(&format!("{bend} --block --bearing trade"));
    assert_eq!(low["block"]["table"], "nrcs");
    assert_eq!(
        (&high["block"]["bearing_psf"], &high["block"]["factor"]),
        (&4000.0.into(), &1.5.into())
    );
}

#[test]
fn joints_that_hold_themselves() {
    said(
        "restrain-glued",
        "ips-pvc 4 bend --joints solvent --pressure 100psi --depth 2ft --soil sand",
    );
    said(
        "restrain-fused",
        "hdpe-ips 6 bend --pressure 80psi --depth 3ft",
    );
}

#[test]
fn no_length_without_backfill() {
    for line in [
        "c900 8 bend --pressure 100psi --depth 3ft --soil sand",
        "ductile-iron 12 dead-end --pressure 200psi --depth 5ft",
        "pip 10 tee --branch 4 --pressure 80psi --depth 3ft --soil clay",
        "ips-pvc 6 reducer --to 4 --pressure 100psi --depth 3ft --joints solvent",
    ] {
        let (out, err, code) = run(line);
        assert_eq!(code, 0, "{err}");
        let at = out.find("AFTER BACKFILL").expect("the words");
        assert!(out.contains("NO LENGTH HOLDS"), "{out}");
        let before = out[..at].to_owned();
        assert!(
            !before.contains("RESTRAIN  ") && !before.contains("of held pipe"),
            "{out}"
        );
        assert!(out.contains("LENGTH    after backfill"), "{out}");
        let (done, ..) = run(&format!("{line} --backfill done"));
        assert!(
            !done.contains("NO LENGTH HOLDS") && done.contains("AFTER BACKFILL"),
            "{done}"
        );
    }
}

#[test]
fn a_pressure_above_the_class_is_no_plan_and_says_what_is_enough() {
    let (out, _, code) = run("ips-pvc 6 bend --pressure 180psi --depth 3ft --class SDR26");
    assert_eq!(code, 1, "{out}");
    assert!(
        !out.contains("RESTRAIN") && !out.contains("LENGTH"),
        "{out}"
    );
    let plain = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        plain.contains("ABOVE THE CLASS: 180 psi on SDR 26, rated 160 psi"),
        "{out}"
    );
    assert!(
        plain.contains("SDR 21 (200 psi)") && !plain.contains("SDR 41"),
        "{out}"
    );
    // Nor is there one where no class of the size would do, whichever it is.
    let (out, _, code) = run("hdpe-ips 6 bend --pressure 400psi --depth 3ft");
    assert_eq!(code, 1, "{out}");
    assert!(
        out.contains("ABOVE EVERY CLASS: 400 psi") && !out.contains("THRUST"),
        "{out}"
    );
    let (out, _, code) = run("hdpe-ips 6 bend --pressure 220psi --depth 3ft");
    assert_eq!(code, 0, "{out}");
    assert!(out.contains("CLASS NOT TOLD: 220 psi"), "{out}");
    // A surge comes once in a while: it is told, and the joints are held.
    let (out, _, code) =
        run("ips-pvc 6 bend --working 100psi --surge 80psi --depth 3ft --class SDR26");
    assert_eq!(code, 0, "{out}");
    assert!(
        out.contains("ABOVE THE CLASS") && out.contains("RESTRAIN"),
        "{out}"
    );
}

/// Surge and restraint hold a pressure against one class: today's by its wall, that of the older standard where its print is told,
/// and what heat leaves of either.
#[test]
fn one_rule_of_the_class_for_every_verb() {
    for (told, temp, class, left) in [
        ("DR18", "73F", 235.0, 1.0),
        ("CL150", "73F", 150.0, 1.0),
        ("PC235", "73F", 235.0, 1.0),
        ("DR18", "90F", 235.0, 0.75),
        ("CL150", "90F", 150.0, 0.75),
        ("DR25", "100F", 165.0, 0.62),
        ("CL100", "100F", 100.0, 0.62),
    ] {
        let line = format!("c900 8 bend --test 100psi --depth 3ft --class {told} --temp {temp}");
        let (held, _) = value(&line);
        let rated = &held["rated"];
        assert_eq!(rated["class_psi"], class, "{line}");
        assert_eq!(rated["left"], left, "{line}");
        let of = |key: &str| rated[key].as_f64().expect("a figure");
        assert!((of("rated_psi") - class * left).abs() < 0.05, "{line}");
        let args = format!("surge c900 8 --class {told} --velocity 5ft/s --temp {temp} --json");
        let (surge, _) = json(&args.split(' ').collect::<Vec<_>>());
        let figure = |key: &str| surge["figures"][key]["value"].as_f64().expect("a figure");
        assert!((figure("class_psi") - class).abs() < 1e-6, "{args}");
        assert!(
            (figure("rated_psi") - of("rated_psi")).abs() < 0.05,
            "{args}"
        );
        let above = held.to_string().contains("ABOVE THE CLASS");
        assert_eq!(above, class * left < 100.0, "{line}");
    }
    said(
        "restrain-warm-old",
        "c900 8 bend --test 110psi --depth 3ft --class CL150 --temp 90F --soil sand --backfill done --owner ours",
    );
    said(
        "restrain-above-class",
        "c900 8 bend --test 150psi --depth 3ft --class CL150 --temp 90F --owner ours",
    );
    let (out, _, code) = run("c900 8 bend --test 150psi --depth 3ft --temp 150F");
    assert_eq!(code, 1);
    assert!(
        out.contains("not rated for pressure") && !out.contains("RESTRAIN"),
        "{out}"
    );
    // Iron is not derated.
    let (iron, _) =
        value("ductile-iron 8 bend --test 150psi --depth 3ft --class PC350 --temp 150F");
    assert_eq!(iron["rated"]["rated_psi"], 350.0);
}

#[test]
fn an_even_wye() {
    said(
        "restrain-even-wye",
        "c900 12 even-wye --branch 8 --between 90 --test 150psi --depth 3ft --class DR18 --soil sand --backfill done --owner ours",
    );
    // Branches as large as the run push it back: nothing pulls the run off.
    let (wide, _) =
        value("c900 8 even-wye --branch 8 --between 60 --test 150psi --depth 3ft --soil sand");
    let legs = &wide["after_backfill"]["legs"];
    assert_eq!(
        (&legs[0]["side"], &legs[0]["own_ft"]),
        (&"first".into(), &0.0.into())
    );
    let (end, _) = value("c900 8 dead-end --test 150psi --depth 3ft --soil sand");
    assert_eq!(
        legs[1]["own_ft"],
        end["after_backfill"]["legs"][0]["own_ft"]
    );
}

#[test]
fn a_stop_on_either_side() {
    said(
        "restrain-both-sides",
        "c900 8 bend --test 150psi --depth 3ft --class DR18 --soil sand --backfill done --owner ours --valve 6ft --far-dead-end 30ft",
    );
    said(
        "restrain-reducer-far",
        "c900 8 reducer --to 6 --test 150psi --depth 3ft --soil sand --backfill done --owner ours --far-valve 8ft",
    );
    // One that lies out of reach is a thrust point by itself.
    let (out, ..) = run("c900 8 bend --test 150psi --depth 3ft --soil sand --far-valve 900ft");
    let plain = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(plain.contains("at 900 ft lies beyond the reach"), "{out}");
}

/// Clay has no friction in the tables for iron, so that bare pipe holds nothing there: said as such, with what to do.
#[test]
fn bare_iron_on_clay_holds_nothing() {
    for (soil, says) in [
        ("unknown", "the soil is not known, and on clay"),
        ("clay", "on clay, of which the tables know no friction"),
        ("sand", "stay below"),
    ] {
        let line = format!("ductile-iron 8 bend --shutoff 130psi --depth 3ft --soil {soil}");
        let (out, ..) = run(&line);
        let plain = out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain.contains(says), "{out}");
        assert_eq!(plain.contains("Find the soil"), soil == "unknown");
        assert_eq!(plain.contains("a cured block"), soil != "sand");
    }
    let (out, ..) = run("c900 8 bend --shutoff 130psi --depth 3ft");
    assert!(
        !out.contains("of which the tables know no friction"),
        "{out}"
    );
}

/// A pressure may be told as a head of water.
#[test]
fn a_head_of_water_is_a_pressure() {
    let (by_head, _) = value("c900 8 bend --test 231ft-head --depth 3ft --soil sand");
    let psi = by_head["governs"]["psi"].as_f64().expect("a pressure");
    assert!((psi - 231.0 * 62.4 / 144.0).abs() < 0.01, "{psi}");
}

#[test]
fn keys_of_the_json() {
    let (answer, code) = value(
        "ips-pvc 6 bend --shutoff 130psi --below 40ft --working 90psi --depth 3ft --soil sand",
    );
    assert_eq!(code, 0);
    assert_eq!(answer["schema"], "springline-restrain/1");
    assert_eq!(answer["governs"]["what"], "shutoff");
    assert_eq!(answer["pressures"].as_array().map(Vec::len), Some(2));
    assert_eq!(answer["until_backfilled"]["answer"], "below");
    let after = &answer["after_backfill"];
    assert_eq!(
        (&after["procedure"], &after["soil"][0]),
        (&"pvc".into(), &"GP SP".into())
    );
    let taken = after["taken"].as_array().expect("taken");
    assert!(
        taken
            .iter()
            .all(|one| one["grade"].is_string() && one["source"][0].is_string()),
        "{taken:?}"
    );
    assert!(
        after["holds"]
            .as_array()
            .expect("holds")
            .iter()
            .all(|one| one["holds"][0]["restraint"].is_string())
    );
    // 147.33 psi of a 6.625 in circle, times the square root of two.
    let thrust = answer["thrust_lbf"].as_f64().expect("a force");
    let want = (130.0 + 40.0 * 62.4 / 144.0)
        * std::f64::consts::FRAC_PI_4
        * 6.625
        * 6.625
        * 2.0_f64.sqrt();
    assert!((thrust - want).abs() < 0.01, "{thrust} {want}");
}
