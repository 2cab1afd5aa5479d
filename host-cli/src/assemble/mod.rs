//! `springline assemble`: how a joint is made up on a known pipe.

pub(crate) mod brief;
mod depth;
mod made;
mod render;
mod text;
mod times;
mod turning;

use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use crate::cli::{OwnerArg, UnitsArg, YesNo};
use made::Made;

/// A known pipe, a joint on it, and what is known of the day.
#[derive(Args, Clone)]
pub(crate) struct AssembleArgs {
    /// Key of the family, such as c900
    pub(crate) family: String,
    /// Nominal size, such as 6 or 1-1/2; or an OD that was measured, with its unit and a decimal point, as 6.9in
    pub(crate) size: String,
    /// Class as printed, such as "DR 18" [any class of this size]
    #[arg(long, value_name = "CLASS")]
    pub(crate) class: Option<String>,
    /// The joint to be made up
    #[arg(long)]
    pub(crate) joint: MadeArg,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown")]
    pub(crate) owner: OwnerArg,
    /// How many such joints, for lubricant or cement
    #[arg(long, value_name = "COUNT", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..))]
    pub(crate) joints: u16,
    /// Depth of the bell in hand from its lip to its stop, for the mark
    #[arg(long, value_name = "L", help_heading = "Depth")]
    pub(crate) bell: Option<String>,
    /// A restraint is on the joint
    #[arg(long, help_heading = "Turning")]
    pub(crate) restraint: bool,
    /// Length of a stick [by the family]
    #[arg(long, value_name = "L", help_heading = "Turning")]
    pub(crate) stick: Option<String>,
    /// By how much this joint is to be turned, to be held against what is allowed
    #[arg(long, value_name = "DEGREES", help_heading = "Turning")]
    pub(crate) angle: Option<String>,
    /// By how much the line is to turn, for the count of joints
    #[arg(long, value_name = "DEGREES", help_heading = "Turning")]
    pub(crate) turn: Option<String>,
    /// Temperature of pipe and air now, as 45F
    #[arg(
        long,
        value_name = "T",
        help_heading = "Temperature",
        allow_hyphen_values = true
    )]
    pub(crate) temp: Option<String>,
    /// Temperature that the line will have in service, as 55F
    #[arg(
        long,
        value_name = "T",
        help_heading = "Temperature",
        allow_hyphen_values = true
    )]
    pub(crate) runs: Option<String>,
    /// Length that is free to move, for how much it does
    #[arg(long, value_name = "L", help_heading = "Temperature")]
    pub(crate) length: Option<String>,
    /// Whether air or joint are wet: glue then takes half as long again
    #[arg(
        long,
        value_name = "yes|no",
        default_value = "yes",
        help_heading = "Glue"
    )]
    pub(crate) wet: YesNo,
    /// The most pressure that comes on it, test and surge included, as 150psi
    #[arg(long, value_name = "P", help_heading = "Glue")]
    pub(crate) pressure: Option<String>,
    /// Show sources and grades, and every caution in full
    #[arg(long, help_heading = "Output")]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long, help_heading = "Output")]
    pub(crate) json: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in", help_heading = "Output")]
    pub(crate) units: UnitsArg,
}

/// Joints that may be made up.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MadeArg {
    /// A gasket bell of PVC.
    Bell,
    /// A push-on bell of iron.
    PushOn,
    /// A mechanical joint.
    Mj,
    /// A solvent socket.
    #[value(alias = "glue")]
    Solvent,
}

impl MadeArg {
    /// Its word in the tables.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Bell => "bell",
            Self::PushOn => "push-on",
            Self::Mj => "mj",
            Self::Solvent => "solvent",
        }
    }

    /// The joint ends of the tables that are such.
    pub(crate) const fn ends(self) -> &'static [&'static str] {
        match self {
            Self::Bell => &["bell-ips", "bell-ciod", "bell-pip"],
            Self::PushOn => &["push-ciod", "push-ips"],
            Self::Mj => &["mj", "mj-transition"],
            Self::Solvent => &["solvent-40", "solvent-80", "solvent-pip"],
        }
    }
}

/// Answers how it is made up.
pub(crate) fn run(args: &AssembleArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let made = Made::of(&image, &notes, args)?;
    let text = if args.json {
        render::json(&made)
    } else {
        text::text(&made, args)
    };
    Ok(Said {
        text,
        no: made.refused.is_some() || made.no.is_some(),
    })
}
