//! The pipe that a verb is about, with what the tables say of its walls.

use anyhow::{Result, anyhow, bail};
use clap::Args;
use springline_compiler::model::NominalSize;
use springline_compiler::notes::{FigureNote, Notes};
use springline_core::image::{Class, Grade, Image, Material};
use springline_core::joint::{Owner, refusal};
use springline_core::unit::{Distance, Pressure};
use springline_core::water::bore;

use crate::cli::{EndArg, FitsArgs, OwnerArg, UnitsArg};
use crate::fits::known::Known;
use crate::fits::sheet::keys;
use crate::format;
use crate::parse::{self, Limits, Unit};
use crate::rating::{self, Rating};

/// Which pipe, and how to answer.
#[derive(Args, Clone)]
pub(crate) struct PipeArgs {
    /// Key of the family, such as c900
    pub(crate) family: String,
    /// Nominal size, such as 6 or 1-1/2; or an OD that was measured, with its unit and a decimal point, as 6.9in
    pub(crate) size: String,
    /// Class as printed, such as "DR 18" [any class of this size]
    #[arg(long, value_name = "CLASS")]
    pub(crate) class: Option<String>,
    /// The wall at a cut end, instead of the class's
    #[arg(long, value_name = "L")]
    pub(crate) wall: Option<String>,
    /// Whose pipe it is; ahead of the meter it is the purveyor's
    #[arg(long, default_value = "unknown")]
    pub(crate) owner: OwnerArg,
    /// Show where each figure comes from, and every caution in full
    #[arg(long)]
    pub(crate) why: bool,
    /// Answer in JSON; host-cli/JSON.md describes its keys
    #[arg(long)]
    pub(crate) json: bool,
    /// Unit of a bare number, and of the answer
    #[arg(long, default_value = "in")]
    pub(crate) units: UnitsArg,
}

/// Why no numbers are given.
pub(crate) struct Refused {
    pub(crate) reason: String,
    pub(crate) sources: Vec<String>,
    pub(crate) grade: Grade,
}

/// A pipe that numbers are about.
pub(crate) struct Pipe<'a> {
    pub(crate) image: &'a Image<'a>,
    pub(crate) notes: &'a Notes,
    pub(crate) known: Known,
    /// Classes that it may be of.
    classes: Vec<Class>,
    /// The wall that was measured.
    wall: Option<Distance>,
    pub(crate) od: Distance,
    /// Its nominal size in inches.
    pub(crate) nominal: f64,
    pub(crate) unit: Unit,
    pub(crate) owner: Owner,
    pub(crate) why: bool,
    pub(crate) json: bool,
    pub(crate) refused: Option<Refused>,
}

impl<'a> Pipe<'a> {
    /// The pipe of the arguments.
    pub(crate) fn find(image: &'a Image<'a>, notes: &'a Notes, args: &PipeArgs) -> Result<Self> {
        let asked = FitsArgs {
            family: args.family.clone(),
            size: args.size.clone(),
            class: args.class.clone(),
            end: EndArg::PlainSquare,
            job: None,
            owner: args.owner,
            part: None,
            outlet: None,
            angle: None,
            range: None,
            why: args.why,
            json: args.json,
            units: args.units,
        };
        let known = Known::find(image, notes, &asked)?;
        let unit: Unit = args.units.into();
        let refused = refusal(image, &known.pipe).map(|sealing| Refused {
            reason: image.phrase(sealing.reason).to_string(),
            sources: keys(notes, notes.joints.matrix.get(usize::from(sealing.row))),
            grade: sealing.grade,
        });
        let classes = image.classes(&known.pipe.row).filter(|class| {
            let label = image.label(class.label);
            known.class.as_deref().is_none_or(|told| told == label)
        });
        let classes: Vec<Class> = classes.collect();
        let od = inches(known.od());
        let wall = args.wall.as_deref();
        let wall = wall
            .map(|text| parse::length(text, unit, Limits::DIAMETER))
            .transpose()?
            .map(inches);
        if let Some(wall) = wall
            && bore(od, wall).is_none()
        {
            bail!(
                "a wall of {} leaves no bore\n  try: --wall at a cut end",
                args.wall.as_deref().unwrap_or_default()
            );
        }
        let nominal =
            NominalSize::parse(&known.nominal).map_or(od.in_inches(), NominalSize::inches);
        Ok(Self {
            image,
            notes,
            classes,
            wall,
            od,
            nominal,
            unit,
            owner: args.owner.into(),
            why: args.why,
            json: args.json,
            refused,
            known,
        })
    }

    /// Its nominal size in quarters of an inch, as sockets are listed; `None` of metric sizes and those between.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole and in range"
    )]
    pub(crate) fn quarters(&self) -> Option<u8> {
        let quarters = NominalSize::parse(&self.known.nominal)?.inches() * 4.0;
        let whole = quarters.fract() == 0.0 && (1.0..256.0).contains(&quarters);
        whole.then_some(quarters as u8)
    }

    /// `6 in C900 PVC DR 18, OD 6.900 in`.
    pub(crate) fn head(&self) -> String {
        let class = self.known.class.as_ref();
        let class = class.map_or(String::new(), |class| format!(" {class}"));
        let wall = self.wall.map_or(String::new(), |wall| {
            format!(
                ", wall {}",
                format::length(super::unit::counts(wall), self.unit)
            )
        });
        format!(
            "{} {}{class}, OD {}{wall}",
            self.known.size(),
            self.known.name,
            format::length(self.known.od(), self.unit)
        )
    }

    /// What it is made of.
    pub(crate) fn material(&self) -> Option<Material> {
        Material::from_code(self.material_code())
    }

    pub(crate) fn material_code(&self) -> u8 {
        self.image.family(self.known.pipe.row.family).material
    }

    /// Its index among the families.
    pub(crate) const fn family(&self) -> u8 {
        self.known.pipe.row.family
    }

    /// A figure of the tables.
    pub(crate) fn figure(&self, key: &str) -> Result<&'a FigureNote> {
        let found = self.notes.site.figure(key);
        found.ok_or_else(|| {
            anyhow!("the tables have no figure \"{key}\"\n  try: build the command anew")
        })
    }

    /// Its classes, where all of them are printed alike: one that was told, or the only one that there is.
    fn one_class(&self) -> &[Class] {
        let first = self.classes.first().map(|class| class.label);
        if self.classes.iter().all(|class| Some(class.label) == first) {
            &self.classes
        } else {
            &[]
        }
    }

    /// Classes as printed, each once.
    pub(crate) fn printed(&self) -> String {
        let mut all: Vec<&str> = Vec::new();
        for class in &self.known.classes {
            if !all.contains(&class.as_str()) {
                all.push(class);
            }
        }
        all.join(", ")
    }

    /// The one wall: what was measured, else the class's, with its grade; the thinner one where standards differ. An error
    /// that says what there is where it could be several or is not known.
    pub(crate) fn one_wall(&self) -> Result<(Distance, Option<Grade>)> {
        if let Some(wall) = self.wall {
            return Ok((wall, None));
        }
        let (family, nominal) = (&self.known.family, &self.known.nominal);
        let walls = self.one_class().iter().filter(|class| class.wall > 0);
        match walls.min_by_key(|class| class.wall) {
            Some(class) => Ok((mils(class.wall), class.grade)),
            None if self.classes.len() < 2 || self.known.class.is_some() => bail!(
                "the tables have no wall of {family} {nominal}\n  try: --wall, measured at a cut end"
            ),
            None => bail!(
                "{family} {nominal} comes in several walls\n  try: --class, one of: {}\n  or --wall, measured at a cut end",
                self.printed()
            ),
        }
    }

    /// The least and the largest bore that it may have; none where no wall is known.
    pub(crate) fn bores(&self) -> Option<[Distance; 2]> {
        let walls: Vec<Distance> = if let Some(wall) = self.wall {
            vec![wall]
        } else {
            let known = self.classes.iter().filter(|class| class.wall > 0);
            known.map(|class| mils(class.wall)).collect()
        };
        let bores: Vec<Distance> = walls
            .iter()
            .filter_map(|wall| bore(self.od, *wall))
            .collect();
        let first = *bores.first()?;
        Some(bores.iter().fold([first; 2], |[low, high], one| {
            [low.min(*one), high.max(*one)]
        }))
    }

    /// Its pressure class, where its class was told or there is only one, and the tables have it.
    pub(super) fn rating(&self) -> Option<Rating> {
        let mut all = rating::ratings(self.image, &self.known);
        let one = !self.one_class().is_empty() && all.len() == 1;
        one.then(|| all.remove(0))
    }

    /// What is to be known where standards print the wall of its class differently.
    pub(super) fn printed_otherwise(&self) -> Option<String> {
        let show = |pressure| super::unit::pressure(pressure, self.unit);
        self.rating()?.words(show)
    }

    /// What is left of it at a wall temperature in hundredths of 1 °F; none where it is not rated any more.
    pub(super) fn left(&self, hundredths: Option<i32>) -> Option<f64> {
        rating::left(self.image, self.material(), hundredths)
    }
}

/// Thousandths of an inch.
fn mils(wall: u16) -> Distance {
    Distance::inches(f64::from(wall) / 1000.0)
}

/// Counts of 10 nm.
#[allow(
    clippy::cast_precision_loss,
    reason = "typed lengths are far below 2^53 counts"
)]
pub(crate) fn inches(counts: i64) -> Distance {
    Distance::inches(counts as f64 / 2_540_000.0)
}

/// A distance where one was typed.
pub(crate) fn distance(text: Option<&String>, unit: Unit) -> Result<Option<Distance>> {
    text.map(|text| parse::distance(text, unit).map_err(Into::into))
        .transpose()
}

/// A length by tape where one was typed: a number alone is in inches or millimetres.
pub(crate) fn by_tape(text: Option<&String>, unit: Unit) -> Result<Option<Distance>> {
    let Some(text) = text else { return Ok(None) };
    // What is beyond the range of a pipe's own lengths is a distance.
    match parse::length(text, unit, Limits::AROUND) {
        Ok(counts) => Ok(Some(inches(counts))),
        Err(error) => match parse::distance(text, unit) {
            Ok(far) if text.chars().any(char::is_alphabetic) || text.contains(['\'', '"']) => {
                Ok(Some(far))
            }
            _ => Err(error.into()),
        },
    }
}

/// A pressure where one was typed.
pub(crate) fn pressure(text: Option<&String>) -> Result<Option<Pressure>> {
    text.map(|text| parse::pressure(text).map_err(Into::into))
        .transpose()
}

/// A temperature where one was typed, hundredths of 1 °F.
pub(crate) fn temperature(text: Option<&String>) -> Result<Option<i32>> {
    text.map(|text| parse::temperature(text).map_err(Into::into))
        .transpose()
}
