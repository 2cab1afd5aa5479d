//! What the model believes of a pipe before any reading: its band, temperature, coat, wear, oval and squash.

use super::band::{Band, beyond_six_sigma};
use super::classes::Inside;
use super::priors::{plans_size, site, tell};
use crate::fixed::Real;
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Component, Family, Image, Row, Settings};
use crate::reading::Query;

/// A length times a Q`bits` share below one, rounded down.
#[inline]
#[allow(
    clippy::cast_possible_truncation,
    reason = "a part of a length is no longer than it"
)]
pub(super) fn scaled(length: i32, share: i32, bits: u32) -> i32 {
    ((i64::from(length) * i64::from(share)) >> bits) as i32
}

/// A square that cannot overflow a sum of several: no standard deviation reaches 40 in.
#[inline]
pub(super) fn squared(counts: i32) -> u64 {
    let held = counts.unsigned_abs().min(100_000_000);
    u64::from(held) * u64::from(held)
}

/// A normal term of the model: its mean and variance on the diameter, in counts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Coat {
    /// Q16.
    pub(super) share: u64,
    pub(super) mean: i32,
    pub(super) variance: u64,
}

/// The model, made ready for one query.
pub(super) struct Belief<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) settings: &'a Settings,
    /// The share of each family among all pipes of the site, Q32.
    site: [u32; MAX_FAMILIES],
    /// The same after what was told; these sum to one too.
    priors: [u32; MAX_FAMILIES],
    /// The chance of what was told on a pipe of the site: what the shares were divided by.
    evidence: Real,
    told: bool,
    /// What was told that hangs on the class.
    inside: Option<Inside<'a>>,
    /// A size that plans name, and by what they multiply rows of it and of any other.
    size: Option<(u8, Real, Real)>,
    /// The share of all pipes that follow each squash law, Q32.
    laws: [u32; MAX_FAMILIES],
    buried: bool,
    /// Mean of the wall temperature above the reference, and its standard deviation, hundredths of 1 °F.
    warmer: i32,
    temperature_sd: i32,
    /// Bare and coated.
    coats: [Coat; 2],
    /// Both as one normal of their mean and variance.
    either: Coat,
    /// Beyond this variance of everything else, twenty times the mean square of a coat, the two are told apart no more: at
    /// eighteen times some odds would be off by more than 1/32 of a power of two.
    broad: u64,
}

impl<'a> Belief<'a> {
    pub(super) fn new(image: &'a Image<'a>, query: &Query) -> Self {
        let settings = image.settings();
        let (mean, temperature_sd) = temperature(settings, query.temperature);
        let coated = u64::from(settings.coat_share >> 16);
        let site = site(image, query.site);
        let (mut priors, mut evidence) = (site, Real::ONE);
        if !query.clues.is_empty() {
            evidence = tell(image, query, &site, &mut priors);
        }
        let mut laws = [0u32; MAX_FAMILIES];
        for (prior, family) in priors.iter().zip(image.families()) {
            if let Some(weight) = laws.get_mut(usize::from(family.law)) {
                *weight = weight.saturating_add(*prior);
            }
        }
        let bare = Coat {
            share: (1 << 16) - coated,
            mean: 0,
            variance: 0,
        };
        let coat = Coat {
            share: coated,
            mean: settings.coat_mean.cast_signed(),
            variance: squared(settings.coat_sd.cast_signed()),
        };
        let power = squared(coat.mean) + coat.variance;
        let halfway = (i64::from(coat.mean) * coated.cast_signed()) >> 16;
        let halfway = i32::try_from(halfway).unwrap_or(i32::MAX);
        let either = Coat {
            share: 1 << 16,
            mean: halfway,
            variance: portion(power, settings.coat_share).saturating_sub(squared(halfway)),
        };
        Self {
            inside: Inside::of(image, query, &site),
            image,
            settings,
            site,
            priors,
            evidence,
            told: !query.clues.is_empty(),
            size: plans_size(image, query, &site),
            laws,
            buried: query.buried,
            warmer: mean - settings.reference_temperature,
            temperature_sd,
            coats: [bare, coat],
            either,
            broad: power * 20,
        }
    }

    /// Whether a line of print was told.
    pub(super) fn has_print(&self) -> bool {
        self.inside.is_some_and(|inside| inside.has_print())
    }

    /// What was told that hangs on the class.
    pub(super) fn inside(&self) -> Option<&Inside<'a>> {
        self.inside.as_ref()
    }

    /// Takes the coat out of what is believed of all readings together, for readings of places each of which has its own; returns
    /// the ways of being coated.
    pub(super) fn bare(&mut self) -> [Coat; 2] {
        let coats = self.coats;
        let none = Coat {
            share: 0,
            mean: 0,
            variance: 0,
        };
        let bare = Coat {
            share: 1 << 16,
            ..none
        };
        (self.coats, self.either) = ([bare, none], bare);
        coats
    }

    /// The share of each family at the site before anything was told, Q32.
    pub(super) fn site(&self) -> &[u32; MAX_FAMILIES] {
        &self.site
    }

    /// Whether anything was told.
    pub(super) fn is_told(&self) -> bool {
        self.told
    }

    /// The chance of what was told on a pipe of the site.
    pub(super) fn evidence(&self) -> Real {
        self.evidence
    }

    /// By what plans that name a size multiply a row; `None` where they name none.
    pub(super) fn size_factor(&self, size: u8) -> Option<Real> {
        self.size
            .map(|(named, same, other)| if size == named { same } else { other })
    }

    /// The share of each family after what was told, Q32.
    pub(super) fn priors(&self) -> &[u32; MAX_FAMILIES] {
        &self.priors
    }

    /// Mean and variance of a row's diameter as a tape finds it: band, heat, wear and coat, as one normal.
    pub(super) fn surface(&self, row: &Row, family: &Family) -> (i32, u64) {
        let band = self.band(row, family);
        let width = squared(band.high - band.low) / 12;
        (
            i32::midpoint(band.low, band.high) + self.either.mean,
            width + band.variance + self.either.variance,
        )
    }

    /// The share of a family among all pipes of the site, of which what was told is true, Q32.
    pub(super) fn prior(&self, family: u8) -> u32 {
        self.priors.get(usize::from(family)).copied().unwrap_or(0)
    }

    /// Each squash law that pipes of the site follow, by index, with the share of them that does.
    pub(super) fn laws(&self) -> impl Iterator<Item = (u8, Real)> {
        (0u8..)
            .zip(&self.laws)
            .filter(|(_, weight)| **weight > 0)
            .map(|(index, weight)| {
                let law = if self.buried { index } else { 0 };
                (law, Real::unsigned(u64::from(*weight), -32))
            })
    }

    /// The squash law that holds for a family here, by index: that of rigid pipe where nothing is buried.
    pub(super) fn law(&self, family: &Family) -> u8 {
        if self.buried { family.law } else { 0 }
    }

    /// The ways in which a family may be squashed here.
    pub(super) fn squash(&self, family: &Family) -> impl Iterator<Item = Component> + use<'a> {
        self.image.squash(self.law(family))
    }

    pub(super) fn buried(&self) -> bool {
        self.buried
    }

    /// Whether a row lies so far from a reading that weighing it would find nothing: more than six sigma
    /// of the instrument beyond all that coat, heat and, seen so many times over (Q16), shape may add to its band.
    pub(super) fn is_far(
        &self,
        row: &Row,
        family: &Family,
        at: i32,
        variance: u64,
        shape: i32,
    ) -> bool {
        let part = |share: u32| scaled(row.od, (share >> 4).cast_signed(), 28);
        let mut beyond = family.beyond.cast_signed() + part(family.heat);
        if family.loose_share != 0 {
            let width = row.high - row.low;
            beyond += width
                .saturating_mul(i32::from(family.loose_width))
                .min(1 << 28)
                / 2;
        }
        if shape != 0 {
            let squash = if self.buried { part(family.squash) } else { 0 };
            beyond += scaled(squash + 6 * oval(row.od, row.oval), shape, 16);
        }
        let gap = (row.low - at).max(at - row.high) - beyond;
        gap > 0 && beyond_six_sigma(gap, variance)
    }

    /// A row's band, as tape and caliper would find it today.
    pub(super) fn band(&self, row: &Row, family: &Family) -> Band {
        // 1e-7 per °F times hundredths of 1 °F is 1e-9; 2^52 / 1e9 brings it to Q28 without a division.
        let growth = |hundredths: i32| {
            let parts = i64::from(family.thermal) * i64::from(hundredths);
            let share = i32::try_from((parts * 4_503_600) >> 24).unwrap_or(i32::MAX);
            scaled(row.od, share, 28)
        };
        let warmer = growth(self.warmer);
        let width = row.high - row.low;
        let loose_width = u32::from(family.loose_width).max(1);
        Band {
            low: row.low + warmer,
            high: row.high + warmer,
            variance: squared(growth(self.temperature_sd)) + squared(i32::from(family.wear)),
            loose_share: u32::from(family.loose_share),
            wider: if family.loose_share == 0 {
                0
            } else {
                // Held, because the image bounds a band but not how many times over it is widened.
                (width.saturating_mul(loose_width.cast_signed() - 1) / 2).min(1 << 29)
            },
            rare_share: u32::from(family.loose_share)
                .checked_div(loose_width)
                .unwrap_or(0),
        }
    }

    /// The chance, in [`CHANCE_BITS`], of finding an average diameter `at` with an error of `variance` on a pipe of this
    /// band, bare or coated; to be divided by the band's width.
    pub(super) fn chance(&self, band: &Band, at: i32, variance: u64) -> u64 {
        let variance = variance + band.variance;
        if variance > self.broad {
            let coat = &self.either;
            return band.chance(at - coat.mean, variance + coat.variance);
        }
        let mut sum = 0;
        for coat in &self.coats {
            sum += coat.share * band.chance(at - coat.mean, variance + coat.variance);
        }
        sum >> 16
    }

    /// The same as a density, per count.
    pub(super) fn density(&self, band: &Band, at: i32, variance: u64) -> Real {
        band.density(self.chance(band, at, variance))
    }
}

/// The wall temperature that is believed, and its standard deviation, hundredths of 1 °F.
fn temperature(settings: &Settings, told: Option<i32>) -> (i32, i32) {
    let (mean, sd) = (settings.unknown_mean, i32::from(settings.unknown_sd));
    let Some(told) = told else {
        return (mean, sd);
    };
    let (prior, news) = (squared(sd), squared(i32::from(settings.told_sd)));
    let parts = i64::from(told) * prior.cast_signed() + i64::from(mean) * news.cast_signed();
    let both = (prior + news).max(1);
    let narrow = |wide: i64| i32::try_from(wide).unwrap_or(i32::MAX);
    let variance = Real::unsigned(prior, 0) * Real::unsigned(news, 0) / Real::unsigned(both, 0);
    (
        narrow(parts.checked_div(both.cast_signed()).unwrap_or(0)),
        narrow(variance.sqrt().to_fixed(0)),
    )
}

/// One way in which a pipe may be squashed: a normal on the second harmonic of its shape, in counts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Squash {
    /// Q15.
    pub(super) weight: u16,
    /// Mean across the springline.
    pub(super) mean: i32,
    /// Its standard deviation.
    pub(super) sd: i32,
}

impl Squash {
    /// A component of a law on a pipe of this OD.
    #[inline]
    pub(super) fn of(component: Component, od: i32) -> Self {
        Self {
            weight: component.weight,
            mean: scaled(od, i32::from(component.mean), 18),
            sd: scaled(od, i32::from(component.sd), 18),
        }
    }

    /// Mean square of the squash.
    pub(super) fn power(&self) -> u64 {
        squared(self.mean) + squared(self.sd)
    }
}

/// One sigma of out-of-round as made, in counts, of a Q20 share.
#[inline]
pub(super) fn oval(od: i32, share: u16) -> i32 {
    scaled(od, i32::from(share), 20)
}

/// A variance times a Q32 share.
pub(super) fn portion(variance: u64, share: u32) -> u64 {
    // Variances stay below 2^54; split so that the product stays in 64 bits.
    let share = u64::from(share >> 8);
    (((variance >> 20) * share) >> 4) + (((variance & 0xf_ffff) * share) >> 24)
}
