//! The soil as told: a word or a row of the tables.

use anyhow::{Result, anyhow, bail};
use springline_core::image::{Image, SoilWord};
use springline_core::thrust::{Procedure, Soil, Trench, soil_called};

use super::answer::Slick;

/// What the ground is.
pub(super) enum Ground {
    /// Nobody knows.
    Unknown,
    /// A row of the tables, and the word that it was called by.
    Row(u8),
    /// Nothing is to be reckoned on.
    Refer,
}

/// The ground by its word.
pub(super) fn ground(image: &Image<'_>, procedure: Procedure, word: &str) -> Result<Ground> {
    let plain = word.trim().replace(' ', "-");
    if plain.eq_ignore_ascii_case("unknown") {
        return Ok(Ground::Unknown);
    }
    if let Some(row) = soil_called(image, &plain, procedure) {
        return Ok(match row {
            SoilWord::REFER => Ground::Refer,
            row => Ground::Row(row),
        });
    }
    let own: Vec<u8> = rows(image, procedure);
    let named = |row: &&u8| image.soil_name(**row).eq_ignore_ascii_case(word.trim());
    if let Some(row) = own.iter().find(named) {
        return Ok(Ground::Row(*row));
    }
    let words: Vec<&str> = image
        .soil_words()
        .map(|one| image.soil_word(&one))
        .collect();
    let rows: Vec<&str> = own.iter().map(|row| image.soil_name(*row)).collect();
    bail!(
        "no soil \"{word}\"\n  try one of: unknown, {}\n  or a row for this pipe: {}",
        words.join(", "),
        rows.join(", ")
    )
}

/// The rows of a procedure.
pub(super) fn rows(image: &Image<'_>, procedure: Procedure) -> Vec<u8> {
    let all = (0u8..).zip(image.soils());
    all.filter(|(_, row)| image.trench(row.trench).procedure == procedure as u8)
        .map(|(at, _)| at)
        .collect()
}

/// Whether the pipe may lie on soil that has no friction in its procedure, as clay for iron: bare it drags on nothing there.
pub(super) fn slick(image: &Image<'_>, procedure: Procedure, ground: &Ground) -> Option<Slick> {
    let none = |row: &u8| image.soil(*row).friction == 0;
    match ground {
        Ground::Row(row) => none(row).then_some(Slick::Told),
        Ground::Unknown => rows(image, procedure)
            .iter()
            .any(none)
            .then_some(Slick::Feared),
        Ground::Refer => None,
    }
}

/// A row of soil in a trench, and how the pipe was taken to lie.
pub(super) fn soil(image: &Image<'_>, row: u8, trench: Option<Trench>) -> Result<(Soil, Trench)> {
    Soil::of(image, row, trench).ok_or_else(|| {
        let used = Trench::ALL.into_iter();
        let used = used.filter(|one| Soil::of(image, row, Some(*one)).is_some());
        let words: Vec<&str> = used.map(Trench::key).collect();
        anyhow!(
            "a {} trench is not used with {}\n  try one of: {}",
            trench.map_or("", Trench::key),
            image.soil_name(row),
            words.join(", ")
        )
    })
}
