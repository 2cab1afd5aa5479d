//! How far joints are turned, and where that leads.

use super::{Nominal, mechanical};
use crate::image::{Deflection, Grade, Image, Material};
use crate::unit::{Angle, Distance};

/// A gasketed bell that is turned after it is home.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Bell {
    /// An iron push-on bell, of pipe or of a fitting.
    PushOn = 0,
    /// A bell of PVC pipe or of a PVC fitting.
    Plastic = 1,
}

impl Bell {
    /// Both.
    pub const ALL: [Self; 2] = [Self::PushOn, Self::Plastic];

    /// The bell of a code in the image; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        Some(match code {
            0 => Self::PushOn,
            1 => Self::Plastic,
            _ => return None,
        })
    }

    /// The word for it in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::PushOn => "push-on",
            Self::Plastic => "bell",
        }
    }
}

/// The most that a pipe may be turned in a bell; `None` where the image has no figure.
#[must_use]
#[inline]
pub fn allowed(
    image: &Image<'_>,
    bell: Bell,
    pipe: Material,
    size: Nominal,
) -> Option<(Angle, Grade)> {
    let holds = |row: &Deflection| {
        row.bell == bell as u8 && row.material == pipe as u8 && row.size >= size.in_quarters()
    };
    // Rows rise, so that the first that holds the size is the closest.
    let row = image.deflections().find(holds)?;
    let angle = Angle::degrees_and_minutes(0.0, f64::from(row.minutes));
    Some((angle, Grade::from_code(row.grade)?))
}

/// The most that a pipe may be turned in a mechanical joint: figures are those of bare iron with a plain gland, so that there is
/// none for anything else, and none with a restraint on.
#[must_use]
#[inline]
pub fn allowed_in_mechanical(
    image: &Image<'_>,
    pipe: Material,
    restrained: bool,
    size: Nominal,
) -> Option<Angle> {
    if pipe != Material::Iron || restrained {
        return None;
    }
    mechanical(image, size)?.deflection
}

/// Sticks of a length, each turned by an angle from the one before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// How long a stick is.
    pub stick: Distance,
    /// By how much it is turned.
    pub angle: Angle,
}

impl Turn {
    /// How far the end of a stick is led aside: L tan δ, as tables print it; measured along the turned stick it is L sin δ,
    /// at 8° a hundredth less.
    #[must_use]
    #[inline]
    pub fn offset(&self) -> Distance {
        self.stick * self.angle.tan()
    }

    /// The radius of the curve that turned sticks make: L / (2 sin δ/2). Infinite where nothing is turned.
    #[must_use]
    pub fn radius(&self) -> Distance {
        self.stick / (2.0 * self.angle.half().sin())
    }

    /// How many joints make a change of direction; `None` where nothing is turned, or more than a thousand.
    #[must_use]
    pub fn joints(&self, direction: Angle) -> Option<u16> {
        let count = libm::ceil(direction.in_degrees() / self.angle.in_degrees() - 1e-9);
        let fits = (0.0..=1000.0).contains(&count);
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "from 0 to 1000"
        )]
        fits.then_some(count as u16)
    }
}
