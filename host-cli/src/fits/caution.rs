//! What could hurt someone who puts a part on: rows of `cautions.csv`, each where its trigger is.

use springline_compiler::notes::{CautionNote, ConditionNote, Notes};
use springline_core::image::{Grade, Image, Row};
use springline_core::joint::{Owner, Verdict};

use super::sheet::{PartRow, keys};

/// At most so many lines where there are more.
const LINES: usize = 5;

/// A caution that is due.
pub(super) struct Due {
    pub(super) key: String,
    fold: bool,
    pub(super) short: String,
    pub(super) full: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

/// The cautions that are due of a pipe and of the parts that may be put on it, the worst first.
pub(super) fn due(
    image: &Image<'_>,
    notes: &Notes,
    row: &Row,
    owner: Owner,
    parts: &[&PartRow],
) -> Vec<Due> {
    let family = image.family(row.family);
    // A part that does not go on hurts nobody.
    let parts = || parts.iter().filter(|part| part.verdict < Verdict::No);
    let holds = |part: Option<&PartRow>, condition: &ConditionNote| match *condition {
        ConditionNote::Always => true,
        ConditionNote::Material(code) => family.material == code,
        ConditionNote::Carries(code) => family.carries == code,
        ConditionNote::System(code) => row.system == code,
        ConditionNote::Owner(code) => owner as u8 == code,
        ConditionNote::Act(code) => part.is_some_and(|part| part.act as u8 == code),
        ConditionNote::Ends(ends) => part.is_some_and(|part| {
            let among = |end: &u8| ends >> (*end & 63) & 1 == 1;
            part.all_ends.iter().any(among)
        }),
        ConditionNote::Task(code) => {
            part.is_some_and(|part| part.tasks.iter().any(|task| *task as u8 == code))
        }
    };
    let is_due = |one: &&CautionNote| {
        one.triggers.iter().any(|all| {
            let met = |part| all.iter().all(|condition| holds(part, condition));
            met(None) || parts().any(|part| met(Some(*part)))
        })
    };
    let all = notes.joints.cautions.iter().filter(is_due);
    all.map(|one| Due {
        key: one.key.clone(),
        fold: one.fold,
        short: one.short.clone(),
        full: one.full.clone(),
        sources: keys(notes, Some(&one.cited)),
        grade: Grade::from_code(one.cited.grade),
    })
    .collect()
}

/// The lines of a text: at most five, and how many more; what must not be folded is always there. The full texts where they
/// are asked for.
pub(super) fn lines(cautions: &[Due], full: bool) -> Vec<String> {
    if full {
        return cautions.iter().map(|one| one.full.clone()).collect();
    }
    let kept = cautions.iter().filter(|one| !one.fold).count();
    let mut room = LINES.saturating_sub(kept);
    let mut lines: Vec<String> = Vec::new();
    let mut more = 0;
    for one in cautions {
        if one.fold && room == 0 {
            more += 1;
            continue;
        }
        room -= usize::from(one.fold);
        lines.push(one.short.clone());
    }
    if more > 0 {
        lines.push(format!("and {more} more (--why, --json)."));
    }
    lines
}
