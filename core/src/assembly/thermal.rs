//! How lengths of pipe grow and shrink.

use crate::image::Family;
use crate::unit::{Distance, Warming};

/// By how much a free length grows, or shrinks where it is negative. Soil holds a buried line back; what is left free of it moves so.
#[must_use]
pub fn movement(length: Distance, warming: Warming, growth_per_f: f64) -> Distance {
    length * (growth_per_f * warming.in_fahrenheit())
}

/// By how much of itself pipe of a family grows with each °F.
#[must_use]
pub fn growth(family: &Family) -> f64 {
    f64::from(family.thermal) * 1e-7
}
