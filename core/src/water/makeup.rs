//! What a line under test may take up, and what one did take up.

use crate::unit::{Distance, Duration, Flow, Pressure, Volume};

/// The flow that a tested length of gasketed line may take up: L·D·√P/constant, gallons an hour of feet, inches of nominal
/// size and psi. The constant is 148,000 today; owners' older forms have others.
#[must_use]
pub fn makeup(length: Distance, nominal: Distance, test: Pressure, constant: f64) -> Flow {
    let by = length.in_feet() * nominal.in_inches() * libm::sqrt(test.in_psi());
    Flow::gph(by / constant)
}

/// The older form, which counts joints: N·D·√P/constant. At 20 ft from joint to joint and 7,400 it is the other one.
#[must_use]
pub fn by_joints(joints: f64, nominal: Distance, test: Pressure, constant: f64) -> Flow {
    Flow::gph(joints * nominal.in_inches() * libm::sqrt(test.in_psi()) / constant)
}

/// What was lost in a test, or pumped back in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loss {
    /// How much.
    pub volume: Volume,
    /// In what time.
    pub time: Duration,
}

impl Loss {
    /// The flow that it was.
    #[must_use]
    pub fn flow(&self) -> Flow {
        self.volume / self.time
    }

    /// By the hundred joints, as old codes limit it.
    #[must_use]
    pub fn per_hundred_joints(&self, joints: f64) -> Flow {
        self.flow() * 100.0 / joints
    }

    /// Gallons a day by the mile and by the inch of size, as old codes limit it.
    #[must_use]
    pub fn gallons_per_day_mile_inch(&self, length: Distance, nominal: Distance) -> f64 {
        let a_day = (self.flow() * Duration::days(1.0)).in_gallons();
        a_day / (length.in_feet() / 5280.0) / nominal.in_inches()
    }
}
