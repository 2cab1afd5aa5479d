//! The check to make next: what is asked, what it would say, and what it is worth.

use anyhow::{Result, anyhow};
use springline_core::clue::Told;
use springline_core::identify::{Answer, Cannot, Check, Proposal, Trench, identify, propose};
use springline_core::image::Image;
use springline_core::joint::{Parted, parted};

use super::finding::Finding;
use super::query::Asked;
use crate::cli::{ReadArgs, YesNo};

/// Keys of the checks that are readings.
const CROSSED: &str = "crossed-diameter";
const TAPE: &str = "tape";
const ALONG: &str = "along";
const PRINT: &str = "print";
const WALL: &str = "wall";

/// Checks that are no clues: key and question.
const READINGS: [(Check, &str, &str); 5] = [
    (
        Check::CrossedDiameter,
        CROSSED,
        "What is the diameter at right angles to this?",
    ),
    (Check::Tape, TAPE, "What does a tape around it read?"),
    (
        Check::Along,
        ALONG,
        "What does the caliper read a foot along, on the bare barrel?",
    ),
    (
        Check::Print,
        PRINT,
        "What is printed on it? Wash it and turn the light along it; a few characters help.",
    ),
    (
        Check::Wall,
        WALL,
        "How thick is the wall at the cut end, without a lining?",
    ),
];

/// A check that would help.
pub(crate) struct Next {
    /// Its key in options and JSON.
    pub(crate) key: String,
    /// How people are asked.
    pub(crate) question: String,
    /// Each answer that is likely enough, by key, with what would lead then.
    pub(crate) leads: Vec<(String, String)>,
    /// The jobs for which those that would lead do not all buy the same.
    pub(crate) parted: Parted,
    pub(crate) proposal: Proposal,
}

/// An answer is named when it is given by at least one pipe in twenty of those that are left.
const NAMED: f64 = 0.05;

/// The check to make next, if one helps.
pub(super) fn of(
    image: &Image<'_>,
    args: &ReadArgs,
    asked: &Asked,
    answer: &Answer,
) -> Result<Option<Next>> {
    let mut cannot = Cannot::none();
    for key in &args.cannot {
        cannot = cannot.and(check(image, key)?);
    }
    let trench = Trench {
        dug: args.dug == YesNo::Yes,
        cut_end: args.cut_end == YesNo::Yes,
    };
    Ok(
        propose(image, &asked.query, answer, trench, cannot).map(|proposal| {
            let (key, question, (leads, rows)) = match proposal.check {
                Check::Clue(clue) => {
                    let record = image.clue(clue);
                    (
                        image.packed_text(record.key),
                        image.packed_text(record.question),
                        leads(image, asked, clue, answer),
                    )
                }
                reading => {
                    let named = READINGS.iter().find(|(check, ..)| *check == reading);
                    let (key, question) =
                        named.map_or(("", ""), |(_, key, question)| (*key, *question));
                    (key, question, (Vec::new(), Vec::new()))
                }
            };
            Next {
                key: key.to_owned(),
                question: question.to_owned(),
                leads,
                parted: parted(image, &rows.iter().copied()),
                proposal,
            }
        }),
    )
}

/// The check of a key.
fn check(image: &Image<'_>, key: &str) -> Result<Check> {
    let clue = (0u8..)
        .zip(image.clues())
        .find(|(_, clue)| image.packed_text(clue.key) == key)
        .map(|(index, _)| Check::Clue(index));
    let reading = READINGS.iter().find(|(_, name, _)| *name == key);
    clue.or(reading.map(|(check, ..)| *check)).ok_or_else(|| {
        let mut keys: Vec<&str> = image.clues().map(|c| image.packed_text(c.key)).collect();
        keys.extend(READINGS.iter().map(|(_, key, _)| *key));
        anyhow!(
            "--cannot: no check \"{key}\"\n  try one of: {}",
            keys.join(", ")
        )
    })
}

/// What would lead after each answer that is likely enough, asked of the engine itself; and its rows.
fn leads(
    image: &Image<'_>,
    asked: &Asked,
    clue: u8,
    answer: &Answer,
) -> (Vec<(String, String)>, Vec<u16>) {
    let record = image.clue(clue);
    (record.first..record.first.saturating_add(record.answers))
        .filter_map(|index| {
            if chance(image, answer, index) < NAMED {
                return None;
            }
            let mut query = asked.query;
            query.clues.tell(Told {
                clue,
                answer: index,
            });
            let then = identify(image, &query).ok()?;
            let finding = Finding::new(image, asked, &then);
            let first = finding.first()?;
            let key = image.packed_text(image.clue_answer(index).key);
            let row = first.indices.first().copied()?;
            let lead = (key.to_owned(), format!("{} {}", first.name, first.size()));
            Some((lead, row))
        })
        .unzip()
}

/// How often the pipes that are left give an answer.
fn chance(image: &Image<'_>, answer: &Answer, index: u8) -> f64 {
    let candidates = answer.candidates().iter();
    candidates
        .map(|candidate| {
            let family = image.row(candidate.row).family;
            let (mantissa, power) = image.likelihood(index, family).parts();
            let share = super::finding::fraction(candidate.weight.q30());
            share * f64::from(mantissa) * f64::from(power).exp2()
        })
        .sum()
}
