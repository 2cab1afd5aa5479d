//! What is printed on a pipe, as far as it can be read: text with gaps, to what it says of the pipe.
//!
//! [`parts`] walks over a line and gives what the image's words let it recognise, each with the bytes that it was taken
//! from; [`read`] gathers them into a [`Line`], which is small and knows nothing of the text any more.
//! [`Line::chance`] is how often a pipe of a row and class has such a line.
//!
//! What is not recognised is nothing: a year, a plant, a shift. A number counts only beside a word that says what it is, and
//! only when the tables have it. What fits several words is all of them, not the likeliest.
//!
//! A line is typed by a person in a trench, so that any case and spacing do (`DR 18`, `DR18`, `D.R. 18`), so do letters and
//! digits that are taken for each other (O 0, I L 1, S 5, B 8, Z 2, G 6), and marks for what could not be read: `?`, `_`,
//! `*` or `.` for a character, two or more of them, or `…`, for any number. The work is bounded by the length of the line
//! times the number of words, and nothing here can panic.

mod chance;
mod class;
mod glyph;
mod line;
mod number;
mod parts;
mod search;
mod thing;
mod values;
mod word;

pub use class::{PrintedClass, Scale};
pub use line::Line;
pub use parts::{Part, Parts, Said, parts};
pub use thing::{Contents, Thing, Unit};

pub use glyph::folded;

use crate::image::Image;

/// What a line says of its pipe.
#[must_use]
pub fn read(image: &Image<'_>, line: &[u8]) -> Line {
    let mut found = Line::default();
    for part in parts(image, line) {
        found.take(image, &part);
    }
    found
}
