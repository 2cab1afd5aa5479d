//! The simulator that judges identification: it draws pipes, reads them with instruments, answers the questions, and counts
//! what the engine makes of it.
//!
//! It is in f64 and shares no arithmetic with the core. From the built-in image it takes which rows there are, their bands and
//! their shares, and which of them are one purchase; what families are like, how instruments err and how often what is told is
//! typed a second time (here and in [`crate::exact`]), and the tables of clues are read a second time. Beside every draw the
//! exact law can say what should have been believed.
//!
//! A draw hangs on nothing but its number, the seed and the world ([`random`]), so that any of them can be looked at alone and
//! the work can be spread over threads.

pub mod bench;
pub mod clues;
pub mod draw;
pub mod engine;
pub mod figures;
pub mod instrument;
pub mod nature;
pub mod pipe;
pub mod print;
pub mod random;
pub mod report;
pub mod run;
pub mod tally;
pub mod truth;
pub mod walk;
pub mod wall;

pub use bench::Bench;
pub use nature::Nature;
