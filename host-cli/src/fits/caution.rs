//! What could hurt someone who puts a part on, in full where that is asked for.

use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image, Row};
use springline_core::joint::{Doing, Owner, cautions};

use super::sheet::keys;

/// At most so many lines where there are more.
const LINES: usize = 5;

/// A caution that is due.
pub(crate) struct Due {
    pub(crate) key: String,
    pub(crate) fold: bool,
    pub(crate) short: String,
    pub(crate) full: String,
    pub(crate) sources: Vec<String>,
    pub(crate) grade: Option<Grade>,
}

/// The cautions that are due of some pipes and of what is done to them, the worst first.
pub(crate) fn due(
    image: &Image<'_>,
    notes: &Notes,
    rows: &[Row],
    owner: Owner,
    doing: Doing,
) -> Vec<Due> {
    let all = cautions(image, rows.iter().copied(), owner, doing);
    all.filter_map(|(index, one)| {
        let note = notes.joints.cautions.get(usize::from(index))?;
        Some(Due {
            key: note.key.clone(),
            fold: one.folds(),
            short: image.phrase(one.short).to_string(),
            full: note.full.clone(),
            sources: keys(notes, Some(&note.cited)),
            grade: Grade::from_code(note.cited.grade),
        })
    })
    .collect()
}

/// The lines of a text: at most five, and how many more; what must not be folded is always there. The full texts where they
/// are asked for.
pub(crate) fn lines(cautions: &[Due], full: bool) -> Vec<String> {
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
