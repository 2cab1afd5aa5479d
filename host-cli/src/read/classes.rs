//! Which wall class the pipe is, where something was told that hangs on it.

use std::fmt::Write;

use springline_core::identify::classes;
use springline_core::image::Material;
use springline_core::reading::Reading;

use super::finding::{Finding, Pipe, fraction};

/// A class that is named has at least this share of its row.
const NAMED: f64 = 0.05;

/// A class of a pipe, under every pressure that it is printed with.
pub(crate) struct Class<'a> {
    /// As it is printed.
    pub(crate) label: &'a str,
    /// Its share of the pipes of the row.
    pub(crate) share: f64,
    /// Pressures at the reference temperature, psi: that of today first, then those of older editions. Empty where none is known.
    pub(crate) psi: Vec<u16>,
    /// Whether that falls as the pipe gets warmer.
    plastic: bool,
    /// A temperature that was told, °F, and the pressure of today at it; none where the pipe is not rated there.
    pub(crate) warm: Option<(i32, Option<u16>)>,
}

impl Class<'_> {
    /// `DR 18 (235 psi at 73 F; older print 150)`.
    pub(crate) fn words(&self) -> String {
        let at = if self.plastic { " at 73 F" } else { "" };
        match self.psi.split_first() {
            None => self.label.to_owned(),
            Some((psi, older)) => {
                let mut words = format!("{} ({psi} psi{at}", self.label);
                match self.warm {
                    Some((degrees, Some(psi))) => {
                        let _ = write!(words, ", {psi} at {degrees} F");
                    }
                    Some((degrees, None)) => {
                        let _ = write!(words, ", not rated at {degrees} F");
                    }
                    None => {}
                }
                if !older.is_empty() {
                    let older: Vec<String> = older.iter().map(u16::to_string).collect();
                    let _ = write!(words, "; older print {}", older.join(", "));
                }
                words.push(')');
                words
            }
        }
    }
}

/// The classes of a pipe, the likeliest first; none where nothing was told of them.
pub(crate) fn of<'a>(finding: &Finding<'a>, pipe: &Pipe<'a>) -> Vec<Class<'a>> {
    let query = &finding.asked.query;
    let wall = |reading: &Reading| matches!(reading, Reading::Wall { .. });
    let Some(row) = pipe.indices.first() else {
        return Vec::new();
    };
    if query.clues.print.is_none() && !query.readings().any(wall) {
        return Vec::new();
    }
    let mut all: Vec<Class<'a>> = Vec::new();
    for (class, weight) in classes(finding.image, query, *row) {
        let label = finding.image.label(class.label);
        let share = fraction(weight.q30());
        let held = all.iter_mut().find(|held| held.label == label);
        let psi = (class.psi > 0).then_some(class.psi);
        match held {
            Some(held) => {
                held.share += share;
                held.psi.extend(psi);
            }
            None => all.push(Class {
                label,
                share,
                psi: psi.into_iter().collect(),
                warm: None,
                plastic: matches!(pipe.material, Some(Material::Pvc | Material::Pe)),
            }),
        }
    }
    if let (Some(material), Some(temperature)) = (pipe.material, query.temperature) {
        for class in all.iter_mut().filter(|class| class.plastic) {
            let Some(psi) = class.psi.first() else {
                continue;
            };
            let left = finding.image.derated(material, temperature);
            // Down to whole psi: a rating is not rounded up.
            let left = left.map(|left| (u32::from(*psi) * u32::from(left)) >> 15);
            let left = left.map(|left| u16::try_from(left).unwrap_or(u16::MAX));
            if left != Some(*psi) {
                class.warm = Some((temperature / 100, left));
            }
        }
    }
    all.sort_by(|a, b| b.share.total_cmp(&a.share));
    all.retain(|class| class.share >= NAMED);
    all
}

/// What the likeliest pipe's class is, in words; `None` where nothing was told of it.
pub(super) fn line(finding: &Finding<'_>) -> Option<String> {
    let first = finding.first()?;
    let all = of(finding, first);
    let words: Vec<String> = all.iter().map(Class::words).collect();
    let sure = all.first().is_some_and(|class| class.share >= 0.95);
    match words.as_slice() {
        [] => None,
        [one] => Some(format!("{one}.")),
        [one, ..] if sure => Some(format!("{one}.")),
        many => Some(format!("{}.", many.join(", or "))),
    }
}
