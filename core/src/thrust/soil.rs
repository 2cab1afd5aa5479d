//! What a soil does to a pipe: rows of the tables as quantities.

use crate::image::{Image, Material, SoilRow, SoilWord};
use crate::unit::{Angle, Pressure, UnitWeight};

use super::WATER;

/// Whose soil rows are taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Procedure {
    /// That of the iron pipe trade: iron, and steel likewise.
    Iron = 0,
    /// That of the PVC manual.
    Pvc = 1,
}

impl Procedure {
    /// By what a pipe is made of. `None` where neither speaks of it: polyethylene is fused, tube is soldered or latched.
    #[must_use]
    #[inline]
    pub const fn of(material: Material) -> Option<Self> {
        match material {
            Material::Iron | Material::Steel => Some(Self::Iron),
            Material::Pvc => Some(Self::Pvc),
            _ => None,
        }
    }

    /// The word in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Iron => "iron",
            Self::Pvc => "pvc",
        }
    }
}

/// How a pipe lies in its trench: the laying conditions of AWWA C150 (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trench {
    /// Type 2: flat bottom, backfill lightly consolidated to the middle of the pipe.
    Light = 2,
    /// Type 3: bedded in 4 in of loose soil, lightly consolidated to the top.
    Bedded = 3,
    /// Type 4: bedded in 4 in of sand or stone, compacted to the top, some 80 % standard Proctor.
    Granular = 4,
    /// Type 5: compacted granular to the middle of the pipe, some 90 %.
    Compacted = 5,
}

impl Trench {
    /// Every one, the poorest first.
    pub const ALL: [Self; 4] = [Self::Light, Self::Bedded, Self::Granular, Self::Compacted];

    /// The word in options and JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Bedded => "bedded",
            Self::Granular => "granular",
            Self::Compacted => "compacted",
        }
    }
}

/// A soil around a pipe.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Soil {
    /// Friction angle within it.
    pub friction: Angle,
    /// The part of that angle between pipe and soil.
    pub grip: f64,
    /// Cohesion.
    pub cohesion: Pressure,
    /// The part of it between pipe and soil.
    pub adhesion: f64,
    /// Weight of it in the ground.
    pub weight: UnitWeight,
    /// How much of what the trench wall could bear is counted on.
    pub bearing: f64,
}

impl Soil {
    /// A row of the image in a trench; of one that nobody knows the poorest that the row has. Gives the trench, too. `None`
    /// where the row is not to be used in that trench.
    #[must_use]
    #[inline]
    pub fn of(image: &Image<'_>, index: u8, trench: Option<Trench>) -> Option<(Self, Trench)> {
        let row: SoilRow = image.soil(index);
        let factors = image.trench(row.trench);
        let factor = |trench: Trench| match trench {
            Trench::Light => factors.light,
            Trench::Bedded => factors.bedded,
            Trench::Granular => factors.granular,
            Trench::Compacted => factors.compacted,
        };
        let laid = match trench {
            Some(trench) => trench,
            None => Trench::ALL.into_iter().find(|one| factor(*one) > 0)?,
        };
        let hundredths = |value: u8| f64::from(value) / 100.0;
        let soil = Self {
            friction: Angle::degrees(f64::from(row.friction)),
            grip: hundredths(row.grip),
            cohesion: Pressure::psf(f64::from(row.cohesion)),
            adhesion: hundredths(row.adhesion),
            weight: UnitWeight::pcf(f64::from(row.weight)),
            bearing: hundredths(factor(laid)),
        };
        (factor(laid) > 0).then_some((soil, laid))
    }

    /// The same below groundwater, where it weighs as much less as the water in its place.
    #[must_use]
    #[inline]
    pub fn submerged(self) -> Self {
        Self {
            weight: self.weight - WATER,
            ..self
        }
    }

    /// Friction of the pipe in it: the tangent of the angle between them.
    #[must_use]
    #[inline]
    pub fn slide(&self) -> f64 {
        self.friction.times(self.grip).tan()
    }

    /// Rankine's passive coefficient, tan²(45° + φ/2).
    #[must_use]
    #[inline]
    pub fn passive(&self) -> f64 {
        let root = self.root();
        root * root
    }

    /// Its root, tan(45° + φ/2).
    #[must_use]
    #[inline]
    pub fn root(&self) -> f64 {
        Angle::degrees(45.0).plus(self.friction.half()).tan()
    }
}

/// The row that a soil in plain words is taken for. `None` where there is no such word; [`SoilWord::REFER`] where nothing is
/// to be reckoned on.
#[must_use]
pub fn soil_called(image: &Image<'_>, word: &str, procedure: Procedure) -> Option<u8> {
    let named = |one: &SoilWord| image.soil_word(one).eq_ignore_ascii_case(word);
    let found = image.soil_words().find(named)?;
    Some(match procedure {
        Procedure::Iron => found.iron,
        Procedure::Pvc => found.pvc,
    })
}
