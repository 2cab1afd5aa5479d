//! What the answer takes and what holds it, a line for each thing that is asked at a counter.

use springline_core::image::Grade;
use springline_core::joint::{Job, Parted, Role, Verdict};

use super::finding::Finding;
use super::lines::wrap;
use super::purchase::{End, Purchase};
use crate::cli::OwnerArg;

/// How much is said.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Detail {
    /// Everything.
    Full,
    /// Not why parts that look right do not seal.
    NoRefusals,
    /// Nor what fitting ends need.
    NoNeeds,
    /// Only what differs, and of one pipe what is asked for most.
    Short,
}

impl Detail {
    /// One level less.
    pub(super) const fn less(self) -> Option<Self> {
        Some(match self {
            Self::Full => Self::NoRefusals,
            Self::NoRefusals => Self::NoNeeds,
            Self::NoNeeds => Self::Short,
            Self::Short => return None,
        })
    }
}

/// Writes the lines. An answer that is a stop, or outside the tables, buys nothing.
pub(super) fn counter(finding: &Finding<'_>, detail: Detail, out: &mut String) {
    if finding.stop || finding.is_outside() {
        return;
    }
    let print = finding.asked.query.clues.print;
    if print.is_some_and(|line| line.contents().is_not_water()) {
        let text = "no parts while the print says that it is no pressure water pipe.";
        return wrap(out, "ASK      ", text);
    }
    let bought = &finding.purchase;
    let job = finding.asked.query.job;
    let single = finding.is_single();
    differs(bought, job, (single, detail), out);
    let short = detail == Detail::Short;
    let mut recalled = false;
    for (label, role) in [
        ("TAKES    ", Role::Fits),
        ("REPAIR   ", Role::Repair),
        ("OUTLET   ", Role::Outlet),
        ("CONNECT  ", Role::Connection),
    ] {
        if short && !single || role == Role::Connection && (short || !single) {
            continue;
        }
        recalled |= bought.taking(role).any(|end| end.grade == Grade::Memory);
        let ends: Vec<String> = bought.taking(role).map(|end| taken(end, detail)).collect();
        if !ends.is_empty() {
            wrap(out, label, &format!("{}.", ends.join("; ")));
        }
    }
    if recalled && !short {
        wrap(out, "", "* from memory: no standard was seen; check it.");
    }
    if single && job == Job::Length {
        let text = "of the same class: read the print, or measure the wall at a cut end.";
        wrap(out, "LENGTH   ", text);
    }
    let asks: Vec<String> = bought
        .referred()
        .map(|end| format!("{}: {}", end.name, end.reason))
        .collect();
    if single && !asks.is_empty() {
        wrap(out, "ASK      ", &format!("{}.", asks.join("; ")));
    }
    if single && matches!(job, Job::None | Job::Restraint | Job::Coupling) {
        holds(bought, job, out);
    }
    if single && detail == Detail::Full && job == Job::None {
        let refusals = bought.refusals();
        let most = refusals.get(..2).unwrap_or(&refusals);
        if !most.is_empty() {
            wrap(out, "WON'T SEAL  ", &format!("{}.", most.join("; ")));
        }
    }
    let whose = match finding.asked.owner {
        OwnerArg::Purveyor => "it is the purveyor's: no cut and no tap without their leave.",
        OwnerArg::Unknown if job == Job::Tap => {
            "whose is it? Ahead of the meter a tap is the purveyor's to allow (--owner)."
        }
        OwnerArg::Unknown | OwnerArg::Ours => return,
    };
    wrap(out, "ASK OWNER  ", whose);
}

/// What hangs on which pipe it is: what the job looks at in full, else what is to be asked at a counter.
fn differs(bought: &Purchase, job: Job, (single, detail): (bool, Detail), out: &mut String) {
    if bought.apart.is_empty() {
        return;
    }
    let names: Vec<&str> = bought
        .apart
        .iter()
        .map(|apart| apart.name.as_str())
        .collect();
    match (single, job) {
        (true, _) => wrap(out, "Depends on which: ", &format!("{}.", names.join("; "))),
        (false, job) if job == Job::None || detail == Detail::Short => {
            let jobs = parts(bought.parted, job);
            wrap(out, "DIFFERS  ", &format!("{}.", jobs.join("; ")));
        }
        (false, _) => {
            for apart in &bought.apart {
                let by: Vec<String> = apart
                    .by
                    .iter()
                    .map(|(words, pipes)| match job {
                        Job::Length => words.clone(),
                        _ => format!("{words} ({})", pipes.join(", ")),
                    })
                    .collect();
                let text = format!("{}: {}.", apart.name, by.join("; "));
                wrap(out, "DIFFERS  ", &text);
            }
        }
    }
}

/// What is bought otherwise, as far as a job is about it, in the order in which it is asked for.
pub(super) fn parts(parted: Parted, job: Job) -> Vec<&'static str> {
    [
        (Job::Saddle, "the saddle"),
        (Job::Coupling, "the coupling"),
        (Job::Restraint, "what holds it"),
        (Job::Tap, "a tap"),
        (Job::Length, "a new length"),
    ]
    .into_iter()
    .filter(|(of, _)| parted.has(*of) && (job == Job::None || job == *of))
    .map(|(_, name)| name)
    .collect()
}

/// An end as a counter is told of it.
fn taken(end: &End, detail: Detail) -> String {
    let mut text = end.name.clone();
    if end.grade == Grade::Memory {
        text.push_str(if detail == Detail::Short {
            " (from memory)"
        } else {
            "*"
        });
    }
    if end.by_class {
        text.push_str(" (not every class)");
    }
    match end.verdict {
        Verdict::FitsWith if matches!(detail, Detail::Full | Detail::NoRefusals) => {
            text.push_str(" with ");
            text.push_str(&end.need);
        }
        Verdict::Adapter => {
            text.push_str(" by ");
            text.push_str(&end.need);
        }
        _ => {}
    }
    text
}

/// What holds it, and which joints hang on nothing.
fn holds(bought: &Purchase, job: Job, out: &mut String) {
    let told: Vec<String> = bought
        .holds
        .iter()
        .map(|held| {
            // Of one thing alone there is room to say what to know of it.
            let brief = job == Job::None && bought.holds.len() > 1;
            if held.remark.is_empty() || brief {
                held.name.clone()
            } else {
                format!("{} ({})", held.name, held.remark)
            }
        })
        .collect();
    if !told.is_empty() {
        wrap(out, "HOLDS    ", &format!("{}.", told.join("; ")));
    }
    let free: Vec<&str> = bought.unheld().map(|end| end.name.as_str()).collect();
    if !free.is_empty() {
        wrap(out, "HOLD NOTHING  ", &format!("{}.", free.join(", ")));
    }
}
