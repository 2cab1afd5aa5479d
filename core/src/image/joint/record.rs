//! Records of the joint sections.

use super::super::record::record;
use crate::joint::{Run, Task, Use};

record! {
    /// A band of sizes, both ends in it, in sixty-fourths of an inch (a DN counts as 25 to the inch).
    Band, 4, {
        /// The smallest.
        from: u16 = 0,
        /// The largest.
        to: u16 = 2,
    }
}

impl Band {
    /// Whether a size is in it.
    #[must_use]
    #[inline]
    pub const fn holds(&self, measure: u16) -> bool {
        self.from <= measure && measure <= self.to
    }
}

record! {
    /// Words of one length that lie one behind the other.
    WordRun, 2, {
        /// Bytes of each.
        length: u8 = 0,
        /// How many.
        count: u8 = 1,
    }
}

record! {
    /// A joint end: what a part offers to the pipe.
    JointEnd, 7, {
        /// What people read, a phrase.
        name: u16 = 0,
        /// The purchases that hang on it, a bit for each [`crate::joint::Job`].
        jobs: u8 = 2,
        /// What it is for, a [`crate::joint::Role`], and above bit 3 its grade.
        role_and_grade: u8 = 3,
        /// What it is asked for by: an OD system, or one of the codes of [`JointEnd::RANGE`] and its neighbours.
        by: u8 = 4,
        /// What is so of it: [`JointEnd::DRY`] and its neighbours.
        flags: u8 = 5,
        /// The same end with another gasket in it, or the bell that a spigot goes into, an index; [`Part::NO_END`] for none.
        or: u8 = 6,
    }
}

impl JointEnd {
    /// Asked for by the range that holds the measured OD.
    pub const RANGE: u8 = 252;
    /// Asked for by the class of its flange.
    pub const FLANGE: u8 = 253;
    /// Asked for by its thread.
    pub const THREAD: u8 = 254;
    /// Asked for by nothing but the nominal size.
    pub const SIZE_ALONE: u8 = 255;

    /// It cannot be made up wet.
    pub const DRY: u8 = 1;
    /// It must cure before it takes pressure.
    pub const CURES: u8 = 2;
    /// Pipe comes with such a bell.
    pub const BELL: u8 = 4;
    /// It goes into a bell, and takes no pipe.
    pub const SPIGOT: u8 = 8;

    /// Whether it cannot be made up wet.
    #[must_use]
    pub const fn is_dry(&self) -> bool {
        self.flags & Self::DRY != 0
    }

    /// Whether it must cure before it takes pressure.
    #[must_use]
    pub const fn cures(&self) -> bool {
        self.flags & Self::CURES != 0
    }

    /// Whether pipe comes with such a bell.
    #[must_use]
    pub const fn is_bell(&self) -> bool {
        self.flags & Self::BELL != 0
    }

    /// The same end with another gasket in it, an index.
    #[must_use]
    pub const fn another(&self) -> Option<u8> {
        match (self.flags & Self::SPIGOT, self.or) {
            (0, or) if or != Part::NO_END => Some(or),
            _ => None,
        }
    }

    /// The bell that it goes into, an index, where it is a spigot.
    #[must_use]
    pub const fn bell(&self) -> Option<u8> {
        match (self.flags & Self::SPIGOT, self.or) {
            (0, _) | (_, Part::NO_END) => None,
            (_, bell) => Some(bell),
        }
    }
}

record! {
    /// One row of the joint matrix: the verdict on a block of cells.
    MatrixRow, 10, {
        /// The pipe variants, an index into the sets.
        variants: u8 = 0,
        /// The end forms, a bit for each [`crate::joint::Form`].
        forms: u8 = 1,
        /// The joint ends, an index into the sets.
        ends: u8 = 2,
        /// The sizes, an index into the bands.
        band: u8 = 3,
        /// A [`crate::joint::Verdict`], and above bit 3 the [`crate::joint::Kind`] of the reason, 15 for none.
        verdict_and_kind: u8 = 4,
        /// How far it can be trusted.
        grade: u8 = 5,
        /// What must be ordered, cut or put in, a phrase.
        need: u16 = 6,
        /// Why, a phrase.
        reason: u16 = 8,
    }
}

record! {
    /// Something that must be listed for the pipe that it goes on: a restraint or a saddle body.
    Listing, 10, {
        /// What people read, a phrase.
        name: u16 = 0,
        /// What to know of it, a phrase.
        remark: u16 = 2,
        /// The pipe variants that it may go on, an index into the sets.
        variants: u8 = 4,
        /// The joint ends that it serves, an index into the sets.
        ends: u8 = 5,
        /// The sizes that it is made in, an index into the bands.
        band: u8 = 6,
        /// The OD system that it must be listed for, [`Listing::ANY`] where all are alike.
        system: u8 = 7,
        /// The material that it must be listed for, a [`crate::image::Material`], [`Listing::ANY`] where all are alike.
        material: u8 = 8,
        /// How far it can be trusted, and above bit 3 the [`Use`] of it.
        grade_and_use: u8 = 9,
    }
}

impl Listing {
    /// Stands for every OD system, and for every material.
    pub const ANY: u8 = 255;

    /// The grade's code.
    #[must_use]
    pub const fn grade(&self) -> u8 {
        self.grade_and_use & 15
    }

    /// What it is for on that pipe; a saddle is for use.
    #[must_use]
    pub fn of(&self) -> Option<Use> {
        Use::from_code(self.grade_and_use >> 4)
    }

    /// Whether it holds, or the joint holds itself, or a block takes the push.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.of().is_some_and(Use::holds)
    }

    /// Whether it holds against pull, as a straight run needs it.
    #[must_use]
    pub fn ties(&self) -> bool {
        matches!(self.of(), Some(Use::Holds | Use::Itself))
    }

    /// Whether it serves every pipe alike, as the bolts of a flange do.
    #[must_use]
    pub const fn is_for_all(&self) -> bool {
        self.system == Self::ANY && self.material == Self::ANY
    }
}

record! {
    /// A row that buys, for a job, what a row before it buys.
    SamePurchase, 6, {
        /// The row, and above it the [`crate::joint::Job`], so that one number is searched for.
        row_and_job: u32 = 0,
        /// The first row of the same purchase.
        first: u16 = 4,
    }
}

record! {
    /// A part: a set of joint ends.
    Part, 16, {
        /// What people read, a phrase.
        name: u16 = 0,
        /// Its joint ends, a byte each from the lowest on, [`Part::NO_END`] behind the last; a double one stands twice.
        ends: u32 = 2,
        /// The sizes that it is made in, an index into the bands.
        band: u8 = 6,
        /// What people are about to do when they ask for it, a bit for each [`crate::joint::Task`]; above them its
        /// [`Part::bends`].
        tasks: u8 = 7,
        /// What is done to the pipe, a [`crate::joint::Act`], and above bit 3 the [`crate::joint::Stock`].
        act_and_stock: u8 = 8,
        /// Sizes that are got otherwise, an index into the bands; 255 for none.
        other: u8 = 9,
        /// More such sizes, likewise.
        more: u8 = 10,
        /// How those two are got: a [`crate::joint::Stock`] each.
        others: u8 = 11,
        /// Outlets that it is made with, a bit for each of [`Part::OUTLETS`].
        outlets: u16 = 12,
        /// The [`crate::joint::Thread`] of its outlet, 255 for none.
        thread: u8 = 14,
        /// How far it can be trusted, and above bit 3 one more than its [`Run`], zero for none.
        grade_and_run: u8 = 15,
    }
}

impl Part {
    /// The grade's code.
    #[must_use]
    pub const fn grade(&self) -> u8 {
        self.grade_and_run & 15
    }

    /// What it does between two ends in a straight run; `None` for a part that turns, branches or ends the line.
    #[must_use]
    pub fn run(&self) -> Option<Run> {
        Run::from_code((self.grade_and_run >> 4).checked_sub(1)?)
    }

    /// The smallest bend that it is made as: 1 for 45 degrees, 2 for 22-1/2, 3 for 11-1/4; 0 for none. What is made as a small
    /// bend is made as the larger ones and as a 90, too.
    #[must_use]
    pub const fn bends(&self) -> u8 {
        self.tasks >> Task::ALL.len()
    }

    /// Whether it is two bends in one piece.
    #[must_use]
    pub fn offsets(&self) -> bool {
        self.run() == Some(Run::Turns) && self.bends() == 0
    }

    /// Stands for no end.
    pub const NO_END: u8 = 255;
    /// Sizes of outlets, sixty-fourths of an inch.
    pub const OUTLETS: [u16; 9] = [32, 48, 64, 80, 96, 128, 160, 192, 256];

    /// Its joint ends in their order, a double one twice.
    pub fn joint_ends(&self) -> impl Iterator<Item = u8> + use<> {
        let ends = self.ends.to_le_bytes().into_iter();
        ends.take_while(|end| *end != Self::NO_END)
    }
}

/// A set of indices below 64.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Set(pub u64);

impl Set {
    /// Bytes of one.
    pub const SIZE: usize = 8;

    /// Reads one.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::SIZE]) -> Self {
        Self(u64::from_le_bytes(bytes))
    }

    /// Writes it.
    #[must_use]
    pub const fn to_bytes(self) -> [u8; Self::SIZE] {
        self.0.to_le_bytes()
    }

    /// Whether an index is in it.
    #[must_use]
    #[inline]
    pub const fn has(self, index: u8) -> bool {
        index < 64 && self.0 >> index & 1 == 1
    }

    /// Whether two have something in common.
    #[must_use]
    pub const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// This and one more.
    #[must_use]
    pub const fn with(self, index: u8) -> Self {
        Self(self.0 | 1 << (index & 63))
    }

    /// The indices, rising.
    pub fn iter(self) -> impl Iterator<Item = u8> {
        let mut left = self.0;
        core::iter::from_fn(move || {
            let next = left.trailing_zeros();
            left &= left.wrapping_sub(1);
            u8::try_from(next).ok().filter(|next| *next < 64)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_names_what_is_in_it() {
        let set = Set::default().with(0).with(5).with(63);
        assert_eq!(Set::from_bytes(set.to_bytes()), set);
        assert!(set.iter().eq([0, 5, 63]));
        assert!(set.has(5) && !set.has(4) && !set.has(64));
        assert!(set.meets(Set(32)) && !set.meets(Set(2)));
        assert_eq!(Set::default().iter().next(), None);
    }

    #[test]
    fn fields_neither_overlap_nor_overrun() {
        for (size, fields) in [
            (Band::SIZE, Band::FIELDS),
            (WordRun::SIZE, WordRun::FIELDS),
            (JointEnd::SIZE, JointEnd::FIELDS),
            (MatrixRow::SIZE, MatrixRow::FIELDS),
            (Listing::SIZE, Listing::FIELDS),
            (SamePurchase::SIZE, SamePurchase::FIELDS),
            (Part::SIZE, Part::FIELDS),
        ] {
            let mut end = 0;
            for (name, from, to) in fields {
                assert_eq!(*from, end, "{name}");
                end = *to;
            }
            assert_eq!(end, size);
        }
    }
}
