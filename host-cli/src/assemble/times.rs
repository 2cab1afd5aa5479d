//! How long glue takes.

use anyhow::Result;
use springline_compiler::assembly::CureNote;
use springline_compiler::notes::Notes;
use springline_core::assembly::{NoWait, Nominal, Wait, cure};
use springline_core::image::Image;
use springline_core::unit::{Duration, Pressure, Temperature};

use super::AssembleArgs;
use super::made::degrees;
use crate::bolts::words::{self, Sourced};
use crate::cli::YesNo;
use crate::fits::known::Known;
use crate::parse::{self, Unit};
use crate::show;

/// Times of one band of temperature.
pub(super) struct Band {
    /// What temperature it is for, in words.
    pub(super) at: String,
    /// By pressure: what it is for in words, and the times or why there are none.
    pub(super) waits: Vec<(String, Result<Wait, String>)>,
}

/// How long glue takes in a size.
pub(super) struct Glue {
    pub(super) wet: bool,
    pub(super) bands: Vec<Band>,
    /// More pressure is told than the class is made for.
    pub(super) above_class: Option<u16>,
    pub(super) from: Option<Sourced>,
}

impl Glue {
    pub(super) fn of(
        image: &Image<'_>,
        notes: &Notes,
        size: Option<Nominal>,
        known: &Known,
        args: &AssembleArgs,
    ) -> Result<Self> {
        let unit: Unit = args.units.into();
        let wet = args.wet == YesNo::Yes;
        let told = args.pressure.as_deref().map(parse::pressure).transpose()?;
        let now = args.temp.as_deref().map(degrees).transpose()?;
        let holds = |one: &&CureNote| size.is_some_and(|size| one.size >= size.in_quarters());
        let column = notes.assembly.cures.iter().find(holds).map(|one| one.size);
        let rows: Vec<&CureNote> = notes
            .assembly
            .cures
            .iter()
            .filter(|one| Some(one.size) == column)
            .collect();
        let temperatures: Vec<(String, Temperature)> = match now {
            Some(now) => vec![(degrees_words(now, unit), now)],
            None => rows
                .iter()
                .map(|row| {
                    let (over, to) = row.band;
                    let edge = |degrees: u8| Temperature::fahrenheit(f64::from(degrees));
                    let at = format!(
                        "above {} to {}",
                        degrees_words(edge(over), unit),
                        degrees_words(edge(to), unit)
                    );
                    (at, edge(to))
                })
                .collect(),
        };
        let split = rows.first().map_or(180, |row| row.hours.1);
        let split = Pressure::psi(f64::from(split));
        let pressures: Vec<(String, Pressure)> = match told {
            Some(told) => vec![(show::pressure(told, unit), told)],
            None => vec![
                (format!("up to {}", show::pressure(split, unit)), split),
                (String::from("above"), split + Pressure::psi(1.0)),
            ],
        };
        let ask = |at: Temperature, pressure: Pressure| match size {
            Some(size) => cure(image, size, at, pressure, wet).map_err(|why| why_none(why, unit)),
            None => Err(String::from("no times in the tables for this size")),
        };
        let band = |(at, degrees): (String, Temperature)| Band {
            at,
            waits: pressures
                .iter()
                .map(|(words, pressure)| (words.clone(), ask(degrees, *pressure)))
                .collect(),
        };
        let mut bands: Vec<Band> = temperatures.into_iter().map(band).collect();
        if bands.is_empty() {
            bands.push(band((
                String::from("any temperature"),
                Temperature::fahrenheit(50.0),
            )));
        }
        let label = known.class.as_deref();
        let class = image
            .classes(&known.pipe.row)
            .find(|class| label == Some(image.label(class.label)) && class.psi > 0);
        let beyond = |psi: u16| told.is_some_and(|told| told.in_psi() > f64::from(psi));
        Ok(Self {
            wet,
            bands,
            above_class: class.map(|class| class.psi).filter(|psi| beyond(*psi)),
            from: rows
                .first()
                .map(|row| Sourced::of(notes, "set and cure", &row.cited)),
        })
    }
}

impl Glue {
    /// Why there is no time at all.
    pub(super) fn refused(&self) -> Option<String> {
        let mut waits = self.bands.iter().flat_map(|band| &band.waits);
        let first = waits.clone().find_map(|(_, wait)| wait.clone().err())?;
        waits.all(|(_, wait)| wait.is_err()).then_some(first)
    }
}

pub(super) fn degrees_words(at: Temperature, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{:.0} F", at.in_fahrenheit()),
        Unit::Millimetre => format!("{:.0} C", at.in_celsius()),
    }
}

/// `45 min`, `6 h`, `1 h 30 min`, `4 days`.
pub(crate) fn lasts(time: Duration) -> String {
    let minutes = time.in_minutes().ceil();
    let hours = (minutes / 60.0).floor();
    let rest = minutes - hours * 60.0;
    if hours >= 72.0 {
        let days = format!("{:.1}", hours / 24.0);
        format!("{} days", days.strip_suffix(".0").unwrap_or(&days))
    } else if hours < 1.0 {
        format!("{minutes:.0} min")
    } else if rest > 0.0 {
        format!("{hours:.0} h {rest:.0} min")
    } else {
        format!("{hours:.0} h")
    }
}

/// Why there is no time, and what to do.
pub(super) fn why_none(why: NoWait, unit: Unit) -> String {
    match why {
        NoWait::TooLarge(largest) => format!(
            "no times above {} in in the tables: the cement maker's, or a gasketed joint",
            words::size(largest)
        ),
        NoWait::TooCold(edge) => format!(
            "no times at {} and below: not today, or a gasketed joint",
            degrees_words(edge, unit)
        ),
        NoWait::TooHot(edge) => format!(
            "no times above {}: shade, cool the pipe, or early in the day",
            degrees_words(edge, unit)
        ),
        NoWait::TooMuchPressure(most) => format!(
            "no times above {} in this size: the cement maker's",
            show::pressure(most, unit)
        ),
        NoWait::Nothing => String::from("no times in the tables"),
    }
}
