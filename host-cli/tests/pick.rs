//! `springline pick` as its user meets it: golden lists, mistakes, and every job on many families held against what a crew
//! must have. What must come with what is common practice, no source.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::{golden, json, springline};
use serde_json::Value;

/// Words of a command line, with quotes.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().expect("a word").push(c),
        }
    }
    words
}

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
        "repair split pip 10 --class \"SDR 41\" --damage 10ft --dry no --back-in 8h --temp 38F --valve 60ft --wires 0 --water irrigation --owner ours",
    );
}

#[test]
fn a_tee_with_a_closing_valve_near_it() {
    list(
        "pick-tee-c900",
        "cut-in tee c900 8 --class \"DR 18\" branch c900:6:\"DR 18\" --valve 6ft --dry no --back-in 12h --temp 60F --wires 3 --water irrigation --owner ours",
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
        "repair split ips-pvc 2 --class \"Sch 40\" --dry yes --temp 70F --damage 6in --way glued",
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
        "stub ductile-iron 6 --way mj --why --owner ours --units mm",
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

/// What a part does to the pipe, from the tables themselves.
fn acts() -> BTreeMap<String, String> {
    let text = include_str!("../../tables/sources/joints/parts.csv");
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    reader
        .records()
        .map(|row| {
            let row = row.expect("a row");
            (row[0].to_owned(), row[3].to_owned())
        })
        .collect()
}

fn text<'a>(line: &'a Value, key: &str) -> &'a str {
    line[key].as_str().unwrap_or("")
}

/// What every list must have, whatever job and pipe.
struct List {
    name: String,
    lines: Vec<Value>,
    cautions: BTreeSet<String>,
    family: String,
}

impl List {
    fn section(&self, section: &str) -> impl Iterator<Item = &Value> {
        self.lines
            .iter()
            .filter(move |line| line["section"] == section)
    }

    fn has(&self, key: &str) {
        assert!(
            self.lines.iter().any(|line| line["key"] == key),
            "{}: no line \"{key}\"",
            self.name
        );
    }

    fn warns(&self, caution: &str) {
        assert!(
            self.cautions.contains(caution),
            "{}: no caution \"{caution}\"",
            self.name
        );
    }

    fn about<'a>(&'a self, section: &'a str, joint: &'a str) -> Vec<&'a Value> {
        self.section(section)
            .filter(|line| line["joints"] == joint)
            .collect()
    }

    fn check(&self, acts: &BTreeMap<String, String>) {
        let name = &self.name;
        assert_eq!(self.lines[0]["section"], "head", "{name}");
        assert!(
            text(&self.lines[0], "text")
                .starts_with("Both cut ends are measured, two readings a quarter turn")
        );
        let ends: Vec<(&str, &str)> = self
            .section("joint")
            .map(|line| (text(line, "joints"), text(line, "key")))
            .collect();
        assert!(!ends.is_empty(), "{name}: a list without a joint");
        let mut held = 0;
        for (joint, end) in &ends {
            assert_eq!(
                self.about("gasket", joint).len(),
                1,
                "{name} {joint}: gasket"
            );
            let holder = self.about("holder", joint);
            assert_eq!(holder.len(), 1, "{name} {joint}: holder");
            let key = text(holder[0], "key");
            let loaded = holder[0]["count"] == 1;
            held += usize::from(loaded);
            let bought = loaded || text(holder[0], "text").contains("the one across");
            // A restraint that is loaded says what is in its box.
            assert_eq!(
                self.about("brings", joint).len(),
                usize::from(loaded),
                "{name} {joint}: {key}"
            );
            assert!(
                key != "refer" || text(holder[0], "text").starts_with("NOT HELD"),
                "{name}"
            );
            let packed = end.starts_with("mj") || end.starts_with("flange") && !end.contains('-');
            if packed {
                let packs = self.about("accessory", joint);
                assert!(
                    packs.iter().any(|pack| pack["count"] == 1),
                    "{name} {joint}: no pack"
                );
            }
            if end.starts_with("bell-") && !end.contains("clamp") || end.starts_with("push-") {
                self.has("lubricant");
                self.has("bevel");
                self.warns("over-insert");
            }
            if end.starts_with("solvent") {
                for key in ["primer", "cement", "dauber", "glue", "cured"] {
                    self.has(key);
                }
                self.warns("vapour");
            }
            if end.starts_with("mj") {
                for key in ["mj-bolts", "torque-wrench", "soap"] {
                    self.has(key);
                }
                if bought {
                    self.has("wedges");
                }
                self.warns("lift");
                if *end == "mj-transition" {
                    assert!(
                        text(self.about("gasket", joint)[0], "text").contains("transition"),
                        "{name}"
                    );
                }
            }
            if *end == "flange" {
                self.has("flange-gasket");
                self.warns("flange");
            }
            if end.starts_with("ef-") || end.starts_with("butt-") {
                self.warns("fusion");
            }
            if *end == "sleeve" && !bought {
                self.warns("no-hold");
            }
        }
        let wedges = self
            .section("holder")
            .filter(|line| line["count"] == 1)
            .count();
        assert!(wedges >= held, "{name}");
        self.parts(acts);
        self.steps();
    }

    fn parts(&self, acts: &BTreeMap<String, String>) {
        let name = &self.name;
        let parts: Vec<&str> = self.section("part").map(|line| text(line, "key")).collect();
        let act = |word: &str| {
            parts
                .iter()
                .any(|key| acts.get(*key).is_some_and(|act| act == word))
        };
        if act("cut") {
            for key in [
                "saw",
                "marker",
                "cut",
                "pump",
                "ends-kept",
                "restrain",
                "held",
            ] {
                self.has(key);
            }
            for caution in [
                "pressure",
                "lock-out",
                "dead-end",
                "open-trench",
                "saw",
                "power",
                "old-pipe",
            ] {
                self.warns(caution);
            }
            if ["ductile-iron", "cast-iron"].contains(&self.family.as_str()) {
                self.warns("dust");
                self.has("jumper");
            }
        }
        if act("tap") {
            self.warns("tap");
            self.has("drill");
        }
        self.warns("trench");
        self.warns("makers");
        if self.family == "steel" {
            self.warns("contents");
        }
        // A piece is closed from both sides, and wants a stick and a spare one.
        let sticks: Vec<&Value> = self
            .section("pipe")
            .filter(|line| line["key"] == "stick")
            .collect();
        let cut_out = name.contains("repair split") || name.contains("repair bell");
        assert!(!cut_out || !sticks.is_empty(), "{name}: no piece");
        if !sticks.is_empty() {
            self.has("cut-length");
            assert!(
                self.section("spare").any(|line| line["key"] == "stick"),
                "{name}: no spare stick"
            );
            let pieces = self
                .section("joint")
                .filter(|line| text(line, "text").starts_with("the piece"));
            let pieces = pieces.count();
            assert!(
                pieces >= 2 && pieces % 2 == 0,
                "{name}: {pieces} ends of pieces"
            );
            if cut_out {
                let couplings = self
                    .section("part")
                    .filter(|line| !text(line, "joints").is_empty());
                assert_eq!(
                    (couplings.count(), pieces),
                    (2, 2),
                    "{name}: two couplings for a piece"
                );
            }
        }
        // Every part has its joints, and every joint is of one part.
        let mut of: Vec<&str> = Vec::new();
        for line in self
            .section("part")
            .filter(|line| !text(line, "joints").is_empty())
        {
            of.extend(text(line, "joints").split(", "));
        }
        of.sort_unstable();
        let mut joints: Vec<&str> = self
            .section("joint")
            .map(|line| text(line, "joints"))
            .collect();
        joints.sort_unstable();
        assert_eq!(of, joints, "{name}");
    }

    /// Wedges after the bolts of the MJ, slid before the piece is set and back after it, water last.
    fn steps(&self) {
        let step =
            |line: &Value| ["shut", "dig", "work", "recharge"].contains(&text(line, "section"));
        let at = |key: &str| {
            self.lines
                .iter()
                .position(|line| step(line) && line["key"] == key)
        };
        for (first, then) in [
            ("mj-bolts", "wedges"),
            ("mj-bolts", "deflect"),
            ("restraint-side", "gland"),
            ("gland", "mj-bolts"),
            ("slide", "set-piece"),
            ("set-piece", "slide-back"),
            ("slide-back", "mj-bolts"),
            ("prove", "cut"),
            ("cut", "bevel"),
            ("bevel", "homing"),
            ("homing", "harness"),
            ("bed", "fill"),
            ("held", "fill"),
            ("fill", "look"),
            ("look", "backfill"),
            ("pump", "tags"),
        ] {
            if let (Some(first_at), Some(then_at)) = (at(first), at(then)) {
                assert!(first_at < then_at, "{}: {first} before {then}", self.name);
            }
        }
    }
}

/// The table has the lines of the JSON, read by a reader that is not ours.
fn same_table(name: &str, line: &[&str], value: &Value) {
    let (out, _, _) = springline(&[line, &["--csv"]].concat());
    let mut reader = csv::Reader::from_reader(out.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let column = |name: &str| {
        header
            .iter()
            .position(|held| held == name)
            .expect("a column")
    };
    let columns = ["section", "count", "text", "key", "joints", "place"].map(column);
    let rows: Vec<Vec<String>> = reader
        .records()
        .map(|row| {
            let row = row.expect("a row");
            columns.iter().map(|at| row[*at].to_owned()).collect()
        })
        .collect();
    let lines: Vec<Vec<String>> = value["lines"]
        .as_array()
        .expect("lines")
        .iter()
        .map(|line| {
            let count = line["count"]
                .as_u64()
                .map_or(String::new(), |count| count.to_string());
            let of = |key: &str| text(line, key).to_owned();
            vec![
                of("section"),
                count,
                of("text"),
                of("key"),
                of("joints"),
                of("place"),
            ]
        })
        .collect();
    assert_eq!(rows, lines, "{name}");
}

/// Every job on many families, dry and wet: every list has what a crew must have.
#[test]
#[expect(
    clippy::too_many_lines,
    reason = "two lists of what is walked, and the walk"
)]
fn every_job_on_many_families() {
    let acts = acts();
    let mut lists = 0;
    let mut without: Vec<String> = Vec::new();
    for (job, more) in [
        ("repair split", ""),
        ("repair gasket", ""),
        ("repair bell", ""),
        ("repair fitting", ""),
        ("repair fitting", "branch"),
        ("repair saddle", ""),
        ("repair valve", ""),
        ("cut-in tee", "branch"),
        ("cut-in valve", ""),
        ("tie-in", "to"),
        ("stub", ""),
        ("outlet", ""),
        ("manifold", ""),
        ("road", "carrier"),
    ] {
        for (family, size, other) in [
            ("ips-pvc", "6", "ips-pvc:4"),
            ("ips-pvc", "2", "ips-pvc:2"),
            ("c900", "8", "ductile-iron:8"),
            ("ductile-iron", "12", "c900:12"),
            ("cast-iron", "6:Class 100-250", "c900:6"),
            ("pip", "10", "pip:10"),
            ("pvco", "8", "c900:8"),
            ("hdpe-dips", "8", "c900:8"),
            ("hdpe-ips", "4", "ips-pvc:4"),
            ("steel", "4", "ips-pvc:4"),
            ("copper", "2", "copper:2"),
        ] {
            for dry in ["yes", "no"] {
                let pipe = format!("{family}:{size}");
                let mut line: Vec<&str> = ["pick"].into_iter().chain(job.split(' ')).collect();
                line.push(&pipe);
                if !more.is_empty() {
                    line.extend([more, other]);
                }
                line.extend(["--dry", dry, "--owner", "ours", "--length", "40ft"]);
                let name = line.join(" ");
                let (value, code) = json(&[&line[..], &["--json"]].concat());
                let way = &value["alternatives"][0]["way"];
                assert_eq!(code == 1, way.is_null(), "{name}");
                if way.is_null() {
                    // It says why of every way.
                    let others = value["alternatives"][0]["others"]
                        .as_array()
                        .expect("others");
                    assert!(
                        !others.is_empty()
                            && others.iter().all(|other| other["why_not"].is_string()),
                        "{name}"
                    );
                    without.push(name);
                    continue;
                }
                lists += 1;
                let lines = value["lines"].as_array().expect("lines").clone();
                let cautions = value["cautions"].as_array().expect("cautions");
                let list = List {
                    cautions: cautions
                        .iter()
                        .map(|one| text(one, "caution").to_owned())
                        .collect(),
                    lines,
                    family: family.to_owned(),
                    name: name.clone(),
                };
                list.check(&acts);
                if dry == "no" {
                    let wet = list
                        .lines
                        .iter()
                        .all(|line| line["key"] != "cement" && line["key"] != "fusion");
                    assert!(wet, "{name}: glue in the wet");
                }
                // What is pulled is what is listed.
                let sum = |lines: &Value| -> u64 {
                    lines
                        .as_array()
                        .expect("lines")
                        .iter()
                        .filter_map(|line| line["count"].as_u64())
                        .sum()
                };
                let pulled: u64 = value["pull"]
                    .as_array()
                    .expect("places")
                    .iter()
                    .map(|place| sum(&place["things"]))
                    .sum();
                assert_eq!(pulled, sum(&value["lines"]), "{name}");
                if job == "road" {
                    list.warns("road");
                    list.has("spacers");
                    list.has("end-seal");
                }
                same_table(&name, &line, &value);
            }
        }
    }
    assert!(lists > 180, "{lists} lists; none of {without:#?}");
}

/// Counts follow what was told.
#[test]
fn quantities_follow_what_was_told() {
    let count = |line: &str, key: &str| {
        let line = words(&format!("pick {line} --json"));
        let line: Vec<&str> = line.iter().map(String::as_str).collect();
        let (value, _) = json(&line);
        let lines = value["lines"].as_array().expect("lines").clone();
        let own = lines.iter().filter(|line| line["key"] == key);
        own.filter_map(|line| line["count"].as_u64()).sum::<u64>()
    };
    assert_eq!(count("manifold ips-pvc 4 --valves 4", "unions"), 8);
    assert_eq!(
        count("manifold ips-pvc 4 --valves 4", "manifold-splices"),
        8
    );
    assert_eq!(count("manifold ips-pvc 4", "unions"), 2);
    assert_eq!(count("repair split c900 8 --wires 5", "splices"), 10);
    assert_eq!(count("repair split c900 8 --wires 0", "splices"), 0);
    // 38 ft of damage and 2 ft are two sticks of 20 ft, a foot more is a third; one is spare.
    assert_eq!(count("repair split c900 8 --damage 38ft", "stick"), 3);
    assert_eq!(count("repair split c900 8 --damage 39ft", "stick"), 4);
    assert_eq!(count("repair split c900 8", "stick"), 2);
    // 60 ft of 18 ft sticks: four of them, three joints; one spacer each side of a bell and two between, a stick.
    let road = "road ips-pvc 8 carrier ductile-iron:8 --length 60ft";
    assert_eq!(count(road, "carrier"), 4 + 1 + 3);
    assert_eq!(count(road, "spacers"), 16);
    // Five MJ joints, five packs and five restraints.
    let tee = "cut-in tee c900 8 --class \"DR 18\" branch c900:6:\"DR 18\"";
    assert_eq!((count(tee, "mj"), count(tee, "wedge-pvc")), (5, 5));
}

/// A shop changes the job files and is listed what it wrote: no code.
#[test]
fn a_shop_edits_its_jobs() {
    let from = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../tables/sources");
    let to = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("pick-sources");
    // What an older run left there would be in no table of today.
    let _ = std::fs::remove_dir_all(&to);
    for entry in std::fs::read_dir(&from).expect("the sources") {
        let path = entry.expect("an entry").path();
        let copy = |path: &std::path::Path| {
            let to = to.join(path.strip_prefix(&from).expect("below"));
            std::fs::create_dir_all(to.parent().expect("a folder")).expect("it is made");
            std::fs::copy(path, to).expect("it is copied");
        };
        if path.is_dir() {
            for entry in std::fs::read_dir(&path).expect("a folder") {
                copy(&entry.expect("an entry").path());
            }
        } else {
            copy(&path);
        }
    }
    let ask = |args: &[&str]| {
        let folder = to.to_str().expect("UTF-8");
        let base = ["pick", "stub", "c900", "8", "--tables", folder];
        springline(&[&base, args].concat())
    };
    let (own, _, _) = springline(&["pick", "stub", "c900", "8"]);
    assert_eq!(ask(&[]).0, own, "a copy says the same");
    let lines = to.join("jobs/lines.csv");
    let text = std::fs::read_to_string(&lines).expect("lines");
    let row = "tool,900,coffee,job:stub,3,truck,flask of coffee,practice,practice\n";
    std::fs::write(&lines, format!("{text}{row}")).expect("it is written");
    assert!(ask(&[]).0.contains("3 x flask of coffee"));
    std::fs::write(&lines, format!("{text}{}", row.replace("stub", "stubs"))).expect("written");
    let (_, err, code) = ask(&[]);
    assert!(
        code == 2 && err.contains("unknown job \"stubs\"") && err.contains("jobs/lines.csv"),
        "{err}"
    );
}
