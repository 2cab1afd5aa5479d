//! `springline dig`: bare barrel, the hole and its sump, water to pump out. Nothing here says that a trench is safe.

mod tap;

use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use springline_compiler::notes::WhenNote;
use springline_core::dig::{Outline, Room, bare_barrel, outline};
use springline_core::joint::Act;
use springline_core::unit::Distance;
use springline_core::water::held;

use super::pipe::{self, Pipe, PipeArgs};
use super::report::{Doings, Line, Report};
use super::tables;
use super::unit::{line, plain, shovel, tape, volume};
use crate::Said;
use crate::parse::Unit;

/// A job, and how deep the pipe lies.
#[derive(Args, Clone)]
pub(crate) struct DigArgs {
    #[command(flatten)]
    pipe: PipeArgs,
    /// Ground to the top of the pipe
    #[arg(long, value_name = "L")]
    cover: String,
    /// What is to be done
    #[arg(long, default_value = "piece")]
    job: DigJob,
    /// Length of the coupling, the sleeve or the clamp in hand
    #[arg(long, value_name = "L")]
    coupling: Option<String>,
    /// What is cut out, end to end; of a sleeve over a break, the gap [none at all]
    #[arg(long, value_name = "L")]
    opening: Option<String>,
    /// Bare barrel that is wanted, instead of what the job asks for
    #[arg(long, value_name = "L")]
    bare: Option<String>,
    /// Length of line that runs empty into the hole
    #[arg(long, value_name = "L")]
    drains: Option<String>,
}

/// What a hole may be dug for.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum DigJob {
    /// A piece between two couplings without a stop, both slid back onto the pipe.
    Piece,
    /// One sleeve over a gap.
    Sleeve,
    /// A full-circle clamp.
    Clamp,
    /// A tap or a saddle.
    Tap,
    /// A joint that is made or taken apart, with nothing that slides.
    Joint,
}

/// What is dug for, as far as it is known.
pub(crate) struct Dug {
    pub(crate) job: DigJob,
    /// Ground to the top of the pipe.
    pub(crate) cover: Option<Distance>,
    /// Length of the coupling, the sleeve or the clamp.
    pub(crate) coupling: Option<Distance>,
    /// What is cut out, end to end; nothing where no piece is put in.
    pub(crate) opening: Option<Distance>,
    /// Bare barrel, as told.
    pub(crate) bare: Option<Distance>,
}

/// Answers what is dug.
pub(crate) fn run(args: &DigArgs) -> Result<Said> {
    let (image, notes) = tables()?;
    let pipe = Pipe::find(&image, &notes, &args.pipe)?;
    let mut report = Report::new("springline-dig/1");
    let mut depth = Distance::ZERO;
    if pipe.refused.is_none() {
        let tape = |text: &Option<String>| pipe::by_tape(text.as_ref(), pipe.unit);
        let dug = Dug {
            job: args.job,
            cover: pipe::distance(Some(&args.cover), pipe.unit)?,
            coupling: tape(&args.coupling)?,
            opening: Some(tape(&args.opening)?.unwrap_or_default()),
            bare: tape(&args.bare)?,
        };
        depth = hole(&pipe, &dug, &mut report)?;
        if let Some(length) = pipe::distance(args.drains.as_ref(), pipe.unit)? {
            water(&pipe, length, &mut report);
        }
        if args.job == DigJob::Tap {
            tap::add(&pipe, &mut report)?;
        }
    }
    let site = [WhenNote::Dig];
    let acts: &[Act] = match args.job {
        DigJob::Tap => &[Act::Tap],
        DigJob::Clamp => &[Act::Around],
        DigJob::Piece | DigJob::Sleeve | DigJob::Joint => &[Act::Cut],
    };
    let doings = Doings {
        site: &site,
        depth: depth.in_feet(),
        acts,
        at_a_desk: false,
    };
    report.caution(&pipe, &doings);
    Ok(report.said(&pipe))
}

/// What is dug beyond the pipe, by the tables.
fn room(pipe: &Pipe<'_>) -> Result<Room> {
    let inches = |key: &str| {
        let figure = pipe.figure(key)?;
        anyhow::Ok(Distance::inches(figure.value.get()))
    };
    let large = pipe.nominal >= pipe.figure("large")?.value.get();
    Ok(Room {
        under: inches(if large { "under-large" } else { "under" })?,
        beside: inches("beside")?,
        sump: inches("sump")?,
        slide_more: inches("slide-more")?,
        other_more: inches("other-more")?,
    })
}

/// The bare barrel, in words and in all; none where a length is not told, with what it would be.
fn bare(pipe: &Pipe<'_>, dug: &Dug, room: &Room) -> (Option<Distance>, String) {
    let unit = pipe.unit;
    if let Some(bare) = dug.bare {
        return (Some(bare), format!("{}, as told", tape(bare, unit)));
    }
    let at = match dug.job {
        DigJob::Tap => Some("the tap"),
        DigJob::Joint => Some("the joint"),
        _ => None,
    };
    if let Some(at) = at {
        let all = room.beside * 2.0;
        return (Some(all), format!("{} to work at {at}", tape(all, unit)));
    }
    let known = dug.coupling.map(|coupling| bare_barrel(coupling, room));
    let (Some(coupling), Some(bare), Some(opening)) = (dug.coupling, known, dug.opening) else {
        return (None, blanks(pipe, dug, room));
    };
    match dug.job {
        DigJob::Sleeve => (
            Some(bare.slide + opening + bare.other),
            format!(
                "{} on the side that it slides onto, {} on the other, {} between",
                tape(bare.slide, unit),
                tape(bare.other, unit),
                tape(opening, unit)
            ),
        ),
        DigJob::Clamp => {
            let all = coupling + room.other_more * 2.0;
            (Some(all), format!("{} for the clamp", tape(all, unit)))
        }
        DigJob::Piece | DigJob::Tap | DigJob::Joint => (
            Some(bare.slide * 2.0 + opening),
            format!(
                "{} on each side of {} cut out, for each coupling to slide fully onto the pipe",
                tape(bare.slide, unit),
                tape(opening, unit)
            ),
        ),
    }
}

/// The bare barrel with blanks for what is not known.
fn blanks(pipe: &Pipe<'_>, dug: &Dug, room: &Room) -> String {
    let unit = pipe.unit;
    let blank = || String::from("____");
    let more = tape(room.slide_more, unit);
    let other = tape(room.other_more, unit);
    let opening = dug.opening.filter(|opening| *opening > Distance::ZERO);
    let gap = opening.map_or_else(blank, |opening| tape(opening, unit));
    let length = dug.coupling.map_or_else(blank, |length| tape(length, unit));
    let text = match dug.job {
        DigJob::Sleeve => format!(
            "{length} (sleeve) and {more} on the side that it slides onto, {gap} of gap, half of {length} and {other} on the other"
        ),
        DigJob::Clamp => format!("{length} (clamp) and {other} on each side"),
        DigJob::Piece | DigJob::Tap | DigJob::Joint => {
            format!("{gap} cut out, and on each side {length} (coupling) and {more}")
        }
    };
    let measure = if dug.coupling.is_none() {
        "Lay it on the bank and measure: --coupling"
    } else {
        "What is cut out: --opening"
    };
    format!("{text}. {measure}")
}

/// The lines of the hole, and how deep it is at its deepest.
pub(crate) fn hole(pipe: &Pipe<'_>, dug: &Dug, report: &mut Report) -> Result<Distance> {
    let cover = dug.cover.unwrap_or_default();
    let room = room(pipe)?;
    let (all, words) = bare(pipe, dug, &room);
    let figure = pipe.figure("slide-more")?;
    let mut line = Line::new(
        "BARE",
        format!("{words}. Straight, clean, round, no bell in the way."),
    )
    .by(pipe, figure);
    if let Some(all) = all {
        line = line.with("bare_in", all.in_inches());
    }
    report.add(line);
    // Without its length the depth is known all the same.
    let known = outline(all.unwrap_or(Distance::inches(1.0)), pipe.od, cover, &room);
    let Some(hole) = known else {
        bail!("a bare length of nothing is no hole\n  try: --bare 4ft, or --coupling 12in");
    };
    if dug.cover.is_some() {
        outline_lines(pipe, all.is_some(), &hole, report)?;
        report.taken(
            "the cover at the deepest place of the hole; depths of the cautions count to the sump",
        );
        return Ok(hole.sump);
    }
    let length = all.map_or_else(|| String::from("____"), |_| shovel(hole.length, pipe.unit));
    let text = format!(
        "{length} long, {} wide at the bottom, ____ deep: cover, and {} for pipe and room under it; the sump {} more (--depth).",
        shovel(hole.width, pipe.unit),
        shovel(hole.depth, pipe.unit),
        tape(room.sump, pipe.unit)
    );
    report.add(Line::new("HOLE", text).by(pipe, pipe.figure("under")?));
    Ok(Distance::ZERO)
}

fn outline_lines(pipe: &Pipe<'_>, whole: bool, hole: &Outline, report: &mut Report) -> Result<()> {
    let unit = pipe.unit;
    let under = pipe.figure("under")?;
    let length = if whole {
        shovel(hole.length, unit)
    } else {
        String::from("____")
    };
    let mut line = Line::new(
        "HOLE",
        format!(
            "{length} long, {} wide, {} deep, at the bottom; shoring and slopes widen it as the competent person says.",
            shovel(hole.width, unit),
            shovel(hole.depth, unit)
        ),
    )
    .with("width_in", hole.width.in_inches())
    .with("depth_in", hole.depth.in_inches())
    .by(pipe, under);
    if whole {
        line = line.with("length_in", hole.length.in_inches());
    }
    report.add(line);
    report.add(
        Line::new(
            "SUMP",
            format!(
                "to {} at the low end, for the pump.",
                shovel(hole.sump, unit)
            ),
        )
        .with("sump_in", hole.sump.in_inches())
        .by(pipe, pipe.figure("sump")?),
    );
    if whole {
        report.add(
            Line::new(
                "SOIL",
                format!(
                    "{} with upright walls, more when it is loose.",
                    match unit {
                        Unit::Inch => format!("{} yd3", plain(hole.soil().in_cubic_yards())),
                        Unit::Millimetre => format!("{} m3", plain(hole.soil().in_cubic_metres())),
                    }
                ),
            )
            .with("soil_yd3", hole.soil().in_cubic_yards()),
        );
    }
    Ok(())
}

/// What runs out of the line.
pub(crate) fn water(pipe: &Pipe<'_>, length: Distance, report: &mut Report) {
    let bore = pipe.bores().map_or_else(
        || {
            report.taken("the nominal size as the bore (--class or --wall)");
            Distance::inches(pipe.nominal)
        },
        |[_, large]| large,
    );
    let all = held(bore, length);
    report.add(
        Line::new(
            "PUMP",
            format!(
                "{} out of {} of line, and what the valves let by.",
                volume(all, pipe.unit),
                line(length, pipe.unit)
            ),
        )
        .with("pump_gal", all.in_gallons()),
    );
}
