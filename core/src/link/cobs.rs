//! Bytes without zeros: COBS, by the state machine of the `cobs` crate, into a buffer of the caller's.
//!
//! The crate's own encoder for slices writes no delimiters and unpacks errors by panics, and postcard's indexes; this one
//! does neither. For reading, the crate's [`cobs::DecoderState`] takes a byte at a time and owns no buffer: it is used
//! as it is.

use cobs::{EncoderState, PushResult};

use super::frame::Full;

/// Writes a delimiter, stuffed bytes and a delimiter.
pub(super) struct Stuffer<'a> {
    out: &'a mut [u8],
    /// Where the next byte goes.
    at: usize,
    state: EncoderState,
    /// A run of 254 has just ended, and the byte that would count the next one is not there yet: at the end of a frame none
    /// is needed.
    between: bool,
}

impl<'a> Stuffer<'a> {
    /// The delimiter of frames.
    pub(super) const DELIMITER: u8 = 0;

    pub(super) fn new(out: &'a mut [u8]) -> Result<Self, Full> {
        let mut new = Self {
            out,
            at: 0,
            state: EncoderState::default(),
            between: false,
        };
        new.put(Self::DELIMITER)?;
        new.put(0)?;
        Ok(new)
    }

    pub(super) fn push(&mut self, byte: u8) -> Result<(), Full> {
        if core::mem::take(&mut self.between) {
            self.put(0)?;
        }
        match self.state.push(byte) {
            PushResult::AddSingle(byte) => self.put(byte),
            PushResult::ModifyFromStartAndSkip((at, count)) => {
                self.count(at, count)?;
                self.put(0)
            }
            PushResult::ModifyFromStartAndPushAndSkip((at, count, byte)) => {
                self.count(at, count)?;
                self.between = true;
                self.put(byte)
            }
        }
    }

    pub(super) fn finish(mut self) -> Result<&'a [u8], Full> {
        // Between runs this is the place of the delimiter, which follows.
        let (at, count) = self.state.clone().finalize();
        self.count(at, count)?;
        self.put(Self::DELIMITER)?;
        let out: &'a [u8] = self.out;
        out.get(..self.at).ok_or(Full)
    }

    /// Puts the length of a run in its place; the state machine does not know of the first delimiter.
    fn count(&mut self, at: usize, count: u8) -> Result<(), Full> {
        *self.out.get_mut(at + 1).ok_or(Full)? = count;
        Ok(())
    }

    fn put(&mut self, byte: u8) -> Result<(), Full> {
        *self.out.get_mut(self.at).ok_or(Full)? = byte;
        self.at += 1;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cobs::{DecodeResult, DecoderState};

    /// Bytes from `first` to `last` and more.
    fn run(first: u8, last: u8, more: &[u8]) -> Vec<u8> {
        let mut bytes: Vec<u8> = (first..=last).collect();
        bytes.extend_from_slice(more);
        bytes
    }

    fn after(before: &[u8], rest: Vec<u8>) -> Vec<u8> {
        [before.to_vec(), rest].concat()
    }

    /// The encoding examples 1 to 11 of Wikipedia's "Consistent Overhead Byte Stuffing", without their last zero.
    fn examples() -> Vec<(Vec<u8>, Vec<u8>)> {
        vec![
            (vec![0], vec![1, 1]),
            (vec![0, 0], vec![1, 1, 1]),
            (vec![0, 0x11, 0], vec![1, 2, 0x11, 1]),
            (vec![0x11, 0x22, 0, 0x33], vec![3, 0x11, 0x22, 2, 0x33]),
            (
                vec![0x11, 0x22, 0x33, 0x44],
                vec![5, 0x11, 0x22, 0x33, 0x44],
            ),
            (vec![0x11, 0, 0, 0], vec![2, 0x11, 1, 1, 1]),
            (run(1, 0xfe, &[]), after(&[0xff], run(1, 0xfe, &[]))),
            (run(0, 0xfe, &[]), after(&[1, 0xff], run(1, 0xfe, &[]))),
            (run(1, 0xff, &[]), after(&[0xff], run(1, 0xfe, &[2, 0xff]))),
            (run(2, 0xff, &[0]), after(&[0xff], run(2, 0xff, &[1, 1]))),
            (run(3, 0xff, &[0, 1]), after(&[0xfe], run(3, 0xff, &[2, 1]))),
        ]
    }

    #[test]
    fn examples_of_the_public_page_are_stuffed() {
        for (plain, stuffed) in examples() {
            let mut buffer = [0xaa; 300];
            let mut stuffer = Stuffer::new(&mut buffer).unwrap();
            for byte in &plain {
                stuffer.push(*byte).unwrap();
            }
            let expected = [&[0], &stuffed[..], &[0]].concat();
            assert_eq!(stuffer.finish().unwrap(), expected, "{plain:x?}");
        }
    }

    #[test]
    fn examples_of_the_public_page_are_unstuffed_by_the_crate() {
        for (plain, stuffed) in examples() {
            let mut state = DecoderState::Idle;
            let mut got = Vec::new();
            for byte in stuffed {
                if let DecodeResult::DataContinue(byte) = state.feed(byte).unwrap() {
                    got.push(byte);
                }
            }
            assert!(matches!(state.feed(0), Ok(DecodeResult::DataComplete)));
            assert_eq!(got, plain);
        }
    }

    #[test]
    fn a_buffer_of_any_size_is_filled_or_refused() {
        let plain = run(1, 0xff, &[0, 0]);
        let stuff = |buffer: &mut [u8]| {
            let mut stuffer = Stuffer::new(buffer)?;
            for byte in &plain {
                stuffer.push(*byte)?;
            }
            stuffer.finish().map(<[u8]>::len)
        };
        let mut buffer = [0; 300];
        let needed = stuff(&mut buffer).unwrap();
        for size in 0..needed {
            assert_eq!(stuff(&mut buffer[..size]), Err(Full), "{size}");
        }
        assert_eq!(stuff(&mut buffer[..needed]), Ok(needed));
    }
}
