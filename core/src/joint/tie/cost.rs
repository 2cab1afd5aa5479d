//! What a chain costs. Common practice, no source: glue waits for dry pipe, a shop for weeks, and each of them outweighs a
//! joint; a coupling that nothing holds is paid for with its anchor or harness.

use crate::joint::Stock;

/// A joint to be made.
pub const JOINT: u16 = 10;
/// Something that must be ordered, cut or put in for it.
pub const NEED: u16 = 2;
/// A flange that is on the pipe and is cut off for it.
pub const CUT_OFF: u16 = 60;
/// A thread that is on the pipe and is cut off for it.
pub const CUT_THREAD: u16 = 20;
/// A piece of pipe to be cut between two parts.
pub const CUT: u16 = 10;
/// A restraint that is listed for the joint.
pub const RESTRAINT: u16 = 10;
/// An anchor, a block or a harness across a part of which one joint or both have nothing listed that holds them.
pub const ANCHOR: u16 = 80;
/// A joint that cannot be made up wet.
pub const DRY: u16 = 400;

/// A part that is not got, or a joint that does not cure, before water must be back.
pub const LATE: u16 = 1500;
/// Hours that cement cures before it takes pressure. Common practice, no source: less in small pipe and heat, more in cold and wet.
pub const CURE: u16 = 24;

/// The hours in which a part is got at best: days, weeks.
#[must_use]
pub const fn stock_hours(stock: Stock) -> u16 {
    match stock {
        Stock::Counter => 0,
        Stock::Order => 48,
        Stock::Shop => 168,
        Stock::Rare => 336,
    }
}

/// A part, by how it is got.
#[must_use]
pub const fn stock_cost(stock: Stock) -> u16 {
    match stock {
        Stock::Counter => 0,
        Stock::Order => 60,
        Stock::Shop => 200,
        Stock::Rare => 300,
    }
}
