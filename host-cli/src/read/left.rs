//! What readings leave open, for verbs that go on from there.

use anyhow::{Result, anyhow};
use springline_core::identify::identify;
use springline_core::image::Image;

use super::finding::{Finding, Pipe};
use super::{advice, next, query};
use crate::cli::ReadArgs;
use crate::format;

/// What readings leave open.
pub(crate) struct Left {
    /// The readings, in the words of the trade.
    pub(crate) told: String,
    /// Nothing in the tables explains them.
    pub(crate) outside: bool,
    /// Somebody could be hurt.
    pub(crate) stop: bool,
    /// Family, size as `fits` takes it, and share of what it may be, the likeliest first.
    pub(crate) pipes: Vec<(String, String, f64)>,
    /// The question that does most to tell them apart.
    pub(crate) check: Option<String>,
}

/// What they leave open.
///
/// # Errors
///
/// Readings that cannot be used, with what to do.
pub(crate) fn left(image: &Image<'_>, args: &ReadArgs) -> Result<Left> {
    let asked = query::query(image, args)?;
    let answer = identify(image, &asked.query).map_err(|error| anyhow!("{}", advice(error)))?;
    let finding = Finding::new(image, &asked, &answer);
    let check = next::of(image, args, &asked, &answer)?;
    Ok(Left {
        told: asked.told.join("; "),
        outside: finding.is_outside(),
        stop: finding.stop,
        pipes: finding
            .pipes
            .iter()
            .map(|pipe| (pipe.family.to_owned(), size(image, pipe), pipe.share))
            .collect(),
        check: check.map(|next| next.question),
    })
}

/// The size of a pipe; its OD where a nominal size of its family has several.
fn size(image: &Image<'_>, pipe: &Pipe<'_>) -> String {
    let same = image.rows_from(0).filter(|row| {
        image.packed_text(image.family(row.family).key) == pipe.family
            && image.size(row.size) == pipe.nominal
    });
    if same.count() > 1 {
        format!("{}in", format::inches(pipe.od()))
    } else {
        pipe.nominal.to_owned()
    }
}
