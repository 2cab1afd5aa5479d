//! Reads the folder of sources.

mod catalog;
mod clues;
pub(crate) mod context;
mod document;
mod families;
mod folder;
mod lists;
pub(crate) mod number;
mod rows;
mod settings;
pub(crate) mod table;

use std::collections::BTreeMap;
use std::path::Path;

pub(crate) use self::families::{CONTENTS, FamilyPlaces, MATERIALS};
pub(crate) use self::rows::{CLASSES as CLASS_COLUMNS, OD as OD_COLUMNS};

use self::context::Context;
use self::document::Document;
use self::table::{Table, table};
use crate::assembly::{self, Assembly};
use crate::check::{self, Raw, RawFamily};
use crate::diagnostic::Diagnostic;
use crate::jobs::{self, Jobs};
use crate::joints::{self, Joints};
use crate::model::{Clue, Sources};
use crate::notes::SiteNotes;
use crate::print::{self, Print};
use crate::report::{Cell, Files, Place, Report};
use crate::site;
use crate::thrust::{self, Thrust};

/// The TOML and CSV files beside those of the families.
const FILES: [&str; 11] = [
    "sources.toml",
    "od-systems.toml",
    "families.toml",
    "series.toml",
    "clues.toml",
    "settings.toml",
    "sizes.csv",
    "size-exceptions.csv",
    "class-shares.csv",
    "differences.csv",
    "derating.csv",
];

/// Reads and checks a folder of sources.
///
/// # Errors
///
/// Every mistake in it, by file and line.
pub fn read(folder: &Path) -> Result<Sources, Vec<Diagnostic>> {
    read_files(&folder::files(folder)?)
}

/// Reads and checks sources held in memory: the text of each file by its path in the folder, with `/` between its parts.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(files: &BTreeMap<String, String>) -> Result<Sources, Vec<Diagnostic>> {
    let mut context = Context::new(Report::new(files));
    let mut sources = gather(&mut context, files);
    let diagnostics = context.report.finish();
    if !diagnostics.is_empty() {
        return Err(diagnostics);
    }
    sources.joints = joints::read_files(files, &sources)?;
    sources.print = print::read_files(files, &sources)?;
    sources.thrust = thrust::read_files(files, &sources)?;
    sources.site = site::read_files(files, &sources)?;
    sources.assembly = assembly::read_files(files, &sources)?;
    sources.jobs = jobs::read_files(files, &sources)?;
    Ok(sources)
}

/// Reads everything and checks what could be read. Where something could not be, it is reported, and what stands in its
/// place here is nothing.
fn gather<'a>(context: &mut Context<'a>, files: &'a Files) -> Sources {
    let sources = document(context, files, "sources.toml")
        .map(|document| catalog::sources(context, &document))
        .unwrap_or_default();
    let systems = document(context, files, "od-systems.toml")
        .map(|document| catalog::systems(context, &document))
        .unwrap_or_default();
    let families = document(context, files, "families.toml")
        .map(|document| families::families(context, &document))
        .unwrap_or_default();
    let before = context.report.count();
    let series = document(context, files, "series.toml")
        .map(|document| catalog::series(context, &document))
        .unwrap_or_default();
    let series_known = context.report.count() == before;
    let settings = document(context, files, "settings.toml")
        .and_then(|document| settings::settings(context, &document))
        .unwrap_or_default();

    let clues = document(context, files, "clues.toml")
        .map(|document| clues::clues(context, &document))
        .unwrap_or_default();

    let (series, series_cells) = series.into_iter().unzip();
    let mut raw = Raw {
        families: Vec::new(),
        families_known: context.families.complete,
        series: series_cells,
        series_known,
        sizes: csv(context, files, "sizes.csv", lists::SIZES),
        size_exceptions: csv(
            context,
            files,
            "size-exceptions.csv",
            lists::SIZE_EXCEPTIONS,
        ),
        class_shares: csv(context, files, "class-shares.csv", lists::CLASS_SHARES),
        differences: csv(context, files, "differences.csv", lists::DIFFERENCES),
    };
    let deratings = csv(context, files, "derating.csv", lists::DERATINGS);
    let mut sources = Sources {
        settings,
        systems,
        families: Vec::new(),
        clues: Vec::new(),
        sources,
        series,
        sizes: rows_of(context, raw.sizes.as_ref(), lists::sizes),
        size_exceptions: rows_of(
            context,
            raw.size_exceptions.as_ref(),
            lists::size_exceptions,
        ),
        class_shares: rows_of(context, raw.class_shares.as_ref(), lists::class_shares),
        differences: rows_of(context, raw.differences.as_ref(), lists::differences),
        deratings: rows_of(context, deratings.as_ref(), lists::deratings),
        joints: Joints::default(),
        print: Print::default(),
        thrust: Thrust::default(),
        site: SiteNotes::default(),
        assembly: Assembly::default(),
        jobs: Jobs::default(),
    };
    for (mut family, places) in families {
        let od = family_table(context, files, "od", &places.key, rows::OD);
        let classes = family_table(context, files, "classes", &places.key, rows::CLASSES);
        family.od = rows_of(context, od.as_ref(), rows::od_rows);
        family.classes = rows_of(context, classes.as_ref(), rows::class_rows);
        sources.families.push(family);
        raw.families.push(RawFamily {
            places,
            od,
            classes,
        });
    }
    for (mut clue, key) in clues {
        let table = clue_table(context, files, &clue, &key);
        clue.likelihoods =
            table.map_or_else(Vec::new, |table| clues::likelihoods(context, &clue, &table));
        sources.clues.push(clue);
    }
    strangers(context, files, &sources.clues);
    check::check(&mut context.report, &sources, &raw);
    sources
}

/// The typed rows of a table, or none where there is no table.
fn rows_of<'a, T>(
    context: &mut Context<'a>,
    table: Option<&Table<'a>>,
    rows: impl FnOnce(&mut Context<'a>, &Table<'a>) -> Vec<T>,
) -> Vec<T> {
    table.map_or_else(Vec::new, |table| rows(context, table))
}

fn document<'a>(
    context: &mut Context<'a>,
    files: &'a Files,
    name: &'static str,
) -> Option<Document<'a>> {
    let text = found(context, files, name)?;
    Document::parse(&mut context.report, name, text)
}

fn csv<'a>(
    context: &mut Context<'a>,
    files: &'a Files,
    name: &'static str,
    columns: &[&str],
) -> Option<Table<'a>> {
    let text = found(context, files, name)?;
    table(&mut context.report, name, text, columns)
}

fn found<'a>(context: &mut Context<'_>, files: &'a Files, name: &str) -> Option<&'a str> {
    let text = files.get(name);
    if text.is_none() {
        context.report.add(
            Place::file(name),
            "file not found",
            "add it; README.md in this folder says what it holds",
        );
    }
    text.map(String::as_str)
}

/// A table of a family; without the file, the key of the family is at fault.
fn family_table<'a>(
    context: &mut Context<'a>,
    files: &'a Files,
    folder: &str,
    key: &Cell<'_>,
    columns: &'static [&'static str],
) -> Option<Table<'a>> {
    let path = format!("{folder}/{}.csv", key.text);
    let Some((name, text)) = files.get_key_value(&path) else {
        context.report.add(
            key.place,
            format!("file {path} not found"),
            "add it; with its header alone it holds no rows",
        );
        return None;
    };
    table(&mut context.report, name, text, columns)
}

/// The table of a clue; without the file, the key of the clue is at fault.
fn clue_table<'a>(
    context: &mut Context<'a>,
    files: &'a Files,
    clue: &Clue,
    key: &Cell<'_>,
) -> Option<Table<'a>> {
    let path = format!("clues/{}.csv", clue.key);
    let Some((name, text)) = files.get_key_value(&path) else {
        context.report.add(
            key.place,
            format!("file {path} not found"),
            "add it, with a column for each answer",
        );
        return None;
    };
    table(&mut context.report, name, text, &clues::columns(clue))
}

/// Reports files that nothing refers to: their rows would be missed in silence.
fn strangers(context: &mut Context<'_>, files: &Files, clues: &[Clue]) {
    for name in files.keys() {
        let source = Path::new(name)
            .extension()
            .is_some_and(|ext| ext == "toml" || ext == "csv");
        let is_clue = |clue: &Clue| *name == format!("clues/{}.csv", clue.key);
        if !source
            || FILES.contains(&name.as_str())
            || joints::FILES.contains(&name.as_str())
            || print::FILES.contains(&name.as_str())
            || thrust::FILES.contains(&name.as_str())
            || site::FILES.contains(&name.as_str())
            || assembly::FILES.contains(&name.as_str())
            || jobs::FILES.contains(&name.as_str())
            || clues.iter().any(is_clue)
        {
            continue;
        }
        let key = name
            .strip_prefix("od/")
            .or_else(|| name.strip_prefix("classes/"))
            .and_then(|file| file.strip_suffix(".csv"));
        let (message, help) = match key {
            Some(_) if !context.families.complete => continue,
            Some(key) if context.families.keys.iter().any(|known| known == key) => continue,
            Some(key) => (
                format!("no family has the key \"{key}\""),
                "add the family to families.toml or rename the file",
            ),
            None => (
                "unknown file".to_owned(),
                "remove it; README.md in this folder lists the files",
            ),
        };
        context.report.add(Place::file(name), message, help);
    }
}
