//! What a foot of buried pipe takes: friction along it, and bearing of the soil against it.

use core::f64::consts::PI;

use super::Soil;
use crate::image::{Image, Material, Row};
use crate::unit::{Area, Distance, LineLoad, UnitWeight};

/// Weight of water: 62.4 lb/ft³.
pub const WATER: UnitWeight = UnitWeight::pcf(62.4);

/// The area that water pushes on: the circle of the pipe's OD, which is where a gasket seals.
#[must_use]
pub const fn circle_of(od: Distance) -> Area {
    Area::circle(od)
}

/// A pipe: how wide it is, and what a foot of it weighs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Outside diameter at the gasket.
    pub od: Distance,
    /// Weight of the pipe and of the water in it.
    pub full: LineLoad,
}

impl Line {
    /// A pipe of this OD and wall, of stuff of this weight, full of water. Where the wall is not known the lightest that it
    /// could be: nothing but water.
    #[must_use]
    #[inline]
    pub fn new(od: Distance, wall: Option<Distance>, stuff: UnitWeight) -> Self {
        let bore = wall.map_or(od, |wall| (od - wall * 2.0).max(Distance::ZERO));
        let inside = Area::circle(bore);
        let full = WATER * inside + stuff * (Area::circle(od) - inside);
        Self { od, full }
    }

    /// The area that water pushes on.
    #[must_use]
    pub const fn area(&self) -> Area {
        circle_of(self.od)
    }
}

/// A pipe of the tables: its OD at the gasket, and the least that a foot of it weighs full, by the thinnest wall of the classes that it
/// may be of, named by their labels, since the poorer grip makes the longer length.
#[must_use]
#[inline]
pub fn line_of(image: &Image<'_>, row: &Row, od: Distance, may_be: impl Fn(u8) -> bool) -> Line {
    let constants = image.thrust_constants();
    let stuff = match Material::from_code(image.family(row.family).material) {
        Some(Material::Iron) => constants.iron,
        Some(Material::Steel) => constants.steel,
        _ => constants.pvc,
    };
    let of = image.classes(row).filter(|class| may_be(class.label));
    let thinnest = of.map(|class| class.wall).filter(|wall| *wall > 0).min();
    let wall = thinnest.map(|mils| Distance::inches(f64::from(mils) / 1000.0));
    Line::new(od, wall, UnitWeight::pcf(f64::from(stuff)))
}

/// A pipe in the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bed {
    /// The pipe.
    pub line: Line,
    /// Depth of the top of it.
    pub cover: Distance,
    /// The soil; above groundwater.
    pub soil: Soil,
    /// It lies below groundwater.
    pub wet: bool,
    /// What is left of the grip of soil on it: one where it is bare, less in wrap.
    pub wrapped: f64,
}

impl Bed {
    #[inline]
    fn soil(&self) -> Soil {
        if self.wet {
            self.soil.submerged()
        } else {
            self.soil
        }
    }

    /// Weight of the pipe and its water on the bed; below groundwater less what it displaces.
    #[inline]
    fn dead(&self) -> LineLoad {
        let lift = if self.wet {
            WATER * self.line.area()
        } else {
            LineLoad::ZERO
        };
        (self.line.full - lift).max(LineLoad::ZERO)
    }

    /// Load of the earth above it.
    #[must_use]
    #[inline]
    pub fn earth(&self) -> LineLoad {
        self.soil().weight * self.cover * self.line.od
    }

    /// Friction along it. Soil clings to `around` of its surface: half of it at a bend, all of it where a line pulls straight.
    #[must_use]
    #[inline]
    pub fn friction(&self, around: f64) -> LineLoad {
        let soil = self.soil();
        let pressed = self.earth() * 2.0 + self.dead();
        let clings = soil.cohesion * soil.adhesion * (self.line.od * (PI * around));
        (clings + pressed * soil.slide()) * self.wrapped
    }

    /// Friction of the pipe lying bare in an open trench: its own weight and that of the water, nothing else.
    #[must_use]
    #[inline]
    pub fn bare(&self) -> LineLoad {
        self.dead() * self.soil().slide() * self.wrapped
    }

    /// Bearing of the trench wall against it.
    #[must_use]
    #[inline]
    pub fn bearing(&self) -> LineLoad {
        let soil = self.soil();
        let passive = soil.passive();
        let deep = self.cover + self.line.od / 2.0;
        let most = soil.weight * deep * passive + soil.cohesion * (2.0 * soil.root());
        most * self.line.od * soil.bearing
    }
}
