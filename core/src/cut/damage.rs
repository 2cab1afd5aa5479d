//! Damage to be repaired: cut out, or clamped where a clamp may go.

use crate::unit::Distance;

/// What is wrong with the barrel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A crack along it. It runs beyond what shows.
    Split,
    /// A hole, by rust, by a stone, by a drill.
    Hole,
    /// A break all the way round.
    RoundBreak,
    /// A gouge, so deep as a part of the wall.
    Gouge,
    /// A bell that split or blew.
    BlownBell,
}

/// Damage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Damage {
    /// What it is.
    pub kind: Kind,
    /// As much of it as shows, along the pipe.
    pub length: Distance,
    /// The barrel is of iron or steel, sound all round: a clamp seals on it.
    pub sound_metal: bool,
}

/// What is done about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repair {
    /// So much is cut out of the line.
    pub cut_out: Distance,
    /// The piece that is put in between two couplings without a stop.
    pub piece: Distance,
    /// The least length of a full-circle clamp, where one may go on instead.
    pub clamp: Option<Distance>,
}

/// The least length of a clamp: so far beyond the damage on each side, and never shorter than the pipe is thick where it is
/// broken round.
#[must_use]
pub fn clamp_length(damage: &Damage, od: Distance, beyond: Distance) -> Option<Distance> {
    let covers = damage.length + beyond * 2.0;
    match damage.kind {
        _ if !damage.sound_metal => None,
        Kind::Hole => Some(covers),
        Kind::RoundBreak => Some(covers.max(od)),
        // What runs along the pipe runs out from under a clamp.
        Kind::Split | Kind::Gouge | Kind::BlownBell => None,
    }
}

/// What is cut out for damage and what goes in: `back` beyond what shows on each side, a `gap` at each of two couplings, a
/// clamp that reaches `beyond` on each side. `None` where a length is less than nothing, or no piece would be left.
#[must_use]
pub fn repair(
    damage: &Damage,
    od: Distance,
    back: Distance,
    gap: Distance,
    beyond: Distance,
) -> Option<Repair> {
    let none = Distance::ZERO;
    let measured = [damage.length, back, gap, beyond]
        .iter()
        .all(|length| *length >= none && length.is_finite());
    let cut_out = damage.length + back * 2.0;
    let piece = cut_out - gap * 2.0;
    (measured && piece > none).then(|| Repair {
        cut_out,
        piece,
        clamp: clamp_length(damage, od, beyond),
    })
}
