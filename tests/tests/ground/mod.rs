//! A pipe in the ground in feet and pounds, and the lengths of it by the equations written out anew: the second opinion that the
//! tests of thrust share.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "each file of tests takes what it needs"
)]

use proptest::prelude::*;
use springline_core::thrust::{Asked, Fitting, Line, Plan, Site, Soil, Turn, plan};
use springline_core::unit::{Angle, Distance, LineLoad, Pressure, UnitWeight};

/// A fitting with nothing near it.
pub fn asked(fitting: Fitting, line: Line) -> Asked {
    Asked {
        fitting,
        line,
        stop: None,
        branch_stop: None,
    }
}

/// The length of the side that has the longest.
pub fn longest(plan: &Plan) -> Distance {
    let legs = plan.legs.iter().flatten();
    legs.fold(Distance::ZERO, |most, leg| most.max(leg.own))
}

/// Restrained length by the equations written out anew, in feet and pounds.
#[derive(Clone, Copy, Debug)]
pub struct Plain {
    pub psi: f64,
    pub inches: f64,
    pub cover: f64,
    pub weight: f64,
    pub degrees: f64,
    pub grip: f64,
    pub cohesion: f64,
    pub adhesion: f64,
    pub bearing: f64,
    pub full: f64,
    pub wet: bool,
    pub wrapped: f64,
}

impl Plain {
    pub fn site(&self) -> Site {
        Site {
            pressure: Pressure::psi(self.psi),
            cover: Distance::feet(self.cover),
            soil: Soil {
                friction: Angle::degrees(self.degrees),
                grip: self.grip,
                cohesion: Pressure::psf(self.cohesion),
                adhesion: self.adhesion,
                weight: UnitWeight::pcf(self.weight),
                bearing: self.bearing,
            },
            wet: self.wet,
            wrapped: self.wrapped,
            safety: 1.5,
            stick: Distance::feet(20.0),
        }
    }

    pub fn line(&self) -> Line {
        Line {
            od: Distance::inches(self.inches),
            full: LineLoad::lbf_per_foot(self.full),
        }
    }

    pub fn push(&self) -> f64 {
        self.psi * std::f64::consts::FRAC_PI_4 * self.inches.powi(2)
    }

    pub fn friction(&self, skin: f64) -> f64 {
        let d = self.inches / 12.0;
        let (mut weight, mut full) = (self.weight, self.full);
        if self.wet {
            weight -= 62.4;
            full = (full - 62.4 * std::f64::consts::FRAC_PI_4 * d * d).max(0.0);
        }
        let slide = (self.grip * self.degrees).to_radians().tan();
        let clings = self.adhesion * self.cohesion * std::f64::consts::PI * d * skin;
        self.wrapped * (clings + (2.0 * weight * self.cover * d + full) * slide)
    }

    pub fn wall(&self) -> f64 {
        let d = self.inches / 12.0;
        let weight = if self.wet {
            self.weight - 62.4
        } else {
            self.weight
        };
        let n = (45.0 + self.degrees / 2.0).to_radians().tan();
        self.bearing * d * (weight * (self.cover + d / 2.0) * n * n + 2.0 * self.cohesion * n)
    }

    pub fn level(&self, angle: f64) -> f64 {
        1.5 * self.push() * (angle / 2.0).to_radians().tan()
            / (self.friction(0.5) + self.wall() / 2.0)
    }

    pub fn dead_end(&self) -> f64 {
        1.5 * self.push() / self.friction(1.0)
    }
}

/// Any site within reason.
pub fn any_site() -> impl Strategy<Value = Plain> {
    let pipe = (5.0..350.0_f64, 2.0..50.0_f64, 1.0..20.0_f64, 1.0..400.0_f64);
    let soil = (
        64.0..130.0_f64,
        10.0..40.0_f64,
        0.3..1.0_f64,
        0.0..600.0_f64,
    );
    let rest = (0.0..0.8_f64, 0.2..1.0_f64, any::<bool>(), 0.5..1.0_f64);
    (pipe, soil, rest).prop_map(|(pipe, soil, rest)| Plain {
        psi: pipe.0,
        inches: pipe.1,
        cover: pipe.2,
        full: pipe.3,
        weight: soil.0,
        degrees: soil.1,
        grip: soil.2,
        cohesion: soil.3,
        adhesion: rest.0,
        bearing: rest.1,
        wet: rest.2,
        wrapped: rest.3,
    })
}

/// The plan for a fitting there.
pub fn found(plain: &Plain, fitting: Fitting) -> Plan {
    plan(&asked(fitting, plain.line()), &plain.site()).expect("a plan")
}

/// A level bend.
pub fn level(degrees: f64) -> Fitting {
    Fitting::Bend {
        angle: Angle::degrees(degrees),
        turn: Turn::Level,
    }
}

/// Alike to nine digits.
pub fn near(got: f64, want: f64) -> bool {
    (got - want).abs() <= 1e-9 * want.abs().max(1.0)
}

/// An 8 in line in silty sand.
pub fn plain() -> Plain {
    Plain {
        psi: 150.0,
        inches: 9.05,
        cover: 3.0,
        weight: 110.0,
        degrees: 30.0,
        grip: 0.6,
        cohesion: 0.0,
        adhesion: 0.0,
        bearing: 0.6,
        full: 30.0,
        wet: false,
        wrapped: 1.0,
    }
}
