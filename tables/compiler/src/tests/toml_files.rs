//! Mistakes of TOML files, and of the folder as a whole.

use super::fixture::{change, folder, is, mistakes, one, only, with};

const FAMILIES: &str = "families.toml";

#[test]
fn syntax() {
    let found = mistakes(&with(FAMILIES, 3, "\"PVC\"", "PVC"));
    assert!(!found.is_empty());
    assert_eq!(
        (found[0].file.as_str(), found[0].line),
        (FAMILIES, 3),
        "{}",
        found[0]
    );
}

#[test]
fn fields() {
    let files = with(FAMILIES, 10, "wear_in", "ware_in");
    let found = mistakes(&files);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].message.starts_with("unknown field \"ware_in\""));
    assert_eq!((found[0].line, found[0].column, found[0].span), (10, 1, 7));

    let files = with(FAMILIES, 11, "oval = 0.0016", "");
    only(
        &files,
        FAMILIES,
        (1, 1, "[[family]]"),
        "missing field \"oval\"",
    );
    one(
        FAMILIES,
        (1, "[[family]]", "[[famly]]"),
        (1, 3, "famly"),
        "unknown entry \"famly\"",
    );
}

#[test]
fn a_name_of_two_families() {
    // The name of one is the key of the other, or a name of its own twice.
    for (line, names, message) in [
        (
            21,
            r#"["pe-metric", "pvc"]"#,
            "\"pvc\" is a family's already",
        ),
        (21, r#"["blue", "blue"]"#, "\"blue\" is a family's already"),
    ] {
        let files = with(
            FAMILIES,
            line,
            "name = \"metric PE\"",
            &format!("name = \"metric PE\"\nalso = {names}"),
        );
        let found = mistakes(&files);
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].message, message);
        assert_eq!(found[0].line, line + 1);
    }
}

#[test]
fn references() {
    one(
        FAMILIES,
        (4, "iron", "irn"),
        (4, 13, "\"irn\""),
        "unknown OD system \"irn\"",
    );
    one(
        FAMILIES,
        (16, "notes", "nots"),
        (16, 11, "nots"),
        "unknown source \"nots\"",
    );
    one(
        FAMILIES,
        (17, "practice", "guess"),
        (17, 9, "\"guess\""),
        "unknown grade \"guess\"",
    );
    one(
        FAMILIES,
        (5, "\"pvc\"", "\"clay\""),
        (5, 12, "\"clay\""),
        "unknown material \"clay\"",
    );
    one(
        "series.toml",
        (8, "pvc", "pcv"),
        (8, 10, "\"pcv\""),
        "unknown family \"pcv\"",
    );
}

#[test]
fn keys_are_unique_plain_words() {
    let found = mistakes(&with(FAMILIES, 20, "\"pe\"", "\"pvc\""));
    assert!(
        found
            .iter()
            .any(|d| d.line == 20 && d.message == "key \"pvc\" is there twice")
    );
    one(
        "od-systems.toml",
        (7, "metric\"", "metric of the world\""),
        (7, 9, "\"metric of the world\""),
        "label \"metric of the world\" has 19 characters",
    );
    let mut files = folder();
    let file = "sources.toml";
    files
        .get_mut(file)
        .expect(file)
        .push_str("[long-source-key]\ntitle = \"T\"\nkind = \"k\"\nwhere = \"w\"\n");
    only(
        &files,
        file,
        (10, 2, "long-source-key"),
        "source key \"long-source-key\" has 15 characters",
    );
    one(
        FAMILIES,
        (3, "PVC", "Polyvinyl chloride"),
        (3, 8, "\"Polyvinyl chloride\""),
        "name \"Polyvinyl chloride\" has 18 characters",
    );
}

#[test]
fn ranges() {
    one(
        FAMILIES,
        (11, "0.0016", "0.16"),
        (11, 8, "0.16"),
        "oval = 0.16 is out of range",
    );
    one(
        FAMILIES,
        (12, "mean = 0.004", "mean = 0.4"),
        (12, 19, "0.4"),
        "squash.mean = 0.4 is out of range",
    );
    one(
        "settings.toml",
        (7, "17.0", "-17.0"),
        (7, 6, "-17.0"),
        "temperature.sd = -17 is out of range",
    );
    one(
        "settings.toml",
        (42, "0.003", "3"),
        (42, 9, "3"),
        "instrument.caliper.sigma = 3 is out of range",
    );
    one(
        "settings.toml",
        (30, "0.4", "0.5"),
        (30, 21, "0.5"),
        "unknown_irrigation and unknown_municipal do not sum to 1",
    );
}

#[test]
fn series() {
    let message = "a series has either a formula or printed pressures";
    one(
        "series.toml",
        (4, "hds_psi = 2000", ""),
        (3, 10, "\"New\""),
        message,
    );
    let file = "series.toml";
    let mut files = folder();
    let more = "[[series]]\nfamily = \"pe\"\nseries = \"IS0\"\nprinted = true\nsource = \"book\"\n";
    files.get_mut(file).expect(file).push_str(more);
    only(
        &files,
        file,
        (14, 10, "\"IS0\""),
        "no row of od/pe.csv is of series \"IS0\"",
    );
}

#[test]
fn files_that_are_missing_or_unknown() {
    let mut files = folder();
    files.remove("sizes.csv");
    only(&files, "sizes.csv", (0, 0, ""), "file not found");
    let mut files = folder();
    files.remove("classes/pe.csv");
    only(
        &files,
        FAMILIES,
        (20, 7, "\"pe\""),
        "file classes/pe.csv not found",
    );
    let mut files = folder();
    files.insert("od/clay.csv".into(), String::new());
    only(
        &files,
        "od/clay.csv",
        (0, 0, ""),
        "no family has the key \"clay\"",
    );
    files.remove("od/clay.csv");
    files.insert("old sizes.csv".into(), String::new());
    only(&files, "old sizes.csv", (0, 0, ""), "unknown file");
    files.remove("old sizes.csv");
    files.insert("sizes.csv".into(), "# nothing\n".into());
    only(&files, "sizes.csv", (0, 0, ""), "empty file");
}

#[test]
fn a_broken_file_is_not_echoed_by_those_that_refer_to_it() {
    let mut files = with("sources.toml", 1, "[notes]", "[notes");
    let found = mistakes(&files);
    assert!(found.iter().all(|d| d.file == "sources.toml"), "{found:?}");
    change(&mut files, "od/pvc.csv", 2, "memory", "memry");
    let found = mistakes(&files);
    is(
        &found[0],
        "od/pvc.csv",
        (2, 50, "memry"),
        "unknown grade \"memry\"",
    );
    files.remove("families.toml");
    let found = mistakes(&files);
    assert!(found.iter().all(|d| !d.file.contains('/')), "{found:?}");
}

#[test]
fn deratings() {
    one(
        "derating.csv",
        (3, "140", "60"),
        (3, 5, "60"),
        "out of order",
    );
    one(
        "derating.csv",
        (2, "73", "73.4"),
        (2, 5, "73.4"),
        "\"73.4\" is no temperature",
    );
}
