//! Parts on a known pipe, what holds them, and cautions, on the wire. Everything is named by its index in the image, whose digest
//! a host knows; the codes of forms, owners, tasks and verdicts are those of the image.

mod asked;
mod records;

use serde::Deserialize;

pub(super) use asked::WireAsked;
pub use asked::{HeldAsked, NoPipe, PartsAsked, PipeAsked};
#[cfg(test)]
pub(super) use records::DECIDES;
use records::SAID;
pub use records::{FigureRecords, Held, HeldRecords, PartRecords, PartSaid, Records};

use crate::image::Image;
use crate::joint::{Doing, Pipe, fit, is_due, refusal, use_on};

/// The most parts on a page.
pub const PARTS_PAGE: usize = 32;
/// The most things on a page that hold a part, must not, or could hurt.
pub const HELD_PAGE: usize = 16;

/// Where a page is written.
pub struct Room {
    parts: [[u8; SAID]; PARTS_PAGE],
    held: [[u8; 2]; HELD_PAGE],
}

impl Room {
    /// An empty one.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            parts: [[0; SAID]; PARTS_PAGE],
            held: [[0; 2]; HELD_PAGE],
        }
    }

    /// Bytes for a page of figures.
    pub(super) const fn bytes(&mut self) -> &mut [u8] {
        self.parts.as_flattened_mut()
    }
}

impl Default for Room {
    fn default() -> Self {
        Self::new()
    }
}

/// A page of the parts on a pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub struct PartsSaid<'a> {
    /// Nothing is put on it: the row of the matrix that says so. There are no parts then.
    pub refused: Option<u16>,
    /// The parts, in the order of the image.
    #[serde(borrow)]
    pub parts: PartRecords<'a>,
    /// Where the next page begins, if there is one.
    pub next: Option<u8>,
}

/// A page on the wire.
pub(super) type WirePage<'a> = (Option<u16>, &'a [u8], Option<u8>);

impl<'a> PartsSaid<'a> {
    pub(super) fn wire(&self) -> WirePage<'a> {
        (self.refused, self.parts.0.as_flattened(), self.next)
    }

    /// The page that is asked for.
    ///
    /// # Errors
    ///
    /// A [`NoPipe`] where the tables have none such, or several.
    #[inline]
    pub fn of(image: &Image<'_>, asked: &PartsAsked, room: &'a mut Room) -> Result<Self, NoPipe> {
        let pipe = asked.pipe.find(image)?;
        if let Some(sealing) = refusal(image, &pipe) {
            return Ok(Self {
                refused: Some(sealing.row),
                parts: Records(&[]),
                next: None,
            });
        }
        let (mut count, mut next, mut part) = (0, None, asked.from);
        while let Some(fit) = fit(image, &pipe, part, asked.pipe.owner) {
            if asked.task.is_none_or(|task| fit.does(image, task)) {
                let Some(room) = room.parts.get_mut(count) else {
                    next = Some(part);
                    break;
                };
                *room = PartSaid::from(&fit).bytes();
                count += 1;
            }
            part = part.saturating_add(1);
        }
        Ok(Self {
            refused: None,
            parts: Records(room.parts.get(..count).unwrap_or(&[])),
            next,
        })
    }
}

/// A page of what holds a part, and of cautions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub struct HeldSaid<'a> {
    /// Nothing is put on it: the row of the matrix that says so. There are cautions alone then.
    pub refused: Option<u16>,
    /// What holds and what must not, in the order of the image, then cautions.
    #[serde(borrow)]
    pub held: HeldRecords<'a>,
    /// How many will have been told, if there are more.
    pub next: Option<u8>,
}

impl<'a> HeldSaid<'a> {
    pub(super) fn wire(&self) -> WirePage<'a> {
        (self.refused, self.held.0.as_flattened(), self.next)
    }

    /// The page that is asked for. Of pipe that nothing is put on there are cautions alone.
    ///
    /// # Errors
    ///
    /// A [`NoPipe`] where the tables have none such, several, or no such part.
    #[inline]
    pub fn of(image: &Image<'_>, asked: &HeldAsked, room: &'a mut Room) -> Result<Self, NoPipe> {
        let pipe = asked.pipe.find(image)?;
        let owner = asked.pipe.owner;
        let mut page = Page {
            room: &mut room.held,
            from: usize::from(asked.from),
            at: 0,
        };
        let Pipe { row, variants, .. } = pipe;
        let refused = refusal(image, &pipe);
        let mut doing = Doing::default();
        let mut end = None;
        if let Some(part) = asked.part {
            let fit = fit(image, &pipe, part, owner).ok_or(NoPipe::Part)?;
            doing = Doing::of(image, &fit);
            end = fit.wants_holding(image).then_some(fit.end);
        } else {
            let mut part = 0;
            while let Some(fit) = fit(image, &pipe, part, owner) {
                doing = doing.or(Doing::of(image, &fit));
                part += 1;
            }
        }
        if refused.is_some() {
            doing = Doing::default();
        }
        // Of a part whose joint wants no holding nothing is told, nor of pipe that nothing is put on.
        if refused.is_none() && (asked.part.is_none() || end.is_some()) {
            for (index, one) in (0u8..).zip(image.restraints()) {
                match use_on(image, &one, &row, variants, end) {
                    Some(used) if used.holds() => page.put(Held::Holds(index)),
                    Some(_) => page.put(Held::Forbidden(index)),
                    None => {}
                }
            }
        }
        for (index, one) in (0u8..).zip(image.cautions()) {
            if is_due(image, one, &row, owner, doing) {
                page.put(Held::Caution(index));
            }
        }
        let Page { from, at, .. } = page;
        let told = at.saturating_sub(from).min(HELD_PAGE);
        Ok(Self {
            refused: refused.map(|sealing| sealing.row),
            held: Records(room.held.get(..told).unwrap_or(&[])),
            next: u8::try_from(from + told).ok().filter(|_| at > from + told),
        })
    }
}

/// A page while it is filled.
struct Page<'r> {
    room: &'r mut [[u8; 2]; HELD_PAGE],
    /// How many are left out before it.
    from: usize,
    /// How many there were.
    at: usize,
}

impl Page<'_> {
    #[inline(never)]
    fn put(&mut self, one: Held) {
        let place = self.at.checked_sub(self.from);
        if let Some(room) = place.and_then(|place| self.room.get_mut(place)) {
            *room = one.bytes();
        }
        self.at += 1;
    }
}
