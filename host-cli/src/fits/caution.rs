//! What could hurt someone who puts a part on: rows of `cautions.csv`, each where its trigger is.

use springline_compiler::notes::{CautionNote, ConditionNote, Notes};
use springline_core::image::{Grade, Image, Row};
use springline_core::joint::{Act, Owner, Task};

use super::sheet::keys;

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

/// What is put on a pipe, as far as somebody could be hurt by it.
pub(super) struct Doing<'a> {
    pub(super) act: Act,
    /// Indices of its joint ends as they are made up.
    pub(super) ends: &'a [u8],
    pub(super) tasks: &'a [Task],
}

/// The cautions that are due of some pipes and of the parts that may be put on them, the worst first.
pub(super) fn due(
    image: &Image<'_>,
    notes: &Notes,
    rows: &[Row],
    owner: Owner,
    parts: &[Doing<'_>],
) -> Vec<Due> {
    let holds = |row: &Row, part: Option<&Doing<'_>>, condition: &ConditionNote| match *condition {
        ConditionNote::Always => true,
        ConditionNote::Material(code) => image.family(row.family).material == code,
        ConditionNote::Carries(code) => image.family(row.family).carries == code,
        ConditionNote::System(code) => row.system == code,
        ConditionNote::Owner(code) => owner as u8 == code,
        ConditionNote::Act(code) => part.is_some_and(|part| part.act as u8 == code),
        ConditionNote::Ends(ends) => part.is_some_and(|part| {
            let among = |end: &u8| ends >> (*end & 63) & 1 == 1;
            part.ends.iter().any(among)
        }),
        ConditionNote::Task(code) => {
            part.is_some_and(|part| part.tasks.iter().any(|task| *task as u8 == code))
        }
    };
    let is_due = |one: &&CautionNote| {
        one.triggers.iter().any(|all| {
            rows.iter().any(|row| {
                let met = |part| all.iter().all(|condition| holds(row, part, condition));
                met(None) || parts.iter().any(|part| met(Some(part)))
            })
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
