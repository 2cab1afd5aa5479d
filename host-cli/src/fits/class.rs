//! A class as it is typed: as the tables spell it, or by the pressure that an old or a new edition prints for it.

use anyhow::{Result, bail};
use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image, Material, Row};

use super::known::size;
use crate::cli::FitsArgs;
use crate::format;

/// A class that was told.
pub(crate) struct Named {
    /// As the tables spell it.
    pub(super) label: String,
    /// What was typed, where it was a pressure.
    pub(crate) printed: Option<String>,
    /// Pressures that it is printed with, psi, that of today first, and whether each is recalled.
    pub(super) psi: Vec<(u16, bool)>,
    /// Whether that is at 73 F.
    plastic: bool,
    /// Other pipe of this nominal size on which that pressure is printed.
    pub(crate) also: Vec<String>,
    /// Iron has classes of that name.
    pub(crate) iron: bool,
}

/// What stands before a pressure.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Before {
    /// `CL`, as old editions print it.
    Class,
    /// `PC`, as those of today do.
    Pressure,
    /// Nothing.
    Nothing,
}

impl Named {
    /// The pressure that was typed as it is printed, psi.
    pub(crate) fn printed_psi(&self) -> Option<u16> {
        let (_, psi) = self.printed.as_deref().and_then(pressure)?;
        Some(psi)
    }

    /// `CL150 old = DR 18 = 235 psi at 73 F`; nothing where no pressure is known.
    pub(super) fn words(&self) -> String {
        let Some(((today, recalled), older)) = self.psi.split_first() else {
            return String::new();
        };
        let at = if self.plastic { " at 73 F" } else { "" };
        let memory = if *recalled { ", from memory" } else { "" };
        let now = format!("{today} psi{at}{memory}");
        let typed = self.printed.as_deref().and_then(pressure);
        match (&self.printed, typed, older) {
            (Some(printed), Some((_, psi)), _) if psi != *today => {
                format!("{printed} old = {} = {now}", self.label)
            }
            (Some(printed), _, _) => format!("{printed} = {} = {now}", self.label),
            (None, _, []) => now,
            (None, _, older) => {
                let older: Vec<String> = older.iter().map(|(psi, _)| format!("CL{psi}")).collect();
                format!("{now}; {} in old print", older.join(", "))
            }
        }
    }
}

/// The row and the class that are meant.
pub(super) fn find(
    image: &Image<'_>,
    notes: &Notes,
    args: &FitsArgs,
    (rows, class): (&[Row], &str),
) -> Result<(Row, Named)> {
    let asked = plain(class);
    for row in rows {
        let found = image
            .classes(row)
            .find(|one| plain(image.label(one.label)) == asked);
        if let Some(found) = found {
            let label = image.label(found.label);
            return Ok((*row, named(image, notes, row, label)));
        }
    }
    if let Some((before, psi)) = pressure(class)
        && let Some((row, label)) = by_pressure(image, notes, rows, before, psi)?
    {
        let mut named = named(image, notes, &row, &label);
        named.printed = Some(class.trim().to_owned());
        named.also = also(image, notes, &row, before, psi);
        let plastic = Material::from_code(image.family(row.family).material) == Some(Material::Pvc);
        named.iron = plastic && before == Before::Class;
        return Ok((row, named));
    }
    let mut known: Vec<&str> = Vec::new();
    for class in rows.iter().flat_map(|row| image.classes(row)) {
        let label = image.label(class.label);
        if !known.contains(&label) {
            known.push(label);
        }
    }
    let help = if known.is_empty() {
        String::from("leave --class out: the tables have none for this size")
    } else {
        known.join(", ")
    };
    let iron = rows.iter().any(|row| is_iron(image, row));
    let more = match pressure(class) {
        Some((Before::Class, psi)) if iron => {
            format!("\n  class {psi} on iron is no class {psi} of C900: it may be a flange's")
        }
        _ => String::new(),
    };
    bail!(
        "no class \"{class}\" of {} {}\n  try one of: {help}{more}",
        args.family,
        args.size
    );
}

/// Letters and digits alone.
fn plain(text: &str) -> String {
    let kept = text
        .chars()
        .filter(|c| c.is_ascii_alphanumeric() || *c == '.');
    kept.collect::<String>().to_ascii_lowercase()
}

/// `CL150`, `class 150`, `PC 235`, `200 psi`.
fn pressure(text: &str) -> Option<(Before, u16)> {
    let text = plain(text);
    let (text, unit) = match text.strip_suffix("psi") {
        Some(text) => (text, true),
        None => (text.as_str(), false),
    };
    let (word, digits) = text.split_at(text.find(|c: char| c.is_ascii_digit())?);
    let before = match word {
        "cl" | "class" => Before::Class,
        "pc" | "pr" => Before::Pressure,
        "" if unit => Before::Pressure,
        "" => Before::Nothing,
        _ => return None,
    };
    let psi = digits.parse().ok().filter(|psi| (50..=500).contains(psi))?;
    Some((before, psi))
}

/// A class with all the pressures that it is printed with.
fn named(image: &Image<'_>, notes: &Notes, row: &Row, label: &str) -> Named {
    let material = Material::from_code(image.family(row.family).material);
    Named {
        label: label.to_owned(),
        printed: None,
        psi: pressures(image, notes, row, label),
        plastic: matches!(material, Some(Material::Pvc | Material::Pe)),
        also: Vec::new(),
        iron: false,
    }
}

/// Pressures of a class, that of today first.
fn pressures(image: &Image<'_>, notes: &Notes, row: &Row, label: &str) -> Vec<(u16, bool)> {
    let nominal = image.size(row.size);
    let of = notes
        .classes
        .iter()
        .filter(|one| one.family == row.family && one.nominal == nominal && one.class == label);
    let mut all: Vec<(u16, bool)> = Vec::new();
    for (psi, cited) in of.filter_map(|one| one.psi.as_ref()) {
        let recalled = Grade::from_code(cited.grade) == Some(Grade::Memory);
        if let Ok(psi) = u16::try_from(*psi)
            && !all.iter().any(|(held, _)| *held == psi)
        {
            all.push((psi, recalled));
        }
    }
    all
}

/// The class that a pressure is printed for: by `CL` that of an old edition before that of today.
fn by_pressure(
    image: &Image<'_>,
    notes: &Notes,
    rows: &[Row],
    before: Before,
    psi: u16,
) -> Result<Option<(Row, String)>> {
    let (mut today, mut old) = (None, None);
    for row in rows {
        let mut seen: Vec<&str> = Vec::new();
        for class in image.classes(row) {
            let label = image.label(class.label);
            if seen.contains(&label) {
                continue;
            }
            seen.push(label);
            let all = pressures(image, notes, row, label);
            let at = all.iter().position(|(held, _)| *held == psi);
            let slot = match at {
                Some(0) => &mut today,
                Some(_) => &mut old,
                None if before != Before::Pressure && spans(label, psi) => &mut today,
                None => continue,
            };
            slot.get_or_insert_with(|| (*row, label.to_owned()));
        }
    }
    // A thickness class of iron is no pressure, and the pressure of one is printed PC.
    let ranged =
        |found: &Option<(Row, String)>| found.as_ref().is_some_and(|(_, label)| spans(label, psi));
    if before == Before::Class && rows.iter().any(|row| is_iron(image, row)) && !ranged(&today) {
        return Ok(None);
    }
    match (before, today, old) {
        (Before::Nothing, Some((_, today)), Some((_, old))) => bail!(
            "\"{psi}\" is {today} as it is printed today and {old} in old print\n  try: PC{psi} for the one, CL{psi} for the \
             other, or what else is printed"
        ),
        (Before::Class, today, old) => Ok(old.or(today)),
        (_, today, old) => Ok(today.or(old)),
    }
}

/// `Class 100-250` spans 150.
fn spans(label: &str, psi: u16) -> bool {
    let ends = label
        .strip_prefix("Class ")
        .and_then(|ends| ends.split_once('-'));
    ends.is_some_and(|(low, high)| {
        let end = |text: &str| text.parse::<u16>().ok();
        end(low).is_some_and(|low| low <= psi) && end(high).is_some_and(|high| psi <= high)
    })
}

fn is_iron(image: &Image<'_>, row: &Row) -> bool {
    Material::from_code(image.family(row.family).material) == Some(Material::Iron)
}

/// Other water pipe of that material and nominal size with this pressure in print, with its OD; by `CL` on old print first.
fn also(image: &Image<'_>, notes: &Notes, row: &Row, before: Before, psi: u16) -> Vec<String> {
    let nominal = image.size(row.size);
    let own = image.family(row.family);
    let mut told: Vec<String> = Vec::new();
    for (index, family) in (0u8..).zip(image.families()) {
        let alike = family.material == own.material && family.carries == own.carries;
        let of = |one: &Row| one.family == index && one.size == row.size;
        let Some(one) = image.rows_from(0).find(of) else {
            continue;
        };
        if index == row.family || !alike {
            continue;
        }
        let found = by_pressure(image, notes, &[one], before, psi);
        if let Ok(Some((one, label))) = found {
            told.push(format!(
                "{} {} {label}, OD {}",
                size(nominal),
                image.packed_text(family.name),
                format::inches(i64::from(one.od))
            ));
        }
    }
    told
}
