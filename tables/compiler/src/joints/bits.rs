//! Sets of a few dozen things, and bands of sizes.

use std::fmt;

use crate::assemble::measure;
use crate::model::NominalSize;

/// A set of indices below 64.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Bits(pub u64);

impl Bits {
    /// The most things a set can tell apart.
    pub const MOST: usize = 64;

    /// One index.
    #[must_use]
    pub const fn one(index: usize) -> Self {
        Self(1 << index)
    }

    /// Every index below a count.
    #[must_use]
    pub const fn below(count: usize) -> Self {
        if count >= Self::MOST {
            Self(u64::MAX)
        } else {
            Self((1 << count) - 1)
        }
    }

    /// Whether an index is in it.
    #[must_use]
    pub const fn has(self, index: usize) -> bool {
        index < Self::MOST && self.0 >> index & 1 == 1
    }

    /// Whether none is.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Both together.
    #[must_use]
    pub const fn with(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// This without the other.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// What is in both.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// The indices, rising.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..Self::MOST).filter(move |index| self.has(*index))
    }
}

/// Sizes from one to another, both in it. They compare in inches, a DN as 25 to the inch.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Band {
    /// The smallest; `None` for no end.
    pub from: Option<NominalSize>,
    /// The largest; `None` for no end.
    pub to: Option<NominalSize>,
}

impl Band {
    /// Reads `*`, `6`, `2..12`, `2..` or `..12`. The smaller size comes first.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        if text == "*" {
            return Some(Self::default());
        }
        let Some((from, to)) = text.split_once("..") else {
            let size = Some(NominalSize::parse(text)?);
            return Some(Self {
                from: size,
                to: size,
            });
        };
        let size = |text: &str| match text {
            "" => Some(None),
            text => NominalSize::parse(text).map(Some),
        };
        let band = Self {
            from: size(from)?,
            to: size(to)?,
        };
        let falls = |(from, to): (NominalSize, NominalSize)| from.inches() >= to.inches();
        let reversed = band.from.zip(band.to).is_some_and(falls) || text == "..";
        (!reversed).then_some(band)
    }

    /// Both ends in sixty-fourths of an inch.
    #[must_use]
    pub fn measures(self) -> (u16, u16) {
        let to = self.to.map_or(u16::MAX, measure);
        (self.from.map_or(0, measure), to)
    }

    /// Whether a size is in it.
    #[must_use]
    pub fn holds(self, size: NominalSize) -> bool {
        let size = size.inches();
        self.from.is_none_or(|from| from.inches() <= size)
            && self.to.is_none_or(|to| size <= to.inches())
    }
}

impl fmt::Display for Band {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.from, self.to) {
            (None, None) => f.write_str("*"),
            (Some(from), Some(to)) if from == to => write!(f, "{from}"),
            (Some(from), Some(to)) => write!(f, "{from}..{to}"),
            (Some(from), None) => write!(f, "{from}.."),
            (None, Some(to)) => write!(f, "..{to}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Band, Bits};
    use crate::model::NominalSize;

    #[test]
    fn sets() {
        let set = Bits::one(0).with(Bits::one(5)).with(Bits::one(63));
        assert_eq!(set.iter().collect::<Vec<_>>(), [0, 5, 63]);
        assert!(!set.has(64));
        assert_eq!(set.without(Bits::below(6)), Bits::one(63));
        assert_eq!(set.and(Bits::below(64)), set);
        assert!(Bits::below(0).is_empty());
    }

    #[test]
    fn bands_are_read_and_written_alike() {
        let size = |text| NominalSize::parse(text).expect(text);
        for (text, held, apart) in [
            ("6", "6", "8"),
            ("1-1/2..12", "12", "14"),
            ("14..", "DN400", "12"),
            ("..3/4", "1/2", "1"),
        ] {
            let band = Band::parse(text).expect(text);
            assert_eq!(band.to_string(), text);
            assert!(band.holds(size(held)) && !band.holds(size(apart)), "{text}");
        }
        assert!(Band::parse("*").is_some_and(|band| band.holds(size("60"))));
        for text in ["", "..", "12..2", "6..6", "2...4", "x..4", "2 ..4"] {
            assert_eq!(Band::parse(text), None, "{text:?}");
        }
    }
}
