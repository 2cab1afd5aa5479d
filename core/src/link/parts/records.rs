//! What is said of a part and of what holds it, as records of a page.

use serde::de::Error;
use serde::{Deserialize, Deserializer};

use super::{HELD_PAGE, PARTS_PAGE};
use crate::joint::{Decides, Fit, Verdict};
use crate::numbers::Figures;

/// What is said of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartSaid {
    /// The part, an index.
    pub part: u8,
    /// The end of it that goes on the pipe, an index, as it is made up.
    pub end: u8,
    /// That end as the part has it.
    pub own: u8,
    /// It is another pipe's side of the part.
    pub far: bool,
    /// Another class has another verdict or another need.
    pub by_class: bool,
    /// The verdict.
    pub verdict: Verdict,
    /// What decided it.
    pub decides: Decides,
    /// The row of the matrix that speaks of the end: need, reason and grade.
    pub row: u16,
}

/// Bytes of one on the wire.
pub(super) const SAID: usize = 6;
/// What decides a verdict, by code.
pub(in super::super) const DECIDES: [Decides; 5] = [
    Decides::Matrix,
    Decides::Size,
    Decides::Owner,
    Decides::Crew,
    Decides::Thread,
];

impl From<&Fit> for PartSaid {
    fn from(fit: &Fit) -> Self {
        Self {
            part: fit.part,
            end: fit.end,
            own: fit.own,
            far: fit.far,
            by_class: fit.best.by_class,
            verdict: fit.verdict,
            decides: fit.decides,
            row: fit.best.sealing.row,
        }
    }
}

impl PartSaid {
    /// Part, end, own end, the verdict with what decides it above, the row with both flags above.
    pub(in super::super) fn bytes(self) -> [u8; SAID] {
        let decides = DECIDES.iter().zip(0u8..);
        let decides = decides
            .filter(|(one, _)| **one == self.decides)
            .map(|(_, code)| code);
        let verdict = self.verdict as u8 | decides.last().unwrap_or(0) << 4;
        let flags = u16::from(self.far) << 15 | u16::from(self.by_class) << 14;
        let [low, high] = (self.row & 0x3fff | flags).to_le_bytes();
        [self.part, self.end, self.own, verdict, low, high]
    }

    fn read(bytes: [u8; SAID]) -> Option<Self> {
        let [part, end, own, verdict, low, high] = bytes;
        let row = u16::from_le_bytes([low, high]);
        Some(Self {
            part,
            end,
            own,
            far: row >> 15 == 1,
            by_class: row >> 14 & 1 == 1,
            verdict: Verdict::from_code(verdict & 15)?,
            decides: *DECIDES.get(usize::from(verdict >> 4))?,
            row: row & 0x3fff,
        })
    }
}

/// Something that holds a joint, must not, or could hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// It holds the joint: a restraint, an index.
    Holds(u8),
    /// It must not be used to hold the joint, or not without asking: a restraint, an index.
    Forbidden(u8),
    /// It could hurt somebody: a caution, an index; the worst first.
    Caution(u8),
}

impl Held {
    pub(in super::super) const fn bytes(self) -> [u8; 2] {
        match self {
            Self::Holds(index) => [0, index],
            Self::Forbidden(index) => [1, index],
            Self::Caution(index) => [2, index],
        }
    }

    const fn read(bytes: [u8; 2]) -> Option<Self> {
        Some(match bytes {
            [0, index] => Self::Holds(index),
            [1, index] => Self::Forbidden(index),
            [2, index] => Self::Caution(index),
            _ => return None,
        })
    }
}

/// Records one behind the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Records<'a, const N: usize>(pub(in super::super) &'a [[u8; N]]);

/// Parts, one behind the other.
pub type PartRecords<'a> = Records<'a, SAID>;
/// What holds and what could hurt, one behind the other.
pub type HeldRecords<'a> = Records<'a, 2>;
/// Figures, one behind the other.
pub type FigureRecords<'a> = Records<'a, 8>;

impl<'a> PartRecords<'a> {
    /// Each part.
    pub fn iter(&self) -> impl Iterator<Item = PartSaid> + use<'a> {
        self.0.iter().filter_map(|bytes| PartSaid::read(*bytes))
    }
}

impl<'a> HeldRecords<'a> {
    /// Each thing.
    pub fn iter(&self) -> impl Iterator<Item = Held> + use<'a> {
        self.0.iter().filter_map(|bytes| Held::read(*bytes))
    }
}

impl<'a> FigureRecords<'a> {
    /// Each figure; one that there is not is no number.
    pub fn iter(&self) -> impl Iterator<Item = f64> + use<'a> {
        self.0.iter().map(|bytes| f64::from_le_bytes(*bytes))
    }
}

/// Bytes as whole records.
fn records<'de: 'a, 'a, D: Deserializer<'de>, const N: usize>(
    from: D,
    good: impl Fn([u8; N]) -> bool,
    most: usize,
) -> Result<Records<'a, N>, D::Error> {
    let bytes = <&'de [u8]>::deserialize(from)?;
    match bytes.as_chunks() {
        (all, []) if all.len() <= most && all.iter().all(|one| good(*one)) => Ok(Records(all)),
        _ => Err(D::Error::custom("records that mean nothing")),
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for PartRecords<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        records(from, |one| PartSaid::read(one).is_some(), PARTS_PAGE)
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for HeldRecords<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        records(from, |one| Held::read(one).is_some(), HELD_PAGE)
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for FigureRecords<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        records(from, |_| true, Figures::MOST)
    }
}
