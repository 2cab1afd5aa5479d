//! The part of a diameter that all directions share: average OD, coat, and
//! whatever is normal, in closed form.

use std::f64::consts::{PI, SQRT_2};

/// Share of pipes that carry paint, mud or scale.
const COATED: f64 = 0.45;
/// Thickest coat, inches on the diameter.
const COAT: f64 = 0.020;
/// Share of iron and asbestos-cement pipes that lie in the wide band.
const WIDE: f64 = 0.05;

/// Distribution function of the standard normal.
pub(super) fn phi_cdf(x: f64) -> f64 {
    0.5 * libm::erfc(-x / SQRT_2)
}

/// Integral of [`phi_cdf`] from minus infinity, given its value at `x`.
fn phi_cdf_integral(x: f64, cdf: f64) -> f64 {
    x * cdf + (-0.5 * x * x).exp() / (2.0 * PI).sqrt()
}

/// Density at `x` of uniform(lo, hi) plus normal(0, sd).
pub(super) fn smeared_uniform(x: f64, lo: f64, hi: f64, sd: f64) -> f64 {
    (phi_cdf((x - lo) / sd) - phi_cdf((x - hi) / sd)).max(0.0) / (hi - lo)
}

/// Law of average OD plus coat.
#[derive(Debug, Clone, Copy)]
pub(super) struct Barrel {
    lo: f64,
    hi: f64,
    wide: bool,
}

impl Barrel {
    /// Band edges in inches; `wide` adds the band three times as wide.
    pub(super) fn new(lo: f64, hi: f64, wide: bool) -> Self {
        Self { lo, hi, wide }
    }

    /// How far from the OD, which lies in the band, anything of this law may
    /// be, inches.
    pub(super) fn reach(&self) -> f64 {
        let width = self.hi - self.lo;
        COAT + if self.wide { 2.0 * width } else { width }
    }

    /// Density at `x` inches of average OD plus coat plus normal(0, sd).
    pub(super) fn density(&self, x: f64, sd: f64) -> f64 {
        let plain = band(x, self.lo, self.hi, sd);
        if !self.wide {
            return plain;
        }
        let width = self.hi - self.lo;
        (1.0 - WIDE) * plain + WIDE * band(x, self.lo - width, self.hi + width, sd)
    }
}

fn band(x: f64, lo: f64, hi: f64, sd: f64) -> f64 {
    if x < lo - 9.0 * sd || x > hi + COAT + 9.0 * sd {
        return 0.0;
    }
    let at = |edge: f64| {
        let z = (x - edge) / sd;
        let cdf = phi_cdf(z);
        (cdf, phi_cdf_integral(z, cdf))
    };
    let (low, high) = (at(lo), at(hi));
    let bare = low.0 - high.0;
    // The coat is uniform: its integral over the distribution function is a
    // difference of that function's own integral.
    let coated = (low.1 - high.1 - at(lo + COAT).1 + at(hi + COAT).1) * sd / COAT;
    ((1.0 - COATED) * bare + COATED * coated).max(0.0) / (hi - lo)
}
