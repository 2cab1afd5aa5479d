//! What a line names, thing by thing.

use super::chance::below;
use super::class::PrintedClass;
use super::parts::{Part, Said};
use super::thing::Contents;
use crate::image::{Image, Material, Set};

/// What a line names of each of six things, and what it says of the contents.
///
/// Values are those of an image: indices, or a bit for each index. Of each thing there is room for two that were named, zero
/// where there is none: the second is there when a line names something else besides (`D1785` and `D2665`), whether or not
/// both are true of some pipe. A value may be several where what was read fits several: a damaged `C9..` is four standards.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Line {
    /// Standards, a bit for each index.
    pub standards: [u64; 2],
    /// Material codes, a bit for each index.
    pub materials: [u32; 2],
    /// OD systems, a bit for each index.
    pub bases: [u16; 2],
    /// Nominal sizes: one more than an index, and above it one more than another, where it may be either.
    pub sizes: [u16; 2],
    /// Classes, [`PrintedClass`]es.
    pub classes: [u16; 2],
    /// Pressures, psi.
    pub pressures: [u16; 2],
    /// What it carries: any of these [`Contents`].
    pub contents: u8,
}

/// Takes in a value that is a set: it narrows one that it has something in common with, else it stands beside.
macro_rules! take_set {
    ($held:expr, $new:expr) => {
        let new = $new;
        match $held {
            [first, _] if first == 0 => $held[0] = new,
            [first, _] if first & new != 0 => $held[0] = first & new,
            [_, second] if second == 0 => $held[1] = new,
            [_, second] if second & new != 0 => $held[1] = second & new,
            _ => {}
        }
    };
}

/// Takes in a single value.
fn take(held: &mut [u16; 2], new: u16) {
    let free = held.iter().position(|held| *held == new || *held == 0);
    if let Some(slot) = free.and_then(|at| held.get_mut(at)) {
        *slot = new;
    }
}

impl Line {
    /// Nothing read.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Takes in a part of a line.
    pub fn take(&mut self, image: &Image<'_>, part: &Part) {
        match part.said {
            Said::Standard(set) => {
                take_set!(self.standards, set.0);
            }
            Said::Material(set) => {
                take_set!(self.materials, set);
            }
            Said::Base(set) => {
                take_set!(self.bases, set);
            }
            Said::Size(size, or) => self.take_size(image, size, or),
            Said::Class(PrintedClass(class)) => take(&mut self.classes, class),
            Said::Pressure(psi) => take(&mut self.pressures, psi),
            Said::Contents(Contents(new)) => {
                // `DWV, NOT FOR PRESSURE` says one thing twice; `NSF-PW, DWV` says that it may carry either.
                let (held, new_carried) = (Contents(self.contents).carried(), new & 15);
                let both = held & new_carried;
                let carried = if both == 0 { held | new_carried } else { both };
                self.contents = carried | (self.contents | new) & Contents::NON_POTABLE.0;
            }
            Said::Plain => {}
        }
    }

    fn take_size(&mut self, image: &Image<'_>, size: u8, or: Option<u8>) {
        let measure = |size: u8| i32::from(image.measure(size));
        // `6 IN (150 MM)` names one size twice.
        let same = |held: u16| {
            let [held, _] = held.to_le_bytes();
            held.checked_sub(1)
                .is_some_and(|held| (measure(held) - measure(size)).abs() * 16 <= measure(held))
                && [Some(size), or]
                    .iter()
                    .flatten()
                    .all(|size| size + 1 != held)
        };
        if !same(self.sizes[0]) {
            let second = or.map_or(0, |or| or + 1);
            take(&mut self.sizes, u16::from_le_bytes([size + 1, second]));
        }
    }

    /// What it is said to carry.
    #[must_use]
    pub const fn contents(&self) -> Contents {
        Contents(self.contents)
    }

    /// The classes that are named.
    pub fn classes(&self) -> impl Iterator<Item = PrintedClass> {
        self.classes
            .into_iter()
            .filter(|c| *c != 0)
            .map(PrintedClass)
    }

    /// The sizes that are named first: more than one where it may be either.
    pub fn sizes(&self) -> impl Iterator<Item = u8> {
        let [first, ..] = self.sizes;
        first
            .to_le_bytes()
            .into_iter()
            .filter_map(|size| size.checked_sub(1))
    }

    /// The pipe variants that a set of standards, or of material codes, is marked on.
    fn marked(image: &Image<'_>, bits: u64, codes: bool) -> Set {
        let marked = |index: u8| {
            let marking = if codes {
                image.code(index)
            } else {
                image.standard(index)
            };
            image.marked(marking).0
        };
        Set(Set(bits).iter().map(marked).fold(0, |all, set| all | set))
    }

    /// The pipe variants that may be marked with everything that is named of standards and materials; all of them where
    /// nothing is.
    #[must_use]
    pub fn variants(&self, image: &Image<'_>) -> Set {
        let standards = self.standards.iter().map(|bits| (*bits, false));
        let codes = self.materials.iter().map(|bits| (u64::from(*bits), true));
        let named = standards.chain(codes).filter(|(bits, _)| *bits != 0);
        let all = named.fold(u64::MAX, |all, (bits, codes)| {
            all & Self::marked(image, bits, codes).0
        });
        Set(all)
    }

    /// Whether it says that the pipe is plastic, and nothing else.
    #[must_use]
    pub fn is_plastic(&self, image: &Image<'_>) -> bool {
        let named = self.standards != [0; 2] || self.materials != [0; 2];
        let plastic = |variant: u8| {
            let material = image.family(image.family_of_variant(variant)).material;
            material == Material::Pvc as u8 || material == Material::Pe as u8
        };
        let may_be = self.variants(image).0 & below(image.variant_count());
        named && may_be != 0 && Set(may_be).iter().all(plastic)
    }

    /// Whether what it names of one thing excludes what it names of that or of another, as far as sizes, standards,
    /// materials, OD bases, classes and pressures go together in the tables.
    #[must_use]
    pub fn disagrees(&self, image: &Image<'_>) -> bool {
        let said = Self {
            contents: 0,
            ..*self
        };
        !image.rows_from(0).any(|row| {
            let none = row.classes == 0 && said.bears(image, &row, None);
            none || image
                .classes(&row)
                .any(|class| said.bears(image, &row, Some(class)))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_small() {
        assert!(size_of::<Line>() < 64, "{}", size_of::<Line>());
    }

    #[test]
    fn values_are_narrowed_or_stand_side_by_side() {
        let mut held = [0u16; 2];
        for (new, want) in [
            (0b1110, [0b1110, 0]),
            (0b0110, [0b0110, 0]),
            (0b1000, [0b0110, 0b1000]),
            (0b0001, [0b0110, 0b1000]),
        ] {
            take_set!(held, new);
            assert_eq!(held, want);
        }
        let mut held = [0; 2];
        for (new, want) in [(7, [7, 0]), (7, [7, 0]), (8, [7, 8]), (9, [7, 8])] {
            take(&mut held, new);
            assert_eq!(held, want);
        }
        assert_eq!((below(0), below(3), below(64)), (0, 7, u64::MAX));
    }
}
