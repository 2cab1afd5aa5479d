//! `springline fits`: a known pipe to the parts that go on it, for people and for programs.

pub(crate) mod card;
pub(crate) mod caution;
pub(crate) mod class;
pub(crate) mod known;
mod make;
mod overview;
mod phone;
mod piece;
pub(crate) mod range;
mod render;
pub(crate) mod sheet;
mod text;
pub(crate) mod tie;

use anyhow::{Result, bail};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_core::joint::Verdict;
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use crate::cli::FitsArgs;
use known::Known;
use sheet::Sheet;

/// Answers what goes on a pipe.
pub(crate) fn run(args: &FitsArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let range = args
        .range
        .as_deref()
        .map(|text| range::parse(text, args.units.into()));
    let range = range.transpose()?;
    let known = Known::find(&image, &notes, args)?;
    let sheet = Sheet::of(&image, &notes, &known, args, range)?;
    let text = if args.json {
        render::json(&sheet, args)
    } else {
        text::text(&sheet, args)
    };
    let none = sheet.refused.is_some() || sheet.asked().all(|row| row.verdict == Verdict::No);
    Ok(Said { text, no: none })
}
