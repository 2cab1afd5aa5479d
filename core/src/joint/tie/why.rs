//! Why there is no chain between two ends.

use super::TieEnd;
use super::search::{Rules, Search};
use crate::image::Image;

/// Why there is no chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nothing {
    /// Were one end free there would be one: no piece that slides or takes up goes on these pipes.
    Fixed,
    /// There would be one, but nothing is listed to hold it, and polyethylene pulls it apart.
    Unheld,
    /// No part is made for both sizes.
    Sizes,
    /// No part seals on both pipes.
    Parts,
}

/// Why there is none, for two ends that have none.
#[must_use]
pub fn nothing(image: &Image<'_>, ends: &[TieEnd; 2]) -> Nothing {
    let rules = Rules::of(image, ends);
    let would = |rules: Rules| {
        let chains = Search::new(image, ends, rules).cheapest();
        chains.iter().any(Option::is_some)
    };
    let [first, second] = ends.map(|end| image.measure(end.pipe.row.size));
    if rules.closing
        && would(Rules {
            closing: false,
            ..rules
        })
    {
        Nothing::Fixed
    } else if rules.held
        && would(Rules {
            held: false,
            ..rules
        })
    {
        Nothing::Unheld
    } else if first != second {
        Nothing::Sizes
    } else {
        Nothing::Parts
    }
}
