//! The piece that closes a gap. Where a length is neither told nor fixed by a standard, the formula with a blank.

use anyhow::{Result, bail};
use springline_compiler::notes::Cited;
use springline_core::cut::{Closure, Meeting, NoCut, cut, movement};
use springline_core::image::Grade;
use springline_core::unit::{Distance, Temperature, Warming};

use super::CutArgs;
use super::meeting::{part, terms};
use crate::site::pipe::{self, Pipe};
use crate::site::report::{Line, Report};
use crate::site::unit::tape;

/// A length that is put in, with its words and what it stands on.
pub(crate) struct Term {
    pub(super) words: String,
    pub(super) meeting: Option<Meeting>,
    pub(super) cited: Vec<Cited>,
}

/// A part in the gap.
pub(crate) struct Part {
    pub(crate) name: String,
    /// Its laying length, where it is told or fixed.
    pub(crate) lay: Option<Distance>,
    pub(crate) cited: Option<Cited>,
    pub(crate) how: String,
    pub(crate) flanged: bool,
}

/// A gap that a piece closes.
pub(crate) struct Gap {
    /// How wide it is, where that was measured.
    pub(crate) opening: Option<Distance>,
    /// What lies in it beside the piece.
    pub(crate) part: Option<Part>,
    /// Every place where two things meet, from one side to the other.
    pub(crate) terms: Vec<Term>,
    /// It is two pieces, with the part between them.
    pub(crate) both: bool,
}

/// What a piece that was reckoned is asked about its movement: its length, and the least gap at its ends.
pub(crate) type Made = (Distance, Option<Distance>);

/// Adds the lines of a closure.
pub(super) fn add(pipe: &Pipe<'_>, args: &CutArgs, report: &mut Report) -> Result<()> {
    let unit = pipe.unit;
    let Some(opening) = pipe::by_tape(args.opening.as_ref(), unit)? else {
        bail!("how wide is the gap?\n  try: --opening 36in");
    };
    let part = part(pipe, args)?;
    if part.is_none() && args.pieces == 2 {
        bail!("two pieces have a part between them\n  try: --part or --lay, or leave --pieces out");
    }
    let terms = terms(pipe, args, part.as_ref())?;
    let gap = Gap {
        opening: Some(opening),
        part,
        terms,
        both: args.pieces == 2,
    };
    match say(pipe, &gap, report)? {
        Some((length, least)) => moves(pipe, args, length, least, report),
        None => Ok(()),
    }
}

/// Adds the lines of a gap: the piece, or its formula with blanks for what is not known.
pub(crate) fn say(pipe: &Pipe<'_>, gap: &Gap, report: &mut Report) -> Result<Option<Made>> {
    let unit = pipe.unit;
    let Gap { part, terms, .. } = gap;
    let opening = gap.opening.map(|opening| tape(opening, unit));
    let mut words = match &opening {
        Some(opening) => format!("{opening} of opening"),
        None => String::from("____ of opening"),
    };
    let mut missing = opening.is_none();
    if let Some(part) = part {
        let lay = part.lay.map(|lay| tape(lay, unit));
        missing |= lay.is_none();
        let lay = lay.unwrap_or_else(|| String::from("____"));
        let from = part.cited.as_ref().map_or("", trusted);
        words = format!("{words}, less {lay} of {} ({}{from})", part.name, part.how);
    }
    // What is there several times is told once.
    let mut told: Vec<(usize, String)> = Vec::new();
    for term in terms {
        missing |= term.meeting.is_none();
        let weakest = term.cited.iter().max_by_key(|one| one.graded());
        let text = weakest.map_or(String::new(), bracketed);
        let text = format!("{}{text}", term.words);
        match told.iter_mut().find(|(_, held)| *held == text) {
            Some((count, _)) => *count += 1,
            None => told.push((1, text)),
        }
    }
    for (count, text) in told {
        let (sign, what) = text.split_once(' ').unwrap_or(("and", &text));
        words = match count {
            1 => format!("{words}, {sign} {what}"),
            _ => format!("{words}, {sign} {count} x {what}"),
        };
    }
    let cited: Vec<&Cited> = terms
        .iter()
        .flat_map(|term| &term.cited)
        .chain(part.iter().filter_map(|part| part.cited.as_ref()))
        .collect();
    let on = |mut line: Line| {
        line = line.quiet();
        for one in &cited {
            line = line.on(pipe, one);
        }
        line
    };
    if missing {
        report.add(
            on(Line::new("CUT", format!("____ = {words}.")))
                .told("cut_in", serde_json::Value::Null),
        );
        let text = "what is blank is measured: lay it on the bank and measure, then say --lay, --from-depth or --to-depth. No length is guessed.";
        report.add(Line::new("MEASURE", text));
        return Ok(None);
    }
    let opening = gap.opening.unwrap_or_default();
    let meetings: Vec<Meeting> = terms.iter().filter_map(|term| term.meeting).collect();
    let lays: Vec<Distance> = part.iter().filter_map(|part| part.lay).collect();
    let made = cut(&Closure {
        opening,
        lays: &lays,
        meetings: &meetings,
    });
    let made = match made {
        Ok(made) => made,
        Err(NoCut::TooLong(over)) => bail!(
            "nothing is left for a piece: parts and gaps are {} longer than the opening\n  try: measure --opening again, or a shorter part",
            tape(over, unit)
        ),
        Err(NoCut::NotIn) => {
            bail!("a gap as deep as the bell leaves the pipe outside it\n  try: a smaller --gap")
        }
        Err(NoCut::Measure) => bail!("a length is less than nothing\n  try: measure again"),
    };
    let both = if gap.both {
        " for both pieces together, parted where the part must lie"
    } else {
        ""
    };
    report.add(
        on(Line::new(
            "CUT",
            format!("{}{both}: {words}.", tape(made.length, unit)),
        ))
        .with("cut_in", made.length.in_inches())
        .with("opening_in", opening.in_inches()),
    );
    report.add(Line::new(
        "CHECK",
        "two readings of the opening, a quarter turn apart, both ends square; mark the depth on each end before it goes in.",
    ));
    Ok(Some((made.length, made.gap)))
}

/// The same in brackets.
fn bracketed(cited: &Cited) -> String {
    match trusted(cited) {
        "" => String::new(),
        text => format!(" ({})", &text[2..]),
    }
}

/// How far a length can be trusted, where that must be seen.
fn trusted(cited: &Cited) -> &'static str {
    match cited.graded() {
        Some(Grade::Memory) => ", from memory",
        Some(Grade::Practice) => ", practice",
        _ => "",
    }
}

/// What the piece moves between two temperatures, against the gap that is left.
fn moves(
    pipe: &Pipe<'_>,
    args: &CutArgs,
    length: Distance,
    gap: Option<Distance>,
    report: &mut Report,
) -> Result<()> {
    let unit = pipe.unit;
    let growth = f64::from(pipe.image.family(pipe.family()).thermal) * 1e-7;
    let told = [&args.temp, &args.service].map(|text| pipe::temperature(text.as_ref()));
    let [now, later] = told;
    let degrees = |hundredths: i32| Temperature::fahrenheit(f64::from(hundredths) / 100.0);
    let (warming, words) = match (now?, later?) {
        (Some(now), Some(later)) => (
            degrees(later) - degrees(now),
            format!(
                "from {} to {}",
                args.temp.as_deref().unwrap_or_default(),
                args.service.as_deref().unwrap_or_default()
            ),
        ),
        _ => (
            Warming::fahrenheit(10.0),
            String::from("for each 10 F (--temp, --service)"),
        ),
    };
    let moved = movement(length, warming, growth);
    // Only what grows closes a gap, and only where both temperatures are known is there a verdict.
    let asked = args.temp.is_some() && args.service.is_some();
    let tight = asked && warming.in_fahrenheit() > 0.0 && gap.is_some_and(|gap| moved > gap * 2.0);
    let verdict = match (asked, tight) {
        (true, true) => ": MORE than the gaps: let the pipe cool, or cut it shorter",
        (true, false) if warming.in_fahrenheit() > 0.0 && gap.is_some() => ": the gaps take it",
        _ => "",
    };
    let mark = Distance::inches(1.0 / 32.0);
    let size = if moved < mark {
        format!("less than {}", tape(mark, unit))
    } else {
        tape(moved, unit)
    };
    report.add(
        Line::new("MOVES", format!("{size} {words}{verdict}."))
            .with("moves_in", moved.in_inches())
            .no(tight),
    );
    Ok(())
}
