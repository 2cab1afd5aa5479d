//! Surge: how fast a change of pressure runs along a pipe, how high it is, and whether the pipe takes it.
//!
//! Water that is stopped gives its speed up as pressure. Stopped within the time that a wave needs to the far end and back,
//! all of it is met at once, however long the line is; stopped more slowly and evenly, as much less as the time is longer.
//! Friction is left out, which is on the safe side for the first wave at the valve. What a line of several pipes, a pump
//! that runs down or a column that parts does is not in these formulas: somebody works that out.
//!
//! Constants come from the caller, with the tables' sources: sets of them are in circulation that differ by a fiftieth, and
//! one is never mixed with another.

mod against;
mod rise;
mod wave;

#[cfg(test)]
mod tests;

pub use against::{Check, Limit, cycles, held_against, hoop_pressure, hoop_stress, working_share};
pub use rise::{Closing, closing, critical_time, rise, slow};
pub use wave::{Anchorage, Shell, Water, sound, wave_speed};
