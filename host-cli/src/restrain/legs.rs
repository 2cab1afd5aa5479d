//! Sides of a fitting in named joints: what a crew restrains, where the count stops and why.

use springline_core::thrust::{Fitting, Leg, Plan, Side, Stop, StopKind};
use springline_core::unit::Distance;

use super::show::Show;

/// A side as it is said.
pub(super) struct LegSaid {
    /// `each side`, `branch`, `towards the valve`.
    pub(super) side: String,
    pub(super) leg: Leg,
    /// Joints in order from the fitting outwards.
    pub(super) joints: Vec<String>,
    /// Where the count stops and why.
    pub(super) stops: String,
}

/// The sides of a plan; two that are alike are one.
pub(super) fn legs(fitting: &Fitting, plan: &Plan, stick: Distance, show: Show) -> Vec<LegSaid> {
    let mut said: Vec<LegSaid> = Vec::new();
    let all: Vec<Leg> = plan.legs.iter().flatten().copied().collect();
    let alike = match all[..] {
        [first, second, ..] => {
            first.length == second.length && first.met.is_none() && second.met.is_none()
        }
        _ => false,
    };
    for leg in all {
        if alike && leg.side == Side::Second && !matches!(fitting, Fitting::Reducer { .. }) {
            continue;
        }
        let side = side(fitting, &leg, plan, alike);
        let (joints, stops) = joints(fitting, &leg, stick, show);
        said.push(LegSaid {
            side,
            leg,
            joints,
            stops,
        });
    }
    said
}

const fn stop_word(stop: &Stop) -> &'static str {
    match stop.kind {
        StopKind::Valve => "valve",
        StopKind::DeadEnd => "dead end",
    }
}

fn side(fitting: &Fitting, leg: &Leg, plan: &Plan, alike: bool) -> String {
    let legs = || plan.legs.iter().flatten();
    let on = |side| legs().find(|leg| leg.side == side);
    let stop = |side| on(side).and_then(|leg| leg.met.as_ref()).map(stop_word);
    let towards = |name: &str, side| match stop(side) {
        Some(word) => format!("{name}, towards the {word}"),
        None => name.to_owned(),
    };
    let run = match fitting {
        Fitting::Tee { .. } | Fitting::Wye { .. } => "run, ",
        _ => "",
    };
    match (fitting, leg.side) {
        (Fitting::EvenWye { .. }, Side::Branch) => String::from("each branch"),
        (Fitting::EvenWye { .. }, Side::First) => towards("run", Side::First),
        (_, Side::Branch) => String::from("branch"),
        (Fitting::Reducer { .. }, Side::First) => towards("large side", Side::First),
        (Fitting::Reducer { .. }, Side::Second) => towards("small side", Side::Second),
        (Fitting::DeadEnd, _) => String::from("back along the line"),
        (Fitting::Offset { drop: Some(_), .. }, Side::First) => towards("upper line", Side::First),
        (Fitting::Offset { drop: Some(_), .. }, Side::Second) => {
            towards("lower line", Side::Second)
        }
        _ if alike => format!("{run}each side"),
        (_, Side::First) => match stop(Side::First) {
            Some(word) => format!("{run}towards the {word}"),
            None => format!("{run}one side"),
        },
        (_, Side::Second) => towards(&format!("{run}other side"), Side::Second),
    }
}

/// `20, 40 and 60 ft`.
fn places(count: u16, stick: Distance, show: Show) -> String {
    let all: Vec<String> = (1..=count)
        .map(|at| show.place(stick * f64::from(at)))
        .collect();
    let unit = all.first().and_then(|one| one.split(' ').next_back());
    let unit = unit.unwrap_or_default().to_owned();
    let bare: Vec<&str> = all
        .iter()
        .map(|one| one.split(' ').next().unwrap_or_default())
        .collect();
    match &bare[..] {
        [] => String::new(),
        [one] => format!("the bell at {one} {unit}"),
        [first, second, .., last] if bare.len() > 8 => {
            format!(
                "the bells at {first}, {second} and so on, every stick to {last} {unit} ({count} bells)"
            )
        }
        [rest @ .., last] => format!("the bells at {} and {last} {unit}", rest.join(", ")),
    }
}

fn joints(fitting: &Fitting, leg: &Leg, stick: Distance, show: Show) -> (Vec<String>, String) {
    let own = match fitting {
        Fitting::Offset { .. } => "this bend",
        Fitting::DeadEnd => "this dead end",
        Fitting::Valve => "this valve",
        _ => "this fitting",
    };
    let mut joints = vec![own.to_owned()];
    if leg.bells > 0 {
        joints.push(places(leg.bells, stick, show));
    }
    let Some(stop) = &leg.met else {
        let stops = if leg.joined {
            format!(
                "{} of held pipe; the valve or dead end on the other side asks for more than the fitting, and its length runs on over it",
                show.length(leg.length)
            )
        } else if leg.length <= Distance::ZERO {
            String::from(
                "no length is asked for here; the fitting's own joints are still restrained",
            )
        } else {
            format!("{} of held pipe is enough", show.length(leg.length))
        };
        return (joints, stops);
    };
    let at = show.place(stop.at);
    match stop.kind {
        StopKind::DeadEnd => {
            joints.push(format!("the dead end at {at}"));
            let stops = format!(
                "the dead end at {at} is a thrust point itself: all between it and the fitting is one piece"
            );
            (joints, stops)
        }
        StopKind::Valve => {
            joints.push(format!("the valve at {at}, both its joints"));
            let bells = springline_core::thrust::bells(leg.beyond, stick);
            if bells > 0 {
                joints.push(format!(
                    "BEYOND the valve, from it, {}",
                    places(bells, stick, show)
                ));
            }
            let stops = format!(
                "the valve at {at}, shut, is a dead end: all between it and the fitting is one piece, and beyond it {} of held pipe, in case water stands behind it with this side empty",
                show.length(leg.beyond)
            );
            (joints, stops)
        }
    }
}
