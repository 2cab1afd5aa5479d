//! The arguments of `springline pick`, as typed.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use crate::cli::{OwnerArg, SiteArg, UnitsArg, YesNo};
use crate::share::Shared;

/// A job, its pipes, and what is known of the site.
#[derive(Args, Clone)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of the command"
)]
pub(crate) struct PickArgs {
    /// The job, and the pipes: a family and its size, or FAMILY:SIZE:CLASS as tie-in takes it; "or" between pipes that are
    /// not told apart yet; a second end, a branch or a carrier behind them
    #[arg(value_name = "JOB and PIPES", required = true, num_args = 1..)]
    pub(crate) words: Vec<String>,
    /// Class of the first pipe as printed, such as "SDR 21"
    #[arg(long, value_name = "CLASS")]
    pub(crate) class: Option<String>,
    /// A caliper across the pipe, where nobody knows yet what it is
    #[arg(long, value_name = "L[@HOUR]", help_heading = "Readings")]
    pub(crate) dia: Vec<String>,
    /// A steel tape around it
    #[arg(long, alias = "tape", value_name = "L", help_heading = "Readings")]
    pub(crate) around: Vec<String>,
    /// A tape graduated in diameters
    #[arg(long, value_name = "L", help_heading = "Readings")]
    pub(crate) dia_tape: Vec<String>,
    /// What is printed on it
    #[arg(long, value_name = "TEXT", help_heading = "Readings")]
    pub(crate) print: Option<String>,
    /// What plans name: a family key, and a size if they do
    #[arg(long, value_name = "FAMILY[:SIZE]", help_heading = "Readings")]
    pub(crate) plans: Option<String>,
    /// Where it lies
    #[arg(long, default_value = "unknown", help_heading = "Readings")]
    pub(crate) site: SiteArg,
    /// Clues of the tables that were told; their options are added when the tables are read.
    #[arg(skip)]
    pub(crate) told: Vec<(String, String)>,
    /// How long the damage is
    #[arg(long, value_name = "L", help_heading = "Site")]
    pub(crate) damage: Option<String>,
    /// Whether it can be got dry
    #[arg(long, value_name = "yes|no", help_heading = "Site")]
    pub(crate) dry: Option<YesNo>,
    /// When water must be back, as 8h or "2 days"
    #[arg(long, value_name = "T", help_heading = "Site")]
    pub(crate) back_in: Option<String>,
    /// Temperature of the pipe
    #[arg(
        long,
        value_name = "T",
        help_heading = "Site",
        allow_hyphen_values = true
    )]
    pub(crate) temp: Option<String>,
    /// How far from the cut the shut valve is
    #[arg(
        long,
        value_name = "L",
        help_heading = "Site",
        conflicts_with = "dead_end"
    )]
    pub(crate) valve: Option<String>,
    /// How many control wires were cut; 0 where there are none
    #[arg(long, value_name = "N", help_heading = "Site")]
    pub(crate) wires: Option<u16>,
    /// What water it is
    #[arg(long, help_heading = "Site")]
    pub(crate) water: Option<WaterArg>,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown", help_heading = "Site")]
    pub(crate) owner: OwnerArg,
    /// Size of an outlet, such as 1-1/2
    #[arg(long, value_name = "SIZE", help_heading = "Job")]
    pub(crate) outlet: Option<String>,
    /// How many control valves a manifold has
    #[arg(long, value_name = "N", help_heading = "Job")]
    pub(crate) valves: Option<u16>,
    /// How long a road sleeve is
    #[arg(long, value_name = "L", help_heading = "Job")]
    pub(crate) length: Option<String>,
    /// Laying length of the parts in hand between the pipes, bolted up on the bank: from where one pipe stops in them to where
    /// the other does
    #[arg(long, value_name = "L", help_heading = "Gap")]
    pub(crate) lay: Option<String>,
    /// It lies below groundwater
    #[arg(long, help_heading = "Ground")]
    pub(crate) groundwater: bool,
    /// Options of `restrain`, `cut`, `dig`, `bolts` and `assemble`.
    #[command(flatten)]
    pub(crate) shared: Shared,
    /// Key of the way to do it, of those that are offered
    #[arg(long, value_name = "KEY", help_heading = "Job")]
    pub(crate) way: Option<String>,
    /// Folder of table sources of your own, instead of the built-in tables
    #[arg(long, value_name = "FOLDER", help_heading = "Job")]
    pub(crate) tables: Option<PathBuf>,
    /// Source and grade of every line, and every caution in full
    #[arg(long, help_heading = "Output")]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long, help_heading = "Output", conflicts_with = "csv")]
    pub(crate) json: bool,
    /// Answer as a table for a spreadsheet
    #[arg(long, help_heading = "Output")]
    pub(crate) csv: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in", help_heading = "Output")]
    pub(crate) units: UnitsArg,
}

/// What water a line carries.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum WaterArg {
    Potable,
    Irrigation,
}
