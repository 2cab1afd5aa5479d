//! Identifies pipe from what a technician can measure and see, on a microcontroller as on a desk.
//!
//! # Goals
//!
//! * One answer everywhere: integers from end to end, so that a handheld and a desk agree to the last bit.
//! * An answer is a *set* of pipes with weights, and "none of these" is one of its members.
//! * No clock, no port, no allocation, no panic, no `unsafe`: bytes and values in, values out.
//!
//! # What it does not do
//!
//! It holds no data: every family, size, constant and text comes from a table [`image`]. It reads no files and draws
//! nothing.

#![cfg_attr(not(test), no_std)]
#![deny(missing_docs, unsafe_code)]
#![cfg_attr(
    test,
    allow(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "tests compare with floats"
    )
)]

pub mod assembly;
pub mod clue;
pub mod cut;
pub mod dig;
pub mod fixed;
pub mod gauge;
pub mod identify;
pub mod image;
pub mod joint;
mod length;
pub mod link;
pub mod numbers;
pub mod print;
pub mod reading;
pub mod surge;
pub mod thrust;
pub mod unit;
pub mod water;

pub use length::{Length, Unit};
