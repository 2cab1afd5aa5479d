//! `springline cut`: how long a piece is, for damage that is cut out or to close a gap.

pub(crate) mod closure;
mod damage;
pub(crate) mod meeting;

use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use springline_compiler::notes::WhenNote;
use springline_core::cut::Kind;
use springline_core::joint::Act;

use super::pipe::{Pipe, PipeArgs};
use super::report::{Doings, Report};
use super::tables;
use crate::Said;

/// Damage to be cut out, or a gap to be closed.
#[derive(Args, Clone)]
pub(crate) struct CutArgs {
    #[command(flatten)]
    pipe: PipeArgs,
    /// Damage as far as it shows, along the pipe
    #[arg(
        long,
        value_name = "L",
        help_heading = "Damage",
        conflicts_with = "opening"
    )]
    damage: Option<String>,
    /// What is wrong
    #[arg(long, help_heading = "Damage", conflicts_with = "opening")]
    kind: Option<KindArg>,
    /// How deep the gouge is
    #[arg(long, value_name = "L", help_heading = "Damage", requires = "kind")]
    gouge: Option<String>,
    /// Whether iron or steel is sound all round the damage, scraped and looked at
    #[arg(
        long,
        value_name = "yes|no",
        help_heading = "Damage",
        requires = "kind"
    )]
    sound: Option<crate::cli::YesNo>,
    /// The gap: from what stays on one side to what stays on the other, lip to lip, end to end or face to face; the lesser of
    /// two readings a quarter turn apart
    #[arg(long, value_name = "L", help_heading = "Gap")]
    opening: Option<String>,
    /// What the piece meets on the first side
    #[arg(
        long,
        value_name = "END",
        help_heading = "Gap",
        default_value = "plain"
    )]
    from: MeetArg,
    /// What it meets on the second side; with a part and one piece, what the part meets there
    #[arg(
        long,
        value_name = "END",
        help_heading = "Gap",
        default_value = "plain"
    )]
    to: MeetArg,
    /// Lip to stop of the bell on the first side, measured
    #[arg(long, value_name = "L", help_heading = "Gap")]
    from_depth: Option<String>,
    /// Lip to stop of the bell on the second side, measured
    #[arg(long, value_name = "L", help_heading = "Gap")]
    to_depth: Option<String>,
    /// Gap left under a coupling or before a stop, at each end [as the tables have it]
    #[arg(long, value_name = "L", help_heading = "Gap")]
    gap: Option<String>,
    /// A part in the gap: one whose length a standard fixes, or a key of springline fits
    #[arg(long, value_name = "KEY", help_heading = "Gap", requires = "opening")]
    part: Option<String>,
    /// Laying length of the part in hand: from where one pipe stops in it to where the other does, or face to face
    #[arg(long, value_name = "L", help_heading = "Gap", requires = "opening")]
    lay: Option<String>,
    /// Whether the part has flanges [as the tables have it, else no]
    #[arg(long, value_name = "yes|no", help_heading = "Gap")]
    flanged: Option<crate::cli::YesNo>,
    /// Pieces: two where the part comes between them
    #[arg(long, value_name = "N", help_heading = "Gap", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=2))]
    pieces: u8,
    /// Temperature of the pipe when it is cut, as 95F or 35C; with --service, what it moves
    #[arg(
        long,
        value_name = "T",
        help_heading = "Gap",
        allow_hyphen_values = true
    )]
    temp: Option<String>,
    /// Temperature of the pipe in service
    #[arg(
        long,
        value_name = "T",
        help_heading = "Gap",
        allow_hyphen_values = true
    )]
    service: Option<String>,
}

/// What may be wrong.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum KindArg {
    /// A crack along the pipe.
    Split,
    /// A hole.
    Hole,
    /// A break all the way round.
    #[value(alias = "round-break")]
    Break,
    /// A gouge.
    Gouge,
    /// A bell that split or blew.
    BlownBell,
}

impl From<KindArg> for Kind {
    fn from(told: KindArg) -> Self {
        match told {
            KindArg::Split => Self::Split,
            KindArg::Hole => Self::Hole,
            KindArg::Break => Self::RoundBreak,
            KindArg::Gouge => Self::Gouge,
            KindArg::BlownBell => Self::BlownBell,
        }
    }
}

/// What a piece may meet.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MeetArg {
    /// A plain end, under a coupling or sleeve without a stop.
    Plain,
    /// A mechanical joint.
    Mj,
    /// A gasket bell or push-on, whose depth is measured.
    Bell,
    /// A socket for glue, Sch 40.
    #[value(name = "solvent-40")]
    Solvent40,
    /// A socket for glue, Sch 80.
    #[value(name = "solvent-80")]
    Solvent80,
    /// A flange.
    Flange,
    /// A centre line that the opening is measured to.
    Centre,
}

/// Answers how long a piece is.
pub(crate) fn run(args: &CutArgs) -> Result<Said> {
    let (image, notes) = tables()?;
    let pipe = Pipe::find(&image, &notes, &args.pipe)?;
    let mut report = Report::new("springline-cut/1");
    if pipe.refused.is_none() {
        match (&args.opening, args.kind) {
            (Some(_), _) => closure::add(&pipe, args, &mut report)?,
            (None, Some(kind)) => damage::add(&pipe, args, kind, &mut report)?,
            (None, None) => bail!(
                "what is cut?\n  try: --damage 10ft --kind split, or --opening 36in --from mj --to plain"
            ),
        }
    }
    let site = [WhenNote::Cut];
    let doings = Doings {
        site: &site,
        depth: 0.0,
        acts: &[Act::Cut],
        at_a_desk: false,
    };
    report.caution(&pipe, &doings);
    Ok(report.said(&pipe))
}
