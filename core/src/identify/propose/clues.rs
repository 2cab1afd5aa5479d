//! Clues as checks: every answer weighed in closed form.

use super::standing::{Gathered, Masses, Standing, Worth};
use crate::clue::Clues;
use crate::identify::belief::Belief;
use crate::identify::evidence::Evidence;
use crate::image::layout::MAX_FAMILIES;
use crate::image::{Clue, Likelihood};

/// How pipes of each family would answer, after what was told.
pub(super) struct Shows {
    /// The share of a family's pipes that are not disguised, Q30.
    plain: [u32; MAX_FAMILIES],
    /// What a disguised pipe shows is what is seen of a pipe picked at random: the share of each family among those, Q32.
    random: [u32; MAX_FAMILIES],
    /// Families of the image.
    count: usize,
}

/// A likelihood in Q30.
fn chance(likelihood: Likelihood) -> u32 {
    let (mantissa, power) = likelihood.parts();
    u32::from(mantissa) << 17 >> (-13 - power).clamp(0, 31)
}

impl Shows {
    pub(super) fn new(belief: &Belief<'_>, clues: &Clues) -> Self {
        let evidence = Evidence::of(belief.image, clues, belief.site());
        let mut shows = Self {
            plain: [0; MAX_FAMILIES],
            random: [0; MAX_FAMILIES],
            count: belief.image.family_count(),
        };
        let slots = shows.plain.iter_mut().zip(&mut shows.random);
        for ((family, (plain, random)), prior) in (0u8..).zip(slots).zip(belief.site()) {
            if *prior > 0 {
                (*plain, *random) = evidence.disguised(family);
            }
        }
        shows
    }

    /// What a question is worth.
    pub(super) fn worth(&self, belief: &Belief<'_>, standing: &Standing, clue: &Clue) -> Worth {
        let mut gathered = Gathered::default();
        for answer in clue.first..clue.first.saturating_add(clue.answers) {
            let seen = self.seen(belief, clue, answer);
            let mut masses = Masses::NONE;
            for left in standing.rows() {
                let seen = seen.get(usize::from(left.family)).copied().unwrap_or(0);
                masses.add(left.group, part(left.weight, seen));
            }
            // Pipe in no table has the clues of one drawn from the site.
            masses.others = part(standing.others, mean(self.of(belief.priors()), &seen));
            gathered.take(standing, &masses);
        }
        standing.worth(gathered)
    }

    /// The families of a table that the image has.
    fn of<'b>(&self, all: &'b [u32; MAX_FAMILIES]) -> &'b [u32] {
        all.get(..self.count).unwrap_or(all)
    }

    /// How often pipes of each family give an answer, Q30.
    fn seen(&self, belief: &Belief<'_>, clue: &Clue, answer: u8) -> [u32; MAX_FAMILIES] {
        let mut seen = [0; MAX_FAMILIES];
        for ((family, seen), prior) in (0u8..).zip(&mut seen).zip(self.of(belief.site())) {
            if *prior > 0 {
                *seen = chance(belief.image.likelihood(answer, family));
            }
        }
        if clue.disguised != 0 {
            let random = mean(self.of(&self.random), &seen);
            for (seen, plain) in seen.iter_mut().zip(self.of(&self.plain)) {
                let disguised = (1u32 << 30).saturating_sub(*plain);
                *seen = part(*plain, *seen) + part(disguised, random);
            }
        }
        seen
    }
}

/// A product of two Q30 shares.
#[inline]
#[allow(
    clippy::cast_possible_truncation,
    reason = "neither is above one, so that the product is not"
)]
fn part(a: u32, b: u32) -> u32 {
    ((u64::from(a) * u64::from(b)) >> 30) as u32
}

/// The mean of a Q30 share over families, by their Q32 shares.
fn mean(shares: &[u32], of: &[u32; MAX_FAMILIES]) -> u32 {
    let mut sum = 0u64;
    for (share, of) in shares.iter().zip(of) {
        sum += (u64::from(*share) * u64::from(*of)) >> 16;
    }
    u32::try_from(sum >> 16).unwrap_or(u32::MAX)
}
