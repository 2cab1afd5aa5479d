//! The handheld's application will live here, apart from any board.
//!
//! It does not exist yet: no display, no buttons, no gauge, no table update. What is here measures the identification
//! on an emulated microcontroller, so that its costs are known before anything is built upon it:
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
