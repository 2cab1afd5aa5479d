//! `springline read`: readings to an answer, for people and for programs.

mod explain;
mod finding;
mod json;
mod query;
mod text;

use anyhow::{Result, anyhow};
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::reading::ReadingError;
use springline_tables::IMAGE;

use crate::Said;
use crate::cli::ReadArgs;
use finding::Finding;

/// Answers the readings.
pub(crate) fn run(args: &ReadArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let asked = query::query(args)?;
    let answer = identify(&image, &asked.query).map_err(|error| anyhow!("{}", advice(error)))?;
    let finding = Finding::new(&image, &asked, &answer);
    let mut text = if args.json {
        json::json(&finding)
    } else {
        text::text(&finding)
    };
    if args.explain && !args.json {
        text.push_str(&explain::explain(&finding));
    }
    Ok(Said {
        text,
        no: finding.stop || finding.is_outside(),
    })
}

/// What to do about readings that cannot be used.
fn advice(error: ReadingError) -> String {
    let next = match error {
        ReadingError::None => {
            "give one: --dia 6.90in for a caliper, --around 21 11/16in for a tape around the pipe"
        }
        ReadingError::TooMany => "give at most six, the surest ones",
        ReadingError::OutOfRange => {
            "pipe in the tables is .375 in to 65.67 in across; check the unit"
        }
        ReadingError::RiseTooHigh => {
            "a chord lies above the widest point; if both sides are dug, use a caliper or a tape instead"
        }
        ReadingError::RiseTooLow | ReadingError::RiseUnsure => {
            "lay a longer straight edge lower down, or dig to half of the pipe and use a caliper or a tape"
        }
        _ => "check the reading",
    };
    format!("{error}\n  try: {next}")
}
