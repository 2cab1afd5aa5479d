//! What a wall and a line of print say of a row, class by class.
//!
//! The classes of a row share its OD and nothing else. A wall at a cut end tells them apart, and families by the walls that they
//! have; so does what is printed. A row counts by the mean over its classes, each with its share; pipe that is in no table has the
//! wall and the print of one drawn from what is met at the site.

use super::answer::Weight;
use super::belief::squared;
use super::sight;
use crate::fixed::{
    CHANCE_BITS, DENSITY_BITS, InverseSigma, Real, density, exp2_sixteenths, interval,
};
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Class, Image, Material, Row, Set, Settings};
use crate::length::Length;
use crate::print::Line;
use crate::reading::{Query, Reading, ReadingError, Tool};

/// Everything told that hangs on the class.
#[derive(Clone, Copy)]
pub(super) struct Inside<'a> {
    image: &'a Image<'a>,
    wall: Option<Wall>,
    print: Option<Line>,
    /// How often pipe that is in no table shows it, and how often it has the line alone.
    unlisted: Real,
    unlisted_print: Real,
    /// How often the pipe that has the line most often has it.
    likeliest_print: Real,
}

/// Walls that were read, as one reading: counts of 10 nm and their square.
#[derive(Clone, Copy)]
struct Wall {
    at: i32,
    variance: u64,
}

/// What a row's classes show, as means over them.
struct Shown {
    /// Wall and print.
    both: Real,
    /// The print alone.
    print: Real,
}

impl<'a> Inside<'a> {
    /// `None` where nothing of the kind was told. `site` has the share of each family, Q32.
    pub(super) fn of(
        image: &'a Image<'a>,
        query: &Query,
        site: &[u32; MAX_FAMILIES],
    ) -> Option<Self> {
        let (wall, print) = (Wall::of(image, query), query.clues.print);
        if wall.is_none() && print.is_none() {
            return None;
        }
        let mut inside = Self {
            image,
            wall,
            print,
            unlisted: Real::ZERO,
            unlisted_print: Real::ZERO,
            likeliest_print: Real::ZERO,
        };
        for row in image.rows_from(0) {
            let family = site.get(usize::from(row.family)).copied().unwrap_or(0);
            let prior = u64::from(family) * u64::from(row.share);
            if prior > 0 {
                let shown = inside.shown(&row);
                let prior = Real::unsigned(prior, -64);
                inside.unlisted += prior * shown.both;
                inside.unlisted_print += prior * shown.print;
                if shown.print > inside.likeliest_print {
                    inside.likeliest_print = shown.print;
                }
            }
        }
        Some(inside)
    }

    /// Whether a line of print is part of it.
    pub(super) const fn has_print(&self) -> bool {
        self.print.is_some()
    }

    /// How often a pipe of a row shows what was told.
    pub(super) fn chance(&self, row: &Row) -> Real {
        self.shown(row).both
    }

    /// How often it shows all but the print.
    pub(super) fn without_print(&self, row: &Row) -> Real {
        match self.wall {
            None => Real::ONE,
            Some(_) => Self {
                print: None,
                ..*self
            }
            .chance(row),
        }
    }

    /// The same, over how often pipe in no table shows it.
    pub(super) fn against_unlisted(&self, row: &Row) -> Real {
        if self.unlisted.is_zero() {
            return Real::ZERO;
        }
        self.chance(row) / self.unlisted
    }

    /// How often pipe in no table shows what was told, and all of it but the print.
    pub(super) fn unlisted(&self) -> (Real, Real) {
        let wall = match self.wall {
            None => Real::ONE,
            Some(_) if self.unlisted_print.is_zero() => Real::ZERO,
            Some(_) => self.unlisted / self.unlisted_print,
        };
        (self.unlisted, wall)
    }

    /// How often the pipe that has the line most often has it.
    pub(super) fn likeliest_print(&self) -> Real {
        self.likeliest_print
    }

    fn shown(&self, row: &Row) -> Shown {
        let line = |class: Option<u8>| match &self.print {
            Some(line) => line.chance(self.image, row, class),
            None => Real::ONE,
        };
        let Some(wall) = &self.wall else {
            let print = line(None);
            return Shown { both: print, print };
        };
        let settings = self.image.settings();
        let metal = is_metal(self.image, row);
        let (mut both, mut print, mut whole) = (Real::ZERO, Real::ZERO, Real::ZERO);
        for (index, class) in (0u8..).zip(self.image.classes(row)) {
            let share = exp2_sixteenths(class.share);
            let line = share * line(Some(index));
            whole += share;
            print += line;
            both += line * wall.density(settings, metal, class);
        }
        if whole.is_zero() {
            let print = line(None);
            let both = print * wall.unlisted(settings);
            return Shown { both, print };
        }
        let inverse = Real::ONE / whole;
        Shown {
            both: both * inverse,
            print: print * inverse,
        }
    }
}

/// A wall that may yet be read, beside a line that was: what it would say of a row.
pub(super) struct Supposed<'a> {
    image: &'a Image<'a>,
    wall: Wall,
    print: Option<Line>,
}

impl<'a> Supposed<'a> {
    /// A wall of so many counts.
    pub(super) fn wall(image: &'a Image<'a>, print: Option<Line>, at: i32) -> Self {
        let instrument = image.instrument(Tool::Wall as u8);
        let variance = sight::own_variance(&instrument, at, None).max(1);
        let wall = Wall { at, variance };
        Self { image, wall, print }
    }

    /// How often a pipe of a row that has the line has the wall.
    pub(super) fn chance(&self, row: &Row) -> Real {
        let inside = Inside {
            image: self.image,
            wall: Some(self.wall),
            print: self.print,
            unlisted: Real::ZERO,
            unlisted_print: Real::ZERO,
            likeliest_print: Real::ZERO,
        };
        let Shown { both, print } = inside.shown(row);
        if print.is_zero() { print } else { both / print }
    }

    /// The same of pipe in no table, near enough to weigh a check: any wall.
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
            let spread = squared(part(settings.wall_sd));
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

/// The classes of a row, each with its share of the row's pipes after what was told of its wall and its print. The shares sum to
/// one but for rounding, or are all zero where no class of the row could show what was told.
pub fn classes<'a>(
    image: &'a Image<'a>,
    query: &Query,
    row: u16,
) -> impl Iterator<Item = (Class, Weight)> + use<'a> {
    let row = image.row(row);
    let (wall, print) = (Wall::of(image, query), query.clues.print);
    let (settings, metal) = (image.settings(), is_metal(image, &row));
    let mass = move |(index, class): (u8, Class)| {
        let share = exp2_sixteenths(class.share);
        let wall = wall.map_or(Real::ONE, |wall| wall.density(settings, metal, class));
        let line = print.map_or(Real::ONE, |line| line.chance(image, &row, Some(index)));
        share * wall * line
    };
    let numbered = move || (0u8..).zip(image.classes(&row));
    let whole = numbered().fold(Real::ZERO, |sum, class| sum + mass(class));
    let inverse = if whole.is_zero() {
        Real::ZERO
    } else {
        Real::ONE / whole
    };
    numbered().map(move |(index, class)| (class, Weight::of(mass((index, class)), inverse)))
}

/// The pipe variants of a row, as joints tell pipes apart, without those whose classes what was told has all but ruled out: below
/// the share from which an answer counts.
#[must_use]
pub fn variants_left(image: &Image<'_>, query: &Query, row: u16) -> Set {
    let all = image.variants_of(&image.row(row));
    let wall = |reading: &Reading| matches!(reading, Reading::Wall { .. });
    if query.clues.print.is_none() && !query.readings().any(wall) {
        return all;
    }
    let least = Weight::share(image.settings().counted);
    let left = classes(image, query, row)
        .filter(|(_, weight)| *weight >= least)
        .fold(Set::default(), |set, (class, _)| set.with(class.variant));
    if left == Set::default() { all } else { left }
}
