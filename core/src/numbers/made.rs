//! Which joints of the tables are a pipe's own.

use crate::assembly::Nominal;
use crate::image::{Image, Row};
use crate::joint::{Pipe, Verdict, best};

/// The nominal size of a row by which flanges, mechanical joints and sockets are listed; `None` of a metric one, whose are others.
#[must_use]
#[inline]
pub fn nominal(image: &Image<'_>, row: &Row) -> Option<Nominal> {
    let size = image.size(row.size);
    let metric = size.starts_with("DN") || size.ends_with("mm");
    Nominal::of_measure(image.measure(row.size)).filter(|_| !metric)
}

/// Whether a socket goes onto a pipe that is glued, and cures.
#[must_use]
#[inline]
pub fn is_glued(image: &Image<'_>, pipe: &Pipe) -> bool {
    let ends = (0u8..).zip(image.joint_ends());
    ends.filter(|(_, end)| end.cures()).any(|(at, _)| {
        let best = best(image, &pipe.row, pipe.variants, pipe.form, at);
        best.is_some_and(|best| best.sealing.verdict <= Verdict::FitsWith)
    })
}
