//! The rows of the files as typed values.

use springline_core::image::Grade;
use springline_core::thrust::Procedure;

/// Where a row comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// A row of `soils.csv`.
#[derive(Clone, Debug, PartialEq)]
pub struct Soil {
    /// Whose row it is.
    pub procedure: Procedure,
    /// What it is called.
    pub name: String,
    /// Friction angle, degrees.
    pub friction: f64,
    /// The part of it between pipe and soil.
    pub grip: f64,
    /// Cohesion, psf.
    pub cohesion: f64,
    /// The part of it between pipe and soil.
    pub adhesion: f64,
    /// Weight, pcf.
    pub weight: f64,
    /// Index into the trenches.
    pub trench: usize,
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `trenches.csv`.
#[derive(Clone, Debug, PartialEq)]
pub struct Trench {
    /// Its key.
    pub key: String,
    /// Whose row it is.
    pub procedure: Procedure,
    /// Factors of the types 2 to 5, zero where one is not used.
    pub factors: [f64; 4],
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `words.csv`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// The word.
    pub word: String,
    /// The rows that it is taken for, by [`Procedure`]; [`springline_core::image::SoilWord::REFER`] for none.
    pub rows: [u8; 2],
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `constants.csv`.
#[derive(Clone, Debug, PartialEq)]
pub struct Constant {
    /// Its key.
    pub key: String,
    /// Its value.
    pub value: f64,
    /// The unit.
    pub unit: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `bearing-tables.csv`.
#[derive(Clone, Debug, PartialEq)]
pub struct BearingTable {
    /// Its key.
    pub key: String,
    /// What it is called.
    pub name: String,
    /// Factor on the thrust.
    pub factor: f64,
    /// It is taken where none is named.
    pub default: bool,
    /// What is to be known of it.
    pub remark: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `bearing.csv`.
#[derive(Clone, Debug, PartialEq)]
pub struct Bearing {
    /// Index into the tables.
    pub table: usize,
    /// What the table calls the soil.
    pub soil: String,
    /// Words that are taken for it.
    pub words: Vec<String>,
    /// From this depth of the block's middle on, feet.
    pub depth: f64,
    /// Bearing, psf.
    pub psf: f64,
    /// Where it comes from.
    pub origin: Origin,
}

/// A row of `blocks.csv`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BlockText {
    /// Its key.
    pub key: String,
    /// The text.
    pub text: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// Everything in `thrust/`, read and checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Thrust {
    /// `soils.csv`.
    pub soils: Vec<Soil>,
    /// `trenches.csv`.
    pub trenches: Vec<Trench>,
    /// `words.csv`.
    pub words: Vec<Word>,
    /// `constants.csv`.
    pub constants: Vec<Constant>,
    /// `bearing-tables.csv`.
    pub tables: Vec<BearingTable>,
    /// `bearing.csv`.
    pub bearings: Vec<Bearing>,
    /// `blocks.csv`.
    pub blocks: Vec<BlockText>,
}
