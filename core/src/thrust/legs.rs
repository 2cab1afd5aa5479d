//! What each side of a fitting must hold by itself, before anything near it is looked at.

use super::{Asked, Bed, Fitting, Leg, Line, Side, Site, StopKind, Turn};
use crate::unit::{Angle, Area, Distance, Force, LineLoad, Pressure};

/// How much of the pipe's skin is counted where soil clings to it: half at a bend, which lies against one side.
pub(super) const AT_A_BEND: f64 = 0.5;
/// All of it where a line pulls straight.
const STRAIGHT: f64 = 1.0;

/// What one side must hold, and how.
struct Pull {
    force: Force,
    holds: LineLoad,
    bare: LineLoad,
}

impl Pull {
    /// The length that holds it.
    #[inline]
    fn length(&self) -> Distance {
        self.force / self.holds
    }

    /// The pressure that the same length holds bare, by its own weight.
    #[inline]
    fn until(&self, pressure: Pressure) -> Pressure {
        pressure * (self.bare * self.length() / self.force).min(1.0)
    }
}

impl Site {
    #[inline]
    fn bed(&self, line: Line, deeper: Distance) -> Bed {
        Bed {
            line,
            cover: self.cover + deeper,
            soil: self.soil,
            wet: self.wet,
            wrapped: self.wrapped,
        }
    }

    #[inline]
    fn pull(&self, bed: &Bed, area: Area, times: f64, holds: LineLoad) -> Pull {
        Pull {
            force: self.pressure * area * (times * self.safety),
            holds,
            bare: bed.bare(),
        }
    }

    #[inline]
    fn straight(&self, bed: &Bed, area: Area) -> Pull {
        self.pull(bed, area, 1.0, bed.friction(STRAIGHT))
    }

    #[inline]
    fn turn(&self, bed: &Bed, angle: Angle, bears: bool) -> Pull {
        let against = if bears {
            bed.bearing() / 2.0
        } else {
            LineLoad::ZERO
        };
        let holds = bed.friction(AT_A_BEND) + against;
        self.pull(bed, bed.line.area(), angle.half().tan(), holds)
    }
}

/// The length that holds one side of a level bend, or, without an angle, of a dead end or a branch as large as its run; and the
/// pressure that it holds bare. It is what [`super::plan`] gives where nothing stops the line.
#[must_use]
#[inline]
pub fn one_side(line: Line, angle: Option<Angle>, site: &Site) -> (Distance, Pressure) {
    let bed = site.bed(line, Distance::ZERO);
    let pull = match angle {
        Some(angle) => site.turn(&bed, angle, true),
        None => site.straight(&bed, line.area()),
    };
    (pull.length(), pull.until(site.pressure))
}

/// A fitting and where it lies.
pub(super) struct Work<'a> {
    pub(super) asked: &'a Asked,
    pub(super) site: &'a Site,
}

impl Work<'_> {
    fn bed(&self, line: Line, deeper: Distance) -> Bed {
        self.site.bed(line, deeper)
    }

    /// The branch with its middle level with that of the run.
    fn branch_bed(&self, branch: Line) -> Bed {
        self.bed(branch, (self.asked.line.od - branch.od) / 2.0)
    }

    fn straight(&self, bed: &Bed, area: Area) -> Pull {
        self.site.straight(bed, area)
    }

    fn turn(&self, bed: &Bed, angle: Angle, bears: bool) -> Pull {
        self.site.turn(bed, angle, bears)
    }

    fn leg(&self, side: Side, pull: &Pull) -> Leg {
        let own = pull.length();
        let mut leg = Leg::nothing(side);
        (leg.own, leg.length) = (own, own);
        leg.count(self.site.stick);
        leg.until = pull.until(self.site.pressure);
        leg
    }

    /// How far a dead end of the line reaches.
    pub(super) fn reach(&self) -> Distance {
        let pull = self.straight(
            &self.bed(self.asked.line, Distance::ZERO),
            self.asked.line.area(),
        );
        pull.force / pull.holds
    }

    /// The bed of the second side: the smaller pipe of a reducer, the lower line of an offset.
    fn far_bed(&self) -> Bed {
        let line = self.asked.line;
        match self.asked.fitting {
            // The smaller pipe lies with its middle level with that of the larger.
            Fitting::Reducer { to } => self.bed(to, (line.od - to.od) / 2.0),
            Fitting::Offset { drop, .. } => self.bed(line, drop.unwrap_or_default()),
            _ => self.bed(line, Distance::ZERO),
        }
    }

    /// How far a dead end of the second side reaches.
    pub(super) fn far_reach(&self) -> Distance {
        let bed = self.far_bed();
        let pull = self.straight(&bed, bed.line.area());
        pull.force / pull.holds
    }

    /// What a stop of the second side, so far from the fitting, leaves to hold on the first: the push on the whole line less
    /// the drag of the pipe up to it.
    pub(super) fn back_over(&self, at: Distance) -> Distance {
        let near = self.straight(
            &self.bed(self.asked.line, Distance::ZERO),
            self.asked.line.area(),
        );
        let far = self.far_bed().friction(STRAIGHT);
        (near.force - far * at).max(Force::ZERO) / near.holds
    }

    /// The pressure that a dead end of the line sees before its reach, lying bare, gives way.
    pub(super) fn bare(&self) -> Pressure {
        let part = |bed: Bed| {
            let pull = self.straight(&bed, bed.line.area());
            (pull.bare / pull.holds).min(1.0)
        };
        let near = part(self.bed(self.asked.line, Distance::ZERO));
        self.site.pressure * near.min(part(self.far_bed()))
    }

    /// How far one of the branch does, where there is one.
    pub(super) fn branch_reach(&self) -> Option<Distance> {
        let (Fitting::Tee { branch, .. }
        | Fitting::Wye { branch }
        | Fitting::EvenWye { branch, .. }) = self.asked.fitting
        else {
            return None;
        };
        let pull = self.straight(&self.branch_bed(branch), branch.area());
        Some(pull.force / pull.holds)
    }

    /// The sides, and how long a piece of the run must be where the branch ends too soon.
    pub(super) fn legs(&self) -> ([Option<Leg>; 3], Option<Distance>) {
        let asked = self.asked;
        let here = self.bed(asked.line, Distance::ZERO);
        let (first, second) = (Side::First, Side::Second);
        let nothing = |side| Some(Leg::nothing(side));
        let legs = match &asked.fitting {
            Fitting::Bend { angle, turn } => {
                let pull = self.turn(&here, *angle, *turn != Turn::Down);
                [
                    Some(self.leg(first, &pull)),
                    Some(self.leg(second, &pull)),
                    None,
                ]
            }
            Fitting::Offset { angle, drop } => {
                let low = self.bed(asked.line, drop.unwrap_or_default());
                // The upper bend of a drop pushes up, where no wall bears.
                let upper = self.turn(&here, *angle, drop.is_none());
                let lower = self.turn(&low, *angle, true);
                [
                    Some(self.leg(first, &upper)),
                    Some(self.leg(second, &lower)),
                    None,
                ]
            }
            Fitting::Tee { branch, run_held } => {
                let (leg, needed) = self.branch(*branch, *run_held, &here);
                return ([nothing(first), nothing(second), Some(leg)], needed);
            }
            Fitting::Wye { branch } => {
                let pull = self.straight(&self.branch_bed(*branch), branch.area());
                let leg = self.leg(Side::Branch, &pull);
                [nothing(first), nothing(second), Some(leg)]
            }
            Fitting::EvenWye { branch, between } => {
                // Each branch holds what pulls it off; the run, what of it the two do not push back.
                let back = branch.area() * (2.0 * between.half().cos());
                let pull = self.straight(&here, (asked.line.area() - back).max(Area::ZERO));
                let off = self.straight(&self.branch_bed(*branch), branch.area());
                [
                    Some(self.leg(first, &pull)),
                    None,
                    Some(self.leg(Side::Branch, &off)),
                ]
            }
            Fitting::Reducer { to } => {
                let pull = self.straight(&here, asked.line.area() - to.area());
                [Some(self.leg(first, &pull)), nothing(second), None]
            }
            Fitting::DeadEnd => {
                let pull = self.straight(&here, asked.line.area());
                [Some(self.leg(first, &pull)), None, None]
            }
            Fitting::Valve => {
                let pull = self.straight(&here, asked.line.area());
                [
                    Some(self.leg(first, &pull)),
                    Some(self.leg(second, &pull)),
                    None,
                ]
            }
        };
        (legs, None)
    }

    /// The branch of a tee: what the run in one piece does not bear.
    fn branch(&self, branch: Line, run_held: Distance, run: &Bed) -> (Leg, Option<Distance>) {
        let mut pull = self.straight(&self.branch_bed(branch), branch.area());
        let all = pull.force;
        // The longer of the two forms in use: the factor stands on the thrust alone.
        pull.force = (all - run.bearing() * run_held).max(Force::ZERO);
        let mut leg = self.leg(Side::Branch, &pull);
        // Bare, the run bears on nothing either.
        leg.until = self.site.pressure * (pull.bare * leg.own / all).min(1.0);
        let needed = self.asked.branch_stop.and_then(|stop| {
            let short = stop.kind == StopKind::DeadEnd && stop.at < leg.own;
            short.then(|| (all - pull.holds * stop.at).max(Force::ZERO) / run.bearing())
        });
        (leg, needed)
    }
}
