//! The joint sections of the image: what seals on what, what holds it, and what is one purchase.

mod caution;
pub(super) mod check;
mod phrase;
pub(super) mod record;

pub use caution::{Caution, Touches};
pub use phrase::{MARKS, MAX_WORDS, Phrase, SHORT_WORDS, code, is_mark};
pub use record::{Band, JointEnd, Listing, MatrixRow, Part, SamePurchase, Set, WordRun};

use super::{Image, Row};
use crate::joint::Job;

/// The tables of the joint sections.
#[derive(Clone, Copy, Debug)]
pub(super) struct Joints<'a> {
    pub(super) runs: &'a [[u8; WordRun::SIZE]],
    pub(super) phrases: &'a [u8],
    pub(super) measures: &'a [[u8; 2]],
    pub(super) bands: &'a [[u8; Band::SIZE]],
    pub(super) sets: &'a [[u8; Set::SIZE]],
    /// The family of each variant.
    pub(super) variants: &'a [u8],
    pub(super) ends: &'a [[u8; JointEnd::SIZE]],
    pub(super) matrix: &'a [[u8; MatrixRow::SIZE]],
    pub(super) restraints: &'a [[u8; Listing::SIZE]],
    pub(super) saddles: &'a [[u8; Listing::SIZE]],
    pub(super) same: &'a [[u8; SamePurchase::SIZE]],
    pub(super) parts: &'a [[u8; Part::SIZE]],
    pub(super) cautions: &'a [[u8; Caution::SIZE]],
}

impl<'a> Image<'a> {
    /// A phrase by where it starts.
    #[must_use]
    pub fn phrase(&self, start: u16) -> Phrase<'a> {
        Phrase {
            codes: codes(self.joints.phrases, start),
            runs: self.joints.runs,
            text: self.text,
        }
    }

    /// How large a nominal size is, in sixty-fourths of an inch.
    #[must_use]
    pub fn measure(&self, size: u8) -> u16 {
        let held = self.joints.measures.get(usize::from(size));
        held.map_or(0, |bytes| u16::from_le_bytes(*bytes))
    }

    /// A band of sizes.
    #[must_use]
    pub fn band(&self, index: u8) -> Band {
        super::lookup!(self.joints.bands, Band, index)
    }

    /// A set of variants or of joint ends.
    #[must_use]
    pub fn set(&self, index: u8) -> Set {
        let held = self.joints.sets.get(usize::from(index));
        held.map_or(Set::default(), |bytes| Set::from_bytes(*bytes))
    }

    /// Joint ends, in the order of their indices.
    pub fn joint_ends(&self) -> impl ExactSizeIterator<Item = JointEnd> + 'a {
        self.joints.ends.iter().map(JointEnd::from_bytes)
    }

    /// A joint end.
    #[must_use]
    #[inline(never)]
    pub fn joint_end(&self, index: u8) -> JointEnd {
        super::lookup!(self.joints.ends, JointEnd, index)
    }

    /// The rows of the joint matrix.
    pub fn matrix(&self) -> impl ExactSizeIterator<Item = MatrixRow> + 'a {
        self.joints.matrix.iter().map(MatrixRow::from_bytes)
    }

    /// What holds joints.
    pub fn restraints(&self) -> impl ExactSizeIterator<Item = Listing> + 'a {
        self.joints.restraints.iter().map(Listing::from_bytes)
    }

    /// Saddle bodies.
    pub fn saddles(&self) -> impl ExactSizeIterator<Item = Listing> + 'a {
        self.joints.saddles.iter().map(Listing::from_bytes)
    }

    /// Parts, in the order of their indices.
    pub fn parts(&self) -> impl ExactSizeIterator<Item = Part> + 'a {
        self.joints.parts.iter().map(Part::from_bytes)
    }

    /// A part.
    #[must_use]
    #[inline(never)]
    pub fn part(&self, index: u8) -> Part {
        super::lookup!(self.joints.parts, Part, index)
    }

    /// Cautions, the worst first.
    pub fn cautions(&self) -> impl ExactSizeIterator<Item = Caution> + 'a {
        self.joints.cautions.iter().map(Caution::from_bytes)
    }

    /// A caution.
    #[must_use]
    pub fn caution(&self, index: u8) -> Caution {
        super::lookup!(self.joints.cautions, Caution, index)
    }

    /// How many pipe variants there are.
    #[must_use]
    pub fn variant_count(&self) -> usize {
        self.joints.variants.len()
    }

    /// The family of a pipe variant.
    #[must_use]
    pub fn family_of_variant(&self, variant: u8) -> u8 {
        let held = self.joints.variants.get(usize::from(variant));
        held.copied().unwrap_or(0)
    }

    /// The variants that a row may be of: those of its classes, or where none are known all of its family.
    #[must_use]
    #[inline(never)]
    pub fn variants_of(&self, row: &Row) -> Set {
        if row.classes > 0 {
            let classes = self.classes(row);
            return classes.fold(Set::default(), |set, class| set.with(class.variant));
        }
        let all = (0u8..).zip(self.joints.variants);
        let own = all.filter(|(_, family)| **family == row.family);
        own.fold(Set::default(), |set, (variant, _)| set.with(variant))
    }

    /// What is bought for a job, to be asked for many rows.
    #[must_use]
    pub fn purchases(&self, job: Job) -> Purchases<'a> {
        let same = self.joints.same;
        let from = |job: u32| same.partition_point(|bytes| key(*bytes) < job << 16);
        let job = job as u32;
        Purchases {
            same: same.get(from(job)..from(job + 1)).unwrap_or(&[]),
        }
    }

    /// What is bought for a job on a row: the first row for which it is the same.
    #[must_use]
    pub fn purchase(&self, job: Job, row: u16) -> u16 {
        self.purchases(job).of(row)
    }
}

/// What is bought for one job.
#[derive(Clone, Copy, Debug)]
pub struct Purchases<'a> {
    same: &'a [[u8; SamePurchase::SIZE]],
}

impl Purchases<'_> {
    /// What is bought on a row: the first row for which it is the same.
    #[must_use]
    pub fn of(&self, row: u16) -> u16 {
        let of = |bytes: &[u8; SamePurchase::SIZE]| key(*bytes) & 0xffff;
        let at = self
            .same
            .partition_point(|bytes| of(bytes) < u32::from(row));
        match self.same.get(at) {
            Some(found) if of(found) == u32::from(row) => SamePurchase::from_bytes(found).first,
            _ => row,
        }
    }
}

fn key(bytes: [u8; SamePurchase::SIZE]) -> u32 {
    SamePurchase::from_bytes(&bytes).row_and_job
}

/// The codes of the phrase that starts at an offset: a length, and so many bytes.
fn codes(phrases: &[u8], start: u16) -> &[u8] {
    let rest = phrases.get(usize::from(start)..).unwrap_or(&[]);
    match rest.split_first() {
        Some((length, rest)) => rest.get(..usize::from(*length)).unwrap_or(&[]),
        None => &[],
    }
}
