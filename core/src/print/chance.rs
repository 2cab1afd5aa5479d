//! How often a pipe of the tables has a line that says so.
//!
//! A line belongs to something else now and then, and then says anything. Else each thing that was named is the pipe's own,
//! or in one of a hundred another of the tables' values, all alike. How many things can be read of a line is drawn for the
//! line and not for the pipe, so that it says nothing of the pipe, and neither does a thing that was not named.
//!
//! A pipe may have several values of a thing, as of standards: each of them is its own. Where the tables do not know its
//! value any is as likely; where its class has none, as a drain has no pressure, what was read must be another's. Two
//! values that are both its own were read as it prints them both; of two that are not, each is a misreading of its own.

use super::class::PrintedClass;
use super::line::Line;
use crate::fixed::{Real, exp2_sixteenths};
use crate::image::{Class, Image, Row, Set};

/// How many different contents there are.
const CONTENTS: u32 = 4;

/// How a value that was named stands to a pipe.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Own {
    /// So many of its alternatives are the pipe's.
    Has(u32),
    /// The tables do not know the pipe's value.
    Unknown,
}

impl Own {
    const fn is(own: bool) -> Self {
        Self::Has(own as u32)
    }
}

/// The chances that a line gives a pipe, whatever the pipe.
#[derive(Clone, Copy)]
struct Chances {
    right: Real,
    wrong: Real,
}

/// How a thing is spread in the tables: how many values it has, and how many of them a named one stands for.
struct Thing<T> {
    named: [T; 2],
    alternatives: fn(T) -> u32,
    all: u32,
}

impl<T: Copy + Default + PartialEq> Thing<T> {
    fn named(&self) -> impl Iterator<Item = T> {
        self.named
            .into_iter()
            .filter(|value| *value != T::default())
    }

    /// The chance of what was named of it on a pipe.
    fn chance(&self, chances: Chances, own: impl Fn(T) -> Own) -> Real {
        let mut chance = Real::ONE;
        let mut before = false;
        for value in self.named() {
            let alternatives = (self.alternatives)(value);
            let hits = match own(value) {
                Own::Unknown => {
                    chance = chance * ratio(alternatives, self.all);
                    continue;
                }
                Own::Has(hits) => hits,
            };
            // The second of its own values tells nothing more.
            let right = match (hits, before) {
                (0, _) => Real::ZERO,
                (_, true) => continue,
                (_, false) => chances.right,
            };
            before |= hits > 0;
            let others = alternatives.saturating_sub(hits);
            let wrong = match others {
                0 => Real::ZERO,
                _ => chances.wrong * ratio(others, self.all.saturating_sub(1)),
            };
            chance = chance * (right + wrong);
        }
        chance
    }

    /// The chance of what was named of it on anything.
    fn anything(&self) -> Real {
        let each = self
            .named()
            .map(|value| ratio((self.alternatives)(value), self.all));
        each.fold(Real::ONE, |all, one| all * one)
    }
}

fn ratio(top: u32, below: u32) -> Real {
    Real::unsigned(u64::from(top), 0) / Real::unsigned(u64::from(below.max(1)), 0)
}

/// A set of every index below a count, so that a line from elsewhere speaks of nothing that the image does not have.
pub(super) fn below(count: usize) -> u64 {
    let unused = 64_u32.saturating_sub(u32::try_from(count).unwrap_or(64));
    u64::MAX.checked_shr(unused).unwrap_or(0)
}

fn count(table: usize) -> u32 {
    u32::try_from(table).unwrap_or(u32::MAX)
}

/// How many sizes are meant.
const fn either(size: u16) -> u32 {
    1 + (size > 255) as u32
}

impl Line {
    fn of_standards(&self, image: &Image<'_>) -> Thing<u64> {
        Thing {
            named: self
                .standards
                .map(|bits| bits & below(image.standards().len())),
            alternatives: u64::count_ones,
            all: count(image.standards().len()),
        }
    }

    fn of_materials(&self, image: &Image<'_>) -> Thing<u64> {
        Thing {
            named: self
                .materials
                .map(|bits| u64::from(bits) & below(image.codes().len())),
            alternatives: u64::count_ones,
            all: count(image.codes().len()),
        }
    }

    fn of_bases(&self, image: &Image<'_>) -> Thing<u64> {
        Thing {
            named: self
                .bases
                .map(|bits| u64::from(bits) & below(image.system_count())),
            alternatives: u64::count_ones,
            all: count(image.system_count()),
        }
    }

    fn of_sizes(&self, image: &Image<'_>) -> Thing<u16> {
        Thing {
            named: self.sizes,
            alternatives: either,
            all: count(image.size_count()),
        }
    }

    fn of_classes(&self, image: &Image<'_>) -> Thing<u16> {
        Thing {
            named: self.classes,
            alternatives: |_| 1,
            all: u32::from(image.print_settings().classes),
        }
    }

    fn of_pressures(&self, image: &Image<'_>) -> Thing<u16> {
        Thing {
            named: self.pressures,
            alternatives: |_| 1,
            all: u32::from(image.print_settings().pressures),
        }
    }

    fn of_contents(&self) -> Thing<u8> {
        Thing {
            named: [self.contents().carried(), 0],
            alternatives: u8::count_ones,
            all: CONTENTS,
        }
    }

    /// How often a pipe of a row, and of one of its classes where one is asked for, has this line, up to a factor that is the
    /// same for all pipes. Without a class it is the mean over the row's classes by their shares.
    ///
    /// The work is bounded by the number of classes of the row; a class that the row does not have is as none.
    #[must_use]
    pub fn chance(&self, image: &Image<'_>, row: &Row, class: Option<u8>) -> Real {
        let settings = image.print_settings();
        let wrong = Real::unsigned(u64::from(settings.misread), -32);
        let chances = Chances {
            right: Real::ONE - wrong,
            wrong,
        };
        let foreign = Real::unsigned(u64::from(settings.foreign), -32);
        let asked = class.and_then(|class| image.classes(row).nth(usize::from(class)));
        let of_class = match asked {
            Some(class) => self.on_class(image, chances, row, Some(class)),
            None if row.classes == 0 => self.on_class(image, chances, row, None),
            None => self.on_classes(image, chances, row),
        };
        let own = self.on_row(image, chances, row) * of_class;
        (Real::ONE - foreign) * own + foreign * self.on_anything(image)
    }

    /// What classes of a row share: size, OD base and contents.
    fn on_row(&self, image: &Image<'_>, chances: Chances, row: &Row) -> Real {
        let size = |named: u16| {
            let both = named.to_le_bytes();
            Own::is(
                both.iter()
                    .any(|size| size.checked_sub(1) == Some(row.size)),
            )
        };
        let base = |named: u64| Own::is(Set(named).has(row.system));
        let carries = image.family(row.family).carries;
        let contents = |named: u8| Own::is(named >> (carries & 7) & 1 == 1);
        self.of_sizes(image).chance(chances, size)
            * self.of_bases(image).chance(chances, base)
            * self.of_contents().chance(chances, contents)
    }

    /// The mean over the classes of a row.
    fn on_classes(&self, image: &Image<'_>, chances: Chances, row: &Row) -> Real {
        let (mut sum, mut all) = (Real::ZERO, Real::ZERO);
        for class in image.classes(row) {
            let share = exp2_sixteenths(class.share);
            all += share;
            sum += share * self.on_class(image, chances, row, Some(class));
        }
        sum / all
    }

    /// What hangs on the class: standard, material, class and pressure.
    fn on_class(
        &self,
        image: &Image<'_>,
        chances: Chances,
        row: &Row,
        class: Option<Class>,
    ) -> Real {
        let variants = match class {
            Some(class) => Set::default().with(class.variant),
            None => image.variants_of(row),
        };
        let marked = |bits: u64, set: &dyn Fn(u8) -> Set| {
            let own = Set(bits).iter().filter(|index| set(*index).meets(variants));
            Own::Has(count(own.count()))
        };
        let standard = |index| image.marked(image.standard(index));
        let code = |index| image.marked(image.code(index));
        let printed = class.map(|class| image.printed(class.label));
        let of_class = |named: u16| match printed {
            Some(printed) => Own::is(printed == PrintedClass(named)),
            None => Own::Unknown,
        };
        let pressure = |named: u16| match (class, printed.and_then(PrintedClass::span)) {
            (_, Some((low, high))) => {
                Own::is(PrintedClass::steps(low, high).any(|psi| psi == named))
            }
            (Some(class), None) => Own::is(class.psi == named),
            (None, None) => Own::Unknown,
        };
        self.of_standards(image)
            .chance(chances, |named| marked(named, &standard))
            * self
                .of_materials(image)
                .chance(chances, |named| marked(named, &code))
            * self.of_classes(image).chance(chances, of_class)
            * self.of_pressures(image).chance(chances, pressure)
    }

    /// Of a line that belongs to something else: anything is as likely.
    fn on_anything(&self, image: &Image<'_>) -> Real {
        self.of_standards(image).anything()
            * self.of_materials(image).anything()
            * self.of_bases(image).anything()
            * self.of_sizes(image).anything()
            * self.of_classes(image).anything()
            * self.of_pressures(image).anything()
            * self.of_contents().anything()
    }

    /// Whether everything that is named may be a pipe's own.
    pub(super) fn bears(&self, image: &Image<'_>, row: &Row, class: Option<Class>) -> bool {
        let never = Chances {
            right: Real::ONE,
            wrong: Real::ZERO,
        };
        let chance = self.on_row(image, never, row) * self.on_class(image, never, row, class);
        !chance.is_zero()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thing_that_was_read_twice_counts_once() {
        let half = Real::scaled(1, -1);
        let chances = Chances {
            right: half,
            wrong: half,
        };
        let of = |named: [u16; 2], own: u16| {
            let thing = Thing {
                named,
                alternatives: |_| 1,
                all: 5,
            };
            let own = |value: u16| Own::is(value & own != 0);
            (thing.chance(chances, own).to_fixed(24) + 128) >> 8
        };
        assert_eq!(of([1, 2], 3), 1 << 15, "both its own: once");
        assert_eq!(of([1, 2], 1), 1 << 12, "one its own: 1/2 × 1/2 × 1/4");
        assert_eq!(of([1, 2], 0), 1 << 10, "none: (1/2 × 1/4)²");
        assert_eq!(of([0, 0], 1), 1 << 16, "nothing named");
    }
}
