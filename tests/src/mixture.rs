//! The engine's own mixture in f64: what its integers are held against.
//!
//! It reads the same image, so it believes the same normals; it shares no arithmetic with the core. For one reading only:
//! a diameter across the pipe, a tape around it, a chord and its rise.

use springline_core::clue::Clues;
use springline_core::image::{Component, Image, Instrument, Material, Row};

/// Counts in an inch.
const INCH: f64 = 2_540_000.0;

/// A reading of one kind, inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// A caliper across the pipe.
    Diameter(f64),
    /// A steel tape around it.
    Around(f64),
    /// A chord and the rise above it.
    Chord(f64, f64),
}

/// Weights of the rows by index, and of everything outside the tables; they sum to one.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// One a row.
    pub rows: Vec<f64>,
    /// Bells, misreadings, unlisted pipe.
    pub outside: f64,
    /// Of these the bells, by the row that they are on.
    pub bells: Vec<f64>,
    /// The asbestos-cement among the rows.
    pub cement: f64,
}

/// An instrument's view of a diameter, inches.
struct View {
    at: f64,
    /// Variance on a pipe of an OD.
    variance: Box<dyn Fn(f64) -> f64>,
    /// How many times over it sees a squash; none for a tape.
    crown: Option<f64>,
    sight: bool,
    scales: bool,
}

fn own(instrument: &Instrument, value: f64) -> f64 {
    let sigma = f64::from(instrument.sigma) / INCH
        + value * f64::from(instrument.sigma_share) / 4_294_967_296.0;
    let step = f64::from(instrument.step) / INCH;
    sigma * sigma + step * step / 12.0
}

fn view(image: &Image<'_>, reading: Reading) -> View {
    let q32 = |share: u32| f64::from(share) / 4_294_967_296.0;
    match reading {
        Reading::Diameter(value) => {
            let variance = own(&image.instrument(0), value);
            View {
                at: value,
                variance: Box::new(move |_| variance),
                crown: None,
                sight: true,
                scales: false,
            }
        }
        Reading::Around(value) => {
            let tape = image.instrument(2);
            let pi = std::f64::consts::PI;
            let at = (value / pi - f64::from(tape.offset) / INCH) * (1.0 - q32(tape.stretch));
            let offset = f64::from(tape.offset_sd) / INCH;
            let stretch = at * q32(tape.stretch_sd);
            let variance = own(&tape, value) / (pi * pi) + offset * offset + stretch * stretch;
            View {
                at,
                variance: Box::new(move |_| variance),
                crown: None,
                sight: false,
                scales: false,
            }
        }
        Reading::Chord(chord, rise) => {
            let across = own(&image.instrument(4), chord);
            let up = own(&image.instrument(5), rise);
            let q = chord / (2.0 * rise);
            let a = 2.0 * libm::atan(1.0 / q);
            let crown = 0.5
                * (2.0 * q * libm::cos(2.0 * a) * libm::sin(a)
                    + (1.0 - q * q) * (1.0 - libm::cos(2.0 * a) * libm::cos(a)));
            View {
                at: chord * chord / (4.0 * rise) + rise,
                variance: Box::new(move |od| {
                    let slope = (od - 2.0 * rise) / rise;
                    q * q * across + slope * slope * up
                }),
                crown: Some(crown.abs()),
                sight: false,
                scales: true,
            }
        }
    }
}

/// The chance that a standard normal lies between two scores.
fn between(a: f64, b: f64) -> f64 {
    let upper = |z: f64| 0.5 * libm::erfc(z / std::f64::consts::SQRT_2);
    if a > 0.0 {
        upper(a) - upper(b)
    } else {
        upper(-b) - upper(-a)
    }
}

/// How often the answers to some clues are given of each family, and of a pipe drawn from the site: paint, wrap or mud hides
/// the disguised ones together.
///
/// # Panics
///
/// When an image has more families than a byte counts.
#[must_use]
pub fn evidence(image: &Image<'_>, clues: &Clues) -> (Vec<f64>, f64) {
    let settings = image.settings();
    let q32 = |share: u32| f64::from(share) / 4_294_967_296.0;
    let count = u8::try_from(image.family_count()).expect("few families");
    let product = |family: u8, disguised: bool| -> f64 {
        clues
            .told()
            .filter(|told| (image.clue(told.clue).disguised == 1) == disguised)
            .map(|told| {
                let (mantissa, power) = image.likelihood(told.answer, family).parts();
                f64::from(mantissa) * libm::exp2(f64::from(power))
            })
            .product()
    };
    let site: Vec<f64> = image.families().map(|f| q32(f.unknown)).collect();
    let any: f64 = (0..count)
        .map(|family| site[usize::from(family)] * product(family, true))
        .sum();
    let disguised = q32(settings.disguise_share);
    let of: Vec<f64> = (0..count)
        .map(|family| {
            let seen = (1.0 - disguised) * product(family, true) + disguised * any;
            seen * product(family, false)
        })
        .collect();
    let drawn = of
        .iter()
        .zip(&site)
        .map(|(chance, share)| chance * share)
        .sum();
    (of, drawn)
}

/// The weights of every row for one reading of a buried pipe on an unknown site, its temperature not told.
#[must_use]
pub fn weigh(image: &Image<'_>, reading: Reading) -> Weights {
    weigh_with(image, reading, &Clues::new())
}

/// The same with clues; plans are left aside.
#[must_use]
pub fn weigh_with(image: &Image<'_>, reading: Reading, clues: &Clues) -> Weights {
    let (chances, drawn) = evidence(image, clues);
    let told = |family: u8| chances[usize::from(family)] / drawn;
    let settings = image.settings();
    let q32 = |share: u32| f64::from(share) / 4_294_967_296.0;
    let view = view(image, reading);
    let listed =
        1.0 - q32(settings.bell_share) - q32(settings.misread_share) - q32(settings.unlisted_share);
    let mut rows: Vec<f64> = image
        .rows_from(0)
        .map(|row| {
            let family = image.family(row.family);
            let prior = q32(family.unknown) * told(row.family);
            listed * prior * q32(row.share) * density(image, &view, &row)
        })
        .collect();
    let log_uniform = {
        let low = f64::from(settings.outside_low) / INCH;
        let high = f64::from(settings.outside_high) / INCH;
        if (low..=high).contains(&view.at) {
            1.0 / (view.at * libm::log(high / low))
        } else {
            0.0
        }
    };
    let low = f64::from(settings.bell_low) / 65536.0;
    let high = f64::from(settings.bell_high) / 65536.0;
    let mut bells: Vec<f64> = image
        .rows_from(0)
        .map(|row| {
            let od = f64::from(row.od) / INCH;
            let family = image.family(row.family);
            if view.at >= od * low && view.at <= od * high {
                let prior = q32(family.unknown) * told(row.family) * q32(row.share);
                q32(settings.bell_share) * prior / (od * (high - low))
            } else {
                0.0
            }
        })
        .collect();
    let outside = bells.iter().sum::<f64>()
        + (q32(settings.misread_share) + q32(settings.unlisted_share)) * log_uniform;
    let total: f64 = rows.iter().sum::<f64>() + outside;
    for row in rows.iter_mut().chain(&mut bells) {
        *row /= total;
    }
    let cement = image
        .rows_from(0)
        .zip(&rows)
        .filter(|(row, _)| image.family(row.family).material == Material::Cement as u8)
        .map(|(_, weight)| weight)
        .sum();
    Weights {
        cement,
        rows,
        outside: outside / total,
        bells,
    }
}

fn density(image: &Image<'_>, view: &View, row: &Row) -> f64 {
    let settings = image.settings();
    let family = image.family(row.family);
    let inches = |counts: i32| f64::from(counts) / INCH;
    let od = inches(row.od);
    let law = image.law(family.law);
    let oval = od * f64::from(row.oval) / 1_048_576.0;
    let (parts, k, oval): (&[Component], f64, f64) = match view.crown {
        _ if view.sight => (&law.sight, 1.0, oval),
        Some(k) => (&law.squash, k, oval * k),
        None => (&[], 0.0, 0.0),
    };
    let thermal = f64::from(family.thermal) * 1e-7;
    let degrees = |hundredths: f64| hundredths / 100.0;
    let warmer = degrees(f64::from(
        settings.unknown_mean - settings.reference_temperature,
    ));
    let shift = od * thermal * warmer;
    let heat = od * thermal * degrees(f64::from(settings.unknown_sd));
    let wear = f64::from(family.wear) / INCH;
    let fixed = (view.variance)(od) + oval * oval + heat * heat + wear * wear;

    let coated = f64::from(settings.coat_share >> 16) / 65536.0;
    let coat_mean = f64::from(settings.coat_mean) / INCH;
    let coat_sd = f64::from(settings.coat_sd) / INCH;
    let (low, high) = (inches(row.low) + shift, inches(row.high) + shift);
    let width = high - low;
    let loose = f64::from(family.loose_share) / 65536.0;
    let times = f64::from(family.loose_width).max(1.0);
    let wider = width * (times - 1.0) / 2.0;

    let band = |at: f64, variance: f64| {
        let sigma = libm::sqrt(variance);
        let tight = between((low - at) / sigma, (high - at) / sigma);
        let wide = between((low - wider - at) / sigma, (high + wider - at) / sigma);
        ((1.0 - loose) * tight + loose * wide / times) / width
    };
    let coats = |at: f64, variance: f64| {
        (1.0 - coated) * band(at, variance)
            + coated * band(at - coat_mean, variance + coat_sd * coat_sd)
    };
    let sum = if parts.is_empty() {
        coats(view.at, fixed)
    } else {
        parts
            .iter()
            .filter(|part| part.weight > 0)
            .map(|part| {
                let mean = od * k * f64::from(part.mean) / 262_144.0;
                let sd = od * k * f64::from(part.sd) / 262_144.0;
                f64::from(part.weight) / 32768.0 * coats(view.at - mean, fixed + sd * sd)
            })
            .sum()
    };
    if view.scales { sum * view.at / od } else { sum }
}
