//! The proof that the rows of the matrix tile its space exactly once, and that the variants do so with the classes.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::model::{End, MatrixRow, Variant};
use super::reader::Reader;
use super::space::{Cell, Space, classes_of};
use crate::model::NominalSize;
use crate::read::table::Table;
use crate::report::Place;
use springline_core::joint::Form;

/// At most so many blocks of cells are named in one message.
const NAMED: usize = 5;
/// No row.
const NONE: u16 = u16::MAX;

/// The row of each cell, by the index of the cell.
pub(super) type Cover = Vec<u16>;

/// What the messages call things.
#[derive(Clone, Copy)]
pub(super) struct Named<'n> {
    pub(super) space: &'n Space,
    pub(super) variants: &'n [Variant],
    pub(super) ends: &'n [End],
}

/// Lays the rows over the space. Reports cells that two rows are about, rows that are about no cell and, when every row
/// could be read, cells that no row is about.
pub(super) fn tile(
    reader: &mut Reader<'_>,
    named: Named<'_>,
    table: &Table<'_>,
    rows: &[MatrixRow],
    complete: bool,
) -> Cover {
    let Named { space, .. } = named;
    let mut cover = vec![NONE; space.len()];
    let mut doubled: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, row) in rows.iter().enumerate() {
        let mark = u16::try_from(index).unwrap_or(NONE);
        let mut any = false;
        for cell in cells_of(space, row) {
            any = true;
            let held = cover[cell];
            if held == NONE {
                cover[cell] = mark;
            } else {
                doubled
                    .entry((usize::from(held), index))
                    .or_default()
                    .push(cell);
            }
        }
        if let (false, Some(cells)) = (any, table.on(row.line)) {
            reader.report.add(
                cells["sizes"].place,
                "no such pipe exists: the row is about no cell",
                "correct the sizes or the variants, or remove the row",
            );
        }
    }
    for ((first, second), cells) in &doubled {
        let Some(row) = table.on(rows[*second].line) else {
            continue;
        };
        reader.report.add(
            row["variants"].place,
            format!(
                "{} on line {} too: {}",
                count(cells.len(), "cell is", "cells are"),
                rows[*first].line,
                blocks(named, cells)
            ),
            "take the cells out of one of the two rows",
        );
    }
    let missing = |cell: &usize| cover[*cell] == NONE;
    let missing: Vec<usize> = (0..space.len()).filter(missing).collect();
    if complete && !missing.is_empty() {
        reader.report.add(
            Place::file(table.file),
            format!(
                "{} no row: {}",
                count(missing.len(), "cell has", "cells have"),
                blocks(named, &missing)
            ),
            "add rows for them; what cannot be joined is a \"no\" with its reason",
        );
    }
    cover
}

/// The indices of the cells that a row is about.
pub(super) fn cells_of(space: &Space, row: &MatrixRow) -> impl Iterator<Item = usize> {
    row.variants.iter().flat_map(move |variant| {
        let sizes = space.sizes(variant).iter().enumerate();
        let held = sizes.filter(|(_, size)| row.band.holds(**size));
        held.flat_map(move |(at, _)| {
            let forms = Form::ALL.iter().filter(|form| row.has_form(**form));
            forms.flat_map(move |form| {
                let cell = move |end| space.at(variant, at, *form, end);
                row.ends.iter().map(cell)
            })
        })
    })
}

fn count(count: usize, one: &str, many: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {many}")
    }
}

/// The first few cells, those alike but for the size together: `c900/dr18, belled, mj at 4, 6, 8`.
fn blocks(named: Named<'_>, cells: &[usize]) -> String {
    let mut blocks: Vec<((usize, Form, usize), Vec<NominalSize>)> = Vec::new();
    let mut wanted = cells.iter().copied().peekable();
    for (index, cell) in named.space.cells() {
        if wanted.next_if_eq(&index).is_none() {
            continue;
        }
        let Cell {
            variant,
            size,
            form,
            end,
        } = cell;
        let key = (variant, form, end);
        if let Some((_, sizes)) = blocks.iter_mut().find(|(held, _)| *held == key) {
            sizes.push(size);
        } else if blocks.len() < NAMED {
            blocks.push((key, vec![size]));
        }
    }
    let told: usize = blocks.iter().map(|(_, sizes)| sizes.len()).sum();
    let mut text = String::new();
    for ((variant, form, end), sizes) in blocks {
        let sizes: Vec<String> = sizes.iter().map(ToString::to_string).collect();
        let separator = if text.is_empty() { "" } else { "; " };
        let _ = write!(
            text,
            "{separator}{}, {}, {} at {}",
            named.variants[variant].key,
            form.key(),
            named.ends[end].key,
            sizes.join(", ")
        );
    }
    if told < cells.len() {
        let _ = write!(text, "; and {} more", cells.len() - told);
    }
    text
}

/// Checks that the variants of each family cover every class of every size exactly once.
pub(super) fn classes(reader: &mut Reader<'_>, variants: &[Variant], table: &Table<'_>) {
    // By family and class: the sizes that no variant covers, and the lines that cover a size a second time.
    let mut missing: BTreeMap<(usize, String), Vec<String>> = BTreeMap::new();
    let mut doubled: BTreeMap<(usize, usize, String), Vec<String>> = BTreeMap::new();
    for (index, family) in reader.sources.families.iter().enumerate() {
        let parts = || {
            let of = variants.iter().filter(|variant| variant.family == index);
            of.flat_map(|variant| &variant.parts)
        };
        for row in &family.od {
            let Some(size) = NominalSize::parse(&row.nominal) else {
                continue;
            };
            let classes: Vec<_> = classes_of(family, row).collect();
            for class in &classes {
                let mut lines = parts()
                    .filter(|part| part.covers(&class.class, size))
                    .map(|part| part.line);
                let first = lines.next();
                if first.is_none() {
                    let held = missing.entry((index, class.class.clone())).or_default();
                    held.push(row.nominal.clone());
                }
                for (first, line) in first.into_iter().zip(lines) {
                    let key = (line, first, class.class.clone());
                    doubled.entry(key).or_default().push(row.nominal.clone());
                }
            }
            if classes.is_empty() && !parts().any(|part| part.band.holds(size)) {
                let held = missing.entry((index, "pipe".to_owned())).or_default();
                held.push(row.nominal.clone());
            }
        }
    }
    for ((family, class), mut sizes) in missing {
        sizes.dedup();
        let key = &reader.sources.families[family].key;
        let message = format!("no variant covers {key} {class} at {}", sizes.join(", "));
        let help = "add the class to a variant of the family";
        reader.report.add(Place::file(table.file), message, help);
    }
    for ((line, first, class), mut sizes) in doubled {
        sizes.dedup();
        if let Some(row) = table.on(line) {
            let message = format!("{class} at {} is on line {first} too", sizes.join(", "));
            let help = "a class is of one variant at each size";
            reader.report.add(row["classes"].place, message, help);
        }
    }
}
