//! How long solvent cement takes.

use super::Nominal;
use crate::image::{Cure, Grade, Image};
use crate::unit::{Duration, Pressure, Temperature};

/// How long a glued joint is left alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wait {
    /// Until it may be moved.
    pub set: Duration,
    /// Until it takes the pressure that was asked for.
    pub cure: Duration,
    /// How far both can be trusted.
    pub grade: Grade,
}

/// Why there is no time for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoWait {
    /// The image has times up to this size only.
    TooLarge(Nominal),
    /// It has times above this temperature only.
    TooCold(Temperature),
    /// It has times up to this temperature only.
    TooHot(Temperature),
    /// In this size it has times up to this pressure only.
    TooMuchPressure(Pressure),
    /// It has no times at all.
    Nothing,
}

/// How long a joint of a size takes. At the edge of two bands of temperature the colder counts, and of sizes between two the larger,
/// so that nothing that is colder, larger, wetter or at more pressure ever takes less.
///
/// # Errors
///
/// Why the image has no time for it.
#[inline]
pub fn cure(
    image: &Image<'_>,
    size: Nominal,
    at: Temperature,
    pressure: Pressure,
    wet: bool,
) -> Result<Wait, NoWait> {
    let asked = size.in_quarters();
    let holds = |row: &Cure| row.size >= asked;
    let Some(column) = image.cures().filter(holds).map(|row| row.size).min() else {
        let largest = image.cures().map(|row| row.size).max();
        return Err(largest.map_or(NoWait::Nothing, |size| {
            NoWait::TooLarge(Nominal::quarters(size))
        }));
    };
    let degrees = at.in_fahrenheit();
    let (mut coldest, mut hottest) = (u8::MAX, 0);
    for row in image.cures().filter(|row| row.size == column) {
        if degrees > f64::from(row.over) && degrees <= f64::from(row.to) {
            return wait(&row, pressure, wet);
        }
        coldest = coldest.min(row.over);
        hottest = hottest.max(row.to);
    }
    let edge = |degrees: u8| Temperature::fahrenheit(f64::from(degrees));
    Err(if degrees <= f64::from(coldest) {
        NoWait::TooCold(edge(coldest))
    } else {
        NoWait::TooHot(edge(hottest))
    })
}

#[inline]
fn wait(row: &Cure, pressure: Pressure, wet: bool) -> Result<Wait, NoWait> {
    let most = Pressure::psi(f64::from(row.psi));
    let hours = match (pressure > most, row.high_hours) {
        (false, _) => row.hours,
        (true, 0) => return Err(NoWait::TooMuchPressure(most)),
        (true, hours) => hours,
    };
    let times = if wet { f64::from(row.wet) / 10.0 } else { 1.0 };
    Ok(Wait {
        set: Duration::minutes(f64::from(row.set)),
        cure: Duration::hours(f64::from(hours)) * times,
        grade: Grade::from_code(row.grade).ok_or(NoWait::Nothing)?,
    })
}
