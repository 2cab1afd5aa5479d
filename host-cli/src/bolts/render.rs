//! The answer for programs.

use serde_json::{Value, json};
use springline_core::assembly::{across_flats, passes, star};
use springline_core::unit::Distance;

use super::flange::FlangeSaid;
use super::mechanical::MechanicalSaid;
use super::text::{SHARES, rounds};
use super::words::{Sourced, cautions, number};
use super::{BetweenArg, Bolted, FaceArg, words};
use crate::fits::caution::Due;

/// The JSON of the answer.
pub(super) fn json(bolted: &Bolted, due: &[Due]) -> String {
    let mut value = match bolted {
        Bolted::Flange(said) => flange(said),
        Bolted::Mechanical(said) => mechanical(said),
    };
    value["schema"] = json!("springline-bolts/1");
    value["cautions"] = cautions(due);
    format!("{value:#}\n")
}

fn inches(length: Distance) -> Value {
    number(length.in_inches())
}

fn wrench(bolt: Distance) -> Value {
    json!({
        "heavy_in": inches(across_flats(bolt, true)), "plain_in": inches(across_flats(bolt, false)),
        "grade": "memory",
    })
}

fn flange(said: &FlangeSaid) -> Value {
    let size = words::size(said.size);
    let flanges = said.flanges.map(super::BodyArg::word);
    let faces = said.faces.map(|face| match face {
        FaceArg::Flat => "flat",
        FaceArg::Raised => "raised",
    });
    let between = match said.between {
        BetweenArg::Nothing => "nothing",
        BetweenArg::Lug => "lug",
        BetweenArg::Wafer => "wafer",
        BetweenArg::Filler => "filler",
    };
    if let Some(refused) = &said.refused {
        return json!({ "joint": "flange", "nominal": size, "flanges": flanges, "faces": faces, "none": refused });
    }
    let set = &said.set;
    let lengths = said.lengths.as_ref();
    let torque = said.torque.as_ref().ok();
    let steps = |torque: springline_core::unit::Torque| {
        SHARES.map(|share| number((torque * share).in_foot_pounds()))
    };
    json!({
        "joint": "flange", "nominal": size, "class": said.drilling.key(), "flanges": flanges,
        "faces": faces, "faces_told": said.faces_told, "between": between, "none": null,
        "count": said.count, "bolt_in": inches(set.bolt), "circle_in": inches(set.circle),
        "next_hole_in": inches(set.spacing()), "od_in": inches(said.od), "grade": set.grade.key(),
        "length_in": lengths.map(|one| inches(one.bolt)), "stud_in": lengths.map(|one| inches(one.stud)),
        "length_listed": lengths.map(|one| one.listed), "no_length": said.no_length,
        "length_grade": lengths.filter(|one| one.listed).map(|_| set.length_grade.key()),
        "gasket_in": inches(said.gasket_thick), "washers": said.washers, "wrench": wrench(set.bolt),
        "torque_ftlb": torque.map(|one| {
            let figure = number(one.torque.in_foot_pounds());
            json!([figure, figure])
        }),
        "torque_condition": torque.map(|one| &one.condition),
        "no_torque": said.torque.as_ref().err(),
        "order": star(set.bolts).collect::<Vec<_>>(), "rounds": passes(false),
        "round_ftlb": torque.map(|one| steps(one.torque)),
        "steps": said.steps.iter().map(|(text, from)| json!({
            "step": from.what, "text": text, "source": from.keys, "grade": from.grade.key(),
        })).collect::<Vec<_>>(),
        "sources": said.why.iter().map(Sourced::json).collect::<Vec<_>>(),
    })
}

fn mechanical(said: &MechanicalSaid) -> Value {
    let set = &said.set;
    let steps: Vec<Value> = rounds(set.torque[0], set.passes)
        .map(|step| number(step.in_foot_pounds()))
        .collect();
    json!({
        "joint": "mj", "nominal": words::size(said.size), "restraint": said.restraint, "none": null,
        "count": set.bolts, "bolt_in": inches(set.bolt), "grade": set.grade.key(),
        "length_in": (!said.restraint).then(|| inches(set.length)),
        "no_length": said.restraint.then_some("the bolts of the restraint's own pack"),
        "wrench": wrench(set.bolt), "socket_in": inches(set.socket),
        "torque_ftlb": set.torque.map(|torque| number(torque.in_foot_pounds())),
        "torque_condition": "rubber gasket, T-bolts of low-alloy steel, clean threads (condition from memory)",
        "torque_grade": set.torque_grade.key(), "order": star(set.bolts).collect::<Vec<_>>(),
        "rounds": set.passes, "round_ftlb": steps,
        "sources": said.why.iter().map(Sourced::json).collect::<Vec<_>>(),
    })
}
