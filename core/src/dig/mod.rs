//! What is dug for a job: barrel laid bare for a sleeve to slide, the outline of the hole, its sump, and the depths from
//! which the safety code asks for more. Nothing here says that a trench is safe.

use crate::unit::{Distance, Volume};

#[cfg(test)]
mod tests;

/// What is dug beyond the pipe itself, by the tables.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Under the pipe.
    pub under: Distance,
    /// Beside it, each side.
    pub beside: Distance,
    /// The sump, below the rest.
    pub sump: Distance,
    /// Bare on the side that a coupling slides onto, beyond its length.
    pub slide_more: Distance,
    /// Bare on the other side, beyond half its length.
    pub other_more: Distance,
}

/// Bare, straight, clean barrel beside a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bare {
    /// On the side that the coupling slides fully onto.
    pub slide: Distance,
    /// On the other.
    pub other: Distance,
}

/// What must be bare for a coupling of this length to slide fully onto one pipe and back over the gap.
#[must_use]
pub fn bare_barrel(coupling: Distance, room: &Room) -> Bare {
    Bare {
        slide: coupling + room.slide_more,
        other: coupling / 2.0 + room.other_more,
    }
}

/// A hole, at its bottom: what slopes or shores it, widens it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    /// Along the pipe.
    pub length: Distance,
    /// Across it.
    pub width: Distance,
    /// To its bottom.
    pub depth: Distance,
    /// To the bottom of the sump.
    pub sump: Distance,
}

impl Outline {
    /// What comes out of it where the walls are upright, the sump left out.
    #[must_use]
    pub fn soil(&self) -> Volume {
        self.length * self.width * self.depth
    }
}

/// The hole for so much bare pipe under so much cover. `None` where a length is less than nothing or no number.
#[must_use]
pub fn outline(bare: Distance, od: Distance, cover: Distance, room: &Room) -> Option<Outline> {
    let sound = [bare, od, cover]
        .iter()
        .all(|length| *length >= Distance::ZERO && length.is_finite());
    let depth = cover + od + room.under;
    (sound && bare > Distance::ZERO).then(|| Outline {
        length: bare,
        width: od + room.beside * 2.0,
        depth,
        sump: depth + room.sump,
    })
}
