//! Jobs at a trench: ways to do each, and what is loaded, dug, marked and done for it.
//!
//! [`read_files`] takes the files of `jobs/`. A way is a chain of parts of `joints/parts.csv` as it lies in the ground; which of
//! its joints seal, and what holds them, is asked of the joint tables by whoever picks it for a pipe. Lines are what goes with
//! it: each hangs on what is put on which pipe, and on what was said of the site.

mod build;
mod model;
mod rows;
mod trigger;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

pub use build::{Build, Seat};
pub use model::{
    Circumstance, Count, Holder, Job, Jobs, Line, Place, Rule, Section, Stick, Trigger, Way, Weight,
};

use crate::diagnostic::Diagnostic;
use crate::joints::Reader;
use crate::model::Sources;

/// The files of the folder.
pub(crate) const FILES: [&str; 7] = [
    "jobs/jobs.csv",
    "jobs/ways.csv",
    "jobs/lines.csv",
    "jobs/holders.csv",
    "jobs/weights.csv",
    "jobs/sticks.csv",
    "jobs/rules.csv",
];

/// Rules that the command works with; each must be there once.
pub const RULES: [&str; 6] = [
    "cut-back",
    "glue-cold",
    "hand-lift",
    "lift-band",
    "spacer-apart",
    "spacer-bell",
];

/// Reads and checks the job files among the files of a folder. The rest of the folder was read before, clean: a job speaks of
/// parts, joint ends and restraints.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<Jobs, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let jobs = rows::gather(&mut reader, files);
    let found = reader.finish();
    match jobs {
        Some(jobs) if found.is_empty() => Ok(jobs),
        _ => Err(found),
    }
}
