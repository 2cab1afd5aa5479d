//! The files that devices carry something of: flanges, mechanical joints, cement, sockets, turns.

use springline_core::assembly::{Bell, Drilling, Grip, across_flats};
use springline_core::unit::{Angle, Distance};

use super::cells::{
    cited, decimal, inches, length, number, ordered, own, parts, parts_of_one, size,
};
use super::model::{CureNote, DeflectionNote, FlangeNote, MechanicalNote, SocketNote};
use crate::joints::Reader;
use crate::read::table::{Row, Table};

/// Columns of `flanges.csv`.
pub(super) const FLANGES: &[&str] = &[
    "nominal",
    "drilling",
    "od_*",
    "circle_*",
    "hole_*",
    "bolts",
    "bolt_*",
    "source",
    "grade",
    "thick_*",
    "length_*",
    "length_source",
    "length_grade",
];
/// Columns of `mechanical.csv`.
pub(super) const MECHANICAL: &[&str] = &[
    "nominal",
    "socket_*",
    "socket_source",
    "socket_grade",
    "circle_*",
    "bolts",
    "bolt_*",
    "length_*",
    "bolt_source",
    "bolt_grade",
    "low_ftlb",
    "high_ftlb",
    "torque_source",
    "torque_grade",
    "minutes",
    "minutes_source",
    "minutes_grade",
];
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
/// Most that a joint is turned, minutes of arc.
const MOST_MINUTES: u16 = 15 * 60;
/// How much longer than it must be a bolt of the tables may be, inches.
const SPARE: f64 = 1.25;

fn whole<'t, 'a>(table: &'t Table<'a>) -> impl Iterator<Item = &'t Row<'a>> {
    table.rows.iter().filter(|row| row.whole)
}

/// Reports bolts that touch: their heads are wider across the corners than one is from the next.
fn apart(reader: &mut Reader<'_>, row: &Row<'_>, circle: i64, bolts: u8, bolt: i64) {
    let step = inches(circle) * Angle::degrees(180.0 / f64::from(bolts.max(1))).sin();
    let flats = across_flats(Distance::inches(inches(bolt)), true).in_inches();
    let corners = flats / Angle::degrees(30.0).cos();
    if bolts > 1 && step <= corners {
        reader.report.add(
            row["bolts"].place,
            "the heads of these bolts touch",
            format!("one hole is {step:.2} in from the next, a heavy hex head {corners:.2} in wide: correct circle, count or diameter"),
        );
    }
}

/// The rows of `flanges.csv`.
pub(super) fn flanges<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<FlangeNote> {
    let drillings = Drilling::ALL.map(|drilling| (drilling.key(), drilling as u8));
    let mut all: Vec<FlangeNote> = Vec::new();
    for row in whole(table) {
        let at = size(reader, &row["nominal"]);
        let drilling = reader.word(&row["drilling"], "drilling", &drillings);
        let od = length(reader, &row["od_*"], table.unit, "outside diameter");
        let circle = parts(
            reader,
            &row["circle_*"],
            table.unit,
            "bolt circle",
            (16, false),
        );
        let hole = reader.length(&row["hole_*"], table.unit);
        let bolts = number::<u8>(reader, &row["bolts"], "count of bolts", (4, 120));
        let bolt = parts(
            reader,
            &row["bolt_*"],
            table.unit,
            "bolt diameter",
            (16, true),
        );
        let cited_row = own(reader, row);
        let through = through(reader, row, table, bolt);
        let (Some(size), Some(drilling), Some(od), Some(circle), Some(bolts), Some(bolt)) =
            (at, drilling, od, circle, bolts, bolt)
        else {
            continue;
        };
        let Some(cited) = cited_row else { continue };
        if !bolts.is_multiple_of(4) {
            reader.report.add(
                row["bolts"].place,
                format!("{bolts} bolts are no multiple of four"),
                "flanges straddle their centreline both ways; correct the count",
            );
        }
        if circle + bolt >= od {
            reader.report.add(
                row["circle_*"].place,
                "the bolts stand outside the flange",
                "correct circle or outside diameter",
            );
        }
        if hole.is_some_and(|hole| hole <= bolt) {
            reader.report.add(
                row["hole_*"].place,
                "the bolt does not go into its hole",
                "correct hole or bolt",
            );
        }
        apart(reader, row, circle, bolts, bolt);
        let follows = all
            .last()
            .is_none_or(|last| (last.drilling, last.size) < (drilling, size));
        ordered(
            reader,
            &row["nominal"],
            follows,
            "drilling 125/150 first, sizes rising",
        );
        all.push(FlangeNote {
            size,
            drilling,
            od,
            circle,
            hole,
            bolts,
            bolt,
            cited,
            thick_and_length: through,
        });
    }
    all
}

/// Thickness and length of a row, which must be there together and go through each other.
fn through<'a>(
    reader: &mut Reader<'a>,
    row: &Row<'a>,
    table: &Table<'a>,
    bolt: Option<i64>,
) -> Option<(i64, i64, crate::notes::Cited)> {
    let filled = !row["thick_*"].is_empty() || !row["length_*"].is_empty();
    let cited = cited(reader, row, ("length_source", "length_grade"), filled);
    if !filled {
        return None;
    }
    let thick = length(reader, &row["thick_*"], table.unit, "thickness");
    let long = parts(
        reader,
        &row["length_*"],
        table.unit,
        "bolt length",
        (16, true),
    );
    let (thick, long) = (thick?, long?);
    let flange = Distance::inches(inches(thick));
    let grip = Grip {
        flanges: [flange, flange],
        ..Grip::default()
    };
    let least = grip.bolt(Distance::inches(inches(bolt?))).in_inches();
    if !(least..least + SPARE).contains(&inches(long)) {
        reader.report.add(
            row["length_*"].place,
            format!("a bolt of {} in is not of these flanges", inches(long)),
            format!(
                "through both with its nut it takes at least {least:.2} in, and not {SPARE} in more"
            ),
        );
    }
    Some((thick, long, cited?))
}

/// The rows of `mechanical.csv`.
pub(super) fn mechanical<'a>(reader: &mut Reader<'a>, table: &Table<'a>) -> Vec<MechanicalNote> {
    let mut all: Vec<MechanicalNote> = Vec::new();
    for row in whole(table) {
        let unit = table.unit;
        let at = size(reader, &row["nominal"]);
        let socket = parts(
            reader,
            &row["socket_*"],
            unit,
            "depth of the socket",
            (16, true),
        );
        let socket_cited = cited(reader, row, ("socket_source", "socket_grade"), true);
        let circle = length(reader, &row["circle_*"], unit, "bolt circle");
        let bolts = number::<u8>(reader, &row["bolts"], "count of bolts", (2, 120));
        let bolt = parts(reader, &row["bolt_*"], unit, "bolt diameter", (16, true));
        let long = parts(reader, &row["length_*"], unit, "bolt length", (16, true));
        let bolt_cited = cited(reader, row, ("bolt_source", "bolt_grade"), true);
        let low = number::<u8>(reader, &row["low_ftlb"], "torque", (1, 250));
        let high = number::<u8>(reader, &row["high_ftlb"], "torque", (1, 250));
        let torque_cited = cited(reader, row, ("torque_source", "torque_grade"), true);
        let turned = !row["minutes"].is_empty();
        let minutes = turned
            .then(|| number::<u16>(reader, &row["minutes"], "minutes of arc", (1, MOST_MINUTES)))
            .flatten();
        let minutes_cited = cited(reader, row, ("minutes_source", "minutes_grade"), turned);
        let made = (|| {
            Some(MechanicalNote {
                size: at?,
                socket: (socket?, socket_cited?),
                circle: circle?,
                bolts: bolts?,
                bolt: bolt?,
                length: long?,
                cited: bolt_cited?,
                torque: (low?, high?, torque_cited?),
                minutes: minutes.zip(minutes_cited),
            })
        })();
        let Some(made) = made else { continue };
        if !made.bolts.is_multiple_of(2) {
            reader.report.add(
                row["bolts"].place,
                format!("{} bolts are not in pairs", made.bolts),
                "correct the count",
            );
        }
        if made.torque.0 > made.torque.1 {
            reader.report.add(
                row["low_ftlb"].place,
                "the least torque is more than the most",
                "swap them",
            );
        }
        apart(reader, row, made.circle, made.bolts, made.bolt);
        let follows = all.last().is_none_or(|last| last.size < made.size);
        ordered(reader, &row["nominal"], follows, "sizes rising");
        all.push(made);
    }
    all
}

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
