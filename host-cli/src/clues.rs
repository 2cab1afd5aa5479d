//! The options of clues, which come of the tables: a clue that a shop adds to its sources is an option here.

use anyhow::{Result, anyhow};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, ArgMatches, CommandFactory, FromArgMatches};
use springline_core::image::Image;
use springline_tables::IMAGE;

use crate::cli::{Cli, Command};

/// Reads the command line.
pub(crate) fn parse() -> Result<Cli> {
    let image = Image::new(IMAGE)?;
    let options: Vec<Arg> = image.clues().map(|clue| option(&image, &clue)).collect();
    let keys: Vec<String> = options
        .iter()
        .map(|option| option.get_id().to_string())
        .collect();
    let matches = Cli::command()
        .mut_subcommand("read", |read| read.args(options.clone()))
        .mut_subcommand("pick", |pick| pick.args(options))
        .try_get_matches()
        .map_err(|error| below_zero(&error))?;
    let mut cli = Cli::from_arg_matches(&matches).unwrap_or_else(|error| error.exit());
    if let (Command::Read(args), Some(("read", read))) = (&mut cli.command, matches.subcommand()) {
        args.told = told(read, keys);
    } else if let (Command::Pick(args), Some(("pick", pick))) =
        (&mut cli.command, matches.subcommand())
    {
        args.told = told(pick, keys);
    }
    Ok(cli)
}

/// A number below zero is taken for an option; said so. Any other mistake on the line is the parser's to tell.
fn below_zero(error: &clap::Error) -> anyhow::Error {
    let typed = match error.get(ContextKind::InvalidArg) {
        Some(ContextValue::String(typed)) => typed.clone(),
        _ => error.exit(),
    };
    let number = typed.strip_prefix('-').is_some_and(|rest| {
        let rest = rest.strip_prefix('.').unwrap_or(rest);
        rest.starts_with(|c: char| c.is_ascii_digit())
    });
    if error.kind() != ErrorKind::UnknownArgument || !number {
        error.exit();
    }
    // The parser names the first digit alone; the word as it was typed is among the arguments.
    let whole = std::env::args().find(|arg| arg.starts_with(&typed));
    let whole = whole.unwrap_or(typed);
    anyhow!(
        "\"{whole}\" is below zero, and only a temperature can be\n  try: {}, without the dash; what lies higher or on the other side has an option of its own (--help)",
        whole.trim_start_matches('-')
    )
}

/// The option of one clue: its key, its answers, its question.
fn option(image: &Image<'static>, clue: &springline_core::image::Clue) -> Arg {
    let key = image.packed_text(clue.key);
    let answers: Vec<&str> = (clue.first..clue.first.saturating_add(clue.answers))
        .map(|answer| image.packed_text(image.clue_answer(answer).key))
        .collect();
    Arg::new(key)
        .long(key)
        .value_name("ANSWER")
        .value_parser(clap::builder::PossibleValuesParser::new(answers))
        .help(image.packed_text(clue.question))
        .help_heading("Clues")
}

/// Key and answer of each clue that was given.
fn told(read: &ArgMatches, keys: Vec<String>) -> Vec<(String, String)> {
    keys.into_iter()
        .filter_map(|key| {
            let answer = read.get_one::<String>(&key)?.clone();
            Some((key, answer))
        })
        .collect()
}
