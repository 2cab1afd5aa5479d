//! Mistakes in the files of thrust, and what the image holds of them.

use std::path::Path;

use springline_core::image::{Image, SoilWord};
use springline_core::thrust::{Procedure, Soil, Trench, soil_called};

use crate::tests::fixture::{folder, mistakes, with};

const SOILS: &str = "thrust/soils.csv";
const TRENCHES: &str = "thrust/trenches.csv";
const WORDS: &str = "thrust/words.csv";
const CONSTANTS: &str = "thrust/constants.csv";
const TABLES: &str = "thrust/bearing-tables.csv";
const BEARING: &str = "thrust/bearing.csv";

#[test]
fn what_is_written_is_what_the_image_holds() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../sources");
    let sources = crate::read(&folder).expect("clean");
    let compiled = crate::compile_sources(&sources);
    let image = Image::new(&compiled.image).expect("an image");
    let thrust = &sources.thrust;
    assert_eq!(image.soils().len(), thrust.soils.len());
    for (at, row) in (0u8..).zip(&thrust.soils) {
        assert_eq!(image.soil_name(at), row.name);
        let trench = &thrust.trenches[row.trench];
        for (factor, laid) in trench.factors.into_iter().zip(Trench::ALL) {
            let Some((soil, _)) = Soil::of(&image, at, Some(laid)) else {
                assert!(factor == 0.0, "{} {laid:?}", row.name);
                continue;
            };
            for (got, want) in [
                (soil.friction.in_degrees(), row.friction),
                (soil.grip, row.grip),
                (soil.cohesion.in_psf(), row.cohesion),
                (soil.adhesion, row.adhesion),
                (soil.weight.in_pcf(), row.weight),
                (soil.bearing, factor),
            ] {
                assert!(
                    (got - want).abs() < 1e-9,
                    "{} {laid:?}: {got}, {want}",
                    row.name
                );
            }
        }
        let first = trench.factors.iter().position(|factor| *factor > 0.0);
        let (_, laid) = Soil::of(&image, at, None).expect("the poorest that is used");
        assert_eq!(Some(laid), first.map(|first| Trench::ALL[first]));
    }
    for word in &thrust.words {
        let rows = [Procedure::Iron, Procedure::Pvc]
            .map(|procedure| soil_called(&image, &word.word.to_uppercase(), procedure));
        assert_eq!(rows, word.rows.map(Some), "{}", word.word);
    }
    assert_eq!(
        soil_called(&image, "muck", Procedure::Pvc),
        Some(SoilWord::REFER)
    );
    assert_eq!(soil_called(&image, "rock", Procedure::Pvc), None);
    let constants = image.thrust_constants();
    assert_eq!(
        (constants.safety, constants.wrapped, constants.iron),
        (150, 70, 440)
    );
}

/// Changes one place and expects this mistake among those there are, with its place.
#[track_caller]
fn among(file: &str, change: (usize, &str, &str), at: (usize, usize, &str), message: &str) {
    let found = mistakes(&with(file, change.0, change.1, change.2));
    let texts: Vec<String> = found.iter().map(ToString::to_string).collect();
    let first = found.iter().find(|one| one.message == message);
    let first = first.unwrap_or_else(|| panic!("{message}:\n{}", texts.join("\n\n")));
    let from = first.text.chars().skip(first.column - 1);
    let underlined: String = from.take(first.span).collect();
    assert_eq!(
        (first.line, first.column, underlined.as_str()),
        at,
        "{first}"
    );
    assert!(!first.help.is_empty());
}

#[test]
fn figures_lie_in_their_range() {
    for (file, change, at, message) in [
        (
            SOILS,
            (3, ",30,", ",45,"),
            (3, 8, "45"),
            "\"45\" is no figure for this column",
        ),
        (
            SOILS,
            (2, ",90,", ",60,"),
            (2, 24, "60"),
            "\"60\" is no figure for this column",
        ),
        (
            TRENCHES,
            (2, "0.85", "1.2"),
            (2, 27, "1.2"),
            "\"1.2\" is no figure for this column",
        ),
        (
            CONSTANTS,
            (2, "1.5", "0.9"),
            (2, 8, "0.9"),
            "\"0.9\" is no figure for this column",
        ),
        (BEARING, (2, ",500,", ",,"), (2, 25, ""), "missing figure"),
    ] {
        among(file, change, at, message);
    }
}

#[test]
fn rows_speak_of_what_there_is() {
    for (file, change, at, message) in [
        (
            SOILS,
            (2, "iron-any", "iron-none"),
            (2, 27, "iron-none"),
            "unknown trench \"iron-none\"",
        ),
        (
            SOILS,
            (2, "iron-any", "pvc-any"),
            (2, 27, "pvc-any"),
            "the trench is of the other procedure",
        ),
        (
            SOILS,
            (2, "0.50", "0"),
            (2, 13, "0"),
            "nothing grips the pipe in this soil",
        ),
        (
            WORDS,
            (2, ",SM,", ",GM,"),
            (2, 11, "GM"),
            "unknown soil \"GM\"",
        ),
        (
            CONSTANTS,
            (2, "safety", "safe"),
            (2, 1, "safe"),
            "unknown constant \"safe\"",
        ),
        (
            CONSTANTS,
            (4, "pcf", "psf"),
            (4, 14, "psf"),
            "concrete in \"psf\"",
        ),
        (
            BEARING,
            (2, "low,sand", "high,sand"),
            (2, 1, "high"),
            "unknown table \"high\"",
        ),
        (
            BEARING,
            (2, "sand unknown", "rock unknown"),
            (2, 10, "rock unknown"),
            "unknown word for a soil \"rock unknown\"",
        ),
    ] {
        among(file, change, at, message);
    }
}

#[test]
fn what_no_row_tells_alone() {
    for (file, change, message) in [
        (CONSTANTS, (5, "pvc,87", "concrete,87"), "no row for pvc"),
        (
            CONSTANTS,
            (5, "pvc,87", "concrete,87"),
            "concrete is there twice",
        ),
        (TABLES, (2, "default", "choice"), "0 tables are the default"),
        (
            BEARING,
            (2, "sand unknown", "sand"),
            "low has no row for soil that nobody knows",
        ),
    ] {
        let found = mistakes(&with(file, change.0, change.1, change.2));
        assert!(
            found.iter().any(|one| one.message == message),
            "{message}: {found:?}"
        );
    }
    let mut files = folder();
    files.remove(WORDS);
    assert_eq!(mistakes(&files)[0].message, "file not found");
}
