//! Options of other verbs that `pick` takes, too. Name, help and parser stay those of the verb that has them, and what was typed
//! is handed on to it as words: `pick` asks the other verbs as their user would.

use anyhow::{Result, anyhow};
use clap::builder::Resettable;
use clap::error::ErrorKind;
use clap::parser::ValueSource;
use clap::{Arg, ArgAction, ArgMatches, Args, Command, Error, FromArgMatches};

use crate::assemble::AssembleArgs;
use crate::bolts::BoltsArgs;
use crate::restrain::args::RestrainArgs;
use crate::site::cut::CutArgs;
use crate::site::dig::DigArgs;

/// What `restrain` asks of any fitting, by the names of its fields.
pub(crate) const SITE: [&str; 16] = [
    "angle",
    "stick",
    "joints",
    "pressure",
    "shutoff",
    "at_rest",
    "below",
    "above",
    "failed_open",
    "working",
    "surge",
    "test",
    "soil",
    "depth",
    "trench",
    "backfill",
];
/// What it asks of some.
const FITTING: [&str; 5] = [
    "run_restrained",
    "dead_end",
    "branch_valve",
    "branch_dead_end",
    "wrapped",
];
/// The pressures of it.
pub(crate) const PRESSURES: [&str; 6] = [
    "pressure",
    "shutoff",
    "at_rest",
    "failed_open",
    "working",
    "test",
];
const CUT: [&str; 2] = ["opening", "gap"];
const DIG: [&str; 2] = ["coupling", "drains"];
const BOLTS: [&str; 2] = ["gasket", "bolts"];
const ASSEMBLE: [&str; 2] = ["bell", "wet"];

/// Fields whose option has another name here: `--pressure` asks a clue of `read`.
const NAMED: [(&str, &str); 1] = [("pressure", "highest")];

/// The name that an option has here, where it is another.
fn named(field: &str) -> Option<&'static str> {
    let found = NAMED.iter().find(|(own, _)| *own == field)?;
    Some(found.1)
}

/// The options that were given: the field that each fills, its name, and what was typed.
#[derive(Clone, Default)]
pub(crate) struct Shared(Vec<(String, String, Option<String>)>);

/// The options themselves, as the other verbs have them.
fn options() -> Vec<Arg> {
    let mut all: Vec<Arg> = Vec::new();
    let mut take = |command: Command, names: &[&str]| {
        let own = command.get_arguments();
        let own = own.filter(|arg| names.contains(&arg.get_id().as_str()));
        all.extend(own.cloned());
    };
    let bare = || Command::new("pick");
    take(
        RestrainArgs::augment_args(bare()),
        &[&SITE[..], &FITTING[..]].concat(),
    );
    take(CutArgs::augment_args(bare()), &CUT);
    take(DigArgs::augment_args(bare()), &DIG);
    take(BoltsArgs::augment_args(bare()), &BOLTS);
    take(AssembleArgs::augment_args(bare()), &ASSEMBLE);
    all
}

impl Args for Shared {
    fn augment_args(command: Command) -> Command {
        // None of them is needed, and none is taken for granted: the verbs that are asked do that themselves.
        let all = options().into_iter().map(|arg| {
            let arg = arg
                .required(false)
                .default_value(Resettable::<clap::builder::OsStr>::Reset);
            match named(arg.get_id().as_str()) {
                Some(name) => arg.id(name).long(name),
                None => arg,
            }
        });
        command.args(all)
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl FromArgMatches for Shared {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, Error> {
        let mut given = Vec::new();
        for option in options() {
            let field = option.get_id().as_str();
            let id = named(field).unwrap_or(field);
            if matches.value_source(id) != Some(ValueSource::CommandLine) {
                continue;
            }
            let name = option.get_long().unwrap_or(field).to_owned();
            let value = if matches!(option.get_action(), ArgAction::SetTrue) {
                None
            } else {
                let mut raw = matches.get_raw(id).into_iter().flatten();
                let value = raw.next().and_then(|value| value.to_str());
                let value = value.ok_or_else(|| Error::new(ErrorKind::InvalidUtf8))?;
                Some(value.to_owned())
            };
            given.push((field.to_owned(), name, value));
        }
        Ok(Self(given))
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

impl Shared {
    /// What was typed for a field.
    pub(crate) fn get(&self, field: &str) -> Option<&str> {
        let found = self.0.iter().find(|(id, ..)| id == field)?;
        found.2.as_deref()
    }

    /// Whether any of these was given.
    pub(crate) fn any(&self, fields: &[&str]) -> bool {
        self.0.iter().any(|(id, ..)| fields.contains(&id.as_str()))
    }

    /// Those of these fields that were given, as they are typed.
    pub(crate) fn words(&self, fields: &[&str]) -> Vec<String> {
        let given = self.0.iter();
        let given = given.filter(|(id, ..)| fields.contains(&id.as_str()));
        given
            .map(|(_, name, value)| match value {
                Some(value) => format!("--{name}={value}"),
                None => format!("--{name}"),
            })
            .collect()
    }
}

/// The arguments of a verb, read from words as they would be typed.
pub(crate) fn typed<T: Args>(words: &[String]) -> Result<T> {
    let command = T::augment_args(Command::new("springline").no_binary_name(true));
    let found = command.try_get_matches_from(words);
    let told = |error: Error| {
        let text = error.to_string();
        anyhow!(
            "{}",
            text.strip_prefix("error: ").unwrap_or(&text).trim_end()
        )
    };
    T::from_arg_matches(&found.map_err(told)?).map_err(told)
}
