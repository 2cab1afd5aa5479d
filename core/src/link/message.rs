//! What requests and responses have in common: numbers, sizes, and how to refuse.

use core::fmt;

use super::VERSION;
use super::frame::MAX_PAYLOAD;

/// Message numbers. A response has the number of its request; a refusal has its own. Numbers are never given again.
pub mod number {
    use core::ops::RangeInclusive;

    /// Who are you?
    pub const HELLO: u8 = 0;
    /// What pipe is this?
    pub const IDENTIFY: u8 = 1;
    /// What do you show?
    pub const SCREEN: u8 = 2;
    /// Change a setting.
    pub const SET: u8 = 3;
    /// What did you answer before?
    pub const LOG: u8 = 4;
    /// Which parts go on this pipe?
    pub const PARTS: u8 = 5;
    /// What holds this part, and what could hurt somebody?
    pub const HELD: u8 = 6;
    /// What are the numbers of a joint on this pipe?
    pub const NUMBERS: u8 = 7;
    /// Kept for messages about what a device stores.
    pub const STORAGE: RangeInclusive<u8> = 16..=31;
    /// Kept for messages that update a device's data set or firmware.
    pub const UPDATE: RangeInclusive<u8> = 32..=47;
    /// Refused: another version of the protocol.
    pub const VERSION: u8 = 112;
    /// Refused: no such request.
    pub const UNKNOWN: u8 = 113;
    /// Refused: a request that cannot be read.
    pub const MALFORMED: u8 = 114;
    /// The last number that a message may have.
    pub const LAST: u8 = 127;
}

/// The longest payload of a request, in bytes: six readings, sixteen clues, plans, a job and a line of print.
pub const MAX_REQUEST: usize = 226;
/// The longest payload of a response, in bytes: a piece of the panel.
pub const MAX_RESPONSE: usize = 269;
const _: () = assert!(MAX_REQUEST <= MAX_PAYLOAD && MAX_RESPONSE <= MAX_PAYLOAD);

/// Why a device did not do what it was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// It speaks another version of the protocol. The layout of this response is that of every version.
    Version {
        /// The device's.
        ours: u8,
    },
    /// It knows no request of this number.
    Unknown {
        /// The number.
        number: u8,
    },
    /// The request is too short, too long, or holds values that mean nothing.
    Malformed,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Version { ours } => write!(f, "version {ours} of the link is spoken here"),
            Self::Unknown { number } => write!(f, "no message has the number {number}"),
            Self::Malformed => f.write_str("a message that cannot be read"),
        }
    }
}

impl core::error::Error for Refusal {}

/// Version, sequence number, message number and body of a payload; the sequence number and why not, otherwise.
pub(super) fn open(payload: &[u8]) -> Result<(u8, u8, &[u8]), (u8, Refusal)> {
    let sequence = payload.get(1).copied().unwrap_or(0);
    match *payload {
        [version, ..] if version != VERSION => Err((sequence, Refusal::Version { ours: VERSION })),
        [_, _, number, ref body @ ..] => Ok((sequence, number, body)),
        _ => Err((sequence, Refusal::Malformed)),
    }
}
