//! The speed of a wave of pressure in a full pipe.

use crate::unit::{Acceleration, Distance, Pressure, Speed, UnitWeight};

/// What a set of constants says of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// How fast sound is in it, unconfined.
    pub sound: Speed,
    /// Its bulk modulus.
    pub bulk: Pressure,
}

/// How a line can move along when it is stretched, which stiffens it or does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchorage {
    /// Joints that slide throughout, as gaskets do: 1.
    Joints,
    /// Held at its upper end alone: 1 − ν/2.
    OneEnd,
    /// Held against all movement along it: 1 − ν².
    Throughout,
}

impl Anchorage {
    /// The factor on what the wall gives, by Poisson's ratio.
    #[must_use]
    pub fn factor(self, poisson: f64) -> f64 {
        match self {
            Self::Joints => 1.0,
            Self::OneEnd => 1.0 - poisson / 2.0,
            Self::Throughout => 1.0 - poisson * poisson,
        }
    }
}

/// A pipe, as far as it gives way to pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shell {
    /// Inside diameter over wall; of plastic pipe the dimension ratio less two.
    pub ratio: f64,
    /// Modulus of elasticity of the wall for a short load.
    pub stiffness: Pressure,
    /// The factor of [`Anchorage`].
    pub anchorage: f64,
}

impl Shell {
    /// Of an OD and a wall. `None` where the wall is nothing or leaves no bore.
    #[must_use]
    pub fn of(od: Distance, wall: Distance, stiffness: Pressure, anchorage: f64) -> Option<Self> {
        let bore = od - wall * 2.0;
        (wall > Distance::ZERO && bore > Distance::ZERO).then(|| Self {
            ratio: bore / wall,
            stiffness,
            anchorage,
        })
    }
}

/// How fast sound is in a liquid: √(K·g/γ).
#[must_use]
pub fn sound(bulk: Pressure, weight: UnitWeight, gravity: Acceleration) -> Speed {
    // K/γ is a height; what falls from half of it has that speed.
    let height = (bulk / weight).in_feet();
    Speed::feet_per_second(libm::sqrt(height * gravity.in_feet_per_second_squared()))
}

/// The wave speed: a = a₀ / √(1 + (K/E)·(d/t)·c).
#[must_use]
pub fn wave_speed(water: &Water, shell: &Shell) -> Speed {
    let gives = water.bulk / shell.stiffness * shell.ratio * shell.anchorage;
    water.sound / libm::sqrt(1.0 + gives)
}
