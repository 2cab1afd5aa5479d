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

/// The wrench for a bolt.
pub(super) fn wrench(bolt: Distance, unit: Unit) -> String {
    format!(
        "{} for heavy hex nuts, {} for plain hex (from memory): try it on the nut.",
        words::bought(across_flats(bolt, true), unit),
        words::bought(across_flats(bolt, false), unit)
    )
}

/// The bolts in the order in which they are tightened, by fours.
fn numbers(bolts: u8) -> String {
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
    wrap(out, "BOLTS   ", &flange_bolts(said, unit));
    let text = format!(
        "bolt circle {}, hole to next hole {}, flange {} across.",
        words::length(set.circle, unit),
        words::length(set.spacing(), unit),
        words::length(said.od, unit)
    );
    wrap(out, "CHECK   ", &text);
    wrap(out, "WRENCH  ", &wrench(set.bolt, unit));
    wrap(out, "TORQUE  ", &flange_torque(said, unit));
    wrap(out, "ORDER   ", &flange_order(set.bolts));
    wrap(out, "ROUNDS  ", &flange_rounds(said, unit));
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

/// How many bolts two flanges take, how thick and how long.
pub(super) fn flange_bolts(said: &FlangeSaid, unit: Unit) -> String {
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
    format!(
        "{} {what} of {}{}, {long}.",
        said.count,
        words::bought(set.bolt, unit),
        words::mark(set.grade)
    )
}

/// The torque of two flanges with its condition, or why there is none.
pub(super) fn flange_torque(said: &FlangeSaid, unit: Unit) -> String {
    match &said.torque {
        Ok(torque) => format!(
            "{} {}: {}.",
            words::bare_torque(torque.torque, unit),
            words::torque_unit(unit),
            torque.condition
        ),
        Err(why) => format!("{why}."),
    }
}

/// The order of the bolts of a flange.
pub(super) fn flange_order(bolts: u8) -> String {
    format!(
        "{}. Bolt 1 next to the top, then clockwise (common practice).",
        numbers(bolts)
    )
}

/// The rounds that it takes.
pub(super) fn flange_rounds(said: &FlangeSaid, unit: Unit) -> String {
    let steps = match &said.torque {
        Ok(torque) => {
            let steps = SHARES.map(|share| words::bare_torque(torque.torque * share, unit));
            format!("{} {}", steps.join(", "), words::torque_unit(unit))
        }
        Err(_) => String::from("a third, two thirds, all of it"),
    };
    format!(
        "{}: {steps}; then once round, until no nut moves.",
        passes(false)
    )
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
    wrap(out, "BOLTS   ", &mechanical_bolts(said, unit));
    wrap(out, "WRENCH  ", &wrench(set.bolt, unit));
    wrap(out, "TORQUE  ", &mechanical_torque(said, unit));
    wrap(out, "ORDER   ", &mechanical_order(set.bolts));
    wrap(out, "ROUNDS  ", &mechanical_rounds(said, unit));
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

/// How many T-bolts a mechanical joint takes, how thick, and how long where its gland is plain.
pub(super) fn mechanical_bolts(said: &MechanicalSaid, unit: Unit) -> String {
    let set = &said.set;
    let mark = words::mark(set.grade);
    let bolt = words::bought(set.bolt, unit);
    if said.restraint {
        format!(
            "those of the restraint's own pack, often longer than a plain gland's: take no other. {} holes for {bolt} T-bolts{mark}.",
            set.bolts
        )
    } else {
        format!(
            "{} T-bolts {bolt} x {}{mark}, in the accessory pack.",
            set.bolts,
            words::bought(set.length, unit)
        )
    }
}

/// The torque of a mechanical joint, from the least to the most, with its condition.
pub(super) fn mechanical_torque(said: &MechanicalSaid, unit: Unit) -> String {
    let [low, high] = said.set.torque;
    format!(
        "{} to {} {}{}: rubber MJ gasket, T-bolts of low-alloy steel, clean threads (condition from memory); stainless: its maker's.",
        words::bare_torque(low, unit),
        words::bare_torque(high, unit),
        words::torque_unit(unit),
        words::mark(said.set.torque_grade)
    )
}

/// The order of its bolts.
pub(super) fn mechanical_order(bolts: u8) -> String {
    format!(
        "bottom, top, sides, the rest: {}. Bolt 1 is the lowest, then clockwise.",
        numbers(bolts)
    )
}

/// The rounds that it takes.
pub(super) fn mechanical_rounds(said: &MechanicalSaid, unit: Unit) -> String {
    let set = &said.set;
    let steps = rounds(set.torque[0], set.passes).map(|step| words::bare_torque(step, unit));
    let steps: Vec<String> = steps.collect();
    format!(
        "at least {}: about {} {}, and again while any nut moves. Gap between gland and bell even all round, always.",
        set.passes,
        steps.join(", "),
        words::torque_unit(unit)
    )
}

/// Even steps up to a torque.
pub(super) fn rounds(to: Torque, passes: u8) -> impl Iterator<Item = Torque> {
    (1..=passes).map(move |pass| to * (f64::from(pass) / f64::from(passes)))
}
