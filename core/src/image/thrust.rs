//! Soil rows, trench factors, soil in plain words and constants of what holds a buried pipe against thrust.

use super::check::{Sections, each};
use super::layout::section;
use super::record::record;
use super::{Grade, Image, ImageError, Text, lookup};

record! {
    /// A row of soil of one procedure: how it grips a pipe, bears against it and lies on it.
    SoilRow, 11, {
        /// Its name: where it begins in the text section.
        name: u16 = 0,
        /// Its name: how many bytes.
        name_length: u8 = 2,
        /// Friction angle within the soil, degrees.
        friction: u8 = 3,
        /// The part of it between pipe and soil, hundredths.
        grip: u8 = 4,
        /// Weight in the ground, pounds on a cubic foot.
        weight: u8 = 5,
        /// Cohesion, pounds on a square foot.
        cohesion: u16 = 6,
        /// The part of it between pipe and soil, hundredths.
        adhesion: u8 = 8,
        /// Its trench factors, an index.
        trench: u8 = 9,
        /// [`Grade`] of the row.
        grade: u8 = 10,
    }
}

record! {
    /// How far the wall of a trench bears by how the pipe is laid in it, hundredths; zero where that is not to be used.
    TrenchRow, 5, {
        /// The procedure that its soils are of: [`crate::thrust::Procedure`].
        procedure: u8 = 0,
        /// Flat bottom, backfill lightly consolidated to the middle of the pipe: type 2.
        light: u8 = 1,
        /// Bedded in loose soil, lightly consolidated to the top: type 3.
        bedded: u8 = 2,
        /// Bedded in sand or stone, backfill compacted to the top: type 4.
        granular: u8 = 3,
        /// Compacted granular to the middle of the pipe: type 5.
        compacted: u8 = 4,
    }
}

record! {
    /// A soil as people call it, and the row that it is taken for in each procedure.
    SoilWord, 5, {
        /// The word: where it begins in the text section.
        word: u16 = 0,
        /// The word: how many bytes.
        word_length: u8 = 2,
        /// Its row for iron, an index; [`SoilWord::REFER`] where nothing is to be reckoned on.
        iron: u8 = 3,
        /// Its row for PVC, likewise.
        pvc: u8 = 4,
    }
}

impl SoilWord {
    /// No soil to reckon on: it is referred.
    pub const REFER: u8 = 255;
}

record! {
    /// The constants of thrust restraint.
    ThrustConstants, 12, {
        /// Safety factor on every restrained length, hundredths.
        safety: u16 = 0,
        /// What is left of the grip of soil on pipe in polyethylene wrap, hundredths.
        wrapped: u16 = 2,
        /// Weight of concrete, pounds on a cubic foot.
        concrete: u16 = 4,
        /// Weight of PVC.
        pvc: u16 = 6,
        /// Weight of iron.
        iron: u16 = 8,
        /// Weight of steel.
        steel: u16 = 10,
    }
}

/// The tables of thrust.
#[derive(Clone, Copy, Debug)]
pub(super) struct Thrust<'a> {
    soils: &'a [[u8; SoilRow::SIZE]],
    trenches: &'a [[u8; TrenchRow::SIZE]],
    words: &'a [[u8; SoilWord::SIZE]],
    constants: ThrustConstants,
}

/// Finds the tables.
pub(super) fn tables<'a>(sections: &Sections<'a, '_>) -> Result<Thrust<'a>, ImageError> {
    let constants = match sections.table(section::THRUST)? {
        [only] => ThrustConstants::from_bytes(only),
        _ => return Err(ImageError::Section(section::THRUST)),
    };
    Ok(Thrust {
        soils: sections.table(section::SOILS)?,
        trenches: sections.table(section::TRENCHES)?,
        words: sections.table(section::SOIL_WORDS)?,
        constants,
    })
}

/// Checks them: angles below 45° and grips above nothing, so that no length is without end.
pub(super) fn contents(image: &Image<'_>) -> Result<(), ImageError> {
    let within = |at: u16, length: u8| usize::from(at) + usize::from(length) <= image.text.len();
    let thrust = &image.thrust;
    let factors = |row: &TrenchRow| [row.light, row.bedded, row.granular, row.compacted];
    let rows = thrust.trenches.iter().map(TrenchRow::from_bytes);
    each(section::TRENCHES, rows, |row| {
        row.procedure < 2
            && factors(row).iter().any(|factor| *factor > 0)
            && factors(row).iter().all(|factor| *factor <= 100)
    })?;
    each(section::SOILS, image.soils(), |soil| {
        within(soil.name, soil.name_length)
            && soil.friction < 45
            && soil.grip <= 100
            && soil.adhesion <= 100
            && soil.weight > 62
            && soil.cohesion < 650
            && (u16::from(soil.friction) * u16::from(soil.grip) > 0
                || soil.cohesion * u16::from(soil.adhesion) > 0)
            && usize::from(soil.trench) < thrust.trenches.len()
            && Grade::from_code(soil.grade).is_some()
    })?;
    // Each procedure has soils, so that one that is not known has a worst.
    for procedure in 0..2 {
        let own = |soil: SoilRow| image.trench(soil.trench).procedure == procedure;
        if !image.soils().any(own) {
            return Err(ImageError::Section(section::SOILS));
        }
    }
    each(section::SOIL_WORDS, image.soil_words(), |word| {
        let of = |row: u8, procedure: u8| {
            let soil = thrust.soils.get(usize::from(row)).map(SoilRow::from_bytes);
            row == SoilWord::REFER
                || soil.is_some_and(|soil| image.trench(soil.trench).procedure == procedure)
        };
        within(word.word, word.word_length) && of(word.iron, 0) && of(word.pvc, 1)
    })?;
    let constants = &thrust.constants;
    let sane = constants.safety >= 100
        && constants.safety <= 1000
        && (1..=100).contains(&constants.wrapped)
        && [
            constants.concrete,
            constants.pvc,
            constants.iron,
            constants.steel,
        ]
        .iter()
        .all(|weight| (63..1000).contains(weight));
    sane.then_some(())
        .ok_or(ImageError::Record(section::THRUST, 0))
}

impl<'a> Image<'a> {
    /// Rows of soil of every procedure.
    pub fn soils(&self) -> impl ExactSizeIterator<Item = SoilRow> + use<'a> {
        self.thrust.soils.iter().map(SoilRow::from_bytes)
    }

    /// A row of soil.
    #[must_use]
    pub fn soil(&self, index: u8) -> SoilRow {
        lookup!(self.thrust.soils, SoilRow, index)
    }

    /// What a row of soil is called.
    #[must_use]
    pub fn soil_name(&self, index: u8) -> &'a str {
        let soil = self.soil(index);
        self.text(Text {
            offset: soil.name,
            length: u16::from(soil.name_length),
        })
    }

    /// Trench factors.
    #[must_use]
    pub fn trench(&self, index: u8) -> TrenchRow {
        lookup!(self.thrust.trenches, TrenchRow, index)
    }

    /// Soils as people call them.
    pub fn soil_words(&self) -> impl ExactSizeIterator<Item = SoilWord> + use<'a> {
        self.thrust.words.iter().map(SoilWord::from_bytes)
    }

    /// How a soil is called.
    #[must_use]
    pub fn soil_word(&self, word: &SoilWord) -> &'a str {
        self.text(Text {
            offset: word.word,
            length: u16::from(word.word_length),
        })
    }

    /// The constants of thrust restraint.
    #[must_use]
    pub fn thrust_constants(&self) -> ThrustConstants {
        self.thrust.constants
    }
}
