//! The real files, spoilt in one place.

use super::{Files, REAL, mistakes};
use crate::diagnostic::Diagnostic;

const MATRIX: &str = "joints/matrix.csv";

/// The real files with one line changed; nothing in its place for a line that is removed.
fn with(file: &str, line: usize, to: &[&str]) -> Files {
    let mut files = REAL.1.clone();
    let text = files.get_mut(file).expect(file);
    let mut lines: Vec<&str> = text.lines().collect();
    lines.splice(line - 1..line, to.iter().copied());
    *text = lines.join("\n") + "\n";
    files
}

/// The one line of a file that begins so, and its number.
fn line(file: &str, start: &str) -> (usize, &'static str) {
    let lines = REAL.1[file].lines().enumerate();
    let found: Vec<_> = lines.filter(|(_, line)| line.starts_with(start)).collect();
    assert_eq!(found.len(), 1, "{start}");
    (found[0].0 + 1, found[0].1)
}

/// Expects one mistake; what is underlined.
fn only(files: &Files) -> (Diagnostic, String) {
    let mut found = mistakes(files);
    let texts: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found.len(), 1, "{}", texts.join("\n\n"));
    let one = found.remove(0);
    assert!(!one.help.is_empty(), "{one}");
    let under = one.text.chars().skip(one.column.saturating_sub(1));
    let under = under.take(one.span).collect();
    (one, under)
}

/// Replaces a part of the one line that begins so and expects one mistake on it.
fn spoil(file: &str, start: &str, from: &str, to: &str, under: &str, message: &str) {
    let (at, text) = line(file, start);
    assert_eq!(text.matches(from).count(), 1, "{text}");
    let (one, underlined) = only(&with(file, at, &[&text.replace(from, to)]));
    assert_eq!(
        (one.line, underlined.as_str(), one.message.as_str()),
        (at, under, message),
        "{one}"
    );
}

#[test]
fn a_missing_row_names_its_cells() {
    let (at, _) = line(MATRIX, "ips-pvc/*,plain-square,mj-transition,2..12");
    let (one, _) = only(&with(MATRIX, at, &[]));
    assert_eq!(one.line, 0, "the whole file lacks it");
    // Four variants in eleven or fewer sizes, one end form, one end.
    assert!(
        one.message.starts_with(
            "40 cells have no row: ips-pvc/sch40, plain-square, mj-transition at \
             2, 2-1/2, 3, 3-1/2, 4, 5, 6, 8, 10, 12; ips-pvc/sch80, plain-square"
        ),
        "{one}"
    );
}

#[test]
fn ten_thousand_missing_cells_are_one_readable_message() {
    let (at, _) = line(MATRIX, "ciod pit-odd,*,ips-ends");
    let all = REAL.1[MATRIX].lines().take(at - 1).collect::<Vec<_>>();
    let mut files = REAL.1.clone();
    files.insert(MATRIX.to_owned(), all.join("\n") + "\n");
    let found = mistakes(&files);
    let holes = found.iter().find(|one| one.message.contains("have no row"));
    let holes = holes.expect("the holes are reported");
    let count: usize = holes
        .message
        .split(' ')
        .next()
        .unwrap_or("")
        .parse()
        .unwrap_or(0);
    assert!(count > 10_000, "{holes}");
    assert!(holes.message.len() < 1000, "{holes}");
    assert!(holes.message.contains("; and "), "{holes}");
}

#[test]
fn a_doubled_row_names_both_lines() {
    let (at, text) = line(MATRIX, "ips-pvc/*,plain-square,mj-transition,2..12");
    let (one, under) = only(&with(MATRIX, at, &[text, text]));
    assert_eq!((one.line, under.as_str()), (at + 1, "ips-pvc/*"));
    let expected = format!(
        "40 cells are on line {at} too: ips-pvc/sch40, plain-square, mj-transition at 2, 2-1/2"
    );
    assert!(one.message.starts_with(&expected), "{one}");
}

#[test]
fn one_doubled_cell_is_named_with_its_size() {
    let (at, text) = line(MATRIX, "c900/dr18,*,tap-direct,6..12");
    let wider = text
        .replace("6..12", "6..14")
        .replace("c900/dr18,*", "c900/dr18,belled");
    let (next, _) = line(MATRIX, "c900/dr18,*,tap-direct,14..");
    let files = with(MATRIX, at, &[text, &wider.replace("6..14", "14")]);
    let (one, _) = only(&files);
    // One line more stands above the row for 14 in and up now.
    assert_eq!(
        (one.line, one.message.as_str()),
        (
            next + 1,
            format!(
                "1 cell is on line {} too: c900/dr18, belled, tap-direct at 14",
                at + 1
            )
            .as_str()
        )
    );
}

#[test]
fn a_row_about_nothing() {
    let (at, text) = line(MATRIX, "c900/dr18,*,tap-direct,6..12");
    let small = text.replace("6..12", "2");
    let (one, under) = only(&with(MATRIX, at, &[text, &small]));
    assert_eq!((one.line, under.as_str()), (at + 1, "2"));
    assert_eq!(one.message, "no such pipe exists: the row is about no cell");
}

#[test]
fn verdicts_say_why_and_what_they_need() {
    let start = "pvco/*,*,tap-direct";
    let reason = "a thread splits oriented PVC: use a saddle";
    spoil(MATRIX, start, reason, "", "", "\"no\" without a reason");
    spoil(MATRIX, start, "material", "", "", "\"no\" without a kind");
    let kind = "unknown kind \"matter\"";
    spoil(MATRIX, start, "material", "matter", "matter", kind);
    spoil(
        MATRIX,
        start,
        "material,,",
        "material,glue,",
        "glue",
        "\"no\" with a need",
    );
    let start = "c900/dr25,*,strap-ciod";
    let need = "body listed for this DR";
    spoil(MATRIX, start, need, "", "", "\"fits-with\" without a need");
    let long = "a need of more characters than a panel has room for: too long";
    let message = format!("need \"{long}\" has {} characters", long.len());
    spoil(MATRIX, start, need, long, long, &message);
}

#[test]
fn unknown_words_are_underlined() {
    let start = "c900/dr25,*,strap-ciod";
    let message = "unknown joint end or set \"strap-coid\"";
    spoil(
        MATRIX,
        start,
        "strap-ciod",
        "strap-coid",
        "strap-coid",
        message,
    );
    let message = "unknown variant or set \"c900/dr52\"";
    spoil(
        MATRIX,
        start,
        "c900/dr25",
        "c900/dr52",
        "c900/dr52",
        message,
    );
    let message = "unknown verdict \"fit\"";
    spoil(MATRIX, start, "fits-with", "fit", "fit", message);
    let message = "unknown source \"strap\"";
    spoil(MATRIX, start, "strap-sheet;", "strap;", "strap", message);
    let message = "\"12..4\" is not a band of sizes";
    spoil(
        MATRIX,
        start,
        ",*,fits-with",
        ",12..4,fits-with",
        "12..4",
        message,
    );
    let start = "steel/*,plain,mj-transition";
    let message = "unknown end form or set \"flat\"";
    spoil(MATRIX, start, ",plain,", ",flat,", "flat", message);
    // The ends of a part are keys, not sets.
    let message = "unknown joint end \"flanges\"";
    let file = "joints/parts.csv";
    spoil(
        file,
        "mj-flange",
        "mj flange,",
        "mj flanges,",
        "flanges",
        message,
    );
}

#[test]
fn a_run_is_of_a_part_with_two_ends() {
    let file = "joints/runs.csv";
    let unknown = "unknown part \"slip-isp\"";
    spoil(
        file, "slip-ips", "slip-ips", "slip-isp", "slip-isp", unknown,
    );
    let word = "unknown run \"slide\"";
    spoil(file, "slip-ips", "slides", "slide", "slide", word);
    let twice = "key \"slip-pip\" is there twice";
    let (at, text) = line(file, "slip-pip");
    let (one, _) = only(&with(file, at, &[text, text]));
    assert_eq!((one.line, one.message.as_str()), (at + 1, twice));
    let three = "\"tee-mj\" has not two ends";
    spoil(file, "slip-ips", "slip-ips", "tee-mj", "tee-mj", three);
}

#[test]
fn sets_change_with_every_word() {
    let start = "c900/dr25 c900/thin,*,tap-direct";
    let message = "\"c900/dr25\": some of it was in the set before";
    spoil(
        MATRIX,
        start,
        "c900/thin",
        "c900/dr25",
        "c900/dr25",
        message,
    );
    let message = "\"-pvco/*\": not all of it was in the set before";
    spoil(
        MATRIX,
        start,
        " c900/thin",
        " c900/thin -pvco/*",
        "-pvco/*",
        message,
    );
    let message = "missing variant or set";
    spoil(MATRIX, start, " c900", "  c900", "", message);
}

#[test]
fn variants_cover_every_class_once() {
    let file = "joints/variants.csv";
    let (at, text) = line(file, "pip,thin");
    let fewer = text.replace("SDR 35;", "");
    let found = mistakes(&with(file, at, &[&fewer]));
    assert_eq!(
        found[0].message,
        "no variant covers pip SDR 35 at 15, 18, 21, 24, 27"
    );
    let (one, under) = {
        let found = mistakes(&with(file, at, &[&text.replace("SDR 93.5", "SDR 94")]));
        assert_eq!(
            found.len(),
            2,
            "the class that is left out, and the one that is not"
        );
        let one = found[1].clone();
        let under = one.text.chars().skip(one.column - 1).take(one.span);
        (one.message, under.collect::<String>())
    };
    assert_eq!(
        (one.as_str(), under.as_str()),
        ("unknown class \"SDR 94\"", "SDR 94")
    );
    let more = text.replace("SDR 35;", "SDR 35;SDR 21;");
    let found = mistakes(&with(file, at, &[&more]));
    let doubled = found
        .iter()
        .find(|one| one.line == at)
        .expect("the class is doubled");
    assert_eq!(
        doubled.message,
        format!("SDR 21 at 15 is on line {} too", at - 1)
    );
}

#[test]
fn what_holds_is_listed_for_its_pipe() {
    let file = "joints/restraints.csv";
    let start = "ring-ciod";
    let message = "c900/dr18 is of pvc, the row says iron";
    let (at, text) = line(file, start);
    let found = mistakes(&with(file, at, &[&text.replace(",pvc,", ",iron,")]));
    assert_eq!(found[0].message, message);
    let found = mistakes(&with(file, at, &[&text.replace(",ciod,", ",ips,")]));
    assert_eq!(found[0].message, "c900/dr18 is not of OD system ips");
    let found = mistakes(&with(file, at, &[&text.replace(",mj,", ",bell-ips,")]));
    assert_eq!(
        found[0].message,
        "the matrix has no joint of bell-ips on c900/dr18 in any size"
    );
    let message = "the matrix has no joint of strap-ips on ips-pvc/sdr-thin in 2";
    let (at, text) = line("joints/saddles.csv", "strap-ips-pvc");
    let wider = text.replace("ips-strap", "ips-pvc/*");
    let (one, _) = only(&with("joints/saddles.csv", at, &[&wider]));
    assert_eq!(one.message, message);
}

#[test]
fn every_file_must_be_there() {
    for file in REAL.1.keys() {
        let mut files = REAL.1.clone();
        files.remove(file);
        let (one, _) = only(&files);
        assert_eq!((&one.file, one.message.as_str()), (file, "file not found"));
    }
}

/// A device keeps one pipe and what is done to it: what says more than that is told where it stands.
#[test]
fn triggers_that_a_device_cannot_keep_are_told() {
    let file = "cautions.csv";
    let (start, message) = ("dust,", "these triggers cannot be joined");
    let from = "act:cut+material:iron";
    for to in [
        // Two things that are done at once, two pipes at once, one pipe or another, something done or not.
        "act:cut+task:road",
        "material:iron+system:ciod",
        "act:cut+material:iron act:tap",
        "act:cut material:iron",
        "always act:cut",
    ] {
        spoil(file, start, from, to, to, message);
    }
    let (at, text) = line(file, start);
    for to in [
        "act:cut+material:iron end:mj+material:iron",
        "always",
        "task:road act:tap",
    ] {
        assert_eq!(
            mistakes(&with(file, at, &[&text.replace(from, to)])).len(),
            0
        );
    }
    let long = "a ".repeat(50) + "b";
    let (one, _) = only(&with(file, at, &[&text.replace("Cutting iron", &long)]));
    assert!(one.message.contains("short text"), "{}", one.message);
}
