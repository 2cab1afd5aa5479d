//! Requests of a host.

use postcard::Serializer;
use postcard::ser_flavors::Flavor;

use super::codec::{self, Message, body, put};
use super::frame::Full;
use super::message::{Refusal, number, open};
use super::numbers::NumbersAsked;
use super::parts::{HeldAsked, PartsAsked, WireAsked};
use super::query::WireQuery;
use super::screen::Part;
use super::setting::{Setting, WireSetting};
use crate::reading::Query;

/// What a host asks of a device.
#[allow(
    clippy::large_enum_variant,
    reason = "there is one at a time, and nowhere to put the large one aside"
)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Request {
    /// Who are you?
    Hello,
    /// What pipe is this?
    Identify(Query),
    /// What do you show? Its check value, and a piece where one is named.
    Screen(Option<Part>),
    /// Change a setting.
    Set(Setting),
    /// What did you answer before? The last answer is 0.
    Log(u8),
    /// Which parts go on this pipe?
    Parts(PartsAsked),
    /// What holds this part of it, and what could hurt somebody?
    Held(HeldAsked),
    /// What are the numbers of a joint on it?
    Numbers(NumbersAsked),
}

/// A request as it came in: every intact frame makes one, and each is to be answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Call {
    /// To be sent back with the response; 0 for a payload too short to have one.
    pub sequence: u8,
    /// The request, or the refusal to answer with.
    pub asked: Result<Request, Refusal>,
}

impl Request {
    /// Frames the request; [`super::MAX_FRAME`] bytes are room enough for any.
    ///
    /// # Errors
    ///
    /// [`Full`] when the buffer is shorter than the frame.
    pub fn write<'a>(&self, sequence: u8, buffer: &'a mut [u8]) -> Result<&'a [u8], Full> {
        codec::write(sequence, self, buffer)
    }

    #[inline]
    fn read(number: u8, bytes: &[u8]) -> Result<Self, Refusal> {
        match number {
            number::HELLO => body(bytes).map(|()| Self::Hello),
            number::IDENTIFY => body::<WireQuery>(bytes)
                .and_then(|wire| wire.try_into().ok())
                .map(Self::Identify),
            number::SCREEN => body(bytes).map(Self::Screen),
            number::SET => body::<WireSetting>(bytes)
                .and_then(WireSetting::read)
                .map(Self::Set),
            number::LOG => body(bytes).map(Self::Log),
            number::PARTS | number::HELD | number::NUMBERS => {
                asked(bytes).and_then(|(wire, rest)| match number {
                    number::PARTS => PartsAsked::read(wire).map(Self::Parts),
                    number::HELD => HeldAsked::read(wire).map(Self::Held),
                    _ => NumbersAsked::read(wire, body(rest)?).map(Self::Numbers),
                })
            }
            number => return Err(Refusal::Unknown { number }),
        }
        .ok_or(Refusal::Malformed)
    }
}

/// Reads what is asked of a pipe, and what is left.
#[inline]
fn asked(bytes: &[u8]) -> Option<(WireAsked, &[u8])> {
    postcard::take_from_bytes(bytes).ok()
}

/// Whether a payload is the one spelling of a request.
#[inline(never)]
fn is_own(payload: &[u8], sequence: u8, request: &Request) -> bool {
    codec::is_spelling(payload, sequence, request)
}

/// Writes what is asked of a pipe.
#[inline(never)]
fn put_asked<F: Flavor>(to: &mut Serializer<F>, wire: &WireAsked) -> postcard::Result<()> {
    put(to, wire)
}

impl Message for Request {
    fn number(&self) -> u8 {
        match self {
            Self::Hello => number::HELLO,
            Self::Identify(_) => number::IDENTIFY,
            Self::Screen(_) => number::SCREEN,
            Self::Set(_) => number::SET,
            Self::Log(_) => number::LOG,
            Self::Parts(_) => number::PARTS,
            Self::Held(_) => number::HELD,
            Self::Numbers(_) => number::NUMBERS,
        }
    }

    fn body<F: Flavor>(&self, to: &mut Serializer<F>) -> postcard::Result<()> {
        match self {
            Self::Hello => Ok(()),
            Self::Identify(query) => put(to, &WireQuery::from(query)),
            Self::Screen(part) => put(to, part),
            Self::Set(setting) => put(to, &WireSetting::from(*setting)),
            Self::Log(index) => put(to, index),
            Self::Parts(asked) => put_asked(to, &asked.wire()),
            Self::Held(asked) => put_asked(to, &asked.wire()),
            Self::Numbers(asked) => {
                let (asked, site) = asked.wire();
                put_asked(to, &asked)?;
                put(to, &site)
            }
        }
    }
}

impl Call {
    /// Reads the payload of a frame. Any bytes make a call, which may be one to refuse.
    #[must_use]
    #[inline]
    pub fn read(payload: &[u8]) -> Self {
        let (sequence, number, bytes) = match open(payload) {
            Ok(opened) => opened,
            Err((sequence, refusal)) => {
                return Self {
                    sequence,
                    asked: Err(refusal),
                };
            }
        };
        let asked = match Request::read(number, bytes) {
            Ok(request) if !is_own(payload, sequence, &request) => Err(Refusal::Malformed),
            asked => asked,
        };
        Self { sequence, asked }
    }

    /// What to answer a frame that was too long, from the first bytes of its payload.
    #[must_use]
    #[inline]
    pub(super) fn overlong(head: &[u8]) -> Self {
        match open(head) {
            Err((sequence, refusal)) => Self {
                sequence,
                asked: Err(refusal),
            },
            Ok((sequence, ..)) => Self {
                sequence,
                asked: Err(Refusal::Malformed),
            },
        }
    }
}
