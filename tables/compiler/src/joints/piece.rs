//! What a part is made as, where its name alone does not say which to hand over a counter.

use serde::{Deserialize, Serialize};

/// One of the shapes that a part is made in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Piece {
    /// Turns the line: its angle is told.
    Bend,
    /// A branch on one side: its size is told.
    Tee,
    /// A branch on either side.
    Cross,
    /// A branch that leaves at a slant.
    Wye,
    /// A branch off the barrel of a main.
    Branch,
    /// From one size to another, which is told.
    Reducer,
    /// Two ends of one size.
    Coupling,
    /// Ends the line.
    Cap,
    /// Two bends in one piece: how far they lie apart is told.
    Offset,
}

impl Piece {
    /// Every one with its word in `parts.csv`, in the order of the type.
    pub const WORDS: &'static [(&'static str, Self)] = &[
        ("bend", Self::Bend),
        ("tee", Self::Tee),
        ("cross", Self::Cross),
        ("wye", Self::Wye),
        ("branch", Self::Branch),
        ("reducer", Self::Reducer),
        ("coupling", Self::Coupling),
        ("cap", Self::Cap),
        ("offset", Self::Offset),
    ];

    /// Its word.
    #[must_use]
    pub fn key(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, held)| *held == self)
            .map_or("", |(word, _)| word)
    }

    /// Something leaves the line through it.
    #[must_use]
    pub const fn branches(self) -> bool {
        matches!(self, Self::Tee | Self::Cross | Self::Wye | Self::Branch)
    }
}
