//! The answer for programs.

use serde_json::{Value, json};

use super::made::Made;
use crate::bolts::words::{Sourced, cautions, number};
use crate::format;

/// The JSON of the answer.
pub(super) fn json(made: &Made) -> String {
    let known = &made.known;
    let mut value = json!({
        "schema": "springline-assemble/1", "family": known.family, "nominal": known.nominal,
        "class": known.class, "joint": made.joint.key(), "stop": known.stop && made.refused.is_some(),
        "cautions": cautions(&made.cautions),
    });
    if let Some((sealing, reason, from)) = &made.refused {
        value["none"] = json!(reason);
        value["sources"] =
            json!([{ "what": "none", "source": from, "grade": sealing.grade.key() }]);
        return format!("{value:#}\n");
    }
    value["od_in"] = json!(format::inches(known.od()).parse::<f64>().ok());
    value["end"] = json!(made.end_name);
    value["none"] = json!(made.no);
    value["need"] = json!(made.need);
    let step = |(text, from): &(String, Sourced)| json!({ "step": from.what, "text": text, "source": from.keys, "grade": from.grade.key() });
    value["steps"] = made.steps.iter().map(step).collect();
    value["depth"] = json!(made.depth);
    value["mark_in"] = json!(made.mark.map(|mark| number(mark.in_inches())));
    value["turn"] = made.turning.as_ref().map_or(Value::Null, |one| {
        json!({
            "most_degrees": number(one.most.in_degrees()), "grade": one.grade.key(),
            "owners_share": one.owners, "degrees": number(one.turn.angle.in_degrees()),
            "stick_ft": number(one.turn.stick.in_feet()), "stick_told": one.stick_told,
            "offset_in": number(one.turn.offset().in_inches()),
            "radius_ft": Some(one.turn.radius()).filter(|radius| radius.is_finite())
                .map(|radius| number(radius.in_feet())),
            "line_degrees": one.joints.map(|(degrees, _)| degrees),
            "joints": one.joints.map(|(_, joints)| joints),
        })
    });
    value["no_turn"] = json!(made.no_turning);
    value["growth_per_f"] = json!(made.moves.per_f);
    value["movement_in"] = json!(
        made.moves
            .told
            .as_ref()
            .map(|told| number(told.2.in_inches()))
    );
    value["glue"] = made.glue.as_ref().map_or(Value::Null, |glue| {
        let bands = glue.bands.iter().map(|band| {
            let waits = band.waits.iter().map(|(pressure, wait)| match wait {
                Ok(wait) => json!({
                    "pressure": pressure, "set_min": number(wait.set.in_minutes()),
                    "cure_h": number(wait.cure.in_hours()), "none": null, "grade": wait.grade.key(),
                }),
                Err(why) => json!({ "pressure": pressure, "none": why }),
            });
            json!({ "at": band.at, "waits": waits.collect::<Vec<_>>() })
        });
        json!({ "wet": glue.wet, "bands": bands.collect::<Vec<_>>(), "above_class_psi": glue.above_class })
    });
    let bring = made.bring.iter().map(|one| {
        json!({ "what": one.what, "count": one.count, "unit": one.unit, "remark": one.remark })
    });
    value["bring"] = bring.collect();
    value["holds"] = json!(made.holds);
    let glue = made.glue.iter().filter_map(|glue| glue.from.as_ref());
    value["sources"] = made.why.iter().chain(glue).map(Sourced::json).collect();
    format!("{value:#}\n")
}
