//! Compiles a folder of sources and reports, or says what the built-in tables hold.

use std::fmt::Write;
use std::path::Path;

use anyhow::{Result, bail};
use serde_json::json;
use sha2::{Digest, Sha256};
use springline_compiler::{compile, hex};
use springline_core::image::{Image, directory};
use springline_tables::{IMAGE, NOTES};

use crate::Said;

/// Says what the built-in tables hold: they were compiled without a mistake, or this command would not exist.
pub(crate) fn built_in(as_json: bool) -> Result<Said> {
    Image::new(IMAGE)?;
    let tables = Tables {
        image: IMAGE,
        notes: NOTES.len(),
        digest: Sha256::digest(IMAGE).into(),
        folder: None,
    };
    Ok(Said {
        text: tables.say(as_json),
        no: false,
    })
}

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
            let tables = Tables {
                image: &compiled.image,
                notes: compiled.notes.len(),
                digest: compiled.digest,
                folder: Some(folder),
            };
            Ok(Said {
                text: tables.say(as_json),
                no: false,
            })
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
                let value = json!({
                    "schema": "springline-tables-check/1", "built_in": false, "mistakes": list,
                });
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
    directory(image)
        .map(|(name, entry)| (name, entry.count, entry.count * u32::from(entry.record)))
        .collect()
}

/// Tables without a mistake.
struct Tables<'a> {
    image: &'a [u8],
    /// Bytes of the notes beside it.
    notes: usize,
    digest: [u8; 32],
    /// Where they were compiled from; none for those of this command.
    folder: Option<&'a Path>,
}

impl Tables<'_> {
    fn say(&self, as_json: bool) -> String {
        if as_json { self.json() } else { self.text() }
    }

    fn text(&self) -> String {
        let mut text = match self.folder {
            Some(folder) => format!("no mistakes in {}\n", folder.display()),
            None => "built-in tables\n".to_owned(),
        };
        for (name, count, bytes) in sections(self.image) {
            let _ = writeln!(text, "  {name:<22}{count:>6} {bytes:>7} bytes");
        }
        let _ = writeln!(
            text,
            "image {} bytes, notes {} bytes",
            self.image.len(),
            self.notes
        );
        let _ = writeln!(text, "digest {}", hex(&self.digest));
        if self.folder.is_none() {
            text.push_str("to check sources: springline tables check FOLDER\n");
        }
        text
    }

    fn json(&self) -> String {
        let list: Vec<_> = sections(self.image)
            .into_iter()
            .map(|(name, count, bytes)| json!({ "name": name, "records": count, "bytes": bytes }))
            .collect();
        let value = json!({
            "schema": "springline-tables-check/1",
            "built_in": self.folder.is_none(),
            "mistakes": [],
            "sections": list,
            "image_bytes": self.image.len(),
            "notes_bytes": self.notes,
            "digest": hex(&self.digest),
        });
        format!("{value:#}\n")
    }
}
