//! What is said of a part in a word, and parts in the order in which they are shown.

use heapless::Vec;
use springline_core::joint::{Decides, Verdict};

use super::Shared;

/// Ranks of parts: what is said of one, and how it is got.
const RANKS: u8 = (Said::WontSeal as u8 + 1) * 4;
/// So many parts serve a task.
pub(crate) const LISTED: usize = 96;

/// What is said of a part in a word, the best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd)]
pub(crate) enum Said {
    Fits,
    FitsWith,
    Needs,
    AskOwner,
    Ask,
    NotKnown,
    WontSeal,
}

impl Said {
    /// Of a part.
    pub(crate) fn of(shared: &Shared) -> Self {
        if !shared.known {
            return Self::NotKnown;
        }
        match shared.fit.verdict {
            Verdict::Fits => Self::Fits,
            Verdict::FitsWith => Self::FitsWith,
            Verdict::Adapter => Self::Needs,
            Verdict::Refer if shared.fit.decides == Decides::Owner => Self::AskOwner,
            Verdict::Refer => Self::Ask,
            Verdict::No => Self::WontSeal,
        }
    }

    /// Of a part of this rank.
    pub(crate) const fn ranked(rank: u8) -> Self {
        match rank / 4 {
            0 => Self::Fits,
            1 => Self::FitsWith,
            2 => Self::Needs,
            3 => Self::AskOwner,
            4 => Self::Ask,
            5 => Self::NotKnown,
            _ => Self::WontSeal,
        }
    }

    /// The word.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Fits => "FITS",
            Self::FitsWith => "FITS WITH",
            Self::Needs => "NEEDS",
            Self::AskOwner => "ASK OWNER",
            Self::Ask => "ASK",
            Self::NotKnown => "NOT KNOWN YET",
            Self::WontSeal => "WON'T SEAL",
        }
    }
}

/// Parts, each with its rank.
pub(crate) struct List(Vec<(u8, u8), LISTED>);

impl List {
    /// An empty one.
    pub(super) const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds a part. Whoever lists more than there is room for sees the test of the tables fail.
    pub(super) fn put(&mut self, part: u8, rank: u8) {
        let _ = self.0.push((part, rank));
    }

    /// How many there are.
    pub(crate) fn len(&self) -> u8 {
        u8::try_from(self.0.len()).unwrap_or(u8::MAX)
    }

    /// The parts as they are shown, each with its rank. Nothing is sorted: that would cost more flash than looking often does
    /// time.
    pub(crate) fn parts(&self, take: &mut dyn FnMut(u8, u8)) {
        for rank in 0..RANKS {
            for (part, held) in &self.0 {
                if *held == rank {
                    take(*part, rank);
                }
            }
        }
    }

    /// The part at a place.
    pub(crate) fn at(&self, at: u8) -> Option<u8> {
        let (mut found, mut left) = (None, at);
        self.parts(&mut |part, _| {
            if left == 0 && found.is_none() {
                found = Some(part);
            }
            left = left.saturating_sub(1);
        });
        found
    }
}
