//! From what was typed to what is asked.

use std::fmt::Display;

use anyhow::{Result, anyhow, bail};
use springline_compiler::notes::Notes;
use springline_core::Length;
use springline_core::clue::{ClueName, Plans};
use springline_core::image::Image;
use springline_core::joint::Job;
use springline_core::reading::{Clock, Query, Reading, ReadingError, Site};
use springline_tables::NOTES;

use super::finding::size as sized;
use crate::cli::{OwnerArg, ReadArgs, SiteArg, YesNo};
use crate::format;
use crate::parse::{COUNTS_PER_INCH, Limits, Unit, length, length_at_clock, temperature};

/// A query, and how its readings are told back.
pub(crate) struct Asked {
    pub(crate) query: Query,
    /// One line a reading, in the words of the trade.
    pub(crate) told: Vec<String>,
    /// What was told of the pipe beside its readings.
    pub(crate) place: Vec<String>,
    /// The line of print, as it was typed.
    pub(crate) print: Option<String>,
    /// A caliper above twice the usual jaw depth, with jaws not told.
    pub(crate) jaws_assumed: bool,
    /// Whether all readings are of one diameter, or of the crown: squash may be mistaken for size.
    pub(crate) one_sided: bool,
    pub(crate) unit: Unit,
    pub(crate) owner: OwnerArg,
}

/// Twice the usual 40 mm jaws, in counts: above it a caliper's jaws must be longer than most.
const USUAL_REACH: i64 = 8_000_000;

/// Small lengths: a jaw's depth, a rise, a standard deviation.
const SMALL: Limits = Limits {
    min: 1,
    max: 40 * COUNTS_PER_INCH as i64,
};

/// Walls: no pipe of the tables has one of four inches.
const WALL: Limits = Limits {
    min: COUNTS_PER_INCH as i64 / 100,
    max: 4 * COUNTS_PER_INCH as i64,
};

/// Understands the arguments.
pub(crate) fn query(image: &Image<'_>, args: &ReadArgs) -> Result<Asked> {
    let unit = Unit::from(args.units);
    let mut asked = Asked {
        query: Query::new(),
        told: Vec::new(),
        place: Vec::new(),
        print: None,
        jaws_assumed: false,
        one_sided: false,
        unit,
        owner: args.owner,
    };
    asked.query.job = args.job.map_or(Job::None, Job::from);
    asked.query.buried = args.buried == YesNo::Yes;
    asked.query.site = match args.site {
        SiteArg::Irrigation => Site::Irrigation,
        SiteArg::Municipal => Site::Municipal,
        SiteArg::Unknown => Site::Unknown,
    };
    let told = args.temp.as_deref().map(temperature).transpose();
    asked.query.temperature = named("--temp", told)?;
    let sigma = small("--u", args.u.as_deref(), unit)?;
    let jaw = small("--jaw", args.jaw.as_deref(), unit)?;
    if jaw.is_some() && args.dia.is_empty() && args.along.is_empty() {
        bail!("--jaw is of a caliper, and there is no --dia\n  try: --dia 4.29in --jaw 40mm");
    }
    if args.chord.len() != args.rise.len() {
        bail!(
            "a straight edge needs both --chord and --rise\n  try: --chord 8in --rise \"1 13/32in\""
        );
    }
    diameters(args, &mut asked, jaw, sigma)?;
    rounds(args, &mut asked, sigma)?;
    for (chord, rise) in args.chord.iter().zip(&args.rise) {
        let chord = counts(named("--chord", length(chord, unit, Limits::DIAMETER))?);
        let rise = counts(named("--rise", length(rise, unit, SMALL))?);
        asked.add(Reading::Chord { chord, rise, sigma })?;
        let (c, r) = (asked.show(chord), asked.show(rise));
        asked
            .told
            .push(format!("a chord of {c} with a rise of {r}"));
    }
    for text in &args.wall {
        let value = counts(named("--wall", length(text, unit, WALL))?);
        asked.add(Reading::Wall { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("a wall of {shown}"));
    }
    asked.one_sided = one_sided(&asked.query);
    for (clue, answer) in &args.told {
        // The parser takes only keys of these tables.
        if let Some(told) = image.find_clue(clue, answer) {
            asked.query.clues.tell(told);
        }
    }
    if let Some(text) = &args.plans {
        asked.query.clues.plans = Some(named("--plans", plans(image, text))?);
    }
    if let Some(text) = &args.print {
        let line = springline_core::print::read(image, text.as_bytes());
        asked.query.clues.print = (!line.is_empty()).then_some(line);
    }
    asked.print.clone_from(&args.print);
    asked.place = place(image, args, &asked);
    Ok(asked)
}

/// A mistake with the option that it was made in.
fn named<T, E: Display>(option: &str, result: Result<T, E>) -> Result<T> {
    result.map_err(|error| anyhow!("{option}: {error}"))
}

fn small(option: &str, text: Option<&str>, unit: Unit) -> Result<Option<Length>> {
    let read = text.map(|text| length(text, unit, SMALL)).transpose();
    Ok(named(option, read)?.map(counts))
}

/// Whether every reading is of the same diameter, or every one of the crown. Two of unknown direction may cross.
fn one_sided(query: &Query) -> bool {
    let mut readings = query
        .readings()
        .filter(|reading| !matches!(reading, Reading::Wall { .. }));
    let Some(first) = readings.next() else {
        return false;
    };
    match first {
        Reading::Chord { .. } => readings.all(|other| matches!(other, Reading::Chord { .. })),
        Reading::Diameter { clock: at, .. } => readings.all(
            |other| matches!(other, Reading::Diameter { clock, .. } if at.is_some() && clock == at),
        ),
        _ => false,
    }
}

/// What plans name: a family of the tables, and perhaps a size of it.
fn plans(image: &Image<'_>, text: &str) -> Result<Plans> {
    let (family, size) = match text.split_once(':') {
        Some((family, size)) => (family, Some(size)),
        None => (text, None),
    };
    let notes = Notes::from_bytes(NOTES)?;
    let family = crate::family::find(image, &notes, family)?;
    let Some(size) = size else {
        return Ok(Plans { family, size: None });
    };
    let size = format::spelled(size);
    let sizes = || image.rows_from(0).filter(|row| row.family == family);
    let found = sizes().find(|row| image.size(row.size) == size);
    let Some(found) = found else {
        let mut known: Vec<&str> = Vec::new();
        for row in sizes() {
            let size = image.size(row.size);
            if !known.contains(&size) {
                known.push(size);
            }
        }
        bail!(
            "{text} names a size that the tables do not have\n  try one of: {}",
            known.join(", ")
        );
    };
    Ok(Plans {
        family,
        size: Some(found.size),
    })
}

/// What was told beside the readings, and only that.
fn place(image: &Image<'_>, args: &ReadArgs, asked: &Asked) -> Vec<String> {
    let mut told: Vec<String> = asked
        .query
        .clues
        .names()
        // What was understood of it has lines of its own.
        .filter(|name| *name != ClueName::Print)
        .map(|name| words(image, asked, name))
        .collect();
    if let (Some(text), Some(_)) = (&args.temp, asked.query.temperature) {
        told.push(format!("pipe wall at {}", text.trim()));
    }
    if !asked.query.buried {
        told.push("not buried".to_owned());
    }
    match args.site {
        SiteArg::Irrigation => told.push("irrigation site".to_owned()),
        SiteArg::Municipal => told.push("municipal site".to_owned()),
        SiteArg::Unknown => {}
    }
    told
}

/// One of the things told, in the words of the tables.
pub(super) fn words(image: &Image<'_>, asked: &Asked, name: ClueName) -> String {
    match (name, asked.query.clues.plans) {
        (ClueName::Clue(clue), _) => asked
            .query
            .clues
            .told()
            .find(|told| told.clue == clue)
            .map_or_else(String::new, |told| {
                image
                    .packed_text(image.clue_answer(told.answer).words)
                    .to_owned()
            }),
        (ClueName::Plans, Some(plans)) => {
            let family = image.packed_text(image.family(plans.family).name);
            match plans.size {
                Some(size) => format!("plans say {family} {}", sized(image.size(size))),
                None => format!("plans say {family}"),
            }
        }
        (ClueName::Print, _) => match &asked.print {
            Some(text) => format!("printed: {}", text.trim()),
            None => String::new(),
        },
        (ClueName::Plans, None) => String::new(),
    }
}

/// The parser's limits keep every length within what a `Length` holds.
fn counts(counts: i64) -> Length {
    Length::from_counts(i32::try_from(counts).unwrap_or(i32::MAX))
}

fn diameters(
    args: &ReadArgs,
    asked: &mut Asked,
    jaw: Option<Length>,
    sigma: Option<Length>,
) -> Result<()> {
    let each = |texts: &[String], along: bool| -> Vec<(String, bool)> {
        texts.iter().map(|text| (text.clone(), along)).collect()
    };
    let all = [each(&args.dia, false), each(&args.along, true)].concat();
    for (text, along) in &all {
        let option = if *along { "--along" } else { "--dia" };
        let (value, held) = named(option, diameter(text, asked.unit))?;
        asked.jaws_assumed |= jaw.is_none() && value > USUAL_REACH;
        let value = counts(value);
        asked.add(if *along {
            Reading::Along {
                value,
                clock: held,
                jaw,
                sigma,
            }
        } else {
            Reading::Diameter {
                value,
                clock: held,
                jaw,
                sigma,
            }
        })?;
        let shown = asked.show(value);
        let place = if *along { ", a foot along" } else { "" };
        let hour = held.map_or_else(String::new, hour);
        asked.told.push(format!("{shown} by caliper{hour}{place}"));
    }
    Ok(())
}

/// How a caliper was held.
fn hour(clock: Clock) -> String {
    if clock == Clock::ACROSS {
        return " across that".to_owned();
    }
    match (clock.count() / 2, clock.count() % 2) {
        (0, 0) => " at 12 o'clock".to_owned(),
        (hour, 0) => format!(" at {hour} o'clock"),
        (0, _) => " at 12:30".to_owned(),
        (hour, _) => format!(" at {hour}:30"),
    }
}

/// A diameter and how it was held, as `12.6in`, `12.6in@3` or `11.88in@across`.
fn diameter(text: &str, unit: Unit) -> Result<(i64, Option<Clock>)> {
    if let Some((value, held)) = text.rsplit_once('@')
        && held.trim().eq_ignore_ascii_case("across")
    {
        return Ok((length(value, unit, Limits::DIAMETER)?, Some(Clock::ACROSS)));
    }
    let (value, half_hours) = length_at_clock(text, unit, Limits::DIAMETER).map_err(|error| {
        let also = if text.contains('@') {
            "\n  or @across, for at right angles to the one before"
        } else {
            ""
        };
        anyhow!("{error}{also}")
    })?;
    Ok((value, half_hours.map(Clock::half_hours)))
}

fn rounds(args: &ReadArgs, asked: &mut Asked, sigma: Option<Length>) -> Result<()> {
    let unit = asked.unit;
    for text in &args.dia_tape {
        let value = counts(named("--dia-tape", length(text, unit, Limits::DIAMETER))?);
        asked.add(Reading::DiameterTape { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("{shown} by diameter tape"));
    }
    for text in &args.around {
        let value = counts(named("--around", length(text, unit, Limits::AROUND))?);
        asked.add(Reading::Around { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("{shown} around by steel tape"));
    }
    for text in &args.string {
        let value = counts(named("--string", length(text, unit, Limits::AROUND))?);
        asked.add(Reading::String { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("{shown} around by string"));
    }
    Ok(())
}

impl Asked {
    fn add(&mut self, reading: Reading) -> Result<()> {
        self.query
            .add(reading)
            .map_err(|error: ReadingError| anyhow!("{}", super::advice(error)))
    }

    /// A length as people read it here.
    pub(crate) fn show(&self, length: Length) -> String {
        format::length(i64::from(length.counts()), self.unit)
    }
}
