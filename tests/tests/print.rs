//! Lines of print: what is read of them, and whose they are.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use springline_core::fixed::Real;
use springline_core::image::{Image, Row};
use springline_core::print::{Contents, Line, PrintedClass, Scale, read};
use springline_tables::IMAGE;
use springline_tests::print::cases;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// Every row and class that a line fits best, ties to half a percent, which parts no values.
fn best(image: &Image<'_>, line: &Line) -> Vec<(Row, Option<u8>)> {
    let mut all: Vec<(Real, Row, Option<u8>)> = Vec::new();
    for row in image.rows_from(0) {
        let classes = (0..row.classes).map(Some);
        let classes = if row.classes == 0 {
            vec![None]
        } else {
            classes.collect()
        };
        for class in classes {
            all.push((line.chance(image, &row, class), row, class));
        }
    }
    all.sort_by_key(|(chance, ..)| Reverse(*chance));
    let most = all[0].0;
    let near = most - most * Real::scaled(1, -8);
    let held = all.into_iter().take_while(|(chance, ..)| *chance >= near);
    held.map(|(_, row, class)| (row, class)).collect()
}

fn family<'a>(image: &Image<'a>, row: &Row) -> &'a str {
    image.packed_text(image.family(row.family).key)
}

fn label<'a>(image: &Image<'a>, row: &Row, class: Option<u8>) -> &'a str {
    let class = class.and_then(|class| image.classes(row).nth(usize::from(class)));
    class.map_or("", |class| image.label(class.label))
}

#[test]
fn lines_are_whose_they_are() {
    let (image, cases) = (image(), cases());
    assert!(cases.len() >= 60, "only {} lines", cases.len());
    for case in &cases {
        let line = read(&image, case.line.as_bytes());
        let best = best(&image, &line);
        let families: BTreeSet<String> = best
            .iter()
            .map(|(row, _)| family(&image, row).to_owned())
            .collect();
        assert_eq!(families, case.families, "{}: families", case.line);
        if !case.size.is_empty() {
            let sizes: BTreeSet<&str> = best.iter().map(|(row, _)| image.size(row.size)).collect();
            assert_eq!(
                sizes,
                BTreeSet::from([case.size.as_str()]),
                "{}: size",
                case.line
            );
        }
        if !case.classes.is_empty() {
            let classes: BTreeSet<String> = best
                .iter()
                .map(|(row, class)| label(&image, row, *class).to_owned())
                .collect();
            assert_eq!(classes, case.classes, "{}: class", case.line);
        }
        assert_eq!(line.pressures, [case.psi, 0], "{}: pressure", case.line);
        assert_eq!(line.contents, case.contents, "{}: contents", case.line);
    }
}

/// The characters that are taken for one.
fn taken_for(c: char) -> Vec<char> {
    let groups = ["O0", "I1L", "S5", "B8", "Z2", "G6"];
    let upper = c.to_ascii_uppercase();
    let group = groups.iter().find(|group| group.contains(upper));
    group.map_or(Vec::new(), |group| {
        group.chars().filter(|other| *other != upper).collect()
    })
}

/// A line with each of its characters damaged in turn, and cut off from either end.
fn damaged(line: &str) -> Vec<String> {
    let chars: Vec<char> = line.chars().collect();
    let mut all = Vec::new();
    let mut with = |at: usize, new: &str| {
        let before: String = chars[..at].iter().collect();
        let after: String = chars[at + 1..].iter().collect();
        all.push(format!("{before}{new}{after}"));
    };
    for (at, c) in chars
        .iter()
        .enumerate()
        .filter(|(_, c)| c.is_ascii_alphanumeric())
    {
        for mark in ["?", "_", "*", "..", "…"] {
            with(at, mark);
        }
        for other in taken_for(*c) {
            with(at, &other.to_string());
        }
    }
    for at in 1..chars.len() {
        let (head, tail): (String, String) =
            (chars[..at].iter().collect(), chars[at..].iter().collect());
        all.push(format!("{head}.."));
        all.push(format!("..{tail}"));
    }
    all
}

/// Damage takes away what a line says, and it makes nothing up: of what the whole line fits best, something still is what the
/// damaged one fits best.
#[test]
fn damaged_lines_are_still_whose_they_are() {
    let image = image();
    let (mut run, mut sure) = (0, 0);
    let mut wrong = Vec::new();
    let bit = |row: &Row| 1 << image.family(row.family).carries;
    for case in cases() {
        let rows = image
            .rows_from(0)
            .filter(|row| case.families.contains(family(&image, row)));
        let rows: Vec<Row> = rows.collect();
        // What the tables do not know of a pipe, or a word that is not true of it, is borne out by the rest of the line alone.
        let known = case.psi == 0 || rows.iter().any(|row| row.classes > 0);
        let carried = case.contents & 15;
        if !known || carried != 0 && !rows.iter().any(|row| carried & bit(row) != 0) {
            continue;
        }
        for line in damaged(&case.line) {
            let best = best(&image, &read(&image, line.as_bytes()));
            let right = best.iter().any(|(row, class)| {
                case.families.contains(family(&image, row))
                    && (case.size.is_empty() || image.size(row.size) == case.size)
                    && (case.classes.is_empty()
                        || case.classes.contains(label(&image, row, *class)))
            });
            let families: BTreeSet<&str> =
                best.iter().map(|(row, _)| family(&image, row)).collect();
            run += 1;
            sure += usize::from(families.len() == case.families.len());
            if !right {
                wrong.push(format!("{line}   was   {}", case.line));
            }
        }
    }
    println!(
        "{run} damaged lines, {sure} as sure of the family as before, {} wrong",
        wrong.len()
    );
    assert!(
        wrong.is_empty(),
        "{} wrong:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    assert!(run > 15_000, "only {run} damaged lines ran");
    assert!(sure * 5 > run * 4, "{sure} of {run}");
}

/// Traps: what looks like something and is not.
#[test]
fn traps() {
    let image = image();
    let of = |line: &str| read(&image, line.as_bytes());
    let families = |line: &str| -> BTreeSet<String> {
        let best = best(&image, &of(line));
        best.iter()
            .map(|(row, _)| family(&image, row).to_owned())
            .collect()
    };
    for nothing in [
        "",
        "XYZ 25JAN07 B2 S3 L4 P1204",
        "PLANT 5 SHIFT B 0612",
        "DI07",
        "PR3",
        "CL9 DR 2",
        "20 FT",
        "@73F",
        "OD 6.625 IN",
        "WALL 0.280 IN",
        "MADE IN USA",
        "HEAT 12345 D1",
        "888 5CH",
        "GASKETED",
        "I PS 3",
        "PN 10000 BAR",
        "?? .. __ ***",
        "20070412",
    ] {
        assert!(of(nothing).is_empty(), "{nothing}: {:?}", of(nothing));
    }
    // The class as printed in either edition is the same pipe.
    for line in ["6 IN DR 18 CL 150 C900", "6 IN DR 18 PC 235 C900"] {
        let best = best(&image, &of(line));
        assert_eq!(best.len(), 1, "{line}");
        assert_eq!(label(&image, &best[0].0, best[0].1), "DR 18", "{line}");
    }
    // A pressure alone is several pipes.
    let two_hundred = families("CL 200 6 IN PVC");
    assert!(
        two_hundred.contains("ips-pvc") && two_hundred.contains("c900"),
        "{two_hundred:?}"
    );
    assert_eq!(
        families("6 IN CL 52 PE"),
        BTreeSet::from(["ductile-iron".to_owned()])
    );
    assert!(
        families("6 IN PE").contains("ductile-iron"),
        "it may be a plain end"
    );
    assert!(families("6 IN DR 11 PE IPS").contains("hdpe-ips"));
    assert_eq!(
        families("14 IN CL51 A21.51"),
        BTreeSet::from(["ductile-iron".to_owned()])
    );
    // What fits several words is all of them.
    assert_eq!(
        of("C9..").standards[0].count_ones(),
        5,
        "C900, C901, C905, C906, C909"
    );
    assert!(
        of("D17..").is_empty(),
        "a standard of pipe or of its compound"
    );
    assert!(of("DUC..").is_empty(), "a duct or ductile iron");
    assert_eq!(of("12 ?IPS").bases[0].count_ones(), 2);
    assert!(of("DR 1?").is_empty() && of("DR ?8").is_empty() && of("DR..18").is_empty());
    assert_eq!(
        of("DR 18..").classes[0],
        PrintedClass::number(Scale::Ratio, 180).expect("small").0
    );
    // What disagrees is said.
    for (line, disagrees) in [
        ("6 IN SDR 21 D1785", true),
        ("6 IN C900 C909", true),
        ("C900 SDR 21 200 PSI", false),
        ("3 IN SCH 40 D1785 D2665 DWV", false),
        ("8 IN DI PE C104", false),
        ("8 IN DR 11 DI", true),
        ("6 IN (150 MM) DR 18", false),
        ("", false),
    ] {
        assert_eq!(of(line).disagrees(&image), disagrees, "{line}");
    }
    // Cautions.
    assert!(of("SCH 40 PVC").is_plastic(&image) && of("AWWA C906").is_plastic(&image));
    assert!(
        !of("6 IN PE").is_plastic(&image)
            && !of("CL 150").is_plastic(&image)
            && !of("").is_plastic(&image)
    );
    assert!(
        of("PVC CONDUIT").contents().is_not_water() && !of("NSF-PW DWV").contents().is_not_water()
    );
    assert!(of("NATURAL GAS").contents().has(Contents::GAS));
    assert!(of("RECLAIMED WATER").contents().has(Contents::NON_POTABLE));
}
