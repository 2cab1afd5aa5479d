//! `springline read`: readings to an answer, for people and for programs.

mod ask;
mod basis;
mod caution;
mod classes;
mod contradiction;
mod counter;
mod explain;
mod finding;
mod json;
pub(crate) mod left;
pub(crate) mod lines;
mod next;
mod print;
mod purchase;
mod query;
mod terms;
mod text;

use anyhow::{Result, anyhow};
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::reading::ReadingError;
use springline_tables::IMAGE;

use crate::Said;
use crate::cli::ReadArgs;
use finding::Finding;
use next::Next;
use purchase::Purchase;

/// Answers the readings.
pub(crate) fn run(args: &ReadArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    if args.ask {
        return ask::run(&image, args);
    }
    let (text, no, _) = once(&image, args)?;
    Ok(Said { text, no })
}

/// One answer: its text, whether it is a "no", and the check that would help.
fn once(image: &Image<'_>, args: &ReadArgs) -> Result<(String, bool, Option<Next>)> {
    let asked = query::query(image, args)?;
    let answer = identify(image, &asked.query).map_err(|error| anyhow!("{}", advice(error)))?;
    let mut finding = Finding::new(image, &asked, &answer);
    finding.contradiction = contradiction::of(image, &asked, &answer);
    finding.purchase = Purchase::of(&finding);
    finding.next = next::of(image, args, &asked, &answer)?;
    let terms = args.explain.then(|| terms::terms(&finding));
    let text = if args.json {
        json::json(&finding, terms.as_deref())?
    } else {
        let mut text = text::text(&finding);
        if let Some(terms) = &terms {
            text.push_str(&explain::explain(&finding, terms));
        }
        text
    };
    let no = finding.stop || finding.is_outside();
    Ok((text, no, finding.next))
}

/// What to do about readings that cannot be used.
fn advice(error: ReadingError) -> String {
    let next = match error {
        ReadingError::None => {
            "--dia 6.90in for a caliper, or --around \"21 11/16in\" for a tape around the pipe"
        }
        ReadingError::TooMany => "give at most six, the surest ones",
        ReadingError::OutOfRange => {
            "the reading again, with its unit; --dia is across the pipe, --around is around it"
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
