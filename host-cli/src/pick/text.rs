//! The answer for people: what to know, what to load by place, the joints, the work in its order.

use springline_compiler::jobs::Place;

use super::args::PickArgs;
use super::line::{Line, pulled};
use super::plan::{Plan, Refused};
use super::render::{PLACES, only};
use crate::fits::caution;
use crate::read::lines::wrap;

/// Sections that are the work in its order, with what stands above them.
const WORK: [(&str, &[&str]); 5] = [
    ("SHUT, TAG, LOCK", &["shut"]),
    ("DIG", &["dig"]),
    ("MARK", &["mark"]),
    ("WORK, IN THIS ORDER", &["work"]),
    ("WATER BACK", &["recharge"]),
];

/// Writes the answer.
pub(super) fn text(plan: &Plan, args: &PickArgs) -> String {
    let mut out = String::new();
    if let Some(one) = &plan.refused {
        refused(one, &mut out);
    } else if plan.is_no() {
        for one in &plan.alternatives {
            head(plan, &mut out);
            for end in &one.ends {
                wrap(&mut out, "PIPE   ", &format!("{end}."));
            }
            out.push_str("NO WAY of the tables does this job here.\n");
            for other in &one.others {
                wrap(
                    &mut out,
                    "NOT    ",
                    &format!("{}: {}.", other.name, other.why),
                );
            }
        }
    } else {
        list(plan, args, &mut out);
    }
    out.push('\n');
    for line in caution::lines(&plan.cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

fn refused(one: &Refused, out: &mut String) {
    out.push_str(&one.name);
    out.push_str(if one.stop {
        "\nSTOP - ASK\n"
    } else {
        "\nASK\n"
    });
    wrap(out, "", &format!("{}. No list is given.", one.because));
}

fn head(plan: &Plan, out: &mut String) {
    wrap(out, "JOB    ", &format!("{}.", plan.job.name));
    if let Some(read) = &plan.read {
        wrap(out, "READ   ", &format!("{read}."));
    }
    if !plan.told.is_empty() {
        wrap(out, "SITE   ", &format!("{}.", plan.told.join("; ")));
    }
}

fn list(plan: &Plan, args: &PickArgs, out: &mut String) {
    let of = |section: &'static str| {
        plan.lines
            .iter()
            .filter(move |line| line.section == section)
    };
    for line in of("head") {
        wrap(out, "", &line.text);
    }
    head(plan, out);
    if plan.is_open() {
        let text = format!(
            "NOT TOLD APART: one of {}. Load what is marked for each, or tell them apart first.",
            plan.alternatives.len()
        );
        wrap(out, "", &text);
        if let Some(check) = &plan.check {
            wrap(out, "CHECK  ", check);
        }
    }
    for (one, letter) in plan.alternatives.iter().zip('a'..) {
        let mark = if plan.is_open() {
            format!("PIPE {letter} ")
        } else {
            String::from("PIPE   ")
        };
        if let Some(refused) = &one.refused {
            let text = format!(
                "ASK: it may be {}: {}. Nothing is listed for it, and nothing is cut before it is told apart.",
                refused.name, refused.because
            );
            wrap(out, &mark, &text);
            continue;
        }
        for end in &one.ends {
            wrap(out, &mark, &format!("{end}."));
        }
        if one.way.is_none() {
            let whys: Vec<String> = one
                .others
                .iter()
                .map(|other| format!("{}: {}", other.name, other.why))
                .collect();
            wrap(
                out,
                "       ",
                &format!("No way here: {}.", whys.join("; ")),
            );
        }
    }
    wrap(
        out,
        "",
        "End A is the one towards the shut valve, end B the other.",
    );
    for (section, mark) in [("way", "WAY    "), ("clock", "CLOCK  "), ("ask", "ASK    ")] {
        for line in of(section) {
            one(plan, args, mark, line, out);
        }
    }
    ways(plan, out);
    stuff(plan, args, out);
    work(plan, args, out);
}

/// What is loaded, what is not known, and the joints.
fn stuff(plan: &Plan, args: &PickArgs, out: &mut String) {
    let of = |section: &'static str| {
        plan.lines
            .iter()
            .filter(move |line| line.section == section)
    };
    out.push_str("\nLOAD\n");
    for place in PLACES {
        load(plan, args, place, out);
    }
    for line in of("lift") {
        one(plan, args, "  ", line, out);
    }
    for (section, title) in [
        ("figure", "FIGURES"),
        ("measure", "NOT KNOWN HERE: ASK OR MEASURE"),
    ] {
        if of(section).next().is_none() {
            continue;
        }
        out.push('\n');
        out.push_str(title);
        out.push('\n');
        for line in of(section) {
            let joints = if line.joints.is_empty() {
                String::new()
            } else {
                format!("{}: ", line.joints)
            };
            let mark = format!("  {:8}", mark(&line.key));
            let mut line = line.clone();
            line.text.insert_str(0, &joints);
            one(plan, args, &mark, &line, out);
        }
    }
    if of("remark").next().is_some() {
        out.push_str("\nPARTS, what to know of them\n");
        for line in of("remark") {
            one(plan, args, "  ", line, out);
        }
    }
    out.push_str("\nJOINTS, each with what seals and what holds it\n");
    joints(plan, args, out);
}

/// The word in capitals that a figure stands behind.
fn mark(key: &str) -> &'static str {
    match key {
        "restrain" => "HOLD",
        "bolts" => "BOLTS",
        "wrench" => "WRENCH",
        "torque" => "TORQUE",
        "order" => "ORDER",
        "insertion" | "piece-joints" => "MARK",
        "bare-barrel" => "BARE",
        "excavation" => "HOLE",
        "sump" => "SUMP",
        "soil" => "SOIL",
        "gallons" => "PUMP",
        "cut-length" => "CUT",
        _ => "",
    }
}

/// The work in its order, numbered through.
fn work(plan: &Plan, args: &PickArgs, out: &mut String) {
    let mut number = 0;
    for (title, sections) in WORK {
        let lines: Vec<&Line> = plan
            .lines
            .iter()
            .filter(|line| sections.contains(&line.section.as_str()))
            .collect();
        if lines.is_empty() {
            continue;
        }
        out.push('\n');
        out.push_str(title);
        out.push('\n');
        for line in lines {
            number += 1;
            one(plan, args, &format!("{number:>3}  "), line, out);
        }
    }
}

/// Other ways, and those that are not offered.
fn ways(plan: &Plan, out: &mut String) {
    for one in plan.alternatives.iter().take(1) {
        let also: Vec<String> = one
            .others
            .iter()
            .filter(|other| other.why.is_empty())
            .map(|other| format!("{} [{}]", other.name, other.key))
            .collect();
        if !also.is_empty() {
            wrap(out, "OR     ", &format!("--way: {}.", also.join("; ")));
        }
        for other in one.others.iter().filter(|other| {
            other.why.contains("dry") || other.why.contains("cure") || other.why.contains("colder")
        }) {
            wrap(out, "NOT    ", &format!("{}: {}.", other.name, other.why));
        }
    }
}

/// A line with the pipes that it is for, and where it comes from where that is asked.
fn one(plan: &Plan, args: &PickArgs, mark: &str, line: &Line, out: &mut String) {
    let text = format!("{}{}", letters(plan, line), line.text);
    wrap(out, mark, &text);
    if args.why {
        let indent = " ".repeat(mark.len());
        let text = format!("[{}; {}]", line.sources.join(", "), line.grade);
        wrap(out, &indent, &text);
    }
}

/// `(a) ` where it is for one of several pipes.
fn letters(plan: &Plan, line: &Line) -> String {
    only(plan, line).map_or(String::new(), |only| {
        let letters: Vec<String> = only
            .iter()
            .filter_map(|at| ('a'..='z').nth(*at))
            .map(String::from)
            .collect();
        format!("({} ONLY) ", letters.join(", "))
    })
}

fn load(plan: &Plan, args: &PickArgs, place: Place, out: &mut String) {
    let things = pulled(plan.lines.iter(), place);
    if things.is_empty() {
        return;
    }
    out.push_str(match place {
        Place::Counter => " from the counter\n",
        Place::Order => " by order, days: phone first\n",
        Place::Shop => " made up, one to three weeks\n",
        Place::Rare => " rare in this size: ask whether it is made\n",
        Place::Truck => " from the truck and the yard\n",
    });
    for thing in things {
        let mut joints: Vec<&str> = Vec::new();
        for joint in thing.joints {
            if !joint.is_empty() && !joints.contains(&joint) {
                joints.push(joint);
            }
        }
        let joints = if joints.is_empty() {
            String::new()
        } else {
            format!(" [{}]", joints.join(", "))
        };
        let text = format!("{}{}{joints}", letters(plan, thing.line), thing.line.text);
        wrap(out, &format!("{:>4} x ", thing.count), &text);
        if args.why {
            let from = format!("[{}; {}]", thing.line.sources.join(", "), thing.line.grade);
            wrap(out, "       ", &from);
        }
    }
}

/// Joint by joint; one that seals and is held as one before it is told in a line.
fn joints(plan: &Plan, args: &PickArgs, out: &mut String) {
    let about = plan.lines.iter().filter(|line| {
        let sections = ["joint", "gasket", "accessory", "holder", "brings"];
        sections.contains(&line.section.as_str()) && !line.joints.is_empty()
    });
    let mut blocks: Vec<(&Line, Vec<&Line>)> = Vec::new();
    for line in about {
        if line.section == "joint" {
            blocks.push((line, Vec::new()));
        } else if let Some((_, lines)) = blocks.last_mut() {
            lines.push(line);
        }
    }
    let told = |(head, lines): &(&Line, Vec<&Line>)| {
        let lines: Vec<(String, String, Option<u32>)> = lines
            .iter()
            .map(|line| (line.section.clone(), line.text.clone(), line.count))
            .collect();
        (head.key.clone(), head.only.clone(), lines)
    };
    for (at, block) in blocks.iter().enumerate() {
        let (head, lines) = block;
        one(plan, args, &format!(" {:<4} ", head.joints), head, out);
        let before = blocks[..at].iter().find(|held| told(held) == told(block));
        if let (Some((like, _)), false) = (before, args.why) {
            let text = format!("seals and is held as {}", like.joints);
            wrap(out, "      ", &text);
            continue;
        }
        for line in lines {
            let mark = match line.section.as_str() {
                "gasket" => "      GASKET ",
                "accessory" => "      PACK   ",
                "holder" => "      HOLDS  ",
                _ => "             ",
            };
            one(plan, args, mark, line, out);
        }
    }
}
