//! The fitting in words, and why the core gives no plan.

use anyhow::anyhow;
use springline_core::thrust::{Fitting, Refused};

use super::args::{FittingArg, RestrainArgs};
use super::show::Show;
use crate::fits::known::Known;

/// Why the core gives no plan, and what to do.
pub(super) fn refused(why: Refused) -> anyhow::Error {
    anyhow!(
        "{}",
        match why {
            Refused::TwoBends => "above 90°\n  try: two bends",
            Refused::NoAngle =>
                "a bend that does not turn\n  try: --angle 11-1/4, 22-1/2, 45 or 90",
            Refused::NoCover => "no cover\n  try: --depth 3ft",
            Refused::NoPressure => "no pressure\n  try: --shutoff 130psi",
            Refused::Sizes =>
                "the other pipe must be smaller than the line for a reducer, and no larger for a branch\n  try: a smaller --to or --branch",
            Refused::NoStick => "a stick without length\n  try: --stick 20ft",
            Refused::NoGrip =>
                "no soil of the tables is used with that trench\n  try: leave --trench out",
        }
    )
}

/// The fitting in words.
pub(super) fn what(
    args: &RestrainArgs,
    fitting: &Fitting,
    show: Show,
    other: Option<&Known>,
) -> String {
    let angle = fitting
        .angle()
        .map_or(0.0, springline_core::unit::Angle::in_degrees);
    let size = other.map_or(String::new(), |other| {
        format!("{} {}", other.size(), other.name)
    });
    match args.fitting {
        FittingArg::Bend => format!("{angle}° bend, level"),
        FittingArg::BendUp => format!("{angle}° bend that turns up: thrust goes down"),
        FittingArg::BendDown => format!("{angle}° bend that turns down: THRUST GOES UP"),
        FittingArg::Offset => match fitting {
            Fitting::Offset {
                drop: Some(drop), ..
            } => {
                format!("offset of two {angle}° bends, {} deeper", show.place(*drop))
            }
            _ => format!("level offset of two {angle}° bends"),
        },
        FittingArg::Tee => format!("tee, branch {size}"),
        FittingArg::Wye => format!("wye, branch {size}"),
        FittingArg::EvenWye => match fitting {
            Fitting::EvenWye { between, .. } => {
                format!(
                    "even wye, two branches {size}, {}° between them",
                    between.in_degrees()
                )
            }
            _ => format!("even wye, two branches {size}"),
        },
        FittingArg::Reducer => format!("reducer to {size}"),
        FittingArg::DeadEnd => String::from("dead end"),
        FittingArg::Valve => String::from("valve, shut, empty on either side"),
    }
}
