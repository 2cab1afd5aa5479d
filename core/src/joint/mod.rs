//! Which joint ends seal on a pipe, what holds them, and what is one purchase.

mod words;

pub use words::{Form, Job, Kind, Role, Stock, Verdict};
