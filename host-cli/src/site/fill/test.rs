//! What the line is tested at, what it may take up, and whether it did.

use anyhow::{Result, bail};
use springline_core::image::Material;
use springline_core::unit::{Distance, Duration, Pressure, UnitWeight, Volume};
use springline_core::water::{Loss, TestPressure, makeup, test_pressure};

use super::{FillArgs, clock};
use crate::parse;
use crate::site::pipe::{self, Pipe};
use crate::site::report::{Line, Report};
use crate::site::unit::{line, plain, pressure, rated, volume};

/// The least rating that was told, and what it is of.
fn ceiling(
    pipe: &Pipe<'_>,
    args: &FillArgs,
    report: &mut Report,
) -> Result<Option<(Pressure, String)>> {
    let temperature = pipe::temperature(args.temp.as_ref())?;
    let Some(left) = pipe.left(temperature) else {
        bail!(
            "this warm the pipe is not rated for pressure at all\n  try: test it cool, and say --temp"
        );
    };
    let mut all: Vec<(Pressure, String)> = Vec::new();
    if let Some(rating) = pipe.rating() {
        if let Some(older) = pipe.printed_otherwise() {
            report.taken(older);
        }
        let warm = if left < 1.0 { ", warm" } else { "" };
        all.push((rating.class * left, format!("the class of the pipe{warm}")));
        if temperature.is_none() && pipe.material() != Some(Material::Iron) {
            report.taken("73 F, at which pipe is rated (--temp)");
        }
    } else {
        report.taken("no class, so that the pipe itself sets no limit here (--class)");
    }
    for text in &args.rating {
        all.push((parse::pressure(text)?, String::from("a part's rating")));
    }
    if args.rating.is_empty() {
        report.taken("every part and restraint rated for the test (--rating, the least of them)");
    }
    Ok(all.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)))
}

/// Adds test pressure, makeup allowance and what was pumped back.
pub(super) fn add(
    pipe: &Pipe<'_>,
    args: &FillArgs,
    length: Distance,
    report: &mut Report,
) -> Result<()> {
    let working = pipe::pressure(args.working.as_ref())?;
    let told = pipe::pressure(args.test.as_ref())?;
    let fall = pipe::distance(args.fall.as_ref(), pipe.unit)?.unwrap_or_default();
    let most = ceiling(pipe, args, report)?;
    let hours = match &args.hours {
        Some(text) => parse::duration(text)?,
        None => Duration::hours(pipe.figure("test-hours")?.value.get()),
    };
    if hours <= Duration::ZERO {
        bail!("a test of no time is none\n  try: --hours 2h");
    }
    let test = match working {
        Some(working) => Some(window(pipe, working, fall, most.as_ref(), hours, report)?),
        None => None,
    };
    if let Some(told) = told {
        judged(pipe, told, test.as_ref(), most.as_ref(), report);
    }
    let can_be = test.filter(TestPressure::can_be).map(|test| test.least);
    let Some(at) = told.or(can_be) else {
        if working.is_none() {
            let ask = "say --working, or --test as the owner has it; then also what the line may take up.";
            report.add(Line::new("TEST", ask));
        }
        return Ok(());
    };
    allowance(pipe, args, length, at, hours, report)
}

/// Between what the test lies.
fn window(
    pipe: &Pipe<'_>,
    working: Pressure,
    fall: Distance,
    most: Option<&(Pressure, String)>,
    hours: Duration,
    report: &mut Report,
) -> Result<TestPressure> {
    let unit = pipe.unit;
    let (high, low) = (pipe.figure("test-high")?, pipe.figure("test-low")?);
    let floor = pipe.figure("test-floor")?;
    let swing = pipe.figure("test-swing")?;
    let weight = UnitWeight::pcf(pipe.figure("water-weight")?.value.get());
    let limit = most.map(|(most, _)| *most);
    let test = test_pressure(
        working,
        weight * fall,
        high.value.get(),
        low.value.get(),
        limit,
    );
    let why = if test.by_high {
        format!(
            "{} times {} at the high point and {} of fall",
            plain(high.value.get()),
            pressure(working, unit),
            line(fall, unit)
        )
    } else {
        format!(
            "{} times {}",
            plain(low.value.get()),
            pressure(working, unit)
        )
    };
    let upper = most.map_or(String::new(), |(most, of)| {
        format!(" and no more than {}, {of}", rated(*most, unit))
    });
    let mut words = format!(
        "at the low point {} at least, {why}{upper}; held {} within {}",
        pressure(test.least, unit),
        clock(hours),
        pressure(Pressure::psi(swing.value.get()), unit)
    );
    if !test.can_be() {
        words = format!(
            "{words}. THE TWO DO NOT GO TOGETHER: {}",
            if test.by_high {
                "test it in parts by height, or ask the owner"
            } else {
                "ask the owner what it is tested at"
            }
        );
    } else if test.least < Pressure::psi(floor.value.get()) {
        words = format!(
            "{words}. Owners often ask {} at least",
            pressure(Pressure::psi(floor.value.get()), unit)
        );
    }
    let mut line = Line::new("TEST", format!("{words}."))
        .with("test_least_psi", test.least.in_psi())
        .with("test_hours", hours.in_hours())
        .by(pipe, if test.by_high { high } else { low })
        .no(!test.can_be());
    if let Some(most) = limit {
        line = line.with("test_most_psi", most.in_psi());
    }
    report.add(line);
    Ok(test)
}

/// The pressure that was meant against the window.
fn judged(
    pipe: &Pipe<'_>,
    told: Pressure,
    test: Option<&TestPressure>,
    most: Option<&(Pressure, String)>,
    report: &mut Report,
) {
    let over = most.filter(|(most, _)| told > *most);
    let under = test.is_some_and(|test| told < test.least);
    let verdict = match over {
        Some((most, of)) => format!(
            "OVER {}, {of}: no part is tested above its rating",
            rated(*most, pipe.unit)
        ),
        None if under => String::from("less than the working pressure asks for"),
        None if test.is_some() => String::from("within that"),
        None => String::from("as it was told"),
    };
    report.add(
        Line::new("AT", format!("{}: {verdict}.", pressure(told, pipe.unit)))
            .with("test_psi", told.in_psi())
            .no(over.is_some() || under),
    );
}

/// What it may take up at a pressure, and what it did.
fn allowance(
    pipe: &Pipe<'_>,
    args: &FillArgs,
    length: Distance,
    at: Pressure,
    hours: Duration,
    report: &mut Report,
) -> Result<()> {
    let unit = pipe.unit;
    if !matches!(pipe.material(), Some(Material::Pvc | Material::Iron)) {
        let text = "no allowance here: the usual formula is of gasketed iron and PVC line. Fused pipe stretches under test; its procedure is the owner's.";
        report.add(Line::new("MAKEUP", text));
        return Ok(());
    }
    let (now, older) = (pipe.figure("makeup")?, pipe.figure("makeup-older")?);
    let nominal = Distance::inches(pipe.nominal);
    let by = |constant: f64| makeup(length, nominal, at, constant) * hours;
    let (may, might) = (by(now.value.get()), by(older.value.get()));
    report.add(
        Line::new(
            "MAKEUP",
            format!(
                "{} in {} at {}, gasketed joints, constant {} (older iron forms, {}: {}). Nothing that shows is allowed.",
                volume(may, unit),
                clock(hours),
                pressure(at, unit),
                plain(now.value.get()),
                plain(older.value.get()),
                volume(might, unit)
            ),
        )
        .with("makeup_gal", may.in_gallons())
        .with("makeup_gph", (may / hours).in_gph())
        .with("makeup_older_gal", might.in_gallons())
        .by(pipe, now),
    );
    if let Some(text) = &args.pumped {
        pumped(
            pipe,
            (parse::volume(text)?, may),
            (length, nominal),
            hours,
            report,
        );
    }
    Ok(())
}

fn pumped(
    pipe: &Pipe<'_>,
    (volume_back, may): (Volume, Volume),
    (length, nominal): (Distance, Distance),
    hours: Duration,
    report: &mut Report,
) {
    let loss = Loss {
        volume: volume_back,
        time: hours,
    };
    let over = volume_back > may;
    let verdict = if over {
        "OVER: find it, make it good, test again"
    } else {
        "within the allowance"
    };
    report.add(
        Line::new(
            "PUMPED",
            format!(
                "{} back in {}: {verdict}. In older units {} gal a day, mile and inch.",
                volume(volume_back, pipe.unit),
                clock(hours),
                plain(loss.gallons_per_day_mile_inch(length, nominal))
            ),
        )
        .with("pumped_gal", volume_back.in_gallons())
        .told("pumped_over", over)
        .no(over),
    );
}
