//! The answer for programs.

use serde_json::{Value, json};
use springline_core::image::Grade;
use springline_core::joint::tie::{Direct, On};
use springline_core::joint::{Act, Owner, Stock, Verdict};

use super::super::sheet::Held;
use super::piece::{PieceSaid, SideSaid};
use super::way::Way;
use super::{Tied, say, text};
use crate::cli::TieArgs;
use crate::format;

/// The JSON of the answer.
pub(super) fn json(tied: &Tied, args: &TieArgs) -> String {
    let ends: Vec<Value> = tied
        .ends
        .iter()
        .enumerate()
        .map(|(at, end)| {
            let known = &end.known;
            // Of pipe on which nothing is put nothing but its name is told.
            let refused = tied
                .refused
                .as_ref()
                .is_some_and(|refused| refused.end == at);
            let od = format::inches(known.od()).parse::<f64>().ok();
            json!({
                "family": known.family, "nominal": known.nominal, "class": known.class,
                "form": known.pipe.form.key(), "class_250": end.heavy, "fixed": end.fixed,
                "od_in": if refused { None } else { od },
            })
        })
        .collect();
    let none = match (&tied.refused, tied.none) {
        (Some(refused), _) => json!({
            "because": refused.reason, "end": refused.end, "source": refused.sources,
            "grade": refused.sealing.grade.key(), "stop": tied.ends[refused.end].known.stop,
        }),
        (None, Some(why)) => json!({ "because": text::why_none(tied, why) }),
        (None, None) => Value::Null,
    };
    let value = json!({
        "schema": "springline-tie-in/1", "owner": Owner::key(tied.owner), "ends": ends,
        "taken": tied.lying.words(args.units.into()).join(" "), "shrinks": tied.shrinks,
        "bends": tied.site.lie.bends, "back_in_h": tied.site.hours, "dry": tied.site.dry,
        "ways": tied.ways.iter().map(|one| way(tied, one, args)).collect::<Vec<_>>(),
        "none": none,
        "cautions": tied.cautions.iter().map(|one| json!({
            "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
            "grade": one.grade.map(Grade::key),
        })).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

fn way(tied: &Tied, way: &Way, args: &TieArgs) -> Value {
    json!({
        "cost": way.cost, "joints": way.joints, "stock": Stock::key(way.stock), "dry": way.dry,
        "late": way.late, "direct": way.direct.as_ref().map(|(direct, sides)| json!({
            "joint": match direct {
                Direct::Flanges => "flanges",
                Direct::Bell(..) => "bell",
                Direct::Fused(_) => "fused",
            },
            "sides": sides.iter().map(side).collect::<Vec<_>>(),
        })),
        "pieces": way.pieces.iter().map(piece).collect::<Vec<_>>(), "cuts": way.cuts,
        "closing": way.closing.as_ref().map(|closing| json!({
            "piece": closing.piece, "slides_over": closing.over,
        })),
        "last": way.last, "say": say::say(tied, way, args.units.into()),
    })
}

fn piece(piece: &PieceSaid) -> Value {
    json!({
        "part": piece.key, "name": piece.name, "turn": piece.turn, "act": Act::key(piece.act),
        "stock": Stock::key(piece.stock), "comes": piece.comes, "wont": piece.wont,
        "less": piece.packs.iter().map(|(count, pack)| json!({ "count": count, "what": pack }))
            .chain((!piece.less.is_empty()).then(|| json!({ "count": 1, "what": piece.less })))
            .collect::<Vec<_>>(),
        "source": piece.sources, "grade": piece.grade.map(Grade::key),
        "sides": piece.sides.iter().map(side).collect::<Vec<_>>(),
    })
}

fn side(side: &SideSaid) -> Value {
    let on = match side.on {
        On::First => "first",
        On::Second => "second",
        On::CutOfFirst => "cut-of-first",
        On::CutOfSecond => "cut-of-second",
        On::Part => "part",
    };
    let held = |held: &Held| {
        json!({
            "restraint": held.key, "name": held.name, "remark": held.remark,
            "itself": held.itself, "ask": held.ask,
        })
    };
    json!({
        "on": on, "end": side.end, "name": side.end_name, "size": side.size,
        "verdict": side.verdict.map(Verdict::key), "need": side.need, "reason": side.reason,
        "source": side.sources, "grade": side.grade.map(Grade::key), "gasket": side.gasket,
        "range": side.range, "dry": side.dry, "held": !side.is_loose(),
        "holds": side.holds.iter().map(held).collect::<Vec<_>>(),
        "never": side.never.iter().map(held).collect::<Vec<_>>(),
    })
}
