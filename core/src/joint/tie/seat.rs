//! Which side of a part goes on which pipe, and what that joint costs: worked out once, looked up by the search.

use super::chain::{On, TieEnd};
use super::cost::{CUT_OFF, DRY, JOINT, NEED, RESTRAINT};
use super::search::Rules;
use crate::image::{Image, JointEnd, Part};
use crate::joint::{Form, Run, Use, Verdict, best, holders};

/// The most parts of an image that are in a run.
pub const MOST_RUNS: usize = 64;

/// A joint with a gasket is like no other. Sockets of which one row of the matrix speaks and that have none are one: glue in
/// schedule 40 and in 80.
pub(super) const ALONE: u16 = 0x8000;

/// A joint of a part and a pipe.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    /// The end as it is made up, an index.
    pub(super) end: u8,
    /// What joint it is.
    pub(super) joint: u16,
    pub(super) cost: u16,
    /// Nothing is listed that holds it.
    pub(super) loose: bool,
    /// It cannot be made up wet.
    pub(super) dry: bool,
}

/// A part that is in a run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Runner {
    pub(super) part: u8,
    pub(super) run: Run,
    pub(super) ends: [u8; 2],
    /// By side and pipe.
    pub(super) seats: [[Option<Seat>; 4]; 2],
}

impl Runner {
    /// The joint of a side on a pipe.
    pub(super) fn seat(&self, side: usize, on: On) -> Option<Seat> {
        // The last end of a spigot goes into a bell, and takes no pipe.
        if self.run == Run::Spigot && side == 1 {
            return None;
        }
        *self.seats.get(side)?.get(on as usize)?
    }

    /// An end as the part has it.
    pub(super) fn end(&self, side: usize) -> u8 {
        self.ends.get(side).copied().unwrap_or(Part::NO_END)
    }
}

/// The parts of an image that are in a run, with their joints on the pipes of two ends.
pub(super) fn runners(
    image: &Image<'_>,
    ends: &[TieEnd; 2],
    rules: Rules,
) -> [Option<Runner>; MOST_RUNS] {
    let all = (0u8..).zip(image.parts());
    let mut found = all.filter_map(|(at, part)| {
        let run = part.run()?;
        let mut own = part.joint_ends();
        let ends_of = [own.next()?, own.next()?];
        let seats = ends_of.map(|end| On::PIPES.map(|on| seat(image, ends, on, end, rules)));
        Some(Runner {
            part: at,
            run,
            ends: ends_of,
            seats,
        })
    });
    core::array::from_fn(|_| found.next())
}

/// The joint of an end on a pipe: `None` where it does not seal as it is, or where it must be held and nothing holds it.
fn seat(image: &Image<'_>, ends: &[TieEnd; 2], on: On, own: u8, rules: Rules) -> Option<Seat> {
    let pipe = on.pipe(ends)?;
    let of = |end: u8| {
        let found = best(image, &pipe.row, pipe.variants, pipe.form, end)?;
        Some((end, found.sealing))
    };
    let another = image.joint_end(own).another().and_then(of);
    let (end, sealing) = match (of(own), another) {
        (Some(one), Some(other)) if other.1.verdict < one.1.verdict => other,
        (Some(one), _) => one,
        (None, other) => other?,
    };
    if sealing.verdict > Verdict::FitsWith {
        return None;
    }
    // A block takes no pull.
    let ties = |(_, one): &(u8, crate::image::Listing)| one.ties();
    let mut holds = holders(image, pipe.row, pipe.variants, end)
        .filter(ties)
        .peekable();
    let itself = |(_, one): (u8, crate::image::Listing)| one.of() == Some(Use::Itself);
    let loose = holds.peek().is_none();
    if loose && rules.held {
        return None;
    }
    let held = if loose || holds.any(itself) {
        0
    } else {
        RESTRAINT
    };
    let need = if sealing.verdict == Verdict::Fits {
        0
    } else {
        NEED
    };
    let record = image.joint_end(end);
    let dry = record.is_dry();
    let kept = match pipe.form {
        Form::Flanged => record.by == JointEnd::FLANGE,
        Form::Threaded => record.by == JointEnd::THREAD,
        _ => true,
    };
    let off = if kept { 0 } else { CUT_OFF };
    Some(Seat {
        end,
        joint: if dry {
            sealing.row
        } else {
            ALONE | u16::from(end)
        },
        cost: JOINT + held + need + off + if dry { DRY } else { 0 },
        loose,
        dry,
    })
}
