//! The readings of one pipe as sights, by place and as pairs.

use super::sight::{Sight, View, sight};
use crate::image::Image;
use crate::reading::{Clock, Query, ReadingError};

/// The readings of a query as sights.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sights {
    all: [Option<Sight>; Query::CAPACITY],
}

impl Sights {
    /// Of no reading.
    pub(super) const fn new() -> Self {
        Self {
            all: [None; Query::CAPACITY],
        }
    }

    /// Reduces every reading, in place: as a returned value all of them would be copied twice.
    pub(super) fn read(&mut self, image: &Image<'_>, query: &Query) -> Result<(), ReadingError> {
        let mut held = 0;
        let mut last = [None; 2];
        for reading in query.readings() {
            let Some(mut new) = sight(image, reading)? else {
                continue;
            };
            let place = usize::from(new.along);
            let before = last.get(place).copied().flatten();
            new.view = across(new.view, before);
            if let (true, Some(slot)) = (new.view.is_diameter(), last.get_mut(place)) {
                *slot = Some(new.view);
            }
            if let Some(slot) = self.all.get_mut(held) {
                *slot = Some(new);
                held += 1;
            }
        }
        if held > 0 {
            Ok(())
        } else {
            Err(ReadingError::None)
        }
    }

    /// These with a coat on one of the places: a mean and a variance, counts.
    pub(super) fn coated(&self, along: bool, mean: i32, variance: u64) -> Self {
        let mut sights = *self;
        let there = |sight: &&mut Sight| sight.along == along;
        for sight in sights.all.iter_mut().flatten().filter(there) {
            sight.coat(mean, variance);
        }
        sights
    }

    /// Those of one place.
    pub(super) fn at(mut self, along: bool) -> Self {
        for slot in &mut self.all {
            if slot.is_some_and(|sight| sight.along != along) {
                *slot = None;
            }
        }
        self
    }

    /// Two diameters at right angles whose direction nobody told, if there are.
    pub(super) fn pair(&self) -> Option<(i32, i32)> {
        let of = |view: View| self.iter().find(|sight| sight.view == view);
        Some((of(View::Unknown)?.value, of(View::Across)?.value))
    }

    /// Two diameters at right angles whose direction nobody told, as what they say of the size: their mean. What they say of
    /// the shape is left aside.
    pub(super) fn merged(mut self) -> Self {
        let mut first: Option<usize> = None;
        for at in 0..self.all.len() {
            let Some(sight) = self.all.get(at).copied().flatten() else {
                continue;
            };
            match (sight.view, first) {
                (View::Unknown, _) => first = Some(at),
                (View::Across, Some(before)) => {
                    if let Some(Some(mean)) = self.all.get_mut(before) {
                        mean.join(&sight);
                    }
                    if let Some(slot) = self.all.get_mut(at) {
                        *slot = None;
                    }
                    first = None;
                }
                _ => {}
            }
        }
        self
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &Sight> + Clone {
        self.all.iter().flatten()
    }

    pub(super) fn len(&self) -> usize {
        self.iter().count()
    }

    /// All but one.
    pub(super) fn without(mut self, index: usize) -> Self {
        if let Some(slot) = self.all.get_mut(index) {
            *slot = None;
        }
        self
    }
}

/// Where a diameter is held that may be across the one before it at its place.
fn across(view: View, last: Option<View>) -> View {
    match (view, last) {
        (View::Clock(Clock::ACROSS), Some(View::Clock(clock))) => View::Clock(clock.crossed()),
        (View::Clock(Clock::ACROSS), Some(View::Unknown)) => View::Across,
        (View::Clock(Clock::ACROSS), _) => View::Unknown,
        _ => view,
    }
}
