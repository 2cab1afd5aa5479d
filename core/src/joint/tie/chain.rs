//! A chain as it is told: parts in their order from the first end to the second.

use crate::image::{Image, Part, Row};
use crate::joint::{Form, Pipe, Run, Stock};

/// The most parts of a chain.
pub const MOST: usize = 4;
/// The most parts of a chain in a straight line.
pub const MOST_STRAIGHT: usize = 3;

/// An end of pipe that is to be tied in.
#[derive(Clone, Copy, Debug)]
pub struct TieEnd {
    /// The pipe.
    pub pipe: Pipe,
    /// It cannot be moved along its line.
    pub fixed: bool,
    /// The joint end that its flange is, an index, where it has one: class 125 and class 250 are drilled otherwise.
    pub flange: u8,
    /// What is on its end stays: a flange of a valve, a thread of a riser, a bell.
    pub keep: bool,
    /// Its class, an index into the labels, where it is known: two pipes of one class are fused to each other.
    pub class: Option<u8>,
}

/// How two ends lie to each other, in bends.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lie {
    /// How many bends there must be; an offset in one piece stands for two.
    pub bends: u8,
    /// They must be made so small, as [`Part::bends`] has it.
    pub least: u8,
    /// The ends are parallel and out of line, so that an offset in one piece serves.
    pub parallel: bool,
}

/// What is known of the site.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Site {
    /// Whether it can be got dry, as far as that is known: where it cannot, nothing is glued, fused or soldered.
    pub dry: Option<bool>,
    /// Water must be back in so many hours.
    pub hours: Option<u16>,
    /// How the ends lie.
    pub lie: Lie,
}

/// Two ends that go together with no part between them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direct {
    /// Flange on flange.
    Flanges,
    /// The one goes into the own bell of the other: on which end the bell is, 0 or 1, and the bell's joint end.
    Bell(u8, u8),
    /// They are fused to each other: the joint end.
    Fused(u8),
}

/// What a side of a part is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// The first pipe.
    First,
    /// The second pipe.
    Second,
    /// A piece that is cut of pipe like the first.
    CutOfFirst,
    /// A piece that is cut of pipe like the second.
    CutOfSecond,
    /// The part beside it.
    Part,
}

impl On {
    /// The four pipes, in the order of their numbers.
    pub(super) const PIPES: [Self; 4] = [
        Self::First,
        Self::Second,
        Self::CutOfFirst,
        Self::CutOfSecond,
    ];

    /// The pipe that it is; a cut piece is cut square. `None` for a part.
    #[must_use]
    pub const fn pipe(self, ends: &[TieEnd; 2]) -> Option<Pipe> {
        let [first, second] = ends;
        let (mut pipe, cut) = match self {
            Self::First => (first.pipe, false),
            Self::Second => (second.pipe, false),
            Self::CutOfFirst => (first.pipe, true),
            Self::CutOfSecond => (second.pipe, true),
            Self::Part => return None,
        };
        if cut {
            pipe.form = Form::PlainSquare;
        }
        Some(pipe)
    }

    /// Which of the two ends it is; `None` for a piece and a part.
    pub(super) const fn end(self, ends: &[TieEnd; 2]) -> Option<TieEnd> {
        let [first, second] = ends;
        match self {
            Self::First => Some(*first),
            Self::Second => Some(*second),
            _ => None,
        }
    }

    /// Whether it is a piece cut for this.
    #[must_use]
    pub const fn is_cut(self) -> bool {
        matches!(self, Self::CutOfFirst | Self::CutOfSecond)
    }
}

/// A side of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Side {
    /// What it is on.
    pub on: On,
    /// The joint end as it is made up, an index.
    pub end: u8,
    /// That end as the part has it; another where the pipe takes another gasket in it.
    pub own: u8,
    /// Its nominal size, an index.
    pub size: u8,
    /// What joint it is with a pipe: two ways with the same joints are one.
    pub joint: u16,
}

/// A part of a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// The part, an index.
    pub part: u8,
    /// What it does.
    pub run: Run,
    /// How it is got in its sizes.
    pub stock: Stock,
    /// Towards the first end, and towards the second.
    pub sides: [Side; 2],
    /// For how many bends it stands here.
    pub turns: u8,
}

/// A chain of parts from the first end to the second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Chain {
    pub(super) pieces: [Option<Piece>; MOST],
    /// What it costs, in the units of [`super::JOINT`] and its neighbours.
    pub cost: u16,
    /// Between two fixed ends the piece that is closed last, from zero.
    pub closes: Option<u8>,
    /// Parts with a joint that nothing is listed to hold.
    pub loose: u8,
    /// Joints that cannot be made up wet.
    pub dry: u8,
    /// Parts that are not got, and joints that do not cure, before water must be back.
    pub late: u8,
    /// How the ends go together, where there is no part between them.
    pub direct: Option<Direct>,
}

impl Chain {
    /// Its parts in order; none where the two ends go together as they are.
    pub fn pieces(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().flatten()
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.pieces().count()
    }

    /// Whether the two ends go together as they are.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The piece that is closed last, between two fixed ends.
    #[must_use]
    pub fn closing(&self) -> Option<&Piece> {
        let at = usize::from(self.closes?);
        self.pieces.get(at)?.as_ref()
    }

    pub(super) fn with(mut self, piece: Piece) -> Self {
        if let Some(slot) = self.pieces.iter_mut().find(|slot| slot.is_none()) {
            *slot = Some(piece);
        }
        self
    }

    /// The joints on the two pipes.
    fn outer(&self) -> Option<(u16, u16)> {
        let first = self.pieces().next()?.sides.first()?.joint;
        let last = self.pieces().last()?.sides.last()?.joint;
        Some((first, last))
    }

    /// How the slowest of its parts is got.
    #[must_use]
    pub fn stock(&self) -> Stock {
        let all = self.pieces().map(|piece| piece.stock);
        all.max().unwrap_or(Stock::Counter)
    }

    /// Whether another chain is this one over again: the same joints on both pipes, or this with more parts; or a longer one
    /// around a cut piece, with nothing to show for it.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        let among = |piece: &Piece| other.pieces().any(|held| held.part == piece.part);
        let cut = |piece: &Piece| piece.sides.iter().any(|side| side.on.is_cut());
        let gains = other.stock() < self.stock()
            || other.loose < self.loose
            || other.dry < self.dry
            || other.late < self.late;
        let longer = other.len() > self.len() && other.pieces().any(cut) && !gains;
        let offset = |chain: &Self| chain.pieces().any(|piece| piece.turns > 1);
        let same = self.outer() == other.outer() && offset(self) == offset(other);
        match self.direct {
            // Beside two flanges that are bolted together nothing else is of use.
            Some(Direct::Flanges) => true,
            Some(_) => other.direct.is_some(),
            None => same || self.pieces().all(among) || longer,
        }
    }
}

impl Piece {
    /// Which side slides over its pipe, 0 or 1, where it is one that slides: the smaller pipe, for a middle ring of two bores
    /// passes over no other; of two alike a piece that was cut, else the second. `None` where no side may.
    #[must_use]
    pub fn slides_over(&self, ends: &[TieEnd; 2]) -> Option<usize> {
        if self.run != Run::Slides {
            return None;
        }
        let [near, far] = self.sides;
        let (near, far) = (near.on.pipe(ends), far.on.pipe(ends));
        match (near, far) {
            (Some(_), None) => Some(0),
            (None, Some(_)) => Some(1),
            (None, None) => None,
            (Some(one), Some(other)) => {
                let cut = self.sides.first().is_some_and(|side| side.on.is_cut());
                // What agrees on paper to its tolerance is one bore.
                let alike = agree(&one.row, &other.row);
                let near = if alike {
                    cut
                } else {
                    one.row.od < other.row.od
                };
                Some(usize::from(!near))
            }
        }
    }
}

/// Whether the ODs of two rows agree within their tolerances.
pub(super) const fn agree(one: &Row, other: &Row) -> bool {
    one.low <= other.high && other.low <= one.high
}

/// Whether a part is made in both sizes.
pub(super) fn is_made(image: &Image<'_>, part: &Part, sizes: [u8; 2]) -> bool {
    let band = image.band(part.band);
    sizes
        .into_iter()
        .all(|size| band.holds(image.measure(size)))
}

/// Whether what a part does goes with its two sizes: it is reduced to a third of the larger at most (common practice, no source).
pub(super) fn sizes_go(image: &Image<'_>, run: Run, sizes: [u8; 2]) -> bool {
    let [one, other] = sizes.map(|size| image.measure(size));
    let (small, large) = (one.min(other), one.max(other));
    match run {
        Run::Reduces => small < large && u32::from(large) <= 3 * u32::from(small),
        Run::Turns => false,
        Run::Either => u32::from(large) <= 3 * u32::from(small),
        _ => small == large,
    }
}
