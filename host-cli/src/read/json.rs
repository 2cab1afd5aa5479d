//! The answer for programs; `host-cli/JSON.md` documents it.

use serde_json::{Value, json};
use springline_core::identify::Outcome;

use super::finding::{Finding, fraction};

/// The name and version of the shape of this answer.
const SCHEMA: &str = "springline-read/1";

/// Counts of 10 nm in an inch.
const INCH: f64 = 2_540_000.0;

/// Writes the answer.
pub(super) fn json(finding: &Finding<'_>) -> String {
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
                "weight": fraction(candidate.weight.q30()),
            });
            let variant = image.label(row.variant);
            if !variant.is_empty() {
                value["variant"] = json!(variant);
            }
            value
        })
        .collect();
    let next_check = if finding.needs_crossing() {
        json!({ "check": "crossed-diameter" })
    } else {
        Value::Null
    };
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
    if let Some(round) = answer.out_of_round {
        value["reading"]["out_of_round_in"] = json!(f64::from(round.spread.counts()) / INCH);
    }
    let mut text = serde_json::to_string_pretty(&value).unwrap_or_default();
    text.push('\n');
    text
}
