//! From checked sources to the contents of an image: bands, priors, laws, classes.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "checked sources hold values far inside the image's types"
)]

mod assembly;
mod classes;
mod clues;
mod joints;
mod print;
mod rows;
mod settings;

use springline_core::image::{Derating, Family, Row};

use crate::encode::Draft;
use crate::fit::{self, Deflection};
use crate::joints::Groups;
use crate::model::{NominalSize, Sources};
pub(crate) use joints::measure;

pub use rows::{Merged, Weights, merged};
use settings::{INCH, Reach, fixed, q32};

/// The most degrees Fahrenheit that a wall is believed to be from the reference, for the search window.
const HOTTEST: f64 = 75.0;

/// Texts that many records point to, each kept once.
#[derive(Default)]
pub(crate) struct Pool(Vec<String>);

impl Pool {
    /// The index of a text. An image has at most 256 of a kind; the check of the whole refuses more.
    pub(crate) fn index(&mut self, text: &str) -> u8 {
        let at = self.0.iter().position(|held| held == text);
        let at = at.unwrap_or_else(|| {
            self.0.push(text.to_owned());
            self.0.len() - 1
        });
        u8::try_from(at).unwrap_or(u8::MAX)
    }
}

/// The OD system of a row: its family's, unless the family names another for ODs that no other family of the system has.
pub(crate) fn system_of(sources: &Sources, index: usize, od: i64) -> usize {
    let family = &sources.families[index];
    let shared = || {
        sources.families.iter().enumerate().any(|(other, of)| {
            other != index
                && of.system == family.system
                && of.od.iter().any(|row| row.od.value == od)
        })
    };
    match family.system_else {
        Some(other) if !shared() => other,
        _ => family.system,
    }
}

/// The record of a family, but for its law and its source.
fn record(sources: &Sources, index: usize) -> Family {
    let family = &sources.families[index];
    let site = &sources.settings.site;
    let (irrigation, municipal) = (family.irrigation / 100.0, family.municipal / 100.0);
    let unknown = site.unknown_irrigation * irrigation + site.unknown_municipal * municipal;
    let loose = family.loose;
    let coat = sources.settings.coat.thickness;
    Family {
        key: 0,
        name: 0,
        system: u8::try_from(family.system).unwrap_or(u8::MAX),
        material: family.material as u8,
        carries: family.carries as u8,
        thermal: fixed(family.thermal_per_f.value * 1e7, 0) as u16,
        wear: (family.wear_in * INCH).round() as u16,
        loose_share: loose.map_or(0, |loose| fixed(loose.share, 16) as u16),
        loose_width: loose.map_or(0, |loose| loose.width as u8),
        irrigation: q32(irrigation),
        municipal: q32(municipal),
        unknown: q32(unknown),
        grade: family.grade as u8,
        // Six sigma of wear and of a coat, which the engine takes as a normal: what lies farther is skipped.
        beyond: ((coat / 2.0 + 6.0 * (coat / libm::sqrt(12.0) + family.wear_in)) * INCH) as u32,
        heat: q32(family.thermal_per_f.value * HOTTEST),
        squash: q32(family
            .squash
            .map_or(0.0, |squash| squash.mean + 4.5 * squash.sd)),
        ..Family::default()
    }
}

/// The contents of the image that checked sources make.
#[must_use]
#[allow(
    clippy::too_many_lines,
    reason = "one draft, a few lines for each part of it"
)]
pub fn assemble(sources: &Sources) -> Draft {
    let mut draft = Draft::default();
    let (mut sizes, mut labels, mut keys) = (Pool::default(), Pool::default(), Pool::default());
    labels.index("");
    let direction = settings::direction(&sources.settings);
    draft.laws.push(fit::rigid());
    let mut fitted: Vec<Deflection> = Vec::new();
    let mut reach = Reach::default();
    let weights = Weights::of(sources);
    let groups = Groups::of(&sources.joints, sources);
    let mut lists = classes::Lists::default();

    for (index, family) in sources.families.iter().enumerate() {
        let law = family.squash.map_or(0, |squash| {
            let deflection = Deflection {
                mean: squash.mean,
                sd: squash.sd,
            };
            let at = fitted.iter().position(|held| *held == deflection);
            let at = at.unwrap_or_else(|| {
                fitted.push(deflection);
                draft.laws.push(fit::law(deflection, direction));
                fitted.len() - 1
            });
            reach.squash = reach.squash.max(squash.mean + 4.0 * squash.sd);
            u8::try_from(at + 1).unwrap_or(u8::MAX)
        });
        reach.share = reach.share.max(family.thermal_per_f.value * HOTTEST);
        let loose = family.loose;
        let record = Family {
            law,
            source: keys.index(&sources.sources[family.sources[0]].key),
            ..record(sources, index)
        };
        draft
            .families
            .push((record, family.key.clone(), family.name.clone()));

        for merged in merged(index, family, &sources.settings.tolerance, &weights) {
            let width = (merged.high - merged.low) as f64;
            let beyond = loose.map_or(0.0, |loose| width * (loose.width - 1.0) / 2.0);
            let surface = (sources.settings.coat.thickness + 6.0 * family.wear_in) * INCH;
            reach.length = reach.length.max(beyond + surface);
            reach.squash = reach.squash.max(4.0 * merged.oval);
            let first = draft.walls.len();
            let (listed, walls): (Vec<_>, Vec<_>) =
                classes::of(sources, index, &merged, &mut labels)
                    .into_iter()
                    .unzip();
            draft.walls.extend(walls);
            draft.purchases.push(groups.of_row(index, merged.parts[0]));
            let system = system_of(sources, index, merged.od);
            draft.rows.push(Row {
                family: u8::try_from(index).unwrap_or(u8::MAX),
                system: u8::try_from(system).unwrap_or(u8::MAX),
                size: sizes.index(&merged.nominal),
                variant: labels.index(&merged.variant),
                source: keys.index(&sources.sources[merged.source].key),
                first_wall: u16::try_from(first).unwrap_or(u16::MAX),
                classes: u8::try_from(listed.len()).unwrap_or(u8::MAX),
                class_list: lists.index(&listed),
                ..merged.record()
            });
        }
    }
    draft.settings = settings::settings(&sources.settings, reach);
    draft.instruments = sources
        .settings
        .instruments
        .in_order()
        .iter()
        .map(|(_, instrument)| settings::instrument(instrument))
        .collect();
    draft.systems = sources
        .systems
        .iter()
        .map(|system| (system.key.clone(), system.label.clone()))
        .collect();
    draft.clues = clues::clues(sources, &mut keys);
    draft.deratings = sources
        .deratings
        .iter()
        .map(|derating| Derating {
            material: derating.material as u8,
            fahrenheit: derating.fahrenheit,
            factor: settings::q15(derating.factor.value),
        })
        .collect();
    draft.thrust = sources.thrust.clone();
    (draft.classes, draft.class_lists) = (lists.classes, lists.starts);
    draft.joints = joints::joints(&sources.joints);
    let sets = &mut draft.joints.sets;
    draft.print = print::print(sources, &labels.0, &draft.classes, sets);
    draft.assembly = assembly::assembly(&sources.assembly);
    let measure = |text: &String| NominalSize::parse(text).map_or(0, joints::measure);
    let measured = |text: String| (measure(&text), text);
    draft.sizes = sizes
        .0
        .into_iter()
        .map(measured)
        .map(|(m, text)| (text, m))
        .collect();
    (draft.labels, draft.sources) = (labels.0, keys.0);
    draft
}
