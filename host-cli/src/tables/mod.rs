//! `springline tables`: the sources and what they say.

mod check;
mod show;

use std::path::Path;

use anyhow::Result;

use crate::Said;
use crate::cli::{TablesArgs, TablesCommand};

/// Runs a verb of the tables.
pub(crate) fn run(args: &TablesArgs) -> Result<Said> {
    match &args.command {
        TablesCommand::Check { folder, json } => {
            let usual = Path::new("tables/sources");
            match folder.as_deref() {
                Some(folder) => check::run(folder, *json),
                None if usual.is_dir() => check::run(usual, *json),
                None => check::built_in(*json),
            }
        }
        TablesCommand::Show {
            family,
            size,
            json,
            units,
        } => show::run(family, size.as_deref(), *json, (*units).into()),
    }
}
