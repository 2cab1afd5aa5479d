//! Tests of the reader and the checks: one mistake at a time in a small folder that reads clean.

mod cells;
mod checks;
mod clues;
pub(crate) mod fixture;
mod real;
mod toml_files;
