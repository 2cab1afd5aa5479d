//! The readings of one pipe as sights, by place and as pairs.

use super::classes;
use super::sight::{Sight, View, sight};
use crate::image::Image;
use crate::reading::{Clock, Query, Reading, ReadingError};

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
            if let Reading::Wall { value, .. } = reading {
                classes::usable(image, *value)?;
                continue;
            }
            let mut new = sight(image, reading)?;
            new.along = matches!(reading, Reading::Along { .. });
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

    /// Puts a coat on one of the places: a mean and a variance, counts.
    pub(super) fn coat(&mut self, along: bool, mean: i32, variance: u64) {
        let there = |sight: &&mut Sight| sight.along == along;
        for sight in self.all.iter_mut().flatten().filter(there) {
            sight.coat(mean, variance);
        }
    }

    /// Keeps those of one place.
    pub(super) fn keep(&mut self, along: bool) {
        for slot in &mut self.all {
            if slot.is_some_and(|sight| sight.along != along) {
                *slot = None;
            }
        }
    }

    /// Whether they are of two places.
    pub(super) fn are_apart(&self) -> bool {
        let at = |along: bool| self.iter().any(|sight| sight.along == along);
        at(true) && at(false)
    }

    /// Two diameters at right angles whose direction nobody told, if there are.
    pub(super) fn pair(&self) -> Option<(i32, i32)> {
        let of = |view: View| self.iter().find(|sight| sight.view == view);
        Some((of(View::Unknown)?.value, of(View::Across)?.value))
    }

    /// Takes two diameters at right angles whose direction nobody told as what they say of the size: their mean. What they say
    /// of the shape is left aside.
    pub(super) fn merge(&mut self) {
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
