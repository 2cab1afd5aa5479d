//! Fittings, and the force that the water in them is off balance by.

use crate::unit::{Angle, Area, Distance, Force, Pressure};

use super::Line;

/// Which way a bend turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// On the level: thrust into the side of the trench.
    Level,
    /// The line turns up: thrust down, into the bed.
    Up,
    /// The line turns down: thrust up, where only weight is.
    Down,
}

/// A fitting as far as thrust goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fitting {
    /// A bend of this change of direction.
    Bend {
        /// Change of direction, above 0 and at most 90°.
        angle: Angle,
        /// Which way.
        turn: Turn,
    },
    /// Two bends that take a line over and on in its direction; `drop` where they take it deeper, from centre to centre.
    Offset {
        /// Change of direction of each.
        angle: Angle,
        /// How much deeper the second lies; none where both lie level.
        drop: Option<Distance>,
    },
    /// A branch at right angles. `run_held` is how long a piece of the run is, between the first joints on both sides of it,
    /// where both are restrained; nothing where they are not.
    Tee {
        /// The branch.
        branch: Line,
        /// Length of run in one piece.
        run_held: Distance,
    },
    /// A branch at a slant, reckoned as the dead end of its branch, with no help of the run.
    Wye {
        /// The branch.
        branch: Line,
    },
    /// A run that forks into two branches of one size, one on either side.
    EvenWye {
        /// Each branch.
        branch: Line,
        /// The angle between them, above 0 and below 180°.
        between: Angle,
    },
    /// A step to smaller pipe.
    Reducer {
        /// The smaller pipe.
        to: Line,
    },
    /// A cap, a plug, a blind flange, a hydrant.
    DeadEnd,
    /// A shut valve, with the line empty on either side.
    Valve,
}

/// The force on a bend, through the middle of it: 2·P·A·sin(θ/2).
#[must_use]
#[inline]
pub fn bend(pressure: Pressure, area: Area, angle: Angle) -> Force {
    pressure * area * (2.0 * angle.half().sin())
}

/// The force on a branch, a dead end or a shut valve: P·A.
#[must_use]
#[inline]
pub fn tee(pressure: Pressure, area: Area) -> Force {
    pressure * area
}

/// The force on a reducer, towards the small end: P·(A - a).
#[must_use]
pub fn reducer(pressure: Pressure, large: Area, small: Area) -> Force {
    pressure * (large - small).max(Area::ZERO)
}

/// The force on an even wye along its run, the sum of what pushes on its three mouths: 2·P·a·cos(θ/2) - P·A with θ between the
/// branches. Above zero it pushes back along the run, as on a manifold; below, towards the fork, as on a reducer. From memory;
/// geometry.
#[must_use]
pub fn wye(pressure: Pressure, run: Area, branch: Area, between: Angle) -> Force {
    pressure * branch * (2.0 * between.half().cos()) - pressure * run
}

/// The force on a fitting of a line. Of an offset it is that on each of its bends.
#[must_use]
pub fn thrust(fitting: &Fitting, line: &Line, pressure: Pressure) -> Force {
    match fitting {
        Fitting::Bend { angle, .. } | Fitting::Offset { angle, .. } => {
            bend(pressure, line.area(), *angle)
        }
        Fitting::Tee { branch, .. } | Fitting::Wye { branch } => tee(pressure, branch.area()),
        Fitting::EvenWye { branch, between } => {
            let along = wye(pressure, line.area(), branch.area(), *between);
            along.max(Force::ZERO - along)
        }
        Fitting::Reducer { to } => reducer(pressure, line.area(), to.area()),
        Fitting::DeadEnd | Fitting::Valve => tee(pressure, line.area()),
    }
}

impl Fitting {
    /// The change of direction, where it has one.
    #[must_use]
    pub const fn angle(&self) -> Option<Angle> {
        match self {
            Self::Bend { angle, .. } | Self::Offset { angle, .. } => Some(*angle),
            _ => None,
        }
    }

    /// Up and level parts of the thrust of a bend with one leg level: P·A·sin θ and P·A·(1 - cos θ). From memory; geometry.
    #[must_use]
    pub fn upright(pressure: Pressure, area: Area, angle: Angle) -> (Force, Force) {
        let push = pressure * area;
        (push * angle.sin(), push * (1.0 - angle.cos()))
    }
}
