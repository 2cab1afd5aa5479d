//! A page of numbers.

use core::fmt;

use serde::Deserialize;

use super::hold::hold;
use super::{About, SiteTold, is_glued, nominal};
use crate::assembly::{
    Bell, NoWait, Nominal, Turn, across_flats, allowed, allowed_in_mechanical, cure, flange,
    mechanical, passes, solvent_socket,
};
use crate::image::{Grade, Image, Material};
use crate::joint::Pipe;
use crate::unit::{Angle, Distance};

/// Where figures of a page are. Grades are codes of [`Grade`].
pub mod at {
    /// Of a fitting: the force on it, pounds.
    pub const THRUST: usize = 0;
    /// While the trench is open: the pressure to stay below with the same joints held, psi.
    pub const UNTIL: usize = 1;
    /// What each side of a bend, the branch of a tee or the line back from a dead end must hold after backfill, and never before: length
    /// in one piece, inches.
    pub const LENGTH: usize = 2;
    /// The row of soil that it is of.
    pub const SOIL: usize = 3;
    /// Bells within it; none where no stick was told.
    pub const BELLS: usize = 4;

    /// Of a flange or a mechanical joint: how many bolts. Their order is [`crate::assembly::star`].
    pub const BOLTS: usize = 0;
    /// Their diameter, inches.
    pub const BOLT: usize = 1;
    /// Across the flats of a heavy hexagon, inches; from memory.
    pub const WRENCH: usize = 2;
    /// Their length, inches: between iron flanges with a thin gasket, with a plain gland; none where it is to be measured.
    pub const BOLT_LENGTH: usize = 3;
    /// How many times round.
    pub const PASSES: usize = 4;
    /// The grade of count and diameter.
    pub const BOLT_GRADE: usize = 5;
    /// Least and most torque, foot-pounds; none of a flange, whose gasket's maker says it.
    pub const TORQUE: [usize; 2] = [6, 7];
    /// Its grade.
    pub const TORQUE_GRADE: usize = 8;

    /// How deep it goes into a solvent socket, to its end, inches; none where it is not glued. Bells are measured.
    pub const SOLVENT: usize = 0;
    /// Its grade.
    pub const SOLVENT_GRADE: usize = 1;
    /// Into a mechanical joint, inches.
    pub const MJ: usize = 2;
    /// Its grade.
    pub const MJ_GRADE: usize = 3;

    /// The most that it may be turned in an iron push-on bell, a bell of PVC, and, of bare iron, a mechanical joint with a plain gland:
    /// degrees.
    pub const ANGLE: [usize; 3] = [0, 3, 6];
    /// How far that leads a stick aside, inches; none where no stick was told.
    pub const ASIDE: [usize; 3] = [1, 4, 7];
    /// The grade; none of a mechanical joint, whose figures were read.
    pub const ANGLE_GRADE: [usize; 3] = [2, 5, 8];

    /// How long glue is left alone, minutes.
    pub const SET: usize = 0;
    /// How long it takes no pressure, minutes.
    pub const CURE: usize = 1;
    /// The grade of both.
    pub const CURE_GRADE: usize = 2;
}

/// The figures of a page, by their places; one that there is not is no number.
#[derive(Clone, Copy, Debug)]
pub struct Figures {
    all: [f64; Self::MOST],
    count: usize,
}

impl Figures {
    /// The most of a page.
    pub const MOST: usize = 9;

    #[inline]
    const fn new() -> Self {
        Self {
            all: [f64::NAN; Self::MOST],
            count: 0,
        }
    }

    #[inline(never)]
    pub(super) fn put(&mut self, figure: f64) {
        if let Some(room) = self.all.get_mut(self.count) {
            *room = figure;
            self.count += 1;
        }
    }

    #[inline]
    fn grade(&mut self, grade: Grade) {
        self.put(f64::from(grade as u8));
    }

    /// All of them.
    #[must_use]
    #[inline]
    pub fn all(&self) -> &[f64] {
        self.all.get(..self.count).unwrap_or(&[])
    }

    /// The one of a place, where there is such.
    #[must_use]
    #[inline(never)]
    pub fn get(&self, at: usize) -> Option<f64> {
        self.all.get(at).copied().filter(|figure| !figure.is_nan())
    }

    /// Another for that of a place.
    #[inline]
    pub fn set(&mut self, at: usize, figure: f64) {
        if let Some(held) = self.all.get_mut(at) {
            *held = figure;
        }
    }
}

/// Why there are no numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[non_exhaustive]
#[repr(u8)]
pub enum NoNumbers {
    /// The highest pressure is to be told.
    Pressure = 0,
    /// The cover is to be told.
    Cover = 1,
    /// The temperature is to be told.
    Temperature = 2,
    /// Nothing is to be reckoned on in such soil.
    Soil = 3,
    /// No pipe for water under pressure.
    Drain = 4,
    /// It is fused and holds itself.
    Fused = 5,
    /// No procedure speaks of such pipe.
    Material = 6,
    /// What was told gives no plan.
    NoPlan = 7,
    /// The tables have none of this size.
    Size = 8,
    /// It is not glued.
    NotGlued = 9,
    /// No times so cold.
    TooCold = 10,
    /// No times so hot.
    TooHot = 11,
    /// No times at so much pressure.
    TooMuchPressure = 12,
}

impl fmt::Display for NoNumbers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Pressure => "the highest pressure is to be told",
            Self::Cover => "the cover is to be told",
            Self::Temperature => "the temperature is to be told",
            Self::Soil => "such soil holds nothing: an engineer",
            Self::Drain => "no pipe for water under pressure: ask",
            Self::Fused => "it is fused and holds itself",
            Self::Material => "no procedure speaks of such pipe: ask",
            Self::NoPlan => "what was told gives no length",
            Self::Size => "the tables have none of this size",
            Self::NotGlued => "such pipe is not glued",
            Self::TooCold => "the tables have no times so cold",
            Self::TooHot => "the tables have no times so hot",
            Self::TooMuchPressure => "the tables have no times at so much pressure",
        })
    }
}

impl core::error::Error for NoNumbers {}

/// The numbers of a pipe that something is put on. The class is a label where it is known, else any that the pipe may be of.
///
/// # Errors
///
/// A [`NoNumbers`]: what is to be told first, or why there are none.
#[inline]
pub fn page(
    image: &Image<'_>,
    pipe: &Pipe,
    class: Option<u8>,
    about: About,
    told: &SiteTold,
) -> Result<Figures, NoNumbers> {
    let mut to = Figures::new();
    let row = &pipe.row;
    let none = f64::NAN;
    if let About::Hold(fixture) = about {
        hold(image, row, class, fixture, told, &mut to)?;
        return Ok(to);
    }
    let size = nominal(image, row).ok_or(NoNumbers::Size)?;
    match about {
        About::Depth => {
            let socket = solvent_socket(image, size).filter(|_| is_glued(image, pipe));
            let bolted = mechanical(image, size).map(|set| (set.socket, set.grade));
            for found in [socket, bolted] {
                to.put(found.map_or(none, |(depth, _)| depth.in_inches()));
                to.put(found.map_or(none, |(_, grade)| f64::from(grade as u8)));
            }
        }
        About::Turn => {
            // A checked image has no other codes.
            let code = image.family(row.family).material;
            let material = Material::from_code(code).unwrap_or(Material::Pe);
            for bell in Bell::ALL {
                let found = allowed(image, bell, material, size);
                turn(found.map(|(angle, _)| angle), told, &mut to);
                to.put(found.map_or(none, |(_, grade)| f64::from(grade as u8)));
            }
            let bare = allowed_in_mechanical(image, material, false, size);
            turn(bare, told, &mut to);
            to.put(none);
        }
        About::Glue => {
            if !is_glued(image, pipe) {
                return Err(NoNumbers::NotGlued);
            }
            let warm = told.temperature().ok_or(NoNumbers::Temperature)?;
            let pressure = told.pressure().ok_or(NoNumbers::Pressure)?;
            let wait = cure(image, size, warm, pressure, told.wet).map_err(|why| match why {
                NoWait::TooLarge(_) | NoWait::Nothing => NoNumbers::Size,
                NoWait::TooCold(_) => NoNumbers::TooCold,
                NoWait::TooHot(_) => NoNumbers::TooHot,
                NoWait::TooMuchPressure(_) => NoNumbers::TooMuchPressure,
            })?;
            to.put(wait.set.in_minutes());
            to.put(wait.cure.in_minutes());
            to.grade(wait.grade);
        }
        _ => bolts(image, size, about, &mut to).ok_or(NoNumbers::Size)?,
    }
    Ok(to)
}

/// The bolts of a flange or of a mechanical joint.
#[inline]
fn bolts(image: &Image<'_>, size: Nominal, about: About, to: &mut Figures) -> Option<()> {
    let (count, bolt, length, times, grade, torque) = if let About::Flange(drilling) = about {
        let set = flange(image, size, drilling)?;
        (
            set.bolts,
            set.bolt,
            set.length,
            passes(false),
            set.grade,
            None,
        )
    } else {
        let set = mechanical(image, size)?;
        let torque = (set.torque, set.torque_grade);
        (
            set.bolts,
            set.bolt,
            Some(set.length),
            set.passes,
            set.grade,
            Some(torque),
        )
    };
    to.put(f64::from(count));
    to.put(bolt.in_inches());
    to.put(across_flats(bolt, true).in_inches());
    to.put(length.map_or(f64::NAN, Distance::in_inches));
    to.put(f64::from(times));
    to.grade(grade);
    if let Some(([low, high], grade)) = torque {
        to.put(low.in_foot_pounds());
        to.put(high.in_foot_pounds());
        to.grade(grade);
    }
    Some(())
}

/// How far it may be turned, and how far that leads a stick aside.
#[inline(never)]
fn turn(angle: Option<Angle>, told: &SiteTold, to: &mut Figures) {
    to.put(angle.map_or(f64::NAN, Angle::in_degrees));
    let aside = match (told.stick(), angle) {
        (Some(stick), Some(angle)) => Turn { stick, angle }.offset().in_inches(),
        _ => f64::NAN,
    };
    to.put(aside);
}
