//! `springline tables`: the sources and what they say.

mod check;
mod show;

use anyhow::Result;

use crate::Said;
use crate::cli::{TablesArgs, TablesCommand};

/// Runs a verb of the tables.
pub(crate) fn run(args: &TablesArgs) -> Result<Said> {
    match &args.command {
        TablesCommand::Check { folder, json } => check::run(folder.as_ref(), *json),
        TablesCommand::Show {
            family,
            size,
            json,
            units,
        } => show::run(family, size.as_deref(), *json, (*units).into()),
    }
}
