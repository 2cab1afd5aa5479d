//! Turns the cited table sources into the image that core reads in place.
//!
//! The goal is that everything Springline knows about pipe can be changed in a spreadsheet: [`read::read`] takes the
//! folder of sources, reports *every* mistake in it with file, line, column and what to do, and hands on typed values.
//! A folder that reads clean compiles.
//!
//! It does not judge whether a figure is true, only whether it is cited, graded, in range and consistent with the
//! others. It does not run on a device; it may use floats and the heap.

#![deny(missing_docs)]

pub mod assemble;
pub mod assembly;
pub mod compile;
pub mod diagnostic;
pub mod encode;
pub mod fit;
pub mod jobs;
pub mod joints;
pub mod model;
pub mod notes;
pub mod print;
pub mod read;
pub mod site;
pub mod thrust;

mod check;
mod report;
#[cfg(test)]
mod tests;

pub use compile::{Compiled, compile, compile_sources, hex};
pub use diagnostic::Diagnostic;
pub use read::{read, read_files};
