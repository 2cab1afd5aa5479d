//! `springline pick` as its user meets it: golden lists, mistakes, and every job on many families held against what a crew
//! must have. What must come with what is common practice, no source.

#[path = "../common/mod.rs"]
mod common;
mod counts;
mod everywhere;
mod figures;
mod glue;
mod golden;
mod list;
mod shop;

use serde_json::Value;

/// Words of a command line, with quotes.
pub(crate) fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().expect("a word").push(c),
        }
    }
    words
}

pub(crate) fn text<'a>(line: &'a Value, key: &str) -> &'a str {
    line[key].as_str().unwrap_or("")
}
