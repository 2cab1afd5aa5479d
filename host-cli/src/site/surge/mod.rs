//! `springline surge`: how high the pressure rises where water is stopped, and whether the pipe takes it.

mod checks;

use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use springline_compiler::notes::{WaterNote, WhenNote};
use springline_core::image::{Grade, Material};
use springline_core::surge::{Anchorage, Shell, Water, closing, critical_time, rise, wave_speed};
use springline_core::unit::{Acceleration, Distance, Duration, Pressure, Speed, UnitWeight};
use springline_core::water::{bore, speed_of};

use super::pipe::{self, Pipe, PipeArgs};
use super::report::{Doings, Line, Report};
use super::unit::{plain, pressure, speed};
use super::{tables, unit};
use crate::Said;
use crate::parse;

/// A pipe, how fast the water runs, and how it is stopped.
#[derive(Args, Clone)]
pub(crate) struct SurgeArgs {
    #[command(flatten)]
    pipe: PipeArgs,
    /// How fast the water runs before it is stopped, as 5ft/s or 1.5m/s
    #[arg(
        long,
        value_name = "V",
        required_unless_present = "flow",
        conflicts_with = "flow"
    )]
    velocity: Option<String>,
    /// How much runs before it is stopped, as 400gpm or 25L/s
    #[arg(long, value_name = "Q")]
    flow: Option<String>,
    /// From where it is stopped to where the pressure holds: a tank, a much larger main
    #[arg(long, value_name = "L")]
    length: Option<String>,
    /// How long the valve takes, closing evenly [at once]
    #[arg(long, value_name = "T", requires = "length")]
    closure: Option<String>,
    /// The pump stops, as at a loss of power
    #[arg(long)]
    pump_stop: bool,
    /// Working pressure where it is stopped
    #[arg(long, value_name = "P")]
    working: Option<String>,
    /// Temperature of the pipe wall, as 95F or 35C [73F, at which pipe is rated]
    #[arg(long, value_name = "T", allow_hyphen_values = true)]
    temp: Option<String>,
    /// How often a day the water is stopped, for the life of PVC
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    per_day: Option<u32>,
    /// Set of constants for water, a key of the tables [the first one]
    #[arg(long, value_name = "KEY")]
    set: Option<String>,
    /// How the line can move along
    #[arg(long, default_value = "joints")]
    anchorage: AnchorageArg,
}

/// How a line may be held along.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum AnchorageArg {
    /// Gasket joints that slide.
    Joints,
    /// Held at the upper end alone.
    OneEnd,
    /// Held throughout, as glued or welded line in the ground.
    Throughout,
}

impl From<AnchorageArg> for Anchorage {
    fn from(told: AnchorageArg) -> Self {
        match told {
            AnchorageArg::Joints => Self::Joints,
            AnchorageArg::OneEnd => Self::OneEnd,
            AnchorageArg::Throughout => Self::Throughout,
        }
    }
}

/// What was reckoned before anything is held against a limit.
struct Surge {
    speed: Speed,
    /// The rise where it is stopped at once.
    whole: Pressure,
    /// The rise of the closure that was told; the whole one where none was.
    closed: Pressure,
    working: Option<Pressure>,
    temperature: Option<i32>,
    wall: Distance,
    per_day: Option<u32>,
}

/// Answers what a stop does.
pub(crate) fn run(args: &SurgeArgs) -> Result<Said> {
    let (image, notes) = tables()?;
    let pipe = Pipe::find(&image, &notes, &args.pipe)?;
    let mut report = Report::new("springline-surge/1");
    if pipe.refused.is_none() {
        let surge = reckon(&pipe, args, &mut report)?;
        checks::add(&pipe, &surge, &mut report)?;
    }
    let site = [WhenNote::Surge];
    let doings = Doings {
        site: &site,
        depth: 0.0,
        acts: &[],
        at_a_desk: true,
    };
    report.caution(&pipe, &doings);
    Ok(report.said(&pipe))
}

fn reckon(pipe: &Pipe<'_>, args: &SurgeArgs, report: &mut Report) -> Result<Surge> {
    let unit = pipe.unit;
    let (wall, wall_grade) = pipe.one_wall()?;
    let length = pipe::distance(args.length.as_ref(), unit)?;
    let working = pipe::pressure(args.working.as_ref())?;
    let temperature = pipe::temperature(args.temp.as_ref())?;
    let inside = bore(pipe.od, wall).unwrap_or(pipe.od);
    let told = match (&args.velocity, &args.flow) {
        (Some(text), _) => parse::speed(text)?,
        (None, Some(text)) => speed_of(parse::flow(text)?, inside),
        (None, None) => bail!("how fast does it run?\n  try: --velocity 5ft/s or --flow 400gpm"),
    };
    if told <= Speed::ZERO {
        bail!(
            "water that stands still makes no surge\n  try: --velocity 5ft/s or --flow 400gpm, as it runs before it is stopped"
        );
    }
    let weight = UnitWeight::pcf(pipe.figure("water-weight")?.value.get());
    let usual = usual(pipe, args)?;
    let speeds = waves(pipe, args, wall)?;
    let wave = speeds[usual];
    wave_line(pipe, args, &speeds, usual, (wall, wall_grade), report);

    let whole = weight * rise(wave, told, Acceleration::GRAVITY);
    let each = whole / told.in_feet_per_second().max(1e-9);
    let mut text = format!(
        "{}, where {} is stopped at once",
        pressure(whole, unit),
        speed(told, unit)
    );
    if unit == parse::Unit::Inch {
        text = format!("{text}: {} psi for each ft/s", plain(each.in_psi()));
    }
    if args.flow.is_some() {
        text = format!(
            "{text} ({} in a bore of {})",
            args.flow.as_deref().unwrap_or_default(),
            unit::tape(inside, unit)
        );
    }
    report.add(
        Line::new("RISE", format!("{text}."))
            .with("rise_psi", whole.in_psi())
            .with("velocity_fps", told.in_feet_per_second()),
    );
    let closed = closure(pipe, args, (wave, told, weight), length, report)?;
    pump(pipe, args, whole, working, report);
    Ok(Surge {
        speed: told,
        whole,
        closed,
        working,
        temperature,
        wall,
        per_day: args.per_day,
    })
}

/// Which set of constants is used.
fn usual(pipe: &Pipe<'_>, args: &SurgeArgs) -> Result<usize> {
    let waters = &pipe.notes.site.waters;
    let Some(key) = &args.set else { return Ok(0) };
    let Some(at) = waters.iter().position(|water| water.set == *key) else {
        let keys: Vec<&str> = waters.iter().map(|water| water.set.as_str()).collect();
        bail!(
            "no set \"{key}\" of constants\n  try one of: {}",
            keys.join(", ")
        );
    };
    Ok(at)
}

/// The wave speed by each set of constants.
fn waves(pipe: &Pipe<'_>, args: &SurgeArgs, wall: Distance) -> Result<Vec<Speed>> {
    let notes = &pipe.notes.site;
    let family = pipe.family();
    let Some(stiff) = notes
        .stiffness
        .iter()
        .find(|row| row.families.contains(&family))
    else {
        bail!(
            "the tables have no stiffness of {}\n  try: add its row to tables/sources/surge/stiffness.csv",
            pipe.known.family
        );
    };
    let held = Anchorage::from(args.anchorage).factor(stiff.poisson.get());
    let Some(shell) = Shell::of(pipe.od, wall, Pressure::psi(stiff.psi.get()), held) else {
        bail!("that wall leaves no bore\n  try: --wall, measured at a cut end");
    };
    let of = |water: &WaterNote| {
        let water = Water {
            sound: Speed::feet_per_second(water.sound_fps.get()),
            bulk: Pressure::psi(water.bulk_psi.get()),
        };
        wave_speed(&water, &shell)
    };
    Ok(notes.waters.iter().map(of).collect())
}

fn wave_line(
    pipe: &Pipe<'_>,
    args: &SurgeArgs,
    speeds: &[Speed],
    usual: usize,
    (thick, wall_grade): (Distance, Option<Grade>),
    report: &mut Report,
) {
    let notes = &pipe.notes.site;
    let mut text = String::new();
    let mut others: Vec<String> = Vec::new();
    for (at, (water, wave)) in notes.waters.iter().zip(speeds).enumerate() {
        let said = speed(*wave, pipe.unit);
        if at == usual {
            text = format!("{said}, by set {} ({})", water.set, water.what);
        } else {
            others.push(format!("set {} ({}) gives {said}", water.set, water.what));
        }
    }
    let family = pipe.family();
    let mut line = Line::new("WAVE", format!("{text}; {}.", others.join(", ")))
        .told("set", notes.waters[usual].set.clone())
        .with("wave_fps", speeds[usual].in_feet_per_second())
        .on(pipe, &notes.waters[usual].cited);
    if let Some(stiff) = notes
        .stiffness
        .iter()
        .find(|row| row.families.contains(&family))
    {
        line = line
            .with("bulk_psi", notes.waters[usual].bulk_psi.get())
            .with("sound_fps", notes.waters[usual].sound_fps.get());
        report.add(line);
        let mut wall = Line::new(
            "WALL",
            format!(
                "{}, of {} psi modulus for a short load.",
                crate::format::length(super::unit::counts(thick), pipe.unit),
                super::unit::whole(stiff.psi.get())
            ),
        )
        .with("stiffness_psi", stiff.psi.get())
        .on(pipe, &stiff.cited);
        if args.anchorage == AnchorageArg::Joints {
            report.taken("joints that slide (--anchorage)");
        } else {
            wall = wall
                .on(pipe, &stiff.poisson_cited)
                .with("poisson", stiff.poisson.get());
        }
        report.add(wall);
    } else {
        report.add(line);
    }
    if wall_grade == Some(Grade::Memory) {
        report.taken("the wall of this class from memory (--wall)");
    }
    if pipe.material() == Some(Material::Iron) {
        report.taken("a lining does not stiffen it");
    }
    report.taken("no friction, one pipe from end to end");
}

/// What the told closure makes, and how fast is at once.
fn closure(
    pipe: &Pipe<'_>,
    args: &SurgeArgs,
    (wave, told, weight): (Speed, Speed, UnitWeight),
    length: Option<Distance>,
    report: &mut Report,
) -> Result<Pressure> {
    let whole = weight * rise(wave, told, Acceleration::GRAVITY);
    let Some(length) = length else {
        return Ok(whole);
    };
    let critical = critical_time(length, wave);
    let valve = pipe.figure("valve-times")?;
    report.add(
        Line::new(
            "AT ONCE",
            format!(
                "is {} or less on {} of line; a control valve is given {} or more.",
                seconds(critical),
                unit::line(length, pipe.unit),
                seconds(critical * valve.value.get())
            ),
        )
        .with("critical_s", critical.in_seconds())
        .by(pipe, valve),
    );
    let Some(text) = &args.closure else {
        return Ok(whole);
    };
    let time = parse::duration(text)?;
    if time <= Duration::ZERO {
        bail!("a closure of no time is a stop at once\n  try: leave --closure out");
    }
    let made = closing(length, wave, told, time, Acceleration::GRAVITY);
    let closed = weight * made.head;
    let how = if made.at_once {
        "as much as at once"
    } else {
        "if it closes evenly"
    };
    report.add(
        Line::new(
            "CLOSING",
            format!(
                "in {}: {}, {how}.",
                seconds(time),
                pressure(closed, pipe.unit)
            ),
        )
        .with("closing_psi", closed.in_psi())
        .told("at_once", made.at_once),
    );
    Ok(closed)
}

/// What a pump that stops does: all at once, down before up.
fn pump(
    pipe: &Pipe<'_>,
    args: &SurgeArgs,
    whole: Pressure,
    working: Option<Pressure>,
    report: &mut Report,
) {
    let parts = working.is_some_and(|working| working < whole);
    if !args.pump_stop && !parts {
        return;
    }
    let unit = pipe.unit;
    let mut text = if args.pump_stop {
        format!(
            "taken as the full instant rise, {}: down first, then up",
            pressure(whole, unit)
        )
    } else {
        String::from("below the closing valve, or where a pump stops")
    };
    if parts {
        text = format!(
            "{text}. The fall is more than the working pressure: the water column may part. ASK an engineer"
        );
    }
    report.add(
        Line::new("PUMP", format!("{text}."))
            .told("column_may_part", parts)
            .no(parts && args.pump_stop),
    );
}

/// `3.1 s`.
fn seconds(time: Duration) -> String {
    format!("{} s", plain(time.in_seconds()))
}
