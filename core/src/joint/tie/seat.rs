//! Which side of a part goes on which pipe, and what that joint costs: worked out once, looked up by the search.

use super::chain::{On, TieEnd};
use super::cost::{CURE, CUT_OFF, CUT_THREAD, DRY, JOINT, LATE, NEED, RESTRAINT};
use super::rules::Rules;
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
    /// It does not cure before water must be back.
    pub(super) late: bool,
}

/// A part that is in a run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Runner {
    pub(super) part: u8,
    pub(super) run: Run,
    /// The smallest bend that it is made as, and whether it is two in one piece.
    pub(super) bends: u8,
    pub(super) offsets: bool,
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
    // Many parts have one end.
    let mut known: [Option<[Option<Seat>; 4]>; 64] = [None; 64];
    let all = (0u8..).zip(image.parts());
    let mut found = all.filter_map(|(at, part)| {
        let run = part.run()?;
        if run == Run::Turns && rules.site.lie.bends == 0 {
            return None;
        }
        let mut own = part.joint_ends();
        let ends_of = [own.next()?, own.next()?];
        let seats = ends_of.map(|end| {
            let held = known.get_mut(usize::from(end))?;
            Some(*held.get_or_insert_with(|| On::PIPES.map(|on| seat(image, ends, on, end, rules))))
        });
        let seats = seats.map(Option::unwrap_or_default);
        Some(Runner {
            part: at,
            run,
            bends: part.bends(),
            offsets: part.offsets(),
            ends: ends_of,
            seats,
        })
    });
    core::array::from_fn(|_| found.next())
}

/// The joint of an end on a pipe: `None` where it does not seal as it is, or where it must be held and nothing holds it.
pub(super) fn seat(
    image: &Image<'_>,
    ends: &[TieEnd; 2],
    on: On,
    own: u8,
    rules: Rules,
) -> Option<Seat> {
    let pipe = on.pipe(ends)?;
    let record = image.joint_end(own);
    let asked = on.end(ends);
    // What is on the end is of no use to it.
    let spoils = match pipe.form {
        Form::Flanged => record.by != JointEnd::FLANGE,
        Form::Threaded => record.by != JointEnd::THREAD,
        Form::Belled => true,
        _ => false,
    };
    let drilled = |end: TieEnd| {
        spoils || pipe.form != Form::Flanged || [own, Part::NO_END].contains(&end.flange)
    };
    if asked.is_some_and(|end| !drilled(end) || end.keep && spoils) {
        return None;
    }
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
    if dry && rules.site.dry == Some(false) {
        return None;
    }
    let late = record.cures() && rules.site.hours.is_some_and(|hours| hours < CURE);
    let off = match pipe.form {
        Form::Flanged if spoils => CUT_OFF,
        Form::Threaded if spoils => CUT_THREAD,
        _ => 0,
    };
    let waits = if dry && rules.site.dry.is_none() {
        DRY
    } else {
        0
    };
    Some(Seat {
        end,
        joint: if dry {
            sealing.row
        } else {
            ALONE | u16::from(end)
        },
        cost: JOINT + held + need + off + waits + if late { LATE } else { 0 },
        loose,
        dry,
        late,
    })
}
