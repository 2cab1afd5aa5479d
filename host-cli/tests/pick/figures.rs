//! The numbers on a list: each is that of the verb that computes it, and none where what it hangs on was not told.

use serde_json::Value;

use crate::common::{json, springline};
use crate::{text, words};

/// The lines of a list.
pub(crate) fn lines(line: &str) -> Vec<Value> {
    let line = words(&format!("pick {line} --json"));
    let line: Vec<&str> = line.iter().map(String::as_str).collect();
    let (value, _) = json(&line);
    value["lines"].as_array().expect("lines").clone()
}

/// The texts of one key, each with its joints before it.
fn told(all: &[Value], section: &str, key: &str) -> Vec<String> {
    all.iter()
        .filter(|line| line["section"] == section && line["key"] == key)
        .map(|line| format!("{}: {}", text(line, "joints"), text(line, "text")))
        .collect()
}

/// What another verb says, on one line.
fn flat(line: &str) -> String {
    let line = words(line);
    let line: Vec<&str> = line.iter().map(String::as_str).collect();
    let (out, err, _) = springline(&line);
    let all = format!("{out}{err}");
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

const TEE: &str = "cut-in tee c900 8 --class \"DR 18\" branch c900:6:\"DR 18\" --owner ours";

/// A main that is tapped keeps its joints; the branch pulls on it.
#[test]
fn a_tapping_sleeve_asks_for_its_branch() {
    let all = lines("outlet c900 8 --outlet 4 --owner ours --dry no");
    let asks = told(&all, "measure", "restrain");
    assert_eq!(asks.len(), 1, "{asks:?}");
    assert!(
        asks[0].contains("springline restrain FAMILY 4 dead-end"),
        "{asks:?}"
    );
    assert!(
        told(
            &lines("outlet c900 8 --outlet 2 --owner ours"),
            "figure",
            "restrain"
        )
        .is_empty()
    );
}

/// Bolts are those of AWWA C111 by `bolts`: a plain gland has a length, a restraint's gland has none.
#[test]
fn bolts_of_mechanical_joints_are_counted_over_the_job() {
    let all = lines(TEE);
    let bolts = told(&all, "figure", "bolts");
    assert_eq!(bolts.len(), 1, "8 in and 6 in take the same: {bolts:?}");
    assert!(bolts[0].starts_with("J1, J2, J3, J4, J5: 6 T-bolts of 3/4 in"));
    assert!(
        bolts[0].ends_with("no length is known here. 30 for these 5 joints."),
        "{bolts:?}"
    );
    let torque = told(&all, "figure", "torque");
    assert_eq!(torque.len(), 1);
    assert!(torque[0].contains("75 to 90 ft-lb: rubber MJ gasket, T-bolts of low-alloy steel"));
    assert!(flat("bolts mj 8").contains(torque[0].split_once(": ").expect("joints").1));
    // Rods go across a whole joint, and its pack is used as it is: 4 in long for 8 in.
    let rods = lines("repair valve cast-iron 8 --class \"Class 100-250\" --owner ours --way mj");
    let holders = told(&rods, "holder", "rods-old");
    let bolts = told(&rods, "figure", "bolts");
    if !holders.is_empty() {
        assert!(
            bolts
                .iter()
                .any(|line| line.contains("6 T-bolts 3/4 in x 4 in")),
            "{bolts:?}"
        );
    }
}

/// A flange's torque hangs on its gasket; PVC has none; what is made up is not guessed.
#[test]
fn a_flange_has_a_torque_only_by_its_gasket() {
    let stub = "stub c900 6 --class \"DR 18\" --owner ours --way grip";
    let none = lines(stub);
    let bolts = told(&none, "figure", "bolts");
    assert!(
        bolts[0].contains("8 bolts of 3/4 in, 3 1/2 in long"),
        "{bolts:?}"
    );
    assert!(told(&none, "figure", "torque").is_empty());
    let why = told(&none, "measure", "torque");
    assert!(
        why[0].contains("--gasket rubber or sheet. Unknown, no figure"),
        "{why:?}"
    );
    let known = lines(&format!("{stub} --gasket rubber"));
    let torque = told(&known, "figure", "torque");
    // A gasket maker's figure, 49 ft-lb, as `bolts` has it with its condition.
    assert!(
        torque[0].contains("49 ft-lb: full-face rubber below 70 Shore A"),
        "{torque:?}"
    );
    assert!(flat("bolts flange 6 --gasket rubber").contains("49 ft-lb: full-face rubber"));
    let pvc = lines(
        "stub ips-pvc 2 --class \"Sch 80\" --dry yes --temp 70F --owner ours --way glued --gasket rubber",
    );
    let torque = told(&pvc, "measure", "torque");
    assert!(torque[0].contains("the PVC flange governs"), "{torque:?}");
    let made =
        lines("stub pip 10 --class \"SDR 41\" --owner ours --dry no --way pip --gasket rubber");
    let bolts = told(&made, "measure", "bolts");
    assert!(
        bolts[0].contains("12 bolts of 7/8 in") && bolts[0].contains("not known here: ask"),
        "{bolts:?}"
    );
    assert!(told(&made, "figure", "torque").is_empty());
}

/// No pressure, no number; no length without "after backfill"; an open trench is held by none.
#[test]
fn holding_hangs_on_pressure_and_backfill() {
    let none = lines(TEE);
    assert!(told(&none, "figure", "restrain").is_empty());
    let asked = told(&none, "measure", "restrain");
    assert_eq!(asked.len(), 1);
    for word in [
        "--shutoff",
        "--highest",
        "--depth",
        "--soil",
        "OPEN trench no length holds",
    ] {
        assert!(asked[0].contains(word), "{asked:?}");
    }
    let without = lines(&format!("{TEE} --highest 150psi"));
    let asked = told(&without, "measure", "restrain");
    assert!(
        asked[0].contains("--depth") && !asked[0].contains("--shutoff"),
        "{asked:?}"
    );
    let full = lines(&format!("{TEE} --highest 150psi --depth 3ft --valve 6ft"));
    let held = told(&full, "figure", "restrain");
    let own = flat(
        "restrain c900 8 tee --class \"DR 18\" --branch 6 --valve 6ft --pressure 150psi --depth 3ft --owner ours",
    );
    let mut sides = 0;
    for line in &held {
        let far = line.contains("of held pipe") || line.contains("the bells at");
        assert!(!far || line.contains("AFTER BACKFILL"), "{line}");
        if let Some((side, joints)) = line
            .split_once("AFTER BACKFILL, ")
            .and_then(|(_, line)| line.split_once(": "))
        {
            sides += 1;
            let joints = joints.split_once(" Stops there").expect("where it stops").0;
            assert!(
                own.contains(&format!("RESTRAIN {side}: {joints}")),
                "{side}: {joints} in {own}"
            );
        }
    }
    assert_eq!(sides, 3, "{held:?}");
    assert!(
        held.iter()
            .any(|line| line.contains("NO LENGTH HOLDS. Until backfilled stay below 2 psi"))
    );
    assert!(
        held.iter()
            .any(|line| line.contains("soil not told, so the worst row: "))
    );
    assert!(held.iter().all(|line| !line.contains("--block")));
    let graded = full.iter().filter(|line| line["key"] == "restrain");
    assert!(graded.clone().any(|line| line["grade"] == "memory"));
    let done = lines(&format!(
        "{TEE} --highest 150psi --depth 3ft --backfill done"
    ));
    let done = told(&done, "figure", "restrain");
    assert!(
        done.iter().all(|line| !line.contains("NO LENGTH HOLDS")),
        "{done:?}"
    );
    // What was taken for granted is asked; what no procedure has is no number.
    let site = "--owner ours --dry no --highest 100psi --depth 3ft";
    let bend = lines(&format!("repair fitting ips-pvc 4 {site}"));
    assert!(told(&bend, "measure", "restrain")[0].contains("--angle"));
    let bend = lines(&format!("repair fitting ips-pvc 4 {site} --angle 45"));
    assert!(told(&bend, "measure", "restrain").is_empty());
    assert!(
        told(&bend, "figure", "restrain")
            .join(" ")
            .contains("45° bend")
    );
    let large = lines(&format!("cut-in tee c900 6 branch c900:8 {site}"));
    assert!(told(&large, "measure", "restrain")[0].contains("larger than the line"));
    // Two materials: each by its own procedure, or it says that it is not.
    let two = told(
        &lines(&format!("tie-in c900:8 ductile-iron:8 {site}")),
        "figure",
        "restrain",
    );
    for on in [
        "ON 8 in C900 PVC: A straight piece",
        "ON 8 in ductile iron: A straight piece",
    ] {
        assert!(two.iter().any(|line| line.contains(on)), "{two:?}");
    }
    let step = lines(&format!("tie-in ips-pvc:6 ductile-iron:8 {site}"));
    assert!(told(&step, "measure", "restrain")[0].contains("another material"));
    let muck = lines(&format!("{TEE} --highest 150psi --depth 3ft --soil muck"));
    let muck = told(&muck, "measure", "restrain");
    assert!(muck[0].contains("muck holds nothing"), "{muck:?}");
}

/// A straight piece is asked about what pulls near it.
#[test]
fn a_straight_piece_is_held_by_what_lies_near() {
    let split =
        "repair split ips-pvc 8 --class \"SDR 26\" --owner ours --highest 66psi --depth 3ft";
    let alone = told(&lines(split), "figure", "restrain");
    assert!(alone[0].contains("pulls on nothing by itself") && alone[0].contains("AFTER BACKFILL"));
    for (told_at, within) in [
        ("--valve 10ft", true),
        ("--valve 500ft", false),
        ("--dead-end 10ft", true),
    ] {
        let all = told(&lines(&format!("{split} {told_at}")), "figure", "restrain");
        assert_eq!(all[0].contains("lies within"), within, "{told_at}: {all:?}");
        assert_eq!(
            all[0].contains("lies beyond"),
            !within,
            "{told_at}: {all:?}"
        );
    }
    // HDPE is fused, and no pressure is asked for.
    let pe = told(
        &lines("repair split hdpe-ips 6 --class \"DR 11\" --owner ours"),
        "figure",
        "restrain",
    );
    assert!(
        pe.iter().any(|line| line.contains("FUSED END TO END")),
        "{pe:?}"
    );
    assert!(pe.iter().all(|line| !line.contains("1 psi")), "{pe:?}");
}

/// The closing piece by hand: 40 in, less a part of 9 in, less a gap of 1/2 in at three places, is 29-1/2 in.
#[test]
fn a_piece_is_cut_by_what_was_measured() {
    let blank = told(&lines(TEE), "measure", "cut-length");
    assert!(
        blank[0].contains("____ = ____ of opening, less ____ of MJ tee"),
        "{blank:?}"
    );
    assert!(blank[0].contains("No length is guessed"));
    let cut = told(
        &lines(&format!("{TEE} --opening 40in --lay 9in")),
        "figure",
        "cut-length",
    );
    assert!(cut[0].starts_with(": 29 1/2 in: "), "{cut:?}");
    // 10 ft and twice a foot are cut out; each coupling has half an inch.
    let split = "repair split pip 10 --class \"SDR 41\" --owner ours --dry no --damage 10ft";
    let cut = told(&lines(split), "figure", "cut-length");
    assert!(
        cut[0].starts_with(": 11 ft 11 in: 12 ft of opening") && cut[0].contains("by the damage"),
        "{cut:?}"
    );
    let bend = told(
        &lines("repair fitting ips-pvc 4 --owner ours --opening 40in --lay 9in"),
        "measure",
        "cut-length",
    );
    assert!(
        bend[0].contains("crossing of both centre lines"),
        "{bend:?}"
    );
}

/// Depths, bare barrel, hole and gallons are those of `assemble` and `dig`.
#[test]
fn marks_holes_and_gallons() {
    let bare = lines(TEE);
    assert!(told(&bare, "figure", "insertion")[0].contains("socket 2 1/2 in deep"));
    assert!(told(&bare, "measure", "insertion")[0].contains("--coupling"));
    for key in ["bare-barrel", "excavation", "gallons"] {
        assert_eq!(told(&bare, "measure", key).len(), 1, "{key}");
    }
    let all = lines(&format!(
        "{TEE} --coupling 12in --depth 3ft --opening 40in --drains 200ft"
    ));
    // Half of 12 in; 12 + 6 in, 6 + 2 in and the gap; cover, OD and 12 in: by hand.
    assert!(
        told(&all, "figure", "insertion")
            .iter()
            .any(|line| line.contains("mark 6 in from"))
    );
    assert!(
        told(&all, "figure", "bare-barrel")[0]
            .contains("18 in on the side that it slides onto, 8 in on the other, 3 ft 4 in")
    );
    let hole = told(&all, "figure", "excavation");
    assert!(
        hole[0].contains("5 ft 6 in long, 3 ft 10 in wide, 4 ft 10 in deep"),
        "{hole:?}"
    );
    let own = flat(
        "dig c900 8 --class \"DR 18\" --cover 3ft --job sleeve --coupling 12in --opening 40in --drains 200ft --owner ours",
    );
    for key in ["excavation", "sump", "gallons"] {
        let line = &told(&all, "figure", key)[0];
        assert!(
            own.contains(line.strip_prefix(": ").expect("the whole job")),
            "{line} in {own}"
        );
    }
    // 5 ft 10 in at the sump: what the safety code asks for from 4 and from 5 ft.
    let keys: Vec<&str> = all.iter().map(|line| text(line, "key")).collect();
    assert!(keys.contains(&"deep-4") && keys.contains(&"deep-5") && !keys.contains(&"deep-20"));
    let bell = told(
        &lines("cut-in tee ips-pvc 6 branch ips-pvc:4 --owner ours --way slip --bell 4in"),
        "figure",
        "insertion",
    );
    assert!(
        bell.iter()
            .any(|line| line.contains("the mark is 3 1/2 in from the end")),
        "{bell:?}"
    );
}

/// Metres, newton metres and litres where the setting is metric; bolts and sticks are bought in inches and feet.
#[test]
fn lists_follow_the_unit_of_the_setting() {
    let all = lines(&format!(
        "{TEE} --units mm --highest 150psi --depth 1m --coupling 300mm --opening 1000mm --lay 230mm --drains 60m --wires 2"
    ));
    let word = |text: &str, unit: &str| {
        text.split([' ', ',', '.', ':', ';'])
            .any(|word| word == unit)
    };
    for line in &all {
        let told = text(line, "text");
        let section = text(line, "section");
        // Parts are named in inches, and their remarks and cautions are of other tables.
        if [
            "part",
            "remark",
            "caution",
            "pipe",
            "spare",
            "accessory",
            "holder",
            "brings",
            "joint",
            "gasket",
        ]
        .contains(&section)
        {
            continue;
        }
        // Sticks are sold in feet.
        let told = if section == "lift" {
            told.replace("20 ft stick", "stick")
        } else {
            told.to_owned()
        };
        let told = told.as_str();
        for unit in ["ft", "lb", "gal", "ft-lb", "psi", "yd3"] {
            assert!(
                !word(told, unit) || told.contains("ft OR MORE"),
                "{unit}: {told}"
            );
        }
    }
    let told_of = |key: &str| told(&all, "figure", key).join(" ");
    assert!(
        told_of("torque").contains("102 to 122 N m"),
        "{}",
        told_of("torque")
    );
    assert!(
        told_of("cut-length").contains("732 mm"),
        "{}",
        told_of("cut-length")
    );
    let dug = told(&all, "dig", "wrench-room").join(" ");
    assert!(dug.contains("300 mm under the pipe"), "{dug}");
}
