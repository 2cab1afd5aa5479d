//! What an answer rests on: the readings, what was taken for granted, and what reading would tell more.

use std::fmt::Write;

use springline_compiler::notes::Notes;
use springline_core::identify::{Check, Outcome};
use springline_core::reading::Reading;
use springline_tables::NOTES;

use super::counter;
use super::finding::{Finding, Pipe};
use super::lines::wrap;
use crate::format;
use crate::parse::Unit;

/// What was read, how sure that is, and what was taken for granted.
pub(super) fn readings(finding: &Finding<'_>, out: &mut String) {
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
    if places_differ(finding) {
        wrap(
            out,
            "",
            "The two places differ by more than one barrel can: one of them is of a bell, a coupling, a wrap or a repair. The answer \
             is for the bare barrel.",
        );
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
    if let Some(text) = &asked.print {
        let notes = Notes::from_bytes(NOTES).ok();
        out.push_str(&super::print::print(finding.image, notes.as_ref(), text));
    }
    if !asked.place.is_empty() {
        wrap(out, "", &format!("Told: {}.", asked.place.join(", ")));
    }
    if plans_are_wrong(finding) {
        let text = "The plans name another pipe than this one reads as: go by the pipe, and correct the plans.";
        wrap(out, "", text);
    }
    let chord = |reading: &Reading| matches!(reading, Reading::Chord { .. });
    if asked.query.readings().any(chord) {
        wrap(
            out,
            "",
            "A straight edge says least: dig to half before parts are bought on it.",
        );
    }
}

/// Whether one purchase leads that holds no pipe of what plans name.
fn plans_are_wrong(finding: &Finding<'_>) -> bool {
    let image = finding.image;
    let Some(plans) = finding.asked.query.clues.plans else {
        return false;
    };
    let family = image.packed_text(image.family(plans.family).key);
    let size = plans.size.map(|size| image.size(size));
    let named =
        |pipe: &&Pipe<'_>| pipe.family == family && size.is_none_or(|size| pipe.nominal == size);
    let leads = finding.counted().next();
    finding.is_single() && leads.is_some_and(|group| !finding.named(group).iter().any(named))
}

/// Whether readings a foot apart differ by more than a squash explains.
fn places_differ(finding: &Finding<'_>) -> bool {
    let of = |wanted: bool| {
        finding
            .asked
            .query
            .readings()
            .find_map(move |reading| match reading {
                Reading::Diameter { value, .. } if !wanted => Some(value.counts()),
                Reading::Along { value, .. } if wanted => Some(value.counts()),
                _ => None,
            })
    };
    // An ordinary squash is two per cent either way; a bell is one twentieth larger at least.
    matches!((of(false), of(true)), (Some(here), Some(there)) if (here - there).abs() > here / 25)
}

/// What would settle it, and why that.
pub(super) fn next(finding: &Finding<'_>, out: &mut String) {
    if let Some(next) = &finding.next {
        let mut text = format!("CHECK NEXT: {}", next.question);
        if let Check::Clue(_) = next.proposal.check {
            // Answers that leave the same pipe in the lead are said once.
            let mut said: Vec<(Vec<&str>, &str)> = Vec::new();
            for (answer, pipe) in &next.leads {
                match said.iter_mut().find(|(_, held)| held == pipe) {
                    Some((answers, _)) => answers.push(answer),
                    None => said.push((vec![answer], pipe)),
                }
            }
            let said: Vec<String> = said
                .iter()
                .map(|(answers, pipe)| format!("{pipe} ({})", answers.join(" or ")))
                .collect();
            let _ = match said.as_slice() {
                [one, other] => write!(text, " It parts {one} from {other}"),
                all => write!(text, " It points to {}", all.join(", or ")),
            };
            let jobs = counter::parts(next.parted, finding.asked.query.job);
            let differ = match jobs.as_slice() {
                [] => String::new(),
                [one] => format!(": {one} differs"),
                [all @ .., last] => format!(": {} and {last} differ", all.join(", ")),
            };
            let _ = write!(text, "{differ}. (--{})", next.key);
        }
        wrap(out, "", &text);
    } else if finding.answer.outcome == Outcome::Split && !finding.stop {
        let text = "NO CHECK LEFT here would part them: bring what fits either way, and of what differs one for each.";
        wrap(out, "", text);
    }
    crossing(finding, out);
}

/// That a reading all round would part what is left.
fn crossing(finding: &Finding<'_>, out: &mut String) {
    if !finding.needs_crossing() {
        return;
    }
    let why = if finding.asked.query.buried {
        "Buried pipe is squashed, and one diameter cannot tell squash from size."
    } else {
        "No pipe is quite round, and one diameter cannot tell that from size."
    };
    let aim = if finding.is_outside() {
        "If it is the bare barrel"
    } else {
        "To part them"
    };
    let chord = |reading: &Reading| matches!(reading, Reading::Chord { .. });
    let what = if finding.asked.query.readings().all(chord) {
        "two diameters that cross"
    } else {
        "a second diameter crossing the first"
    };
    wrap(out, "", &format!("{aim}: {what}, or a tape around. {why}"));
}
