//! Lengths on the wire.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::length::Length;

/// A length on the wire: counts of 10 nm, a number in postcard.
///
/// Reading and writing it stay functions of their own: a query has a dozen places for a length, and in each of them they
/// would be some hundred bytes of code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Counts(pub(super) i32);

impl Serialize for Counts {
    #[inline(never)]
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(to)
    }
}

impl<'de> Deserialize<'de> for Counts {
    #[inline(never)]
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        i32::deserialize(from).map(Self)
    }
}

impl From<Length> for Counts {
    fn from(length: Length) -> Self {
        Self(length.counts())
    }
}

impl From<Counts> for Length {
    fn from(counts: Counts) -> Self {
        Self::from_counts(counts.0)
    }
}
