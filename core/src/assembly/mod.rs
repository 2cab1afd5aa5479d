//! How a joint is made up: bolts and their order, depths, bevels' reach, how far a bell turns, how long cement takes.
//!
//! The goal is that a crew works from the answer alone. Figures are looked up in the image; what is computed here is geometry:
//! a bolt through what it holds together, the next hole of a circle, how far a turned stick leads aside. Nothing allocates
//! or panics, so that a handheld asks the same functions.
//!
//! Sizes are nominal inches, a [`Nominal`]. A DN is none: its flanges are drilled to another standard, and its joints are others.

mod deflection;
mod flange;
mod insertion;
mod mechanical;
mod solvent;
mod star;
#[cfg(test)]
mod tests;
mod thermal;

pub use deflection::{Bell, Turn, allowed, allowed_in_mechanical};
pub use flange::{Drilling, FlangeSet, Grip, across_flats, flange};
pub use insertion::{mark, solvent_socket};
pub use mechanical::{MechanicalSet, mechanical};
pub use solvent::{NoWait, Wait, cure};
pub use star::{passes, star};
pub use thermal::{growth, movement};

/// A nominal size in whole quarters of an inch, up to 63-3/4 in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Nominal(u8);

impl Nominal {
    /// So many quarters of an inch.
    #[must_use]
    pub const fn quarters(quarters: u8) -> Self {
        Self(quarters)
    }

    /// From what [`crate::image::Image::measure`] says of a size in inches, sixty-fourths; `None` where it is no whole quarter or too
    /// large. Do not ask for a DN or a size in millimetres.
    #[must_use]
    pub fn of_measure(sixty_fourths: u16) -> Option<Self> {
        if !sixty_fourths.is_multiple_of(16) {
            return None;
        }
        u8::try_from(sixty_fourths / 16).ok().map(Self)
    }

    /// Quarters of an inch.
    #[must_use]
    pub const fn in_quarters(self) -> u8 {
        self.0
    }

    /// Inches.
    #[must_use]
    pub fn in_inches(self) -> f64 {
        f64::from(self.0) / 4.0
    }
}

/// Sixteenths of an inch, as bolts are counted.
fn sixteenths(count: u16) -> crate::unit::Distance {
    crate::unit::Distance::inches(f64::from(count) / 16.0)
}
