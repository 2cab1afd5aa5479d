//! `ends.csv`, `variants.csv` and `sets.csv`: what the matrix speaks of.

use super::bits::Bits;
use super::model::{By, End, EndForm, Variant, VariantPart};
use super::reader::{LONG, NAME, Reader, split};
use super::sets::Names;
use crate::model::Sources;
use crate::read::table::{Row, Table};
use crate::report::Cell;
use springline_core::joint::{Form, Role};

/// Columns of `ends.csv`.
pub(super) const ENDS: &[&str] = &[
    "key", "name", "role", "jobs", "by", "or", "form", "dry", "psi", "gasket", "pack", "tools",
    "source", "grade",
];
/// Columns of `variants.csv`.
pub(super) const VARIANTS: &[&str] = &[
    "family", "variant", "name", "classes", "sizes", "source", "grade",
];
/// Columns of `sets.csv`.
pub(super) const SETS: &[&str] = &["set", "of", "members"];

/// The rows of `ends.csv`.
pub(super) fn ends(reader: &mut Reader<'_>, table: &Table<'_>) -> Vec<End> {
    let mut ends: Vec<End> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let key = reader.key(&row["key"]);
        reader.unique(&row["key"], ends.iter().any(|end| end.key == key));
        let name = reader.needed(&row["name"], "name", NAME);
        let role = reader.word(&row["role"], "role", Role::WORDS);
        let mut jobs = [false; 3];
        if !row["jobs"].is_empty() {
            for word in split(&row["jobs"], ' ') {
                let words = [("coupling", 0), ("saddle", 1), ("tap", 2)];
                if let Some(at) = reader.word::<usize>(&word, "job", &words) {
                    jobs[at] = true;
                }
            }
        }
        let by = by(reader, &row["by"]);
        let words = [
            ("no", (false, false)),
            ("yes", (true, false)),
            ("cure", (true, true)),
        ];
        let dry = reader.word(&row["dry"], "word", &words);
        let form = if row["form"].is_empty() {
            Some(EndForm::Other)
        } else {
            let words = [("bell", EndForm::Bell), ("spigot", EndForm::Spigot)];
            reader.word(&row["form"], "form", &words)
        };
        let psi = psi(reader, &row["psi"]);
        let gasket = reader.text(&row["gasket"], "gasket", LONG);
        let pack = reader.text(&row["pack"], "pack", LONG);
        let tools = reader.text(&row["tools"], "tools", LONG);
        let cited = reader.cited(row);
        let (Some(role), Some(by), Some((sources, grade))) = (role, by, cited) else {
            continue;
        };
        let [coupling, saddle, tap] = jobs;
        ends.push(End {
            key,
            name,
            role,
            coupling,
            saddle,
            tap,
            by,
            or: None,
            dry: dry.is_some_and(|(dry, _)| dry),
            cures: dry.is_some_and(|(_, cures)| cures),
            form: form.unwrap_or_default(),
            psi,
            gasket,
            pack,
            tools,
            sources,
            grade,
        });
    }
    most(reader, table, ends.len());
    for row in table.rows.iter().filter(|row| row.whole) {
        let cell = &row["or"];
        let at = |key: &str| ends.iter().position(|end: &End| end.key == key);
        let spigot = row["form"].text == "spigot";
        if cell.is_empty() && !spigot {
            continue;
        }
        match (at(&row["key"].text), at(&cell.text)) {
            (Some(end), Some(or)) if end != or => ends[end].or = Some(or),
            (None, _) => {}
            _ => {
                let known = ends.iter().map(|end| end.key.as_str());
                reader.unknown(cell, "other joint end", known);
            }
        }
    }
    ends
}

/// What an end is asked for by.
fn by(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<By> {
    let words = [
        ("range", By::Range),
        ("flange", By::Flange),
        ("thread", By::Thread),
        ("size", By::Size),
    ];
    let word = words.iter().find(|(word, _)| *word == cell.text);
    match word {
        Some((_, by)) => Some(*by),
        None => reader.system(cell).map(By::System),
    }
}

/// A limit in psi, where one is known.
fn psi(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<u16> {
    if cell.is_empty() {
        return None;
    }
    let psi = cell.text.parse::<u16>().ok().filter(|psi| *psi > 0);
    if psi.is_none() {
        let message = format!("\"{}\" is no pressure limit", cell.text);
        reader
            .report
            .add(cell.place, message, "write psi, or leave it empty");
    }
    psi
}

/// The rows of `variants.csv`; several rows of one key are one variant.
pub(super) fn variants(reader: &mut Reader<'_>, table: &Table<'_>) -> Vec<Variant> {
    let mut variants: Vec<Variant> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let family = reader.family(&row["family"]);
        let key = format!("{}/{}", row["family"].text, reader.key(&row["variant"]));
        let name = reader.needed(&row["name"], "name", NAME);
        let band = reader.band(&row["sizes"]);
        reader.cited(row);
        let (Some(family), Some(band)) = (family, band) else {
            continue;
        };
        let part = VariantPart {
            classes: classes(reader, row, family),
            band,
            line: row.line,
        };
        let Some(held) = variants.iter_mut().find(|held| held.key == key) else {
            variants.push(Variant {
                family,
                key,
                name,
                parts: vec![part],
            });
            continue;
        };
        if held.name != name {
            reader.report.add(
                row["name"].place,
                format!("{key} has the name \"{}\" above", held.name),
                "rows of one variant have one name",
            );
        }
        held.parts.push(part);
    }
    most(reader, table, variants.len());
    variants
}

/// The classes of a cell; `None` for every one.
fn classes(reader: &mut Reader<'_>, row: &Row<'_>, family: usize) -> Option<Vec<String>> {
    let cell = &row["classes"];
    if cell.text == "*" {
        return None;
    }
    let mut labels: Vec<&str> = Vec::new();
    for class in &reader.sources.families[family].classes {
        if !labels.contains(&class.class.as_str()) {
            labels.push(&class.class);
        }
    }
    let parts = split(cell, ';');
    for part in &parts {
        if !labels.contains(&part.text.as_str()) {
            reader.unknown(part, "class", labels.iter().copied());
        }
    }
    Some(parts.into_iter().map(|part| part.text).collect())
}

fn most(reader: &mut Reader<'_>, table: &Table<'_>, count: usize) {
    if let (true, Some(row)) = (count > Bits::MOST, table.rows.get(Bits::MOST)) {
        reader.report.add(
            crate::report::Place {
                column: 1,
                line: row.line,
                ..crate::report::Place::file(table.file)
            },
            format!("{count} of them, and a set holds {}", Bits::MOST),
            "join what no verdict tells apart",
        );
    }
}

/// Pipe variants, and `FAMILY/*` for those of each family.
fn named(sources: &Sources, variants: &[Variant]) -> Names {
    let keys = variants.iter().map(|variant| variant.key.clone());
    let mut names = Names::new("variant", keys.collect());
    for (index, family) in sources.families.iter().enumerate() {
        let of = |(at, variant): (usize, &Variant)| (variant.family == index).then_some(at);
        let of_family = variants.iter().enumerate().filter_map(of);
        let set = of_family.fold(Bits::default(), |set, at| set.with(Bits::one(at)));
        names.name(&format!("{}/*", family.key), set);
    }
    names
}

/// The pipe variants of sources whose joints were read.
pub(crate) fn variant_names(sources: &Sources) -> Names {
    named(sources, &sources.joints.variants)
}

/// The joint ends of sources whose joints were read, without the names of sets.
pub(crate) fn end_names(sources: &Sources) -> Names {
    let ends = sources.joints.ends.iter();
    Names::new("joint end", ends.map(|end| end.key.clone()).collect())
}

/// What sets may hold: variants, end forms and joint ends.
#[derive(Clone, Debug)]
pub(super) struct Dictionary {
    pub(super) variants: Names,
    pub(super) forms: Names,
    pub(super) ends: Names,
}

impl Dictionary {
    /// The things themselves, and `FAMILY/*` for the variants of each family.
    pub(super) fn new(reader: &Reader<'_>, variants: &[Variant], ends: &[End]) -> Self {
        let names = named(reader.sources, variants);
        let forms = Form::ALL.iter().map(|form| form.key().to_owned());
        Self {
            variants: names,
            forms: Names::new("end form", forms.collect()),
            ends: Names::new(
                "joint end",
                ends.iter().map(|end| end.key.clone()).collect(),
            ),
        }
    }

    /// The rows of `sets.csv`, which may use the sets above them.
    pub(super) fn sets(&mut self, reader: &mut Reader<'_>, table: &Table<'_>) {
        for row in table.rows.iter().filter(|row| row.whole) {
            let name = reader.key(&row["set"]);
            let words = [("variants", 0), ("forms", 1), ("ends", 2)];
            let names = match reader.word::<u8>(&row["of"], "kind of set", &words) {
                Some(0) => &mut self.variants,
                Some(1) => &mut self.forms,
                Some(_) => &mut self.ends,
                None => continue,
            };
            // An unreadable set still takes its name, so that its use is no second mistake.
            let set = names.read(reader, &row["members"]).unwrap_or_default();
            if !names.name(&name, set) {
                reader.unique(&row["set"], true);
            }
        }
    }
}
