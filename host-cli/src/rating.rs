//! What a pipe is rated for: its pressure class by the one rule of [`Image::rated`], and what heat leaves of it. Every verb that
//! holds a pressure against a pipe asks here.

use springline_core::image::{Image, Material};
use springline_core::unit::Pressure;

use crate::fits::class::Named;
use crate::fits::known::Known;

/// The temperature at which pipe is rated where none is told.
pub(crate) const RATED_AT: &str = "73 F";

/// A class, and what it is rated for.
#[derive(Debug)]
pub(crate) struct Rating {
    /// As the tables spell it.
    pub(crate) label: String,
    /// At the temperature that it is rated at: as printed today, or as the print names it.
    pub(crate) class: Pressure,
    /// What was typed, where that is the pressure of an older standard.
    printed: Option<String>,
    /// What the same wall is printed with today, where an older class was typed; else what it was printed with before, where
    /// that was less.
    other: Option<Pressure>,
}

impl Rating {
    /// `DR 18`, or `DR 18, printed CL150`.
    pub(crate) fn name(&self) -> String {
        match &self.printed {
            Some(printed) => format!("{}, printed {printed}", self.label),
            None => self.label.clone(),
        }
    }

    /// What is to be known where standards print the same wall differently.
    pub(crate) fn words(&self, show: impl Fn(Pressure) -> String) -> Option<String> {
        let other = show(self.other?);
        Some(match &self.printed {
            Some(printed) => format!(
                "its class as the print names it, {printed} of an older standard: {}; the same wall is printed {other} today",
                show(self.class)
            ),
            None => format!(
                "its class as printed today, {}; the same wall was printed {other} in older standards: where it is, name that \
                 (--class CL{:.0})",
                show(self.class),
                self.other.map_or(0.0, Pressure::in_psi)
            ),
        })
    }
}

/// The classes that the pipe may be of and that the tables have a pressure of, each once: one that was told, or all.
pub(crate) fn ratings(image: &Image<'_>, known: &Known) -> Vec<Rating> {
    let all = of_row(image, known);
    let own = |one: &Rating| known.class.as_ref().is_none_or(|told| *told == one.label);
    all.into_iter().filter(own).collect()
}

/// The same of every class of this size; the one that was told as it was.
pub(crate) fn of_row(image: &Image<'_>, known: &Known) -> Vec<Rating> {
    let row = &known.pipe.row;
    let psi = |value: u16| Pressure::psi(f64::from(value));
    let mut all: Vec<Rating> = Vec::new();
    for class in image.classes(row) {
        let label = image.label(class.label);
        if all.iter().any(|one| one.label == label) {
            continue;
        }
        let told = known.told.as_ref();
        let told = told.filter(|_| known.class.as_deref() == Some(label));
        let printed = told.and_then(Named::printed_psi);
        let Some(rated) = image.rated(row, label, printed) else {
            continue;
        };
        let older = told.filter(|_| rated.older());
        all.push(Rating {
            label: label.to_owned(),
            class: psi(rated.taken),
            printed: older.and_then(|told| told.printed.clone()),
            other: if rated.older() {
                Some(psi(rated.today))
            } else {
                (rated.least < rated.today).then(|| psi(rated.least))
            },
        });
    }
    all
}

/// What is left of a rating at a wall temperature in hundredths of 1 °F; all of it where none was told, `None` where the pipe is
/// not rated any more.
pub(crate) fn left(
    image: &Image<'_>,
    material: Option<Material>,
    hundredths: Option<i32>,
) -> Option<f64> {
    let (Some(material), Some(hundredths)) = (material, hundredths) else {
        return Some(1.0);
    };
    let left = image.derated(material, hundredths)?;
    Some(f64::from(left) / f64::from(1 << 15))
}
