//! Depths, times and quantities of joints in short, for the list of another verb.

use anyhow::Result;
use springline_compiler::notes::Notes;
use springline_core::assembly::{Nominal, Wait, cure};
use springline_core::image::Image;
use springline_core::unit::{Pressure, Temperature};

use super::AssembleArgs;
use super::made::{Made, constant, quantity};
use super::times::{degrees_words, why_none};
use crate::bolts::words::Sourced;
use crate::parse::Unit;

pub(crate) use super::times::lasts;

/// How deep a pipe goes into a joint, and where its mark is.
pub(crate) struct Depth {
    /// In words.
    pub(crate) text: String,
    /// A figure is among them.
    pub(crate) known: bool,
    /// What it stands on.
    pub(crate) why: Vec<Sourced>,
}

/// Answers it; none where such a joint does not go on this pipe.
pub(crate) fn depth(
    image: &Image<'_>,
    notes: &Notes,
    args: &AssembleArgs,
) -> Result<Option<Depth>> {
    let made = Made::of(image, notes, args)?;
    if made.refused.is_some() || made.depth.is_empty() {
        return Ok(None);
    }
    Ok(Some(Depth {
        text: made.depth.join("; "),
        known: made.mark.is_some(),
        why: made.why,
    }))
}

/// How long glue takes, or why there is no time for it.
pub(crate) fn wait(
    image: &Image<'_>,
    size: Nominal,
    at: Temperature,
    pressure: Pressure,
    wet: bool,
    unit: Unit,
) -> Result<Wait, String> {
    cure(image, size, at, pressure, wet).map_err(|why| why_none(why, unit))
}

/// `80 F`, `27 C`.
pub(crate) fn degrees(at: Temperature, unit: Unit) -> String {
    degrees_words(at, unit)
}

/// How many joints of a size a pound of lubricant or a quart of cement makes, and where that comes from.
pub(crate) fn makes(notes: &Notes, what: &str, size: Nominal) -> Option<(f64, Sourced)> {
    let note = quantity(notes, what, size)?;
    let from = Sourced::of(notes, what, &note.cited);
    Some((f64::from(note.joints) / 100.0, from))
}

/// A figure of the tables by its key: `primer-joints`, `mud`.
pub(crate) fn figure(notes: &Notes, key: &str) -> Result<f64> {
    Ok(constant(notes, key)?.0)
}
