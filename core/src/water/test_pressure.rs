//! What a line is tested at.

use crate::unit::Pressure;

/// Between what a test lies, at the low point of the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestPressure {
    /// Not less.
    pub least: Pressure,
    /// It is the high point that asks for it.
    pub by_high: bool,
    /// Not more: the least of all ratings that were told, if any was.
    pub most: Option<Pressure>,
}

impl TestPressure {
    /// Whether there is such a pressure at all.
    #[must_use]
    pub fn can_be(&self) -> bool {
        self.most.is_none_or(|most| self.least <= most)
    }

    /// Whether a pressure at the low point is one.
    #[must_use]
    pub fn is(&self, test: Pressure) -> bool {
        test >= self.least && self.most.is_none_or(|most| test <= most)
    }
}

/// The test of a line of one working pressure: at its high point and at its low point not less than so many times it, and
/// nowhere more than the least rating. `fall` is what the water weighs between the two, told as pressure; a gauge at the low
/// point shows that much more than one at the high point.
#[must_use]
pub fn test_pressure(
    working: Pressure,
    fall: Pressure,
    times_high: f64,
    times_low: f64,
    most: Option<Pressure>,
) -> TestPressure {
    let high = working * times_high + fall;
    let low = working * times_low;
    TestPressure {
        least: high.max(low),
        by_high: high > low,
        most,
    }
}
