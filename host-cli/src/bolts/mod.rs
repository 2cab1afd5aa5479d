//! `springline bolts`: the bolts of a flange or a mechanical joint, their wrench, torque and order.

pub(crate) mod brief;
mod flange;
mod mechanical;
mod render;
mod text;
pub(crate) mod words;

use anyhow::{Result, anyhow, bail};
use clap::{Args, ValueEnum};
use sha2::{Digest, Sha256};
use springline_compiler::model::NominalSize;
use springline_compiler::notes::Notes;
use springline_core::assembly::Nominal;
use springline_core::image::{Image, Material, Row, Set};
use springline_core::joint::{Act, Doing, Owner, Task};
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use crate::cli::UnitsArg;
use crate::fits::caution::{Due, due};
use crate::format;
use flange::FlangeSaid;
use mechanical::MechanicalSaid;

/// A joint with bolts, and what is asked about it.
#[derive(Args, Clone)]
pub(crate) struct BoltsArgs {
    /// What is bolted
    pub(crate) joint: BoltedArg,
    /// Nominal size, such as 8
    pub(crate) size: String,
    /// Class of the flanges: 125 (iron), 150 (steel) and 250, 300; two with a comma between them where they differ
    #[arg(
        long,
        value_name = "CLASS,CLASS",
        default_value = "125",
        value_delimiter = ',',
        help_heading = "Flanges"
    )]
    pub(crate) class: Vec<String>,
    /// What the two flanges are made of, as iron,pvc; the weaker governs
    #[arg(
        long,
        value_name = "OF,OF",
        default_value = "iron",
        value_delimiter = ',',
        help_heading = "Flanges"
    )]
    pub(crate) flanges: Vec<BodyArg>,
    /// Their faces, as flat,raised; not told is taken as flat
    #[arg(
        long,
        value_name = "FACE,FACE",
        value_delimiter = ',',
        help_heading = "Flanges"
    )]
    pub(crate) faces: Vec<FaceArg>,
    /// The gasket: without it there is no torque
    #[arg(long, default_value = "unknown", help_heading = "Flanges")]
    pub(crate) gasket: GasketArg,
    /// How thick the gasket is, such as 1/8in
    #[arg(long, value_name = "L", help_heading = "Flanges")]
    pub(crate) gasket_thick: Option<String>,
    /// Washers on each bolt
    #[arg(long, value_name = "COUNT", default_value_t = 0, value_parser = clap::value_parser!(u8).range(0..=4), help_heading = "Flanges")]
    pub(crate) washers: u8,
    /// How thick each flange measures, with a raised face and a loose ring behind it: as 1-1/8in,1-1/2in
    #[arg(
        long,
        value_name = "L,L",
        value_delimiter = ',',
        help_heading = "Flanges"
    )]
    pub(crate) thick: Vec<String>,
    /// What stands between the flanges
    #[arg(long, default_value = "nothing", help_heading = "Flanges")]
    pub(crate) between: BetweenArg,
    /// How thick that is, as it measures
    #[arg(long, value_name = "L", help_heading = "Flanges")]
    pub(crate) body: Option<String>,
    /// How the bolts are
    #[arg(long, default_value = "dry", help_heading = "Flanges")]
    pub(crate) bolts: BoltArg,
    /// A restraint gland is on the mechanical joint
    #[arg(long, help_heading = "Mechanical joint")]
    pub(crate) restraint: bool,
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

/// What may be bolted.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BoltedArg {
    Flange,
    Mj,
}

/// What a flange may be made of.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BodyArg {
    Iron,
    Steel,
    Bronze,
    Pvc,
    Hdpe,
}

impl BodyArg {
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Iron => "iron",
            Self::Steel => "steel",
            Self::Bronze => "bronze",
            Self::Pvc => "PVC",
            Self::Hdpe => "HDPE",
        }
    }

    /// The tables' thickness is that of such a flange.
    const fn is_listed(self) -> bool {
        matches!(self, Self::Iron | Self::Steel)
    }
}

/// How the face of a flange may look.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FaceArg {
    Flat,
    Raised,
}

/// Gaskets.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum GasketArg {
    /// Full-face rubber, below 70 Shore A.
    Rubber,
    /// Compressed sheet.
    Sheet,
    Unknown,
}

/// What may stand between two flanges.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BetweenArg {
    Nothing,
    /// A lug butterfly valve: cap screws from each side.
    Lug,
    /// A wafer valve: studs through both flanges.
    Wafer,
    /// A filler or spacer.
    Filler,
}

/// How bolts may be.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BoltArg {
    /// Steel of grade 5 or better, dry.
    Dry,
    /// The same, oiled.
    Oiled,
    /// Stainless, with anti-seize.
    Stainless,
}

/// What is said of either.
enum Bolted {
    Flange(Box<FlangeSaid>),
    Mechanical(Box<MechanicalSaid>),
}

/// Answers which bolts it takes.
pub(crate) fn run(args: &BoltsArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let size = nominal(&args.size)?;
    let end = match args.joint {
        BoltedArg::Flange => "flange",
        BoltedArg::Mj => "mj",
    };
    let bolted = match args.joint {
        BoltedArg::Flange => Bolted::Flange(Box::new(FlangeSaid::of(&image, &notes, size, args)?)),
        BoltedArg::Mj => {
            Bolted::Mechanical(Box::new(MechanicalSaid::of(&image, &notes, size, args)?))
        }
    };
    let cautions = cautions(&image, &notes, end);
    let no = matches!(&bolted, Bolted::Flange(said) if said.refused.is_some());
    let text = if args.json {
        render::json(&bolted, &cautions)
    } else {
        text::text(&bolted, &cautions, args)
    };
    Ok(Said { text, no })
}

/// A nominal size in inches.
fn nominal(text: &str) -> Result<Nominal> {
    let spelled = format::spelled(text);
    match NominalSize::parse(&spelled) {
        Some(NominalSize::Inch(parts)) => u16::try_from(parts)
            .ok()
            .and_then(Nominal::of_measure)
            .ok_or_else(|| anyhow!("no joint of {spelled} in is in the tables\n  try: a nominal size, as 8 or 2-1/2")),
        Some(_) => bail!(
            "\"{spelled}\" is metric: such flanges are drilled by PN and such joints are others; the tables have none\n  \
             try: count the bolts, measure circle and hole, or the size in inches if it is stamped with a class"
        ),
        None => bail!("\"{text}\" is no nominal size\n  try: 8 or 2-1/2"),
    }
}

/// What could hurt somebody who bolts: of a joint that is in no trench of ours in particular, and so of water in iron.
fn cautions(image: &Image<'_>, notes: &Notes, end: &str) -> Vec<Due> {
    let iron =
        |row: &Row| Material::from_code(image.family(row.family).material) == Some(Material::Iron);
    let Some(row) = image.rows_from(0).find(iron) else {
        return Vec::new();
    };
    let ends = notes.joints.ends.iter().position(|key| key == end);
    let ends = Set(ends.map_or(0, |at| 1 << at));
    let doing = Doing::new(Act::Bolt, ends, [Task::Join]);
    due(image, notes, &[row], Owner::Ours, doing)
}
