//! From an instrument's reading to what it says about the diameter.

use super::belief::{portion, squared};
use crate::image::{Image, Instrument};
use crate::length::Length;
use crate::reading::{Clock, Reading, ReadingError, Tool};

/// Which part of an oval pipe a reading sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum View {
    /// All of it: a tape.
    Round,
    /// One diameter at a clock position.
    Clock(Clock),
    /// One diameter, most likely across the springline.
    Unknown,
    /// The diameter at right angles to the one before it.
    Across,
    /// The crown, whose curvature a squash changes this many times over, Q16.
    Crown(i32),
}

impl View {
    /// Whether it is of one diameter.
    pub(super) const fn is_diameter(self) -> bool {
        matches!(self, Self::Clock(_) | Self::Unknown | Self::Across)
    }
}

/// One reading, as a statement about the diameter. Lengths in counts of 10 nm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sight {
    /// The diameter that it points to.
    pub(super) value: i32,
    /// The instrument's variance on it, for a pipe of that diameter.
    variance: u64,
    pub(super) view: View,
    /// Whether it was taken a foot along.
    pub(super) along: bool,
    chord: Option<Chord>,
}

/// How the uncertainty of a chord depends on the pipe that it is taken on.
#[derive(Clone, Copy, Debug)]
struct Chord {
    /// What the chord itself contributes, squared counts.
    fixed: u64,
    rise: i32,
    /// One over the rise, Q44: a division for each row of a window would cost more than all the rest.
    inverse_rise: u64,
    rise_variance: u64,
    /// Whether the rise was measured, and may be any part of the pipe, or is the depth of a caliper's jaws.
    measured: bool,
}

impl Sight {
    /// The instrument's variance on the diameter if the pipe were this size.
    pub(super) fn variance(&self, od: i32) -> u64 {
        match &self.chord {
            None => self.variance,
            Some(chord) => chord.variance(od),
        }
    }

    /// Takes in a coat of this mean and variance, counts.
    pub(super) fn coat(&mut self, mean: i32, variance: u64) {
        self.value = self.value.saturating_sub(mean);
        self.variance = self.variance.saturating_add(variance);
        if let Some(chord) = &mut self.chord {
            chord.fixed = chord.fixed.saturating_add(variance);
        }
    }

    /// Becomes the mean of itself and the diameter at right angles, which sees all round.
    pub(super) fn join(&mut self, crossing: &Self) {
        self.value = i32::midpoint(self.value, crossing.value);
        self.variance = (self.variance + crossing.variance) / 4;
        self.view = View::Round;
    }

    /// Whether it is of a caliper whose jaws did not reach the widest point.
    pub(super) fn is_of_short_jaws(&self) -> bool {
        self.chord.is_some_and(|chord| !chord.measured)
    }

    /// The variance on a diameter that one of the usual instruments would have.
    pub(super) fn of_tool(image: &Image<'_>, tool: Tool, at: i32) -> u64 {
        let instrument = image.instrument(tool as u8);
        let sight = match tool {
            Tool::SteelTape | Tool::String => {
                let counts = i64::from(at) * 355 / 113;
                around(&instrument, i32::try_from(counts).unwrap_or(i32::MAX), None)
            }
            _ => direct(&instrument, at, None, View::Round),
        };
        sight.map_or(1, |sight| sight.variance)
    }

    /// Whether a smaller pipe would show this reading more often: a rise may be any part of the diameter, so that each
    /// has the chance of one over it.
    pub(super) fn scales_with_od(&self) -> bool {
        self.chord.is_some_and(|chord| chord.measured)
    }
}

impl Chord {
    fn variance(&self, od: i32) -> u64 {
        // d(OD)/d(rise) = (OD - 2 rise) / rise, Q12: at most 2^12 × 4 × 64 for the flattest rise taken.
        let slope = (i64::from(od) - 2 * i64::from(self.rise))
            .unsigned_abs()
            .min(1 << 31);
        let slope = ((slope * self.inverse_rise) >> 32).min(1 << 20);
        self.fixed
            .saturating_add(((slope * slope) >> 12).saturating_mul(self.rise_variance >> 6) >> 6)
    }
}

/// Diameters between which a reading can be used: beyond them there is no pipe.
const RANGE: core::ops::RangeInclusive<i64> = 254_000..=254_000_000;

/// A reading as a sight; a wall is none.
pub(super) fn sight(image: &Image<'_>, reading: &Reading) -> Result<Sight, ReadingError> {
    let tool = |tool: Tool| image.instrument(tool as u8);
    match *reading {
        Reading::Wall { .. } => Err(ReadingError::None),
        Reading::Diameter {
            value,
            clock,
            jaw,
            sigma,
        }
        | Reading::Along {
            value,
            clock,
            jaw,
            sigma,
        } => {
            let value = positive(value)?;
            let caliper = tool(Tool::Caliper);
            if let Some(jaw) = jaw {
                let jaw = positive(jaw)?;
                if i64::from(value) > 2 * i64::from(jaw) {
                    let spread = own_variance(&caliper, value, sigma);
                    let depth = own_variance(&tool(Tool::Jaw), jaw, None);
                    return chord(value, jaw, spread, depth, false);
                }
            }
            let view = clock.map_or(View::Unknown, View::Clock);
            direct(&caliper, value, sigma, view)
        }
        Reading::DiameterTape { value, sigma } => direct(
            &tool(Tool::DiameterTape),
            positive(value)?,
            sigma,
            View::Round,
        ),
        Reading::Around { value, sigma } => around(&tool(Tool::SteelTape), positive(value)?, sigma),
        Reading::String { value, sigma } => around(&tool(Tool::String), positive(value)?, sigma),
        Reading::Chord {
            chord: c,
            rise,
            sigma,
        } => {
            let (c, rise) = (positive(c)?, positive(rise)?);
            let spread = own_variance(&tool(Tool::Chord), c, sigma);
            let depth = own_variance(&tool(Tool::Rise), rise, sigma);
            chord(c, rise, spread, depth, true)
        }
    }
}

pub(super) fn positive(length: Length) -> Result<i32, ReadingError> {
    match length.counts() {
        counts @ 1.. => Ok(counts),
        _ => Err(ReadingError::NotPositive),
    }
}

fn in_range(od: i64) -> Result<i32, ReadingError> {
    match i32::try_from(od) {
        Ok(value) if RANGE.contains(&od) => Ok(value),
        _ => Err(ReadingError::OutOfRange),
    }
}

fn square(counts: u64) -> u64 {
    squared(i32::try_from(counts).unwrap_or(i32::MAX))
}

fn part(length: i32, share: u32) -> u64 {
    (u64::from(length.unsigned_abs()) * u64::from(share)) >> 32
}

/// The variance of a reading itself: the user's sigma or the instrument's, and the step it is read to.
pub(super) fn own_variance(instrument: &Instrument, value: i32, sigma: Option<Length>) -> u64 {
    let told = sigma.map(|sigma| u64::from(sigma.counts().unsigned_abs()));
    let own = told.unwrap_or(u64::from(instrument.sigma) + part(value, instrument.sigma_share));
    square(own) + square(u64::from(instrument.step)) / 12
}

fn direct(
    instrument: &Instrument,
    value: i32,
    sigma: Option<Length>,
    view: View,
) -> Result<Sight, ReadingError> {
    Ok(Sight {
        value: in_range(i64::from(value))?,
        variance: own_variance(instrument, value, sigma).max(1),
        view,
        along: false,
        chord: None,
    })
}

/// One over pi, Q32.
const INVERSE_PI: i64 = 1_367_130_551;
/// One over pi squared, Q32.
const INVERSE_PI_SQUARED: u32 = 435_171_170;

fn around(
    instrument: &Instrument,
    value: i32,
    sigma: Option<Length>,
) -> Result<Sight, ReadingError> {
    let across = ((i64::from(value) * INVERSE_PI) >> 32) - i64::from(instrument.offset);
    let across = in_range(across - ((across * i64::from(instrument.stretch)) >> 32))?;
    let reading = own_variance(instrument, value, sigma);
    let variance = portion(reading, INVERSE_PI_SQUARED)
        + square(u64::from(instrument.offset_sd))
        + square(part(across, instrument.stretch_sd));
    Ok(Sight {
        value: across,
        variance: variance.max(1),
        view: View::Round,
        along: false,
        chord: None,
    })
}

/// A chord `c` and the rise `s` above it: OD = c²/(4 s) + s.
fn chord(
    chord: i32,
    rise: i32,
    chord_variance: u64,
    rise_variance: u64,
    measured: bool,
) -> Result<Sight, ReadingError> {
    let (c, s) = (i64::from(chord), i64::from(rise));
    // A straight edge cannot lie below the springline; a twentieth is left for the reading's own error.
    if 40 * s > 21 * c {
        return Err(ReadingError::RiseTooHigh);
    }
    if 16 * s < c {
        return Err(ReadingError::RiseTooLow);
    }
    // Within eight sigma of nothing, a rise sets no upper bound on the pipe: every larger one stays likely.
    if squared(rise) / 64 < rise_variance {
        return Err(ReadingError::RiseUnsure);
    }
    let od = in_range((c * c).checked_div(4 * s).unwrap_or(0) + s)?;
    // q = c / (2 s), Q16: at most 8.
    let q = (c << 15).checked_div(s).unwrap_or(0);
    // (c / 2s)² times the chord's variance.
    let fixed = ((q * q) >> 20)
        .unsigned_abs()
        .saturating_mul(chord_variance >> 6)
        >> 6;
    let parts = Chord {
        fixed,
        rise,
        inverse_rise: (1u64 << 44).checked_div(s.unsigned_abs()).unwrap_or(0),
        rise_variance,
        measured,
    };
    Ok(Sight {
        value: od,
        variance: parts.variance(od).max(1),
        view: View::Crown(crown_factor(q)),
        along: false,
        chord: Some(parts),
    })
}

/// How many times over the crown shows a squash: |½ (2q cos 2a sin a + (1 − q²)(1 − cos 2a cos a))| with q = c/(2s) and
/// a = 2 atan(1/q), both Q16; one on half the pipe, some three times on a short arc.
fn crown_factor(q: i64) -> i32 {
    let one = 1i64 << 16;
    let q2 = (q * q) >> 16;
    let over = |part: i64| (part << 16).checked_div(q2 + one).unwrap_or(0);
    let sine = over(2 * q);
    let cosine = over(q2 - one);
    let double = 2 * ((cosine * cosine) >> 16) - one;
    let first = (((2 * q * double) >> 16) * sine) >> 16;
    let second = ((one - q2) * (one - ((double * cosine) >> 16))) >> 16;
    i32::try_from((first + second).abs() / 2).unwrap_or(i32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_constants_of_the_circle() {
        let q32 = 4_294_967_296.0;
        let inverse = core::f64::consts::FRAC_1_PI;
        assert!((INVERSE_PI as f64 - inverse * q32).abs() < 1.0);
        assert!((f64::from(INVERSE_PI_SQUARED) - inverse * inverse * q32).abs() < 1.0);
    }

    /// The closed form in f64, over every shape that is taken.
    #[test]
    fn the_crown_factor_follows_its_formula() {
        for step in 10..=80 {
            let q = f64::from(step) / 10.0;
            let a = 2.0 * libm::atan(1.0 / q);
            let (c2, s1, c1) = (libm::cos(2.0 * a), libm::sin(a), libm::cos(a));
            let want = (0.5 * (2.0 * q * c2 * s1 + (1.0 - q * q) * (1.0 - c2 * c1))).abs();
            let got = f64::from(crown_factor((q * 65536.0) as i64)) / 65536.0;
            assert!((got - want).abs() < 0.01, "q {q}: {got} {want}");
        }
        assert!(
            (crown_factor(1 << 16) - 65536).abs() < 16,
            "half the pipe sees it once"
        );
    }
}
