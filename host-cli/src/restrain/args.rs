//! The arguments of `springline restrain`, as typed.

use clap::{Args, ValueEnum};
use springline_core::thrust::Trench;

use crate::cli::{OwnerArg, UnitsArg};

/// A fitting on a known pipe, and where it lies.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option of its own"
)]
#[derive(Args, Clone)]
pub(crate) struct RestrainArgs {
    /// Key of the family, such as c900
    pub(crate) family: String,
    /// Nominal size, such as 6 or 1-1/2; or an OD that was measured, with its unit and a decimal point, as 6.9in
    pub(crate) size: String,
    /// What turns, ends, branches or narrows the line
    pub(crate) fitting: FittingArg,
    /// Class as printed, such as "DR 18" [any class of this size]
    #[arg(long, value_name = "CLASS")]
    pub(crate) class: Option<String>,
    /// Change of direction of a bend, or of each bend of an offset
    #[arg(
        long,
        value_name = "DEGREES",
        default_value = "90",
        help_heading = "Fitting"
    )]
    pub(crate) angle: String,
    /// Size of the branch of a tee or wye; FAMILY:SIZE where it is of another family
    #[arg(long, value_name = "SIZE", help_heading = "Fitting")]
    pub(crate) branch: Option<String>,
    /// The angle between the two branches of an even wye
    #[arg(long, value_name = "DEGREES", help_heading = "Fitting")]
    pub(crate) between: Option<String>,
    /// Size that a reducer leads to
    #[arg(long, value_name = "SIZE", help_heading = "Fitting")]
    pub(crate) to: Option<String>,
    /// How much deeper an offset takes the line [it lies level]
    #[arg(long, value_name = "L", help_heading = "Fitting")]
    pub(crate) drop: Option<String>,
    /// Length of run between the first joints on both sides of a tee, where BOTH are restrained; nothing is credited without
    #[arg(long, value_name = "L", help_heading = "Fitting")]
    pub(crate) run_restrained: Option<String>,
    /// A valve that is or may be shut, this far from the fitting on the line
    #[arg(
        long,
        value_name = "L",
        help_heading = "Line",
        conflicts_with = "dead_end"
    )]
    pub(crate) valve: Option<String>,
    /// A dead end, this far from the fitting on the line
    #[arg(long, value_name = "L", help_heading = "Line")]
    pub(crate) dead_end: Option<String>,
    /// The same on the other side of the fitting: the small side of a reducer, the lower line of an offset
    #[arg(
        long,
        value_name = "L",
        help_heading = "Line",
        conflicts_with = "far_dead_end"
    )]
    pub(crate) far_valve: Option<String>,
    /// A dead end on the other side, this far from the fitting
    #[arg(long, value_name = "L", help_heading = "Line")]
    pub(crate) far_dead_end: Option<String>,
    /// A valve that is or may be shut, this far out on the branch
    #[arg(
        long,
        value_name = "L",
        help_heading = "Line",
        conflicts_with = "branch_dead_end"
    )]
    pub(crate) branch_valve: Option<String>,
    /// A dead end, this far out on the branch
    #[arg(long, value_name = "L", help_heading = "Line")]
    pub(crate) branch_dead_end: Option<String>,
    /// Length of a stick [by the family: PVC and PIP 20 ft, iron 18 ft]
    #[arg(long, value_name = "L", help_heading = "Line")]
    pub(crate) stick: Option<String>,
    /// How the pipe is joined [gasket, or fused for HDPE]
    #[arg(long, help_heading = "Line")]
    pub(crate) joints: Option<JointsArg>,
    /// Iron in polyethylene wrap
    #[arg(long, help_heading = "Line")]
    pub(crate) wrapped: bool,
    /// Temperature of the pipe wall, as 95F or 35C: what heat leaves of the class [73F, at which pipe is rated]
    #[arg(
        long,
        value_name = "T",
        allow_hyphen_values = true,
        help_heading = "Pressure"
    )]
    pub(crate) temp: Option<String>,
    /// The highest pressure that this point sees, where it is known as such
    #[arg(long, value_name = "P", help_heading = "Pressure")]
    pub(crate) pressure: Option<String>,
    /// The pump against a shut valve, at the pump
    #[arg(long, value_name = "P", help_heading = "Pressure")]
    pub(crate) shutoff: Option<String>,
    /// The line at rest, where the gauge is
    #[arg(long = "static", value_name = "P", help_heading = "Pressure")]
    pub(crate) at_rest: Option<String>,
    /// How far this point lies below pump or gauge
    #[arg(
        long,
        value_name = "L",
        help_heading = "Pressure",
        conflicts_with = "above"
    )]
    pub(crate) below: Option<String>,
    /// How far it lies above
    #[arg(long, value_name = "L", help_heading = "Pressure")]
    pub(crate) above: Option<String>,
    /// Behind a pressure regulator that has failed open, at this point
    #[arg(long, value_name = "P", help_heading = "Pressure")]
    pub(crate) failed_open: Option<String>,
    /// Working pressure at this point
    #[arg(long, value_name = "P", help_heading = "Pressure")]
    pub(crate) working: Option<String>,
    /// Surge on top of the working pressure
    #[arg(
        long,
        value_name = "P",
        help_heading = "Pressure",
        requires = "working"
    )]
    pub(crate) surge: Option<String>,
    /// The test that will be run, at this point
    #[arg(long, value_name = "P", help_heading = "Pressure")]
    pub(crate) test: Option<String>,
    /// Soil in plain words, such as sand or clay, or a row of the tables
    #[arg(
        long,
        value_name = "WORD",
        default_value = "unknown",
        help_heading = "Ground"
    )]
    pub(crate) soil: String,
    /// Cover: from grade to the top of the pipe
    #[arg(long, value_name = "L", help_heading = "Ground")]
    pub(crate) depth: String,
    /// How the pipe is laid [the poorest that the soil has]
    #[arg(long, help_heading = "Ground")]
    pub(crate) trench: Option<TrenchArg>,
    /// Whether backfill is in, compacted, when water comes back; taken as open
    #[arg(long, help_heading = "Ground")]
    pub(crate) backfill: Option<BackfillArg>,
    /// Below groundwater
    #[arg(long, help_heading = "Ground")]
    pub(crate) water: bool,
    /// Ask for a thrust block
    #[arg(long, value_name = "WHAT", num_args = 0..=1, default_missing_value = "whole", help_heading = "Block")]
    pub(crate) block: Option<BlockArg>,
    /// Table of soil bearing: nrcs (which is taken), handbook or trade
    #[arg(long, value_name = "TABLE", help_heading = "Block")]
    pub(crate) bearing: Option<String>,
    /// How long the owner lets concrete cure [7 days]
    #[arg(
        long,
        value_name = "TIME",
        help_heading = "Block",
        conflicts_with = "fast_mix"
    )]
    pub(crate) cure: Option<String>,
    /// Fast-setting mix
    #[arg(long, help_heading = "Block")]
    pub(crate) fast_mix: bool,
    /// When water must be back, counted from the pour
    #[arg(long, value_name = "TIME", help_heading = "Block")]
    pub(crate) back_in: Option<String>,
    /// The ground behind it is fill, or was dug before
    #[arg(long, help_heading = "Block")]
    pub(crate) fill: bool,
    /// An open cut or an old trench this far behind it
    #[arg(long, value_name = "L", help_heading = "Block")]
    pub(crate) cut_behind: Option<String>,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown", help_heading = "Output")]
    pub(crate) owner: OwnerArg,
    /// Show every constant with source and grade, what must not hold a joint, and every caution in full
    #[arg(long, help_heading = "Output")]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long, help_heading = "Output")]
    pub(crate) json: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in", help_heading = "Output")]
    pub(crate) units: UnitsArg,
}

/// Where a line is off balance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FittingArg {
    /// A bend on the level
    Bend,
    /// A bend that turns the line up: thrust goes down
    BendUp,
    /// A bend that turns the line down: thrust goes up
    BendDown,
    /// Two equal bends, over and on
    Offset,
    /// A branch at right angles; a cross is one on either side
    #[value(alias = "cross")]
    Tee,
    /// A branch at a slant
    Wye,
    /// A fork into two branches of one size, --between them
    EvenWye,
    /// A step to smaller pipe
    Reducer,
    /// A cap, plug, blind flange, hydrant or blow-off
    #[value(aliases = ["cap", "plug", "hydrant"])]
    DeadEnd,
    /// A valve in the line
    Valve,
}

/// How sticks are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum JointsArg {
    Gasket,
    #[value(alias = "glued")]
    Solvent,
    Fused,
    Welded,
}

/// How a pipe lies in its trench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum TrenchArg {
    /// Type 2: flat bottom, backfill lightly consolidated to the middle of the pipe
    #[value(alias = "2")]
    Light,
    /// Type 3: bedded in loose soil, lightly consolidated to the top
    #[value(alias = "3")]
    Bedded,
    /// Type 4: bedded in sand or stone, compacted to the top
    #[value(alias = "4")]
    Granular,
    /// Type 5: compacted granular to the middle of the pipe
    #[value(alias = "5")]
    Compacted,
}

impl From<TrenchArg> for Trench {
    fn from(trench: TrenchArg) -> Self {
        match trench {
            TrenchArg::Light => Self::Light,
            TrenchArg::Bedded => Self::Bedded,
            TrenchArg::Granular => Self::Granular,
            TrenchArg::Compacted => Self::Compacted,
        }
    }
}

/// Whether backfill is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum BackfillArg {
    Open,
    Done,
}

/// How much of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum BlockArg {
    Whole,
    /// With half the restraint: refused
    Half,
}
