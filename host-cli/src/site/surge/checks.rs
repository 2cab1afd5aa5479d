//! Working pressure and surge against the class, the rules of irrigation mains, and the life of PVC.

use anyhow::Result;
use springline_compiler::notes::LimitNote;
use springline_core::image::Material;
use springline_core::surge::{Limit, cycles, held_against, hoop_stress, working_share};
use springline_core::unit::{Pressure, Speed};

use super::Surge;
use crate::site::pipe::Pipe;
use crate::site::report::{Line, Report};
use crate::site::unit::{plain, pressure, rated as up_to, speed, whole};

/// Adds what the pipe takes.
pub(super) fn add(pipe: &Pipe<'_>, surge: &Surge, report: &mut Report) -> Result<()> {
    let family = pipe.family();
    let limit = pipe
        .notes
        .site
        .limits
        .iter()
        .find(|row| row.families.contains(&family));
    if let Some(rating) = pipe.rating() {
        rated(pipe, surge, rating.class, limit, report);
    } else {
        let known = pipe.printed();
        let help = if known.is_empty() {
            String::from("ask its maker")
        } else {
            format!("--class, one of: {known}")
        };
        report.add(Line::new(
            "CLASS",
            format!("not told, or without a pressure in the tables: nothing is held against it ({help})."),
        ));
    }
    if limit.is_some_and(|limit| limit.irrigation) {
        irrigation(pipe, surge, report)?;
    }
    if pipe.material() == Some(Material::Pvc) {
        fatigue(pipe, surge, report)?;
    }
    Ok(())
}

fn rated(
    pipe: &Pipe<'_>,
    surge: &Surge,
    class: Pressure,
    limit: Option<&LimitNote>,
    report: &mut Report,
) {
    let unit = pipe.unit;
    let Some(left) = pipe.left(surge.temperature) else {
        let text = "this warm it is not rated for pressure at all.";
        report.add(Line::new("CLASS", text).no(true).told("rated", false));
        return;
    };
    if let Some(older) = pipe.printed_otherwise() {
        report.taken(older);
    }
    let rated = class * left;
    let mut text = up_to(rated, unit);
    if left < 1.0 {
        text = format!(
            "{text}: {} of {} is left when warm",
            plain(left),
            pressure(class, unit)
        );
    } else if surge.temperature.is_none() {
        report.taken("73 F, at which pipe is rated (--temp)");
    }
    report.add(
        Line::new("CLASS", format!("{text}."))
            .with("class_psi", class.in_psi())
            .with("rated_psi", rated.in_psi())
            .with("left", left),
    );
    let Some(row) = limit else {
        let text = format!(
            "working pressure and surge of {}: the tables have no rule that can be cited. Ask the owner or its maker.",
            pipe.known.name
        );
        report.add(Line::new("RULE", text).told("rule", serde_json::Value::Null));
        return;
    };
    against(pipe, surge, (class, left), row, report);
}

/// Working pressure and surge by the rule of the family.
fn against(
    pipe: &Pipe<'_>,
    surge: &Surge,
    (class, left): (Pressure, f64),
    row: &LimitNote,
    report: &mut Report,
) {
    let (unit, rated) = (pipe.unit, class * left);
    let limit = Limit {
        recurring: row.recurring.get(),
        occasional: row.occasional.get(),
        allowance: Pressure::psi(row.allowance_psi.get()),
    };
    let surges = [surge.closed, surge.whole];
    let working = surge.working.unwrap_or_default();
    let [alone, often, seldom] = held_against(class, left, working, surges, &limit);
    if surge.working.is_none() {
        let room = (often.limit - surge.closed)
            .min(seldom.limit - surge.whole)
            .min(rated);
        let text = if room > Pressure::ZERO {
            format!(
                "leaves {} of working pressure, by {}.",
                up_to(room, unit),
                row.rule
            )
        } else {
            format!("leaves nothing for working pressure, by {}.", row.rule)
        };
        report.add(
            Line::new("SURGE", text)
                .with("most_working_psi", room.max(Pressure::ZERO).in_psi())
                .on(pipe, &row.cited)
                .no(room <= Pressure::ZERO),
        );
        return;
    }
    let lines = [
        ("WORKING", "working_psi", alone, String::from("alone")),
        (
            "OFTEN",
            "recurring_psi",
            often,
            format!(
                "with {} that comes again and again, by {}",
                pressure(surge.closed, unit),
                row.rule
            ),
        ),
        (
            "SELDOM",
            "occasional_psi",
            seldom,
            format!(
                "with {} once in a while, by {}",
                pressure(surge.whole, unit),
                row.rule
            ),
        ),
    ];
    for (mark, key, check, how) in lines {
        let word = if check.holds() { "within" } else { "OVER" };
        report.add(
            Line::new(
                mark,
                format!(
                    "{} {how}: {word} {}.",
                    pressure(check.total, unit),
                    up_to(check.limit, unit)
                ),
            )
            .with(key, check.total.in_psi())
            .on(pipe, &row.cited)
            .no(!check.holds()),
        );
    }
}

fn irrigation(pipe: &Pipe<'_>, surge: &Surge, report: &mut Report) -> Result<()> {
    let unit = pipe.unit;
    let most = pipe.figure("speed-limit")?;
    let limit = Speed::feet_per_second(most.value.get());
    let over = surge.speed.in_feet_per_second() > most.value.get() + 1e-9;
    let word = if over { "OVER" } else { "within" };
    report.add(
        Line::new(
            "SPEED",
            format!(
                "{}: {word} the {} of irrigation mains.",
                speed(surge.speed, unit),
                speed(limit, unit)
            ),
        )
        .told("speed_over", over)
        .by(pipe, most),
    );
    let share = pipe.figure("working-share")?;
    let (Some(class), Some(left)) = (
        pipe.rating().map(|rating| rating.class),
        pipe.left(surge.temperature),
    ) else {
        return Ok(());
    };
    let [working, kept] = working_share(class * left, share.value.get());
    report.add(
        Line::new(
            "72 %",
            format!(
                "irrigation rule where surge is not computed: {} for working, {} kept for surge.",
                up_to(working, unit),
                up_to(kept, unit)
            ),
        )
        .with("share_working_psi", working.in_psi())
        .with("share_surge_psi", kept.in_psi())
        .by(pipe, share),
    );
    Ok(())
}

fn fatigue(pipe: &Pipe<'_>, surge: &Surge, report: &mut Report) -> Result<()> {
    let ratio = pipe.od / surge.wall;
    let swing = hoop_stress(surge.closed, ratio);
    let (scale, power) = (pipe.figure("fatigue-scale")?, pipe.figure("fatigue-power")?);
    let most = cycles(swing, scale.value.get(), power.value.get());
    if !most.is_finite() {
        return Ok(());
    }
    let mut text = format!(
        "a swing of {} again and again is {} MPa in the wall: some {} times in its life",
        pressure(surge.closed, pipe.unit),
        plain(swing.in_mpa()),
        rounded(most)
    );
    let mut line = Line::new("FATIGUE", "");
    if let Some(times) = surge.per_day {
        let years = most / f64::from(times) / 365.25;
        text = format!("{text}, {} years at {times} a day", rounded(years));
        line = line.with("fatigue_years", years);
    }
    line = line
        .with("fatigue_cycles", most)
        .by(pipe, scale)
        .by(pipe, power);
    report.add(line.text(format!("{text} (a mean, without a margin).")));
    Ok(())
}

/// Two digits: what is known of it is no finer.
fn rounded(value: f64) -> String {
    let step = tenth(value);
    whole((value / step).round() * step)
}

/// A tenth of the power of ten that a value begins with, one at least.
fn tenth(value: f64) -> f64 {
    10_f64
        .powf(value.abs().max(1.0).log10().floor() - 1.0)
        .max(1.0)
}
