//! The link between a device and a host: bytes in, requests out; responses in, bytes out. Nothing waits, nothing allocates,
//! no port is opened here.
//!
//! # Layout
//!
//! | bytes | what |
//! | --- | --- |
//! | 1 | 00, the beginning |
//! | 1 to 519 | COBS of payload and check value, without zeros |
//! | 1 | 00, the end |
//!
//! The check value is CRC-32/ISO-HDLC of the payload, little-endian. A payload is
//!
//! | bytes | what |
//! | --- | --- |
//! | 1 | [`VERSION`] of the protocol |
//! | 1 | sequence number, which the host chooses; the response has that of its request |
//! | 1 | [message number](number), below 128 |
//! | 0 and more | the message's body, in postcard |
//!
//! A host asks, a device answers; it says nothing of itself. Every intact frame gets one response: what cannot be done, known
//! or read gets a [`Refusal`]. A damaged frame gets none, and the host asks again.
//! `version, sequence number, 112, version` is the refusal of another version, in every version.
//!
//! Each message has one spelling. What decodes but would be written otherwise is refused, so that bytes may be compared in
//! place of messages.
//!
//! # Sizes
//!
//! Payloads are [`MAX_PAYLOAD`] bytes at the most, of which requests need [`MAX_REQUEST`] and responses [`MAX_RESPONSE`] now;
//! tests write the largest of each. [`MAX_FRAME`] bytes hold any frame.
//!
//! # Adding a message
//!
//! A number in [`number`] that never was another's, a variant of [`Request`] and one of [`Response`], an arm in each of
//! `number`, `body` and `read` of both, its bytes spelled out in `tests/pinned.rs`, the largest of it in `tests/largest.rs`,
//! any of it in `tests/any.rs`. An older device answers that it is unknown, so that the version stays. A change to a message that
//! is already there, its wire types included, is a new version; a setting more, behind the others, is none: an older device refuses
//! it as one that it cannot read.

mod answer;
mod cobs;
mod codec;
mod counts;
mod frame;
mod hello;
mod message;
mod numbers;
mod parts;
mod print;
mod query;
mod request;
mod response;
mod screen;
mod setting;

#[cfg(test)]
mod tests;

pub use frame::{
    CHECK, Damage, Full, HEAD, MAX_FRAME, MAX_PAYLOAD, Receiver, Sender, encoded, frame,
};
pub use hello::{Hello, Text};
pub use message::{MAX_REQUEST, MAX_RESPONSE, Refusal, number};
pub use numbers::{NumbersAsked, NumbersSaid};
pub use parts::{
    FigureRecords, HELD_PAGE, Held, HeldAsked, HeldRecords, HeldSaid, NoPipe, PARTS_PAGE,
    PartRecords, PartSaid, PartsAsked, PartsSaid, PipeAsked, Records, Room,
};
pub use request::{Call, Request};
pub use response::{Entry, Reply, Response};
pub use screen::{PANEL, PIECE, Part, Piece, Screen};
pub use setting::{NotSet, Setting};

/// The version of the protocol, the first byte of every payload.
pub const VERSION: u8 = 1;

/// A device's end of the link. The response to a call is written by [`Response::write`], with the call's sequence number.
pub struct Link {
    receiver: Receiver,
    damaged: u32,
}

impl Link {
    /// A link on which nothing has been heard.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            receiver: Receiver::new(),
            damaged: 0,
        }
    }

    /// Takes a byte off the line; a call when it was the last of one. Every call is to be answered.
    #[inline]
    pub fn push(&mut self, byte: u8) -> Option<Call> {
        match self.receiver.push(byte)? {
            Ok(payload) => Some(Call::read(payload)),
            Err(Damage::Overlong { head }) => Some(Call::overlong(&head)),
            Err(Damage::Broken) => {
                self.damaged = self.damaged.saturating_add(1);
                None
            }
        }
    }

    /// Damaged frames and stretches of noise so far.
    #[must_use]
    pub const fn damaged(&self) -> u32 {
        self.damaged
    }
}

impl Default for Link {
    fn default() -> Self {
        Self::new()
    }
}
