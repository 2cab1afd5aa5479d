//! Why there is no reading.

use core::fmt;

/// What a gauge says of itself when it cannot measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Fault {
    /// Beyond the range of the gauge.
    OffScale,
    /// It has no data.
    NoData,
    /// It waited for its sensor too long.
    TimedOut,
    /// Its sensor cannot follow, or lost its place.
    Sensor,
    /// An error by number: what it means is the gauge's own.
    Code(u8),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OffScale => "the gauge is out of its range",
            Self::NoData => "the gauge has no data",
            Self::TimedOut => "the gauge timed out",
            Self::Sensor => "the gauge lost its place: move it slower and set it to zero",
            Self::Code(code) => return write!(f, "the gauge reports error {code}"),
        })
    }
}

/// Why a line or a frame must not be believed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Trouble {
    /// An end of a line with nothing before it.
    Empty,
    /// A line longer than any form has.
    Overlong,
    /// A byte that is no text.
    NotText,
    /// The port saw a broken character: framing, parity, overrun.
    Port,
    /// The line fell silent before its end.
    Unfinished,
    /// Text that is not of the form chosen.
    Form,
    /// A number without a decimal point: a code, or torn.
    NoPoint,
    /// More digits than any gauge shows.
    Digits,
    /// A unit that is neither inches nor millimetres.
    Unit,
    /// A clock pulse too short to be one.
    Glitch,
    /// A clock edge must have been missed.
    MissedEdge,
    /// A frame that takes longer than any gauge does.
    Slow,
    /// The clock does not rest where the format has it rest: the lines are swapped or inverted.
    Idle,
    /// So many bits before a silence, and not what a frame has.
    Bits(u8),
    /// The data line did not move in the whole of a frame.
    Stuck,
    /// Marks of the frame that must be set or clear are not.
    Marks,
    /// A digit that is none, or a decimal point where the frame can have none.
    BadDigit,
    /// A frame that says it has no unit.
    NoUnit,
    /// The gauge was asked and sent nothing.
    NoAnswer,
    /// No caliper spans it.
    TooLarge,
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "an empty line",
            Self::Overlong => "a line too long for a reading",
            Self::NotText => "a byte that is no text: check the speed of the line",
            Self::Port => "a broken character: check the speed and parity of the line",
            Self::Unfinished => "the line stopped before its end",
            Self::Form => "not a line of the chosen form",
            Self::NoPoint => "a number without a decimal point",
            Self::Digits => "more digits than a gauge shows",
            Self::Unit => "a unit that is neither inches nor millimetres",
            Self::Glitch => "a clock pulse too short",
            Self::MissedEdge => "a clock edge was missed",
            Self::Slow => "a frame too slow",
            Self::Idle => "the clock rests at the wrong level: check the wiring",
            Self::Bits(count) => return write!(f, "a frame of {count} bits"),
            Self::Stuck => "the data line did not move: check the wiring",
            Self::Marks => "not a frame of this format",
            Self::BadDigit => "a digit that is none",
            Self::NoUnit => "a frame without a unit",
            Self::NoAnswer => "the gauge did not answer",
            Self::TooLarge => "longer than any caliper",
        })
    }
}

impl core::error::Error for Fault {}
impl core::error::Error for Trouble {}
