//! Cement, sockets and turns: the files that devices carry, and that set how long and how far.

use springline_core::assembly::Bell;

use super::cells::{decimal, length, number, ordered, own, parts_of_one, size};
use super::model::{CureNote, DeflectionNote, SocketNote};
use super::rows::{MOST_MINUTES, whole};
use crate::joints::Reader;
use crate::read::table::Table;

/// Columns of `cure.csv`.
pub(super) const CURES: &[&str] = &[
    "to_nominal",
    "over_f",
    "to_f",
    "set_min",
    "psi",
    "cure_h",
    "high_cure_h",
    "wet_times",
    "source",
    "grade",
];
/// Columns of `sockets.csv`.
pub(super) const SOCKETS: &[&str] = &[
    "schedule",
    "nominal",
    "depth_*",
    "entrance_*",
    "source",
    "grade",
];
/// Columns of `deflection.csv`.
pub(super) const DEFLECTIONS: &[&str] = &[
    "bell",
    "material",
    "to_nominal",
    "minutes",
    "source",
    "grade",
];

/// Schedules of solvent fittings.
const SCHEDULES: [(&str, &str); 2] = [("40", "40"), ("80", "80")];

/// The rows of `cure.csv`.
pub(super) fn cures<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<CureNote> {
    let mut all: Vec<CureNote> = Vec::new();
    for row in whole(table) {
        let at = size(reader, &row["to_nominal"]);
        let over = number::<u8>(reader, &row["over_f"], "temperature", (0, 150));
        let to = number::<u8>(reader, &row["to_f"], "temperature", (1, 150));
        let set = number::<u16>(reader, &row["set_min"], "set time", (1, 10_000));
        let psi = number::<u8>(reader, &row["psi"], "pressure", (1, 255));
        let hours = number::<u8>(reader, &row["cure_h"], "cure time", (1, 255));
        let high = (!row["high_cure_h"].is_empty())
            .then(|| number::<u8>(reader, &row["high_cure_h"], "cure time", (1, 255)))
            .flatten();
        let wet = decimal(reader, &row["wet_times"], "wet_times", (1.0, 5.0));
        let cited = own(reader, row);
        let made = (|| {
            Some(CureNote {
                size: at?,
                band: (over?, to?),
                set: set?,
                hours: (hours?, psi?),
                high_hours: high,
                wet: u8::try_from(parts_of_one(wet?, 10.0)).ok()?,
                cited: cited?,
            })
        })();
        let Some(made) = made else { continue };
        if let Some(last) = all.last() {
            let colder = last.size == made.size && last.band.0 == made.band.1;
            let larger = last.size < made.size;
            ordered(
                reader,
                &row["over_f"],
                colder || larger,
                "sizes rising, and in each bands of temperature that meet, the warmest first",
            );
        }
        // Colder, larger or under more pressure it never takes less.
        let less = |other: &CureNote| {
            other.set > made.set
                || other.hours.0 > made.hours.0
                || made.high_hours.is_some() && other.high_hours > made.high_hours
        };
        let easier = |other: &&CureNote| {
            other.size <= made.size && other.band.0 >= made.band.0 && less(other)
        };
        if made.band.0 >= made.band.1 || made.high_hours.is_some_and(|high| high < made.hours.0) {
            reader.report.add(
                row["over_f"].place,
                "runs backwards",
                "over_f below to_f, and no less time for more pressure",
            );
        } else if let Some(other) = all.iter().find(easier) {
            let (over, to) = other.band;
            reader.report.add(
                row["set_min"].place,
                format!("takes less than a smaller or warmer joint ({over} to {to} F)"),
                "correct the times: nothing colder or larger takes less",
            );
        }
        all.push(made);
    }
    all
}

/// The rows of `sockets.csv`.
pub(super) fn sockets<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<SocketNote> {
    let mut all: Vec<SocketNote> = Vec::new();
    for row in whole(table) {
        let schedule = reader.word(&row["schedule"], "schedule", &SCHEDULES);
        let at = size(reader, &row["nominal"]);
        let depth = length(reader, &row["depth_*"], table.unit, "depth");
        let entrance = reader.length(&row["entrance_*"], table.unit);
        let cited = own(reader, row);
        let (Some(schedule), Some(size), Some(depth), Some(cited)) = (schedule, at, depth, cited)
        else {
            continue;
        };
        let follows = all.last().is_none_or(|last| {
            (last.schedule.as_str(), last.size) < (schedule, size)
                && (last.schedule != schedule || last.depth <= depth)
        });
        ordered(
            reader,
            &row["nominal"],
            follows,
            "schedule 40 first, sizes rising and depths with them",
        );
        all.push(SocketNote {
            schedule: schedule.to_owned(),
            size,
            depth,
            entrance,
            cited,
        });
    }
    all
}

/// The rows of `deflection.csv`.
pub(super) fn deflections<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<DeflectionNote> {
    let bells = Bell::ALL.map(|bell| (bell.key(), bell as u8));
    let mut all: Vec<DeflectionNote> = Vec::new();
    for row in whole(table) {
        let bell = reader.word(&row["bell"], "bell", &bells);
        let material = reader.material(&row["material"]);
        let at = size(reader, &row["to_nominal"]);
        let minutes = number::<u16>(reader, &row["minutes"], "minutes of arc", (0, MOST_MINUTES));
        let cited = own(reader, row);
        let (Some(bell), Some(material), Some(size), Some(minutes), Some(cited)) =
            (bell, material, at, minutes, cited)
        else {
            continue;
        };
        let material = material as u8;
        let follows = all.last().is_none_or(|last| {
            (last.bell, last.material, last.size) < (bell, material, size)
                && ((last.bell, last.material) != (bell, material) || last.minutes >= minutes)
        });
        ordered(
            reader,
            &row["to_nominal"],
            follows,
            "bells and materials in order, sizes rising and no larger one turned further",
        );
        all.push(DeflectionNote {
            bell,
            material,
            size,
            minutes,
            cited,
        });
    }
    all
}
