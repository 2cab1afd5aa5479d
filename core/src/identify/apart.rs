//! Readings a foot apart: each place is of the barrel or not by itself, and carries a coat of its own.
//!
//! What one place alone cannot tell, two can: a first reading of a bell or coupling, or misread, and a second of the barrel. So a
//! row is weighed by both places together and by each alone, with the other of no barrel.

use super::answer::share;
use super::belief::{Belief, Coat};
use super::plan::{UNLISTED_OVAL, middle};
use super::sight::Sight;
use super::sights::Sights;
use super::{general, outside, single};
use crate::fixed::Real;
use crate::image::{Family, Row};

/// Readings of two places, made ready to be weighed.
pub(super) struct Apart<'a> {
    all: &'a Sights,
    places: [Place; 2],
    /// The ways in which a place is coated.
    coats: [Coat; 2],
}

/// The readings of one place.
struct Place {
    along: bool,
    /// Where they point, and the variance of that.
    at: i64,
    variance: u64,
    /// How likely their differences are on any pipe.
    shape: Real,
    /// The density of a misreading; of several readings not all can be misread.
    misread: Real,
}

impl<'a> Apart<'a> {
    /// Takes coats out of what is believed of all readings together, to put one to each place.
    pub(super) fn of(belief: &mut Belief<'_>, all: &'a Sights) -> Self {
        let coats = belief.bare();
        let places = [false, true].map(|along| Place::of(belief, all, along));
        Self { all, places, coats }
    }

    /// The density of all readings on a pipe of one row.
    pub(super) fn density(&self, belief: &Belief<'_>, row: &Row, family: &Family) -> Real {
        let [here, there] = &self.places;
        let mut sum = self.coated(belief, row, family, &[false, true]);
        for (barrel, other) in [(here, there), (there, here)] {
            let off = other.not_of_barrel(belief, row.od);
            if off > Real::ZERO {
                sum += off * self.coated(belief, row, family, &[barrel.along]);
            }
        }
        sum
    }

    /// The density of the readings of some places on the barrel of a row's pipe, over every way in which those are coated.
    fn coated(&self, belief: &Belief<'_>, row: &Row, family: &Family, places: &[bool]) -> Real {
        let ways = 1u8 << places.len();
        let mut sum = Real::ZERO;
        for way in 0..ways {
            let mut sights = *self.all;
            if let [only] = places {
                sights.keep(*only);
            }
            let mut part = Real::ONE;
            for (bit, place) in places.iter().enumerate() {
                if let Some(coat) = self.coats.get(usize::from(way >> bit & 1)) {
                    sights.coat(*place, coat.mean, coat.variance);
                    part = part * Real::unsigned(coat.share, -16);
                }
            }
            sum += part * listed(belief, &sights, row, family);
        }
        sum
    }

    /// Whether a row is too far from both places to be worth weighing.
    pub(super) fn is_far(&self, far: impl Fn(&Sight) -> bool) -> bool {
        let of = |place: bool| self.all.iter().filter(move |sight| sight.along == place);
        [false, true].into_iter().all(|place| of(place).any(&far))
    }

    /// The mass of pipes in no table, and of two places that are of no barrel.
    pub(super) fn unlisted(&self, belief: &Belief<'_>) -> Real {
        let settings = belief.settings;
        let (at, _) = middle(self.all);
        let bell = share(settings.bell_share);
        let mass = share(settings.unlisted_share) * outside::log_uniform(belief, at)
            + bell * bell * outside::bell(belief, at);
        mass * shape(belief, self.all, at)
    }

    /// Where the readings point. Where the places differ beyond their instruments, to the smaller one: bells are larger.
    pub(super) fn size(&self) -> (i64, u64) {
        let [here, there] = self
            .places
            .each_ref()
            .map(|place| (place.at, place.variance));
        let noise = (here.1 + there.1).isqrt().cast_signed();
        if (here.0 - there.0).abs() > 4 * noise + here.0 / 32 {
            return if here.0 < there.0 { here } else { there };
        }
        middle(self.all)
    }

    /// Every reading.
    pub(super) fn sights(&self) -> &Sights {
        self.all
    }
}

impl Place {
    fn of(belief: &Belief<'_>, all: &Sights, along: bool) -> Self {
        let mut sights = *all;
        sights.keep(along);
        let (at, variance) = middle(&sights);
        let is_only = sights.len() == 1;
        Self {
            along,
            at,
            variance,
            shape: shape(belief, &sights, at),
            misread: if is_only {
                share(belief.settings.misread_share) * outside::log_uniform(belief, at)
            } else {
                Real::ZERO
            },
        }
    }

    /// The density of these readings where they are not of the barrel of a pipe of this OD.
    fn not_of_barrel(&self, belief: &Belief<'_>, od: i32) -> Real {
        let settings = belief.settings;
        let edge = |ratio: u32| (i64::from(od) * i64::from(ratio)) >> 16;
        let (low, high) = (edge(settings.bell_low), edge(settings.bell_high));
        let mut mass = self.misread;
        if (low..=high).contains(&self.at) {
            mass += share(settings.bell_share) / Real::integer((high - low).max(1));
        }
        mass * self.shape
    }
}

/// The density of readings of one barrel.
fn listed(belief: &Belief<'_>, sights: &Sights, row: &Row, family: &Family) -> Real {
    let mut all = sights.iter();
    match (all.next(), all.next()) {
        (Some(only), None) => single::density(belief, only, row, family),
        _ => general::density(belief, sights, row, family),
    }
}

/// How likely the differences of readings are on a pipe that nobody listed.
fn shape(belief: &Belief<'_>, sights: &Sights, at: i64) -> Real {
    if sights.len() == 1 {
        return Real::ONE;
    }
    general::unlisted_shape(
        belief,
        sights,
        i32::try_from(at).unwrap_or(i32::MAX),
        UNLISTED_OVAL,
    )
}
