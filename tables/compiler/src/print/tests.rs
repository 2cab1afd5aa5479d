//! Mistakes in the files of print lines, and what the image holds of them.

use springline_core::print::{PrintedClass, Scale, Thing};

use super::printed;
use crate::tests::fixture::{folder, mistakes, one, with};

const STANDARDS: &str = "print/standards.csv";
const WORDS: &str = "print/words.csv";

/// The small folder with more words.
fn words(more: &str) -> crate::report::Files {
    let mut files = folder();
    files.get_mut(WORDS).expect("the file").push_str(more);
    files
}

#[test]
fn words_and_what_they_mean_are_read() {
    let files = words(
        "B1,standard,Book 1,notes,practice\nIRON OD,base,iron,book,standard\n\
         GAS-DRAIN,contents,gas drain,notes,practice\nPSI,pressure-after,psi,notes,practice\n",
    );
    let sources = crate::read_files(&files).expect("clean");
    let print = &sources.print;
    let said: Vec<(Thing, u8)> = print.words.iter().map(|w| (w.thing, w.value)).collect();
    assert_eq!(
        said,
        [
            (Thing::Class, Scale::Ratio as u8),
            (Thing::Standard, 0),
            (Thing::Base, 0),
            (Thing::Contents, 6),
            (Thing::PressureAfter, 3),
        ]
    );
    assert_eq!(print.standards[1].name, "Book 2");
    assert_eq!(print.standards[1].variants.iter().collect::<Vec<_>>(), [1]);
}

#[test]
fn what_a_word_says_is_known() {
    for (more, at, message) in [
        (
            "B9,standard,Book 9,notes,practice",
            (3, 13, "Book 9"),
            "unknown standard \"Book 9\"",
        ),
        (
            "UPVC,material,PVV,notes,practice",
            (3, 15, "PVV"),
            "unknown material code \"PVV\"",
        ),
        (
            "IPS,base,ips,notes,practice",
            (3, 10, "ips"),
            "unknown OD system \"ips\"",
        ),
        (
            "GAS,contents,gass,notes,practice",
            (3, 14, "gass"),
            "unknown contents \"gass\"",
        ),
        (
            "IN,size-after,psi,notes,practice",
            (3, 15, "psi"),
            "unknown unit \"psi\"",
        ),
        (
            "PSI,pressure-after,mm,notes,practice",
            (3, 20, "mm"),
            "unknown unit \"mm\"",
        ),
        (
            "SCH,class,sched,notes,practice",
            (3, 11, "sched"),
            "unknown scale \"sched\"",
        ),
        (
            "SCH,klass,ratio,notes,practice",
            (3, 5, "klass"),
            "unknown thing \"klass\"",
        ),
        (
            "ASTM,plain,x,notes,practice",
            (3, 12, "x"),
            "a plain word has no value",
        ),
        (
            "D R,class,ratio,notes,practice",
            (3, 1, "D R"),
            "\"D R\" reads like \"DR\" above",
        ),
        (
            "Sch,class,schedule,notes,practice",
            (3, 1, "Sch"),
            "\"Sch\" is not written as a word of a line",
        ),
        (
            "SCH-,class,schedule,notes,practice",
            (3, 1, "SCH-"),
            "\"SCH-\" is not written as a word of a line",
        ),
        (
            "SCH,class,schedule,notes,",
            (3, 26, ""),
            "the row has no grade",
        ),
    ] {
        let found = mistakes(&words(&format!("{more}\n")));
        assert_eq!(found.len(), 1, "{more}: {found:?}");
        crate::tests::fixture::is(&found[0], WORDS, at, message);
    }
}

#[test]
fn markings_speak_of_variants_and_there_are_two_of_them() {
    one(
        STANDARDS,
        (2, "pvc/*", "clay/*"),
        (2, 8, "clay/*"),
        "unknown variant or set \"clay/*\"",
    );
    let twice = mistakes(&with(STANDARDS, 3, "Book 2", "Book 1"));
    assert_eq!(twice[0].message, "key \"Book 1\" is there twice");
    let alone = mistakes(&with(STANDARDS, 3, "Book 2,pe/*,notes,practice", ""));
    assert_eq!(alone[0].message, "there is only one of them");
    let mut files = folder();
    files.remove(WORDS);
    assert_eq!(mistakes(&files)[0].message, "file not found");
}

#[test]
fn names_of_classes_are_classes_in_print() {
    let more = "SCH,class,schedule,notes,practice\nCLASS,class,class,notes,practice\n\
                TYPE,class,type,notes,practice\nSTD,class,weight,notes,practice\n";
    let sources = crate::read_files(&words(more)).expect("clean");
    let number = |scale, tenths| PrintedClass::number(scale, tenths).expect("small");
    for (label, want) in [
        ("DR 32.5", number(Scale::Ratio, 325)),
        ("Sch 40", number(Scale::Schedule, 400)),
        ("Class 52", number(Scale::Class, 520)),
        ("Class B", PrintedClass::letter(Scale::Class, b'B')),
        ("Type L", PrintedClass::letter(Scale::Type, b'L')),
        ("STD", number(Scale::Weight, 10)),
        ("Class 100-250", PrintedClass::pressures(100, 250)),
        ("Class 150/200", PrintedClass::pressures(150, 200)),
        ("Class 150", PrintedClass::NONE),
        ("PC 235", PrintedClass::NONE),
        ("0.050 in", PrintedClass::NONE),
        ("", PrintedClass::NONE),
    ] {
        assert_eq!(printed(&sources.print, label), want, "{label}");
    }
}
