//! What a device's panel shows.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::image::layout::CRC;

/// Bytes of the panel's frame: 64 rows from the top, 128 pixels each of one bit, the leftmost in the highest bit of a row's
/// first byte; ones are lit.
pub const PANEL: usize = 128 * 64 / 8;
/// Bytes of a piece of it. All of it in one frame would double the buffers of the link.
pub const PIECE: usize = 256;
const PIECES: u8 = 4;
const _: () = assert!(PIECE * PIECES as usize == PANEL);

/// Which piece of the panel's frame; on the wire its offset in bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part(u8);

impl Part {
    /// Every piece, from the top.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..PIECES).map(Self)
    }

    /// The piece that begins at this byte, where one does.
    #[must_use]
    pub fn at(offset: u16) -> Option<Self> {
        let [low, high] = offset.to_le_bytes();
        (low == 0 && high < PIECES).then_some(Self(high))
    }

    /// Where the piece begins, in bytes.
    #[must_use]
    pub fn offset(self) -> u16 {
        // A piece is 256 bytes.
        u16::from_le_bytes([0, self.0])
    }
}

impl Serialize for Part {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.offset().serialize(to)
    }
}

impl<'de> Deserialize<'de> for Part {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let offset = u16::deserialize(from)?;
        Self::at(offset).ok_or_else(|| D::Error::custom("no piece begins there"))
    }
}

/// A piece of the panel's frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece<'a> {
    /// Which.
    pub part: Part,
    /// Its bytes.
    pub bytes: &'a [u8; PIECE],
}

impl Serialize for Piece<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        (self.part, &self.bytes[..]).serialize(to)
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for Piece<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let (part, bytes) = <(Part, &'de [u8])>::deserialize(from)?;
        let bytes = bytes
            .try_into()
            .map_err(|_| D::Error::custom("a piece of another length"))?;
        Ok(Self { part, bytes })
    }
}

/// What the panel shows: its check value, and a piece of it where one was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Screen<'a> {
    /// CRC-32/ISO-HDLC of the whole frame. Pieces with different ones are of different frames.
    pub crc: u32,
    /// The piece.
    #[serde(borrow)]
    pub piece: Option<Piece<'a>>,
}

impl<'a> Screen<'a> {
    /// Of a panel's frame.
    #[must_use]
    pub fn of(frame: &'a [u8; PANEL], part: Option<Part>) -> Self {
        let pieces = frame.as_chunks().0;
        Self {
            crc: CRC.checksum(frame),
            piece: part.and_then(|part| {
                let bytes = pieces.get(usize::from(part.0))?;
                Some(Piece { part, bytes })
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_make_up_the_frame() {
        let mut frame = [0; PANEL];
        for (value, byte) in (0u32..).zip(&mut frame) {
            *byte = (value * 7 / 3) as u8;
        }
        assert_eq!(Screen::of(&frame, None).piece, None);
        let mut whole = Vec::new();
        for part in Part::all() {
            let screen = Screen::of(&frame, Some(part));
            assert_eq!(screen.crc, CRC.checksum(&frame));
            let piece = screen.piece.unwrap();
            assert_eq!(usize::from(piece.part.offset()), whole.len());
            whole.extend_from_slice(piece.bytes);
        }
        assert_eq!(whole, frame);
    }

    #[test]
    fn only_four_offsets_begin_a_piece() {
        let begins: Vec<u16> = (0..=u16::MAX)
            .filter(|at| Part::at(*at).is_some())
            .collect();
        assert_eq!(begins, [0, 256, 512, 768]);
        for at in begins {
            assert_eq!(Part::at(at).map(Part::offset), Some(at));
        }
    }
}
