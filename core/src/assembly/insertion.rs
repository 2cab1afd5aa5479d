//! How deep a pipe goes in, and where its mark is.

use super::Nominal;
use crate::image::{Grade, Image, Socket};
use crate::unit::Distance;

/// How deep the solvent socket of an ordinary fitting is; `None` where the image has none of that size. The pipe goes to its end.
#[must_use]
#[inline]
pub fn solvent_socket(image: &Image<'_>, size: Nominal) -> Option<(Distance, Grade)> {
    let is = |row: &Socket| row.size == size.in_quarters();
    let row = image.sockets().find(is)?;
    let depth = Distance::inches(f64::from(row.depth) / 32.0);
    Some((depth, Grade::from_code(row.grade)?))
}

/// How far from the end of the pipe its mark is, where the bell in hand was measured from lip to stop and the pipe is to stay short of
/// the stop; `None` where nothing is left. Bells are no standard, so that there is no table of this.
#[must_use]
pub fn mark(bell: Distance, short_of_stop: Distance) -> Option<Distance> {
    let mark = bell - short_of_stop;
    (mark > Distance::ZERO).then_some(mark)
}
