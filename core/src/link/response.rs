//! Responses of a device.

use postcard::Serializer;
use postcard::ser_flavors::Flavor;

use super::answer::{WireAnswer, WireReadingError};
use super::codec::{self, Message, body, put};
use super::frame::Full;
use super::hello::Hello;
use super::message::{Refusal, number, open};
use super::numbers::NumbersSaid;
use super::parts::{HeldSaid, NoPipe, PartsSaid, WirePage};
use super::screen::Screen;
use super::setting::NotSet;
use crate::identify::Answer;
use crate::reading::ReadingError;

/// An answer that a device has kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Which answer since the device was switched on, the first is 1: the log moves while a host reads it.
    pub count: u32,
    /// The answer.
    pub answer: Answer,
}

/// What a device says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Response<'a> {
    /// Who it is.
    Hello(Hello<'a>),
    /// What pipe it is, or what is wrong with the readings.
    Identify(Result<Answer, ReadingError>),
    /// What the panel shows.
    Screen(Screen<'a>),
    /// Whether the setting is changed.
    Set(Result<(), NotSet>),
    /// A kept answer, where there is one.
    Log(Option<Entry>),
    /// A page of the parts on a pipe, or why there is none.
    Parts(Result<PartsSaid<'a>, NoPipe>),
    /// A page of what holds a part and of cautions, or why there is none.
    Held(Result<HeldSaid<'a>, NoPipe>),
    /// Numbers of a joint on a pipe, or why there are none.
    Numbers(Result<NumbersSaid<'a>, NoPipe>),
    /// Nothing was done.
    Refused(Refusal),
}

/// A response as it came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reply<'a> {
    /// That of the request.
    pub sequence: u8,
    /// The response.
    pub said: Response<'a>,
}

impl<'a> Response<'a> {
    /// Frames the response; [`super::MAX_FRAME`] bytes are room enough for any.
    ///
    /// # Errors
    ///
    /// [`Full`] when the buffer is shorter than the frame.
    pub fn write<'b>(&self, sequence: u8, buffer: &'b mut [u8]) -> Result<&'b [u8], Full> {
        codec::write(sequence, self, buffer)
    }

    fn read(number: u8, bytes: &'a [u8]) -> Result<Self, Refusal> {
        match number {
            number::HELLO => body(bytes).map(Self::Hello),
            number::IDENTIFY => match body::<Result<WireAnswer, WireReadingError>>(bytes) {
                Some(Ok(wire)) => wire
                    .try_into()
                    .ok()
                    .map(|answer| Self::Identify(Ok(answer))),
                Some(Err(error)) => Some(Self::Identify(Err(error.into()))),
                None => None,
            },
            number::SCREEN => body(bytes).map(Self::Screen),
            number::SET => body(bytes).map(Self::Set),
            number::LOG => match body::<Option<(u32, WireAnswer)>>(bytes) {
                Some(Some((count, wire))) => wire
                    .try_into()
                    .ok()
                    .map(|answer| Self::Log(Some(Entry { count, answer }))),
                Some(None) => Some(Self::Log(None)),
                None => None,
            },
            number::PARTS => body(bytes).map(Self::Parts),
            number::HELD => body(bytes).map(Self::Held),
            number::NUMBERS => body(bytes).map(Self::Numbers),
            number::VERSION => body(bytes).map(|ours| Self::Refused(Refusal::Version { ours })),
            number::UNKNOWN => body(bytes).map(|number| Self::Refused(Refusal::Unknown { number })),
            number::MALFORMED => body(bytes).map(|()| Self::Refused(Refusal::Malformed)),
            number => return Err(Refusal::Unknown { number }),
        }
        .ok_or(Refusal::Malformed)
    }
}

/// Writes a page, or why there is none.
#[inline(never)]
fn page<F: Flavor>(
    to: &mut Serializer<F>,
    said: Result<WirePage<'_>, &NoPipe>,
) -> postcard::Result<()> {
    put(to, &said)
}

impl Message for Response<'_> {
    fn number(&self) -> u8 {
        match self {
            Self::Hello(_) => number::HELLO,
            Self::Identify(_) => number::IDENTIFY,
            Self::Screen(_) => number::SCREEN,
            Self::Set(_) => number::SET,
            Self::Log(_) => number::LOG,
            Self::Parts(_) => number::PARTS,
            Self::Held(_) => number::HELD,
            Self::Numbers(_) => number::NUMBERS,
            Self::Refused(Refusal::Version { .. }) => number::VERSION,
            Self::Refused(Refusal::Unknown { .. }) => number::UNKNOWN,
            Self::Refused(Refusal::Malformed) => number::MALFORMED,
        }
    }

    fn body<F: Flavor>(&self, to: &mut Serializer<F>) -> postcard::Result<()> {
        match self {
            Self::Hello(hello) => put(to, hello),
            Self::Identify(said) => put(
                to,
                &said
                    .as_ref()
                    .map(WireAnswer::from)
                    .map_err(|error| WireReadingError::from(*error)),
            ),
            Self::Screen(screen) => put(to, screen),
            Self::Set(done) => put(to, done),
            Self::Log(entry) => put(
                to,
                &entry
                    .as_ref()
                    .map(|entry| (entry.count, WireAnswer::from(&entry.answer))),
            ),
            Self::Parts(said) => page(to, said.as_ref().map(PartsSaid::wire)),
            Self::Held(said) => page(to, said.as_ref().map(HeldSaid::wire)),
            Self::Numbers(said) => page(to, said.as_ref().map(NumbersSaid::wire)),
            Self::Refused(Refusal::Version { ours: byte } | Refusal::Unknown { number: byte }) => {
                put(to, byte)
            }
            Self::Refused(Refusal::Malformed) => Ok(()),
        }
    }
}

impl<'a> Reply<'a> {
    /// Reads the payload of a frame.
    ///
    /// # Errors
    ///
    /// A [`Refusal`] to read it, with `ours` this side's version.
    pub fn read(payload: &'a [u8]) -> Result<Self, Refusal> {
        let (sequence, number, bytes) = open(payload).map_err(|(_, refusal)| refusal)?;
        let said = Response::read(number, bytes)?;
        if !codec::is_spelling(payload, sequence, &said) {
            return Err(Refusal::Malformed);
        }
        Ok(Self { sequence, said })
    }
}
