//! `settings.toml` and the ranges of its numbers.

use super::catalog::NAME;
use super::context::Context;
use super::document::Document;
use crate::model::Settings;
use crate::report::Cell;

/// Least and greatest of each number. Common practice, no source: wide of what is sensible, to catch a slipped point.
const RANGES: [(&str, &str, f64, f64); 46] = [
    ("set", "counter", 0.0, 4_294_967_295.0),
    ("temperature", "reference", 32.0, 120.0),
    ("temperature", "mean", 32.0, 140.0),
    ("temperature", "sd", 0.1, 60.0),
    ("temperature", "told_sd", 0.1, 60.0),
    ("tolerance", "memory_widening", 1.0, 3.0),
    ("tolerance", "blank_share", 0.0, 0.05),
    ("tolerance", "blank", 0.0, 0.25),
    ("coat", "share", 0.0, 1.0),
    ("coat", "thickness", 0.0, 0.5),
    ("sight", "springline_share", 0.0, 1.0),
    ("sight", "springline_half_angle", 0.0, 90.0),
    ("sight", "clock_half_angle", 0.0, 90.0),
    ("outside", "bell_share", 0.0, 0.2),
    ("outside", "bell_low", 1.0, 3.0),
    ("outside", "bell_high", 1.0, 3.0),
    ("outside", "misread_share", 0.0, 0.2),
    ("outside", "unlisted_share", 0.0, 0.2),
    ("outside", "low", 0.1, 100.0),
    ("outside", "high", 0.1, 100.0),
    ("clues", "disguise_share", 0.0, 0.5),
    ("clues", "plans_family_right", 0.0, 1.0),
    ("clues", "plans_size_right", 0.0, 1.0),
    ("clues", "contradiction", 0.0, 0.5),
    ("checks", "crossed_minutes", 0.05, 120.0),
    ("checks", "tape_dug_minutes", 0.05, 120.0),
    ("checks", "tape_minutes", 0.05, 120.0),
    ("checks", "along_minutes", 0.05, 120.0),
    ("checks", "print_minutes", 0.05, 120.0),
    ("checks", "wall_minutes", 0.05, 120.0),
    ("checks", "doubt_share", 0.0, 0.9),
    ("wall", "plastic_over", 0.01, 0.49),
    ("wall", "metal_sd", 0.001, 0.2),
    ("wall", "low", 0.01, 10.0),
    ("wall", "high", 0.01, 10.0),
    ("print", "legible", 0.01, 0.99),
    ("print", "misread", 0.0001, 0.2),
    ("print", "foreign", 0.0001, 0.2),
    ("sizes", "other_weight", 1e-6, 0.1),
    ("answer", "settled_rest", 0.0, 1.0),
    ("answer", "outside_at_least", 0.0, 1.0),
    ("answer", "likely", 0.0, 1.0),
    ("answer", "shown", 0.0, 1.0),
    ("answer", "counted", 0.0, 1.0),
    ("answer", "cement_warning", 0.0, 1.0),
    ("answer", "gas_warning", 0.0, 1.0),
];

/// Least and greatest of each number of an instrument.
const INSTRUMENT: [(&str, f64, f64); 7] = [
    ("sigma", 0.0005, 1.0),
    ("sigma_share", 0.0, 0.05),
    ("step", 0.0, 0.5),
    ("offset", 0.0, 0.25),
    ("offset_sd", 0.0, 0.25),
    ("slant_sd", 0.0, 10.0),
    ("stretch_sd", 0.0, 0.05),
];

/// Reads `settings.toml`.
pub(crate) fn settings(context: &mut Context<'_>, document: &Document<'_>) -> Option<Settings> {
    for (section, key, low, high) in RANGES {
        within(context, document, &[section, key], low, high);
    }
    let settings: Settings = document.whole(&mut context.report)?;
    for (instrument, _) in settings.instruments.in_order() {
        for (key, low, high) in INSTRUMENT {
            within(
                context,
                document,
                &["instrument", instrument, key],
                low,
                high,
            );
        }
    }
    let name = Cell {
        text: settings.set.name.clone(),
        place: document.at(&["set", "name"]),
        lead: 1,
    };
    context.needed(&name, "name", NAME);
    let site = settings.site;
    if (site.unknown_irrigation + site.unknown_municipal - 1.0).abs() > 1e-9 {
        context.report.add(
            document.at(&["site", "unknown_municipal"]),
            "unknown_irrigation and unknown_municipal do not sum to 1",
            "an unknown site is one or the other",
        );
    }
    for key in ["unknown_irrigation", "unknown_municipal"] {
        within(context, document, &["site", key], 0.0, 1.0);
    }
    let outside = settings.outside;
    for (low, high, section, name) in [
        (outside.bell_low, outside.bell_high, "outside", "bell_high"),
        (outside.low, outside.high, "outside", "high"),
        (settings.wall.low, settings.wall.high, "wall", "high"),
    ] {
        if low >= high {
            context.report.add(
                document.at(&[section, name]),
                "the upper end is not above the lower",
                "exchange them or correct one",
            );
        }
    }
    Some(settings)
}

fn within(context: &mut Context<'_>, document: &Document<'_>, path: &[&str], low: f64, high: f64) {
    let number = document.number(path);
    context.between(document, &path.join("."), number, low, high);
}
