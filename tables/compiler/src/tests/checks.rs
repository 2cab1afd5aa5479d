//! Mistakes that show only against other cells.

use super::fixture::{change, folder, is, mistakes, one, only, with};

const OD: &str = "od/pvc.csv";
const CLASSES: &str = "classes/pvc.csv";

#[test]
fn duplicate_rows() {
    let mut files = folder();
    files
        .get_mut(OD)
        .expect(OD)
        .push_str("4,,New,Std,4.8,book,standard,,,,,,,,,\n");
    only(
        &files,
        OD,
        (7, 1, "4"),
        "duplicate row: 4, New is on line 2 too",
    );
    let mut files = folder();
    files
        .get_mut(CLASSES)
        .expect(CLASSES)
        .push_str("4,,New,DR 18,,,,,,,,\n");
    only(
        &files,
        CLASSES,
        (5, 8, "DR 18"),
        "duplicate row: 4, New, DR 18 is on line 2 too",
    );
    one(
        "sizes.csv",
        (3, "6", "4"),
        (3, 1, "4"),
        "duplicate row: 4 is on line 2 too",
    );
}

#[test]
fn od_in_range() {
    one(
        OD,
        (2, "4.800", "480.0"),
        (2, 12, "480.0"),
        "an OD of 480.000 in is out of range",
    );
    one(
        OD,
        (2, "4.800", "0.3"),
        (2, 12, "0.3"),
        "an OD of 0.300 in is out of range",
    );
}

#[test]
fn tolerance_below_a_tenth_of_the_od() {
    let message = "0.900 in is a tenth of the OD of 4.800 in or more";
    one(OD, (2, "0.009,0.009", "0.9,0.009"), (2, 32, "0.9"), message);
    let mut files = with(OD, 2, "0.009,0.009", "0.9,0.009");
    change(&mut files, OD, 2, "memory,,,,,", "memory,,,,,A soft pipe");
    assert_eq!(mistakes(&files), Vec::new());
}

#[test]
fn a_metric_od_is_what_its_nominal_says() {
    one(
        "od/pe.csv",
        (2, ",160,", ",106,"),
        (2, 16, "106"),
        "the OD is not the 160 mm that the nominal size says",
    );
}

#[test]
fn walls_below_half_the_od() {
    one(
        CLASSES,
        (4, "0.390", "3.90"),
        (4, 17, "3.90"),
        "a wall of 3.900 in in an OD of 6.900 in",
    );
}

#[test]
fn classes_have_an_od_row() {
    one(
        CLASSES,
        (3, "6,,", "8,,"),
        (3, 1, "8"),
        "no OD row for 8, New",
    );
}

#[test]
fn classes_have_a_series() {
    let mut files = with(CLASSES, 2, "New", "Nwe");
    change(&mut files, OD, 2, "New", "Nwe");
    only(
        &files,
        CLASSES,
        (2, 4, "Nwe"),
        "series \"Nwe\" is not in series.toml",
    );
}

#[test]
fn a_wall_follows_its_ratio() {
    let message = "the wall is 0.287 in, DR 18 of this OD makes it 0.2667 in";
    one(CLASSES, (2, "0.267", "0.287"), (2, 14, "0.287"), message);
}

#[test]
fn a_thin_wall_stops_at_the_floor() {
    let mut files = with(CLASSES, 2, "DR 18,0.267", "DR 100,0.060");
    change(&mut files, CLASSES, 2, "235", "40");
    assert_eq!(mistakes(&files), Vec::new());
}

#[test]
fn a_pressure_follows_the_formula() {
    // 2 x 2000 / 17 is 235.3: 231 is 1.8 % below, 230 is 2.2 % below, 237 is 0.7 % above.
    let message = |psi| format!("psi is {psi}, the formula of series \"New\" makes it 235");
    one(CLASSES, (2, "235", "230"), (2, 38, "230"), &message("230"));
    one(CLASSES, (2, "235", "237"), (2, 38, "237"), &message("237"));
    assert_eq!(mistakes(&with(CLASSES, 2, "235", "231")), Vec::new());
}

#[test]
fn an_exception_is_needed_or_wrong() {
    let text = "An old table prints a thicker wall";
    one(
        CLASSES,
        (4, "0.390", "0.383"),
        (4, 58, text),
        "an exception that is not needed",
    );
    one(
        CLASSES,
        (4, text, ""),
        (4, 17, "0.390"),
        "the wall is 0.390 in, DR 18 of this OD makes it 0.3833 in",
    );
}

#[test]
fn row_shares_of_a_nominal() {
    one(
        OD,
        (6, "0.4", ""),
        (6, 42, ""),
        "missing row_share: other rows of nominal 6 have one",
    );
    one(
        OD,
        (6, "0.4", "0.5"),
        (6, 42, "0.5"),
        "the shares of nominal 6 sum to 1.100",
    );
}

#[test]
fn shares_of_sites_and_classes() {
    one(
        "families.toml",
        (13, "60", "61"),
        (13, 14, "61"),
        "the irrigation percentages of all families sum to 101.000",
    );
    one(
        "families.toml",
        (32, "24.5", "24"),
        (14, 13, "75.5"),
        "the municipal percentages of all families sum to 99.500",
    );
    let file = "class-shares.csv";
    one(
        file,
        (2, "DR 18", "DR 19"),
        (2, 5, "DR 19"),
        "classes/pvc.csv has no class \"DR 19\"",
    );
    let mut files = folder();
    files
        .get_mut(file)
        .expect(file)
        .push_str("pvc,DR 25,0.56,notes,practice\n");
    let found = mistakes(&files);
    is(
        &found[1],
        file,
        (3, 11, "0.56"),
        "the class shares of the family come to 1.010 here",
    );
}

#[test]
fn size_exceptions_are_of_sizes_that_exist() {
    one(
        "size-exceptions.csv",
        (2, "6", "60"),
        (2, 5, "60"),
        "od/pvc.csv has no nominal 60",
    );
}

#[test]
fn differences_speak_of_the_table() {
    let file = "differences.csv";
    one(
        file,
        (2, "6.9,", "6.8999,"),
        (2, 19, "6.8999"),
        "kept is 6.8999, the table has 6.900",
    );
    one(
        file,
        (2, "6.8,", "6.90,"),
        (2, 28, "6.90"),
        "the two values do not differ",
    );
    one(
        file,
        (2, "od_in", "od_mm"),
        (2, 13, "od_mm"),
        "od/pvc.csv has no column \"od_mm\"",
    );
    one(
        file,
        (3, "DR 18", "DR 25"),
        (3, 5, "6"),
        "classes/pvc.csv has no such row",
    );
    one(
        file,
        (3, "150", "151"),
        (3, 25, "151"),
        "kept is 151, the table has 150",
    );
}
