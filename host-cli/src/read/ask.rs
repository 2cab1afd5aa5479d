//! `read --ask`: puts the question that would settle it, takes the answer, and goes on until none helps.

use std::io::{self, BufRead, Write};

use anyhow::Result;
use springline_core::image::Image;

use super::next::Next;
use super::once;
use crate::Said;
use crate::cli::ReadArgs;

/// What people type when a check cannot be made.
const CANNOT: &str = "cannot";

/// Answers, asks, and answers again. An empty line, or the end of what is typed, ends it with the last answer.
pub(super) fn run(image: &Image<'_>, args: &ReadArgs) -> Result<Said> {
    let mut args = args.clone();
    let mut out = io::stdout().lock();
    let mut typed = io::stdin().lock().lines();
    loop {
        let (text, no, next) = once(image, &args)?;
        let Some(next) = next else {
            return Ok(Said { text, no });
        };
        write!(
            out,
            "{text}\n{}\n{}> ",
            next.question,
            choices(image, &next)
        )?;
        out.flush()?;
        loop {
            let line = typed.next().transpose()?.unwrap_or_default();
            let line = line.trim();
            if line.is_empty() {
                // The answer has been shown already.
                return Ok(Said {
                    text: "\n".to_owned(),
                    no,
                });
            }
            match taken(image, &args, &next, line) {
                Ok(more) => {
                    args = more;
                    writeln!(out)?;
                    break;
                }
                Err(error) => write!(out, "{error}\n> ")?,
            }
            out.flush()?;
        }
    }
}

/// What may be typed.
fn choices(image: &Image<'_>, next: &Next) -> String {
    let clue = image
        .clues()
        .find(|clue| image.packed_text(clue.key) == next.key);
    let answers = match clue {
        Some(clue) => (clue.first..clue.first.saturating_add(clue.answers))
            .map(|answer| image.packed_text(image.clue_answer(answer).key))
            .collect::<Vec<_>>()
            .join(", "),
        None => match next.key.as_str() {
            "tape" => "the circumference, as 21 11/16in",
            "along" => "the diameter there, as 6.90in",
            "wall" => "the wall, as 0.39in",
            "print" => "what can be read, as ..IN DR18 PC235..",
            _ => {
                "the diameter across, as 11.88in; or both with their hours, as 12.6in@3 11.88in@12"
            }
        }
        .to_owned(),
    };
    format!("  {answers}, or {CANNOT}; an empty line ends\n")
}

/// The arguments with one more answer. What cannot be understood is an error, and nothing is lost.
fn taken(image: &Image<'_>, args: &ReadArgs, next: &Next, line: &str) -> Result<ReadArgs> {
    let mut more = args.clone();
    if line == CANNOT {
        more.cannot.push(next.key.clone());
        return Ok(more);
    }
    match next.key.as_str() {
        "tape" => more.around.push(line.to_owned()),
        "along" => more.along.push(line.to_owned()),
        "wall" => more.wall.push(line.to_owned()),
        "print" => more.print = Some(line.to_owned()),
        "crossed-diameter" => {
            // Lengths may hold spaces, so that the hour is what ends each.
            let mut texts = Vec::new();
            let mut text = String::new();
            for word in line.split_whitespace() {
                if !text.is_empty() {
                    text.push(' ');
                }
                text.push_str(word);
                if word.contains('@') {
                    texts.push(std::mem::take(&mut text));
                }
            }
            match (texts.len(), text.is_empty()) {
                (0, false) => more.dia.push(format!("{text}@across")),
                (2.., true) => more.dia = texts,
                _ => anyhow::bail!(
                    "the diameter across is needed, or both, each with its hour\n  try: 11.88in, or 12.6in@3 11.88in@12"
                ),
            }
        }
        key => {
            if image.find_clue(key, line).is_none() {
                anyhow::bail!(
                    "\"{line}\" is no answer to this\n{}",
                    choices(image, next).trim_end()
                );
            }
            more.told.push((key.to_owned(), line.to_owned()));
        }
    }
    // Understood now, so that a slip is corrected at once.
    once(image, &more)?;
    Ok(more)
}
