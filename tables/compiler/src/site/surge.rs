//! `surge/water.csv`, `stiffness.csv` and `limits.csv`.

use super::cells::{WHAT, cited, cited_as, families, number};
use crate::joints::Reader;
use crate::notes::{LimitNote, StiffnessNote, WaterNote};
use crate::report::{Files, Place};

const WATERS: &[&str] = &["set", "sound_fps", "bulk_psi", "what", "source", "grade"];
const STIFFNESS: &[&str] = &[
    "families",
    "psi",
    "source",
    "grade",
    "poisson",
    "poisson_source",
    "poisson_grade",
];
const LIMITS: &[&str] = &[
    "families",
    "rule",
    "recurring",
    "occasional",
    "allowance_psi",
    "irrigation",
    "source",
    "grade",
];

/// Sets of constants for water; one at least.
pub(super) fn waters<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
) -> Vec<WaterNote> {
    let Some(table) = reader.table(files, name, WATERS) else {
        return Vec::new();
    };
    if table.rows.is_empty() {
        reader.report.add(
            Place::file(name),
            "no set of constants",
            "add a row: the first is the usual one",
        );
    }
    let mut all: Vec<WaterNote> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let set = reader.key(&row["set"]);
        reader.unique(&row["set"], all.iter().any(|held| held.set == set));
        let sound = number(reader, &row["sound_fps"], 3000.0, 6000.0);
        let bulk = number(reader, &row["bulk_psi"], 100_000.0, 1e6);
        let what = reader.needed(&row["what"], "text", WHAT);
        let (Some(sound_fps), Some(bulk_psi), Some(cited)) = (sound, bulk, cited(reader, row))
        else {
            continue;
        };
        all.push(WaterNote {
            set,
            sound_fps,
            bulk_psi,
            what,
            cited,
        });
    }
    all
}

/// Stiffness by family.
pub(super) fn stiffness<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
) -> Vec<StiffnessNote> {
    let Some(table) = reader.table(files, name, STIFFNESS) else {
        return Vec::new();
    };
    let (mut all, mut held) = (Vec::new(), Vec::new());
    for row in table.rows.iter().filter(|row| row.whole) {
        let families = families(reader, &row["families"], &mut held);
        let psi = number(reader, &row["psi"], 10_000.0, 1e8);
        let cited = cited(reader, row);
        let poisson = number(reader, &row["poisson"], 0.0, 0.5);
        let (source, grade) = (&row["poisson_source"], &row["poisson_grade"]);
        let poisson_cited = cited_as(reader, "poisson", source, grade);
        let (Some(families), Some(psi), Some(cited)) = (families, psi, cited) else {
            continue;
        };
        let (Some(poisson), Some(poisson_cited)) = (poisson, poisson_cited) else {
            continue;
        };
        all.push(StiffnessNote {
            families,
            psi,
            cited,
            poisson,
            poisson_cited,
        });
    }
    all
}

/// What working pressure and surge may be.
pub(super) fn limits<'a>(
    reader: &mut Reader<'a>,
    files: &'a Files,
    name: &'static str,
) -> Vec<LimitNote> {
    let Some(table) = reader.table(files, name, LIMITS) else {
        return Vec::new();
    };
    let (mut all, mut held) = (Vec::new(), Vec::new());
    for row in table.rows.iter().filter(|row| row.whole) {
        let families = families(reader, &row["families"], &mut held);
        let rule = reader.needed(&row["rule"], "rule", WHAT);
        let recurring = number(reader, &row["recurring"], 0.1, 5.0);
        let occasional = number(reader, &row["occasional"], 0.1, 5.0);
        let allowance = number(reader, &row["allowance_psi"], 0.0, 500.0);
        if let (Some(often), Some(seldom)) = (recurring, occasional)
            && often.get() > seldom.get()
        {
            reader.report.add(
                row["recurring"].place,
                "more for what recurs than for what is rare",
                "a surge that comes again and again is never allowed more",
            );
        }
        let irrigation = reader.word(
            &row["irrigation"],
            "answer",
            &[("yes", true), ("no", false)],
        );
        let (Some(families), Some(recurring), Some(irrigation)) = (families, recurring, irrigation)
        else {
            continue;
        };
        let (Some(occasional), Some(allowance_psi)) = (occasional, allowance) else {
            continue;
        };
        let Some(cited) = cited(reader, row) else {
            continue;
        };
        all.push(LimitNote {
            families,
            rule,
            recurring,
            occasional,
            allowance_psi,
            irrigation,
            cited,
        });
    }
    all
}
