//! Water in a line: what it holds, how fast it is filled and flushed, what it is tested at and what it may lose.

mod bore;
mod makeup;
mod test_pressure;

#[cfg(test)]
mod tests;

pub use bore::{bore, flow_at, held, per_foot, speed_of};
pub use makeup::{Loss, by_joints, makeup};
pub use test_pressure::{TestPressure, test_pressure};
