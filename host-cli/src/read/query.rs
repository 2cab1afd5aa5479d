//! From what was typed to what is asked.

use anyhow::{Result, bail};
use springline_core::Length;
use springline_core::reading::{Clock, Query, Reading, ReadingError, Site};

use crate::cli::{ReadArgs, SiteArg, YesNo};
use crate::format;
use crate::parse::{COUNTS_PER_INCH, Limits, Unit, length, length_at_clock, temperature};

/// A query, and how its readings are told back.
pub(crate) struct Asked {
    pub(crate) query: Query,
    /// One line a reading, in the words of the trade.
    pub(crate) told: Vec<String>,
    /// A caliper above twice the usual jaw depth, with jaws not told.
    pub(crate) jaws_assumed: bool,
    /// Whether one diameter, or one chord, is all that there is: squash may be mistaken for size.
    pub(crate) one_sided: bool,
    pub(crate) unit: Unit,
}

/// Twice the usual 40 mm jaws, in counts: above it a caliper's jaws must be longer than most.
const USUAL_REACH: i64 = 8_000_000;

/// Small lengths: a jaw's depth, a rise, a standard deviation.
const SMALL: Limits = Limits {
    min: 1,
    max: 40 * COUNTS_PER_INCH as i64,
};

/// Understands the arguments.
pub(crate) fn query(args: &ReadArgs) -> Result<Asked> {
    let unit = Unit::from(args.units);
    let mut asked = Asked {
        query: Query::new(),
        told: Vec::new(),
        jaws_assumed: false,
        one_sided: false,
        unit,
    };
    asked.query.buried = args.buried == YesNo::Yes;
    asked.query.site = match args.site {
        SiteArg::Irrigation => Site::Irrigation,
        SiteArg::Municipal => Site::Municipal,
        SiteArg::Unknown => Site::Unknown,
    };
    asked.query.temperature = args.temp.as_deref().map(temperature).transpose()?;
    let sigma = small(args.u.as_deref(), unit)?;
    let jaw = small(args.jaw.as_deref(), unit)?;
    if args.chord.len() != args.rise.len() {
        bail!(
            "a straight edge needs both --chord and --rise\n  try: --chord 8in --rise \"1 13/32in\""
        );
    }
    diameters(args, &mut asked, jaw, sigma)?;
    rounds(args, &mut asked, sigma)?;
    for (chord, rise) in args.chord.iter().zip(&args.rise) {
        let chord = counts(length(chord, unit, Limits::DIAMETER)?);
        let rise = counts(length(rise, unit, SMALL)?);
        asked.add(Reading::Chord { chord, rise, sigma })?;
        let (c, r) = (asked.show(chord), asked.show(rise));
        asked
            .told
            .push(format!("a chord of {c} with a rise of {r}"));
    }
    let round = args.dia_tape.len() + args.around.len() + args.string.len();
    asked.one_sided = round == 0 && args.dia.len() + args.chord.len() == 1;
    Ok(asked)
}

fn small(text: Option<&str>, unit: Unit) -> Result<Option<Length>> {
    Ok(text
        .map(|text| length(text, unit, SMALL))
        .transpose()?
        .map(counts))
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
    for text in &args.dia {
        let (value, half_hours) = length_at_clock(text, asked.unit, Limits::DIAMETER)?;
        asked.jaws_assumed |= jaw.is_none() && value > USUAL_REACH;
        let value = counts(value);
        asked.add(Reading::Diameter {
            value,
            clock: half_hours.map(Clock::half_hours),
            jaw,
            sigma,
        })?;
        let shown = asked.show(value);
        let hour = half_hours.map_or(String::new(), |half| match (half / 2, half % 2) {
            (0, 0) => " at 12 o'clock".to_owned(),
            (hour, 0) => format!(" at {hour} o'clock"),
            (0, _) => " at 12:30".to_owned(),
            (hour, _) => format!(" at {hour}:30"),
        });
        asked.told.push(format!("{shown} by caliper{hour}"));
    }
    Ok(())
}

fn rounds(args: &ReadArgs, asked: &mut Asked, sigma: Option<Length>) -> Result<()> {
    let unit = asked.unit;
    for text in &args.dia_tape {
        let value = counts(length(text, unit, Limits::DIAMETER)?);
        asked.add(Reading::DiameterTape { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("{shown} by diameter tape"));
    }
    for text in &args.around {
        let value = counts(length(text, unit, Limits::AROUND)?);
        asked.add(Reading::Around { value, sigma })?;
        let shown = asked.show(value);
        asked.told.push(format!("{shown} around by steel tape"));
    }
    for text in &args.string {
        let value = counts(length(text, unit, Limits::AROUND)?);
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
            .map_err(|error: ReadingError| anyhow::anyhow!("{}", super::advice(error)))
    }

    /// A length as people read it here.
    pub(crate) fn show(&self, length: Length) -> String {
        format::length(i64::from(length.counts()), self.unit)
    }
}
