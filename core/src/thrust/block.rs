//! Concrete behind a fitting: how much of it, in what shape, and when there is none.

use crate::unit::{Area, Distance, Duration, Force, Pressure, Torque, UnitWeight, Volume};

use super::WATER;

/// Area against undisturbed soil: factor · thrust / bearing.
#[must_use]
pub fn area(thrust: Force, factor: f64, bearing: Pressure) -> Area {
    thrust * factor / bearing
}

/// Concrete that a thrust upwards lifts: factor · force / weight; below groundwater it weighs so much less.
#[must_use]
pub fn gravity(up: Force, factor: f64, concrete: UnitWeight, wet: bool) -> Volume {
    let weight = if wet { concrete - WATER } else { concrete };
    up * factor / weight
}

/// Why a block is not to be reckoned on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoBlock {
    /// Less than 2 ft of cover.
    Cover,
    /// The ground behind it is fill, or was dug before.
    Fill,
    /// An open cut lies within reach behind it.
    Cut,
    /// Water is back before it has cured.
    Cure,
    /// It would have to be wider than twice its height.
    Shape,
}

/// What is asked of the ground before a block is reckoned on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// Cover on the pipe.
    pub cover: Distance,
    /// The least cover.
    pub least_cover: Distance,
    /// It is fill or was dug before.
    pub fill: bool,
    /// An open cut or old trench this far behind the block.
    pub cut: Option<Distance>,
    /// How far behind a block its wedge of soil reaches, in depths of the base.
    pub reach: f64,
    /// How long the concrete cures.
    pub cure: Duration,
    /// When water is back, where that is known.
    pub back: Option<Duration>,
}

/// A face against the soil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// Upright, centred on the pipe.
    pub height: Distance,
    /// Along the trench wall.
    pub width: Distance,
}

/// The tallest block whose base lies this deep: half of that.
#[must_use]
pub fn tallest(base: Distance) -> Distance {
    base / 2.0
}

/// How deep a block is between the pipe and the wall of a trench with the pipe in its middle.
#[must_use]
pub fn behind(trench: Distance, od: Distance) -> Distance {
    (trench - od) / 2.0
}

impl Shape {
    /// The face of an area at a pipe of this OD and cover: centred on the pipe, no taller than half the depth of its own base,
    /// no lower than the pipe, a square where that goes.
    #[must_use]
    pub fn of(area: Area, cover: Distance, od: Distance) -> Self {
        // Base = centre + h/2, and h is at most half of it: two thirds of the depth of the centre.
        let most = (cover + od / 2.0) * (2.0 / 3.0);
        let height = area.side().min(most).max(od);
        Self {
            height,
            width: area / height,
        }
    }

    /// Depth of its base.
    #[must_use]
    pub fn base(&self, cover: Distance, od: Distance) -> Distance {
        cover + od / 2.0 + self.height / 2.0
    }
}

/// The face of a block that may be reckoned on.
///
/// # Errors
///
/// Why it may not be.
pub fn face(area: Area, od: Distance, ground: &Ground) -> Result<Shape, NoBlock> {
    if ground.cover < ground.least_cover {
        return Err(NoBlock::Cover);
    }
    if ground.fill {
        return Err(NoBlock::Fill);
    }
    let shape = Shape::of(area, ground.cover, od);
    let reach = shape.base(ground.cover, od) * ground.reach;
    if ground.cut.is_some_and(|cut| cut < reach) {
        return Err(NoBlock::Cut);
    }
    if shape.width > shape.height * 2.0 {
        return Err(NoBlock::Shape);
    }
    if ground.back.is_some_and(|back| back < ground.cure) {
        return Err(NoBlock::Cure);
    }
    Ok(shape)
}

/// How safe a mass is from sliding: friction under its weight against the thrust.
#[must_use]
pub fn sliding(weight: Force, friction: f64, thrust: Force) -> f64 {
    weight * friction / thrust
}

/// How safe it is from turning over.
#[must_use]
pub fn turning(resisting: Torque, thrust: Force, arm: Distance) -> f64 {
    resisting / (thrust * arm)
}
