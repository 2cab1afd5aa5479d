//! What holds a buried pipe against thrust: soil rows, trench factors, words for soils, constants; and for a desk alone how
//! blocks bear, and what is said of them.

mod cells;
mod model;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use springline_core::image::SoilWord;

use self::cells::{PROCEDURES, figure, optional};
pub use self::model::{
    Bearing, BearingTable, BlockText, Constant, Origin, Soil, Thrust, Trench, Word,
};
use crate::diagnostic::Diagnostic;
use crate::joints::Reader;
use crate::model::Sources;
use crate::read::table::{Row, Table};

/// The files of the folder.
pub(crate) const FILES: [&str; 7] = [
    "thrust/soils.csv",
    "thrust/trenches.csv",
    "thrust/words.csv",
    "thrust/constants.csv",
    "thrust/bearing-tables.csv",
    "thrust/bearing.csv",
    "thrust/blocks.csv",
];

const SOILS: &[&str] = &[
    "procedure",
    "name",
    "friction_deg",
    "grip",
    "cohesion_psf",
    "adhesion",
    "weight_pcf",
    "trench",
    "source",
    "grade",
];
const TRENCHES: &[&str] = &[
    "key",
    "procedure",
    "light",
    "bedded",
    "granular",
    "compacted",
    "source",
    "grade",
];
const WORDS: &[&str] = &["word", "iron", "pvc", "source", "grade"];
const CONSTANTS: &[&str] = &["key", "value", "unit", "source", "grade"];
const TABLES: &[&str] = &[
    "table", "name", "factor", "use", "remark", "source", "grade",
];
const BEARINGS: &[&str] = &[
    "table", "soil", "words", "depth_ft", "psf", "source", "grade",
];
const BLOCKS: &[&str] = &["key", "text", "source", "grade"];

/// Every constant that there must be: its unit, and between what it must lie.
pub(crate) const KEYS: [(&str, &str, f64, f64); 11] = [
    ("safety", "times", 1.0, 10.0),
    ("wrapped", "times", 0.01, 1.0),
    ("concrete", "pcf", 63.0, 999.0),
    ("pvc", "pcf", 63.0, 999.0),
    ("iron", "pcf", 63.0, 999.0),
    ("steel", "pcf", 63.0, 999.0),
    ("cover", "ft", 0.1, 20.0),
    ("reach", "times", 0.1, 20.0),
    ("cure", "day", 0.1, 60.0),
    ("cure-least", "day", 0.1, 60.0),
    ("cure-fast", "h", 1.0, 1000.0),
];

/// A name, and a text that only a desk shows.
const NAME: usize = 40;
const LONG: usize = 160;
/// The word for no row.
const REFER: &str = "refer";

/// Reads and checks the thrust files among the files of a folder. The rest of the folder was read before, clean.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<Thrust, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let thrust = gather(&mut reader, files);
    let found = reader.finish();
    match thrust {
        Some(thrust) if found.is_empty() => Ok(thrust),
        _ => Err(found),
    }
}

fn gather<'a>(reader: &mut Reader<'a>, files: &'a BTreeMap<String, String>) -> Option<Thrust> {
    let columns = [SOILS, TRENCHES, WORDS, CONSTANTS, TABLES, BEARINGS, BLOCKS];
    let mut tables = Vec::new();
    for (file, columns) in FILES.into_iter().zip(columns) {
        tables.push(reader.table(files, file, columns));
    }
    let tables: Option<Vec<Table<'_>>> = tables.into_iter().collect();
    let [soils, trenches, words, constants, named, bearings, blocks] =
        <[Table<'_>; 7]>::try_from(tables?).ok()?;
    let mut thrust = Thrust {
        trenches: each(reader, &trenches, trench),
        ..Thrust::default()
    };
    // Without what they speak of, every row would be a mistake.
    if thrust.trenches.len() < trenches.rows.len() {
        return None;
    }
    thrust.soils = each(reader, &soils, |reader, row| {
        soil(reader, row, &thrust.trenches)
    });
    if thrust.soils.len() < soils.rows.len() {
        return None;
    }
    thrust.words = each(reader, &words, |reader, row| {
        word(reader, row, &thrust.soils)
    });
    thrust.constants = each(reader, &constants, constant);
    thrust.tables = each(reader, &named, bearing_table);
    if thrust.tables.len() < named.rows.len() || thrust.words.len() < words.rows.len() {
        return None;
    }
    thrust.bearings = each(reader, &bearings, |reader, row| {
        bearing(reader, row, &thrust)
    });
    thrust.blocks = each(reader, &blocks, |reader, row| {
        Some(BlockText {
            key: reader.key(&row["key"]),
            text: reader.needed(&row["text"], "text", LONG),
            origin: origin(reader, row)?,
        })
    });
    cells::whole(reader, &thrust, &soils, &constants, &named, &bearings);
    Some(thrust)
}

fn each<'a, T>(
    reader: &mut Reader<'a>,
    table: &Table<'a>,
    mut one: impl FnMut(&mut Reader<'a>, &Row<'a>) -> Option<T>,
) -> Vec<T> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(|row| one(reader, row)).collect()
}

fn origin(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Origin> {
    let (sources, grade) = reader.cited(row)?;
    Some(Origin { sources, grade })
}

fn trench(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Trench> {
    let key = reader.key(&row["key"]);
    let procedure = reader.word(&row["procedure"], "procedure", &PROCEDURES);
    let mut factors = [0.0; 4];
    for (factor, column) in factors
        .iter_mut()
        .zip(["light", "bedded", "granular", "compacted"])
    {
        *factor = optional(reader, &row[column], 0.01, 1.0)?;
    }
    if factors.iter().all(|factor| *factor == 0.0) {
        let place = row["light"].place;
        reader
            .report
            .add(place, "no trench factor", "fill one of them at least");
    }
    let origin = origin(reader, row)?;
    Some(Trench {
        key,
        procedure: procedure?,
        factors,
        origin,
    })
}

fn soil(reader: &mut Reader<'_>, row: &Row<'_>, trenches: &[Trench]) -> Option<Soil> {
    let procedure = reader.word(&row["procedure"], "procedure", &PROCEDURES);
    let name = reader.needed(&row["name"], "name", 16);
    let friction = figure(reader, &row["friction_deg"], 0.0, 44.0);
    let grip = figure(reader, &row["grip"], 0.0, 1.0);
    let cohesion = figure(reader, &row["cohesion_psf"], 0.0, 649.0);
    let adhesion = figure(reader, &row["adhesion"], 0.0, 1.0);
    let weight = figure(reader, &row["weight_pcf"], 63.0, 255.0);
    let cell = &row["trench"];
    let trench = trenches.iter().position(|one| one.key == cell.text);
    if trench.is_none() {
        reader.unknown(cell, "trench", trenches.iter().map(|one| one.key.as_str()));
    }
    let soil = Soil {
        procedure: procedure?,
        name,
        friction: friction?,
        grip: grip?,
        cohesion: cohesion?,
        adhesion: adhesion?,
        weight: weight?,
        trench: trench?,
        origin: origin(reader, row)?,
    };
    if trenches[soil.trench].procedure != soil.procedure {
        reader.report.add(
            cell.place,
            "the trench is of the other procedure",
            "name one of its own",
        );
    }
    if soil.friction * soil.grip + soil.cohesion * soil.adhesion <= 0.0 {
        reader.report.add(
            row["grip"].place,
            "nothing grips the pipe in this soil",
            "fill grip and friction, or adhesion and cohesion; soil that holds nothing is a word with \"refer\"",
        );
    }
    Some(soil)
}

fn word(reader: &mut Reader<'_>, row: &Row<'_>, soils: &[Soil]) -> Option<Word> {
    let word = reader.key(&row["word"]);
    let mut rows = [SoilWord::REFER; 2];
    for (to, (key, procedure)) in rows.iter_mut().zip(PROCEDURES) {
        let cell = &row[key];
        if cell.text == REFER {
            continue;
        }
        let own = |soil: &&Soil| soil.procedure == procedure;
        let mut all = soils.iter();
        if let Some(at) = all.position(|soil| own(&soil) && soil.name == cell.text) {
            *to = u8::try_from(at).unwrap_or(SoilWord::REFER);
        } else {
            let names = soils.iter().filter(own).map(|soil| soil.name.as_str());
            reader.unknown(cell, "soil", names.chain([REFER]));
            return None;
        }
    }
    Some(Word {
        word,
        rows,
        origin: origin(reader, row)?,
    })
}

fn constant(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Constant> {
    let (cell, unit) = (&row["key"], &row["unit"]);
    let Some(&(key, wants, low, high)) = KEYS.iter().find(|one| one.0 == cell.text) else {
        reader.unknown(cell, "constant", KEYS.iter().map(|one| one.0));
        return None;
    };
    if unit.text != wants {
        reader.report.add(
            unit.place,
            format!("{key} in \"{}\"", unit.text),
            format!("write it in {wants}"),
        );
    }
    Some(Constant {
        key: key.to_owned(),
        value: figure(reader, &row["value"], low, high)?,
        unit: unit.text.clone(),
        origin: origin(reader, row)?,
    })
}

fn bearing_table(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<BearingTable> {
    let default = reader.word(&row["use"], "use", &[("default", true), ("choice", false)]);
    Some(BearingTable {
        key: reader.key(&row["table"]),
        name: reader.needed(&row["name"], "name", NAME),
        factor: figure(reader, &row["factor"], 1.0, 10.0)?,
        default: default?,
        remark: reader.needed(&row["remark"], "remark", LONG),
        origin: origin(reader, row)?,
    })
}

fn bearing(reader: &mut Reader<'_>, row: &Row<'_>, thrust: &Thrust) -> Option<Bearing> {
    let cell = &row["table"];
    let table = thrust.tables.iter().position(|one| one.key == cell.text);
    if table.is_none() {
        reader.unknown(
            cell,
            "table",
            thrust.tables.iter().map(|one| one.key.as_str()),
        );
    }
    let mut words = Vec::new();
    for word in row["words"].text.split_whitespace() {
        let known = word == "unknown" || thrust.words.iter().any(|one| one.word == word);
        if !known {
            let names = thrust.words.iter().map(|one| one.word.as_str());
            reader.unknown(&row["words"], "word for a soil", names.chain(["unknown"]));
        }
        words.push(word.to_owned());
    }
    Some(Bearing {
        table: table?,
        soil: reader.needed(&row["soil"], "soil", NAME),
        words,
        depth: figure(reader, &row["depth_ft"], 0.5, 50.0)?,
        psf: figure(reader, &row["psf"], 1.0, 50_000.0)?,
        origin: origin(reader, row)?,
    })
}
