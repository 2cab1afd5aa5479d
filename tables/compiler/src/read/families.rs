//! `families.toml`, and the ranges of its numbers.

use serde::Deserialize;
use toml::Spanned;

use super::catalog::{KEY, NAME, name, unique};
use super::context::Context;
use super::document::{Document, number_in};
use crate::model::{Carries, Datum, Family, Grade, Loose, Material, SizeWeights, Squash};
use crate::report::{Cell, Place};

/// Where parts of a family stand that are checked together with other files.
#[derive(Debug)]
pub(crate) struct FamilyPlaces<'a> {
    pub(crate) key: Cell<'a>,
    pub(crate) irrigation: Place<'a>,
    pub(crate) municipal: Place<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawFamily {
    key: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<Spanned<String>>,
    od_system: Spanned<String>,
    od_system_else: Option<Spanned<String>>,
    material: Spanned<String>,
    carries: Spanned<String>,
    thermal_per_f: f64,
    thermal_source: Spanned<String>,
    thermal_grade: Spanned<String>,
    wear_in: f64,
    oval: f64,
    squash: Option<RawSquash>,
    loose: Option<RawLoose>,
    irrigation: f64,
    municipal: f64,
    size_weights: Spanned<String>,
    source: Spanned<String>,
    grade: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSquash {
    mean: f64,
    sd: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawLoose {
    share: f64,
    width: f64,
}

/// The words for materials.
pub(crate) const MATERIALS: [(&str, Material); 7] = [
    ("pvc", Material::Pvc),
    ("iron", Material::Iron),
    ("steel", Material::Steel),
    ("pe", Material::Pe),
    ("copper", Material::Copper),
    ("cement", Material::Cement),
    ("aluminum", Material::Aluminum),
];

pub(crate) const CONTENTS: [(&str, Carries); 4] = [
    ("water", Carries::Water),
    ("drain", Carries::Drain),
    ("gas", Carries::Gas),
    ("wires", Carries::Wires),
];

const SIZE_WEIGHTS: [(&str, SizeWeights); 3] = [
    ("inch", SizeWeights::Inch),
    ("dn", SizeWeights::Dn),
    ("od", SizeWeights::Od),
];

/// Least and greatest of each number. Common practice, no source: wide of what pipe does, to catch a slipped point.
const RANGES: [(&[&str], f64, f64); 9] = [
    (&["thermal_per_f"], 1e-7, 3e-4),
    (&["wear_in"], 0.0, 0.25),
    (&["oval"], 0.0, 0.05),
    (&["squash", "mean"], 0.0, 0.1),
    (&["squash", "sd"], 0.0005, 0.1),
    (&["loose", "share"], 0.0, 0.5),
    (&["loose", "width"], 1.0, 10.0),
    (&["irrigation"], 0.0, 100.0),
    (&["municipal"], 0.0, 100.0),
];

/// Reads `families.toml`; the rows of a family come later.
pub(crate) fn families<'a>(
    context: &mut Context<'_>,
    document: &Document<'a>,
) -> Vec<(Family, FamilyPlaces<'a>)> {
    let before = context.report.count();
    let mut families = Vec::new();
    let mut named: Vec<Cell<'_>> = Vec::new();
    let list = document.list(&mut context.report, "family");
    let mut complete = context.report.count() == before;
    for value in list {
        for (path, low, high) in RANGES {
            context.between(document, &path.join("."), number_in(value, path), low, high);
        }
        match document.typed::<RawFamily>(&mut context.report, value) {
            Some(raw) => {
                let place = |key| {
                    number_in(value, &[key]).map_or(Place::file(document.file), |(_, range)| {
                        document.place(range)
                    })
                };
                let places = FamilyPlaces {
                    key: document.cell(&raw.key),
                    irrigation: place("irrigation"),
                    municipal: place("municipal"),
                };
                named.extend(raw.also.iter().map(|word| document.cell(word)));
                families.push((family(context, document, raw), places));
            }
            None => complete = false,
        }
    }
    for (at, word) in named.iter().enumerate() {
        name(context, word, "name", KEY);
        let again = named.iter().take(at).any(|held| held.text == word.text);
        if again || context.families.keys.contains(&word.text) {
            context.report.add(
                word.place,
                format!("\"{}\" is a family's already", word.text),
                "take it out of one of them",
            );
        }
    }
    if families.is_empty() && context.report.count() == before {
        complete = false;
        context.report.add(
            Place::file(document.file),
            "no families",
            "add a [[family]]",
        );
    }
    context.families.complete = complete;
    families
}

fn family(context: &mut Context<'_>, document: &Document<'_>, raw: RawFamily) -> Family {
    let cell = |string| document.cell(string);
    let key = cell(&raw.key);
    name(context, &key, "key", KEY);
    unique(&mut context.report, &key, &context.families);
    context.families.keys.push(key.text.clone());
    context.needed(&cell(&raw.name), "name", NAME);

    // Where a word is wrong, any value will do: a reported mistake never reaches an image.
    let material = context.word(&cell(&raw.material), "material", &MATERIALS);
    let carries = context.word(&cell(&raw.carries), "contents", &CONTENTS);
    let weights = context.word(&cell(&raw.size_weights), "size_weights", &SIZE_WEIGHTS);
    let mut find = |string: &Spanned<String>| {
        let Context {
            report, systems, ..
        } = context;
        systems.find(report, &document.cell(string))
    };
    let system = find(&raw.od_system);
    let system_else = raw.od_system_else.as_ref().and_then(&mut find);
    let thermal_sources = context.sources(&cell(&raw.thermal_source));
    let thermal_grade = context.grade(&cell(&raw.thermal_grade));
    let sources = context.sources(&cell(&raw.source));
    let grade = context.grade(&cell(&raw.grade));
    Family {
        key: key.text.clone(),
        also: raw.also.into_iter().map(Spanned::into_inner).collect(),
        name: raw.name.into_inner(),
        system: system.unwrap_or(0),
        system_else,
        material: material.unwrap_or(Material::Pvc),
        carries: carries.unwrap_or(Carries::Water),
        thermal_per_f: Datum {
            value: raw.thermal_per_f,
            sources: thermal_sources,
            grade: thermal_grade.unwrap_or(Grade::Memory),
        },
        wear_in: raw.wear_in,
        oval: raw.oval,
        squash: raw.squash.map(|RawSquash { mean, sd }| Squash { mean, sd }),
        loose: raw
            .loose
            .map(|RawLoose { share, width }| Loose { share, width }),
        irrigation: raw.irrigation,
        municipal: raw.municipal,
        size_weights: weights.unwrap_or(SizeWeights::Inch),
        sources,
        grade: grade.unwrap_or(Grade::Memory),
        od: Vec::new(),
        classes: Vec::new(),
    }
}
