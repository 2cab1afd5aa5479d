//! Mistakes of the form of a CSV file and of single cells.

use super::fixture::{change, folder, is, mistakes, one, only, with};

const OD: &str = "od/pvc.csv";
const CLASSES: &str = "classes/pvc.csv";

#[test]
fn an_unknown_source_is_underlined_alone() {
    one(
        OD,
        (5, "book;notes", "book;nots"),
        (5, 30, "nots"),
        "unknown source \"nots\"",
    );
    let found = mistakes(&with(OD, 5, "book;notes", "book;nots"));
    assert_eq!(
        found[0].help,
        "add [nots] to sources.toml or use one of: notes, book"
    );
}

#[test]
fn columns_that_do_not_belong() {
    let found = mistakes(&with(OD, 1, "standard", "norm"));
    assert_eq!(found.len(), 2, "{found:?}");
    is(&found[0], OD, (1, 24, "norm"), "unknown column \"norm\"");
    is(&found[1], OD, (1, 148, ""), "missing column \"standard\"");
    one(
        OD,
        (1, "exception", "exception,tol_grade"),
        (1, 153, "tol_grade"),
        "column \"tol_grade\" is there twice",
    );
}

#[test]
fn units_are_not_mixed() {
    one(
        OD,
        (1, "plus_in", "plus_mm"),
        (1, 58, "plus_mm"),
        "inches and millimetres in one file",
    );
}

#[test]
fn rows_have_a_cell_a_column() {
    one(
        OD,
        (2, "memory,,,,,", "memory,,,,,,"),
        (2, 62, ""),
        "17 cells under 16 columns",
    );
    let mut files = with(OD, 5, "0.6,", "0.6");
    only(&files, OD, (5, 98, ""), "15 cells under 16 columns");
    // A row of nothing but commas is what a spreadsheet makes of an empty one.
    files = folder();
    files
        .get_mut(OD)
        .expect(OD)
        .push_str(",,,,,,,,,,,,,,,\n,,\n");
    assert_eq!(mistakes(&files), Vec::new());
}

#[test]
fn quotes_pair() {
    one(OD, (5, "new\"", "new"), (5, 8, "\""), "quotes do not pair");
}

#[test]
fn a_value_and_its_source_and_grade_come_together() {
    one(OD, (2, "book", ""), (2, 18, ""), "od_in has no source");
    one(OD, (2, "standard", ""), (2, 23, ""), "od_in has no grade");
    one(
        OD,
        (2, "memory", ""),
        (2, 50, ""),
        "the tolerance has no grade",
    );
    one(
        OD,
        (5, "one-source", ""),
        (5, 84, ""),
        "out_of_round_in has no grade",
    );
}

#[test]
fn two_sources_are_two() {
    one(
        OD,
        (5, "book;notes", "book"),
        (5, 30, "two-sources"),
        "od_in has one source and the grade of two",
    );
}

#[test]
fn a_source_without_a_value_is_one_mistake_and_its_grade_another() {
    let found = mistakes(&with(CLASSES, 2, "235", ""));
    assert_eq!(found.len(), 2);
    is(
        &found[0],
        CLASSES,
        (2, 39, "book"),
        "a source without a value",
    );
    is(
        &found[1],
        CLASSES,
        (2, 44, "standard"),
        "a grade without a value",
    );
}

#[test]
fn unknown_words() {
    one(
        OD,
        (2, "memory", "memry"),
        (2, 50, "memry"),
        "unknown grade \"memry\"",
    );
    one(
        CLASSES,
        (2, "min", "max"),
        (2, 20, "max"),
        "unknown wall_kind \"max\"",
    );
    one(CLASSES, (2, "min", ""), (2, 20, ""), "missing wall_kind");
    one(
        "class-shares.csv",
        (2, "pvc", "pcv"),
        (2, 1, "pcv"),
        "unknown family \"pcv\"",
    );
}

#[test]
fn numbers_are_plain() {
    one(
        OD,
        (2, "4.800", "4,8"),
        (2, 59, ""),
        "17 cells under 16 columns",
    );
    one(
        OD,
        (2, "4.800", "4.8in"),
        (2, 12, "4.8in"),
        "\"4.8in\" is not a length",
    );
    one(
        OD,
        (5, "0.050", "-0.05"),
        (5, 73, "-0.05"),
        "\"-0.05\" is not a length",
    );
    one(
        OD,
        (6, "0.4", "40%"),
        (6, 42, "40%"),
        "\"40%\" is not a share",
    );
    one(
        CLASSES,
        (2, "235", "235.5"),
        (2, 38, "235.5"),
        "\"235.5\" is not a pressure",
    );
    one(
        "sizes.csv",
        (2, "0.2", "0"),
        (2, 3, "0"),
        "\"0\" is not a share",
    );
}

#[test]
fn a_tolerance_has_two_limits() {
    let file = "od/pe.csv";
    one(
        file,
        (2, "1.0,0,", "1.0,,"),
        (2, 38, ""),
        "missing minus_mm",
    );
}

#[test]
fn nominal_sizes() {
    let found = mistakes(&with(OD, 2, "4,,", "4in,,"));
    is(
        &found[1],
        OD,
        (2, 1, "4in"),
        "\"4in\" is not a nominal size",
    );
    // Its class row has lost it.
    is(&found[0], CLASSES, (2, 1, "4"), "no OD row for 4, New");
}

#[test]
fn texts_fit_the_display_and_are_ascii() {
    let files = with("class-shares.csv", 2, "DR 18", "DR 18 of long ago");
    let found = mistakes(&files);
    let message = "class \"DR 18 of long ago\" has 17 characters";
    is(
        &found[0],
        "class-shares.csv",
        (2, 5, "DR 18 of long ago"),
        message,
    );
    let mut files = with(CLASSES, 4, "DR 18", "DR 18é");
    change(&mut files, "differences.csv", 3, "DR 18", "DR 18é");
    change(
        &mut files,
        CLASSES,
        4,
        "An old table prints a thicker wall",
        "",
    );
    only(
        &files,
        CLASSES,
        (4, 11, "DR 18é"),
        "class \"DR 18é\" is not printable ASCII",
    );
    one(
        OD,
        (5, "Std, new", "Std, new "),
        (5, 8, "\"Std, new \""),
        "standard \"Std, new \" begins or ends with a space",
    );
}

#[test]
fn two_mistakes_are_both_reported_by_file_and_line() {
    let mut files = with(OD, 6, "book", "bok");
    change(&mut files, OD, 2, "memory", "memry");
    change(&mut files, CLASSES, 3, "min", "max");
    let found = mistakes(&files);
    let places: Vec<_> = found.iter().map(|d| (d.file.as_str(), d.line)).collect();
    assert_eq!(places, [(CLASSES, 3), (OD, 2), (OD, 6)]);
}
