//! Working pressure and surge against what a pipe is rated for.

use crate::unit::Pressure;

/// What the rules of a family allow, as parts of its class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Working pressure and a surge that comes again and again, a part of the class.
    pub recurring: f64,
    /// Working pressure and a surge that comes rarely, as at a loss of power.
    pub occasional: f64,
    /// What is allowed for surge on top of the class.
    pub allowance: Pressure,
}

/// One pressure against its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// The pressure that is met.
    pub total: Pressure,
    /// The most that is allowed.
    pub limit: Pressure,
}

impl Check {
    /// Whether it is within its limit.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.total <= self.limit
    }
}

/// Working pressure, recurring surge and occasional surge against a class of which heat leaves a part: the working pressure
/// alone, with the recurring surge, with the occasional one.
#[must_use]
pub fn held_against(
    class: Pressure,
    left: f64,
    working: Pressure,
    surges: [Pressure; 2],
    limit: &Limit,
) -> [Check; 3] {
    let rated = class * left;
    let [recurring, occasional] = surges;
    [
        Check {
            total: working,
            limit: rated,
        },
        Check {
            total: working + recurring,
            limit: rated * limit.recurring + limit.allowance,
        },
        Check {
            total: working + occasional,
            limit: rated * limit.occasional + limit.allowance,
        },
    ]
}

/// A rating parted in two where surge is not computed: the most for working pressure, and what is kept for surge.
#[must_use]
pub fn working_share(rating: Pressure, share: f64) -> [Pressure; 2] {
    [rating * share, rating * (1.0 - share)]
}

/// The pressure that strains a wall to a stress: 2·σ/(DR − 1), DR being OD over wall.
#[must_use]
pub fn hoop_pressure(stress: Pressure, dimension_ratio: f64) -> Pressure {
    stress * 2.0 / (dimension_ratio - 1.0)
}

/// The stress of a wall under a pressure: P·(DR − 1)/2.
#[must_use]
pub fn hoop_stress(pressure: Pressure, dimension_ratio: f64) -> Pressure {
    pressure * (dimension_ratio - 1.0) / 2.0
}

/// How many swings of a stress PVC takes: scale · σ^−power, σ in megapascals.
#[must_use]
pub fn cycles(swing: Pressure, scale: f64, power: f64) -> f64 {
    scale * libm::pow(swing.in_mpa(), -power)
}
