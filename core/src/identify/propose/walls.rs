//! The wall at a cut end as a check: what it would show of the likeliest classes of the likeliest rows, and what that would leave.

use super::standing::{Gathered, Masses, Standing, Worth};
use crate::fixed::{Real, exp2_sixteenths};
use crate::identify::belief::Belief;
use crate::identify::classes::{Supposed, middle};
use crate::image::Class;
use crate::print::Line;

/// Rows that are followed; what more there are stays as it is.
const ROWS: usize = 4;
/// Classes of each that stand for all of it.
const CLASSES: usize = 3;

/// What a wall is worth.
pub(super) fn worth(belief: &Belief<'_>, standing: &Standing, print: Option<Line>) -> Worth {
    let image = belief.image;
    let mut gathered = Gathered::default();
    let mut followed = 0u32;
    for left in standing.rows().iter().take(ROWS) {
        followed = followed.saturating_add(left.weight);
        let row = image.row(left.row);
        let mut likely = [None; CLASSES];
        for class in image.classes(&row) {
            keep(&mut likely, class);
        }
        let whole = likely
            .iter()
            .flatten()
            .fold(Real::ZERO, |sum, class| sum + exp2_sixteenths(class.share));
        let mut told = false;
        for class in likely.iter().flatten() {
            let Some(at) = middle(belief.settings, image, &row, *class) else {
                continue;
            };
            told = true;
            let part = exp2_sixteenths(class.share) / whole;
            let weight = (part * Real::unsigned(u64::from(left.weight), 0)).to_fixed(0);
            let inside = Supposed::wall(image, print, at);
            gathered.take(
                standing,
                &after(standing, &inside, weight.unsigned_abs(), belief),
            );
        }
        if !told {
            // No table has its walls: it stays as doubtful as it is.
            followed = followed.saturating_sub(left.weight);
        }
    }
    gathered.take(
        standing,
        &standing.now(u64::from((1u32 << 30).saturating_sub(followed))),
    );
    standing.worth(gathered)
}

/// Keeps a class if it is likelier than one of those held.
fn keep(likely: &mut [Option<Class>; CLASSES], class: Class) {
    let mut new = Some(class);
    for slot in likely {
        if let Some(held) = new
            && slot.is_none_or(|before| held.share < before.share)
        {
            new = slot.replace(held);
        }
    }
}

/// The groups after a wall of which `weight` pipes of 2^30 are, Q30.
fn after(standing: &Standing, inside: &Supposed<'_>, weight: u64, belief: &Belief<'_>) -> Masses {
    let mass = |weight: u32, chance: Real| Real::unsigned(u64::from(weight), -30) * chance;
    let others = mass(standing.others, inside.unlisted());
    let mut total = others;
    let mut each = [(0u8, Real::ZERO); ROWS * 2];
    for (slot, left) in each.iter_mut().zip(standing.rows()) {
        let row = belief.image.row(left.row);
        *slot = (left.group, mass(left.weight, inside.chance(&row)));
        total += slot.1;
    }
    let inverse = Real::unsigned(weight, -30) / total;
    let share = |mass: Real| u32::try_from((mass * inverse).to_fixed(30)).unwrap_or(0);
    let mut masses = Masses::NONE;
    for (group, mass) in each {
        masses.add(group, share(mass));
    }
    masses.others = share(others);
    masses
}
