//! The answer for a person at a trench: what is certain first, at most two dozen lines, no percentages.

use std::fmt::Write;

use springline_core::identify::Outcome;

use super::basis;
use super::classes;
use super::contradiction::Contradiction;
use super::counter::{self, Detail};
use super::finding::{Finding, Group, Pipe, size};
use super::lines::wrap;
use crate::format;

/// An answer is at most so long, so that it is read to its end.
const LINES: usize = 24;

/// How much of the pipe that is left is named.
#[derive(Clone, Copy)]
struct Names {
    /// Answers with a line of their own.
    listed: usize,
    /// Of those that are less likely.
    less_likely: usize,
    /// How much is said of parts.
    parts: Detail,
}

impl Names {
    const MOST: Self = Self {
        listed: usize::MAX,
        less_likely: 6,
        parts: Detail::Full,
    };

    /// Something less: names of what is less likely first, then details of parts, then names.
    fn fewer(self, counted: usize) -> Option<Self> {
        if self.less_likely > 2 {
            return Some(Self {
                less_likely: self.less_likely - 1,
                ..self
            });
        }
        if let Some(parts) = self.parts.less() {
            return Some(Self { parts, ..self });
        }
        if self.less_likely > 0 {
            return Some(Self {
                less_likely: self.less_likely - 1,
                ..self
            });
        }
        let listed = self.listed.min(counted).checked_sub(1)?;
        (listed > 0).then_some(Self { listed, ..self })
    }
}

/// Writes the answer. What was read and what could hurt someone is never cut short; names of pipe are.
pub(super) fn text(finding: &Finding<'_>) -> String {
    let mut names = Names::MOST;
    loop {
        let text = compose(finding, names);
        if text.lines().count() <= LINES {
            return text;
        }
        let Some(fewer) = names.fewer(finding.counted().count()) else {
            return text;
        };
        names = fewer;
    }
}

fn compose(finding: &Finding<'_>, names: Names) -> String {
    let mut out = String::new();
    if finding.stop {
        out.push_str("STOP - ASK\n");
    }
    if finding.is_outside() {
        outside(finding, &mut out);
    } else {
        listed(finding, names, &mut out);
    }
    if let Some(contradiction) = &finding.contradiction {
        disagrees(contradiction, &mut out);
    }
    if let Some(class) = classes::line(finding).filter(|_| !finding.stop && !finding.is_outside()) {
        wrap(&mut out, "CLASS    ", &class);
    }
    counter::counter(finding, names.parts, &mut out);
    out.push('\n');
    basis::readings(finding, &mut out);
    basis::next(finding, &mut out);
    out.push('\n');
    for caution in &finding.cautions {
        wrap(&mut out, "! ", caution);
    }
    out
}

/// `6 in C900/DI size` and which pipe it is.
fn listed(finding: &Finding<'_>, names: Names, out: &mut String) {
    let sizes = sizes(finding);
    wrap(out, "", &sizes.join(", or "));
    let counted: Vec<&Group> = finding.counted().collect();
    let alone = sizes.len() == 1;
    let counts_outside = finding.outside() >= finding.counted_from();
    let shown = if finding.is_single() {
        1
    } else {
        counted.len()
    };
    match counted.first() {
        Some(group) if finding.is_single() => {
            let sure = match finding.answer.outcome {
                Outcome::Settled => "IT IS",
                _ => "LIKELY",
            };
            wrap(
                out,
                "",
                &format!("{sure} {}", together(finding, group, false)),
            );
        }
        _ => {
            let _ = writeln!(out, "ONE OF {}", counted.len().max(2));
            for group in counted.iter().take(names.listed) {
                let pipes = finding.named(group);
                let mut line = together(finding, group, alone);
                if let (false, Some(pipe)) = (alone, pipes.first()) {
                    // Sizes that differ are told apart by their ODs.
                    line.push_str(", OD ");
                    line.push_str(&format::length(pipe.od(), finding.asked.unit));
                }
                if pipes.iter().all(|pipe| finding.if_squashed(pipe)) {
                    line.push_str(", if squashed");
                }
                wrap(out, "  ", &line);
            }
            let more = counted.len().saturating_sub(names.listed);
            if more > 0 {
                let _ = writeln!(out, "  or {more} more");
            }
            if counts_outside {
                out.push_str(
                    "  or no bare barrel: a bell, coupling or sleeve, or a wrapped pipe\n",
                );
            }
        }
    }
    let first = finding.first();
    let others: Vec<String> = finding
        .groups()
        .skip(shown)
        .flat_map(|group| finding.all_of(group))
        .map(|pipe| {
            let same = first.is_some_and(|first| first.nominal == pipe.nominal);
            described(finding, pipe, alone && same)
        })
        .collect();
    less_likely(&others, names.less_likely, out);
}

/// The pipes of one purchase; a size that they share is said once.
fn together(finding: &Finding<'_>, group: &Group, size_is_said: bool) -> String {
    let pipes = finding.named(group);
    let first = pipes.first().map_or("", |pipe| pipe.nominal);
    let alike = pipes.iter().all(|pipe| pipe.nominal == first);
    let names: Vec<String> = pipes
        .iter()
        .map(|pipe| described(finding, pipe, size_is_said || alike))
        .collect();
    match pipes.first() {
        Some(pipe) if alike && !size_is_said => format!("{} {}", pipe.size(), names.join(" or ")),
        _ => names.join(" or "),
    }
}

fn less_likely(others: &[String], most: usize, out: &mut String) {
    let named = others.get(..most).unwrap_or(others);
    let more = others.len() - named.len();
    let more = (more > 0).then(|| format!("{more} more"));
    let all: Vec<&str> = named.iter().chain(&more).map(String::as_str).collect();
    if !all.is_empty() {
        wrap(out, "", &format!("Less likely: {}.", all.join("; ")));
    }
}

/// Sizes and OD systems that the answer stands between, the likeliest first: one when it holds nine parts in ten.
fn sizes(finding: &Finding<'_>) -> Vec<String> {
    let mut all: Vec<(String, f64)> = Vec::new();
    for pipe in &finding.pipes {
        let text = format!("{} {}", pipe.size(), pipe.label);
        match all.iter_mut().find(|(held, _)| *held == text) {
            Some((_, share)) => *share += pipe.share,
            None => all.push((text, pipe.share)),
        }
    }
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    let least = finding.counted_from();
    let certain = all.first().is_some_and(|(_, share)| *share >= 0.9);
    all.into_iter()
        .enumerate()
        .filter(|(index, (_, share))| *index == 0 || (!certain && *share >= least))
        .take(4)
        .map(|(_, (text, _))| text)
        .collect()
}

/// A pipe's name, with its size where sizes differ, and which of its ODs where it has several.
fn described(finding: &Finding<'_>, pipe: &Pipe<'_>, size_is_said: bool) -> String {
    let mut text = pipe.name.to_owned();
    if !size_is_said {
        let _ = write!(text, " {}", pipe.size());
    }
    let variant = pipe
        .rows
        .first()
        .map_or("", |row| finding.image.label(row.variant));
    if !variant.is_empty() {
        let _ = write!(text, " ({variant})");
    }
    text
}

/// The clue that the rest speaks against. It may be the one that is true.
fn disagrees(contradiction: &Contradiction, out: &mut String) {
    let mut text = format!(
        "THE CLUES DISAGREE: \"{}\" does not go with the rest.",
        contradiction.words
    );
    if let Some((_, pipe, share)) = &contradiction.without {
        let sure = if *share >= 0.95 {
            "likely "
        } else {
            "first of several, "
        };
        let _ = write!(text, " Without it: {sure}{pipe}.");
    }
    text.push_str(" Look at it again before anything is bought.");
    wrap(out, "", &text);
}

/// Nothing in the tables: the neighbours, and what commonly reads so.
fn outside(finding: &Finding<'_>, out: &mut String) {
    let unit = finding.asked.unit;
    if finding.answer.disagreement {
        out.push_str("NOT IN TABLES: no listed pipe gives all of these readings\n");
        wrap(
            out,
            "",
            "They differ by more than one pipe can: one of them is of a bell, a coupling or wrap, of a turned end, or misread. \
             Read each again on the bare barrel.",
        );
        return;
    }
    let at = format::length(i64::from(finding.answer.od.counts()), unit);
    wrap(
        out,
        "",
        &format!("NOT IN TABLES: no listed pipe explains an OD of {at}"),
    );
    let image = finding.image;
    for (row, away) in finding.neighbours().into_iter().flatten() {
        let family = image.family(row.family);
        let side = if row.od > finding.answer.od.counts() {
            "above"
        } else {
            "below"
        };
        let nearest = format!(
            "nearest {side}: {} {} ({}), OD {}, {} off",
            image.packed_text(family.name),
            size(image.size(row.size)),
            image.packed_text(image.system(row.system).label),
            format::length(i64::from(row.od), unit),
            format::length(i64::from(away.counts()), unit),
        );
        wrap(out, "  ", &nearest);
    }
    wrap(
        out,
        "",
        "Commonly a bell, a coupling, a road sleeve over the pipe, wrap or a thick coat. Read the bare barrel a foot along, and \
         ask: does it carry water, or is something inside it?",
    );
    let if_barrel: Vec<String> = finding
        .counted()
        .map(|group| together(finding, group, false))
        .collect();
    if !if_barrel.is_empty() {
        wrap(
            out,
            "",
            &format!(
                "If it is a bare barrel after all: {}.",
                if_barrel.join("; ")
            ),
        );
    }
}
