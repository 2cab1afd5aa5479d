//! The piece for damage, and a clamp where one may go.

use anyhow::{Result, bail};
use springline_core::cut::{Damage, Kind, Repair, repair};
use springline_core::image::Material;
use springline_core::unit::Distance;

use super::{CutArgs, KindArg};
use crate::cli::YesNo;
use crate::site::pipe::{self, Pipe};
use crate::site::report::{Line, Report};
use crate::site::unit::{plain, tape};

/// Adds the lines of a repair.
pub(super) fn add(
    pipe: &Pipe<'_>,
    args: &CutArgs,
    kind: KindArg,
    report: &mut Report,
) -> Result<()> {
    let unit = pipe.unit;
    let (back, gap) = (pipe.figure("cut-back")?, pipe.figure("gap")?);
    let beyond = pipe.figure("clamp-beyond")?;
    let inches = |value: f64| Distance::inches(value);
    let gap_told = pipe::by_tape(args.gap.as_ref(), unit)?;
    let gap_length = gap_told.unwrap_or(inches(gap.value.get()));
    let Some(length) = pipe::by_tape(args.damage.as_ref(), unit)? else {
        let text = format!(
            "____ that shows, and {} beyond it on each side: measure (--damage).",
            tape(inches(back.value.get()), unit)
        );
        report.add(Line::new("CUT OUT", text).by(pipe, back));
        return Ok(());
    };
    let metal = matches!(pipe.material(), Some(Material::Iron | Material::Steel));
    let damage = Damage {
        kind: kind.into(),
        length,
        sound_metal: metal && args.sound != Some(YesNo::No),
    };
    let made = repair(
        &damage,
        pipe.od,
        inches(back.value.get()),
        gap_length,
        inches(beyond.value.get()),
    );
    let Some(made) = made else {
        bail!(
            "gaps of {} leave no piece\n  try: a smaller --gap",
            tape(gap_length, unit)
        );
    };
    gouge(pipe, args, kind, report)?;
    report.add(
        Line::new(
            "CUT OUT",
            format!(
                "{}: {} that shows, {} beyond it on each side, or to the next bell. {}",
                tape(made.cut_out, unit),
                tape(length, unit),
                tape(inches(back.value.get()), unit),
                at_the_cut(damage.kind)
            ),
        )
        .with("cut_out_in", made.cut_out.in_inches())
        .by(pipe, back),
    );
    report.add(
        Line::new(
            "PIECE",
            format!(
                "{} between 2 couplings without a stop, {} of gap at each. Measure the opening when it is cut, two readings a quarter turn apart, and cut the piece by it (--opening).",
                tape(made.piece, unit),
                tape(gap_length, unit)
            ),
        )
        .with("piece_in", made.piece.in_inches())
        .with("couplings", 2.0),
    );
    let most = pipe.figure("gap-most")?;
    let mut line = Line::new(
        "GAP",
        format!(
            "{} at each coupling, usual from {} to {}; more where the pipe will grow.",
            tape(gap_length, unit),
            tape(inches(gap.value.get()), unit),
            tape(inches(most.value.get()), unit)
        ),
    )
    .with("gap_in", gap_length.in_inches());
    line = line.by(pipe, gap).by(pipe, most);
    report.add(line);
    clamp(pipe, args, &damage, &made, report)?;
    Ok(())
}

/// What is looked for at the cut face.
const fn at_the_cut(kind: Kind) -> &'static str {
    match kind {
        Kind::Split | Kind::BlownBell => {
            "Look at both cut faces: where a hair line is left, cut again."
        }
        Kind::Hole | Kind::RoundBreak | Kind::Gouge => "Both cuts in sound pipe.",
    }
}

/// How deep a gouge is.
fn gouge(pipe: &Pipe<'_>, args: &CutArgs, kind: KindArg, report: &mut Report) -> Result<()> {
    let Some(depth) = pipe::by_tape(args.gouge.as_ref(), pipe.unit)? else {
        return Ok(());
    };
    if kind != KindArg::Gouge {
        bail!("--gouge is the depth of a gouge\n  try: --kind gouge");
    }
    let most = pipe.figure("gouge")?;
    let (wall, _) = pipe.one_wall()?;
    let share = depth / wall;
    let verdict = if share > most.value.get() {
        "cut it out"
    } else {
        "not cut out by common practice where it is smooth and the rest is sound; the owner decides"
    };
    report.add(
        Line::new(
            "GOUGE",
            format!(
                "{} % of the wall, where {} % is the most: {verdict}.",
                plain(100.0 * share),
                plain(100.0 * most.value.get())
            ),
        )
        .with("gouge_share", share)
        .by(pipe, most),
    );
    Ok(())
}

fn clamp(
    pipe: &Pipe<'_>,
    args: &CutArgs,
    damage: &Damage,
    made: &Repair,
    report: &mut Report,
) -> Result<()> {
    let unit = pipe.unit;
    let Some(length) = made.clamp else {
        let why = match damage.kind {
            Kind::Split => "never over a crack along the pipe: it runs out from under it",
            Kind::Gouge => "never over a gouge",
            Kind::BlownBell => "never on a bell",
            Kind::Hole | Kind::RoundBreak => {
                "only on iron or steel that is sound all round: cut it out"
            }
        };
        report.add(
            Line::new("CLAMP", format!("none: {why}.")).told("clamp_in", serde_json::Value::Null),
        );
        return Ok(());
    };
    let beyond = pipe.figure("clamp-beyond")?;
    let seen = if args.sound == Some(YesNo::Yes) {
        ""
    } else {
        " ONLY where the metal is sound all round: scrape and look (--sound)."
    };
    report.add(
        Line::new(
            "CLAMP",
            format!(
                "or a full-circle clamp of {} or longer, {} beyond the damage on each side; it holds no pull.{seen}",
                tape(length, unit),
                tape(Distance::inches(beyond.value.get()), unit)
            ),
        )
        .with("clamp_in", length.in_inches())
        .by(pipe, beyond),
    );
    Ok(())
}
