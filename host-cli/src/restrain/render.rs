//! The answer for programs.

use serde_json::{Value, json};
use springline_core::image::Grade;
use springline_core::joint::Owner;
use springline_core::thrust::{Side, StopKind};

use super::answer::{Answer, Held, Slick, Until};
use super::args::{FittingArg, JointsArg};
use super::block::{Block, Concrete};
use super::held::{Holder, JointHeld};
use crate::format;
use clap::ValueEnum;

fn word<T: ValueEnum>(value: &T) -> String {
    let value = value.to_possible_value();
    value.map_or(String::new(), |value| value.get_name().to_owned())
}

/// Two decimals are enough for anything that is dug.
fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

/// The JSON of the answer.
pub(super) fn json(answer: &Answer) -> String {
    let known = &answer.known;
    let refused = answer.none.as_ref();
    let bare = refused.is_some() && answer.what.is_empty();
    let od = format::inches(known.od()).parse::<f64>().ok();
    let value = json!({
        "schema": "springline-restrain/1",
        "pipe": {
            "family": known.family, "nominal": known.nominal, "class": known.class,
            "od_in": if bare { None } else { od }, "joints": word::<JointsArg>(&answer.joints),
        },
        "owner": Owner::key(answer.owner),
        "fitting": word::<FittingArg>(&answer.fitting),
        "other": answer.other.as_ref().map(|other| json!({ "family": other.family, "nominal": other.nominal })),
        "stop": refused.is_some_and(|no| no.stop),
        "none": refused.map(|no| json!({
            "because": no.because, "instead": no.instead, "source": no.sources, "grade": no.grade.key(),
        })),
        "pressures": answer.pressures.each().map(|(what, pressure)| json!({
            "what": what.key(), "psi": rounded(pressure.in_psi()),
        })).collect::<Vec<_>>(),
        "governs": answer.governs.map(|(what, pressure)| json!({
            "what": what.key(), "psi": rounded(pressure.in_psi()),
        })),
        "rated": answer.rated.as_ref().map(|rating| json!({
            "class": rating.label, "class_psi": rounded(rating.class.in_psi()), "left": rounded(answer.left),
            "rated_psi": rounded((rating.class * answer.left).in_psi()),
            "temperature_f": answer.temperature.map(|hundredths| f64::from(hundredths) / 100.0),
        })),
        "thrust_lbf": answer.thrust.map(|force| rounded(force.in_lbf())),
        "trench_open": answer.open,
        "until_backfilled": answer.held.as_ref().filter(|_| answer.open).map(until),
        "after_backfill": answer.held.as_ref().map(after),
        "block": answer.block.as_ref().map(block),
        "warnings": answer.warnings,
        "cautions": answer.cautions.iter().map(|one| json!({
            "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
            "grade": one.grade.map(Grade::key),
        })).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

fn until(held: &Held) -> Value {
    match held.until {
        Until::Block => json!({ "answer": "block" }),
        Until::EndToEnd => json!({ "answer": "end-to-end" }),
        Until::Below(pressure) => json!({ "answer": "below", "psi": rounded(pressure.in_psi()) }),
    }
}

fn after(held: &Held) -> Value {
    let side = |side: Side| match side {
        Side::First => "first",
        Side::Second => "second",
        Side::Branch => "branch",
    };
    let kind = |kind: StopKind| match kind {
        StopKind::Valve => "valve",
        StopKind::DeadEnd => "dead-end",
    };
    json!({
        "slick": held.slick.map(|slick| match slick {
            Slick::Told => "told",
            Slick::Feared => "not-known",
        }),
        "procedure": held.procedure.key(), "soil": held.soils, "safety_factor": held.safety,
        "stick_ft": rounded(held.stick.in_feet()),
        "legs": held.legs.iter().map(|one| json!({
            "side": side(one.leg.side), "name": one.side, "joints": one.joints, "stops": one.stops,
            "own_ft": rounded(one.leg.own.in_feet()), "length_ft": rounded(one.leg.length.in_feet()),
            "bells": one.leg.bells, "beyond_ft": rounded(one.leg.beyond.in_feet()), "joined": one.leg.joined,
            "met": one.leg.met.map(|stop| json!({ "what": kind(stop.kind), "at_ft": rounded(stop.at.in_feet()) })),
        })).collect::<Vec<_>>(),
        "run_needed_ft": held.plan.run_needed.map(|needed| rounded(needed.in_feet())),
        "holds": held.kinds.iter().map(joint).collect::<Vec<_>>(),
        "taken": held.taken.iter().map(|one| json!({
            "what": one.text, "source": one.sources, "grade": one.grade.map(Grade::key),
        })).collect::<Vec<_>>(),
    })
}

fn joint(kind: &JointHeld) -> Value {
    let all = |all: &[Holder]| {
        let each = all.iter().map(|one| {
            json!({
                "restraint": one.key, "name": one.name, "remark": one.remark, "ask": one.ask, "itself": one.itself,
                "source": one.sources, "grade": one.grade.map(Grade::key),
            })
        });
        each.collect::<Vec<_>>()
    };
    json!({
        "end": kind.key, "name": kind.name, "bell": kind.bell, "holds": all(&kind.holds), "never": all(&kind.never),
    })
}

fn block(block: &Block) -> Value {
    let (kind, area, base, volume, shape) = match &block.concrete {
        Concrete::Half => ("refused", None, None, None, None),
        Concrete::Side(area, shape) => ("side", Some(area), None, None, Some(shape)),
        Concrete::Under(base, area, shape) => ("under", Some(area), Some(base), None, Some(shape)),
        Concrete::Weight(volume, area, shape) => {
            ("weight", Some(area), None, Some(volume), Some(shape))
        }
    };
    let made = shape.and_then(|shape| shape.as_ref().ok());
    json!({
        "kind": kind, "stands": block.stands(), "face_ft2": area.map(|area| rounded(area.in_square_feet())),
        "base_ft2": base.map(|area| rounded(area.in_square_feet())),
        "weight_ft3": volume.map(|volume| rounded(volume.in_cubic_feet())),
        "height_ft": made.map(|shape| rounded(shape.height.in_feet())),
        "width_ft": made.map(|shape| rounded(shape.width.in_feet())),
        "why_not": shape.and_then(|shape| shape.as_ref().err()).map(|why| super::block::why_not(*why)),
        "table": block.table, "soil": block.soil, "bearing_psf": rounded(block.bearing.in_psf()), "factor": block.factor,
        "cure_h": rounded(block.cure.in_hours()), "cure_by": block.cure_by, "source": block.sources,
        "grade": block.grade.map(Grade::key),
    })
}
