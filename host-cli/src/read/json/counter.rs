//! What the answer means at the counter, for programs.

use anyhow::Result;
use serde_json::{Value, json};
use springline_compiler::notes::{Cited, Notes};
use springline_core::image::Grade;
use springline_core::joint::{Job, Kind, Verdict};
use springline_tables::NOTES;

use crate::read::finding::{Finding, fraction};
use crate::read::purchase::{End, Held};

/// Adds what is bought: purchases, what pipes take, what holds them, what hangs on which it is.
pub(super) fn add(value: &mut Value, finding: &Finding<'_>) -> Result<()> {
    let notes = Notes::from_bytes(NOTES)?;
    value["purchases"] = purchases(finding);
    let bought = &finding.purchase;
    let stop = finding.stop;
    let ends = bought.ends.iter().filter(|_| !stop);
    value["parts"] = json!({
        "of": bought.pipes,
        "ends": ends.map(|end| one_end(&notes, end)).collect::<Vec<_>>(),
        "holds": bought.holds.iter().filter(|_| !stop).map(|one| held(&notes, one)).collect::<Vec<_>>(),
        "depends": bought.apart.iter().map(|apart| json!({
            "what": apart.name,
            "by": apart.by.iter().map(|(words, pipes)| json!({ "is": words, "on": pipes })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "differs": bought.parted.jobs().filter(|job| *job != Job::None).map(Job::key).collect::<Vec<_>>(),
    });
    Ok(())
}

/// The candidates by purchase, the likeliest first.
fn purchases(finding: &Finding<'_>) -> Value {
    let image = finding.image;
    let job = finding.asked.query.job;
    let mut all: Vec<(u16, f64, Vec<usize>)> = Vec::new();
    for (at, candidate) in finding.answer.candidates().iter().enumerate() {
        let purchase = image.purchase(job, candidate.row);
        let weight = fraction(candidate.weight.q30());
        match all.iter_mut().find(|(held, ..)| *held == purchase) {
            Some((_, sum, members)) => {
                *sum += weight;
                members.push(at);
            }
            None => all.push((purchase, weight, vec![at])),
        }
    }
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    all.into_iter()
        .map(|(_, weight, members)| json!({ "weight": weight, "candidates": members }))
        .collect()
}

fn sources(notes: &Notes, cited: Option<&Cited>) -> Vec<String> {
    let all = cited.map_or(&[][..], |cited| &cited.sources);
    all.iter()
        .filter_map(|at| notes.sources.get(usize::from(*at)))
        .map(|source| source.key.clone())
        .collect()
}

fn one_end(notes: &Notes, end: &End) -> Value {
    json!({
        "end": notes.joints.ends.get(usize::from(end.index)),
        "name": end.name,
        "role": end.role.key(),
        "verdict": end.verdict.key(),
        "needs": if end.verdict == Verdict::No || end.need.is_empty() { Vec::new() } else { vec![&end.need] },
        "reason": end.reason,
        "kind": end.kind.map(Kind::key),
        "by_class": end.by_class,
        "sources": sources(notes, notes.joints.matrix.get(usize::from(end.row))),
        "grade": end.grade.key(),
    })
}

fn held(notes: &Notes, held: &Held) -> Value {
    let note = notes.joints.restraints.get(usize::from(held.index));
    let ends = held
        .ends
        .iter()
        .filter_map(|end| notes.joints.ends.get(usize::from(end)));
    json!({
        "key": note.map(|(key, _)| key),
        "name": held.name,
        "remark": held.remark,
        "ends": ends.collect::<Vec<_>>(),
        "sources": sources(notes, note.map(|(_, cited)| cited)),
        "grade": held.grade.map(Grade::key),
    })
}
