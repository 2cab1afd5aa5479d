//! `springline restrain`: a fitting on a known pipe to the joints that must be restrained, and when that holds.

mod answer;
pub(crate) mod args;
mod block;
pub(crate) mod brief;
mod concrete;
mod ground;
mod held;
mod legs;
mod render;
mod show;
mod site;
mod taken;
mod text;
mod warn;
mod words;
mod work;

use anyhow::{Result, bail};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use answer::Answer;
use args::RestrainArgs;

/// Answers what holds a fitting.
pub(crate) fn run(args: &RestrainArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let answer = Answer::of(&image, &notes, args)?;
    let text = if args.json {
        render::json(&answer)
    } else {
        text::text(&answer, args)
    };
    Ok(Said {
        text,
        no: answer.no(),
    })
}
