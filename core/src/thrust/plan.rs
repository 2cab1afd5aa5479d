//! How much pipe must be one piece on each side of a fitting, and where the count stops.

use super::fitting::thrust;
use super::legs::{AT_A_BEND, Work};
use super::{Bed, Fitting, Line, Procedure, Soil, Trench};
use crate::image::Image;
use crate::unit::{Angle, Distance, Force, LineLoad, Pressure};

/// What a stretch of line is stopped by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StopKind {
    /// A valve that is or may be shut, with pipe behind it.
    Valve,
    /// A dead end, with none.
    DeadEnd,
}

/// A shut valve or a dead end near the fitting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// How far from the fitting.
    pub at: Distance,
    /// What it is.
    pub kind: StopKind,
}

/// A fitting of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The fitting.
    pub fitting: Fitting,
    /// The line; of a reducer the larger pipe, of a branch the run.
    pub line: Line,
    /// What stops the first side.
    pub stop: Option<Stop>,
    /// What stops the branch.
    pub branch_stop: Option<Stop>,
}

/// Where it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    /// The highest pressure that it will see.
    pub pressure: Pressure,
    /// Depth of the top of the pipe; of an offset that of the upper line.
    pub cover: Distance,
    /// The soil, above groundwater.
    pub soil: Soil,
    /// It lies below groundwater.
    pub wet: bool,
    /// What is left of the grip of soil on the pipe.
    pub wrapped: f64,
    /// Safety factor.
    pub safety: f64,
    /// Length of a stick.
    pub stick: Distance,
}

/// A side of a fitting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The side of the stop; the larger pipe of a reducer, the upper line of an offset, the line that a dead end ends.
    First,
    /// The other.
    Second,
    /// The branch.
    Branch,
}

/// One side of a fitting. Its own joint is restrained however short the length is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Which.
    pub side: Side,
    /// What the fitting asks for on this side.
    pub own: Distance,
    /// What must be one piece, up to the stop where one is met.
    pub length: Distance,
    /// Bells within it, a stick apart.
    pub bells: u16,
    /// What is met within it.
    pub met: Option<Stop>,
    /// Behind a valve that is met: what must be one piece there.
    pub beyond: Distance,
    /// The length comes from a stop of the other side, whose reach runs across the fitting.
    pub joined: bool,
    /// The row of soil of the length, where it was looked for.
    pub soil: Option<u8>,
    /// That of the length behind a valve.
    pub beyond_soil: Option<u8>,
    /// What this side holds while it lies bare.
    pub until: Pressure,
}

/// The answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// The force on the fitting.
    pub thrust: Force,
    /// The sides that it has.
    pub legs: [Option<Leg>; 3],
    /// The pressure below which the same joints hold in an open trench, by the weight of pipe and water alone.
    pub until: Pressure,
    /// A branch that ends too soon to hold itself: how long a piece of the run must be to hold it.
    pub run_needed: Option<Distance>,
}

/// Why there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Above 90° tan(θ/2) runs away: two bends.
    TwoBends,
    /// No change of direction.
    NoAngle,
    /// No cover: nothing lies on the pipe.
    NoCover,
    /// No pressure.
    NoPressure,
    /// A reducer or branch to pipe that is no smaller, or larger than the line.
    Sizes,
    /// Sticks without length.
    NoStick,
    /// Nothing grips the pipe: of such soil there is no row.
    NoGrip,
}

/// Bells within a length that begins at a fitting: every stick ends in one. One at the very end counts.
#[must_use]
#[inline]
pub fn bells(length: Distance, stick: Distance) -> u16 {
    // The cast cuts off and holds to the ends of its range.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a count of sticks; the cast saturates"
    )]
    let count = (length / stick + 1e-9) as u16;
    count
}

impl Leg {
    pub(super) fn count(&mut self, stick: Distance) {
        self.bells = bells(self.length, stick);
    }

    /// Takes over what asks for more in another soil: on this side, up to a stop that is met in either, and behind it.
    fn worse(&mut self, other: &Self) {
        if (other.own, other.length) > (self.own, self.length) {
            self.soil = other.soil;
        }
        if other.beyond > self.beyond {
            (self.beyond, self.beyond_soil) = (other.beyond, other.beyond_soil);
        }
        self.own = self.own.max(other.own);
        self.length = self.length.max(other.length);
        self.bells = self.bells.max(other.bells);
        self.met = self.met.or(other.met);
        self.joined |= other.joined;
    }

    pub(super) fn nothing(side: Side) -> Self {
        Self {
            side,
            own: Distance::ZERO,
            length: Distance::ZERO,
            bells: 0,
            met: None,
            beyond: Distance::ZERO,
            joined: false,
            soil: None,
            beyond_soil: None,
            until: Pressure::ZERO,
        }
    }
}

/// What holds a fitting.
///
/// # Errors
///
/// [`Refused`]: what no length can be given for.
pub fn plan(asked: &Asked, site: &Site) -> Result<Plan, Refused> {
    plan_between(asked, None, site)
}

/// The same with a stop of the second side, too: `far` is as far from the fitting as it says, on the smaller pipe of a reducer
/// and the lower line of an offset. A fitting without a second side leaves it unread.
///
/// # Errors
///
/// [`Refused`], as of [`plan`].
pub fn plan_between(asked: &Asked, far: Option<Stop>, site: &Site) -> Result<Plan, Refused> {
    sane(asked, site)?;
    let work = Work { asked, site };
    let (mut legs, run_needed) = work.legs();
    meet(&mut legs, [asked.stop, far], &work);
    let [.., last] = &mut legs;
    if let (Some(leg), Some(stop), Some(reach)) = (last, asked.branch_stop, work.branch_reach()) {
        halt(leg, stop, reach, site.stick);
    }
    let held = legs.iter().flatten().filter(|leg| leg.own > Distance::ZERO);
    let until = held.fold(site.pressure, |least, leg| least.min(leg.until));
    // What no side asks for is not held by any; a stop that is met pulls along the line, bare as well.
    let asks = legs.iter().flatten().any(|leg| leg.own > Distance::ZERO);
    let stopped = legs
        .iter()
        .flatten()
        .any(|leg| leg.side != Side::Branch && leg.met.is_some());
    let until = if stopped {
        until.min(work.bare())
    } else {
        until
    };
    Ok(Plan {
        thrust: thrust(&asked.fitting, &asked.line, site.pressure),
        legs,
        until: if asks || stopped {
            until
        } else {
            Pressure::ZERO
        },
        run_needed,
    })
}

/// Stops of the two sides, each a thrust point of its own. Where the reach of one and the fitting's meet, all between them is one
/// piece, and what is left of its reach is asked for on the other side, up to a stop there.
fn meet(legs: &mut [Option<Leg>; 3], stops: [Option<Stop>; 2], work: &Work<'_>) {
    let [Some(first), second, _] = legs else {
        return;
    };
    let stick = work.site.stick;
    let [near, far] = stops;
    let far = far.filter(|_| second.is_some());
    let reaches = [work.reach(), work.far_reach()];
    let met = |stop: Option<Stop>, leg: &Leg, reach: Distance| {
        stop.filter(|stop| stop.at < leg.length + reach)
    };
    // What runs over the fitting is of stops that it meets by itself: one that lies farther has no reach left here.
    let near_rest = met(near, first, reaches[0]).map(|stop| reaches[0] - stop.at);
    if let Some(second) = second {
        let far_rest = met(far, second, reaches[1]).map(|stop| work.back_over(stop.at));
        for (leg, rest) in [(&mut *second, near_rest), (&mut *first, far_rest)] {
            if let Some(rest) = rest
                && rest > leg.length
            {
                leg.length = rest;
                leg.joined = true;
                leg.count(stick);
            }
        }
        if let Some(stop) = far {
            halt(second, stop, reaches[1], stick);
        }
    }
    if let Some(stop) = near {
        halt(first, stop, reaches[0], stick);
    }
}

/// The count of a side stops at a valve or a dead end.
fn halt(leg: &mut Leg, stop: Stop, reach: Distance, stick: Distance) {
    if stop.at >= leg.length + reach {
        return;
    }
    leg.beyond = match stop.kind {
        // Water may stand behind it with this side empty.
        StopKind::Valve => reach.max(leg.length - stop.at),
        StopKind::DeadEnd => Distance::ZERO,
    };
    if stop.kind == StopKind::DeadEnd && leg.own > stop.at {
        leg.until = leg.until * (stop.at / leg.own);
    }
    leg.met = Some(stop);
    leg.length = stop.at;
    leg.count(stick);
}

fn sane(asked: &Asked, site: &Site) -> Result<(), Refused> {
    if let Some(angle) = asked.fitting.angle() {
        if angle > Angle::degrees(90.0) {
            return Err(Refused::TwoBends);
        }
        if angle.in_degrees() <= 0.0 {
            return Err(Refused::NoAngle);
        }
    }
    if let Fitting::EvenWye { between, .. } = asked.fitting
        && (between.in_degrees() <= 0.0 || between >= Angle::degrees(180.0))
    {
        return Err(Refused::NoAngle);
    }
    if site.pressure <= Pressure::ZERO {
        return Err(Refused::NoPressure);
    }
    if site.cover <= Distance::ZERO {
        return Err(Refused::NoCover);
    }
    if site.stick <= Distance::ZERO {
        return Err(Refused::NoStick);
    }
    let od = asked.line.od;
    let sizes = match &asked.fitting {
        Fitting::Reducer { to } => to.od < od && to.od > Distance::ZERO,
        Fitting::Tee { branch, .. } | Fitting::Wye { branch } | Fitting::EvenWye { branch, .. } => {
            branch.od <= od && branch.od > Distance::ZERO
        }
        _ => od > Distance::ZERO,
    };
    if !sizes {
        return Err(Refused::Sizes);
    }
    let bed = Bed {
        line: asked.line,
        cover: site.cover,
        soil: site.soil,
        wet: site.wet,
        wrapped: site.wrapped,
    };
    if bed.friction(AT_A_BEND) > LineLoad::ZERO {
        Ok(())
    } else {
        Err(Refused::NoGrip)
    }
}

/// The same in a soil that nobody knows: each side by the row of the procedure that asks for the most there at this depth, with
/// its index; and for the bare pipe the row that grips it least. `site.soil` is not looked at.
///
/// # Errors
///
/// [`Refused`], as of [`plan`]; [`Refused::NoGrip`] where no row may be used in that trench.
pub fn worst(
    image: &Image<'_>,
    procedure: Procedure,
    trench: Option<Trench>,
    asked: &Asked,
    site: &Site,
) -> Result<Plan, Refused> {
    worst_between(image, procedure, trench, (asked, None), site)
}

/// The same with a stop of the second side, too, as of [`plan_between`].
///
/// # Errors
///
/// [`Refused`], as of [`worst`].
pub fn worst_between(
    image: &Image<'_>,
    procedure: Procedure,
    trench: Option<Trench>,
    (asked, far): (&Asked, Option<Stop>),
    site: &Site,
) -> Result<Plan, Refused> {
    let mut held: Option<Plan> = None;
    for (index, row) in (0u8..).zip(image.soils()) {
        if image.trench(row.trench).procedure != procedure as u8 {
            continue;
        }
        let Some((soil, _)) = Soil::of(image, index, trench) else {
            continue;
        };
        let mut new = plan_between(asked, far, &Site { soil, ..*site })?;
        for leg in new.legs.iter_mut().flatten() {
            (leg.soil, leg.beyond_soil) = (Some(index), Some(index));
        }
        let Some(old) = &mut held else {
            held = Some(new);
            continue;
        };
        let sides = old.legs.iter_mut().flatten();
        for (old, new) in sides.zip(new.legs.iter().flatten()) {
            old.worse(new);
        }
        old.until = old.until.min(new.until);
        old.run_needed = match (old.run_needed, new.run_needed) {
            (Some(old), Some(new)) => Some(old.max(new)),
            (old, new) => old.or(new),
        };
    }
    held.ok_or(Refused::NoGrip)
}
