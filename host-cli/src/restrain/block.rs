//! A thrust block, where one is asked for.

use anyhow::{Result, bail};
use springline_compiler::notes::{BearingNote, BearingTableNote, Notes};
use springline_core::image::Grade;
use springline_core::thrust::block::{Ground, NoBlock, Shape, area, face, gravity};
use springline_core::thrust::{Fitting, Turn};
use springline_core::unit::{Area, Distance, Duration, Force, Pressure, UnitWeight, Volume};

use super::args::BlockArg;
use super::site::{constant, distance};
use super::work::Work;
use crate::fits::sheet::keys;
use crate::parse;

/// What is poured.
pub(super) enum Concrete {
    /// A face against the side of the trench, on the side that the thrust goes to.
    Side(Area, Result<Shape, NoBlock>),
    /// A base on the bed under the fitting, for the part that goes down; and what goes along as a face.
    Under(Area, Area, Result<Shape, NoBlock>),
    /// A weight that hangs under the fitting by straps, and what goes along as a face.
    Weight(Volume, Area, Result<Shape, NoBlock>),
    /// No block was asked for but half of one.
    Half,
}

/// What is said of a block.
pub(super) struct Block {
    pub(super) concrete: Concrete,
    pub(super) table: String,
    pub(super) table_name: String,
    pub(super) remark: String,
    pub(super) factor: f64,
    pub(super) soil: String,
    pub(super) bearing: Pressure,
    pub(super) middle: Distance,
    pub(super) cure: Duration,
    /// Where the cure comes from: the owner, a fast mix, common practice.
    pub(super) cure_by: &'static str,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

impl Block {
    /// Whether it may be reckoned on once it has cured.
    pub(super) fn stands(&self) -> bool {
        match &self.concrete {
            Concrete::Side(_, face)
            | Concrete::Under(_, _, face)
            | Concrete::Weight(_, _, face) => face.is_ok(),
            Concrete::Half => false,
        }
    }
}

/// There is no face behind a fork.
fn forked(fitting: &Fitting) -> Result<()> {
    if matches!(fitting, Fitting::EvenWye { .. }) {
        bail!(
            "no block of an even wye: between its branches the ground was dug, and back along the run there is none\n  try: leave --block out and restrain all three sides"
        );
    }
    Ok(())
}

/// The block of a fitting; `None` where none was asked for.
pub(super) fn block(work: &Work<'_>) -> Result<Option<Block>> {
    let Work {
        image,
        notes,
        args,
        pressure,
        cover,
        ..
    } = *work;
    let (fitting, line, thrust) = (&work.fitting, &work.line, work.force);
    let unit = args.units.into();
    let Some(asked) = args.block else {
        for (told, what) in [
            (args.bearing.is_some(), "--bearing"),
            (args.cure.is_some(), "--cure"),
            (args.fast_mix, "--fast-mix"),
        ] {
            if told {
                bail!("{what} is of a block\n  try: --block beside it");
            }
        }
        return Ok(None);
    };
    forked(fitting)?;
    let table = table(notes, args.bearing.as_deref())?;
    let middle = cover + line.od / 2.0;
    let row = bearing(notes, table, &args.soil, middle)?;
    let (cure, cure_by) = match (&args.cure, args.fast_mix) {
        (Some(text), _) => (parse::duration(text)?, "the owner's"),
        (None, true) => (
            Duration::hours(constant(notes, "cure-fast")),
            "fast mix, common practice",
        ),
        (None, false) => (
            Duration::days(constant(notes, "cure")),
            "common practice, 3 to 7 days",
        ),
    };
    let back = args
        .back_in
        .as_ref()
        .map(|text| parse::duration(text))
        .transpose()?;
    let ground = Ground {
        cover,
        least_cover: Distance::feet(constant(notes, "cover")),
        fill: args.fill,
        cut: distance(args.cut_behind.as_ref(), unit)?,
        reach: constant(notes, "reach"),
        cure,
        back,
    };
    let psf = Pressure::psf(row.psf);
    let factor = table.1.factor;
    let side = |force: Force| {
        let area = area(force, factor, psf);
        (area, face(area, line.od, &ground))
    };
    // A bed bears as far down as the wall does beside it; a weight needs neither a wall nor its depth.
    let concrete = match fitting {
        _ if asked == BlockArg::Half => Concrete::Half,
        Fitting::Bend {
            angle,
            turn: Turn::Up,
        } => {
            let (down, along) = Fitting::upright(pressure, line.area(), *angle);
            let (face_area, face) = side(along);
            Concrete::Under(area(down, factor, psf), face_area, face)
        }
        Fitting::Bend {
            angle,
            turn: Turn::Down,
        } => {
            let (up, along) = Fitting::upright(pressure, line.area(), *angle);
            let constants = image.thrust_constants();
            let weight = UnitWeight::pcf(f64::from(constants.concrete));
            let safety = f64::from(constants.safety) / 100.0;
            let (face_area, face) = side(along);
            Concrete::Weight(gravity(up, safety, weight, args.water), face_area, face)
        }
        _ => {
            let (area, face) = side(thrust);
            Concrete::Side(area, face)
        }
    };
    Ok(Some(Block {
        concrete,
        table: table.1.key.clone(),
        table_name: table.1.name.clone(),
        remark: table.1.remark.clone(),
        factor,
        soil: row.soil.clone(),
        bearing: psf,
        middle,
        cure,
        cure_by,
        sources: keys(notes, Some(&row.cited)),
        grade: Grade::from_code(row.cited.grade),
    }))
}

fn table<'n>(notes: &'n Notes, named: Option<&str>) -> Result<(usize, &'n BearingTableNote)> {
    let mut all = notes.thrust.tables.iter().enumerate();
    let found = match named {
        Some(key) => all.find(|(_, one)| one.key == key),
        None => all.find(|(_, one)| one.default),
    };
    found.ok_or_else(|| {
        let keys: Vec<&str> = notes
            .thrust
            .tables
            .iter()
            .map(|one| one.key.as_str())
            .collect();
        anyhow::anyhow!(
            "no table of bearing \"{}\"\n  try one of: {}",
            named.unwrap_or_default(),
            keys.join(", ")
        )
    })
}

/// What a soil bears at a depth by one table, and no other: the deepest row that is not below it, else the first.
fn bearing<'n>(
    notes: &'n Notes,
    (at, table): (usize, &BearingTableNote),
    word: &str,
    middle: Distance,
) -> Result<&'n BearingNote> {
    let plain = word.trim().to_ascii_lowercase().replace(' ', "-");
    let own = || notes.thrust.bearings.iter().filter(|one| one.table == at);
    let of = |word: &str| {
        let named = own().filter(|one| one.words.iter().any(|held| held == word));
        let named: Vec<&BearingNote> = named.collect();
        let deep = named
            .iter()
            .filter(|one| one.depth <= middle.in_feet() + 1e-9);
        let deepest = deep.max_by(|a, b| a.depth.total_cmp(&b.depth));
        deepest.or(named.first()).copied()
    };
    // A row of the tables by its own name is no soil of this table: the poorest stands for it.
    let found = of(&plain).or_else(|| of("unknown"));
    found.ok_or_else(|| {
        anyhow::anyhow!(
            "{} has no row for soil that nobody knows\n  try: springline tables check",
            table.name
        )
    })
}

/// Why there is none, and what instead.
pub(super) fn why_not(why: NoBlock) -> &'static str {
    match why {
        NoBlock::Cover => {
            "NO BLOCK under so little cover (2 ft, 0.6 m at least): the ground heaves. Restrain."
        }
        NoBlock::Fill => "NO BLOCK: fill, or ground that was dug before, bears nothing. Restrain.",
        NoBlock::Cut => {
            "NO BLOCK: the cut behind it lies within its reach; the ground between slides into it. Restrain."
        }
        NoBlock::Cure => "NO BLOCK: water is back before the concrete has cured. Restrain.",
        NoBlock::Shape => {
            "NO BLOCK: it would be wider than twice its height at this depth. Restrain, or an engineer shapes it."
        }
    }
}
