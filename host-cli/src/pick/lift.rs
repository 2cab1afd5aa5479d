//! What a crew lifts, and how much pipe is loaded.

use springline_compiler::jobs::Place;
use springline_compiler::notes::{Notes, StickNote};
use springline_core::image::Grade;

use super::built::{Built, Pipes, Spot};
use crate::fits::tie::end::End;
use crate::parse::Unit;

/// Counts of 10 nm in an inch.
const INCH: f64 = 2_540_000.0;

/// A figure of practice.
pub(super) fn rule(notes: &Notes, key: &str) -> f64 {
    let found = notes.jobs.rules.iter().find(|(held, ..)| held == key);
    // The compiler sees to it that every rule is there.
    found.map_or(0.0, |(_, value, ..)| *value)
}

/// How pipe of a family is sold.
pub(super) fn stick<'a>(notes: &'a Notes, end: &End) -> Option<&'a StickNote> {
    let family = end.known.pipe.row.family;
    notes
        .jobs
        .sticks
        .iter()
        .find(|stick| stick.family == family)
}

/// `18 or 20 ft`.
/// They are bought in feet, whatever is measured in.
pub(super) fn lengths(stick: &StickNote, unit: Unit) -> String {
    let feet: Vec<String> = stick.feet.iter().map(u8::to_string).collect();
    let text = format!("{} ft", feet.join(" or "));
    let metres: Vec<String> = stick
        .feet
        .iter()
        .map(|feet| format!("{:.1}", f64::from(*feet) * 0.3048))
        .collect();
    match unit {
        Unit::Inch => text,
        Unit::Millimetre => format!("{text} ({} m)", metres.join(" or ")),
    }
}

/// The shortest and the longest, feet.
pub(super) fn span(stick: &StickNote) -> (f64, f64) {
    let ends = (stick.feet.first(), stick.feet.last());
    (
        ends.0.map_or(0.0, |feet| f64::from(*feet)),
        ends.1.map_or(0.0, |feet| f64::from(*feet)),
    )
}

/// Where sticks are pulled from.
pub(super) fn place(stick: Option<&StickNote>) -> Place {
    stick.map_or(Place::Order, |stick| stick.place)
}

/// Something heavy.
pub(super) struct Weight {
    pub(super) what: String,
    pub(super) pounds: f64,
    pub(super) grade: Grade,
}

/// What the longest stick of a pipe weighs, pounds: its wall by its class, the thickest of its size where none was told.
pub(super) fn pipe_weight(notes: &Notes, end: &End) -> Option<Weight> {
    let known = &end.known;
    let stick = stick(notes, end)?;
    let (_, feet) = span(stick);
    let of = notes.classes.iter().filter(|class| {
        class.family == known.pipe.row.family
            && class.nominal == known.nominal
            && known.class.as_ref().is_none_or(|held| *held == class.class)
    });
    let walls = of.filter_map(|class| class.wall.as_ref());
    #[expect(clippy::cast_precision_loss, reason = "walls are far below 2^53")]
    let wall = walls
        .map(|(wall, _)| *wall as f64 / INCH)
        .reduce(f64::max)?;
    #[expect(clippy::cast_precision_loss, reason = "ODs are far below 2^53")]
    let od = known.od() as f64 / INCH;
    let ring = std::f64::consts::PI * (od - wall) * wall;
    let class = if known.class.is_some() {
        ""
    } else {
        " (thickest class)"
    };
    Some(Weight {
        what: format!("a {feet} ft stick of {}{class}", end.name()),
        pounds: ring * 12.0 * feet * stick.density,
        grade: Grade::from_code(stick.cited.grade).unwrap_or(Grade::Memory),
    })
}

/// The heaviest thing whose weight is known, and the parts of which none is.
pub(super) fn heaviest(
    notes: &Notes,
    pipes: &Pipes,
    built: &Built,
    name: impl Fn(usize) -> String,
) -> (Option<Weight>, Vec<String>) {
    let mut all: Vec<Weight> = Vec::new();
    let mut unknown: Vec<String> = Vec::new();
    for (at, put) in built.parts.iter().enumerate() {
        let size = put
            .sizes
            .first()
            .map_or("", |size| size.trim_end_matches(" in"));
        let of = |weight: &&springline_compiler::notes::WeightNote| {
            weight.parts.contains(&put.part) && weight.size == size
        };
        if let Some(found) = notes.jobs.weights.iter().find(of) {
            all.push(Weight {
                what: name(at),
                pounds: f64::from(found.pounds),
                grade: Grade::from_code(found.cited.grade).unwrap_or(Grade::Practice),
            });
        } else if !unknown.contains(&name(at)) {
            unknown.push(name(at));
        }
    }
    let mut loaded: Vec<Spot> = built.pieces.clone();
    loaded.extend(pipes.k.as_ref().map(|_| Spot {
        pipe: 'K',
        piece: false,
    }));
    let ends = loaded.iter().filter_map(|spot| pipes.at(*spot));
    all.extend(ends.filter_map(|end| pipe_weight(notes, end)));
    (
        all.into_iter().max_by(|a, b| a.pounds.total_cmp(&b.pounds)),
        unknown,
    )
}
