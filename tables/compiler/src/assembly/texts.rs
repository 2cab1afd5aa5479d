//! The files that only a desk shows: torque of flanges, quantities, sticks, steps, constants.

use super::cells::{decimal, number, ordered, own, parts_of_one, size};
use super::model::{CONSTANTS, ConstantNote, QuantityNote, StepNote, StickNote, TorqueNote};
use super::rows::whole;
use crate::joints::Reader;
use crate::read::table::Table;
use crate::report::Place;

/// Columns of `torque.csv`.
pub(super) const TORQUES: &[&str] = &["gasket", "nominal", "ftlb", "source", "grade"];
/// Columns of `quantities.csv`.
pub(super) const QUANTITIES: &[&str] = &["what", "nominal", "joints", "source", "grade"];
/// Columns of `sticks.csv`.
pub(super) const STICKS: &[&str] = &["family", "feet", "source", "grade"];
/// Columns of `steps.csv`.
pub(super) const STEPS: &[&str] = &["joint", "material", "step", "text", "source", "grade"];
/// Columns of `constants.csv`.
pub(super) const CONSTANT_COLUMNS: &[&str] = &["key", "value", "source", "grade"];

const GASKETS: [(&str, &str); 2] = [("rubber", "rubber"), ("sheet", "sheet")];
const WHATS: [(&str, &str); 2] = [("lubricant", "lubricant"), ("cement", "cement")];
const JOINTS: [(&str, &str); 6] = [
    ("bell", "bell"),
    ("push-on", "push-on"),
    ("push-ips", "push-ips"),
    ("mj", "mj"),
    ("solvent", "solvent"),
    ("flange", "flange"),
];
/// At most so many characters of a step: two lines of a phone.
const STEP: usize = 160;

/// The rows of `torque.csv`.
pub(super) fn torques<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<TorqueNote> {
    let mut all: Vec<TorqueNote> = Vec::new();
    for row in whole(table) {
        let gasket = reader.word(&row["gasket"], "gasket", &GASKETS);
        let at = size(reader, &row["nominal"]);
        let torque = number::<u16>(reader, &row["ftlb"], "torque", (1, 3000));
        let cited = own(reader, row);
        let (Some(gasket), Some(size), Some(foot_pounds), Some(cited)) =
            (gasket, at, torque, cited)
        else {
            continue;
        };
        let held = |one: &TorqueNote| one.gasket == gasket && one.size == size;
        let twice = all.iter().any(held);
        ordered(
            reader,
            &row["nominal"],
            !twice,
            "one row for a gasket and a size",
        );
        all.push(TorqueNote {
            gasket: gasket.to_owned(),
            size,
            foot_pounds,
            cited,
        });
    }
    all
}

/// The rows of `quantities.csv`.
pub(super) fn quantities<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<QuantityNote> {
    let mut all: Vec<QuantityNote> = Vec::new();
    for row in whole(table) {
        let what = reader.word(&row["what"], "what", &WHATS);
        let at = size(reader, &row["nominal"]);
        let joints = decimal(reader, &row["joints"], "count of joints", (0.1, 1000.0))
            .map(|joints| parts_of_one(joints, 100.0));
        let cited = own(reader, row);
        let (Some(what), Some(size), Some(joints), Some(cited)) = (what, at, joints, cited) else {
            continue;
        };
        let follows = all
            .last()
            .is_none_or(|last| last.what != what || last.size < size && last.joints >= joints);
        ordered(
            reader,
            &row["nominal"],
            follows,
            "sizes rising, and no larger one with more joints",
        );
        all.push(QuantityNote {
            what: what.to_owned(),
            size,
            joints,
            cited,
        });
    }
    all
}

/// The rows of `sticks.csv`.
pub(super) fn sticks<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<StickNote> {
    let mut all: Vec<StickNote> = Vec::new();
    for row in whole(table) {
        let family = reader.family(&row["family"]);
        let feet = number::<u8>(reader, &row["feet"], "length", (4, 80));
        let cited = own(reader, row);
        let family = family.and_then(|at| u8::try_from(at).ok());
        let (Some(family), Some(feet), Some(cited)) = (family, feet, cited) else {
            continue;
        };
        let twice = all.iter().any(|held| held.family == family);
        ordered(reader, &row["family"], !twice, "one row for a family");
        all.push(StickNote {
            family,
            feet,
            cited,
        });
    }
    all
}

/// The rows of `steps.csv`.
pub(super) fn steps<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<StepNote> {
    let mut all = Vec::new();
    for row in whole(table) {
        let joint = reader.word(&row["joint"], "joint", &JOINTS);
        let any = row["material"].text == "*";
        let material = if any {
            Some(None)
        } else {
            let named = reader.material(&row["material"]);
            named.map(|material| Some(material as u8))
        };
        let step = reader.key(&row["step"]);
        let text = reader.needed(&row["text"], "text", STEP);
        let cited = own(reader, row);
        let (Some(joint), Some(material), Some(cited)) = (joint, material, cited) else {
            continue;
        };
        all.push(StepNote {
            joint: joint.to_owned(),
            material,
            step,
            text,
            cited,
        });
    }
    all
}

/// The rows of `constants.csv`: every key once.
pub(super) fn constants<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<ConstantNote> {
    let known = CONSTANTS.map(|constant| (constant.0, constant));
    let mut all: Vec<ConstantNote> = Vec::new();
    for row in whole(table) {
        let constant = reader.word(&row["key"], "key", &known);
        let Some((key, low, high)) = constant else {
            continue;
        };
        reader.unique(&row["key"], all.iter().any(|held| held.key == key));
        let value = decimal(reader, &row["value"], key, (low, high))
            .map(|value| parts_of_one(value, 1000.0));
        let (Some(value), Some(cited)) = (value, own(reader, row)) else {
            continue;
        };
        all.push(ConstantNote {
            key: key.to_owned(),
            value,
            cited,
        });
    }
    let rows = || table.rows.iter();
    for (key, ..) in CONSTANTS {
        if !rows().any(|row| row["key"].text == key) {
            reader.report.add(
                Place::file(table.file),
                format!("no row for \"{key}\""),
                "add it; the command reckons with it",
            );
        }
    }
    all
}
