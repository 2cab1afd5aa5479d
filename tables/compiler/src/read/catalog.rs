//! `sources.toml`, `od-systems.toml` and `series.toml`: what the other files refer to.

use serde::Deserialize;
use toml::Spanned;

use super::context::{Context, Known};
use super::document::{Document, number_in};
use crate::model::{PressureRule, Series, Source, System};
use crate::report::{Cell, Report};

/// At most so many characters in a key.
pub(crate) const KEY: usize = 16;
/// At most so many characters in the key of a source, which devices show.
const SOURCE_KEY: usize = 12;
/// At most so many characters in a name that devices show.
pub(crate) const NAME: usize = 16;
/// At most so many characters in a text that only people at a desk read.
pub(crate) const PROSE: usize = 200;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSource {
    title: Spanned<String>,
    kind: Spanned<String>,
    r#where: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSystem {
    key: Spanned<String>,
    label: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSeries {
    family: Spanned<String>,
    series: Spanned<String>,
    hds_psi: Option<Spanned<f64>>,
    printed: Option<Spanned<bool>>,
    source: Spanned<String>,
}

/// Reads `sources.toml`.
pub(crate) fn sources(context: &mut Context<'_>, document: &Document<'_>) -> Vec<Source> {
    let before = context.report.count();
    let mut sources = Vec::new();
    for (key, value) in document.entries() {
        name(context, &key, "source key", SOURCE_KEY);
        let Some(raw) = document.typed::<RawSource>(&mut context.report, value) else {
            continue;
        };
        for (string, what) in [
            (&raw.title, "title"),
            (&raw.kind, "kind"),
            (&raw.r#where, "where"),
        ] {
            context.needed(&document.cell(string), what, PROSE);
        }
        context.sources.keys.push(key.text.clone());
        sources.push(Source {
            key: key.text,
            title: raw.title.into_inner(),
            kind: raw.kind.into_inner(),
            place: raw.r#where.into_inner(),
        });
    }
    context.sources.complete = context.report.count() == before;
    sources
}

/// Reads `od-systems.toml`.
pub(crate) fn systems(context: &mut Context<'_>, document: &Document<'_>) -> Vec<System> {
    let before = context.report.count();
    let mut systems = Vec::new();
    for value in document.list(&mut context.report, "system") {
        let Some(raw) = document.typed::<RawSystem>(&mut context.report, value) else {
            continue;
        };
        let key = document.cell(&raw.key);
        name(context, &key, "key", KEY);
        unique(&mut context.report, &key, &context.systems);
        context.needed(&document.cell(&raw.label), "label", NAME);
        context.systems.keys.push(key.text.clone());
        systems.push(System {
            key: key.text,
            label: raw.label.into_inner(),
        });
    }
    context.systems.complete = context.report.count() == before;
    systems
}

/// Reads `series.toml`. With each series comes the cell of its name.
pub(crate) fn series<'a>(
    context: &mut Context<'_>,
    document: &Document<'a>,
) -> Vec<(Series, Cell<'a>)> {
    let mut all: Vec<(Series, Cell<'a>)> = Vec::new();
    for value in document.list(&mut context.report, "series") {
        let Some(raw) = document.typed::<RawSeries>(&mut context.report, value) else {
            continue;
        };
        let stress = number_in(value, &["hds_psi"]);
        context.between(document, "hds_psi", stress, 100.0, 10_000.0);
        let rule = match (raw.hds_psi, raw.printed) {
            (Some(stress), None) => Some(PressureRule::DesignStress(stress.into_inner())),
            (None, Some(printed)) if *printed.get_ref() => Some(PressureRule::Printed),
            (_, printed) => {
                let span = printed.map_or_else(|| raw.series.span(), |printed| printed.span());
                context.report.add(
                    document.place(span),
                    "a series has either a formula or printed pressures",
                    "write either hds_psi = NUMBER or printed = true",
                );
                None
            }
        };
        let cell = document.cell(&raw.series);
        context.needed(&cell, "series", PROSE);
        let family = context.family(&document.cell(&raw.family));
        let sources = context.sources(&document.cell(&raw.source));
        let (Some(family), Some(rule)) = (family, rule) else {
            continue;
        };
        if all
            .iter()
            .any(|(s, _)| s.family == family && s.series == cell.text)
        {
            context.report.add(
                cell.place,
                format!("series \"{}\" of this family is there twice", cell.text),
                "remove one of them",
            );
        }
        let series = Series {
            family,
            series: cell.text.clone(),
            rule,
            sources,
        };
        all.push((series, cell));
    }
    all
}

/// Checks a key: lower-case letters, digits and hyphens, so that it needs no quotes anywhere.
pub(crate) fn name(context: &mut Context<'_>, key: &Cell<'_>, what: &str, limit: usize) {
    context.needed(key, what, limit);
    let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if key.text.is_ascii() && !key.text.chars().all(fits) {
        context.report.add(
            key.place,
            format!("{what} \"{}\" is not a plain word", key.text),
            "write lower-case letters, digits and hyphens",
        );
    }
}

/// Checks that a key is new.
pub(crate) fn unique(report: &mut Report<'_>, key: &Cell<'_>, known: &Known) {
    if known.keys.contains(&key.text) {
        report.add(
            key.place,
            format!("key \"{}\" is there twice", key.text),
            "give one of them another key",
        );
    }
}
