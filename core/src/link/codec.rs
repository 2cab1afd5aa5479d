//! Messages as bytes: version, sequence number, message number, and the message's body in postcard.
//!
//! Message numbers are below 128, so that version and sequence number apart a payload is what postcard makes of an enum
//! with these discriminants; written out, numbers may have gaps and an unknown one can be told from a bad body.

use postcard::ser_flavors::Flavor;
use postcard::{Error, Serializer};
use serde::{Deserialize, Serialize};

use super::VERSION;
use super::frame::{Full, Sender};

/// A message that can be written.
pub(super) trait Message {
    fn number(&self) -> u8;

    /// Writes what follows the number.
    fn body<F: Flavor>(&self, to: &mut Serializer<F>) -> postcard::Result<()>;
}

/// Frames a message.
pub(super) fn write<'a>(
    sequence: u8,
    message: &impl Message,
    buffer: &'a mut [u8],
) -> Result<&'a [u8], Full> {
    let sender = Sender::new(buffer)?;
    payload(sequence, message, Framed(sender)).map_err(|_| Full)
}

/// Whether a payload is the one spelling of the message that was read from it: postcard reads numbers with needless bytes,
/// and core's types may hold less than was sent.
pub(super) fn is_spelling(bytes: &[u8], sequence: u8, message: &impl Message) -> bool {
    payload(sequence, message, Same(bytes)).is_ok()
}

fn payload<F: Flavor>(sequence: u8, message: &impl Message, to: F) -> postcard::Result<F::Output> {
    let mut to = Serializer { output: to };
    for byte in [VERSION, sequence, message.number()] {
        to.output.try_push(byte)?;
    }
    message.body(&mut to)?;
    to.output.finalize()
}

/// Reads a body. Bytes behind it are left for [`is_spelling`] to find.
pub(super) fn body<'a, T: Deserialize<'a>>(bytes: &'a [u8]) -> Option<T> {
    postcard::from_bytes(bytes).ok()
}

/// Writes a value of a body.
pub(super) fn put<F: Flavor>(
    to: &mut Serializer<F>,
    value: &(impl Serialize + ?Sized),
) -> postcard::Result<()> {
    value.serialize(to)
}

/// Bytes that go straight into a frame.
struct Framed<'a>(Sender<'a>);

impl<'a> Flavor for Framed<'a> {
    type Output = &'a [u8];

    fn try_push(&mut self, byte: u8) -> postcard::Result<()> {
        self.0.push(byte).map_err(|Full| Error::SerializeBufferFull)
    }

    fn finalize(self) -> postcard::Result<&'a [u8]> {
        self.0.finish().map_err(|Full| Error::SerializeBufferFull)
    }
}

/// Bytes that must be these.
struct Same<'a>(&'a [u8]);

impl Flavor for Same<'_> {
    type Output = ();

    // As with a frame's: it is called from dozens of places.
    #[inline(never)]
    fn try_push(&mut self, byte: u8) -> postcard::Result<()> {
        match self.0.split_first() {
            Some((first, rest)) if *first == byte => {
                self.0 = rest;
                Ok(())
            }
            _ => Err(Error::SerializeBufferFull),
        }
    }

    fn finalize(self) -> postcard::Result<()> {
        if self.0.is_empty() {
            Ok(())
        } else {
            Err(Error::SerializeBufferFull)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::link::Request;

    #[test]
    fn a_message_has_one_spelling() {
        let spelt = [VERSION, 3, 4, 200];
        let asked = Request::Log(200);
        assert!(is_spelling(&spelt, 3, &asked));
        assert!(!is_spelling(&spelt[..3], 3, &asked));
        assert!(!is_spelling(&[VERSION, 3, 4, 200, 0], 3, &asked));
        for at in 0..spelt.len() {
            let mut other = spelt;
            other[at] ^= 1;
            assert!(!is_spelling(&other, 3, &asked), "{at}");
        }
    }
}
