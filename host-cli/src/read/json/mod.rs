//! The answer for programs; `host-cli/JSON.md` documents it.

mod counter;

use anyhow::Result;
use serde_json::{Value, json};
use springline_core::identify::Outcome;
use springline_core::image::Grade;
use springline_core::joint::Job;

use super::classes;
use super::finding::{Finding, fraction};
use super::next::Next;
use super::terms::{Datum, Origin, Terms};

/// The name and version of the shape of this answer.
const SCHEMA: &str = "springline-read/1";

/// Counts of 10 nm in an inch.
const INCH: f64 = 2_540_000.0;

/// Writes the answer, with its terms where they were asked for.
///
/// # Errors
///
/// The notes of the built-in tables cannot be read.
pub(super) fn json(finding: &Finding<'_>, terms: Option<&[Terms]>) -> Result<String> {
    let answer = finding.answer;
    let image = finding.image;
    let candidates: Vec<Value> = answer
        .candidates()
        .iter()
        .map(|candidate| {
            let row = image.row(candidate.row);
            let mut value = json!({
                "family": image.packed_text(image.family(row.family).key),
                "od_system": image.packed_text(image.system(row.system).key),
                "nominal": image.size(row.size),
                "od_in": f64::from(row.od) / INCH,
                "weight": fraction(candidate.weight.q30()),
            });
            let pipe = finding
                .pipes
                .iter()
                .find(|pipe| pipe.indices.first() == Some(&candidate.row));
            let classes = pipe.map_or(Vec::new(), |pipe| classes::of(finding, pipe));
            if !classes.is_empty() {
                let each = classes.iter().map(|class| {
                    let mut value =
                        json!({ "class": class.label, "weight": class.share, "psi": class.psi });
                    if let Some((degrees, psi)) = class.warm {
                        value["warm"] = json!({ "at_f": degrees, "psi": psi });
                    }
                    value
                });
                value["classes"] = each.collect();
            }
            let variant = image.label(row.variant);
            if !variant.is_empty() {
                value["variant"] = json!(variant);
            }
            value
        })
        .collect();
    let next_check = finding.next.as_ref().map_or(Value::Null, next);
    let mut value = json!({
        "schema": SCHEMA,
        "outcome": match answer.outcome {
            Outcome::Settled => "settled",
            Outcome::Split => "split",
            Outcome::Outside => "outside",
        },
        "reading": {
            "od_in": f64::from(answer.od.counts()) / INCH,
            "u_in": f64::from(answer.sigma.counts()) / INCH,
            "short_jaws": answer.short_jaws,
            "disagreement": answer.disagreement,
        },
        "candidates": candidates,
        "rest_weight": fraction(answer.rest.q30()),
        "outside_weight": fraction(answer.outside.q30()),
        "next_check": next_check,
        "stop": finding.stop,
        "cautions": finding.cautions,
    });
    value["contradiction"] = finding.contradiction.as_ref().map_or(Value::Null, |told| {
        json!({
            "clue": told.clue,
            "without": told.without.as_ref().map(|(family, _, share)| json!({
                "family": family,
                "weight": share,
            })),
        })
    });
    if let Some(round) = answer.out_of_round {
        value["reading"]["out_of_round_in"] = json!(f64::from(round.spread.counts()) / INCH);
    }
    if let Some(terms) = terms {
        value["terms"] = terms.iter().map(term).collect();
    }
    value["job"] = match finding.asked.query.job {
        Job::None => Value::Null,
        job => json!(job.key()),
    };
    counter::add(&mut value, finding)?;
    Ok(format!("{value:#}\n"))
}

fn next(next: &Next) -> Value {
    let leads = next.leads.iter();
    json!({
        "check": next.key,
        "question": next.question,
        "settles": fraction(next.proposal.settles.q30()),
        "less_doubt_bits": f64::from(next.proposal.less_doubt) / 65_536.0,
        "minutes": f64::from(next.proposal.effort) / 100.0,
        "parts": next.parted.jobs().filter(|job| *job != Job::None).map(Job::key).collect::<Vec<_>>(),
        "leads": leads.map(|(answer, pipe)| json!({ "answer": answer, "pipe": pipe })).collect::<Vec<_>>(),
    })
}

fn term(terms: &Terms) -> Value {
    let grade = |grade: Option<Grade>| grade.map(Grade::key);
    json!({
        "family": terms.family,
        "nominal": terms.nominal,
        "variant": terms.variant,
        "weight": terms.weight,
        "od_in": terms.od / INCH,
        "od_grade": grade(terms.od_grade),
        "band_in": [terms.band.0 / INCH, terms.band.1 / INCH],
        "tolerance_grade": grade(terms.tolerance_grade),
        "temperature": {
            "per_f": terms.thermal,
            "at_f": terms.degrees,
            "told": terms.told,
            "shift_in": terms.shift / INCH,
        },
        "out_of_round_sigma_in": terms.oval / INCH,
        "squash": terms.squash.map(|(mean, sd)| json!({ "mean_in": mean / INCH, "sigma_in": sd / INCH })),
        "prior": {
            "family": terms.prior.0,
            "size": terms.prior.1,
            "grade": grade(terms.prior_grade),
        },
        "clues": terms.clues.iter().map(|(words, chance, of)| json!({
            "told": words,
            "likelihood": chance,
            "grade": grade(*of),
        })).collect::<Vec<_>>(),
        "data": terms.data.iter().map(datum).collect::<Vec<_>>(),
    })
}

#[allow(
    clippy::cast_precision_loss,
    reason = "lengths of pipe, in counts, are exact in a float"
)]
fn datum(datum: &Datum) -> Value {
    let with = |mut value: Value, from: &Origin| {
        value["sources"] = json!(from.sources);
        value["grade"] = json!(from.grade.map(Grade::key));
        value
    };
    let inches = |counts: i64| counts as f64 / INCH;
    json!({
        "standard": datum.standard,
        "series": datum.series,
        "od": with(json!({ "value_in": inches(datum.od) }), &datum.od_from),
        "tolerance": datum.tolerance.as_ref().map(|(plus, minus, from)| {
            with(json!({ "plus_in": inches(*plus), "minus_in": inches(*minus) }), from)
        }),
        "out_of_round": datum.out_of_round.as_ref().map(|(allowance, from)| {
            with(json!({ "value_in": inches(*allowance) }), from)
        }),
    })
}
