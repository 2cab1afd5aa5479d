//! The arguments, as typed: nothing here is understood yet, so that every mistake is explained by the same parsers.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use springline_core::joint::{Form, Job, Owner, Task};

use crate::assemble::AssembleArgs;
use crate::bolts::BoltsArgs;
use crate::parse::Unit;
use crate::pick::args::PickArgs;
use crate::restrain::args::RestrainArgs;

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

/// Readings of one pipe, what is known beside them, and how to answer.
#[derive(Args, Clone)]
pub(crate) struct ReadArgs {
    /// A caliper across the pipe; HOUR is the clock end of that diameter, 12 vertical, 3 horizontal, or "across" for at right
    /// angles to the one before
    #[arg(
        long,
        value_name = "L[@HOUR]",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) dia: Vec<String>,
    /// The caliper again, a foot along the pipe
    #[arg(
        long,
        value_name = "L[@HOUR]",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) along: Vec<String>,
    /// A tape graduated in diameters
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) dia_tape: Vec<String>,
    /// A steel tape around the pipe
    #[arg(
        long,
        alias = "tape",
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) around: Vec<String>,
    /// A string or cloth tape around the pipe
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) string: Vec<String>,
    /// A straight edge laid across the crown; takes --rise
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) chord: Vec<String>,
    /// How far the crown rises above that chord
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) rise: Vec<String>,
    /// Depth of the caliper's jaws [they reach the widest point]
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) jaw: Option<String>,
    /// The wall at a cut end
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) wall: Vec<String>,
    /// Temperature of the pipe wall, as 95F or 35C
    #[arg(
        long,
        value_name = "T",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) temp: Option<String>,
    /// Your own standard deviation of each reading
    #[arg(
        long,
        value_name = "L",
        help_heading = "Readings",
        allow_hyphen_values = true
    )]
    pub(crate) u: Option<String>,
    /// Whether the pipe is buried, so that it may be squashed
    #[arg(
        long,
        value_name = "yes|no",
        default_value = "yes",
        help_heading = "Readings"
    )]
    pub(crate) buried: YesNo,
    /// Whether both sides can be reached, so that a tape goes around at once
    #[arg(
        long,
        value_name = "yes|no",
        default_value = "no",
        help_heading = "Readings"
    )]
    pub(crate) dug: YesNo,
    /// Whether there is a cut end, so that the wall can be read [yes where --wall is given]
    #[arg(
        long,
        value_name = "yes|no",
        default_value = "no",
        help_heading = "Readings"
    )]
    pub(crate) cut_end: YesNo,
    /// Where the pipe lies, as far as it tells what is common there
    #[arg(long, default_value = "unknown", help_heading = "Clues")]
    pub(crate) site: SiteArg,
    /// What plans or as-built records name: a family key, and a size if they do, as c900:6
    #[arg(long, value_name = "FAMILY[:SIZE]", help_heading = "Clues")]
    pub(crate) plans: Option<String>,
    /// What is printed on it, as far as it can be read; dots or question marks for what cannot
    #[arg(long, value_name = "TEXT", help_heading = "Clues")]
    pub(crate) print: Option<String>,
    /// Key and answer of each clue of the tables that was given; its options are added when the tables are read.
    #[arg(skip)]
    pub(crate) told: Vec<(String, String)>,
    /// A check that cannot be made here, so that it is not proposed
    #[arg(long, value_name = "CHECK", help_heading = "Clues")]
    pub(crate) cannot: Vec<String>,
    /// What is to be bought [a coupling, a saddle and what holds them]
    #[arg(long, help_heading = "Job")]
    pub(crate) job: Option<JobArg>,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown", help_heading = "Job")]
    pub(crate) owner: OwnerArg,
    /// Ask for the check that would settle it, and go on with its answer
    #[arg(long, help_heading = "Output", conflicts_with = "json")]
    pub(crate) ask: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long, help_heading = "Output")]
    pub(crate) json: bool,
    /// Show the terms behind the answer, each with its source and grade
    #[arg(long, help_heading = "Output")]
    pub(crate) explain: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in", help_heading = "Output")]
    pub(crate) units: UnitsArg,
}

/// A known pipe, and what is asked about it.
#[derive(Args, Clone)]
pub(crate) struct FitsArgs {
    /// Key of the family, such as c900
    pub(crate) family: String,
    /// Nominal size, such as 6 or 1-1/2; or an OD that was measured, with its unit and a decimal point, as 6.9in
    pub(crate) size: String,
    /// Class as printed, such as "DR 18" [any class of this size]
    #[arg(long, value_name = "CLASS")]
    pub(crate) class: Option<String>,
    /// How the end of the pipe looks
    #[arg(long, value_name = "FORM", default_value = "plain-square")]
    pub(crate) end: EndArg,
    /// What is to be done [everything that goes on it]
    #[arg(long)]
    pub(crate) job: Option<FitsJobArg>,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown")]
    pub(crate) owner: OwnerArg,
    /// Key of one part, to be told everything about it
    #[arg(long, value_name = "KEY")]
    pub(crate) part: Option<String>,
    /// Size of the outlet or branch that is wanted, as 2 or 1-1/2 [to be told to the counter]
    #[arg(long, value_name = "SIZE", conflicts_with = "angle")]
    pub(crate) outlet: Option<String>,
    /// Degrees of the bend that is wanted, as 45 or 22-1/2 [to be told to the counter]
    #[arg(long, value_name = "DEG")]
    pub(crate) angle: Option<String>,
    /// The range stamped on a coupling, a clamp or a saddle, to be held against this pipe
    #[arg(long, value_name = "LOW-HIGH", allow_hyphen_values = true)]
    pub(crate) range: Option<String>,
    /// Show why, with source and grade, and what does not go
    #[arg(long)]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long)]
    pub(crate) json: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in")]
    pub(crate) units: UnitsArg,
}

/// Two pipe ends that are to be one line.
#[derive(Args, Clone)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of the command"
)]
pub(crate) struct TieArgs {
    /// The first end: its family and size; then, in any order, its class, how it looks, whether it can be moved along its line,
    /// and whether what is on it stays, as c900:8:DR18:plain-square:fixed [any class, plain-square, fixed]
    #[arg(value_name = "FAMILY:SIZE[:CLASS][:FORM][:free|fixed][:keep]")]
    pub(crate) from: String,
    /// The second end, likewise
    #[arg(value_name = "FAMILY:SIZE[:CLASS][:FORM][:free|fixed][:keep]")]
    pub(crate) to: String,
    /// How far the ends are out of each other's line, to the side or in grade, where they are parallel [within an inch]
    #[arg(long, value_name = "L", conflicts_with = "angle")]
    pub(crate) offset: Option<String>,
    /// How many degrees the second end points away from the line of the first, where the two lines meet
    #[arg(long, value_name = "DEG")]
    pub(crate) angle: Option<String>,
    /// Water must be back in this time, as 4h or 2d: what cannot be got or does not cure by then comes last
    #[arg(long, value_name = "TIME")]
    pub(crate) back_in: Option<String>,
    /// It cannot be got dry: nothing is glued, fused or soldered
    #[arg(long, conflicts_with = "dry")]
    pub(crate) wet: bool,
    /// It can be got dry and kept so: what is glued, fused or soldered is ranked as anything else
    #[arg(long)]
    pub(crate) dry: bool,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown")]
    pub(crate) owner: OwnerArg,
    /// Show why, with source and grade, what must not hold it, and every caution in full
    #[arg(long)]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long)]
    pub(crate) json: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in")]
    pub(crate) units: UnitsArg,
}

/// How an end may look.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum EndArg {
    PlainBevelled,
    PlainSquare,
    Belled,
    Grooved,
    Threaded,
    Flanged,
}

impl From<EndArg> for Form {
    fn from(end: EndArg) -> Self {
        match end {
            EndArg::PlainBevelled => Self::PlainBevelled,
            EndArg::PlainSquare => Self::PlainSquare,
            EndArg::Belled => Self::Belled,
            EndArg::Grooved => Self::Grooved,
            EndArg::Threaded => Self::Threaded,
            EndArg::Flanged => Self::Flanged,
        }
    }
}

/// What may be done to a known pipe. The words of `read --job` mean the same.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FitsJobArg {
    #[value(alias = "coupling")]
    Repair,
    #[value(aliases = ["saddle", "tap", "branch"])]
    Outlet,
    #[value(aliases = ["valve", "meter"])]
    Equipment,
    #[value(alias = "direction")]
    Turn,
    Road,
    #[value(alias = "length")]
    Join,
    /// What holds each joint, and no parts.
    Restraint,
}

impl FitsJobArg {
    /// The task that it is; none for restraint, which is about every joint.
    pub(crate) const fn task(self) -> Option<Task> {
        Some(match self {
            Self::Repair => Task::Repair,
            Self::Outlet => Task::Outlet,
            Self::Equipment => Task::Equipment,
            Self::Turn => Task::Turn,
            Self::Road => Task::Road,
            Self::Join => Task::Join,
            Self::Restraint => return None,
        })
    }
}

impl From<OwnerArg> for Owner {
    fn from(owner: OwnerArg) -> Self {
        match owner {
            OwnerArg::Ours => Self::Ours,
            OwnerArg::Purveyor => Self::Purveyor,
            OwnerArg::Unknown => Self::Unknown,
        }
    }
}

/// `yes` or `no`.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum YesNo {
    Yes,
    No,
}

/// Kinds of site.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SiteArg {
    Irrigation,
    Municipal,
    Unknown,
}

/// What may be bought.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum JobArg {
    Saddle,
    Coupling,
    Length,
    Restraint,
    Tap,
}

impl From<JobArg> for Job {
    fn from(job: JobArg) -> Self {
        match job {
            JobArg::Saddle => Self::Saddle,
            JobArg::Coupling => Self::Coupling,
            JobArg::Length => Self::Length,
            JobArg::Restraint => Self::Restraint,
            JobArg::Tap => Self::Tap,
        }
    }
}

/// Whose a pipe may be.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum OwnerArg {
    Ours,
    Purveyor,
    Unknown,
}

/// Units of length.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsArg {
    In,
    Mm,
}

impl From<UnitsArg> for Unit {
    fn from(units: UnitsArg) -> Self {
        match units {
            UnitsArg::In => Self::Inch,
            UnitsArg::Mm => Self::Millimetre,
        }
    }
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
