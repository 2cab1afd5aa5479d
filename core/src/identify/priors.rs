//! What is met at a site, and how what was told changes it.

use super::answer::share;
use super::evidence::Evidence;
use crate::fixed::Real;
use crate::image::Image;
use crate::image::layout::MAX_FAMILIES;
use crate::reading::{Query, Site};

/// The share of each family at a site, Q32.
pub(super) fn site(image: &Image<'_>, at: Site) -> [u32; MAX_FAMILIES] {
    let mut shares = [0; MAX_FAMILIES];
    for (share, family) in shares.iter_mut().zip(image.families()) {
        *share = match at {
            Site::Unknown => family.unknown,
            Site::Irrigation => family.irrigation,
            Site::Municipal => family.municipal,
        };
    }
    shares
}

/// Families by what was told; returns the chance of it. Pipes in no table count as drawn from the site, so that dividing by
/// that chance leaves their mass as it is.
pub(super) fn tell(
    image: &Image<'_>,
    query: &Query,
    site: &[u32; MAX_FAMILIES],
    priors: &mut [u32; MAX_FAMILIES],
) -> Real {
    let evidence = Evidence::of(image, &query.clues, site);
    let whole = evidence.marginal();
    for (family, prior) in (0u8..).zip(priors) {
        if *prior > 0 {
            let part = share(*prior) * evidence.likelihood(family) / whole;
            *prior = u32::try_from(part.to_fixed(32)).unwrap_or(u32::MAX);
        }
    }
    whole
}

/// A size that plans name: right in most cases, else any as often as it is met.
pub(super) fn plans_size(
    image: &Image<'_>,
    query: &Query,
    site: &[u32; MAX_FAMILIES],
) -> Option<(u8, Real, Real)> {
    let named = query.clues.plans?.size?;
    let mut met = 0u64;
    for row in image.rows_from(0).filter(|row| row.size == named) {
        let family = site.get(usize::from(row.family)).copied().unwrap_or(0);
        met += (u64::from(family) * u64::from(row.share)) >> 32;
    }
    let right = share(image.settings().plans_size_right);
    let other = Real::ONE - right;
    let same = right / Real::unsigned(met, -32) + other;
    (met > 0).then_some((named, same, other))
}
