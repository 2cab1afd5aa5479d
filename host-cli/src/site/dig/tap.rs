//! How large an outlet may be, and how far from what.

use anyhow::Result;
use springline_compiler::notes::{Most, OutletNote, TapNote};
use springline_core::joint::Owner;
use springline_core::unit::Distance;

use crate::site::pipe::Pipe;
use crate::site::report::{Line, Report};
use crate::site::unit::tape;

/// Adds the lines of a tap.
pub(super) fn add(pipe: &Pipe<'_>, report: &mut Report) -> Result<()> {
    for direct in [true, false] {
        let rows: Vec<&TapNote> = pipe
            .notes
            .site
            .taps
            .iter()
            .filter(|tap| tap.direct == direct && is_about(tap, pipe))
            .collect();
        let rule = if direct { None } else { theirs(pipe) };
        if let Some(rule) = rule {
            let inches = f64::from(rule.most) / 64.0;
            let most = tape(Distance::inches(inches), crate::parse::Unit::Inch);
            report.add(
                Line::new(
                    mark(direct),
                    format!(
                        "{most} at most, on a purveyor's; by a town's rule, and theirs may be another: ask."
                    ),
                )
                .with("saddle_most_in", inches)
                .on(pipe, &rule.cited),
            );
        }
        if rows.is_empty() && rule.is_none() {
            let text = if direct {
                "never on this pipe: a saddle, or a tap tee."
            } else {
                "no rule of theirs is known: half of the main at most, and what their own rule says: ask."
            };
            report.add(Line::new(mark(direct), text));
        }
        for tap in rows {
            let (most, inches) = match tap.most {
                Most::Half => (String::from("half of the main"), pipe.nominal / 2.0),
                Most::Inches(size) => {
                    let size = size.get();
                    (tape(Distance::inches(size), crate::parse::Unit::Inch), size)
                }
            };
            let whose = match tap.owner {
                Some(code) if code == Owner::Ours as u8 => ", on our own pipe",
                Some(_) => ", on a purveyor's",
                None => "",
            };
            let class = if tap.classes.is_empty() || pipe.known.class.is_some() {
                String::new()
            } else {
                format!(", {} alone", tap.classes.join(" and "))
            };
            let key = if direct {
                "direct_most_in"
            } else {
                "saddle_most_in"
            };
            report.add(
                Line::new(
                    mark(direct),
                    format!("{most} at most{whose}{class}; {}.", tap.what),
                )
                .with(key, inches)
                .on(pipe, &tap.cited),
            );
        }
    }
    let (apart, bell) = (pipe.figure("tap-apart")?, pipe.figure("tap-bell")?);
    let inches = |value: f64| tape(Distance::inches(value), pipe.unit);
    report.add(
        Line::new(
            "CLEAR",
            format!(
                "{} from another tap, {} from the face of a bell.",
                inches(apart.value.get()),
                inches(bell.value.get())
            ),
        )
        .with("tap_apart_in", apart.value.get())
        .with("tap_bell_in", bell.value.get())
        .by(pipe, apart)
        .by(pipe, bell),
    );
    Ok(())
}

/// What a purveyor allows off this main, where it may be theirs.
fn theirs<'a>(pipe: &Pipe<'a>) -> Option<&'a OutletNote> {
    if pipe.owner == Owner::Ours {
        return None;
    }
    let measure = pipe.image.measure(pipe.known.pipe.row.size);
    let of = |rule: &&OutletNote| {
        rule.owner == Owner::Purveyor as u8 && (rule.mains.0..=rule.mains.1).contains(&measure)
    };
    pipe.notes.joints.outlets.iter().find(of)
}

const fn mark(direct: bool) -> &'static str {
    if direct { "DIRECT" } else { "SADDLE" }
}

fn is_about(tap: &TapNote, pipe: &Pipe<'_>) -> bool {
    let owner = tap
        .owner
        .is_none_or(|code| pipe.owner == Owner::Unknown || pipe.owner as u8 == code);
    let family = tap.families.is_empty() || tap.families.contains(&pipe.family());
    let class = match &pipe.known.class {
        Some(class) => tap.classes.is_empty() || tap.classes.contains(class),
        None => true,
    };
    owner && family && class && tap.mains.holds(pipe.nominal)
}
