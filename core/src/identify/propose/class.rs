//! What parts the classes of a pipe that is settled, where the job hangs on the class.
//!
//! Classes share an OD, so that they split no answer; but a direct tap, a listed restraint, a new length and glue hang on them.

use super::{Cannot, Check, Proposal, Trench};
use crate::identify::answer::{Answer, Weight};
use crate::identify::classes::variants_left;
use crate::image::{Image, Row, Set};
use crate::joint::{Form, Job, best, hangs_on, restraints};
use crate::reading::{Query, Reading};

/// The chance that a wall tells the classes of a pipe apart, Q30: most of them; neighbours overlap.
const WALL_TELLS: u32 = 3 << 28;

/// The check to make, if the job hangs on a class that is not known.
pub(super) fn check(
    image: &Image<'_>,
    query: &Query,
    answer: &Answer,
    trench: Trench,
    cannot: Cannot,
) -> Option<Proposal> {
    let first = answer.candidates().first()?;
    if !matters(
        image,
        query.job,
        first.row,
        variants_left(image, query, first.row),
    ) {
        return None;
    }
    let settings = image.settings();
    let walls = |reading: &Reading| matches!(reading, Reading::Wall { .. });
    let unread = query.clues.print.is_none();
    let (check, settles, effort) = if unread && !cannot.holds(Check::Print) {
        let legible = image.print_settings().legible >> 2;
        (Check::Print, legible, settings.print_effort)
    } else if trench.cut_end && !cannot.holds(Check::Wall) && !query.readings().any(walls) {
        (Check::Wall, WALL_TELLS, settings.wall_effort)
    } else {
        return None;
    };
    Some(Proposal {
        check,
        settles: Weight::from_q30(settles),
        less_doubt: 0,
        effort,
    })
}

/// Whether what is bought for a job hangs on which of these variants it is.
fn matters(image: &Image<'_>, job: Job, row: u16, variants: Set) -> bool {
    if job == Job::None || variants.iter().nth(1).is_none() {
        return false;
    }
    let row: Row = image.row(row);
    let ends = (0u8..)
        .zip(image.joint_ends())
        .filter(|(end, _)| hangs_on(image, *end, job));
    let by_class = |end: u8| {
        best(image, &row, variants, Form::PlainSquare, end).is_some_and(|best| best.by_class)
    };
    let held = |variant: u8| restraints(image, row, Set::default().with(variant)).map(|(at, _)| at);
    match job {
        Job::Length => true,
        Job::Restraint => {
            let mut all = variants.iter();
            let first = all.next();
            first.is_some_and(|first| all.any(|other| !held(first).eq(held(other))))
        }
        _ => ends.into_iter().any(|(end, _)| by_class(end)),
    }
}
