//! The answer for people.

use springline_core::assembly::{Drilling, across_flats, passes, star};
use springline_core::unit::{Distance, Torque};

use super::flange::FlangeSaid;
use super::mechanical::MechanicalSaid;
use super::{BetweenArg, Bolted, BoltsArgs, FaceArg, words};
use crate::fits::caution::{self, Due};
use crate::parse::Unit;
use crate::read::lines::wrap;

/// Rounds of a flange: what of the torque each takes.
pub(super) const SHARES: [f64; 3] = [1.0 / 3.0, 2.0 / 3.0, 1.0];

/// Writes the answer.
pub(super) fn text(bolted: &Bolted, cautions: &[Due], args: &BoltsArgs) -> String {
    let mut out = String::new();
    match bolted {
        Bolted::Flange(said) => flange(said, args, &mut out),
        Bolted::Mechanical(said) => mechanical(said, args, &mut out),
    }
    out.push('\n');
    for line in caution::lines(cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

fn wrench(bolt: Distance, unit: Unit, out: &mut String) {
    let text = format!(
        "{} for heavy hex nuts, {} for plain hex (from memory): try it on the nut.",
        words::bought(across_flats(bolt, true), unit),
        words::bought(across_flats(bolt, false), unit)
    );
    wrap(out, "WRENCH  ", &text);
}

/// The bolts in the order in which they are tightened, by fours.
fn order(bolts: u8) -> String {
    let numbers: Vec<String> = star(bolts).map(|at| at.to_string()).collect();
    let fours: Vec<String> = numbers.chunks(4).map(|four| four.join(" ")).collect();
    fours.join(", ")
}

fn flange(said: &FlangeSaid, args: &BoltsArgs, out: &mut String) {
    let unit: Unit = args.units.into();
    let [one, other] = said.flanges.map(super::BodyArg::word);
    let size = words::size(said.size);
    let head = format!(
        "{size} in flanges, class {}, {one} to {other}",
        said.drilling.key()
    );
    wrap(out, "", &head);
    if let Some(refused) = &said.refused {
        wrap(out, "NO      ", refused);
        return;
    }
    taken(said, unit, out);
    let set = &said.set;
    let what = match said.between {
        BetweenArg::Lug => "cap screws",
        BetweenArg::Wafer => "studs",
        _ => "bolts",
    };
    let long = match (&said.lengths, said.no_length) {
        (Some(lengths), _) => {
            let (bolt, stud) = (
                words::bought(lengths.bolt, unit),
                words::bought(lengths.stud, unit),
            );
            let mark = if lengths.listed {
                words::mark(set.length_grade)
            } else {
                " (computed from what is taken and measured)"
            };
            if said.between == BetweenArg::Wafer {
                format!("{stud} long with two nuts each{mark}")
            } else {
                format!("{bolt} long{mark}; as studs with two nuts {stud}")
            }
        }
        (None, why) => format!("LENGTH: {}", why.unwrap_or("measure")),
    };
    let text = format!(
        "{} {what} of {}{}, {long}.",
        said.count,
        words::bought(set.bolt, unit),
        words::mark(set.grade)
    );
    wrap(out, "BOLTS   ", &text);
    let text = format!(
        "bolt circle {}, hole to next hole {}, flange {} across.",
        words::length(set.circle, unit),
        words::length(set.spacing(), unit),
        words::length(said.od, unit)
    );
    wrap(out, "CHECK   ", &text);
    wrench(set.bolt, unit, out);
    let rounds = match &said.torque {
        Ok(torque) => {
            let figure = words::bare_torque(torque.torque, unit);
            let text = format!(
                "{figure} {}: {}.",
                words::torque_unit(unit),
                torque.condition
            );
            wrap(out, "TORQUE  ", &text);
            let steps = SHARES.map(|share| words::bare_torque(torque.torque * share, unit));
            format!(
                "{}: {} {}; then once round, until no nut moves.",
                passes(false),
                steps.join(", "),
                words::torque_unit(unit)
            )
        }
        Err(why) => {
            wrap(out, "TORQUE  ", &format!("{why}."));
            format!(
                "{}: a third, two thirds, all of it; then once round, until no nut moves.",
                passes(false)
            )
        }
    };
    let text = format!(
        "{}. Bolt 1 next to the top, then clockwise (common practice).",
        order(set.bolts)
    );
    wrap(out, "ORDER   ", &text);
    wrap(out, "ROUNDS  ", &rounds);
    for (at, (text, from)) in said.steps.iter().enumerate() {
        let mark = words::mark(from.grade);
        let mark = if mark.contains("memory") { mark } else { "" };
        let text = format!("{}{mark}.", text.trim_end_matches('.'));
        wrap(out, if at == 0 { "FACES   " } else { "        " }, &text);
    }
    if said.drilling == Drilling::Class125 && said.size.in_inches() > 24.0 {
        let text = "above 24 in \"class 150\" of steel is drilled by more than one standard: hold a template to it (from memory).";
        wrap(out, "CHECK   ", text);
    }
    if args.why {
        for one in &said.why {
            wrap(out, "SOURCE  ", &one.line());
        }
    }
}

/// What was taken for granted.
fn taken(said: &FlangeSaid, unit: Unit, out: &mut String) {
    let mut taken = Vec::new();
    if !said.faces_told {
        taken.push(String::from("flat faces (--faces)"));
    } else if said.faces.contains(&FaceArg::Raised) {
        taken.push(String::from("raised faces as told"));
    }
    if !said.gasket_told && said.lengths.is_some() {
        let thick = words::length(said.gasket_thick, unit);
        taken.push(format!("gasket {thick} thick (--gasket-thick)"));
    }
    match said.washers {
        0 => taken.push(String::from("no washers (--washers)")),
        count => {
            let thick = said.washer_thick.in_inches();
            taken.push(format!(
                "{count} washers a bolt, {thick:.2} in each (from memory)"
            ));
        }
    }
    wrap(out, "TAKEN   ", &format!("{}.", taken.join(", ")));
}

fn mechanical(said: &MechanicalSaid, args: &BoltsArgs, out: &mut String) {
    let unit: Unit = args.units.into();
    let set = &said.set;
    let gland = if said.restraint {
        "with a restraint on"
    } else {
        "with a plain gland (--restraint)"
    };
    wrap(
        out,
        "",
        &format!("{} in mechanical joint, {gland}", words::size(said.size)),
    );
    let mark = words::mark(set.grade);
    if said.restraint {
        let text = format!(
            "those of the restraint's own pack, often longer than a plain gland's: take no other. {} holes for {} T-bolts{mark}.",
            set.bolts,
            words::bought(set.bolt, unit)
        );
        wrap(out, "BOLTS   ", &text);
    } else {
        let text = format!(
            "{} T-bolts {} x {}{mark}, in the accessory pack.",
            set.bolts,
            words::bought(set.bolt, unit),
            words::bought(set.length, unit)
        );
        wrap(out, "BOLTS   ", &text);
    }
    wrench(set.bolt, unit, out);
    let [low, high] = set.torque;
    let text = format!(
        "{} to {} {}{}: rubber MJ gasket, T-bolts of low-alloy steel, clean threads (condition from memory); stainless: its maker's.",
        words::bare_torque(low, unit),
        words::bare_torque(high, unit),
        words::torque_unit(unit),
        words::mark(set.torque_grade)
    );
    wrap(out, "TORQUE  ", &text);
    let text = format!(
        "bottom, top, sides, the rest: {}. Bolt 1 is the lowest, then clockwise.",
        order(set.bolts)
    );
    wrap(out, "ORDER   ", &text);
    let steps = rounds(set.torque[0], set.passes).map(|step| words::bare_torque(step, unit));
    let steps: Vec<String> = steps.collect();
    let text = format!(
        "at least {}: about {} {}, and again while any nut moves. Gap between gland and bell even all round, always.",
        set.passes,
        steps.join(", "),
        words::torque_unit(unit)
    );
    wrap(out, "ROUNDS  ", &text);
    if said.restraint {
        let text = "T-bolts first, the restraint's own screws or ring last, by its sheet; heads that twist off are not used twice.";
        wrap(out, "THEN    ", text);
    }
    wrap(
        out,
        "TURN    ",
        "after assembly, before the last round: springline assemble says how far.",
    );
    if args.why {
        for one in &said.why {
            wrap(out, "SOURCE  ", &one.line());
        }
    }
}

/// Even steps up to a torque.
pub(super) fn rounds(to: Torque, passes: u8) -> impl Iterator<Item = Torque> {
    (1..=passes).map(move |pass| to * (f64::from(pass) / f64::from(passes)))
}
