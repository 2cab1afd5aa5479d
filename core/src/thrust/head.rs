//! The highest pressure that a joint will see, and what makes it.

use super::WATER;
use crate::unit::{Distance, Pressure};

/// Pressure of so much fall of the ground: 0.433 psi a foot.
#[must_use]
pub fn fall(below: Distance) -> Pressure {
    WATER * below
}

/// What makes the highest pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Governs {
    /// It was told as such.
    Told,
    /// The pump against a shut valve, and the fall to this point.
    Shutoff,
    /// The line at rest, and the fall to this point.
    Static,
    /// A regulator that has failed open.
    FailedOpen,
    /// Working pressure and surge.
    Surge,
    /// The test.
    Test,
}

impl Governs {
    /// The word in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Told => "told",
            Self::Shutoff => "shutoff",
            Self::Static => "static",
            Self::FailedOpen => "failed-open",
            Self::Surge => "working-and-surge",
            Self::Test => "test",
        }
    }
}

/// What is known of pressures. All but shutoff and static are those at this point.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Pressures {
    /// The highest, as told.
    pub told: Option<Pressure>,
    /// The pump against a shut valve.
    pub shutoff: Option<Pressure>,
    /// The line at rest, where it is measured.
    pub at_rest: Option<Pressure>,
    /// How far this point lies below pump or gauge; negative above.
    pub below: Distance,
    /// Behind a regulator that has failed open.
    pub failed_open: Option<Pressure>,
    /// Working pressure.
    pub working: Option<Pressure>,
    /// Surge on top of it.
    pub surge: Option<Pressure>,
    /// The test to be run.
    pub test: Option<Pressure>,
}

impl Pressures {
    /// Each pressure at this point with what makes it.
    pub fn each(&self) -> impl Iterator<Item = (Governs, Pressure)> {
        let fallen = |pressure: Option<Pressure>| pressure.map(|p| p + fall(self.below));
        let surge = self.surge.unwrap_or_default();
        [
            (Governs::Told, self.told),
            (Governs::Shutoff, fallen(self.shutoff)),
            (Governs::Static, fallen(self.at_rest)),
            (Governs::FailedOpen, self.failed_open),
            (Governs::Surge, self.working.map(|working| working + surge)),
            (Governs::Test, self.test),
        ]
        .into_iter()
        .filter_map(|(what, pressure)| Some((what, pressure?)))
    }

    /// The highest, the first of equals; `None` where nothing is known or nothing is above zero.
    #[must_use]
    pub fn highest(&self) -> Option<(Governs, Pressure)> {
        let mut most: Option<(Governs, Pressure)> = None;
        for one in self.each() {
            if one.1 > most.map_or(Pressure::ZERO, |held| held.1) {
                most = Some(one);
            }
        }
        most
    }
}
