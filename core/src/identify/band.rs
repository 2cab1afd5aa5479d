//! A row's band of average diameters, and the chance that it gives a reading.

use super::belief::squared;
use crate::fixed::{CHANCE_BITS, InverseSigma, Real, interval};

/// Whether a distance is more than six sigma. A density falls to 6e-9 there; what is in no table holds more than that however
/// fine the instrument.
#[inline]
pub(super) fn beyond_six_sigma(distance: i32, variance: u64) -> bool {
    squared(distance) >> 5 > variance + (variance >> 3)
}

/// A row's average OD: uniform between two edges, and for some families rarely anywhere in a wider band.
pub(super) struct Band {
    pub(super) low: i32,
    pub(super) high: i32,
    pub(super) variance: u64,
    /// Q16.
    pub(super) loose_share: u32,
    /// What a wider band adds on either side, counts.
    pub(super) wider: i32,
    /// The loose share over how many times wider that band is, Q16.
    pub(super) rare_share: u32,
}

impl Band {
    /// The chance that a normal error of this variance carries a pipe of the band to `at`, in [`CHANCE_BITS`]; to be divided
    /// by the band's width.
    pub(super) fn chance(&self, at: i32, variance: u64) -> u64 {
        let (low, high) = (self.low - at, self.high - at);
        let away = (low - self.wider).max(-high - self.wider);
        // Most rows of a window lie so far off that they count for nothing beside the pipes in no table.
        if away > 0 && beyond_six_sigma(away, variance) {
            return 0;
        }
        let sigma = InverseSigma::of_variance(variance);
        let tight = interval(low, high, sigma);
        if self.loose_share == 0 {
            return tight;
        }
        let loose = interval(low - self.wider, high + self.wider, sigma);
        let loose = loose * u64::from(self.rare_share);
        tight + (loose >> 16) - ((tight * u64::from(self.loose_share)) >> 16)
    }

    /// A chance as a density, per count.
    #[inline]
    pub(super) fn density(&self, chance: u64) -> Real {
        // One word over another is one instruction: sixteen bits of one over the width are enough.
        let width = (self.high - self.low).unsigned_abs().max(1);
        let lead = width.leading_zeros();
        let inverse = u32::MAX / ((width << lead) >> 16).max(1);
        let exponent = lead.cast_signed() - 48 - CHANCE_BITS.cast_signed();
        Real::unsigned(chance, 0) * Real::unsigned(u64::from(inverse), exponent)
    }
}
