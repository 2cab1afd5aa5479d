//! The answer for programs.

use serde_json::{Value, json};
use springline_core::image::Grade;
use springline_core::joint::{Act, Kind, Owner, Role, Stock, Task, Thread, Verdict};

use super::phone;
use super::sheet::{PartRow, Sheet};

use crate::cli::FitsArgs;
use crate::format;

/// The JSON of the answer.
pub(super) fn json(sheet: &Sheet<'_>, args: &FitsArgs) -> String {
    let known = sheet.known;
    let inches = |counts: i64| json!(format::inches(counts).parse::<f64>().ok());
    let mut pipe = json!({
        "family": known.family, "nominal": known.nominal, "form": known.pipe.form.key(),
        "owner": Owner::key(sheet.owner),
    });
    let rows: Vec<Value> = if let Some((sealing, reason, sources)) = &sheet.refused {
        vec![json!({
            "part": "none", "verdict": Verdict::Refer.key(), "needs": [], "holds": [],
            "reason": reason, "kind": sealing.kind.map(Kind::key),
            "source": sources, "grade": sealing.grade.key(),
        })]
    } else {
        pipe["class"] = json!(known.class);
        let told = known.told.as_ref();
        pipe["class_printed"] = json!(told.and_then(|told| told.printed.as_deref()));
        pipe["class_psi"] = json!(told.map_or(&[][..], |told| &told.psi));
        pipe["class_also"] = json!(told.map_or(&[][..], |told| &told.also));
        pipe["od_system"] = json!(known.system);
        pipe["od_in"] = inches(i64::from(known.pipe.row.od));
        pipe["od_low_in"] = inches(i64::from(known.pipe.row.low));
        pipe["od_high_in"] = inches(i64::from(known.pipe.row.high));
        pipe["measured_in"] = known.measured.map_or(Value::Null, inches);
        sheet.asked().map(|row| one(sheet, row, args)).collect()
    };
    let value = json!({
        "schema": "springline-fits/1", "pipe": pipe, "stop": known.stop && sheet.refused.is_some(),
        "rows": rows, "cautions": sheet.cautions.iter().map(|one| json!({
            "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
            "grade": one.grade.map(Grade::key),
        })).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

fn one(sheet: &Sheet<'_>, row: &PartRow, args: &FitsArgs) -> Value {
    let outlet = row.outlet.as_ref().map(|(thread, sizes)| {
        let rule = row.outlet_rule.as_ref();
        json!({
            "thread": Thread::key(*thread), "sizes": sizes, "rule": rule.map(|(rule, _)| rule),
            "source": rule.map(|(_, sources)| sources),
        })
    });
    let holds: Vec<Value> = row
        .holds
        .iter()
        .filter(|_| row.wants_holding())
        .map(|held| json!({ "restraint": held.key, "name": held.name, "remark": held.remark }))
        .collect();
    json!({
        "part": row.key, "name": row.name, "verdict": row.verdict.key(), "needs": row.needs,
        "holds": holds, "reason": row.reason, "kind": row.kind.map(Kind::key),
        "source": row.sources, "grade": row.grade.key(), "by_class": row.by_class,
        "jobs": row.tasks.iter().map(|task| Task::key(*task)).collect::<Vec<_>>(),
        "end": row.end_name, "role": Role::key(row.role), "act": Act::key(row.act),
        "stock": Stock::key(row.stock), "gasket": row.gasket, "range": row.range,
        "less": row.packs.iter().map(|(count, pack)| json!({ "count": count, "what": pack }))
            .chain((!row.less.is_empty()).then(|| json!({ "count": 1, "what": row.less })))
            .collect::<Vec<_>>(),
        "comes": row.comes, "pieces": row.pieces.iter().map(|piece| piece.key()).collect::<Vec<_>>(),
        "piece": row.piece, "wont": row.wont, "tools": row.tools, "outlet": outlet,
        "psi": row.psi, "dry": row.dry,
        "never": row.forbidden.iter().map(|held| json!({
            "restraint": held.key, "name": held.name, "why": held.remark, "ask": held.ask,
        })).collect::<Vec<_>>(),
        "held": row.wants_holding().then_some(!row.holds.is_empty()),
        "say": (row.verdict < Verdict::Refer)
            .then(|| phone::part(sheet.known, row, args.units.into())),
    })
}
