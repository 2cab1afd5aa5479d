//! Clues as likelihoods of a pipe's family.
//!
//! Every clue multiplies what is believed of each family; none rules one out. What paint, wrap or mud can hide is told
//! apart: a few pipes are disguised, and what is seen of them is what is seen of a pipe picked at random.

use super::answer::share;
use super::belief::Belief;
use super::plan::Weighed;
use crate::clue::{ClueName, Clues};
use crate::fixed::Real;
use crate::image::Image;
use crate::image::layout::MAX_FAMILIES;

/// The chances of what was told, by family.
#[derive(Clone)]
pub(super) struct Evidence<'a> {
    image: &'a Image<'a>,
    clues: &'a Clues,
    /// Share of each family at the site, Q32.
    site: &'a [u32; MAX_FAMILIES],
    /// Of what nothing can hide, plans among it.
    open: [Real; MAX_FAMILIES],
    /// Of what paint, wrap or mud can hide; nothing where no such thing was told.
    hidden: Option<[Real; MAX_FAMILIES]>,
    /// The share of disguised pipes times the chance of the hidden ones on a pipe picked at random.
    disguise: Real,
    /// The share of pipes that are not disguised.
    plain: Real,
}

impl<'a> Evidence<'a> {
    pub(super) fn of(
        image: &'a Image<'a>,
        clues: &'a Clues,
        site: &'a [u32; MAX_FAMILIES],
    ) -> Self {
        let disguised = share(image.settings().disguise_share);
        let mut evidence = Self {
            image,
            clues,
            site,
            open: [Real::ONE; MAX_FAMILIES],
            hidden: None,
            disguise: Real::ZERO,
            plain: Real::ONE - disguised,
        };
        for name in clues.names() {
            let product = if evidence.is_hidden(name) {
                evidence.hidden.get_or_insert([Real::ONE; MAX_FAMILIES])
            } else {
                &mut evidence.open
            };
            for ((family, product), prior) in (0u8..).zip(product).zip(site) {
                if *prior > 0 {
                    *product = *product * chance(image, clues, site, name, family);
                }
            }
        }
        if let Some(hidden) = &evidence.hidden {
            evidence.disguise = disguised * drawn(site, hidden);
        }
        evidence
    }

    /// Whether paint, wrap or mud can hide it.
    fn is_hidden(&self, name: ClueName) -> bool {
        match name {
            ClueName::Clue(clue) => self.image.clue(clue).disguised != 0,
            ClueName::Plans | ClueName::Print => false,
        }
    }

    /// The chance of everything told on a pipe of a family.
    pub(super) fn likelihood(&self, family: u8) -> Real {
        let at = usize::from(family);
        let open = self.open.get(at).copied().unwrap_or(Real::ZERO);
        match self.hidden.as_ref().and_then(|hidden| hidden.get(at)) {
            Some(hidden) => open * (self.plain * *hidden + self.disguise),
            None => open,
        }
    }

    /// The chance of everything told on a pipe drawn from the site.
    pub(super) fn marginal(&self) -> Real {
        let mut sum = Real::ZERO;
        for (family, prior) in (0u8..).zip(self.site) {
            if *prior > 0 {
                sum += share(*prior) * self.likelihood(family);
            }
        }
        sum
    }

    /// The share of a family's pipes that are not disguised, after what was told, Q30; and the family's share among the pipes
    /// that a disguised one looks like, Q32.
    pub(super) fn disguised(&self, family: u8) -> (u32, u32) {
        let at = usize::from(family);
        let prior = share(self.site.get(at).copied().unwrap_or(0));
        let disguised = share(self.image.settings().disguise_share);
        let (plain, hidden, disguise) = match self.hidden.as_ref().and_then(|all| all.get(at)) {
            Some(hidden) => (self.plain * *hidden, *hidden, self.disguise),
            None => (self.plain, Real::ONE, disguised),
        };
        let narrow = |wide: i64| u32::try_from(wide).unwrap_or(u32::MAX);
        (
            narrow((plain / (plain + disguise)).to_fixed(30)),
            narrow((prior * hidden * disguised / disguise).to_fixed(32)),
        )
    }

    /// This without one of the things told, and the largest chance that any family gives that one. Where it was the only one of
    /// its kind, its products stay, as ones.
    fn without(&self, name: ClueName) -> (Self, Real) {
        let mut rest = self.clone();
        let mut largest = Real::ZERO;
        let (image, clues, site) = (self.image, self.clues, self.site);
        let is_hidden = self.is_hidden(name);
        let product = match &mut rest.hidden {
            Some(hidden) if is_hidden => hidden,
            _ => &mut rest.open,
        };
        for ((family, product), prior) in (0u8..).zip(product).zip(site) {
            if *prior > 0 {
                let chance = chance(image, clues, site, name, family);
                *product = *product / chance;
                largest = largest.max(chance);
            }
        }
        if let (true, Some(hidden)) = (is_hidden, &rest.hidden) {
            rest.disguise = share(image.settings().disguise_share) * drawn(site, hidden);
        }
        (rest, largest)
    }
}

/// A chance by family, on a pipe drawn from the site.
fn drawn(site: &[u32; MAX_FAMILIES], chances: &[Real; MAX_FAMILIES]) -> Real {
    let mut sum = Real::ZERO;
    for (prior, chance) in site.iter().zip(chances) {
        if *prior > 0 {
            sum += share(*prior) * *chance;
        }
    }
    sum
}

/// The chance of one of the things told on a pipe of a family.
fn chance(
    image: &Image<'_>,
    clues: &Clues,
    site: &[u32; MAX_FAMILIES],
    name: ClueName,
    family: u8,
) -> Real {
    match (name, clues.plans) {
        (ClueName::Clue(clue), _) => clues.answer(clue).map_or(Real::ONE, |answer| {
            let (mantissa, power) = image.likelihood(answer, family).parts();
            Real::unsigned(u64::from(mantissa), power)
        }),
        (ClueName::Plans, Some(plans)) => {
            let right = share(image.settings().plans_family_right);
            // Wrong plans name a family as often as it is met, whatever the pipe is. One that is not met here cannot be
            // named so, and on the pipe that it names nothing is believed: then plans say nothing.
            match site.get(usize::from(plans.family)).copied() {
                None | Some(0) => Real::ONE,
                Some(named) if plans.family == family => right + (Real::ONE - right) * share(named),
                Some(named) => (Real::ONE - right) * share(named),
            }
        }
        // A line hangs on the row and its classes, which are weighed one by one.
        (ClueName::Plans, None) | (ClueName::Print, _) => Real::ONE,
    }
}

/// The one of the things told that the rest speaks against: its likelihood, averaged over the answer that is made without it,
/// is a small part of the largest that any family gives it.
pub(super) fn contradiction(
    belief: &Belief<'_>,
    clues: &Clues,
    weighed: &Weighed,
) -> Option<ClueName> {
    let (image, site) = (belief.image, belief.site());
    // Masses were made with shares that sum to one: the chance of everything told was divided out.
    let with = weighed.total() * belief.evidence();
    let limit = share(belief.settings.contradiction);
    let all = Evidence::of(image, clues, site);
    let mut worst: Option<(ClueName, Real)> = None;
    for name in clues.names().filter(|name| *name != ClueName::Print) {
        let (rest, largest) = all.without(name);
        let mut without = Real::ZERO;
        for (family, prior) in (0u8..).zip(site) {
            if *prior > 0 {
                // Pipe in no table has the clues of one drawn from the site.
                let density = weighed.outside + weighed.ranking.of_family(family);
                without += share(*prior) * rest.likelihood(family) * density;
            }
        }
        let part = with / (without * largest);
        if part < limit && worst.is_none_or(|(_, least)| part < least) {
            worst = Some((name, part));
        }
    }
    if let (Some(inside), Some(_)) = (belief.inside(), clues.print) {
        let part = weighed.total() / (weighed.ranking.without_print() * inside.likeliest_print());
        if part < limit && worst.is_none_or(|(_, least)| part < least) {
            worst = Some((ClueName::Print, part));
        }
    }
    worst.map(|(name, _)| name)
}
