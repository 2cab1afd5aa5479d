//! The answer for programs and for spreadsheets: the same lines.

use anyhow::Result;
use serde_json::{Value, json};
use springline_compiler::jobs::Place;

use super::line::{Line, pulled};
use super::plan::{Plan, Refused};

/// Every place, in the order in which a truck drives to them.
pub(super) const PLACES: [Place; 5] = [
    Place::Counter,
    Place::Order,
    Place::Shop,
    Place::Rare,
    Place::Truck,
];

/// The JSON of the answer.
pub(super) fn json(plan: &Plan) -> String {
    let refused = |one: &Refused| {
        json!({
            "pipe": one.name, "because": one.because, "stop": one.stop, "source": one.sources,
            "grade": one.grade,
        })
    };
    let alternatives: Vec<Value> = plan
        .alternatives
        .iter()
        .map(|one| {
            json!({
                "pipes": one.name, "ends": one.ends, "way": one.way,
                "others": one.others.iter().map(|other| json!({
                    "way": other.key, "name": other.name,
                    "why_not": (!other.why.is_empty()).then_some(&other.why),
                })).collect::<Vec<_>>(),
                "refused": one.refused.as_ref().map(refused),
            })
        })
        .collect();
    let pull: Vec<Value> = PLACES
        .iter()
        .map(|place| {
            let things: Vec<Value> = pulled(plan.lines.iter(), *place)
                .iter()
                .map(|one| {
                    json!({
                        "count": one.count, "key": one.line.key, "text": one.line.text,
                        "for": one.joints, "only": only(plan, one.line),
                    })
                })
                .collect();
            json!({ "place": place.key(), "things": things })
        })
        .collect();
    let value = json!({
        "schema": "springline-pick/1", "job": plan.job.key, "name": plan.job.name,
        "read": plan.read, "site": plan.told, "next_check": plan.check,
        "stop": plan.refused.as_ref().is_some_and(|one| one.stop),
        "refused": plan.refused.as_ref().map(refused),
        "alternatives": alternatives,
        "lines": plan.lines.iter().map(|line| json!({
            "section": line.section, "key": line.key, "count": line.count, "text": line.text,
            "joints": line.joints, "place": line.place.map(Place::key),
            "only": only(plan, line), "source": line.sources, "grade": line.grade,
        })).collect::<Vec<_>>(),
        "pull": pull,
        "cautions": plan.cautions.iter().map(|one| json!({
            "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
            "grade": one.grade.map(springline_core::image::Grade::key),
        })).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

/// The alternatives that a line is for; `None` where it is for every one that has a list.
pub(super) fn only<'a>(plan: &Plan, line: &'a Line) -> Option<&'a [usize]> {
    let listed = plan.alternatives.iter().filter(|one| one.way.is_some());
    (line.only.len() < listed.count()).then_some(&line.only[..])
}

/// A table, a line a row.
pub(super) fn csv(plan: &Plan) -> Result<String> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record([
        "section", "count", "text", "key", "joints", "place", "only", "source", "grade",
    ])?;
    for line in &plan.lines {
        let names: Vec<&str> = only(plan, line)
            .unwrap_or(&[])
            .iter()
            .filter_map(|at| plan.alternatives.get(*at))
            .map(|one| one.name.as_str())
            .collect();
        out.write_record([
            line.section.as_str(),
            &line.count.map_or(String::new(), |count| count.to_string()),
            &line.text,
            &line.key,
            &line.joints,
            line.place.map_or("", Place::key),
            &names.join("; "),
            &line.sources.join("; "),
            &line.grade,
        ])?;
    }
    if let Some(refused) = &plan.refused {
        let word = if refused.stop { "stop" } else { "refer" };
        let source = refused.sources.join("; ");
        out.write_record([
            word,
            "",
            &refused.because,
            "",
            "",
            "",
            "",
            &source,
            &refused.grade,
        ])?;
    }
    Ok(String::from_utf8(out.into_inner()?)?)
}
