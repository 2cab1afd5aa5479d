//! What `read` takes.

use clap::Args;

use super::{JobArg, OwnerArg, SiteArg, UnitsArg, YesNo};

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
