//! The piece that closes a gap. Where a length is neither told nor fixed by a standard, the formula with a blank.

use anyhow::{Result, bail};
use springline_compiler::notes::Cited;
use springline_core::cut::{Closure, Meeting, NoCut, cut, movement};
use springline_core::image::Grade;
use springline_core::unit::{Distance, Temperature, Warming};

use super::{CutArgs, MeetArg};
use crate::cli::YesNo;
use crate::site::pipe::{self, Pipe};
use crate::site::report::{Line, Report};
use crate::site::unit::tape;

/// A length that is put in, with its words and what it stands on.
pub(crate) struct Term {
    words: String,
    meeting: Option<Meeting>,
    cited: Vec<Cited>,
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

/// The part in the gap, if there is one.
fn part(pipe: &Pipe<'_>, args: &CutArgs) -> Result<Option<Part>> {
    let lay = pipe::by_tape(args.lay.as_ref(), pipe.unit)?;
    let flanged = args.flanged.map(|told| told == YesNo::Yes);
    let Some(key) = &args.part else {
        return Ok(lay.map(|lay| Part {
            name: String::from("the part in hand"),
            lay: Some(lay),
            cited: None,
            how: String::from("measured"),
            flanged: flanged.unwrap_or(false),
        }));
    };
    let site = &pipe.notes.site;
    if let Some(any) = site.lays.iter().find(|one| one.key == *key) {
        let fixed = site.lay(key, pipe.nominal);
        return Ok(Some(Part {
            name: any.name.clone(),
            cited: fixed.filter(|_| lay.is_none()).map(|one| one.cited.clone()),
            lay: lay.or(fixed.map(|one| Distance::inches(one.inches.get()))),
            how: any.how.clone(),
            flanged: flanged.unwrap_or(true),
        }));
    }
    let at = pipe
        .notes
        .joints
        .parts
        .iter()
        .position(|part| part.key == *key);
    let Some(at) = at.and_then(|at| u8::try_from(at).ok()) else {
        let mut keys: Vec<&str> = Vec::new();
        for one in &site.lays {
            if !keys.contains(&one.key.as_str()) {
                keys.push(&one.key);
            }
        }
        bail!(
            "no part \"{key}\"\n  try one of: {}\n  or a key of springline fits {} {}, or --lay alone",
            keys.join(", "),
            pipe.known.family,
            pipe.known.nominal
        );
    };
    let record = pipe.image.part(at);
    Ok(Some(Part {
        name: pipe.image.phrase(record.name).to_string(),
        lay,
        cited: None,
        how: String::from(if lay.is_some() {
            "measured"
        } else {
            "its laying length"
        }),
        flanged: flanged.unwrap_or_else(|| key.contains("flange")),
    }))
}

/// Every place where two things meet, from one side to the other.
fn terms(pipe: &Pipe<'_>, args: &CutArgs, part: Option<&Part>) -> Result<Vec<Term>> {
    let gap = pipe::by_tape(args.gap.as_ref(), pipe.unit)?;
    let side = |meet: MeetArg, depth: Option<&String>| {
        let depth = pipe::by_tape(depth, pipe.unit)?;
        term(pipe, gap, meet, depth)
    };
    let first = side(args.from, args.from_depth.as_ref())?;
    let Some(part) = part else {
        return Ok(vec![first, side(args.to, args.to_depth.as_ref())?]);
    };
    let joint = || {
        side(
            if part.flanged {
                MeetArg::Flange
            } else {
                MeetArg::Plain
            },
            None,
        )
    };
    if args.pieces == 2 {
        let last = side(args.to, args.to_depth.as_ref())?;
        return Ok(vec![first, joint()?, joint()?, last]);
    }
    // The part itself meets the second side: a pipe that goes into it, a flange on its flange, or a centre line.
    let last = match (args.to, part.flanged) {
        (MeetArg::Plain, false) | (MeetArg::Flange, true) => joint()?,
        (MeetArg::Centre, _) => side(MeetArg::Centre, None)?,
        (_, flanged) => {
            let takes = if flanged { "flange" } else { "plain" };
            bail!(
                "that end does not go on the part: with one piece the part itself meets the second side\n  try: --to {takes} or --to centre, or --pieces 2"
            )
        }
    };
    Ok(vec![first, joint()?, last])
}

/// A place where the piece, or pipe that is there, meets something: with the gap that was told, and the depth of its bell.
pub(crate) fn term(
    pipe: &Pipe<'_>,
    told: Option<Distance>,
    meet: MeetArg,
    depth: Option<Distance>,
) -> Result<Term> {
    let unit = pipe.unit;
    let usual = pipe.figure("gap")?;
    let gap = told.unwrap_or(Distance::inches(usual.value.get()));
    let mut cited: Vec<Cited> = Vec::new();
    if told.is_none() {
        cited.push(usual.cited.clone());
    }
    let end = match meet {
        MeetArg::Plain => {
            return Ok(Term {
                words: format!("less {} of gap", tape(gap, unit)),
                meeting: Some(Meeting::Apart(gap)),
                cited,
            });
        }
        MeetArg::Flange => {
            let gasket = pipe.figure("gasket")?;
            let thick = Distance::inches(gasket.value.get());
            return Ok(Term {
                words: format!("less {} of gasket", tape(thick, unit)),
                meeting: Some(Meeting::Gasket(thick)),
                cited: vec![gasket.cited.clone()],
            });
        }
        MeetArg::Centre => {
            return Ok(Term {
                words: String::from("and nothing and nothing to the centre line"),
                meeting: Some(Meeting::Point),
                cited: Vec::new(),
            });
        }
        MeetArg::Mj => "MJ",
        MeetArg::Bell => "the bell",
        MeetArg::Solvent40 => "solvent socket Sch 40",
        MeetArg::Solvent80 => "solvent socket Sch 80",
    };
    // Glue goes home.
    let glued = matches!(meet, MeetArg::Solvent40 | MeetArg::Solvent80);
    let gap = if glued && told.is_none() {
        cited.clear();
        Distance::ZERO
    } else {
        gap
    };
    let assembly = &pipe.notes.assembly;
    let fixed = pipe.quarters().and_then(|size| match meet {
        MeetArg::Mj => assembly
            .mechanical_depth(size)
            .map(|(deep, from)| (*deep, from)),
        MeetArg::Solvent40 => assembly.socket_depth("40", size),
        MeetArg::Solvent80 => assembly.socket_depth("80", size),
        _ => None,
    });
    let name = if fixed.is_some() { end } else { "the bell" };
    let known = depth.or(fixed.map(|(counts, _)| pipe::inches(counts)));
    let short = if gap > Distance::ZERO {
        format!(", {} short of its stop", tape(gap, unit))
    } else {
        String::new()
    };
    let Some(deep) = known else {
        return Ok(Term {
            words: format!("and ____ into the bell, lip to stop{short}"),
            meeting: None,
            cited,
        });
    };
    if depth.is_none() {
        cited.extend(fixed.map(|(_, from)| from.clone()));
    }
    Ok(Term {
        words: format!("and {} into {name}{short}", tape(deep - gap, unit)),
        meeting: Some(Meeting::Into { depth: deep, gap }),
        cited,
    })
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
