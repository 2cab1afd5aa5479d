//! The sources as typed values: plain structs, one per row or table, in the order of the files.

mod clue;
mod nominal;
mod settings;

pub use clue::{Clue, ClueAnswer, Meaning};
pub use nominal::NominalSize;
pub use settings::{
    Answer, Checks, Clues, Coat, Instrument, Instruments, Outside, PrintLines, Set, Settings,
    Sight, Site, Sizes, Temperature, Tolerance,
};
pub use springline_core::image::{Carries, Grade, Material};

use crate::assembly::Assembly;
use crate::jobs::Jobs;
use crate::joints::Joints;
use crate::notes::SiteNotes;
use crate::print::Print;
use crate::thrust::Thrust;

/// Counts of 10 nm in an inch.
pub const INCH: i64 = 2_540_000;
/// Counts of 10 nm in a millimetre.
pub const MILLIMETRE: i64 = 100_000;

/// A value, where it comes from and how far it can be trusted.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum<T> {
    /// The value.
    pub value: T,
    /// Indices into [`Sources::sources`].
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// Everything in the folder, read and checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Sources {
    /// `settings.toml`.
    pub settings: Settings,
    /// `od-systems.toml`.
    pub systems: Vec<System>,
    /// `families.toml`, each with its `od/KEY.csv` and `classes/KEY.csv`.
    pub families: Vec<Family>,
    /// `clues.toml`, each with its `clues/KEY.csv`.
    pub clues: Vec<Clue>,
    /// `sources.toml`.
    pub sources: Vec<Source>,
    /// `series.toml`.
    pub series: Vec<Series>,
    /// `sizes.csv`.
    pub sizes: Vec<SizeWeight>,
    /// `size-exceptions.csv`.
    pub size_exceptions: Vec<SizeException>,
    /// `class-shares.csv`.
    pub class_shares: Vec<ClassShare>,
    /// `differences.csv`.
    pub differences: Vec<Difference>,
    /// `derating.csv`.
    pub deratings: Vec<Derating>,
    /// The folder `joints`.
    pub joints: Joints,
    /// The folder `print`.
    pub print: Print,
    /// The folder `thrust`.
    pub thrust: Thrust,
    /// The folders `surge`, `water` and `digging`.
    pub site: SiteNotes,
    /// The folder `assembly`.
    pub assembly: Assembly,
    /// The folder `jobs`.
    pub jobs: Jobs,
}

impl Sources {
    /// The rule by which a series of a family prints its pressure.
    #[must_use]
    pub fn series_of(&self, family: usize, series: &str) -> Option<&Series> {
        self.series
            .iter()
            .find(|s| s.family == family && s.series == series)
    }
}

/// Where figures come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// How cells refer to it.
    pub key: String,
    /// What it is.
    pub title: String,
    /// What kind of thing it is: `standard`, `data set`, `article` ...
    pub kind: String,
    /// Where it was found.
    pub place: String,
}

/// An OD system.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct System {
    /// The key in files, options and JSON.
    pub key: String,
    /// What people read.
    pub label: String,
}

/// How the sizes of a family get their weights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeWeights {
    /// From `sizes.csv`.
    Inch,
    /// Half the weight of the inch size nearest to DN / 25.
    Dn,
    /// Half the weight of the inch size nearest to the OD in inches.
    Od,
}

/// Installed deflection of buried pipe: normal, cut at 0 and at mean + 4 sd.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Squash {
    /// Mean, a share of the OD.
    pub mean: f64,
    /// Standard deviation, a share of the OD.
    pub sd: f64,
}

/// Pipes that keep to a wider band than their standard's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loose {
    /// The share of such pipes.
    pub share: f64,
    /// How many times as wide their band is.
    pub width: f64,
}

/// A family of pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Family {
    /// The key in files, options and JSON.
    pub key: String,
    /// What the trade calls it, too, where a key is typed.
    pub also: Vec<String>,
    /// What people read.
    pub name: String,
    /// Index into [`Sources::systems`].
    pub system: usize,
    /// The OD system of those of its rows whose OD no other family of that system has: another index, where there is one.
    pub system_else: Option<usize>,
    /// What it is made of.
    pub material: Material,
    /// What it carries.
    pub carries: Carries,
    /// Growth of the diameter per degree F.
    pub thermal_per_f: Datum<f64>,
    /// One sigma of wear, scale or roughness on the diameter, inches.
    pub wear_in: f64,
    /// One sigma of each component of out-of-round, a share of the OD.
    pub oval: f64,
    /// Installed deflection; `None` for rigid pipe.
    pub squash: Option<Squash>,
    /// Pipes that keep to a wider band.
    pub loose: Option<Loose>,
    /// Percent of the pipes met on an irrigation site.
    pub irrigation: f64,
    /// Percent of the pipes met on a municipal site.
    pub municipal: f64,
    /// How its sizes get their weights.
    pub size_weights: SizeWeights,
    /// Of everything not cited on its own: indices into [`Sources::sources`].
    pub sources: Vec<usize>,
    /// Of everything not cited on its own.
    pub grade: Grade,
    /// `od/KEY.csv`.
    pub od: Vec<OdRow>,
    /// `classes/KEY.csv`.
    pub classes: Vec<ClassRow>,
}

/// Tolerance on the average OD, counts of 10 nm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// How far above.
    pub plus: i64,
    /// How far below.
    pub minus: i64,
}

/// One size of one series. Lengths in counts of 10 nm.
#[derive(Clone, Debug, PartialEq)]
pub struct OdRow {
    /// The size as written on the pipe; [`NominalSize::parse`] accepts it.
    pub nominal: String,
    /// Tells apart rows of one nominal; may be empty.
    pub variant: String,
    /// Links the row to its classes.
    pub series: String,
    /// The standard that the row belongs to.
    pub standard: String,
    /// The average OD.
    pub od: Datum<i64>,
    /// Tolerance on the average OD.
    pub tolerance: Option<Datum<Limits>>,
    /// How far a single diameter may lie from the average, each way.
    pub out_of_round: Option<Datum<i64>>,
    /// The share of this row among the ODs of its nominal; `None` for an equal share.
    pub row_share: Option<f64>,
    /// Why the row breaks a check.
    pub exception: Option<String>,
    /// Line in `od/KEY.csv`, from 1.
    pub line: usize,
}

/// What a printed wall means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WallKind {
    /// The least wall allowed.
    Min,
    /// The wall aimed at.
    Nominal,
}

/// One wall class of one size. Lengths in counts of 10 nm.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassRow {
    /// The size as written on the pipe.
    pub nominal: String,
    /// The variant of its OD row; may be empty.
    pub variant: String,
    /// The series of its OD row.
    pub series: String,
    /// What is printed: `Sch 40`, `SDR 21`, `DR 18`, `PC350`.
    pub class: String,
    /// The wall.
    pub wall: Option<Datum<i64>>,
    /// What the wall means; there exactly when the wall is.
    pub wall_kind: Option<WallKind>,
    /// Working pressure at 73 °F as printed.
    pub psi: Option<Datum<u32>>,
    /// Why the row breaks a check.
    pub exception: Option<String>,
    /// Line in `classes/KEY.csv`, from 1.
    pub line: usize,
}

impl ClassRow {
    /// The number after `DR` or `SDR`, if the class is named by one.
    #[must_use]
    pub fn dimension_ratio(&self) -> Option<f64> {
        let number = self
            .class
            .strip_prefix("SDR ")
            .or_else(|| self.class.strip_prefix("DR "))?;
        let ratio: f64 = number.parse().ok()?;
        (ratio > 2.0 && ratio.is_finite()).then_some(ratio)
    }
}

/// How a series comes by its printed pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PressureRule {
    /// 2 × this / (DR - 1), rounded by the standard; psi.
    DesignStress(f64),
    /// No formula.
    Printed,
}

/// A series of a family.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Index into [`Sources::families`].
    pub family: usize,
    /// Its name in the CSV files.
    pub series: String,
    /// How it comes by its printed pressure.
    pub rule: PressureRule,
    /// Indices into [`Sources::sources`].
    pub sources: Vec<usize>,
}

/// How common a nominal size is.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeWeight {
    /// The size as written on the pipe.
    pub nominal: String,
    /// Its weight.
    pub weight: Datum<f64>,
    /// Line in the file, from 1.
    pub line: usize,
}

/// How common a nominal size is within one family.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeException {
    /// Index into [`Sources::families`].
    pub family: usize,
    /// The size and its weight.
    pub size: SizeWeight,
}

/// How common a class is within a size.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassShare {
    /// Index into [`Sources::families`].
    pub family: usize,
    /// The class as printed.
    pub class: String,
    /// Its share.
    pub share: Datum<f64>,
    /// Line in `class-shares.csv`, from 1.
    pub line: usize,
}

/// What is left of a pressure rating in a warm pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Derating {
    /// Of pipe of this material.
    pub material: Material,
    /// Temperature of the pipe wall, °F.
    pub fahrenheit: u8,
    /// The part that is left.
    pub factor: Datum<f64>,
    /// Line in `derating.csv`, from 1.
    pub line: usize,
}

/// Two sources that do not agree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Index into [`Sources::families`].
    pub family: usize,
    /// The size of the row.
    pub nominal: String,
    /// The variant of the row; may be empty.
    pub variant: String,
    /// The series of the row.
    pub series: String,
    /// The class of the row; empty for an OD row.
    pub class: String,
    /// The column.
    pub field: String,
    /// The value in the table, as written.
    pub kept: String,
    /// Indices into [`Sources::sources`].
    pub kept_sources: Vec<usize>,
    /// The value that was not kept, as written.
    pub other: String,
    /// Indices into [`Sources::sources`].
    pub other_sources: Vec<usize>,
    /// Why.
    pub reason: String,
    /// Line in `differences.csv`, from 1.
    pub line: usize,
}
