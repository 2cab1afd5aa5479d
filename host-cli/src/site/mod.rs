//! What is reckoned of a known pipe at a site: surge, water in the line, holes, cut pieces.
//!
//! Each verb is a folder: its arguments, and a [`report::Report`] of lines, each with the figures in it, that is written for
//! people or for programs. What is reckoned is the core's; what it is reckoned with is in the notes, cited and graded.

pub(crate) mod cut;
pub(crate) mod dig;
pub(crate) mod fill;
pub(crate) mod pipe;
pub(crate) mod report;
pub(crate) mod surge;
pub(crate) mod unit;

use anyhow::{Result, bail};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_tables::{IMAGE, NOTES};

/// The tables of this command.
fn tables() -> Result<(Image<'static>, Notes)> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    Ok((image, notes))
}
