//! The site and the line as told: options to quantities of the core.

use anyhow::{Result, bail};
use springline_compiler::assembly::StickNote;
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_core::thrust::{Fitting, Line, Pressures, Stop, StopKind, Turn, line_of};
use springline_core::unit::{Angle, Distance, Pressure};

use super::args::{FittingArg, RestrainArgs};
use crate::cli::{EndArg, FitsArgs};
use crate::fits::known::Known;
use crate::parse::{self, Unit};

/// Changes of direction that bends are cast or moulded in, degrees; common practice.
const ANGLES: [(f64, &str); 7] = [
    (5.625, "5-5/8"),
    (11.25, "11-1/4"),
    (22.5, "22-1/2"),
    (30.0, "30"),
    (45.0, "45"),
    (60.0, "60"),
    (90.0, "90"),
];

/// Reads a distance.
pub(super) fn distance(text: Option<&String>, unit: Unit) -> Result<Option<Distance>> {
    let read = text.map(|text| parse::distance(text, unit));
    Ok(read.transpose()?)
}

fn pressure(text: Option<&String>) -> Result<Option<Pressure>> {
    Ok(text.map(|text| parse::pressure(text)).transpose()?)
}

/// The pressures that were told.
pub(super) fn pressures(args: &RestrainArgs) -> Result<Pressures> {
    let unit = args.units.into();
    let below = distance(args.below.as_ref(), unit)?.unwrap_or_default();
    let above = distance(args.above.as_ref(), unit)?.unwrap_or_default();
    let all = Pressures {
        told: pressure(args.pressure.as_ref())?,
        shutoff: pressure(args.shutoff.as_ref())?,
        at_rest: pressure(args.at_rest.as_ref())?,
        below: below - above,
        failed_open: pressure(args.failed_open.as_ref())?,
        working: pressure(args.working.as_ref())?,
        surge: pressure(args.surge.as_ref())?,
        test: pressure(args.test.as_ref())?,
    };
    let falls = args.below.is_some() || args.above.is_some();
    if falls && all.shutoff.is_none() && all.at_rest.is_none() {
        bail!(
            "--below and --above are of the pump or the gauge\n  try: --shutoff 130psi or --static 80psi beside it"
        );
    }
    if all.highest().is_none() {
        bail!(
            "no pressure to reckon with\n  try: --shutoff 130psi --below 40ft, --static, --failed-open, --working with --surge, --test, or --pressure for the highest as known"
        );
    }
    Ok(all)
}

/// A pipe of the tables, by the arguments or as a branch or smaller end of it.
pub(super) fn find(
    image: &Image<'_>,
    notes: &Notes,
    family: &str,
    size: &str,
    class: Option<String>,
    args: &RestrainArgs,
) -> Result<Known> {
    let asked = FitsArgs {
        family: family.to_owned(),
        size: size.to_owned(),
        class,
        end: EndArg::PlainBevelled,
        job: None,
        owner: args.owner,
        part: None,
        outlet: None,
        angle: None,
        range: None,
        why: false,
        json: args.json,
        units: args.units,
    };
    Known::find(image, notes, &asked)
}

/// The pipe, of the class that was told or of any.
pub(super) fn line(image: &Image<'_>, known: &Known) -> Line {
    #[expect(
        clippy::cast_precision_loss,
        reason = "an OD lies far below 2^53 counts"
    )]
    let od = Distance::inches(known.od() as f64 / f64::from(parse::COUNTS_PER_INCH));
    line_of(image, &known.pipe.row, od, |label| {
        known
            .class
            .as_ref()
            .is_none_or(|known| known == image.label(label))
    })
}

/// Options that are of one fitting alone.
fn belongs(args: &RestrainArgs) -> Result<()> {
    let arg = args.fitting;
    let branches = matches!(arg, FittingArg::Tee | FittingArg::Wye | FittingArg::EvenWye);
    for (told, fits, what, whose) in [
        (
            args.branch.is_some(),
            branches,
            "--branch",
            "a tee or a wye",
        ),
        (
            args.branch_valve.is_some() || args.branch_dead_end.is_some(),
            branches,
            "--branch-valve or --branch-dead-end",
            "a tee or a wye",
        ),
        (
            args.far_valve.is_some() || args.far_dead_end.is_some(),
            !matches!(arg, FittingArg::DeadEnd | FittingArg::EvenWye),
            "--far-valve or --far-dead-end",
            "a fitting that the line runs on from",
        ),
        (
            args.run_restrained.is_some(),
            arg == FittingArg::Tee,
            "--run-restrained",
            "a tee",
        ),
        (
            args.between.is_some(),
            arg == FittingArg::EvenWye,
            "--between",
            "an even wye",
        ),
        (
            args.to.is_some(),
            arg == FittingArg::Reducer,
            "--to",
            "a reducer",
        ),
        (
            args.drop.is_some(),
            arg == FittingArg::Offset,
            "--drop",
            "an offset",
        ),
    ] {
        if told && !fits {
            bail!("{what} is of {whose}\n  try: leave it out, or name that fitting");
        }
    }
    Ok(())
}

/// A branch is no larger than its run, and a reducer leads to smaller pipe: else what there is of that family.
fn fits_in(image: &Image<'_>, known: &Known, other: &Known, smaller: bool) -> Result<()> {
    let fits = |od: i64| od < known.od() || od == known.od() && !smaller;
    if fits(other.od()) {
        return Ok(());
    }
    let own = image
        .rows_from(0)
        .filter(|row| row.family == other.pipe.row.family && fits(i64::from(row.od)));
    let mut sizes: Vec<&str> = Vec::new();
    for row in own {
        let size = image.size(row.size);
        if !sizes.contains(&size) {
            sizes.push(size);
        }
    }
    let (what, option) = if smaller {
        ("a reducer leads to smaller pipe than the line", "--to")
    } else {
        ("a branch is no larger than its run", "--branch")
    };
    if sizes.is_empty() {
        bail!(
            "{what}, and {} has none that small\n  try: {option} FAMILY:SIZE, of another family",
            other.family
        );
    }
    bail!("{what}\n  try: {option} {}", sizes.join(", "))
}

/// The fitting, and the pipe of its branch or smaller end.
pub(super) fn fitting(
    image: &Image<'_>,
    notes: &Notes,
    known: &Known,
    args: &RestrainArgs,
) -> Result<(Fitting, Option<Known>)> {
    let unit = args.units.into();
    let arg = args.fitting;
    belongs(args)?;
    let angle = || angle(args, known);
    let other = |size: Option<&String>, what: &str, try_: &str| -> Result<Known> {
        let Some(size) = size else {
            bail!("{what}\n  try: {try_}");
        };
        let found = match size.split_once(':') {
            Some((family, size)) => find(image, notes, family, size, None, args),
            None => find(image, notes, &known.family, size, None, args),
        }?;
        fits_in(image, known, &found, arg == FittingArg::Reducer)?;
        Ok(found)
    };
    Ok(match arg {
        FittingArg::Bend => (
            Fitting::Bend {
                angle: angle()?,
                turn: Turn::Level,
            },
            None,
        ),
        FittingArg::BendUp => (
            Fitting::Bend {
                angle: angle()?,
                turn: Turn::Up,
            },
            None,
        ),
        FittingArg::BendDown => (
            Fitting::Bend {
                angle: angle()?,
                turn: Turn::Down,
            },
            None,
        ),
        FittingArg::Offset => {
            let drop = distance(args.drop.as_ref(), unit)?;
            (
                Fitting::Offset {
                    angle: angle()?,
                    drop,
                },
                None,
            )
        }
        FittingArg::Tee => {
            let branch = other(args.branch.as_ref(), "a tee of what branch?", "--branch 4")?;
            let run_held = distance(args.run_restrained.as_ref(), unit)?.unwrap_or_default();
            let tee = Fitting::Tee {
                branch: line(image, &branch),
                run_held,
            };
            (tee, Some(branch))
        }
        FittingArg::Wye => {
            let branch = other(args.branch.as_ref(), "a wye of what branch?", "--branch 4")?;
            (
                Fitting::Wye {
                    branch: line(image, &branch),
                },
                Some(branch),
            )
        }
        FittingArg::EvenWye => {
            let branch = other(
                args.branch.as_ref(),
                "an even wye of what branches?",
                "--branch 4, the size of each",
            )?;
            let fork = Fitting::EvenWye {
                branch: line(image, &branch),
                between: between(args)?,
            };
            (fork, Some(branch))
        }
        FittingArg::Reducer => {
            let to = other(args.to.as_ref(), "a reducer to what size?", "--to 4")?;
            (
                Fitting::Reducer {
                    to: line(image, &to),
                },
                Some(to),
            )
        }
        FittingArg::DeadEnd => (Fitting::DeadEnd, None),
        FittingArg::Valve => (Fitting::Valve, None),
    })
}

/// The angle of a fork.
fn between(args: &RestrainArgs) -> Result<Angle> {
    let Some(text) = &args.between else {
        bail!("how far do the branches spread?\n  try: --between 90, from one branch to the other");
    };
    let angle = parse::angle(text)?;
    if angle <= Angle::ZERO || angle >= Angle::degrees(180.0) {
        bail!(
            "a fork spreads by more than 0 and less than 180 degrees\n  try: --between 90; at 180 it is a bullhead tee, a dead end of each branch and of the run"
        );
    }
    Ok(angle)
}

fn angle(args: &RestrainArgs, known: &Known) -> Result<Angle> {
    let angle = parse::angle(&args.angle)?;
    let made = ANGLES
        .iter()
        .any(|(one, _)| (one - angle.in_degrees()).abs() < 1e-6);
    // Above a quarter turn the answer is another: two bends. Steel is mitred.
    if made || angle.in_degrees() > 90.0 || known.family == "steel" && angle > Angle::ZERO {
        return Ok(angle);
    }
    let all = ANGLES.map(|(_, word)| word).join(", ");
    bail!(
        "no bend is made of {}°\n  try one of: {all}",
        angle.in_degrees()
    )
}

/// What stops the line, its other side, and the branch.
pub(super) fn stops(args: &RestrainArgs) -> Result<[Option<Stop>; 3]> {
    let unit = args.units.into();
    let one = |valve: Option<&String>, end: Option<&String>| -> Result<Option<Stop>> {
        let valve = distance(valve, unit)?.map(|at| Stop {
            at,
            kind: StopKind::Valve,
        });
        let end = distance(end, unit)?.map(|at| Stop {
            at,
            kind: StopKind::DeadEnd,
        });
        Ok(valve.or(end))
    };
    Ok([
        one(args.valve.as_ref(), args.dead_end.as_ref())?,
        one(args.far_valve.as_ref(), args.far_dead_end.as_ref())?,
        one(args.branch_valve.as_ref(), args.branch_dead_end.as_ref())?,
    ])
}

/// Length of a stick, and whether it was told.
pub(super) fn stick(notes: &Notes, known: &Known, args: &RestrainArgs) -> Result<(Distance, bool)> {
    if let Some(stick) = distance(args.stick.as_ref(), args.units.into())? {
        if stick < Distance::feet(1.0) {
            bail!("a stick of less than a foot\n  try: --stick 20ft");
        }
        return Ok((stick, true));
    }
    let feet = stick_of(notes, known).map_or(1.0, |one| f64::from(one.feet));
    Ok((Distance::feet(feet), false))
}

/// The stick of a family. Where none is listed, the shortest that is: more bells are held then, not fewer.
pub(super) fn stick_of<'a>(notes: &'a Notes, known: &Known) -> Option<&'a StickNote> {
    let sticks = &notes.assembly.sticks;
    let own = |one: &&StickNote| one.family == known.pipe.row.family;
    let shortest = || sticks.iter().min_by_key(|one| one.feet);
    sticks.iter().find(own).or_else(shortest)
}

/// A constant of the tables.
pub(super) fn constant(notes: &Notes, key: &str) -> f64 {
    let found = notes.thrust.constants.iter().find(|one| one.key == key);
    found.map_or(0.0, |one| one.value)
}
