//! The handheld's application, apart from any board.
//!
//! * [`app`] takes bytes, buttons and time and gives pictures and bytes; [`frame`] and [`letters`] are what it draws with.
//! * [`board`] is the seam to a board, [`drivers`] are parts that several may have, [`trouble`] is what the panel shows at the end.
//!
//! What follows measures it on an emulated microcontroller:
//!
//! * [`sweep`] asks the same questions on a desk and on the board and sums the answers up in a check value, so that the
//!   two can be compared to the last bit.
//! * [`grown`] makes a table with many more rows, which must cost next to nothing.
//!
//! The programs in `src/bin` are for a board only; `budgets.toml` holds their figures below ceilings.

#![no_std]
#![deny(missing_docs)]
#![forbid(unsafe_code)]

#[cfg(test)]
extern crate std;

pub mod app;
pub mod board;
pub mod drivers;
pub mod frame;
pub mod grown;
pub mod letters;
pub mod sweep;
pub mod trouble;
