//! A way as it is built: parts, their joints, and the pipes that they are on.

use springline_core::image::Image;
use springline_core::joint::{Act, Form, Pipe, Role, Sealing, Stock};

use crate::fits::tie::end::End;

/// A pipe of a job: `A`, `B`, `C`, `K`, or a piece that is cut of pipe like one of them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Spot {
    pub(super) pipe: char,
    pub(super) piece: bool,
}

/// The pipes of a job.
pub(super) struct Pipes {
    pub(super) a: End,
    pub(super) b: End,
    /// A branch.
    pub(super) c: Option<End>,
    /// A carrier in a road sleeve.
    pub(super) k: Option<End>,
    /// What pieces are cut of, for the first pipe and for the second.
    pub(super) pieces: [End; 2],
}

impl Pipes {
    /// The pipe at a place.
    pub(super) fn at(&self, on: Spot) -> Option<&End> {
        match (on.pipe, on.piece) {
            ('A', true) => Some(&self.pieces[0]),
            ('B', true) => Some(&self.pieces[1]),
            ('A', false) => Some(&self.a),
            ('B', false) => Some(&self.b),
            ('C', _) => self.c.as_ref(),
            _ => self.k.as_ref(),
        }
    }

    /// What the core is asked about it; a piece is cut square.
    pub(super) fn pipe(&self, on: Spot) -> Option<Pipe> {
        let mut pipe = self.at(on)?.known.pipe;
        if on.piece {
            pipe.form = Form::PlainSquare;
        }
        Some(pipe)
    }
}

/// A part as it is put in.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Put {
    /// An index of the image.
    pub(super) part: u8,
    /// What it is told as: a tee, a bend; may be empty.
    pub(super) told: String,
    pub(super) act: Act,
    pub(super) stock: Stock,
    /// Nominal sizes, that of the first side first.
    pub(super) sizes: Vec<String>,
}

/// A joint of it.
#[derive(Clone, Copy)]
pub(super) struct Joint {
    /// The part, an index of [`Built::parts`].
    pub(super) part: usize,
    /// The joint end as it is made up, an index of the image.
    pub(super) end: u8,
    /// The pipe that it is on; none for two parts, when `with` is the other.
    pub(super) on: Option<Spot>,
    pub(super) with: Option<usize>,
    pub(super) sealing: Option<Sealing>,
    pub(super) role: Role,
}

/// A way as it is built.
#[derive(Clone, Default)]
pub(super) struct Built {
    pub(super) parts: Vec<Put>,
    pub(super) joints: Vec<Joint>,
    /// Pieces that are cut, by the pipe that they are like.
    pub(super) pieces: Vec<Spot>,
    /// Ends of the pipes that are there which are cut.
    pub(super) cuts: u32,
}

impl Built {
    /// Whether a joint of it cannot be made wet.
    pub(super) fn is_dry(&self, image: &Image<'_>) -> bool {
        let dry = |joint: &Joint| image.joint_end(joint.end).is_dry();
        self.joints.iter().any(dry)
    }

    /// How the slowest of its parts is got.
    pub(super) fn stock(&self) -> Stock {
        let all = self.parts.iter().map(|part| part.stock);
        all.max().unwrap_or(Stock::Counter)
    }
}

impl Built {
    /// This, and behind it another.
    pub(super) fn and(mut self, other: &Self) -> Self {
        let by = self.parts.len();
        self.parts.extend(other.parts.iter().cloned());
        self.joints.extend(other.joints.iter().map(|joint| Joint {
            part: joint.part + by,
            with: joint.with.map(|with| with + by),
            ..*joint
        }));
        self.pieces.extend(other.pieces.iter().copied());
        self
    }
}

/// The names of its parts, in their order.
pub(super) fn names(image: &Image<'_>, built: &Built) -> String {
    let names: Vec<String> = built
        .parts
        .iter()
        .map(|put| image.phrase(image.part(put.part).name).to_string())
        .collect();
    if names.is_empty() {
        String::from("flange to flange")
    } else {
        names.join(", then ")
    }
}
