//! Shows what the built-in tables know of a family or a size.

use std::fmt::Write;

use anyhow::{Result, bail};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use springline_compiler::notes::{Cited, ClassNote, DifferenceNote, Notes, OdNote};
use springline_core::image::{Grade, Image};
use springline_tables::{IMAGE, NOTES};

use crate::Said;
use crate::format;
use crate::parse::Unit;

/// What is shown of one family or size.
struct Shown<'a> {
    notes: &'a Notes,
    name: String,
    od: Vec<&'a OdNote>,
    classes: Vec<&'a ClassNote>,
    differences: Vec<&'a DifferenceNote>,
}

/// Shows a family, or one size of it.
pub(crate) fn run(family: &str, size: Option<&str>, as_json: bool, unit: Unit) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let index = usize::from(crate::family::find(&image, &notes, family)?);
    let size = size.map(format::spelled);
    let of = |at: u8, nominal: &str| {
        usize::from(at) == index
            && size
                .as_ref()
                .is_none_or(|size| size.eq_ignore_ascii_case(nominal))
    };
    let od: Vec<&OdNote> = notes
        .od
        .iter()
        .filter(|n| of(n.family, &n.nominal))
        .collect();
    if od.is_empty() {
        let mut sizes: Vec<&str> = Vec::new();
        for note in notes.od.iter().filter(|n| usize::from(n.family) == index) {
            if !sizes.contains(&note.nominal.as_str()) {
                sizes.push(&note.nominal);
            }
        }
        bail!(
            "{family} has no size \"{}\"\n  try one of: {}",
            size.as_deref().unwrap_or(""),
            sizes.join(", ")
        );
    }
    let shown = Shown {
        name: image
            .families()
            .nth(index)
            .map_or(String::new(), |f| image.packed_text(f.name).to_owned()),
        od,
        classes: notes
            .classes
            .iter()
            .filter(|n| of(n.family, &n.nominal))
            .collect(),
        differences: notes
            .differences
            .iter()
            .filter(|n| of(n.family, &n.row[0]))
            .collect(),
        notes: &notes,
    };
    let text = if as_json {
        shown.json(family)
    } else {
        shown.text(unit)
    };
    Ok(Said { text, no: false })
}

fn grade(code: u8) -> &'static str {
    Grade::from_code(code).map_or("not graded", Grade::key)
}

impl Shown<'_> {
    fn keys(&self, sources: &[u16]) -> Vec<&str> {
        sources
            .iter()
            .map(|at| {
                self.notes
                    .sources
                    .get(usize::from(*at))
                    .map_or("?", |s| s.key.as_str())
            })
            .collect()
    }

    fn cited(&self, cited: &Cited) -> String {
        format!(
            "[{}; {}]",
            self.keys(&cited.sources).join(", "),
            grade(cited.grade)
        )
    }

    fn text(&self, unit: Unit) -> String {
        let mut out = format!("{}\n", self.name);
        let length = |counts: i64| format::length(counts, unit);
        for note in &self.od {
            let _ = write!(out, "\n{}", note.nominal);
            for part in [&note.variant, &note.series, &note.standard] {
                if !part.is_empty() {
                    let _ = write!(out, ", {part}");
                }
            }
            let _ = writeln!(
                out,
                "\n  OD            {} {}",
                length(note.od.0),
                self.cited(&note.od.1)
            );
            match &note.tolerance {
                Some((plus, minus, cited)) => {
                    let sides = format!("+{} -{}", length(*plus), length(*minus));
                    let _ = writeln!(out, "  tolerance     {sides} {}", self.cited(cited));
                }
                None => out.push_str("  tolerance     not known, so the band is widened\n"),
            }
            if let Some((allowance, cited)) = &note.out_of_round {
                let allowance = length(*allowance);
                let _ = writeln!(out, "  out of round  +-{allowance} {}", self.cited(cited));
            }
            let here = self.classes.iter().filter(|class| {
                class.nominal == note.nominal
                    && class.variant == note.variant
                    && class.series == note.series
            });
            for class in here {
                let _ = write!(out, "  {:<13}", class.class);
                if let Some((wall, cited)) = &class.wall {
                    let kind = if class.least { "min" } else { "nominal" };
                    let _ = write!(out, " wall {} {kind} {}", length(*wall), self.cited(cited));
                }
                if let Some((psi, cited)) = &class.psi {
                    let _ = write!(out, " {psi} psi {}", self.cited(cited));
                }
                if let Some(exception) = &class.exception {
                    let _ = write!(out, " ({exception})");
                }
                out.push('\n');
            }
        }
        for difference in &self.differences {
            let [kept, other] = &difference.values;
            let _ = writeln!(
                out,
                "\nsources differ on {} of {}: kept {kept} [{}], other {other} [{}]: {}",
                difference.field,
                difference
                    .row
                    .iter()
                    .filter(|part| !part.is_empty())
                    .cloned()
                    .collect::<Vec<_>>()
                    .join(" "),
                self.keys(&difference.sources[0]).join(", "),
                self.keys(&difference.sources[1]).join(", "),
                difference.reason
            );
        }
        out.push_str("\nSources\n");
        for (index, source) in self.notes.sources.iter().enumerate() {
            if self.uses(index) {
                let _ = writeln!(
                    out,
                    "  {}: {} ({}; {})",
                    source.key, source.title, source.kind, source.place
                );
            }
        }
        out
    }

    /// Whether anything shown stands on a source.
    fn uses(&self, index: usize) -> bool {
        let has = |sources: &[u16]| sources.iter().any(|at| usize::from(*at) == index);
        self.od.iter().any(|note| {
            has(&note.od.1.sources)
                || note
                    .tolerance
                    .as_ref()
                    .is_some_and(|(_, _, cited)| has(&cited.sources))
                || note
                    .out_of_round
                    .as_ref()
                    .is_some_and(|(_, cited)| has(&cited.sources))
        }) || self.classes.iter().any(|note| {
            note.wall
                .as_ref()
                .is_some_and(|(_, cited)| has(&cited.sources))
                || note
                    .psi
                    .as_ref()
                    .is_some_and(|(_, cited)| has(&cited.sources))
        }) || self
            .differences
            .iter()
            .any(|note| note.sources.iter().any(|list| has(list)))
    }

    fn datum(&self, value: &Value, cited: &Cited) -> Value {
        json!({ "value": value, "sources": self.keys(&cited.sources), "grade": grade(cited.grade) })
    }

    fn json(&self, family: &str) -> String {
        let inches = |counts: i64| json!(format::inches(counts).parse::<f64>().ok());
        let od: Vec<Value> = self
            .od
            .iter()
            .map(|note| {
                json!({
                    "nominal": note.nominal, "variant": note.variant, "series": note.series,
                    "standard": note.standard,
                    "od_in": self.datum(&inches(note.od.0), &note.od.1),
                    "plus_in": note.tolerance.as_ref().map(|(plus, _, c)| self.datum(&inches(*plus), c)),
                    "minus_in": note.tolerance.as_ref().map(|(_, minus, c)| self.datum(&inches(*minus), c)),
                    "out_of_round_in": note.out_of_round.as_ref().map(|(v, c)| self.datum(&inches(*v), c)),
                })
            })
            .collect();
        let classes: Vec<Value> = self
            .classes
            .iter()
            .map(|note| {
                json!({
                    "nominal": note.nominal, "variant": note.variant, "series": note.series,
                    "class": note.class, "least_wall": note.least, "exception": note.exception,
                    "wall_in": note.wall.as_ref().map(|(wall, c)| self.datum(&inches(*wall), c)),
                    "psi": note.psi.as_ref().map(|(psi, c)| self.datum(&json!(psi), c)),
                })
            })
            .collect();
        let differences: Vec<Value> = self
            .differences
            .iter()
            .map(|note| {
                let [nominal, variant, series, class] = &note.row;
                json!({
                    "nominal": nominal, "variant": variant, "series": series, "class": class,
                    "field": note.field, "reason": note.reason,
                    "kept": { "value": note.values[0], "sources": self.keys(&note.sources[0]) },
                    "other": { "value": note.values[1], "sources": self.keys(&note.sources[1]) },
                })
            })
            .collect();
        let sources: Vec<Value> = self
            .notes
            .sources
            .iter()
            .enumerate()
            .filter(|(index, _)| self.uses(*index))
            .map(|(_, source)| {
                json!({
                    "key": source.key, "title": source.title, "kind": source.kind,
                    "place": source.place,
                })
            })
            .collect();
        let value = json!({
            "schema": "springline-tables-show/1", "family": family, "name": self.name,
            "od": od, "classes": classes, "differences": differences, "sources": sources,
        });
        format!("{value:#}\n")
    }
}
