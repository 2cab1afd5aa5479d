//! Mistakes in clues.

use super::fixture::{folder, mistakes, one, only, with};

const TOML: &str = "clues.toml";
const CSV: &str = "clues/magnet.csv";

#[test]
fn a_clue_is_read_with_its_answers_and_likelihoods() {
    let sources = crate::read_files(&folder()).expect("clean");
    let clue = &sources.clues[0];
    assert_eq!((clue.key.as_str(), clue.disguised), ("magnet", true));
    assert_eq!(clue.answers[1].words, "it does not hold");
    assert_eq!(clue.likelihoods, [vec![0.015, 0.985], vec![0.25, 0.75]]);
}

#[test]
fn chances_sum_to_one_and_none_is_missing() {
    let sum = "the chances of the answers sum to 1.0850";
    one(
        CSV,
        (2, "0.985", "1.07"),
        (2, 11, "1.07"),
        "\"1.07\" is not a share",
    );
    one(CSV, (3, "0.25", "0.335"), (3, 1, "others"), sum);
    let empty = mistakes(&with(CSV, 3, ",0.75", ","));
    assert!(empty.iter().any(|found| found.message == "missing no"));
}

#[test]
fn every_family_has_one_row() {
    one(
        CSV,
        (3, "others", "others;pvc"),
        (3, 8, "pvc"),
        "family \"pvc\" is there twice",
    );
    let files = with(CSV, 3, "others", "clay");
    assert_eq!(mistakes(&files).len(), 2, "unknown, and pe is missing");
    let mut files = folder();
    let text = files.get_mut(CSV).expect("the file");
    *text = text.lines().take(2).collect::<Vec<_>>().join("\n");
    only(&files, CSV, (2, 1, "pvc"), "no row for pe");
}

#[test]
fn a_clue_has_its_file_its_columns_and_its_words() {
    let mut files = folder();
    files.remove(CSV);
    only(
        &files,
        TOML,
        (2, 7, "\"magnet\""),
        "file clues/magnet.csv not found",
    );
    let columns = mistakes(&with(CSV, 1, "no,", "nay,"));
    assert_eq!(columns[0].message, "unknown column \"nay\"");
    one(
        TOML,
        (4, "0.1", "0.01"),
        (4, 11, "0.01"),
        "minutes = 0.01 is out of range",
    );
    one(
        TOML,
        (10, "cement", "clay"),
        (10, 56, "\"clay\""),
        "unknown meaning \"clay\"",
    );
}
