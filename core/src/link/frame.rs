//! Frames: `00`, COBS(payload ‖ CRC-32, little-endian), `00`.
//!
//! A frame both begins and ends with a zero, so that whatever came before it on the line is cut off from it, and what comes
//! after it is not needed to know that it is whole. Two zeros in a row hold nothing between them and mean nothing. A payload
//! has at least one byte: the check value of none is 0, and its frame, five times 01, is what a run of zeros in another
//! looks like once a byte of it is lost to a 00.

use core::fmt;

use cobs::{DecodeResult, DecoderState};

use super::cobs::Stuffer;
use crate::image::layout::CRC;

/// Running CRC-32/ISO-HDLC. With the table of 1 KiB that the check of an image has in flash already, it costs the link no
/// more flash; without one it would take ten times the instructions for each byte.
type Sum = crc::Digest<'static, u32, crc::Table<1>>;

/// Bytes of the check value behind a payload.
pub const CHECK: usize = 4;
/// The longest payload, in bytes; see [`MAX_FRAME`].
pub const MAX_PAYLOAD: usize = 512;
/// The longest frame on the line, delimiters and all.
///
/// A payload of 512 bytes holds the largest answer, twice over, and a quarter of the panel or a page of flash beside its
/// header. A device keeps one such buffer for what comes and one for what goes, 1 KiB of its RAM, and a frame takes 45 ms
/// at 115,200 baud, which is what a damaged one costs.
pub const MAX_FRAME: usize = encoded(MAX_PAYLOAD);
/// First bytes of an overlong payload that are kept: enough to answer it.
pub const HEAD: usize = 2;

/// Bytes on the line for a payload of so many, at the most.
#[must_use]
pub const fn encoded(payload: usize) -> usize {
    let plain = payload + CHECK;
    1 + plain + plain.div_ceil(254) + 1
}

/// Why a frame was dropped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Not a frame as it was sent: noise, or bytes that were lost, added or changed.
    Broken,
    /// Whole, as its check value tells, but longer than [`MAX_PAYLOAD`].
    Overlong {
        /// The first bytes of its payload.
        head: [u8; HEAD],
    },
}

impl fmt::Display for Damage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Broken => "a damaged frame",
            Self::Overlong { .. } => "a frame longer than any message",
        })
    }
}

impl core::error::Error for Damage {}

/// A frame needs more room than the buffer has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Full;

impl fmt::Display for Full {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the buffer is too short for the frame")
    }
}

impl core::error::Error for Full {}

/// Takes bytes as they come off a line, and gives back payloads.
pub struct Receiver {
    cobs: DecoderState,
    sum: Sum,
    /// Plain bytes of the frame, as far as they fit.
    kept: [u8; MAX_PAYLOAD + CHECK],
    /// Plain bytes of the frame so far; it may be more than are kept.
    length: usize,
}

impl Receiver {
    /// A receiver that has heard nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            cobs: DecoderState::Idle,
            sum: CRC.digest(),
            kept: [0; MAX_PAYLOAD + CHECK],
            length: 0,
        }
    }

    /// Takes one byte. Any bytes may come in any order; each takes a bounded time. The end of a frame gives its payload, or
    /// says once that something was dropped.
    ///
    /// # Errors
    ///
    /// [`Damage`] where something ended that was not a frame, or one too long.
    pub fn push(&mut self, byte: u8) -> Option<Result<&[u8], Damage>> {
        match self.cobs.feed(byte) {
            Ok(DecodeResult::NoData) => None,
            Ok(DecodeResult::DataContinue(plain)) => {
                self.keep(plain);
                None
            }
            Ok(DecodeResult::DataComplete) => Some(self.end()),
            Err(_) => {
                let _ = self.start();
                Some(Err(Damage::Broken))
            }
        }
    }

    fn keep(&mut self, plain: u8) {
        self.sum.update(&[plain]);
        if let Some(slot) = self.kept.get_mut(self.length) {
            *slot = plain;
        }
        self.length = self.length.saturating_add(1);
    }

    /// Makes ready for the next frame; the length and the check value of the last one.
    fn start(&mut self) -> (usize, u32) {
        let sum = core::mem::replace(&mut self.sum, CRC.digest());
        (core::mem::take(&mut self.length), sum.finalize())
    }

    fn end(&mut self) -> Result<&[u8], Damage> {
        let (length, sum) = self.start();
        let payload = length.saturating_sub(CHECK);
        // The check value of bytes with their check value behind them is the same for all.
        if payload == 0 || sum != CRC.algorithm.residue ^ CRC.algorithm.xorout {
            return Err(Damage::Broken);
        }
        if payload > MAX_PAYLOAD {
            let head = self.kept.first_chunk().copied().unwrap_or_default();
            return Err(Damage::Overlong { head });
        }
        self.kept.get(..payload).ok_or(Damage::Broken)
    }
}

impl Default for Receiver {
    fn default() -> Self {
        Self::new()
    }
}

/// Makes a frame in a buffer of the caller's, a byte of payload at a time.
pub struct Sender<'a> {
    stuffer: Stuffer<'a>,
    sum: Sum,
}

impl<'a> Sender<'a> {
    /// Begins a frame; one without payload is not taken by any receiver. A buffer of [`encoded`] bytes is long enough.
    ///
    /// # Errors
    ///
    /// [`Full`] when not even an empty frame fits.
    pub fn new(buffer: &'a mut [u8]) -> Result<Self, Full> {
        Ok(Self {
            stuffer: Stuffer::new(buffer)?,
            sum: CRC.digest(),
        })
    }

    /// Adds a byte of payload.
    ///
    /// # Errors
    ///
    /// [`Full`] at the end of the buffer.
    // A function of its own: the codec calls it from dozens of places.
    #[inline(never)]
    pub fn push(&mut self, byte: u8) -> Result<(), Full> {
        self.sum.update(&[byte]);
        self.stuffer.push(byte)
    }

    /// Ends the frame; its bytes, delimiters and all.
    ///
    /// # Errors
    ///
    /// [`Full`] at the end of the buffer.
    pub fn finish(mut self) -> Result<&'a [u8], Full> {
        for byte in self.sum.finalize().to_le_bytes() {
            self.stuffer.push(byte)?;
        }
        self.stuffer.finish()
    }
}

/// Frames a payload.
///
/// # Errors
///
/// [`Full`] when the buffer is shorter than the frame; [`encoded`] says how long it may be.
pub fn frame<'a>(payload: &[u8], buffer: &'a mut [u8]) -> Result<&'a [u8], Full> {
    let mut sender = Sender::new(buffer)?;
    for byte in payload {
        sender.push(*byte)?;
    }
    sender.finish()
}
