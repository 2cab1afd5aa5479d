//! What is reckoned at a site: surge, water in a line, holes and pieces.
//!
//! [`read_files`] takes the files of `surge/`, `water/` and `digging/`. None of it goes into the image: it is for desks,
//! and the core takes it as values.

mod cautions;
mod cells;
mod figures;
mod lengths;
mod surge;
#[cfg(test)]
pub(crate) mod tests;

use std::collections::BTreeMap;

use crate::diagnostic::Diagnostic;
use crate::joints::Reader;
use crate::model::Sources;
use crate::notes::SiteNotes;

/// The files of the folders.
pub(crate) const FILES: [&str; 10] = [
    "surge/water.csv",
    "surge/stiffness.csv",
    "surge/limits.csv",
    "surge/figures.csv",
    "water/figures.csv",
    "digging/figures.csv",
    "digging/lays.csv",
    "digging/taps.csv",
    "digging/cautions.csv",
    "water/cautions.csv",
];

/// Reads and checks the files of site work among the files of a folder. The rest of the folder was read before, clean.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<SiteNotes, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let [
        water,
        stiffness,
        limits,
        surge_figures,
        water_figures,
        dig_figures,
        lays,
        taps,
        dig_cautions,
        water_cautions,
    ] = FILES;
    let site = SiteNotes {
        waters: surge::waters(&mut reader, files, water),
        stiffness: surge::stiffness(&mut reader, files, stiffness),
        limits: surge::limits(&mut reader, files, limits),
        figures: [
            (surge_figures, figures::SURGE),
            (water_figures, figures::WATER),
            (dig_figures, figures::DIGGING),
        ]
        .into_iter()
        .flat_map(|(name, known)| figures::figures(&mut reader, files, name, known))
        .collect(),
        lays: lengths::lays(&mut reader, files, lays),
        taps: lengths::taps(&mut reader, files, taps),
        cautions: cautions::cautions(&mut reader, files, [dig_cautions, water_cautions]),
    };
    let found = reader.finish();
    if found.is_empty() {
        Ok(site)
    } else {
        Err(found)
    }
}
