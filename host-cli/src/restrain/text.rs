//! The answer for people.

use springline_core::image::Grade;
use springline_core::thrust::Governs;
use springline_core::unit::{Distance, Pressure};

use super::answer::{Answer, Held, Slick, Until};
use super::args::{FittingArg, JointsArg, RestrainArgs};
use super::concrete::block;
use super::held::{Holder, JointHeld};
use super::legs::LegSaid;
use crate::fits::caution;
use crate::read::lines::wrap;
use springline_core::joint::Owner;

/// Writes the answer.
pub(super) fn text(answer: &Answer, args: &RestrainArgs) -> String {
    let mut out = String::new();
    let known = &answer.known;
    if let Some(no) = &answer.none {
        if no.stop || answer.what.is_empty() {
            out.push_str(&known.name);
        } else {
            wrap(&mut out, "", &head(answer));
        }
        if !out.ends_with('\n') {
            out.push('\n');
        }
        out.push_str(if no.stop { "STOP - ASK\n" } else { "ASK\n" });
        wrap(
            &mut out,
            "",
            &format!("{} {}", sentence(&no.because), no.instead),
        );
    } else {
        wrap(&mut out, "", &head(answer));
        pressure(answer, &mut out);
        if let Some(force) = answer.thrust {
            let text = format!(
                "{}, {}.",
                answer.show.force(force),
                direction(answer.fitting, answer.back)
            );
            wrap(&mut out, "THRUST    ", &text);
        }
        owner(answer, &mut out);
        for warning in &answer.warnings {
            wrap(&mut out, "LOOK      ", warning);
        }
        out.push('\n');
        match &answer.held {
            Some(held) => plan(answer, held, args, &mut out),
            None => fused(&mut out),
        }
        if let Some(one) = &answer.block {
            block(answer, one, &mut out);
        }
        if let Some(held) = &answer.held {
            taken(held, args, &mut out);
        }
    }
    out.push('\n');
    for line in caution::lines(&answer.cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

/// Where a thrust goes.
pub(super) const fn direction(fitting: FittingArg, back: bool) -> &'static str {
    match fitting {
        FittingArg::Bend => "outwards, on the line that halves the bend",
        FittingArg::BendUp => "DOWN and outwards, on the line that halves the bend",
        FittingArg::BendDown => "UP and outwards, on the line that halves the bend",
        FittingArg::Offset => "outwards on each bend",
        FittingArg::Tee | FittingArg::Wye => "away from the branch; as much pulls the branch off",
        FittingArg::EvenWye => {
            if back {
                "back along the run; each branch is pulled off by its own water"
            } else {
                "towards the fork; each branch is pulled off by its own water"
            }
        }
        FittingArg::Reducer => "towards the small end",
        FittingArg::DeadEnd => "off the end of the line",
        FittingArg::Valve => "away from the water, to either side",
    }
}

fn sentence(text: &str) -> String {
    let text = text.trim();
    if text.ends_with(['.', '!']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

fn head(answer: &Answer) -> String {
    let known = &answer.known;
    let class = known.class.as_ref();
    let class = class.map_or(String::new(), |class| format!(" {class}"));
    format!("{} {}{class}: {}.", known.size(), known.name, answer.what)
}

fn pressure(answer: &Answer, out: &mut String) {
    let Some((governs, highest)) = answer.governs else {
        return;
    };
    let show = answer.show;
    let below = answer.pressures.below;
    let fall = || {
        if below > Distance::ZERO {
            format!(" and {} of fall from there", show.place(below))
        } else if below < Distance::ZERO {
            format!(" less {} of rise from there", show.place(-below))
        } else {
            String::new()
        }
    };
    let at = |pressure: Option<Pressure>| show.pressure(pressure.unwrap_or_default());
    let why = match governs {
        Governs::Told => String::from("as told"),
        Governs::Shutoff => format!("pump shutoff {}{}", at(answer.pressures.shutoff), fall()),
        Governs::Static => format!("static {}{}", at(answer.pressures.at_rest), fall()),
        Governs::FailedOpen => String::from("the regulator failed open"),
        Governs::Surge => format!(
            "working {} and surge {}",
            at(answer.pressures.working),
            at(answer.pressures.surge)
        ),
        Governs::Test => String::from("the test"),
    };
    let others: Vec<String> = answer
        .pressures
        .each()
        .filter(|(what, _)| *what != governs)
        .map(|(what, pressure)| format!("{} {}", what.key(), show.pressure(pressure)))
        .collect();
    let lower = if others.is_empty() {
        String::new()
    } else {
        format!(" Lower: {}.", others.join(", "))
    };
    let text = format!("{}: {why}.{lower}", show.pressure(highest));
    wrap(out, "PRESSURE  ", &text);
}

fn owner(answer: &Answer, out: &mut String) {
    match answer.owner {
        Owner::Purveyor => wrap(
            out,
            "ASK OWNER ",
            "it is the purveyor's: their rules for restraint and blocks, their leave for any cut.",
        ),
        Owner::Unknown => wrap(
            out,
            "ASK       ",
            "whose is it? Ahead of the meter or backflow it is the purveyor's.",
        ),
        Owner::Ours => {}
    }
}

/// What holds pipe that is fused.
pub(super) const FUSED: &str = "FUSED END TO END it holds itself, open or backfilled: no joints to restrain between fusions. Every joint that is not fused (MJ adapter, flange, coupling) carries all of the thrust: restrain it, with a stiffener where it grips the pipe.";
/// How bells are counted.
pub(super) const COUNTED: &str = "Counted from the fitting in whole sticks. A bell that lies nearer, at a cut piece, a coupling or a sleeve within the length is restrained, too.";

fn fused(out: &mut String) {
    wrap(out, "HOLDS     ", FUSED);
}

/// What a side asks for whose joints hold themselves.
pub(super) fn itself(answer: &Answer, leg: &LegSaid) -> String {
    let reach = answer.show.length(leg.leg.own.max(leg.leg.length));
    let joined = match answer.joints {
        JointsArg::Solvent => "glued",
        JointsArg::Fused => "fused",
        _ => "welded",
    };
    format!(
        "its {joined} joints hold themselves. The first bell, slip coupling or bolted coupling within {reach} of the fitting, after backfill, carries all of it: restrain that joint, or glue, fuse or weld on past {reach}."
    )
}

fn plan(answer: &Answer, held: &Held, args: &RestrainArgs, out: &mut String) {
    if answer.open {
        let taken = if answer.told_open {
            ""
        } else {
            " (not told: taken as open)"
        };
        wrap(out, "", &format!("TRENCH OPEN{taken}: NO LENGTH HOLDS."));
        wrap(out, "UNTIL BACKFILLED  ", &until(answer, held));
        out.push('\n');
    }
    let first = if answer.open {
        "AFTER BACKFILL, and put in before it:"
    } else {
        "AFTER BACKFILL:"
    };
    wrap(out, "", first);
    let holds_itself = answer.joints != JointsArg::Gasket;
    for leg in &held.legs {
        let side = leg.side.to_uppercase();
        if holds_itself {
            let text = format!("{side}: {}", itself(answer, leg));
            wrap(out, "HOLD      ", &text);
            continue;
        }
        wrap(
            out,
            "RESTRAIN  ",
            &format!("{side}: {}.", leg.joints.join(", ")),
        );
        wrap(out, "          ", &format!("Stops there: {}.", leg.stops));
    }
    if answer.fitting == FittingArg::Offset {
        wrap(out, "          ", "BETWEEN THE TWO BENDS: every joint.");
    }
    if !holds_itself {
        wrap(out, "          ", COUNTED);
    }
    let feet: Vec<String> = held
        .legs
        .iter()
        .map(|leg| {
            let mut text = format!("{} {}", leg.side, answer.show.length(leg.leg.length));
            if leg.leg.met.is_some() && leg.leg.own > leg.leg.length {
                let own = answer.show.length(leg.leg.own);
                text.extend([" (of ", &own, " by itself)"]);
            }
            if leg.leg.beyond > Distance::ZERO {
                let beyond = answer.show.length(leg.leg.beyond);
                text.extend([" and ", &beyond, " beyond the valve"]);
            }
            text
        })
        .collect();
    wrap(
        out,
        "LENGTH    ",
        &format!("after backfill: {}.", feet.join("; ")),
    );
    for kind in &held.kinds {
        holds(kind, args, out);
    }
    if held.kinds.is_empty() {
        wrap(
            out,
            "WITH      ",
            "NOTHING is listed that restrains this pipe: ask, or a block.",
        );
    }
}

pub(super) fn until(answer: &Answer, held: &Held) -> String {
    match held.until {
        Until::Block => {
            String::from("against the cured block and nothing else: no water before it has cured.")
        }
        Until::EndToEnd => String::from(
            "only joints that hold themselves, from this fitting to the next anchor on every side, with no bell and no coupling between.",
        ),
        Until::Below(pressure) => {
            let most = answer.show.below(pressure);
            let nothing = most.starts_with("0 ");
            if nothing {
                let why = match held.slick {
                    Some(Slick::Told) => {
                        " on clay, of which the tables know no friction for iron, bare pipe drags on nothing, wrapped or not."
                    }
                    Some(Slick::Feared) => {
                        " the soil is not known, and on clay, of which the tables know no friction for iron, bare pipe drags on nothing, wrapped or not. Find the soil (--soil): on sand, gravel or silt its weight holds a little."
                    }
                    None => " bare pipe drags on next to nothing.",
                };
                format!(
                    "no pressure at all ({most}):{why} Fill only against open air; or a cured block (--block), or joints that hold themselves end to end, from this fitting to the next anchor on every side."
                )
            } else {
                format!(
                    "stay below {most}: the weight of the bare pipe and its water, with every joint named here already restrained, holds no more. Fill and let the air out, nothing else."
                )
            }
        }
    }
}

fn holder(one: &Holder) -> String {
    let ask = if one.ask { "ASK: " } else { "" };
    match one.remark.as_str() {
        "" => format!("{ask}{}", one.name),
        remark => format!("{ask}{} ({remark})", one.name),
    }
}

/// What restrains a joint of a kind, and where it is; without blocks where there is nothing to push on.
pub(super) fn with(kind: &JointHeld, blocks: bool) -> String {
    let itself = kind.holds.iter().any(|one| one.itself);
    let at = at(kind, itself);
    let all = kind.holds.iter();
    let all = all.filter(|one| blocks || !one.key.starts_with("block"));
    let all: Vec<String> = all.map(holder).collect();
    if all.is_empty() {
        format!("{at}, {}: NOTHING is listed: ask, or a block.", kind.name)
    } else {
        format!("{at}, {}: {}.", kind.name, all.join("; or "))
    }
}

const fn at(kind: &JointHeld, itself: bool) -> &'static str {
    match (kind.bell, itself) {
        (true, true) => "each joint",
        (true, false) => "a bell",
        (false, _) => "the fitting",
    }
}

fn holds(kind: &JointHeld, args: &RestrainArgs, out: &mut String) {
    let itself = kind.holds.iter().any(|one| one.itself);
    let at = at(kind, itself);
    wrap(out, "WITH      ", &with(kind, true));
    if args.why {
        for one in &kind.never {
            let mark = if one.ask { "ASK       " } else { "NEVER     " };
            wrap(out, mark, &format!("{at}: {}: {}.", one.name, one.remark));
        }
    }
}

fn taken(held: &Held, args: &RestrainArgs, out: &mut String) {
    out.push_str("\nTAKEN FOR GRANTED (M from memory, P common practice, S from a source):\n");
    for one in &held.taken {
        let mark = match one.grade {
            Some(Grade::Memory) | None => "  M  ",
            Some(Grade::Practice) => "  P  ",
            Some(_) => "  S  ",
        };
        let source = match one.grade {
            Some(grade) if args.why => format!(" [{}; {}]", one.sources.join(", "), grade.key()),
            _ => String::new(),
        };
        wrap(out, mark, &format!("{}{source}.", one.text));
    }
}
