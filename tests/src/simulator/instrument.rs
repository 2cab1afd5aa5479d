//! What instruments show of a pipe.

use std::f64::consts::PI;

use springline_core::reading::{Clock, Reading};

use super::nature::Nature;
use super::pipe::{Pipe, anything};
use super::random::Stream;
use crate::exact;
use crate::inches;

/// What is read first, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instrument {
    /// A caliper in one direction, which nobody tells.
    Caliper,
    /// A caliper in two directions at right angles.
    Two,
    /// A caliper in three directions, 60° apart.
    Three,
    /// A steel tape around.
    SteelTape,
    /// A diameter tape.
    DiameterTape,
    /// Chord and rise on the crown.
    Chord,
    /// A string around.
    String,
}

impl Instrument {
    /// All of them, each with how often it is used in the field.
    pub const FIELD: [(Self, f64); 7] = [
        (Self::Caliper, 0.52 * 0.60),
        (Self::Two, 0.52 * 0.30),
        (Self::Three, 0.52 * 0.10),
        (Self::SteelTape, 0.20),
        (Self::DiameterTape, 0.15),
        (Self::Chord, 0.09),
        (Self::String, 0.04),
    ];

    /// What people call it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Caliper => "one diameter",
            Self::Two => "two crossed",
            Self::Three => "three crossed",
            Self::SteelTape => "steel tape",
            Self::DiameterTape => "diameter tape",
            Self::Chord => "chord and rise",
            Self::String => "string",
        }
    }

    /// One in the field.
    pub(super) fn pick(stream: &mut Stream) -> Self {
        Self::FIELD[stream.pick(Self::FIELD.iter().map(|i| i.1))].0
    }
}

/// One thing read, inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shown {
    /// A diameter, and the hour at which it was taken, where that is told.
    Diameter(f64, Option<u8>),
    /// A diameter at right angles to the one before it, wherever that was taken.
    Across(f64),
    /// A diameter a foot along, and the hour at which it was taken, where that is told.
    Along(f64, Option<u8>),
    /// A diameter tape.
    DiameterTape(f64),
    /// A steel tape around.
    SteelTape(f64),
    /// A string around.
    String(f64),
    /// Chord and rise.
    Chord(f64, f64),
}

impl Shown {
    /// As the engine takes it.
    #[must_use]
    pub fn reading(self) -> Reading {
        let sigma = None;
        match self {
            Self::Diameter(value, hour) => Reading::Diameter {
                value: inches(value),
                clock: hour.map(|hour| Clock::half_hours(2 * hour)),
                jaw: None,
                sigma,
            },
            Self::Across(value) => Reading::Diameter {
                value: inches(value),
                clock: Some(Clock::ACROSS),
                jaw: None,
                sigma,
            },
            Self::Along(value, hour) => Reading::Along {
                value: inches(value),
                clock: hour.map(|hour| Clock::half_hours(2 * hour)),
                jaw: None,
                sigma,
            },
            Self::DiameterTape(value) => Reading::DiameterTape {
                value: inches(value),
                sigma,
            },
            Self::SteelTape(value) => Reading::Around {
                value: inches(value),
                sigma,
            },
            Self::String(value) => Reading::String {
                value: inches(value),
                sigma,
            },
            Self::Chord(chord, rise) => Reading::Chord {
                chord: inches(chord),
                rise: inches(rise),
                sigma,
            },
        }
    }
}

/// What a set of readings is to the exact law; `None` where it has none for it.
#[must_use]
pub fn exactly(shown: &[Shown]) -> Option<exact::Reading> {
    match *shown {
        [Shown::DiameterTape(value)] => Some(exact::Reading::DiameterTape(value)),
        [Shown::SteelTape(value)] => Some(exact::Reading::SteelTape(value)),
        [Shown::String(value)] => Some(exact::Reading::String(value)),
        [Shown::Chord(chord, rise)] => Some(exact::Reading::ChordRise { chord, rise }),
        _ => {
            let diameter = |shown: &Shown| match *shown {
                Shown::Diameter(value, hour) => Some((value, hour)),
                _ => None,
            };
            let all: Option<Vec<_>> = shown.iter().map(diameter).collect();
            all.map(exact::Reading::Diameters)
        }
    }
}

/// Reads a pipe: what it takes to, and the chance to misread.
pub struct Reader<'a> {
    /// The pipe.
    pub pipe: &'a Pipe,
    /// The world.
    pub nature: &'a Nature,
    /// Where its chances come from.
    pub stream: Stream,
    /// Whether any reading so far was misread.
    pub misread: bool,
    /// Where the first diameter was taken, from the crown, radians.
    pub angle: f64,
}

/// Angle from the crown of a diameter that is taken anywhere: seven in ten within 23° of the springline.
pub(super) fn direction(stream: &mut Stream) -> f64 {
    if stream.happens(0.70) {
        stream.between(67.0, 113.0).to_radians()
    } else {
        stream.between(0.0, 180.0).to_radians()
    }
}

/// How far a told clock position is off, radians.
fn off_the_hour(stream: &mut Stream) -> f64 {
    stream.between(-15.0, 15.0).to_radians()
}

impl<'a> Reader<'a> {
    /// For a pipe of which nothing was read.
    #[must_use]
    pub fn new(pipe: &'a Pipe, nature: &'a Nature, stream: Stream) -> Self {
        Self {
            pipe,
            nature,
            stream,
            misread: false,
            angle: 0.0,
        }
    }

    /// The first reading, or the first few.
    pub fn first(&mut self, instrument: Instrument) -> Vec<Shown> {
        let mut at = |hours: &[u8]| {
            let off = off_the_hour(&mut self.stream);
            let one = |hour: &u8| {
                let angle = (30.0 * f64::from(*hour)).to_radians() + off;
                self.diameter(angle, Some(*hour))
            };
            hours.iter().map(one).collect()
        };
        match instrument {
            Instrument::Two => at(&[3, 12]),
            Instrument::Three => at(&[12, 2, 4]),
            Instrument::Caliper => {
                self.angle = direction(&mut self.stream);
                vec![self.diameter(self.angle, None)]
            }
            Instrument::SteelTape => vec![self.steel_tape()],
            Instrument::DiameterTape => vec![self.diameter_tape()],
            Instrument::Chord => vec![self.chord()],
            Instrument::String => vec![self.string()],
        }
    }

    /// The pipe, or something else that was read in its place.
    fn seen(&mut self) -> Pipe {
        let nature = self.nature;
        // So that with one reading this share of all is misread.
        let chance = 0.3 * nature.blunders / (1.0 - 0.7 * nature.blunders - nature.unlisted);
        if self.pipe.barrel() && self.stream.happens(chance) {
            self.misread = true;
            return self.pipe.round(anything(&mut self.stream));
        }
        self.pipe.clone()
    }

    fn error(&mut self, sigma: f64) -> f64 {
        self.stream.normal(0.0, sigma * self.nature.errors)
    }

    /// A caliper across, at an angle from the crown.
    fn diameter(&mut self, angle: f64, hour: Option<u8>) -> Shown {
        Shown::Diameter(self.caliper(angle), hour)
    }

    /// A caliper at right angles to the first diameter; the angle is from the crown.
    pub fn across(&mut self, angle: f64) -> Shown {
        Shown::Across(self.caliper(angle))
    }

    /// A caliper a foot along, held as the first one was.
    pub fn along(&mut self, hour: Option<u8>) -> Shown {
        let angle = match hour {
            Some(hour) => (30.0 * f64::from(hour)).to_radians() + off_the_hour(&mut self.stream),
            None => direction(&mut self.stream),
        };
        Shown::Along(self.caliper(angle), hour)
    }

    fn caliper(&mut self, angle: f64) -> f64 {
        let across = self.seen().across(angle, 1.0);
        across + self.error(0.003 + 0.0003 * across)
    }

    fn diameter_tape(&mut self) -> Shown {
        let d = self.seen().diameter;
        Shown::DiameterTape(d + self.error(0.004 + 0.0002 * d))
    }

    /// A steel tape around, read to the sixteenth.
    pub fn steel_tape(&mut self) -> Shown {
        let d = self.seen().diameter + 0.008 + self.error(0.002);
        let slant = self.error(1.2_f64.to_radians());
        let around = PI * d / libm::cos(slant) + self.error(0.030);
        Shown::SteelTape((around * 16.0).round() / 16.0)
    }

    fn string(&mut self) -> Shown {
        let d = self.seen().diameter * (1.0 + self.error(0.003));
        let around = PI * (d + 0.04 + self.error(0.02)) + self.error(0.060);
        Shown::String((around * 8.0).round() / 8.0)
    }

    fn chord(&mut self) -> Shown {
        let share = self.stream.between(0.10, 0.40);
        // On the crown deflection flattens: the circle through the arc is that of a larger pipe, the factor times over.
        let d = self.seen().across(PI / 2.0, crown(share));
        let chord = 2.0 * d * (share * (1.0 - share)).sqrt();
        Shown::Chord(chord + self.error(0.06), share * d + self.error(0.045))
    }
}

/// How many times over chord and rise see deflection and out-of-round; the rise is this share of the diameter.
fn crown(share: f64) -> f64 {
    let q = ((1.0 - share) / share).sqrt();
    let a = 2.0 * libm::atan2(1.0, q);
    let sagging = 2.0 * q * libm::cos(2.0 * a) * libm::sin(a);
    (0.5 * (sagging + (1.0 - q * q) * (1.0 - libm::cos(2.0 * a) * libm::cos(a)))).abs()
}
