//! What a wall says of a row, class by class.
//!
//! The classes of a row share its OD and nothing else: a wall at a cut end tells them apart, and families by the walls that they
//! have. A row counts by the mean over its classes, each with its share.

use super::answer::Weight;
use super::sight;
use crate::fixed::{
    CHANCE_BITS, DENSITY_BITS, InverseSigma, Real, density, exp2_sixteenths, interval,
};
use crate::image::{Class, Image, Material, Row, Set, Settings};
use crate::length::Length;
use crate::reading::{Query, Reading, ReadingError, Tool};

/// Everything told that hangs on the class.
#[derive(Clone, Copy)]
pub(super) struct Inside<'a> {
    image: &'a Image<'a>,
    wall: Wall,
}

/// Walls that were read, as one reading: counts of 10 nm and their square.
#[derive(Clone, Copy)]
struct Wall {
    at: i32,
    variance: u64,
}

impl<'a> Inside<'a> {
    /// `None` where nothing of the kind was told.
    pub(super) fn of(image: &'a Image<'a>, query: &Query) -> Option<Self> {
        Wall::of(image, query).map(|wall| Self { image, wall })
    }

    /// The same if a wall of so much were read, in counts, beside what was told already.
    pub(super) fn supposing(_told: Option<&Self>, image: &'a Image<'a>, at: i32) -> Self {
        let instrument = image.instrument(Tool::Wall as u8);
        let wall = Wall {
            at,
            variance: sight::own_variance(&instrument, at, None).max(1),
        };
        Self { image, wall }
    }

    /// How often a pipe of a row shows what was told.
    pub(super) fn chance(&self, row: &Row) -> Real {
        let (mut sum, mut whole) = (Real::ZERO, Real::ZERO);
        for class in self.image.classes(row) {
            let share = exp2_sixteenths(class.share);
            whole += share;
            sum += share * self.of_class(row, class);
        }
        if whole.is_zero() {
            return self.unlisted();
        }
        sum / whole
    }

    /// The same of one class.
    fn of_class(&self, row: &Row, class: Class) -> Real {
        self.wall
            .density(self.image.settings(), is_metal(self.image, row), class)
    }

    /// The same of pipe that is in no table.
    pub(super) fn unlisted(&self) -> Real {
        self.wall.unlisted(self.image.settings())
    }
}

/// Whether any pipe may have such a wall.
pub(super) fn usable(image: &Image<'_>, wall: Length) -> Result<(), ReadingError> {
    let at = sight::positive(wall)?;
    if at > image.settings().wall_high.saturating_mul(2) {
        return Err(ReadingError::OutOfRange);
    }
    Ok(())
}

/// Whether a row's walls are nominal ones, and not least ones.
fn is_metal(image: &Image<'_>, row: &Row) -> bool {
    let material = image.family(row.family).material;
    ![Material::Pvc, Material::Pe, Material::Cement]
        .map(|plain| plain as u8)
        .contains(&material)
}

impl Wall {
    /// Readings of the same wall, each with its own error; those that no pipe has were refused before.
    fn of(image: &Image<'_>, query: &Query) -> Option<Self> {
        let instrument = image.instrument(Tool::Wall as u8);
        let (mut sum, mut weight) = (Real::ZERO, Real::ZERO);
        for reading in query.readings() {
            if let Reading::Wall { value, sigma } = reading {
                let at = value.counts();
                let variance = sight::own_variance(&instrument, at, *sigma).max(1);
                let inverse = Real::ONE / Real::unsigned(variance, 0);
                weight += inverse;
                sum += inverse * Real::integer(i64::from(at));
            }
        }
        (!weight.is_zero()).then(|| Self {
            at: i32::try_from((sum / weight).to_fixed(0)).unwrap_or(i32::MAX),
            variance: (Real::ONE / weight).to_fixed(0).unsigned_abs().max(1),
        })
    }

    /// The density of the wall on a pipe of a class, per count: even between the least wall and somewhat more for what is
    /// extruded, normal about the nominal one for metals.
    fn density(&self, settings: &Settings, metal: bool, class: Class) -> Real {
        let wall = i32::from(class.wall) * 2540;
        if wall == 0 {
            return self.unlisted(settings);
        }
        let part = |share: u32| {
            let part = (i64::from(wall) * i64::from(share)) >> 32;
            i32::try_from(part).unwrap_or(i32::MAX)
        };
        if metal {
            let spread = super::belief::squared(part(settings.wall_sd));
            let density = density(self.at - wall, self.variance + spread, 1 << 15);
            return Real::unsigned(density, -DENSITY_BITS);
        }
        let over = part(settings.wall_over).max(1);
        let sigma = InverseSigma::of_variance(self.variance);
        let chance = interval(wall - self.at, wall + over - self.at, sigma);
        Real::unsigned(chance, -CHANCE_BITS.cast_signed()) / Real::integer(i64::from(over))
    }

    /// The same where no table has the wall: log-uniform.
    fn unlisted(&self, settings: &Settings) -> Real {
        if self.at < settings.wall_low || self.at > settings.wall_high {
            return Real::ZERO;
        }
        super::answer::share(settings.wall_log_uniform) / Real::integer(i64::from(self.at))
    }
}

/// The wall that pipes of a class have on average, counts; `None` where no table has it.
pub(super) fn middle(
    settings: &Settings,
    image: &Image<'_>,
    row: &Row,
    class: Class,
) -> Option<i32> {
    let wall = i32::from(class.wall) * 2540;
    let over = if is_metal(image, row) {
        0
    } else {
        (i64::from(wall) * i64::from(settings.wall_over)) >> 33
    };
    (wall > 0).then(|| wall.saturating_add(i32::try_from(over).unwrap_or(0)))
}

/// The classes of a row, each with its share of the row's pipes after what was told of its wall. The shares sum to one but for
/// rounding, or are all zero where no class of the row could show what was told.
pub fn classes<'a>(
    image: &'a Image<'a>,
    query: &Query,
    row: u16,
) -> impl Iterator<Item = (Class, Weight)> + use<'a> {
    let row = image.row(row);
    let inside = Inside::of(image, query);
    let mass = move |class: Class| {
        let share = exp2_sixteenths(class.share);
        inside.map_or(share, |inside| share * inside.of_class(&row, class))
    };
    let whole = image
        .classes(&row)
        .fold(Real::ZERO, |sum, class| sum + mass(class));
    let inverse = if whole.is_zero() {
        Real::ZERO
    } else {
        Real::ONE / whole
    };
    image
        .classes(&row)
        .map(move |class| (class, Weight::of(mass(class), inverse)))
}

/// The pipe variants of a row, as joints tell pipes apart, without those whose classes what was told has all but ruled out: below
/// the share from which an answer counts.
#[must_use]
pub fn variants_left(image: &Image<'_>, query: &Query, row: u16) -> Set {
    let all = image.variants_of(&image.row(row));
    let least = Weight::share(image.settings().counted);
    let left = classes(image, query, row)
        .filter(|(_, weight)| *weight >= least)
        .fold(Set::default(), |set, (class, _)| set.with(class.variant));
    let told = Inside::of(image, query).is_some();
    if told && left != Set::default() {
        left
    } else {
        all
    }
}
