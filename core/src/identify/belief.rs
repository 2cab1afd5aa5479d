//! What the model believes of a pipe before any reading: its band, temperature, coat, wear, oval and squash.

use crate::fixed::{CHANCE_BITS, InverseSigma, Real, interval};
use crate::image::{Component, Family, Image, Law, Row, Settings};
use crate::reading::{Query, Site};

/// A length times a Q`bits` share, rounded down.
pub(super) fn scaled(length: i32, share: i64, bits: u32) -> i64 {
    (i64::from(length) * share) >> bits
}

/// A square that cannot overflow a sum of several: no standard deviation reaches 40 in.
pub(super) fn squared(counts: i64) -> u64 {
    let held = counts.unsigned_abs().min(100_000_000);
    held * held
}

/// A normal term of the model: its mean and variance on the diameter, in counts.
#[derive(Clone, Copy, Debug)]
struct Coat {
    /// Q16.
    share: u64,
    mean: i64,
    variance: u64,
}

/// The model, made ready for one query.
pub(super) struct Belief<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) settings: &'a Settings,
    site: Site,
    buried: bool,
    /// Mean of the wall temperature above the reference, and its standard deviation, hundredths of 1 °F.
    warmer: i64,
    temperature_sd: i64,
    /// Bare and coated.
    coats: [Coat; 2],
}

impl<'a> Belief<'a> {
    pub(super) fn new(image: &'a Image<'a>, query: &Query) -> Self {
        let settings = image.settings();
        let (mean, temperature_sd) = temperature(settings, query.temperature);
        let coated = u64::from(settings.coat_share >> 16);
        Self {
            image,
            settings,
            site: query.site,
            buried: query.buried,
            warmer: mean - i64::from(settings.reference_temperature),
            temperature_sd,
            coats: [
                Coat {
                    share: (1 << 16) - coated,
                    mean: 0,
                    variance: 0,
                },
                Coat {
                    share: coated,
                    mean: i64::from(settings.coat_mean),
                    variance: squared(i64::from(settings.coat_sd)),
                },
            ],
        }
    }

    /// The share of a family among all pipes of the site, Q32.
    pub(super) fn site_share(&self, family: &Family) -> u32 {
        match self.site {
            Site::Unknown => family.unknown,
            Site::Irrigation => family.irrigation,
            Site::Municipal => family.municipal,
        }
    }

    /// The squash law that holds for a family here: that of rigid pipe where nothing is buried.
    pub(super) fn law(&self, family: &Family) -> Law {
        self.image.law(if self.buried { family.law } else { 0 })
    }

    pub(super) fn buried(&self) -> bool {
        self.buried
    }

    /// A row's band, as tape and caliper would find it today.
    pub(super) fn band(&self, row: &Row, family: &Family) -> Band {
        // 1e-7 per °F times hundredths of 1 °F is 1e-9; 2^52 / 1e9 brings it to Q32 without a division.
        let growth = |hundredths: i64| {
            let share = (i64::from(family.thermal) * hundredths * 4_503_600) >> 20;
            scaled(row.od, share, 32)
        };
        let warmer = growth(self.warmer);
        Band {
            low: i64::from(row.low) + warmer,
            high: i64::from(row.high) + warmer,
            variance: squared(growth(self.temperature_sd)) + squared(i64::from(family.wear)),
            loose_share: u64::from(family.loose_share),
            loose_width: i64::from(family.loose_width),
        }
    }

    /// The chance density, per count, of finding an average diameter `at` with an error of `variance` on a pipe of this
    /// band, bare or coated.
    pub(super) fn density(&self, band: &Band, at: i64, variance: u64) -> Real {
        let mut sum = 0;
        for coat in &self.coats {
            sum +=
                coat.share * band.chance(at - coat.mean, variance + coat.variance + band.variance);
        }
        Real::unsigned(sum, -16 - CHANCE_BITS.cast_signed()) / Real::integer(band.high - band.low)
    }
}

/// The wall temperature that is believed, and its standard deviation, hundredths of 1 °F.
fn temperature(settings: &Settings, told: Option<i32>) -> (i64, i64) {
    let (mean, sd) = (
        i64::from(settings.unknown_mean),
        i64::from(settings.unknown_sd),
    );
    let Some(told) = told else {
        return (mean, sd);
    };
    let told_sd = i64::from(settings.told_sd);
    let (prior, news) = (sd * sd, told_sd * told_sd);
    let both = (prior + news).max(1);
    let mean = (mean * news + i64::from(told) * prior) / both;
    let variance = (prior * news / both).unsigned_abs();
    (mean, variance.isqrt().cast_signed())
}

/// A row's average OD: uniform between two edges, and for some families rarely anywhere in a wider band.
pub(super) struct Band {
    low: i64,
    high: i64,
    variance: u64,
    /// Q16.
    loose_share: u64,
    loose_width: i64,
}

impl Band {
    /// The chance that a normal error of this variance carries a pipe of the band to `at`, in [`CHANCE_BITS`]; to be divided by the
    /// band's width.
    fn chance(&self, at: i64, variance: u64) -> u64 {
        let tight = interval_between(self.low - at, self.high - at, variance);
        if self.loose_share == 0 {
            return tight;
        }
        let wider = (self.high - self.low) * (self.loose_width - 1) / 2;
        let loose = interval_between(self.low - at - wider, self.high - at + wider, variance);
        let loose = loose / self.loose_width.unsigned_abs().max(1);
        (tight * ((1 << 16) - self.loose_share) + loose * self.loose_share) >> 16
    }
}

/// The normal interval, skipping what lies more than seven sigma away: most rows of a window do.
fn interval_between(low: i64, high: i64, variance: u64) -> u64 {
    let away = low.max(-high);
    if away > 0 && squared(away) / 49 > variance {
        return 0;
    }
    interval(low, high, InverseSigma::of_variance(variance))
}

/// One way in which a pipe may be squashed: a normal on the second harmonic of its shape, in counts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Squash {
    /// Q15.
    pub(super) weight: u64,
    /// Mean across the springline.
    pub(super) mean: i64,
    /// Variance of it.
    pub(super) variance: u64,
}

impl Squash {
    /// A component of a law on a pipe of this OD.
    pub(super) fn of(component: Component, od: i32) -> Self {
        Self {
            weight: u64::from(component.weight),
            mean: scaled(od, i64::from(component.mean), 18),
            variance: squared(scaled(od, i64::from(component.sd), 18)),
        }
    }

    /// Mean square of the squash.
    pub(super) fn power(&self) -> u64 {
        squared(self.mean) + self.variance
    }
}

/// One sigma of out-of-round as made, in counts, of a Q20 share.
pub(super) fn oval(od: i32, share: u16) -> i64 {
    scaled(od, i64::from(share), 20)
}

/// A variance times a Q32 share.
pub(super) fn portion(variance: u64, share: u32) -> u64 {
    // Variances stay below 2^54; split so that the product stays in 64 bits.
    let share = u64::from(share >> 8);
    (((variance >> 20) * share) >> 4) + (((variance & 0xf_ffff) * share) >> 24)
}
