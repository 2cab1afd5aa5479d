//! The arguments, as typed: nothing here is understood yet, so that every mistake is explained by the same parsers.

mod fits;
mod read;
mod words;

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use crate::assemble::AssembleArgs;
use crate::bolts::BoltsArgs;
use crate::pick::args::PickArgs;
use crate::restrain::args::RestrainArgs;

pub(crate) use fits::{EndArg, FitsArgs, FitsJobArg, TieArgs};
pub(crate) use read::ReadArgs;
pub(crate) use words::{JobArg, OwnerArg, SiteArg, UnitsArg, YesNo};

/// Says what buried pipe is from its outside diameter.
#[derive(Parser)]
#[command(
    name = "springline",
    version,
    about,
    after_help = "An outside diameter does not prove what is inside. Local codes, the competent person on site, makers' \
                  instructions and licensed practice come first."
)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Subcommand)]
pub(crate) enum Command {
    /// Say what a pipe is from readings of it
    Read(Box<ReadArgs>),
    /// Say which parts go on a known pipe, what they need and what holds them
    Fits(Box<FitsArgs>),
    /// Say which parts lead from one pipe end to another, in the order of assembly
    TieIn(Box<TieArgs>),
    /// Say how high the pressure rises where water is stopped, and whether the pipe takes it
    Surge(Box<crate::site::surge::SurgeArgs>),
    /// Say what a line holds, how it is filled, flushed and tested, and what it may take up
    Fill(Box<crate::site::fill::FillArgs>),
    /// Say what is dug for a job: bare barrel, hole, sump, water to pump out
    Dig(Box<crate::site::dig::DigArgs>),
    /// Say how long a piece is cut, for damage or to close a gap
    Cut(Box<crate::site::cut::CutArgs>),
    /// Say which joints to restrain at a fitting, how far from it, and when that holds
    Restrain(Box<RestrainArgs>),
    /// Say which bolts a flange or a mechanical joint takes, and how they are tightened
    Bolts(Box<BoltsArgs>),
    /// Say how a joint is made up: the mark, the cut, how far it turns, how long glue takes
    Assemble(Box<AssembleArgs>),
    /// Say what a job takes: parts, what holds each joint, tools, and the work in its order
    Pick(Box<PickArgs>),
    /// Check the table sources, or show what is known of a size
    Tables(TablesArgs),
}

#[derive(Args)]
pub(crate) struct TablesArgs {
    #[command(subcommand)]
    pub(crate) command: TablesCommand,
}

#[derive(Subcommand)]
pub(crate) enum TablesCommand {
    /// Compile table sources and report every mistake in them; where there are none, sum up the built-in tables
    Check {
        /// Folder of the sources [tables/sources if it is here]
        folder: Option<PathBuf>,
        /// Report in JSON
        #[arg(long)]
        json: bool,
    },
    /// Show what is known of a family or of one size, with sources and grades
    Show {
        /// Key of a family, such as c900
        family: String,
        /// Nominal size, such as 6 or 1-1/2
        size: Option<String>,
        /// Show in JSON
        #[arg(long)]
        json: bool,
        /// Unit of lengths
        #[arg(long, default_value = "in")]
        units: UnitsArg,
    },
}
