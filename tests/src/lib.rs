//! What the tests share.

/// The exact law of the probability model, to hold the engine against.
pub mod exact;
