//! The answer for people.

use std::fmt::Write;

use springline_core::assembly::Wait;

use super::made::Made;
use super::times::{Glue, lasts};
use super::turning::Turning;
use super::{AssembleArgs, MadeArg};
use crate::bolts::words;
use crate::fits::caution;
use crate::parse::Unit;
use crate::read::lines::wrap;

/// Writes the answer.
pub(super) fn text(made: &Made, args: &AssembleArgs) -> String {
    let mut out = String::new();
    if let Some((sealing, reason, from)) = &made.refused {
        out.push_str(&made.known.name);
        out.push_str(if made.known.stop {
            "\nSTOP - ASK\n"
        } else {
            "\nASK\n"
        });
        wrap(
            &mut out,
            "",
            &format!("{reason}. Nothing is told of joints."),
        );
        if args.why {
            let text = format!("{}; {}.", from.join(", "), sealing.grade.key());
            wrap(&mut out, "SOURCE  ", &text);
        }
    } else {
        joint(made, args, &mut out);
    }
    out.push('\n');
    for line in caution::lines(&made.cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

fn joint(made: &Made, args: &AssembleArgs, out: &mut String) {
    let known = &made.known;
    let class = known.class.as_ref();
    let class = class.map_or(String::new(), |class| format!(" {class}"));
    let head = format!(
        "{} {}{class}, joint: {}",
        known.size(),
        known.name,
        made.end_name
    );
    wrap(out, "", &head);
    if let Some(no) = &made.no {
        wrap(out, "NO      ", &format!("{}.", no.trim_end_matches('.')));
        if made.steps.is_empty() {
            return;
        }
    }
    if !made.need.is_empty() {
        wrap(out, "NEEDS   ", &format!("{}.", made.need));
    }
    for (at, (text, from)) in made.steps.iter().enumerate() {
        let mark = words::mark(from.grade);
        // Most of it is common practice, which is said once.
        let mark = if mark.contains("memory") { mark } else { "" };
        wrap(out, &format!("  {}  ", at + 1), &format!("{text}{mark}."));
    }
    wrap(out, "DEPTH   ", &format!("{}.", made.depth.join("; ")));
    if let Some(turning) = &made.turning {
        turns(turning, made.unit, out);
    } else if let Some(why) = made.no_turning {
        wrap(out, "TURN    ", &format!("{why}."));
    }
    if let Some(glue) = &made.glue {
        times(glue, out);
    }
    moves(made, out);
    for bring in &made.bring {
        let text = format!(
            "{} {} of {} for {} joint{}: {}.",
            bring.count,
            bring.unit,
            bring.what,
            args.joints,
            if args.joints == 1 { "" } else { "s" },
            bring.remark
        );
        wrap(out, "BRING   ", &text);
    }
    let holds = if made.joint == MadeArg::Solvent {
        String::from("the glue holds it, and pulls on the next coupling or bell.")
    } else if made.holds.is_empty() {
        String::from("NOTHING holds it against pull: an anchor, a block or a harness.")
    } else {
        format!("by itself nothing; {}.", made.holds.join("; or "))
    };
    wrap(out, "HOLDS   ", &holds);
    if made.joint == MadeArg::Mj {
        let text = format!(
            "springline bolts mj {} has bolts, torque and order.",
            known.nominal
        );
        wrap(out, "BOLTS   ", &text);
    }
    if args.why {
        for (_, from) in &made.steps {
            wrap(out, "SOURCE  ", &from.line());
        }
        for from in made
            .why
            .iter()
            .chain(made.glue.iter().filter_map(|glue| glue.from.as_ref()))
        {
            wrap(out, "SOURCE  ", &from.line());
        }
    }
}

fn turns(turning: &Turning, unit: Unit, out: &mut String) {
    let degrees = |angle: springline_core::unit::Angle| {
        let text = format!("{:.2}", angle.in_degrees());
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    };
    let turn = &turning.turn;
    let taken = if turning.stick_told {
        ""
    } else {
        " (taken, --stick)"
    };
    let one = |text: &str| if text == "1" { "degree" } else { "degrees" };
    let most = degrees(turning.most);
    let bare = if turning.bare {
        ", bare iron with a plain gland"
    } else {
        ""
    };
    let mut text = format!(
        "at most {most} {}{bare}{}",
        one(&most),
        words::mark(turning.grade)
    );
    if turning.owners < 1.0 {
        let most = turning.most.times(turning.owners);
        let _ = write!(text, ", {} by many owners", degrees(most));
    }
    let at = degrees(turn.angle);
    if turn.angle.in_degrees() > 0.0 && turn.angle <= turning.most {
        let _ = write!(
            text,
            ". At {at} {} a stick of {}{taken} leads {} aside, a curve of {} radius",
            one(&at),
            words::far(turn.stick, unit),
            words::length(
                turn.offset()
                    .to_nearest(springline_core::unit::Distance::inches(0.25)),
                unit
            ),
            words::far(
                turn.radius()
                    .to_nearest(springline_core::unit::Distance::feet(1.0)),
                unit
            ),
        );
    }
    wrap(out, "TURN    ", &format!("{text}."));
    if let Some((degrees, joints)) = turning.joints {
        let length = words::far(turn.stick * f64::from(joints), unit);
        wrap(
            out,
            "        ",
            &format!("{degrees} degrees take {joints} joints in a row, {length} of pipe."),
        );
    }
}

fn times(glue: &Glue, out: &mut String) {
    for band in &glue.bands {
        let set = band.waits.iter().find_map(|(_, wait)| wait.as_ref().ok());
        let mut text = match set {
            Some(wait) => format!("{}: not moved for {}", band.at, lasts(wait.set)),
            None => band.at.clone(),
        };
        let refused = |wait: &(String, Result<Wait, String>)| wait.1.clone().err();
        let mut all = band.waits.iter().map(refused);
        let first = all.next().flatten();
        if let Some(why) = first.filter(|why| all.all(|other| other.as_ref() == Some(why))) {
            let _ = write!(text, ": {why}");
        } else {
            for (pressure, wait) in &band.waits {
                let _ = match wait {
                    Ok(wait) => write!(text, "; {pressure} after {}", lasts(wait.cure)),
                    Err(why) => write!(text, "; {pressure}: {why}"),
                };
            }
        }
        wrap(out, "WAIT    ", &format!("{text}."));
    }
    let wet = if glue.wet {
        "Taken as wet or damp, half as long again (--wet no)"
    } else {
        "Taken as dry, air below 60 % humidity (--wet yes)"
    };
    let text = format!(
        "{wet}. Cements differ fourfold and this is the longer table; the can rules. Water, not air, for the test."
    );
    wrap(out, "        ", &text);
    if let Some(psi) = glue.above_class {
        let text = format!("that is more than the {psi} psi of this class at 73 F.");
        wrap(out, "CHECK   ", &text);
    }
}

fn moves(made: &Made, out: &mut String) {
    let (per_f, unit) = (made.moves.per_f, made.unit);
    let text = match (&made.moves.told, unit) {
        (Some((length, warmer, moved)), _) => {
            let way = if moved.in_inches() < 0.0 {
                "shrinks"
            } else {
                "grows"
            };
            let by = match unit {
                Unit::Inch => format!("{:.0} F", warmer.abs()),
                Unit::Millimetre => format!("{:.0} C", warmer.abs() / 1.8),
            };
            format!(
                "{} of free pipe {way} {} over {by}: share it out as gaps, or snake it. Soil holds what is buried.",
                words::far(*length, unit),
                words::length(moved.abs(), unit)
            )
        }
        (None, Unit::Inch) => format!(
            "{:.2} in for 100 ft and 10 F while it lies free (--length, --temp, --runs); let it cool before it is closed.",
            per_f * 12_000.0
        ),
        (None, Unit::Millimetre) => format!(
            "{:.1} mm for 30 m and 5 C while it lies free (--length, --temp, --runs); let it cool before it is closed.",
            per_f * 1.8 * 150_000.0
        ),
    };
    wrap(out, "MOVES   ", &text);
}
