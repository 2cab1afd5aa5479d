//! What every list must have, whatever job and pipe.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use crate::text;

/// What a part does to the pipe, from the tables themselves.
pub(crate) fn acts() -> BTreeMap<String, String> {
    let text = include_str!("../../../tables/sources/joints/parts.csv");
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

/// What every list must have, whatever job and pipe.
pub(crate) struct List {
    pub(crate) name: String,
    pub(crate) lines: Vec<Value>,
    pub(crate) cautions: BTreeSet<String>,
    pub(crate) family: String,
}

impl List {
    pub(crate) fn section(&self, section: &str) -> impl Iterator<Item = &Value> {
        self.lines
            .iter()
            .filter(move |line| line["section"] == section)
    }

    pub(crate) fn has(&self, key: &str) {
        assert!(
            self.lines.iter().any(|line| line["key"] == key),
            "{}: no line \"{key}\"",
            self.name
        );
    }

    pub(crate) fn warns(&self, caution: &str) {
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

    pub(crate) fn check(&self, acts: &BTreeMap<String, String>) {
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
        self.figures();
        self.steps();
    }

    /// What is known is a figure, what is not asks; no length without backfill, and no other verb to be asked first.
    fn figures(&self) {
        let name = &self.name;
        for line in self.section("figure") {
            let told = text(line, "text");
            assert!(!told.contains("____"), "{name}: {told}");
            let far = told.contains("of held pipe") || told.contains("of pipe in one piece");
            assert!(!far || told.contains("AFTER BACKFILL"), "{name}: {told}");
        }
        for line in &self.lines {
            for verb in ["bolts", "assemble", "cut", "dig", "fill"] {
                let verb = format!("springline {verb}");
                assert!(!text(line, "text").contains(&verb), "{name}: {line}");
            }
            let blank = text(line, "text").contains('{');
            assert!(!blank, "{name}: {line}");
            let sources = line["source"].as_array().is_some_and(|all| !all.is_empty());
            assert!(sources && !text(line, "grade").is_empty(), "{name}: {line}");
        }
        for key in ["bare-barrel", "excavation"] {
            self.has(key);
        }
        let bolted = |line: &&Value| {
            let end = text(line, "key");
            ["mj", "mj-transition", "flange"].contains(&end)
        };
        for joint in self.section("joint").filter(bolted) {
            let joint = text(joint, "joints");
            let all = self.lines.iter().filter(|line| line["key"] == "bolts");
            let own = all.filter(|line| text(line, "joints").split(", ").any(|at| at == joint));
            assert_eq!(own.count(), 1, "{name} {joint}: bolts");
        }
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
