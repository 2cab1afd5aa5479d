//! What `fits` and `tie-in` take.

use clap::{Args, ValueEnum};
use springline_core::joint::{Form, Task};

use super::{OwnerArg, UnitsArg};

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
