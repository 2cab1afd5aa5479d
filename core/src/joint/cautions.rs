//! What could hurt somebody, each where its trigger is: the desk and a device ask the same.

use super::{Act, Fit, Owner, Task, Verdict};
use crate::image::{Caution, Image, Row, Set, Touches};

/// What is done to a pipe, as far as somebody could be hurt by it: by one part, or by one of several.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Doing {
    /// A bit for each [`Act`].
    acts: u8,
    /// A bit for each [`Task`].
    tasks: u8,
    /// The joint ends that are made up.
    ends: Set,
}

impl Doing {
    /// An act, the joint ends that are made up by it, and what it is done for.
    #[must_use]
    pub fn new(act: Act, ends: Set, tasks: impl IntoIterator<Item = Task>) -> Self {
        Self {
            acts: 1 << act as u8,
            tasks: tasks.into_iter().fold(0, |bits, task| bits | bit(task)),
            ends,
        }
    }

    /// What is done by a part. One that does not go on hurts nobody.
    #[must_use]
    #[inline(never)]
    pub fn of(image: &Image<'_>, fit: &Fit) -> Self {
        if fit.verdict == Verdict::No {
            return Self::default();
        }
        Self {
            // A checked image has no other codes.
            acts: 1 << (image.part(fit.part).act_and_stock & 7),
            tasks: fit.task_bits(image),
            ends: fit.ends(image),
        }
    }

    /// Either of two.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        Self {
            acts: self.acts | other.acts,
            tasks: self.tasks | other.tasks,
            ends: Set(self.ends.0 | other.ends.0),
        }
    }
}

/// The bit of a task.
pub(super) const fn bit(task: Task) -> u8 {
    1 << task as u8
}

/// The cautions that are due where something is done to pipes of these rows, each with its index, the worst first.
pub fn cautions(
    image: &Image<'_>,
    rows: impl Iterator<Item = Row> + Clone,
    owner: Owner,
    doing: Doing,
) -> impl Iterator<Item = (u8, Caution)> {
    let all = (0u8..).zip(image.cautions());
    all.filter(move |(_, one)| {
        let mut rows = rows.clone();
        rows.any(|row| is_due(image, *one, &row, owner, doing))
    })
}

/// Whether a caution is due: it is about this pipe, and hangs on nothing that is done, or on something that is.
#[must_use]
#[inline(never)]
pub fn is_due(image: &Image<'_>, one: Caution, row: &Row, owner: Owner, doing: Doing) -> bool {
    let any = one.acts() == 0 && one.tasks == 0 && one.ends == Caution::NO_ENDS;
    let done = any
        || one.acts() & doing.acts != 0
        || one.tasks & doing.tasks != 0
        || one.ends != Caution::NO_ENDS && image.set(one.ends).meets(doing.ends);
    // A checked image has no other codes.
    done && match one.touches() {
        None | Some(Touches::Any) => true,
        Some(Touches::Material(code)) => image.family(row.family).material == code,
        Some(Touches::Carries(code)) => image.family(row.family).carries == code,
        Some(Touches::System(code)) => row.system == code,
        Some(Touches::Owner(code)) => owner as u8 == code,
    }
}
