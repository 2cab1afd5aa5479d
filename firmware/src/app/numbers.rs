//! Numbers of a joint that hold for every pipe which an answer leaves open.

use springline_core::image::Image;
use springline_core::numbers::{About, Figures, NoNumbers, SiteTold, at, page};

use super::open::Pipes;

/// Lengths that differ by more than a foot are two answers.
const APART: f64 = 12.0;

impl Pipes {
    /// The numbers of all of them. Of what holds a fitting: of lengths within a foot of each other the longest, of pressures to stay
    /// below the lowest. Nothing where one of them has other numbers.
    #[inline(never)]
    pub(crate) fn numbers(
        &self,
        image: &Image<'_>,
        about: About,
        told: &SiteTold,
    ) -> Option<Result<Figures, NoNumbers>> {
        let mut held: Option<Result<Figures, NoNumbers>> = None;
        for pipe in self.all(image) {
            let new = page(image, &pipe, None, about, told);
            let same = match (&mut held, &new) {
                (None, _) => {
                    held = Some(new);
                    true
                }
                (Some(Ok(old)), Ok(new)) => match about {
                    About::Hold(_) => join(old, new),
                    _ => (0..Figures::MOST).all(|place| old.get(place) == new.get(place)),
                },
                (Some(Err(old)), Err(new)) => old == new,
                _ => false,
            };
            if !same {
                return None;
            }
        }
        held
    }
}

/// Takes over what asks for more; `false` where it is another answer: a hundredth of the thrust, a foot of a side.
fn join(old: &mut Figures, new: &Figures) -> bool {
    let pair = |old: &Figures, place| old.get(place).zip(new.get(place));
    let Some((one, other)) = pair(old, at::THRUST) else {
        return false;
    };
    if one.max(other) - one.min(other) > one * 0.01 {
        return false;
    }
    old.set(at::THRUST, one.max(other));
    if let Some((one, other)) = pair(old, at::UNTIL) {
        old.set(at::UNTIL, one.min(other));
    }
    let Some((one, other)) = pair(old, at::LENGTH) else {
        return false;
    };
    if other > one {
        for place in at::LENGTH..=at::BELLS {
            old.set(place, new.get(place).unwrap_or(f64::NAN));
        }
    }
    one.max(other) - one.min(other) <= APART
}
