//! What a chain must keep to, of the two ends and of the site.

use super::chain::{Site, TieEnd};
use crate::image::{Image, Material};

/// What a chain must keep to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rules {
    /// No end moves: a piece must slide or take up.
    pub(super) closing: bool,
    /// Every joint must be held: where polyethylene shrinks, what is not held is pulled apart.
    pub(super) held: bool,
    /// What is known of the site.
    pub(super) site: Site,
}

impl Rules {
    pub(super) fn of(image: &Image<'_>, ends: &[TieEnd; 2], site: Site) -> Self {
        let shrinks = |end: &TieEnd| {
            let family = image.family(end.pipe.row.family);
            Material::from_code(family.material) == Some(Material::Pe)
        };
        Self {
            closing: ends.iter().all(|end| end.fixed),
            held: ends.iter().any(shrinks),
            site,
        }
    }
}
