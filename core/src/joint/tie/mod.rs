//! From one pipe end to another: the cheapest chains of parts whose every joint seals.
//!
//! A chain lies in one line and one grade unless [`Lie`] says otherwise, and holds at most [`MOST_STRAIGHT`] parts, with bends
//! [`MOST`]. Between two parts are their own ends (a flange on a flange, a spigot in a bell) or a piece cut of one of the two pipes. Nothing here says that a chain bears the pressure of a
//! site: what holds each joint is listed by [`holders`](super::holders) and is put on by who is qualified for it.

mod chain;
mod cost;
mod direct;
mod rules;
mod search;
mod seat;
mod why;

#[cfg(test)]
mod tests;

pub use chain::{Chain, Direct, Lie, MOST, MOST_STRAIGHT, On, Piece, Side, Site, TieEnd};
pub use cost::{
    ANCHOR, CURE, CUT, CUT_OFF, CUT_THREAD, DRY, JOINT, LATE, NEED, RESTRAINT, stock_cost,
    stock_hours,
};
pub use seat::MOST_RUNS;
pub use why::{Nothing, nothing};

use crate::image::Image;
use rules::Rules;
use search::Search;

/// So many chains are offered at most.
pub const CHAINS: usize = 3;

/// The cheapest chains from the first end to the second, the best first, each unlike those before it: another joint on one of
/// the two pipes, and not one of them with more parts. All `None` where there is none; [`nothing`] says why.
#[must_use]
pub fn ties(image: &Image<'_>, ends: &[TieEnd; 2], site: Site) -> [Option<Chain>; CHAINS] {
    Search::new(image, ends, Rules::of(image, ends, site)).cheapest()
}
