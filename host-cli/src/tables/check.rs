//! Compiles a folder of sources and reports.

use std::fmt::Write;
use std::path::Path;

use anyhow::{Result, bail};
use serde_json::json;
use springline_compiler::{Compiled, compile, hex};
use springline_core::image::layout::{ENVELOPE, section};
use springline_core::image::record::Header;
use springline_core::image::{Image, Section};

use crate::Said;

/// What each section holds.
const NAMES: [(u16, &str); 11] = [
    (section::TEXT, "texts"),
    (section::SETTINGS, "settings"),
    (section::INSTRUMENTS, "instruments"),
    (section::SYSTEMS, "OD systems"),
    (section::FAMILIES, "families"),
    (section::LAWS, "squash laws"),
    (section::SIZES, "nominal sizes"),
    (section::LABELS, "variants and classes"),
    (section::SOURCES, "source keys"),
    (section::ROWS, "sizes of families"),
    (section::CLASSES, "wall classes"),
];

/// Compiles the sources and says what came of it.
pub(crate) fn run(folder: &Path, as_json: bool) -> Result<Said> {
    if !folder.is_dir() {
        bail!(
            "{} is not a folder\n  try: springline tables check tables/sources",
            folder.display()
        );
    }
    match compile(folder) {
        Ok(compiled) => {
            Image::new(&compiled.image)?;
            let text = if as_json {
                summary_json(&compiled)
            } else {
                summary(&compiled)
            };
            Ok(Said { text, no: false })
        }
        Err(found) => {
            let text = if as_json {
                let list: Vec<_> = found
                    .iter()
                    .map(|d| {
                        json!({
                            "file": d.file, "line": d.line, "column": d.column,
                            "message": d.message, "help": d.help,
                        })
                    })
                    .collect();
                let value = json!({ "schema": "springline-tables-check/1", "mistakes": list });
                format!("{value:#}\n")
            } else {
                let mut text = String::new();
                for diagnostic in &found {
                    let _ = writeln!(text, "{diagnostic}\n");
                }
                let plural = if found.len() == 1 {
                    "mistake"
                } else {
                    "mistakes"
                };
                let _ = writeln!(text, "{} {plural} in {}", found.len(), folder.display());
                text
            };
            Ok(Said { text, no: true })
        }
    }
}

/// Name, records and bytes of each section.
fn sections(image: &[u8]) -> Vec<(&'static str, u32, u32)> {
    let body = image.get(ENVELOPE..).unwrap_or(&[]);
    let Some((header, rest)) = body.split_first_chunk::<{ Header::SIZE }>() else {
        return Vec::new();
    };
    let count = usize::from(Header::from_bytes(header).sections);
    let (directory, _) = rest.as_chunks::<{ Section::SIZE }>();
    directory
        .iter()
        .take(count)
        .map(|bytes| {
            let entry = Section::from_bytes(bytes);
            let name = NAMES.iter().find(|(id, _)| *id == entry.id);
            (
                name.map_or("unknown", |(_, name)| name),
                entry.count,
                entry.count * u32::from(entry.record),
            )
        })
        .collect()
}

fn summary(compiled: &Compiled) -> String {
    let mut text = String::from("no mistakes\n");
    for (name, count, bytes) in sections(&compiled.image) {
        let _ = writeln!(text, "  {name:<22}{count:>6} {bytes:>7} bytes");
    }
    let _ = writeln!(
        text,
        "image {} bytes, notes {} bytes",
        compiled.image.len(),
        compiled.notes.len()
    );
    let _ = writeln!(text, "digest {}", hex(&compiled.digest));
    text
}

fn summary_json(compiled: &Compiled) -> String {
    let list: Vec<_> = sections(&compiled.image)
        .into_iter()
        .map(|(name, count, bytes)| json!({ "name": name, "records": count, "bytes": bytes }))
        .collect();
    let value = json!({
        "schema": "springline-tables-check/1",
        "mistakes": [],
        "sections": list,
        "image_bytes": compiled.image.len(),
        "notes_bytes": compiled.notes.len(),
        "digest": hex(&compiled.digest),
    });
    format!("{value:#}\n")
}
