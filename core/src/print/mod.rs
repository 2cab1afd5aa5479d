//! What is printed on a pipe: the words of it, and what they are about.

mod class;
mod glyph;
mod thing;

pub use class::{PrintedClass, Scale};
pub use thing::{Contents, Thing, Unit};

pub use glyph::folded;
