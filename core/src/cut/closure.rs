//! The piece that closes a gap.

use crate::unit::{Distance, Warming};

/// How two things meet, as far as it makes a piece longer or shorter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meeting {
    /// The piece goes into a bell, a socket or a gland whose lip the opening is measured from: so deep to the stop, and short
    /// of the stop by a gap.
    Into {
        /// From lip to stop.
        depth: Distance,
        /// Left before the stop.
        gap: Distance,
    },
    /// Two ends face each other under a coupling or inside a part, so far apart.
    Apart(Distance),
    /// Two faces with a gasket between them, so thick.
    Gasket(Distance),
    /// The opening is measured to this very point, as to the centre of a branch: nothing is added.
    Point,
}

impl Meeting {
    /// What it adds to the piece; less than nothing where it takes away.
    #[must_use]
    pub fn adds(self) -> Distance {
        match self {
            Self::Into { depth, gap } => depth - gap,
            Self::Apart(gap) | Self::Gasket(gap) => -gap,
            Self::Point => Distance::ZERO,
        }
    }

    /// The gap that is left for movement, where there is one.
    #[must_use]
    pub fn gap(self) -> Option<Distance> {
        match self {
            Self::Into { gap, .. } | Self::Apart(gap) => Some(gap),
            Self::Gasket(_) | Self::Point => None,
        }
    }
}

/// A gap and all that lies in it beside the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closure<'a> {
    /// From what stays on one side to what stays on the other, lip to lip, end to end or face to face.
    pub opening: Distance,
    /// The laying lengths of parts in it, from stop to stop, face to face or face to centre.
    pub lays: &'a [Distance],
    /// Every place where two things meet, from one side to the other.
    pub meetings: &'a [Meeting],
}

/// A piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// How long it is; where it is parted by a part, both pieces together.
    pub length: Distance,
    /// The least gap that is left at any end of it, where one is.
    pub gap: Option<Distance>,
}

/// Why there is no piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoCut {
    /// A length is less than nothing, or no number.
    Measure,
    /// The gap at a stop is as deep as the socket, so that nothing is in it.
    NotIn,
    /// Nothing is left for a piece: parts and gaps are longer by this than the opening.
    TooLong(Distance),
}

/// The length of the piece that closes a gap.
///
/// # Errors
///
/// A [`NoCut`] where no piece does.
pub fn cut(closure: &Closure<'_>) -> Result<Cut, NoCut> {
    let measure = |length: Distance| length >= Distance::ZERO && length.is_finite();
    let mut length = closure.opening;
    let mut sound = measure(closure.opening);
    for &lay in closure.lays {
        sound &= measure(lay);
        length -= lay;
    }
    let mut least: Option<Distance> = None;
    for &meeting in closure.meetings {
        sound &= match meeting {
            Meeting::Into { depth, gap } => measure(depth) && measure(gap),
            Meeting::Apart(gap) | Meeting::Gasket(gap) => measure(gap),
            Meeting::Point => true,
        };
        if let Meeting::Into { depth, gap } = meeting
            && gap >= depth
        {
            return Err(if sound { NoCut::NotIn } else { NoCut::Measure });
        }
        length += meeting.adds();
        least = match (least, meeting.gap()) {
            (Some(least), Some(gap)) => Some(least.min(gap)),
            (least, gap) => least.or(gap),
        };
    }
    if !sound {
        return Err(NoCut::Measure);
    }
    if length <= Distance::ZERO {
        return Err(NoCut::TooLong(-length));
    }
    Ok(Cut { length, gap: least })
}

/// How much a length of pipe grows or shrinks. `growth` is its part for a degree Fahrenheit.
#[must_use]
pub fn movement(length: Distance, warming: Warming, growth: f64) -> Distance {
    (length * (warming.in_fahrenheit() * growth)).abs()
}
