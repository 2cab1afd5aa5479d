//! Bolts, torque and depth of mechanical joints.

use super::{Nominal, passes, sixteenths};
use crate::image::{Grade, Image, Mechanical};
use crate::unit::{Angle, Distance, Torque};

/// Sizes from here on are tightened more often.
const LARGE: u8 = 30 * 4;

/// A mechanical joint with a plain gland.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MechanicalSet {
    /// T-bolts.
    pub bolts: u8,
    /// Their diameter.
    pub bolt: Distance,
    /// Their length with a plain gland. A restraint brings its own.
    pub length: Distance,
    /// How deep the socket is.
    pub socket: Distance,
    /// The least and the most torque.
    pub torque: [Torque; 2],
    /// The most that bare iron with a plain gland may be turned; `None` where it is not known. Not for PVC, nor with a restraint on.
    pub deflection: Option<Angle>,
    /// How many times round they are tightened.
    pub passes: u8,
    /// How far bolts and socket can be trusted.
    pub grade: Grade,
    /// How far the torque can be trusted.
    pub torque_grade: Grade,
}

impl MechanicalSet {
    #[inline]
    fn of(row: Mechanical) -> Option<Self> {
        let torque = |foot_pounds: u8| Torque::foot_pounds(f64::from(foot_pounds));
        Some(Self {
            bolts: row.bolts,
            bolt: sixteenths(u16::from(row.bolt)),
            length: sixteenths(u16::from(row.length)),
            socket: sixteenths(u16::from(row.socket)),
            torque: [torque(row.torque_low), torque(row.torque_high)],
            deflection: (row.minutes > 0)
                .then(|| Angle::degrees_and_minutes(0.0, f64::from(row.minutes))),
            passes: passes(row.size >= LARGE),
            grade: Grade::from_code(row.grades & 15)?,
            torque_grade: Grade::from_code(row.grades >> 4)?,
        })
    }
}

/// The mechanical joint of a size; `None` where the image has none.
#[must_use]
#[inline]
pub fn mechanical(image: &Image<'_>, size: Nominal) -> Option<MechanicalSet> {
    let is = |row: &Mechanical| row.size == size.in_quarters();
    image
        .mechanical_joints()
        .find(is)
        .and_then(MechanicalSet::of)
}
