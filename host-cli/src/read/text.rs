//! The answer for a person at a trench: what is certain first, at most two dozen lines, no percentages.

use std::fmt::Write;

use springline_core::identify::Outcome;
use springline_core::reading::Reading;

use super::finding::{Finding, Pipe};
use crate::format;
use crate::parse::Unit;

/// Lines are kept to this width, so that a phone's terminal holds them.
const WIDTH: usize = 78;

/// So many of the less likely pipes are named.
const FEW: usize = 6;

/// Writes the answer.
pub(super) fn text(finding: &Finding<'_>) -> String {
    let mut out = String::new();
    if finding.stop {
        out.push_str("STOP - ASK\n");
    }
    if finding.is_outside() {
        outside(finding, &mut out);
    } else {
        listed(finding, &mut out);
    }
    out.push('\n');
    readings(finding, &mut out);
    next(finding, &mut out);
    out.push('\n');
    for caution in &finding.cautions {
        wrap(&mut out, "! ", caution);
    }
    out
}

/// `6 in C900/DI size` and which pipe it is.
fn listed(finding: &Finding<'_>, out: &mut String) {
    let sizes = sizes(finding);
    let _ = writeln!(out, "{}", sizes.join(", or "));
    let counted: Vec<&Pipe<'_>> = finding.counted().collect();
    let first = counted.first().or(finding.pipes.first().as_ref()).copied();
    let alone = sizes.len() == 1;
    let counts_outside = finding.outside() >= finding.counted_from();
    match (finding.answer.outcome, first) {
        (Outcome::Settled, Some(pipe)) => {
            let _ = writeln!(out, "IT IS {}", described(finding, pipe, false));
        }
        (_, Some(pipe)) if finding.answer.likely => {
            let _ = writeln!(out, "LIKELY {}", described(finding, pipe, false));
        }
        _ => {
            let several = (counted.len() + usize::from(counts_outside)).max(2);
            let _ = writeln!(out, "ONE OF {several}");
            for pipe in &counted {
                let _ = writeln!(out, "  {}", described(finding, pipe, alone));
            }
            if counts_outside {
                out.push_str(
                    "  or no barrel of the tables: a bell, coupling or sleeve, or a wrapped pipe\n",
                );
            }
        }
    }
    let shown = if finding.answer.likely {
        1
    } else {
        counted.len()
    };
    let others: Vec<String> = finding
        .pipes
        .iter()
        .skip(shown)
        .map(|pipe| {
            let same = first.is_some_and(|first| first.nominal == pipe.nominal);
            described(finding, pipe, alone && same)
        })
        .collect();
    if !others.is_empty() {
        let more = others.len().saturating_sub(FEW);
        let tail = if more > 0 {
            format!("; and {more} more")
        } else {
            String::new()
        };
        let named = others.get(..FEW).unwrap_or(&others).join("; ");
        wrap(out, "", &format!("Less likely: {named}{tail}."));
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
    let _ = writeln!(out, "NOT IN TABLES: no listed pipe explains an OD of {at}");
    let image = finding.image;
    for (row, away) in finding.neighbours().into_iter().flatten() {
        let family = image.family(row.family);
        let side = if row.od > finding.answer.od.counts() {
            "above"
        } else {
            "below"
        };
        let nominal = image.size(row.size);
        let inches = if nominal.ends_with("mm") || nominal.starts_with("DN") {
            ""
        } else {
            " in"
        };
        let _ = writeln!(
            out,
            "  nearest {side}: {} {nominal}{inches} ({}), OD {}, {} off",
            image.packed_text(family.name),
            image.packed_text(image.system(row.system).label),
            format::length(i64::from(row.od), unit),
            format::length(i64::from(away.counts()), unit),
        );
    }
    wrap(
        out,
        "",
        "Commonly a bell, a coupling, a road sleeve over the pipe, wrap or a thick coat. Read the bare barrel a foot along, and \
         ask: does it carry water, or is something inside it?",
    );
    let if_barrel: Vec<String> = finding
        .counted()
        .map(|pipe| described(finding, pipe, false))
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

/// What was read, how sure that is, and what was taken for granted.
fn readings(finding: &Finding<'_>, out: &mut String) {
    let asked = finding.asked;
    let answer = finding.answer;
    let mut od = asked.show(answer.od);
    let taped =
        |reading: &Reading| matches!(reading, Reading::Around { .. } | Reading::String { .. });
    if asked.unit == Unit::Inch && asked.query.readings().any(taped) {
        // People with a tape in hand think in its fractions.
        let _ = write!(
            od,
            " ({})",
            format::inch_fraction(i64::from(answer.od.counts()))
        );
    }
    let twice = asked.show(answer.sigma + answer.sigma);
    let read = if answer.disagreement {
        // A mean of readings at odds is the diameter of nothing.
        format!("Read {}.", asked.told.join(", "))
    } else {
        format!(
            "Read {}: OD {od}, give or take {twice}.",
            asked.told.join(", ")
        )
    };
    wrap(out, "", &read);
    if let Some(round) = answer.out_of_round {
        let percent = f64::from(round.share) * 100.0 / 65_536.0;
        let squashed = if percent >= 1.0 { ", squashed" } else { "" };
        let line = format!(
            "Out of round by {}, {percent:.1} %{squashed}.",
            asked.show(round.spread)
        );
        wrap(out, "", &line);
    }
    if answer.short_jaws {
        wrap(
            out,
            "",
            "Jaws too short for this pipe: the reading was taken as a chord at their depth. Tape it.",
        );
    } else if asked.jaws_assumed {
        wrap(
            out,
            "",
            "Taken as a caliper whose jaws reach the widest point; if not, give --jaw.",
        );
    }
    let chord = |reading: &Reading| matches!(reading, Reading::Chord { .. });
    if asked.query.readings().any(chord) {
        wrap(
            out,
            "",
            "A straight edge on the crown says least of all: dig to half before parts are bought on it.",
        );
    }
}

/// What would part what is left.
fn next(finding: &Finding<'_>, out: &mut String) {
    if finding.needs_crossing() {
        wrap(
            out,
            "",
            "To part them: a second diameter crossing the first, or a tape around. Buried pipe is squashed; one diameter \
             cannot tell squash from size.",
        );
    }
}

/// Breaks a sentence into lines; those after the first are set in under the first.
fn wrap(out: &mut String, mark: &str, sentence: &str) {
    let indent = " ".repeat(mark.len());
    let mut line = mark.to_owned();
    let mut empty = true;
    for word in sentence.split_whitespace() {
        if !empty && line.len() + 1 + word.len() > WIDTH {
            out.push_str(&line);
            out.push('\n');
            line.clone_from(&indent);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out.push_str(&line);
    out.push('\n');
}
