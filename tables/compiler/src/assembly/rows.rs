//! Flanges and mechanical joints.

use springline_core::assembly::{Drilling, Grip, across_flats};
use springline_core::unit::{Angle, Distance};

use super::cells::{cited, inches, length, number, ordered, own, parts, size};
use super::model::{FlangeNote, MechanicalNote};
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
/// Most that a joint is turned, minutes of arc.
pub(super) const MOST_MINUTES: u16 = 15 * 60;
/// How much longer than it must be a bolt of the tables may be, inches.
const SPARE: f64 = 1.25;

/// The rows of a table that have all their cells.
pub(super) fn whole<'t, 'a>(table: &'t Table<'a>) -> impl Iterator<Item = &'t Row<'a>> {
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
