//! What to say to a counter on the phone: all that they would ask back.

use springline_core::joint::{Form, Kind, Stock, Thread, Verdict};

use super::known::Known;
use super::sheet::PartRow;
use crate::format;
use crate::parse::Unit;

/// What a pack says of restraints.
pub(super) const OWN: &str = " (a restraint may bring its own)";

/// The pipe, in one breath.
pub(super) fn pipe(known: &Known, unit: Unit) -> String {
    let class = known
        .class
        .as_ref()
        .map_or(String::new(), |class| format!(" {class}"));
    let system = known.system_beside();
    format!(
        "{} {}{class}{system}, OD {}",
        known.size(),
        known.name,
        format::length(known.od(), unit)
    )
}

/// One part for that pipe.
pub(super) fn part(known: &Known, row: &PartRow, unit: Unit) -> String {
    let piece = row.piece.as_ref();
    let piece = piece.map_or(String::new(), |piece| {
        // "MJ bend of 45 degrees", but "gasketed fitting IPS, bend of 45 degrees".
        let own = piece.starts_with("of ") || piece.starts_with("by ");
        let before = if own { " " } else { ", " };
        let behind = if own { "" } else { "," };
        format!("{before}{piece}{behind}")
    });
    let mut text = format!("One {}{piece} for {}", row.name, pipe(known, unit));
    if known.pipe.form != Form::PlainSquare && row.verdict <= Verdict::FitsWith {
        text.push_str(match known.pipe.form {
            Form::Flanged => ", flanged",
            Form::Grooved => ", grooved",
            Form::Threaded => ", threaded",
            _ => "",
        });
    }
    if let Some(range) = &row.range {
        text.push_str("; range to hold ");
        text.push_str(range);
    }
    if let Some((thread, sizes)) = &row.outlet {
        let sizes = choice(sizes);
        text.extend(["; outlet ", &sizes, " in ", thread_words(*thread)]);
    }
    for need in &row.needs {
        // What is cut or bevelled is the crew's to do; what is ordered is asked for. A gasket comes with its pack.
        if row.verdict == Verdict::Adapter {
            text.push_str("; on the pipe: ");
            text.push_str(need);
        } else if row.kind != Some(Kind::Form) && row.range.is_none() && !need.ends_with("gasket") {
            text.push_str("; ");
            text.push_str(need);
        }
    }
    if !row.packs.is_empty() {
        text.push_str("; sold less accessories, so also ");
        // Whether a restraint brings its own is for the counter to say, part by part.
        text.push_str(&packs(row).replace(OWN, ""));
    }
    if !row.less.is_empty() {
        text.push_str("; and ");
        text.push_str(&row.less);
    }
    if row.wants_holding() {
        let bought = row.holds.iter().filter(|held| !held.itself);
        let names: Vec<&str> = bought.map(|held| held.name.as_str()).collect();
        if !names.is_empty() {
            text.push_str("; and for each joint on this pipe one ");
            text.push_str(&names.join("; or "));
        }
    }
    match row.stock {
        Stock::Counter => {}
        Stock::Order => text.push_str(". How many days"),
        Stock::Shop => text.push_str(". Made up: how many weeks"),
        Stock::Rare => text.push_str(". Is it made in this size"),
    }
    text.push(if row.stock == Stock::Counter {
        '.'
    } else {
        '?'
    });
    text
}

/// `2 of accessory pack: gland ...`.
pub(super) fn packs(row: &PartRow) -> String {
    let told: Vec<String> = row
        .packs
        .iter()
        .map(|(count, pack)| format!("{count} x {pack}"))
        .collect();
    told.join("; ")
}

/// `1 or 2`, `3/4, 1 or 2`.
pub(super) fn choice(sizes: &[&str]) -> String {
    match sizes {
        [] => String::from("(none)"),
        [one] => (*one).to_owned(),
        [all @ .., last] => format!("{} or {last}", all.join(", ")),
    }
}

/// A thread as a counter says it.
pub(super) const fn thread_words(thread: Thread) -> &'static str {
    match thread {
        Thread::NptFemale => "NPT female",
        Thread::NptPlastic => "NPT female of plastic",
        Thread::NptMale => "NPT male",
        Thread::CorpFemale => "taper corporation thread, female",
        Thread::CorpMale => "taper corporation thread, male",
    }
}
