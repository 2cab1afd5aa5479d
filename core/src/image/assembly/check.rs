//! What the sections for whoever makes a joint up must hold.

use super::super::check::{Sections, each};
use super::super::layout::section;
use super::super::{Grade, Image, ImageError, Material};
use super::Assembly;
use crate::assembly::{Bell, Drilling};

/// Most that a joint is turned, minutes of arc: far more than any is.
const MOST_MINUTES: u16 = 15 * 60;

/// The sections, not yet checked.
pub(in super::super) fn tables<'a>(
    sections: &Sections<'a, '_>,
) -> Result<Assembly<'a>, ImageError> {
    Ok(Assembly {
        flanges: sections.table(section::FLANGES)?,
        mechanical: sections.table(section::MECHANICAL)?,
        cures: sections.table(section::CURES)?,
        sockets: sections.table(section::SOCKETS)?,
        deflections: sections.table(section::DEFLECTIONS)?,
    })
}

/// Checks everything that an accessor and the computations rely on: there are bolts, they stand on a circle, codes are known,
/// and the first row that holds a size is the right one.
pub(in super::super) fn contents(image: &Image<'_>) -> Result<(), ImageError> {
    let graded = |code: u8| Grade::from_code(code).is_some();
    let mut last = (0, 0);
    each(section::FLANGES, image.flanges(), |row| {
        let drilling = row.drilling_and_grades & 1;
        let at = (drilling, row.size);
        let rising = last < at;
        last = at;
        rising
            && Drilling::from_code(drilling).is_some()
            && graded(row.drilling_and_grades >> 1 & 7)
            && graded(row.drilling_and_grades >> 4)
            && row.bolts > 0
            && row.bolts.is_multiple_of(4)
            && row.bolt > 0
            && row.circle > u16::from(row.bolt)
    })?;
    let mut last = 0;
    each(section::MECHANICAL, image.mechanical_joints(), |row| {
        let rising = last < row.size;
        last = row.size;
        rising
            && row.bolts > 0
            && row.bolts.is_multiple_of(2)
            && row.bolt > 0
            && row.socket > 0
            && row.torque_low <= row.torque_high
            && row.minutes <= MOST_MINUTES
            && graded(row.grades & 15)
            && graded(row.grades >> 4)
    })?;
    let mut last = (0, 0);
    each(section::CURES, image.cures(), |row| {
        let at = (row.size, u8::MAX - row.over);
        let rising = last < at;
        last = at;
        rising && row.over < row.to && row.wet >= 10 && row.psi > 0 && graded(row.grade)
    })?;
    let mut last = 0;
    each(section::SOCKETS, image.sockets(), |row| {
        let rising = last < row.size;
        last = row.size;
        rising && row.depth > 0 && graded(row.grade)
    })?;
    let mut last = (0, 0, 0);
    each(section::DEFLECTIONS, image.deflections(), |row| {
        let at = (row.bell, row.material, row.size);
        let rising = last < at;
        last = at;
        rising
            && Bell::from_code(row.bell).is_some()
            && Material::from_code(row.material).is_some()
            && row.minutes <= MOST_MINUTES
            && graded(row.grade)
    })
}
