//! `springline tables`.

mod common;

use std::fs;
use std::path::Path;

use common::{golden, json, springline};

#[test]
fn what_is_known_of_a_size() {
    golden("show-c900-6", &["tables", "show", "c900", "6"]);
    let same = |size: &str| springline(&["tables", "show", "ips-pvc", size]).0;
    assert_eq!(same("1-1/2"), same("1 1/2in"));
    let (value, code) = json(&["tables", "show", "ips-pvc", "6", "--json"]);
    assert_eq!(code, 0);
    assert_eq!(value["schema"], "springline-tables-show/1");
    assert_eq!(value["od"][0]["od_in"]["value"], 6.625);
    assert!(!value["sources"].as_array().expect("a list").is_empty());
}

#[test]
fn the_tables_check_clean_and_mistakes_are_found() {
    let sources = concat!(env!("CARGO_MANIFEST_DIR"), "/../tables/sources");
    let (out, err, code) = springline(&["tables", "check", sources]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("no mistakes"));
    let folder = std::env::temp_dir().join(format!("springline-check-{}", std::process::id()));
    copy(Path::new(sources), &folder);
    let file = folder.join("od/c900.csv");
    let text = fs::read_to_string(&file)
        .expect("a table")
        .replacen("hi-data", "hi-dta", 1);
    fs::write(&file, text).expect("a broken table");
    let (out, _, code) = springline(&["tables", "check", &folder.to_string_lossy()]);
    fs::remove_dir_all(&folder).expect("the copy goes away");
    assert_eq!(code, 1);
    assert!(
        out.contains("od/c900.csv:2:") && out.contains("hi-dta") && out.contains('^'),
        "{out}"
    );
    // Where no sources are, as here.
    let (out, _, code) = springline(&["tables", "check"]);
    assert_eq!(code, 0);
    assert!(
        out.starts_with("built-in tables") && out.contains("digest "),
        "{out}"
    );
    let (_, err, code) = springline(&["tables", "check", "no-such-folder"]);
    assert_eq!(code, 2);
    assert!(err.contains("not a folder"));
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        let target = to.join(path.file_name().expect("a name"));
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).expect("a copy");
        }
    }
}

#[test]
fn what_is_not_in_the_tables_is_told_with_what_is() {
    golden("mistake-family", &["tables", "show", "c90"]);
    golden("mistake-size", &["tables", "show", "c900", "7"]);
}
