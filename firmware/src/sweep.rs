//! The same questions on a desk and on a board, and a check value of the answers.

use springline_core::Length;
use springline_core::clue::{ClueName, Told};
use springline_core::identify::{Answer, Outcome};
use springline_core::print::Line;
use springline_core::reading::{Clock, Query, Reading, ReadingError};

/// The smallest outside diameter of a sweep, in thousandths of an inch.
pub const FIRST_MILS: i32 = 400;
/// The largest.
pub const LAST_MILS: i32 = 66_000;

/// What is read of a pipe in one sweep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Kind {
    /// A tape graduated in diameters.
    DiameterTape,
    /// A steel tape around the pipe.
    SteelTape,
    /// Equal diameters at 12 and 3 o'clock.
    Crossed,
    /// Diameters at 12 and 3 o'clock, the one a hundredth smaller, the other a hundredth larger.
    CrossedSquashed,
    /// One diameter, held anywhere.
    Diameter,
    /// One diameter, held anywhere, of a pipe of which four things were told.
    DiameterTold,
    /// One diameter, held across the springline.
    DiameterAtThree,
    /// A chord four times as long as its rise.
    Chord,
    /// A steel tape and one diameter: the general case, which has no short cut.
    TapeAndDiameter,
    /// Three diameters 60° apart, of a pipe of which four things were told.
    ThreeTold,
    /// One diameter, and another a foot along.
    Along,
    /// One diameter, and a wall of a twentieth of it.
    Wall,
    /// One diameter of a pipe whose whole line of print was read.
    Printed,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 13] = [
        Self::DiameterTape,
        Self::SteelTape,
        Self::Crossed,
        Self::CrossedSquashed,
        Self::Diameter,
        Self::DiameterTold,
        Self::DiameterAtThree,
        Self::Chord,
        Self::TapeAndDiameter,
        Self::ThreeTold,
        Self::Along,
        Self::Wall,
        Self::Printed,
    ];

    /// Its name in the figures.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::DiameterTape => "diameter_tape",
            Self::SteelTape => "steel_tape",
            Self::Crossed => "crossed",
            Self::CrossedSquashed => "crossed_squashed",
            Self::Diameter => "diameter",
            Self::DiameterTold => "diameter_told",
            Self::DiameterAtThree => "diameter_at_3",
            Self::Chord => "chord",
            Self::TapeAndDiameter => "tape_and_diameter",
            Self::ThreeTold => "three_told",
            Self::Along => "along",
            Self::Wall => "wall",
            Self::Printed => "printed",
        }
    }

    /// Thousandths of an inch from one diameter of the sweep to the next. What costs the most by far has no edges to find, so
    /// that it is asked less often.
    #[must_use]
    pub const fn step_mils(self) -> i32 {
        match self {
            Self::TapeAndDiameter => 50,
            Self::Along | Self::Wall | Self::Printed => 400,
            _ => 5,
        }
    }

    /// The diameters of the sweep, in thousandths of an inch.
    pub fn mils(self) -> impl Iterator<Item = i32> {
        let steps = (LAST_MILS - FIRST_MILS) / self.step_mils();
        (0..=steps).map(move |step| FIRST_MILS + step * self.step_mils())
    }

    /// What would be read of a pipe of this diameter.
    #[must_use]
    pub fn query(self, mils: i32) -> Query {
        let od = Length::from_mils(mils).unwrap_or(Length::ZERO);
        let tape = Reading::Around {
            value: part(od, 355, 113),
            sigma: None,
        };
        let three = Some(Clock::half_hours(6));
        match self {
            Self::DiameterTape => of(&[Reading::DiameterTape {
                value: od,
                sigma: None,
            }]),
            Self::SteelTape => of(&[tape]),
            Self::Crossed => of(&[
                diameter(od, Some(Clock::half_hours(0))),
                diameter(od, three),
            ]),
            Self::CrossedSquashed => of(&[
                diameter(part(od, 99, 100), Some(Clock::half_hours(0))),
                diameter(part(od, 101, 100), three),
            ]),
            Self::Diameter => of(&[diameter(od, None)]),
            Self::DiameterTold => {
                let mut query = of(&[diameter(od, None)]);
                for told in TOLD {
                    query.clues.tell(told);
                }
                query
            }
            Self::DiameterAtThree => of(&[diameter(od, three)]),
            // Rise r and chord 4r lie on a circle of diameter (4r)² / 4r + r = 5r.
            Self::Chord => of(&[Reading::Chord {
                chord: part(od, 4, 5),
                rise: part(od, 1, 5),
                sigma: None,
            }]),
            Self::TapeAndDiameter => of(&[tape, diameter(od, None)]),
            Self::ThreeTold => {
                let at = |half_hours| diameter(od, Some(Clock::half_hours(half_hours)));
                let mut query = of(&[at(0), at(4), at(8)]);
                for told in TOLD {
                    query.clues.tell(told);
                }
                query
            }
            Self::Along => of(&[
                diameter(od, None),
                Reading::Along {
                    value: part(od, 201, 200),
                    clock: None,
                    jaw: None,
                    sigma: None,
                },
            ]),
            Self::Wall => of(&[
                diameter(od, None),
                Reading::Wall {
                    value: part(od, 1, 20),
                    sigma: None,
                },
            ]),
            Self::Printed => {
                let mut query = of(&[diameter(od, None)]);
                query.clues.print = Some(PRINTED);
                query
            }
        }
    }
}

/// PVC by eye, a magnet does not hold, blue, under pressure, in the built-in tables; a test holds the numbers to the words.
pub const TOLD: [Told; 4] = [
    Told { clue: 0, answer: 0 },
    Told { clue: 1, answer: 7 },
    Told {
        clue: 2,
        answer: 10,
    },
    Told {
        clue: 5,
        answer: 23,
    },
];

/// `6 IN DR 18 PC 235 PVC AWWA C900 CIOD NSF-61`, all that a line names, in the built-in tables; a test holds the numbers to the
/// words.
pub const PRINTED: Line = Line {
    standards: [1, 0],
    materials: [1, 0],
    bases: [2, 0],
    sizes: [12, 0],
    classes: [4276, 0],
    pressures: [235, 0],
    contents: 1,
};

fn of(readings: &[Reading]) -> Query {
    let mut query = Query::new();
    for reading in readings {
        // A query holds more readings than any kind has.
        let _ = query.add(*reading);
    }
    query
}

fn diameter(value: Length, clock: Option<Clock>) -> Reading {
    Reading::Diameter {
        value,
        clock,
        jaw: None,
        sigma: None,
    }
}

/// A length times a fraction, cut off to whole counts.
fn part(length: Length, over: i64, under: i64) -> Length {
    let counts = i64::from(length.counts()) * over / under;
    Length::from_counts(i32::try_from(counts).unwrap_or(i32::MAX))
}

const CRC: crc::Crc<u32, crc::Table<1>> =
    crc::Crc::<u32, crc::Table<1>>::new(&crc::CRC_32_ISO_HDLC);

/// A check value over answers, refusals included: equal on two machines when every bit of every answer is.
pub struct Digest(crc::Digest<'static, u32, crc::Table<1>>);

impl Digest {
    /// Of no answer yet.
    #[must_use]
    pub fn new() -> Self {
        static TABLE: crc::Crc<u32, crc::Table<1>> = CRC;
        Self(TABLE.digest())
    }

    /// Takes in what came of one question.
    pub fn add(&mut self, answer: &Result<Answer, ReadingError>) {
        match answer {
            Ok(answer) => self.answer(answer),
            Err(error) => self.number(0x8000_0000 | refusal(*error)),
        }
    }

    fn answer(&mut self, answer: &Answer) {
        self.number(answer.od.counts().cast_unsigned());
        self.number(answer.sigma.counts().cast_unsigned());
        self.number(match answer.outcome {
            Outcome::Settled => 0,
            Outcome::Split => 1,
            Outcome::Outside => 2,
        });
        self.number(u32::from(answer.likely));
        self.number(u32::from(answer.counted));
        self.number(answer.rest.q30());
        self.number(answer.outside.q30());
        for candidate in answer.candidates() {
            self.number(u32::from(candidate.row));
            self.number(candidate.weight.q30());
        }
        if let Some(shape) = answer.out_of_round {
            self.number(shape.spread.counts().cast_unsigned());
            self.number(shape.share);
        }
        self.number(u32::from(answer.short_jaws));
        self.number(u32::from(answer.disagreement));
        self.number(answer.hazards.cement.q30());
        self.number(answer.hazards.gas.q30());
        self.number(u32::from(answer.stop.cement) | u32::from(answer.stop.gas) << 1);
        self.number(match answer.contradiction {
            None => 0,
            Some(ClueName::Clue(clue)) => 1 + u32::from(clue),
            Some(ClueName::Plans) => u32::MAX,
            Some(ClueName::Print) => u32::MAX - 1,
        });
    }

    fn number(&mut self, number: u32) {
        self.0.update(&number.to_le_bytes());
    }

    /// The check value.
    #[must_use]
    pub fn value(self) -> u32 {
        self.0.finalize()
    }
}

impl Default for Digest {
    fn default() -> Self {
        Self::new()
    }
}

/// A number for why a reading was refused; one that this sweep does not know is zero.
fn refusal(error: ReadingError) -> u32 {
    match error {
        ReadingError::None => 1,
        ReadingError::TooMany => 2,
        ReadingError::NotPositive => 3,
        ReadingError::OutOfRange => 4,
        ReadingError::RiseTooHigh => 5,
        ReadingError::RiseTooLow => 6,
        ReadingError::RiseUnsure => 7,
        _ => 0,
    }
}
