//! Writes soil rows, trench factors, words for soils and constants.

use springline_core::image::layout::section;
use springline_core::image::{SoilRow, SoilWord, ThrustConstants, TrenchRow};

use super::{Parts, Texts};
use crate::thrust::Thrust;

/// A figure that was checked, as a whole number of so many parts.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the reader let through what fits"
)]
fn parts_of(value: f64, parts: f64) -> u16 {
    (value * parts).round() as u16
}

fn byte(value: f64, parts: f64) -> u8 {
    u8::try_from(parts_of(value, parts)).unwrap_or(u8::MAX)
}

/// Writes all of it.
pub(super) fn encode(thrust: &Thrust, texts: &mut Texts, parts: &mut Parts) {
    let soils: Vec<_> = thrust
        .soils
        .iter()
        .map(|soil| {
            let (name, name_length) = texts.put_short(&soil.name);
            SoilRow {
                name,
                name_length,
                friction: byte(soil.friction, 1.0),
                grip: byte(soil.grip, 100.0),
                weight: byte(soil.weight, 1.0),
                cohesion: parts_of(soil.cohesion, 1.0),
                adhesion: byte(soil.adhesion, 100.0),
                trench: u8::try_from(soil.trench).unwrap_or(u8::MAX),
                grade: soil.origin.grade as u8,
            }
            .to_bytes()
        })
        .collect();
    let trenches: Vec<_> = thrust
        .trenches
        .iter()
        .map(|trench| {
            let [light, bedded, granular, compacted] =
                trench.factors.map(|factor| byte(factor, 100.0));
            TrenchRow {
                procedure: trench.procedure as u8,
                light,
                bedded,
                granular,
                compacted,
            }
            .to_bytes()
        })
        .collect();
    let words: Vec<_> = thrust
        .words
        .iter()
        .map(|one| {
            let (word, word_length) = texts.put_any_case(&one.word);
            let [iron, pvc] = one.rows;
            SoilWord {
                word,
                word_length,
                iron,
                pvc,
            }
            .to_bytes()
        })
        .collect();
    let constant = |key: &str, parts: f64| {
        let found = thrust.constants.iter().find(|one| one.key == key);
        found.map_or(0, |one| parts_of(one.value, parts))
    };
    let constants = ThrustConstants {
        safety: constant("safety", 100.0),
        wrapped: constant("wrapped", 100.0),
        concrete: constant("concrete", 1.0),
        pvc: constant("pvc", 1.0),
        iron: constant("iron", 1.0),
        steel: constant("steel", 1.0),
    };
    parts.add(section::SOILS, &soils);
    parts.add(section::TRENCHES, &trenches);
    parts.add(section::SOIL_WORDS, &words);
    parts.add(section::THRUST, &[constants.to_bytes()]);
}
