//! Letters of three sizes, drawn at build time.

use crate::frame::Frame;

mod tables {
    include!(concat!(env!("OUT_DIR"), "/letters.rs"));
}

/// Sizes of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Letters {
    /// 6 by 10.
    Small,
    /// 8 by 13, bold.
    Middle,
    /// 10 by 20.
    Large,
}

impl Letters {
    /// How many fit across the panel.
    #[must_use]
    pub const fn columns(self) -> usize {
        match self {
            Self::Small => 21,
            Self::Middle => 16,
            Self::Large => 12,
        }
    }

    /// The largest in which a text of so many letters fits across.
    #[must_use]
    pub const fn fitting(letters: usize) -> Self {
        if letters <= Self::Large.columns() {
            Self::Large
        } else if letters <= Self::Middle.columns() {
            Self::Middle
        } else {
            Self::Small
        }
    }

    /// How far the next letter is.
    const fn width(self) -> usize {
        match self {
            Self::Small => 6,
            Self::Middle => 8,
            Self::Large => 10,
        }
    }

    /// Draws a letter; what is no printable ASCII is a blank.
    fn stamp(self, frame: &mut Frame, x: usize, y: usize, letter: u8, lit: bool) {
        let at = usize::from(letter.wrapping_sub(b' '));
        let narrow = |rows: &[u8], frame: &mut Frame| {
            for (row, bits) in rows.iter().enumerate() {
                frame.stamp(x, y + row, u16::from(*bits) << 8, lit);
            }
        };
        match self {
            Self::Small => narrow(tables::SMALL.get(at).map_or(&[], |rows| &rows[..]), frame),
            Self::Middle => narrow(tables::MIDDLE.get(at).map_or(&[], |rows| &rows[..]), frame),
            Self::Large => {
                let rows = tables::LARGE
                    .get(at)
                    .map_or(&[][..], |rows| rows.as_chunks().0);
                for (row, bits) in rows.iter().enumerate() {
                    frame.stamp(x, y + row, u16::from_be_bytes(*bits), lit);
                }
            }
        }
    }

    /// Writes a text, its upper left corner at a place, lit or dark.
    pub fn write(self, frame: &mut Frame, x: i32, y: i32, text: &str, lit: bool) {
        let inside = |value: i32| usize::try_from(value).unwrap_or(0);
        let (mut x, y) = (inside(x), inside(y));
        for letter in text.bytes() {
            self.stamp(frame, x, y, letter, lit);
            x += self.width();
        }
    }
}
