//! Why there is no chain between two ends.

use super::rules::Rules;
use super::search::Search;
use super::{Lie, Site, TieEnd};
use crate::image::Image;

/// Why there is no chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nothing {
    /// Were one end free there would be one: no piece that slides or takes up goes on these pipes.
    Fixed,
    /// There would be one, but nothing is listed to hold it, and polyethylene pulls it apart.
    Unheld,
    /// There would be one if it could be got dry.
    Wet,
    /// There would be one if what is on an end were cut off.
    Kept,
    /// There would be one in line: no bends lead there.
    Bends,
    /// No part is made for both sizes.
    Sizes,
    /// No part seals on both pipes.
    Parts,
}

/// Why there is none, for two ends that have none.
#[must_use]
pub fn nothing(image: &Image<'_>, ends: &[TieEnd; 2], site: Site) -> Nothing {
    let rules = Rules::of(image, ends, site);
    let would = |rules: Rules| {
        let chains = Search::new(image, ends, rules).cheapest();
        chains.iter().any(Option::is_some)
    };
    let freed = ends.map(|end| TieEnd { keep: false, ..end });
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
    } else if site.dry == Some(false)
        && would(Rules {
            site: Site { dry: None, ..site },
            ..rules
        })
    {
        Nothing::Wet
    } else if site.lie.bends > 0
        && would(Rules {
            site: Site {
                lie: Lie::default(),
                ..site
            },
            ..rules
        })
    {
        Nothing::Bends
    } else if ends.iter().any(|end| end.keep)
        && Search::new(image, &freed, rules)
            .cheapest()
            .iter()
            .any(Option::is_some)
    {
        Nothing::Kept
    } else if first != second {
        Nothing::Sizes
    } else {
        Nothing::Parts
    }
}
