//! `springline pick`: a job and its pipes to one list that a truck is loaded and a joint is made from.
//!
//! What a job consists of is rows of `tables/sources/jobs`. Which part of a way goes on which pipe, what seals and what holds is
//! asked of the joint tables ([`build`]); lines of the tables hang on that and on the site ([`due`]); [`list`] puts them
//! together; [`figures`] asks the other verbs for their numbers.

pub(crate) mod args;
mod build;
mod built;
mod chain;
mod due;
mod figures;
mod joint;
mod lift;
mod line;
mod list;
mod measures;
mod pipes;
mod plan;
mod render;
mod site;
mod stick;
mod text;
mod work;

use anyhow::{Result, anyhow, bail};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use args::PickArgs;
use plan::Plan;

/// Answers what a job takes.
pub(crate) fn run(args: &PickArgs) -> Result<Said> {
    let (bytes, notes) = match &args.tables {
        None => (IMAGE.to_vec(), NOTES.to_vec()),
        Some(folder) => {
            let compiled = springline_compiler::compile(folder).map_err(|found| {
                let first = found.first().map_or(String::new(), ToString::to_string);
                anyhow!(
                    "{} mistakes in {folder}\n{first}\n  try: springline tables check {folder}",
                    found.len(),
                    folder = folder.display()
                )
            })?;
            (compiled.image, compiled.notes)
        }
    };
    let image = Image::new(&bytes)?;
    let notes = Notes::from_bytes(&notes)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(&bytes)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let plan = Plan::of(&image, &notes, args)?;
    let text = if args.json {
        render::json(&plan)
    } else if args.csv {
        render::csv(&plan)?
    } else {
        text::text(&plan, args)
    };
    Ok(Said {
        text,
        no: plan.is_no(),
    })
}
