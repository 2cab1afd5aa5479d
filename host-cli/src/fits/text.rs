//! The answer for people.

use springline_core::joint::{Act, Owner, Task, Verdict};

use super::card::{Depth, card};
use super::range::{Judged, told};
use super::sheet::{Sheet, form_words};
use super::{caution, overview, phone};
use crate::cli::{FitsArgs, FitsJobArg};
use crate::format;
use crate::read::lines::wrap;

/// Writes the answer.
pub(super) fn text(sheet: &Sheet<'_>, args: &FitsArgs) -> String {
    let mut out = String::new();
    if let Some((sealing, reason, sources)) = &sheet.refused {
        let known = sheet.known;
        out.push_str(&known.name);
        out.push_str(if known.stop {
            "\nSTOP - ASK\n"
        } else {
            "\nASK\n"
        });
        wrap(&mut out, "", &format!("{reason}. No parts are given."));
        if args.why {
            let from = sources.join(", ");
            wrap(
                &mut out,
                "SOURCE ",
                &format!("{from}; {}.", sealing.grade.key()),
            );
        }
    } else {
        head(sheet, args, &mut out);
        body(sheet, args, &mut out);
    }
    out.push('\n');
    for line in caution::lines(&sheet.cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

fn head(sheet: &Sheet<'_>, args: &FitsArgs, out: &mut String) {
    let known = sheet.known;
    let unit = args.units.into();
    let band = told(
        (
            i64::from(known.pipe.row.low),
            i64::from(known.pipe.row.high),
        ),
        unit,
    );
    let class = known
        .class
        .as_ref()
        .map_or(String::new(), |class| format!(" {class}"));
    wrap(
        out,
        "",
        &format!(
            "{} {}{class}{}, {}: OD {}, within tolerance {band}",
            known.size(),
            known.name,
            known.print(),
            known.system,
            format::length(i64::from(known.pipe.row.od), unit)
        ),
    );
    if let Some(od) = known.measured {
        wrap(
            out,
            "",
            &format!("Read from an OD of {}.", format::length(od, unit)),
        );
    }
    if let Some(doubt) = known.doubt() {
        wrap(out, "", &doubt);
    }
    let mut taken = vec![format!("end {} (--end)", form_words(known.pipe.form))];
    if known.class.is_none() && known.classes.len() > 1 {
        taken.push(format!(
            "class not known, {} (--class)",
            span(&known.classes)
        ));
    }
    let asks = |option: &Option<String>, job: FitsJobArg| args.job == Some(job) && option.is_none();
    if asks(&args.outlet, FitsJobArg::Outlet) {
        taken.push(String::from("size of the outlet to be told (--outlet)"));
    }
    if asks(&args.angle, FitsJobArg::Turn) {
        taken.push(String::from("degrees of a bend to be told (--angle)"));
    }
    wrap(out, "", &format!("Taken: {}.", taken.join("; ")));
    let opened = sheet
        .asked()
        .any(|row| matches!(row.act, Act::Cut | Act::Tap));
    match sheet.owner {
        Owner::Unknown if opened => {
            wrap(
                out,
                "",
                "Whose is it? Ahead of the meter it is the purveyor's: ask first (--owner).",
            );
        }
        Owner::Purveyor => wrap(
            out,
            "",
            "ASK OWNER: it is the purveyor's; no cut and no tap without their leave.",
        ),
        _ => {}
    }
    if let Some((range, judged)) = sheet.range {
        let says = match judged {
            Judged::Holds => "holds this pipe, with all that tolerance allows",
            Judged::Barely => "holds its OD, not all that tolerance allows: tape this pipe",
            Judged::No => "DOES NOT HOLD this pipe",
        };
        wrap(
            out,
            "RANGE ",
            &format!("stamped {} {says}.", told(range, unit)),
        );
    }
    out.push('\n');
}

/// `DR 14 to DR 51`.
fn span(classes: &[String]) -> String {
    match classes {
        [] => String::new(),
        [one] => one.clone(),
        [first, second] => format!("{first} or {second}"),
        [first, .., last] => format!("{first} ... {last}"),
    }
}

fn body(sheet: &Sheet<'_>, args: &FitsArgs, out: &mut String) {
    let unit = args.units.into();
    if args.job == Some(FitsJobArg::Restraint) && args.part.is_none() {
        overview::joints(sheet, out);
        return;
    }
    let narrowed = args.range.is_some() || args.outlet.is_some() || args.angle.is_some();
    let whole = args.part.is_none() && args.job.is_none() && !args.why && !narrowed;
    if whole {
        overview::joints(sheet, out);
        for task in Task::ALL {
            overview::group(sheet, *task, out);
        }
        let say = format!(
            "{}, {}; then the part.",
            phone::pipe(sheet.known, unit),
            form_words(sheet.known.pipe.form)
        );
        wrap(out, "SAY    ", &say);
        return;
    }
    let depth = Depth {
        why: args.why || args.part.is_some(),
        full: args.part.is_some(),
    };
    let ranged = |row: &&super::sheet::PartRow| {
        args.range.is_none() || args.part.is_some() || args.why || row.judged
    };
    if args.job == Some(FitsJobArg::Repair) && args.part.is_none() {
        let text =
            "Can it be got dry, and when must water be back? What is glued or fused wants it dry.";
        wrap(out, "", text);
        if sheet.known.cracks {
            let text =
                "A crack runs beyond what shows: cut back 12 in each side, or to the next bell.";
            wrap(out, "", text);
        }
        out.push('\n');
    }
    let mut shown = 0;
    for row in sheet.asked().filter(ranged) {
        if row.verdict == Verdict::No && !depth.why && sheet.range.is_none() {
            continue;
        }
        shown += 1;
        card(sheet, row, depth, unit, out);
    }
    if shown == 0 {
        out.push_str("Nothing in the tables does this on this pipe (--why says why).\n");
    } else if !depth.full && args.range.is_none() {
        let tools = overview::tools(sheet);
        if !tools.is_empty() {
            wrap(out, "TOOLS  ", &format!("{tools}."));
        }
    }
}
