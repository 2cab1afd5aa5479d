//! Which pipe is meant: a family and a size, or an OD that was measured on it.

use anyhow::{Result, anyhow, bail};
use springline_compiler::notes::Notes;
use springline_core::image::{Image, Material, Row, Set};
use springline_core::joint::{Pipe, is_stop};

use super::class::{self, Named};
use crate::cli::FitsArgs;
use crate::parse::{self, Limits, Unit};
use crate::{family, format};

/// A pipe that the tables know.
pub(crate) struct Known {
    pub(crate) family: String,
    pub(crate) name: String,
    /// What people call its OD system.
    pub(crate) system: String,
    /// Its nominal size as the tables spell it; as it was typed where nothing is put on it.
    pub(crate) nominal: String,
    /// Class as printed, where it was told.
    pub(crate) class: Option<String>,
    /// The same with what is printed for it.
    pub(crate) told: Option<Named>,
    /// Classes that the tables know of this size.
    pub(crate) classes: Vec<String>,
    /// The OD that was measured, where one was told.
    pub(crate) measured: Option<i64>,
    pub(crate) pipe: Pipe,
    /// Cracks run in what it is made of.
    pub(crate) cracks: bool,
    /// Somebody could be hurt.
    pub(crate) stop: bool,
}

impl Known {
    /// The pipe of the arguments.
    pub(crate) fn find(image: &Image<'_>, notes: &Notes, args: &FitsArgs) -> Result<Self> {
        let at = family::find(image, notes, &args.family)?;
        // What is said and refused below names the key, however it was typed.
        let args = &FitsArgs {
            family: image.packed_text(image.family(at).key).to_owned(),
            ..args.clone()
        };
        let rows: Vec<Row> = image.rows_from(0).filter(|row| row.family == at).collect();
        let any = rows.first().copied();
        let any = any.ok_or_else(|| anyhow!("{} has no size in the tables", args.family))?;
        // Of pipe that nothing is put on no size is looked for, so that none is shown.
        let whole = Pipe {
            row: any,
            variants: image.variants_of(&any),
            form: args.end.into(),
        };
        if springline_core::joint::refusal(image, &whole).is_some() {
            let mut known = Self::of(image, args, whole, None);
            known.nominal = format::spelled(&args.size);
            known.classes.clear();
            return Ok(known);
        }
        let (rows, measured) = sized(image, args, &rows)?;
        let (row, class) = classed(image, notes, args, &rows)?;
        let variants = match &class {
            Some(told) => {
                let of = image.classes(&row);
                let named = of.filter(|class| image.label(class.label) == told.label);
                named.fold(Set::default(), |set, class| set.with(class.variant))
            }
            None => image.variants_of(&row),
        };
        let pipe = Pipe {
            row,
            variants,
            form: args.end.into(),
        };
        let mut known = Self::of(image, args, pipe, measured);
        known.class = class.as_ref().map(|told| told.label.clone());
        known.told = class;
        Ok(known)
    }

    fn of(image: &Image<'_>, args: &FitsArgs, pipe: Pipe, measured: Option<i64>) -> Self {
        let family = image.family(pipe.row.family);
        let system = image.system(pipe.row.system);
        Self {
            family: args.family.clone(),
            name: image.packed_text(family.name).to_owned(),
            system: image.packed_text(system.label).to_owned(),
            nominal: image.size(pipe.row.size).to_owned(),
            class: None,
            told: None,
            classes: image
                .classes(&pipe.row)
                .map(|class| image.label(class.label).to_owned())
                .collect(),
            measured,
            cracks: Material::from_code(family.material) == Some(Material::Pvc),
            stop: is_stop(image, &pipe.row),
            pipe,
        }
    }

    /// `6 in`, `DN150`, `160mm`.
    pub(crate) fn size(&self) -> String {
        size(&self.nominal)
    }

    /// What is printed for its class, behind its name: ` (235 psi at 73 F; CL150 in old print)`.
    pub(crate) fn print(&self) -> String {
        let words = self.told.as_ref().map(Named::words).unwrap_or_default();
        if words.is_empty() {
            words
        } else {
            format!(" ({words})")
        }
    }

    /// That the same pressure is printed on other pipe.
    pub(crate) fn doubt(&self) -> Option<String> {
        let told = self.told.as_ref()?;
        let printed = told.printed.as_deref()?;
        let mut text = String::new();
        if !told.also.is_empty() {
            text = format!(
                "{printed} alone does not tell the pipe: it is printed on {}, too. Tape it, and read what else is printed.",
                told.also.join("; ")
            );
        }
        if told.iron {
            let space = if text.is_empty() { "" } else { " " };
            text.extend([space, "On iron it is another class."]);
        }
        (!text.is_empty()).then_some(text)
    }

    /// The OD that parts are held against, in counts: what was measured, else what the tables give.
    pub(crate) fn od(&self) -> i64 {
        self.measured.unwrap_or_else(|| i64::from(self.pipe.row.od))
    }

    /// Edges of the OD that a range must hold: the tolerance, and what was measured.
    pub(crate) fn band(&self) -> (i64, i64) {
        let (low, high) = (i64::from(self.pipe.row.low), i64::from(self.pipe.row.high));
        self.measured
            .map_or((low, high), |od| (low.min(od), high.max(od)))
    }

    /// Its OD system behind its name, `, C900/DI size`; nothing where the name has it, as in "HDPE IPS".
    pub(crate) fn system_beside(&self) -> String {
        if self.name.contains(&self.system) {
            String::new()
        } else {
            format!(", {}", self.system)
        }
    }
}

/// A nominal size with its unit.
pub(crate) fn size(nominal: &str) -> String {
    if nominal.ends_with("mm") || nominal.starts_with("DN") {
        nominal.to_owned()
    } else {
        format!("{nominal} in")
    }
}

/// The rows of a family that are meant by a size, and the OD if that is what was told.
fn sized(image: &Image<'_>, args: &FitsArgs, rows: &[Row]) -> Result<(Vec<Row>, Option<i64>)> {
    let spelled = format::spelled(&args.size);
    let named = |row: &&Row| image.size(row.size).eq_ignore_ascii_case(&spelled);
    let found: Vec<Row> = rows.iter().filter(named).copied().collect();
    if !found.is_empty() {
        return Ok((found, None));
    }
    let unit: Unit = args.units.into();
    let typed = args.size.trim();
    // A bare number is a nominal size; an OD has a decimal point or a unit.
    let measured = typed.contains(['.', '"', ' ']) || typed.ends_with(|c: char| c.is_alphabetic());
    if measured && let Ok(od) = parse::length(typed, unit, Limits::DIAMETER) {
        let near = 2_540 * 10;
        let holds =
            |row: &&Row| (i64::from(row.low) - near..=i64::from(row.high) + near).contains(&od);
        let found: Vec<Row> = rows.iter().filter(holds).copied().collect();
        let mut sizes: Vec<u8> = found.iter().map(|row| row.size).collect();
        sizes.dedup();
        return match sizes[..] {
            [_] => Ok((found, Some(od))),
            [] => Err(none_near(image, args, rows, od)),
            _ => {
                let all: Vec<String> = sizes.iter().map(|at| size(image.size(*at))).collect();
                bail!(
                    "an OD of {} may be {} of {}\n  try: the nominal size, as printed",
                    format::length(od, unit),
                    all.join(" or "),
                    args.family
                )
            }
        };
    }
    let mut sizes: Vec<(u16, &str)> = Vec::new();
    for row in rows {
        let one = (image.measure(row.size), image.size(row.size));
        if !sizes.contains(&one) {
            sizes.push(one);
        }
    }
    sizes.sort_unstable();
    let sizes: Vec<&str> = sizes.into_iter().map(|(_, size)| size).collect();
    bail!(
        "{} has no size \"{spelled}\"\n  try one of: {}\n  or an OD that was measured, as 6.9in",
        args.family,
        sizes.join(", ")
    )
}

/// That no size of a family has an OD, and what has.
fn none_near(image: &Image<'_>, args: &FitsArgs, rows: &[Row], od: i64) -> anyhow::Error {
    let unit: Unit = args.units.into();
    let apart = |row: &&Row| (i64::from(row.od) - od).abs();
    let told = |row: &Row| {
        format!(
            "{} {}, OD {}",
            size(image.size(row.size)),
            image.packed_text(image.family(row.family).key),
            format::length(i64::from(row.od), unit)
        )
    };
    let own = rows.iter().min_by_key(apart).map(told);
    let mut others: Vec<String> = Vec::new();
    for row in image.rows_from(0) {
        let holds = (i64::from(row.low)..=i64::from(row.high)).contains(&od);
        let family = image.family(row.family);
        if holds && is_listed(image, &row) && !others.contains(&told(&row)) && family.unknown > 0 {
            others.push(told(&row));
        }
    }
    others.truncate(4);
    let else_ = if others.is_empty() {
        String::from("nothing in the tables has that OD: springline read says more")
    } else {
        format!(
            "that OD is of {}: springline read says which",
            others.join("; ")
        )
    };
    anyhow!(
        "no {} has an OD of {}: the nearest is {}\n  {else_}",
        args.family,
        format::length(od, unit),
        own.unwrap_or_default()
    )
}

/// Whether a row may be named beside others: nothing is named that is not to be touched.
fn is_listed(image: &Image<'_>, row: &Row) -> bool {
    !is_stop(image, row)
}

/// The one row of a class; where none was told the only one that there is.
fn classed(
    image: &Image<'_>,
    notes: &Notes,
    args: &FitsArgs,
    rows: &[Row],
) -> Result<(Row, Option<Named>)> {
    let unit: Unit = args.units.into();
    if let Some(class) = &args.class {
        let (row, named) = class::find(image, notes, args, (rows, class))?;
        return Ok((row, Some(named)));
    }
    if let [row] = rows {
        return Ok((*row, None));
    }
    let told: Vec<String> = rows
        .iter()
        .map(|row| {
            let labels: Vec<&str> = image
                .classes(row)
                .map(|class| image.label(class.label))
                .collect();
            let variant = image.label(row.variant);
            let name = if labels.is_empty() {
                variant.to_owned()
            } else {
                labels.join(", ")
            };
            format!("{} ({name})", format::length(i64::from(row.od), unit))
        })
        .collect();
    bail!(
        "{} {} comes in {} ODs: {}\n  try: --class, or the OD from a tape, as {}",
        args.family,
        args.size,
        rows.len(),
        told.join("; "),
        format::short(i64::from(rows.first().map_or(0, |row| row.od)), unit)
    )
}
