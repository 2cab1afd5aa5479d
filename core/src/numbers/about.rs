//! What numbers may be about.

use crate::assembly::Drilling;
use crate::unit::Angle;

/// A fitting of the pipe's own size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Fixture {
    /// A bend of 90°, level.
    Quarter = 0,
    /// One of 45°.
    Eighth = 1,
    /// One of 22-1/2°.
    Sixteenth = 2,
    /// One of 11-1/4°.
    ThirtySecond = 3,
    /// A tee with a branch as large as its run, of which nothing is counted on.
    Tee = 4,
    /// A cap, a plug, a hydrant.
    DeadEnd = 5,
}

impl Fixture {
    /// How far it turns the line; `None` where the line ends, or a branch does.
    #[must_use]
    pub const fn angle(self) -> Option<Angle> {
        Some(Angle::degrees(match self {
            Self::Quarter => 90.0,
            Self::Eighth => 45.0,
            Self::Sixteenth => 22.5,
            Self::ThirtySecond => 11.25,
            Self::Tee | Self::DeadEnd => return None,
        }))
    }
}

/// What numbers are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// What holds a fitting.
    Hold(Fixture),
    /// The bolts of a flange of the pipe's size.
    Flange(Drilling),
    /// Those of a mechanical joint of it.
    Mechanical,
    /// How deep it goes in.
    Depth,
    /// How far it may be turned.
    Turn,
    /// How long glue takes.
    Glue,
}

impl About {
    /// Everything, in the order of codes.
    pub const ALL: [Self; 12] = [
        Self::Hold(Fixture::Quarter),
        Self::Hold(Fixture::Eighth),
        Self::Hold(Fixture::Sixteenth),
        Self::Hold(Fixture::ThirtySecond),
        Self::Hold(Fixture::Tee),
        Self::Hold(Fixture::DeadEnd),
        Self::Flange(Drilling::Class125),
        Self::Flange(Drilling::Class250),
        Self::Mechanical,
        Self::Depth,
        Self::Turn,
        Self::Glue,
    ];

    /// Its code, the place in [`About::ALL`].
    #[must_use]
    #[inline]
    pub const fn code(self) -> u8 {
        match self {
            Self::Hold(fixture) => fixture as u8,
            Self::Flange(drilling) => 6 + drilling as u8,
            Self::Mechanical => 8,
            Self::Depth => 9,
            Self::Turn => 10,
            Self::Glue => 11,
        }
    }

    /// What has a code; `None` for an unknown one.
    #[must_use]
    #[inline]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.get(usize::from(code)).copied()
    }
}
