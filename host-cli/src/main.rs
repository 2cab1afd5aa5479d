//! The desk command: says what a pipe is from a reading, and keeps the tables.
//!
//! Exit codes are an interface: 0 answered; 1 answered "no" (not in the tables, a stop, tables with mistakes); 2 bad input or
//! failure.

mod assemble;
mod bolts;
mod cli;
mod clues;
mod family;
mod fits;
mod format;
mod parse;
mod pick;
mod rating;
mod read;
mod restrain;
mod share;
mod show;
mod site;
mod tables;

use std::fmt::Display;
use std::io::{self, Write};
use std::process::ExitCode;

use cli::Command;

/// What a verb has to say, and how it went.
pub(crate) struct Said {
    /// Text for standard output, ending in a line break.
    pub(crate) text: String,
    /// Whether the answer is "no".
    pub(crate) no: bool,
}

fn main() -> ExitCode {
    let cli = match clues::parse() {
        Ok(cli) => cli,
        Err(error) => return failed(&error),
    };
    let said = match &cli.command {
        Command::Read(args) => read::run(args),
        Command::Fits(args) => fits::run(args),
        Command::TieIn(args) => fits::tie::run(args),
        Command::Surge(args) => site::surge::run(args),
        Command::Fill(args) => site::fill::run(args),
        Command::Dig(args) => site::dig::run(args),
        Command::Cut(args) => site::cut::run(args),
        Command::Restrain(args) => restrain::run(args),
        Command::Bolts(args) => bolts::run(args),
        Command::Assemble(args) => assemble::run(args),
        Command::Pick(args) => pick::run(args),
        Command::Tables(args) => tables::run(args),
    };
    match said {
        Ok(said) => match io::stdout().lock().write_all(said.text.as_bytes()) {
            // A reader that has seen enough is no failure.
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => failed(&error),
            _ if said.no => ExitCode::from(1),
            _ => ExitCode::SUCCESS,
        },
        Err(error) => failed(&error),
    }
}

/// Says what went wrong. A closed standard error must not make it worse, so nothing here can panic.
fn failed(error: &dyn Display) -> ExitCode {
    let _ = writeln!(io::stderr().lock(), "error: {error}");
    ExitCode::from(2)
}
