//! How long a piece is cut, for a gap that is to be closed and for damage that is to be cut out.
//!
//! Nothing here knows how long a part is: its laying length is measured on the part in hand, or is one that a standard
//! fixes. What is cut by a guess is cut twice.

mod closure;
mod damage;

#[cfg(test)]
mod tests;

pub use closure::{Closure, Cut, Meeting, NoCut, cut, movement};
pub use damage::{Damage, Kind, Repair, clamp_length, repair};
