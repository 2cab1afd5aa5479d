//! What a technician measured, and what is known of the place.

use core::fmt;

use crate::clue::Clues;
use crate::joint::Job;
use crate::length::Length;

/// An instrument's model in the image, by position.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Tool {
    /// A caliper across the pipe.
    Caliper = 0,
    /// A tape graduated in diameters.
    DiameterTape = 1,
    /// A steel tape around the pipe.
    SteelTape = 2,
    /// A string or cloth tape around the pipe.
    String = 3,
    /// The chord of a straight edge across the crown.
    Chord = 4,
    /// The rise of the crown above that chord.
    Rise = 5,
    /// The depth of a caliper's jaws.
    Jaw = 6,
    /// The wall of a pipe at a cut end.
    Wall = 7,
}

impl Tool {
    /// Instruments that an image must describe.
    pub const COUNT: usize = 8;
}

/// The clock position of one end of a diameter, in half hours from 12 o'clock; both ends are the same diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Clock(u8);

impl Clock {
    /// At right angles to the diameter that was read before it, wherever that was held.
    pub const ACROSS: Self = Self(12);

    /// Half hours since 12 o'clock, taken modulo the clock.
    #[must_use]
    pub const fn half_hours(half_hours: u8) -> Self {
        Self(half_hours % 12)
    }

    /// Half hours since 12 o'clock, less than 12; 12 for [`Clock::ACROSS`].
    #[must_use]
    pub const fn count(self) -> u8 {
        self.0
    }

    /// A quarter of the clock on: the diameter at right angles to this one.
    pub(crate) const fn crossed(self) -> Self {
        Self::half_hours(self.0 + 6)
    }

    /// The pull of a squash on this diameter: minus the cosine of twice the angle from the crown, and its sine, Q16.
    pub(crate) fn loading(self) -> (i32, i32) {
        // Half an hour is 15° around the pipe, 30° of the second harmonic.
        const COSINE: [i32; 12] = [
            65536, 56756, 32768, 0, -32768, -56756, -65536, -56756, -32768, 0, 32768, 56756,
        ];
        let at = |quarter: u8| {
            COSINE
                .get(usize::from((self.0 + quarter) % 12))
                .copied()
                .unwrap_or(0)
        };
        (-at(0), at(9))
    }
}

/// One reading of the pipe. `sigma` is the user's own standard deviation of it, where one was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Reading {
    /// A caliper across the pipe.
    Diameter {
        /// What it showed.
        value: Length,
        /// Where it was held, when told.
        clock: Option<Clock>,
        /// How deep its jaws are, when told; not told, they reach the widest point.
        jaw: Option<Length>,
        /// The user's own sigma.
        sigma: Option<Length>,
    },
    /// A tape graduated in diameters.
    DiameterTape {
        /// What it showed.
        value: Length,
        /// The user's own sigma.
        sigma: Option<Length>,
    },
    /// A steel tape around the pipe.
    Around {
        /// The circumference that it showed.
        value: Length,
        /// The user's own sigma, of the circumference.
        sigma: Option<Length>,
    },
    /// A string or cloth around the pipe.
    String {
        /// The circumference that it showed.
        value: Length,
        /// The user's own sigma, of the circumference.
        sigma: Option<Length>,
    },
    /// A caliper again, a foot along the pipe: another place, which may be of the barrel where the first was not.
    Along {
        /// What it showed.
        value: Length,
        /// Where it was held, when told.
        clock: Option<Clock>,
        /// How deep its jaws are, when told; not told, they reach the widest point.
        jaw: Option<Length>,
        /// The user's own sigma.
        sigma: Option<Length>,
    },
    /// The wall at a cut end. It tells classes apart, and families by their classes; it is no diameter.
    Wall {
        /// What it showed.
        value: Length,
        /// The user's own sigma.
        sigma: Option<Length>,
    },
    /// A straight edge across the crown of a half-buried pipe.
    Chord {
        /// The chord.
        chord: Length,
        /// How far the crown rises above it.
        rise: Length,
        /// The user's own sigma, of the chord and of the rise.
        sigma: Option<Length>,
    },
}

/// Why a reading cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum ReadingError {
    /// No reading at all.
    None,
    /// More readings than a query holds.
    TooMany,
    /// A length that must be more than nothing is not.
    NotPositive,
    /// No pipe in any table is near as small or as large.
    OutOfRange,
    /// The rise is more than half the chord: the straight edge lies below the widest point.
    RiseTooHigh,
    /// The rise is less than a sixteenth of the chord: it says next to nothing about the diameter.
    RiseTooLow,
    /// The rise is no more than eight times its own uncertainty: any larger pipe would fit.
    RiseUnsure,
}

impl fmt::Display for ReadingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::None => "no reading of the pipe was given",
            Self::TooMany => "more readings than can be used together",
            Self::NotPositive => "a length must be more than nothing",
            Self::OutOfRange => "no pipe is that size",
            Self::RiseTooHigh => "the rise is more than half the chord",
            Self::RiseTooLow => "the rise is less than a sixteenth of the chord",
            Self::RiseUnsure => "the rise is too small for how well it can be measured",
        })
    }
}

impl core::error::Error for ReadingError {}

/// Where the pipe lies, as far as it tells what is common there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Site {
    /// Not told.
    #[default]
    Unknown = 0,
    /// A golf course, farm, park, school or campus.
    Irrigation = 1,
    /// A town's mains.
    Municipal = 2,
}

/// Everything that is known of one pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Query {
    readings: [Option<Reading>; Query::CAPACITY],
    /// Where the pipe lies.
    pub site: Site,
    /// Whether it is buried, so that it may be squashed.
    pub buried: bool,
    /// Its wall temperature in hundredths of 1 °F, when told.
    pub temperature: Option<i32>,
    /// What was seen and felt of it.
    pub clues: Clues,
    /// What is to be bought. It says nothing of the pipe, but what settles the answer hangs on it.
    pub job: Job,
}

impl Query {
    /// The most readings of one pipe.
    pub const CAPACITY: usize = 6;

    /// A query about a buried pipe on an unknown site, without readings.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            readings: [None; Self::CAPACITY],
            site: Site::Unknown,
            buried: true,
            temperature: None,
            clues: Clues::new(),
            job: Job::None,
        }
    }

    /// Adds a reading.
    ///
    /// # Errors
    ///
    /// [`ReadingError::TooMany`] when the query is full; it is left as it was.
    pub fn add(&mut self, reading: Reading) -> Result<(), ReadingError> {
        let free = self.readings.iter_mut().find(|slot| slot.is_none());
        *free.ok_or(ReadingError::TooMany)? = Some(reading);
        Ok(())
    }

    /// The readings, in the order in which they were added.
    pub fn readings(&self) -> impl Iterator<Item = &Reading> {
        self.readings.iter().flatten()
    }
}

impl Default for Query {
    fn default() -> Self {
        Self::new()
    }
}
