//! The constants of the model in the image's fixed point.

use springline_core::image::{Instrument, Settings};

use crate::fit::{Direction, Spread};
use crate::model;

/// Counts of 10 nm in an inch.
pub(super) const INCH: f64 = 2_540_000.0;

/// A share as a whole number of `2^-bits`.
pub(super) fn fixed(value: f64, bits: u32) -> f64 {
    // A power of two is exact in `f64`; a library's `exp2` need not be.
    (value * (1u64 << bits) as f64).round()
}

/// A share below one in Q32.
pub(super) fn q32(value: f64) -> u32 {
    fixed(value, 32) as u32
}

pub(super) fn q15(value: f64) -> u16 {
    fixed(value, 15) as u16
}

fn counts(inches: f64) -> u32 {
    (inches * INCH).round() as u32
}

fn hundredths(degrees: f64) -> i32 {
    (degrees * 100.0).round() as i32
}

/// Where single diameters are taken.
pub(super) fn direction(settings: &model::Settings) -> Direction {
    Direction {
        springline_share: settings.sight.springline_share,
        springline_half_angle: settings.sight.springline_half_angle,
        clock_half_angle: settings.sight.clock_half_angle,
    }
}

/// How far rows and squashes reach, worked out over all of them.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Reach {
    /// Counts beyond the band.
    pub(super) length: f64,
    /// Share of the OD by which heat and cold move it.
    pub(super) share: f64,
    /// Share of the OD by which a squash moves a diameter.
    pub(super) squash: f64,
}

pub(super) fn settings(from: &model::Settings, reach: Reach) -> Settings {
    let springline = Spread::of(from.sight.springline_half_angle);
    let clock = Spread::of(from.sight.clock_half_angle);
    Settings {
        reference_temperature: hundredths(from.temperature.reference),
        unknown_mean: hundredths(from.temperature.mean),
        unknown_sd: hundredths(from.temperature.sd) as u16,
        told_sd: hundredths(from.temperature.told_sd) as u16,
        coat_share: q32(from.coat.share),
        coat_mean: counts(from.coat.thickness / 2.0),
        // A uniform thickness, by its variance.
        coat_sd: counts(from.coat.thickness / libm::sqrt(12.0)),
        bell_share: q32(from.outside.bell_share),
        bell_low: fixed(from.outside.bell_low, 16) as u32,
        bell_high: fixed(from.outside.bell_high, 16) as u32,
        misread_share: q32(from.outside.misread_share),
        unlisted_share: q32(from.outside.unlisted_share),
        log_uniform: q32(1.0 / libm::log(from.outside.high / from.outside.low)),
        outside_low: counts(from.outside.low).cast_signed(),
        outside_high: counts(from.outside.high).cast_signed(),
        springline_share: q32(from.sight.springline_share),
        springline_mean: fixed(springline.mean, 16) as u32,
        springline_variance: q32(springline.cosine),
        clock_mean: fixed(clock.mean, 16) as u32,
        clock_cosine_variance: q32(clock.cosine),
        clock_sine_variance: q32(clock.sine),
        reach_share: q32(reach.share),
        reach: reach.length as i32,
        squash_reach: q32(reach.squash),
        settled_rest: q32(from.answer.settled_rest),
        outside_at_least: q32(from.answer.outside_at_least),
        likely: q32(from.answer.likely),
        shown: q32(from.answer.shown),
        counted: q32(from.answer.counted),
        cement_warning: q32(from.answer.cement_warning),
        gas_warning: q32(from.answer.gas_warning),
        disguise_share: q32(from.clues.disguise_share),
        plans_family_right: q32(from.clues.plans_family_right),
        plans_size_right: q32(from.clues.plans_size_right),
        contradiction: q32(from.clues.contradiction),
        crossed_effort: hundredths(from.checks.crossed_minutes) as u16,
        tape_dug_effort: hundredths(from.checks.tape_dug_minutes) as u16,
        tape_effort: hundredths(from.checks.tape_minutes) as u16,
        along_effort: hundredths(from.checks.along_minutes) as u16,
        doubt_share: q32(from.checks.doubt_share),
        print_effort: hundredths(from.checks.print_minutes) as u16,
        wall_effort: hundredths(from.checks.wall_minutes) as u16,
        wall_over: q32(from.wall.plastic_over),
        wall_sd: q32(from.wall.metal_sd),
        wall_low: counts(from.wall.low).cast_signed(),
        wall_high: counts(from.wall.high).cast_signed(),
        wall_log_uniform: q32(1.0 / (from.wall.high / from.wall.low).ln()),
    }
}

pub(super) fn instrument(from: &model::Instrument) -> Instrument {
    // A tape that slants by a half-normal angle shows the circumference over its cosine: 1 + angle²/2, by its mean and
    // standard deviation.
    let slant = from.slant_sd * std::f64::consts::PI / 180.0;
    let square = slant * slant;
    let slant_sd = square / libm::sqrt(2.0);
    let spread = libm::sqrt(from.stretch_sd * from.stretch_sd + slant_sd * slant_sd);
    Instrument {
        sigma: counts(from.sigma),
        sigma_share: q32(from.sigma_share),
        step: counts(from.step),
        offset: counts(from.offset).cast_signed(),
        offset_sd: counts(from.offset_sd),
        stretch: q32(square / 2.0),
        stretch_sd: q32(spread),
    }
}
