//! `springline fill`: what a line holds, how it is filled, flushed and tested, and what it may take up.

mod test;

use anyhow::{Result, bail};
use clap::Args;
use springline_compiler::notes::{FigureNote, WhenNote};
use springline_core::unit::{Distance, Duration, Speed};
use springline_core::water::{flow_at, held, per_foot};

use super::pipe::{self, Pipe, PipeArgs};
use super::report::{Doings, Line, Report};
use super::tables;
use super::unit::{flow, line, plain, speed, tape, volume};
use crate::Said;

/// A length of line, and how it is tested.
#[derive(Args, Clone)]
pub(crate) struct FillArgs {
    #[command(flatten)]
    pipe: PipeArgs,
    /// Length of the line that is filled
    #[arg(long, value_name = "L")]
    length: String,
    /// Working pressure of the line; what it is tested at goes by it
    #[arg(long, value_name = "P")]
    working: Option<String>,
    /// How far the ground falls from the high point to the low one [level ground]
    #[arg(long, value_name = "L")]
    fall: Option<String>,
    /// The test pressure that is meant, at the low point
    #[arg(long, value_name = "P")]
    test: Option<String>,
    /// Rating of another part in the line, or of a restraint; the least of all counts
    #[arg(long, value_name = "P")]
    rating: Vec<String>,
    /// How long the test is held [as the tables have it]
    #[arg(long, value_name = "T")]
    hours: Option<String>,
    /// What was pumped back in that time, as 1.5gal
    #[arg(long, value_name = "VOLUME", requires = "test")]
    pumped: Option<String>,
    /// Temperature of the pipe wall, as 95F or 35C [73F, at which pipe is rated]
    #[arg(long, value_name = "T", allow_hyphen_values = true)]
    temp: Option<String>,
}

/// Answers how a line is filled.
pub(crate) fn run(args: &FillArgs) -> Result<Said> {
    let (image, notes) = tables()?;
    let pipe = Pipe::find(&image, &notes, &args.pipe)?;
    let mut report = Report::new("springline-fill/1");
    if pipe.refused.is_none() {
        let length = pipe::distance(Some(&args.length), pipe.unit)?.unwrap_or_default();
        if length <= Distance::ZERO {
            bail!("a line of no length holds nothing\n  try: --length 2000ft");
        }
        water(&pipe, length, &mut report)?;
        test::add(&pipe, args, length, &mut report)?;
    }
    let site = [WhenNote::Fill];
    let doings = Doings {
        site: &site,
        depth: 0.0,
        acts: &[],
        at_a_desk: false,
    };
    report.caution(&pipe, &doings);
    Ok(report.said(&pipe))
}

/// What it holds, and how fast it is filled and flushed.
fn water(pipe: &Pipe<'_>, length: Distance, report: &mut Report) -> Result<()> {
    let unit = pipe.unit;
    // The large bore for what must be pumped and carried off, the small one for what may be let in.
    let [small, large] = pipe.bores().unwrap_or_else(|| {
        report.taken("the nominal size as the bore (--class or --wall)");
        [Distance::inches(pipe.nominal); 2]
    });
    if large > small {
        report.taken("any class of this size: the largest bore for volumes and flushing, the least for filling (--class)");
    }
    let whole = held(large, length);
    report.add(
        Line::new(
            "HOLDS",
            format!(
                "{} in {}, {} a foot: as much to pump out. Bore {}.",
                volume(whole, unit),
                line(length, unit),
                volume(per_foot(large), unit),
                tape(large, unit)
            ),
        )
        .with("volume_gal", whole.in_gallons())
        .with("bore_in", large.in_inches()),
    );
    let most = pipe.figure("fill-speed")?;
    let fill = Speed::feet_per_second(most.value.get());
    let gentle = flow_at(small, fill);
    report.add(
        Line::new(
            "FILL",
            format!(
                "{} at most, which is {}: {} at the least. From the low end, vents open at every high point.",
                flow(gentle, unit),
                speed(fill, unit),
                clock(whole / gentle)
            ),
        )
        .with("fill_gpm", gentle.in_gpm())
        .with("fill_min", (whole / gentle).in_minutes())
        .by(pipe, most),
    );
    let figures = ["flush-speed", "flush-new", "flush-least", "flush-most"];
    let [least, new, few, many] = figures.map(|key| pipe.figure(key));
    let (least, new, few, many) = (least?, new?, few?, many?);
    let at = |figure: &FigureNote| Speed::feet_per_second(figure.value.get());
    let (slow, fast) = (flow_at(large, at(least)), flow_at(large, at(new)));
    report.add(
        Line::new(
            "FLUSH",
            format!(
                "{} or more, which is {}; {} to {} volumes: {} to {}, {} to {}.",
                flow(slow, unit),
                speed(at(least), unit),
                plain(few.value.get()),
                plain(many.value.get()),
                volume(whole * few.value.get(), unit),
                volume(whole * many.value.get(), unit),
                clock(whole * few.value.get() / slow),
                clock(whole * many.value.get() / slow)
            ),
        )
        .with("flush_gpm", slow.in_gpm())
        .by(pipe, least)
        .by(pipe, few),
    );
    report.add(
        Line::new(
            "",
            format!(
                "Owners may ask {}: {}.",
                speed(at(new), unit),
                flow(fast, unit)
            ),
        )
        .with("flush_new_gpm", fast.in_gpm())
        .by(pipe, new),
    );
    Ok(())
}

/// `48 min`, `3 h 20 min`.
pub(super) fn clock(time: Duration) -> String {
    let minutes = time.in_minutes();
    if minutes < 90.0 {
        format!("{} min", plain(minutes.max(1.0).round()))
    } else {
        format!("{} h", plain((time.in_hours() * 10.0).round() / 10.0))
    }
}
