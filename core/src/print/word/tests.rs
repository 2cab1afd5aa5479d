//! Words in all their spellings, whole and damaged.

use super::*;

fn way(pattern: &str) -> Way {
    Way {
        needs: match pattern {
            "DR" | "SCH" | "PC" | "CL" => Needs::Behind,
            _ => Needs::Nothing,
        },
        edge: Edge::Clean,
    }
}

/// How much of a line a word takes, and what is lost and swapped.
fn found(pattern: &str, line: &str) -> Option<(usize, u8, u8)> {
    let line = line.as_bytes();
    let fit = fit(pattern.as_bytes(), 0, (line, 0), way(pattern), &mut 0)?;
    if !fit.enough {
        return None;
    }
    Some((fit.end, fit.lost, fit.swapped))
}

#[test]
fn a_word_may_be_written_in_many_ways() {
    for (pattern, line, end) in [
        ("DR", "dr18", 2),
        ("DR", "D R 18", 3),
        ("DR", "D.R.18", 4),
        ("CIOD", "C.I.O.D. ", 8),
        ("DI", "D.I. ", 4),
        ("C900", "C-900,", 5),
        ("C900", "C 900-16", 5),
        ("PVC1120", "PVC 1120", 8),
        ("A21 51", "A21.51/", 6),
        ("NOT FOR PRESSURE", "not for-pressure", 16),
        ("PVC", "PVC1120", 3),
    ] {
        assert_eq!(found(pattern, line), Some((end, 0, 0)), "{pattern} {line}");
    }
    for (pattern, line) in [
        ("PVC", "PVCO"),
        ("IPS", "I PS"),
        ("GAS", "GASKET"),
        ("C900", "C9001"),
        ("DI", "DI07"),
        ("DI", "DI.."),
        ("DR", "DRAIN"),
        ("D2241", "D 22 41"),
    ] {
        assert_eq!(found(pattern, line), None, "{pattern} {line}");
    }
}

#[test]
fn a_word_may_be_damaged_but_not_beyond_half() {
    for (pattern, line, want) in [
        ("C900", "C9..", (4, 2, 0)),
        ("C900", "C9?", (3, 2, 0)),
        ("C900", "C?00", (4, 1, 0)),
        ("C900", "C..0", (4, 2, 0)),
        ("C900", "C9.. DR", (4, 2, 0)),
        ("C900", "C9OO", (4, 0, 2)),
        ("D2241", "D224…".trim_end(), (7, 1, 0)),
        ("PVC", "P.C", (3, 1, 0)),
        ("SCH", "5CH40", (3, 0, 1)),
        ("CL", "C1 200", (2, 0, 1)),
        ("DR", "DRl8", (2, 0, 0)),
    ] {
        assert_eq!(found(pattern, line), Some(want), "{pattern} {line}");
    }
    for (pattern, line) in [
        ("C900", "C.."),
        ("D2241", "D2.."),
        ("DI", "D1"),
        ("B88", "888"),
        ("IPS", "1P5"),
        ("DR", "D?"),
    ] {
        assert_eq!(found(pattern, line), None, "{pattern} {line}");
    }
    let line = b"900 ";
    let behind_gap = Way {
        edge: Edge::Gap,
        ..way("")
    };
    let cut = fit(b"C900", 1, (line, 0), behind_gap, &mut 0).expect("three of four");
    assert_eq!((cut.end, cut.lost, cut.hits), (3, 1, 3));
    assert!(!cut.enough, "three digits may be the end of anything");
    let ended = fit(b"D2241", 1, (b"2241", 0), behind_gap, &mut 0);
    assert!(ended.is_some_and(|fit| fit.enough));
}
