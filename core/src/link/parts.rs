//! Parts on a known pipe, what holds them, and cautions, on the wire. Everything is named by its index in the image, whose digest
//! a host knows; the codes of forms, owners, tasks and verdicts are those of the image.

use core::fmt;

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use crate::image::{Image, Set};
use crate::joint::{
    Decides, Doing, Fit, Form, Owner, Pipe, Task, Verdict, fit, is_due, refusal, use_on,
};

/// The most parts on a page.
pub const PARTS_PAGE: usize = 32;
/// The most things on a page that hold a part, must not, or could hurt.
pub const HELD_PAGE: usize = 16;

/// A pipe that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PipeAsked {
    /// Its family, an index.
    pub family: u8,
    /// Its nominal size, an index.
    pub size: u8,
    /// Its class, an index of a label, where it is known.
    pub class: Option<u8>,
    /// How its end looks.
    pub form: Form,
    /// Whose it is.
    pub owner: Owner,
}

/// Why there is nothing to say of a pipe or a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[non_exhaustive]
pub enum NoPipe {
    /// The tables have no such size of that family.
    Size,
    /// They have no such class of that size.
    Class,
    /// That size comes in several diameters: the class would tell.
    Several,
    /// There is no such part.
    Part,
}

impl fmt::Display for NoPipe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Size => "no such size of that family",
            Self::Class => "no such class of that size",
            Self::Several => "that size comes in several diameters",
            Self::Part => "no such part",
        })
    }
}

impl core::error::Error for NoPipe {}

impl PipeAsked {
    /// The pipe.
    ///
    /// # Errors
    ///
    /// A [`NoPipe`] where the tables have none such, or several.
    #[inline(never)]
    pub fn find(&self, image: &Image<'_>) -> Result<Pipe, NoPipe> {
        let mut found = Err(NoPipe::Size);
        for row in image.rows_from(0) {
            if (row.family, row.size) != (self.family, self.size) {
                continue;
            }
            let mut variants = image.variants_of(&row);
            if let Some(label) = self.class {
                variants = Set::default();
                for class in image.classes(&row).filter(|class| class.label == label) {
                    variants = variants.with(class.variant);
                }
            }
            match found {
                _ if variants == Set::default() => found = found.or(Err(NoPipe::Class)),
                // A class is that of the first diameter which has it.
                Ok(_) if self.class.is_some() => {}
                Ok(_) => return Err(NoPipe::Several),
                Err(_) => {
                    found = Ok(Pipe {
                        row,
                        variants,
                        form: self.form,
                    });
                }
            }
        }
        found
    }
}

/// The parts of a pipe are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartsAsked {
    /// The pipe.
    pub pipe: PipeAsked,
    /// What they are to serve, where not all of them are asked for.
    pub task: Option<Task>,
    /// The first part that is asked for, an index.
    pub from: u8,
}

/// What holds a part of a pipe, and what could hurt, is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeldAsked {
    /// The pipe.
    pub pipe: PipeAsked,
    /// The part, an index; else what holds any joint, and the cautions of all parts.
    pub part: Option<u8>,
    /// How many were told before.
    pub from: u8,
}

/// A pipe on the wire; values that nothing has make a request that cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct WirePipe {
    family: u8,
    size: u8,
    class: Option<u8>,
    form: u8,
    owner: u8,
}

/// A request on the wire: the pipe, what of it, and from where on.
pub(super) type WireAsked = (WirePipe, Option<u8>, u8);

impl From<PipeAsked> for WirePipe {
    fn from(pipe: PipeAsked) -> Self {
        let PipeAsked {
            family,
            size,
            class,
            form,
            owner,
        } = pipe;
        Self {
            family,
            size,
            class,
            form: form as u8,
            owner: owner as u8,
        }
    }
}

impl WirePipe {
    fn read(self) -> Option<PipeAsked> {
        Some(PipeAsked {
            family: self.family,
            size: self.size,
            class: self.class,
            form: Form::from_code(self.form)?,
            owner: Owner::from_code(self.owner)?,
        })
    }
}

impl PartsAsked {
    pub(super) fn wire(self) -> WireAsked {
        let task = self.task.map(|task| task as u8);
        (self.pipe.into(), task, self.from)
    }

    pub(super) fn read((pipe, task, from): WireAsked) -> Option<Self> {
        let task = match task {
            Some(code) => Some(Task::from_code(code)?),
            None => None,
        };
        let pipe = pipe.read()?;
        Some(Self { pipe, task, from })
    }
}

impl HeldAsked {
    pub(super) fn wire(self) -> WireAsked {
        (self.pipe.into(), self.part, self.from)
    }

    pub(super) fn read((pipe, part, from): WireAsked) -> Option<Self> {
        let pipe = pipe.read()?;
        Some(Self { pipe, part, from })
    }
}

/// What is said of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartSaid {
    /// The part, an index.
    pub part: u8,
    /// The end of it that goes on the pipe, an index, as it is made up.
    pub end: u8,
    /// That end as the part has it.
    pub own: u8,
    /// It is another pipe's side of the part.
    pub far: bool,
    /// Another class has another verdict or another need.
    pub by_class: bool,
    /// The verdict.
    pub verdict: Verdict,
    /// What decided it.
    pub decides: Decides,
    /// The row of the matrix that speaks of the end: need, reason and grade.
    pub row: u16,
}

/// Bytes of one on the wire.
const SAID: usize = 6;
/// What decides a verdict, by code.
pub(super) const DECIDES: [Decides; 5] = [
    Decides::Matrix,
    Decides::Size,
    Decides::Owner,
    Decides::Crew,
    Decides::Thread,
];

impl From<&Fit> for PartSaid {
    fn from(fit: &Fit) -> Self {
        Self {
            part: fit.part,
            end: fit.end,
            own: fit.own,
            far: fit.far,
            by_class: fit.best.by_class,
            verdict: fit.verdict,
            decides: fit.decides,
            row: fit.best.sealing.row,
        }
    }
}

impl PartSaid {
    /// Part, end, own end, the verdict with what decides it above, the row with both flags above.
    pub(super) fn bytes(self) -> [u8; SAID] {
        let decides = DECIDES.iter().zip(0u8..);
        let decides = decides
            .filter(|(one, _)| **one == self.decides)
            .map(|(_, code)| code);
        let verdict = self.verdict as u8 | decides.last().unwrap_or(0) << 4;
        let flags = u16::from(self.far) << 15 | u16::from(self.by_class) << 14;
        let [low, high] = (self.row & 0x3fff | flags).to_le_bytes();
        [self.part, self.end, self.own, verdict, low, high]
    }

    fn read(bytes: [u8; SAID]) -> Option<Self> {
        let [part, end, own, verdict, low, high] = bytes;
        let row = u16::from_le_bytes([low, high]);
        Some(Self {
            part,
            end,
            own,
            far: row >> 15 == 1,
            by_class: row >> 14 & 1 == 1,
            verdict: Verdict::from_code(verdict & 15)?,
            decides: *DECIDES.get(usize::from(verdict >> 4))?,
            row: row & 0x3fff,
        })
    }
}

/// Something that holds a joint, must not, or could hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// It holds the joint: a restraint, an index.
    Holds(u8),
    /// It must not be used to hold the joint, or not without asking: a restraint, an index.
    Forbidden(u8),
    /// It could hurt somebody: a caution, an index; the worst first.
    Caution(u8),
}

impl Held {
    pub(super) const fn bytes(self) -> [u8; 2] {
        match self {
            Self::Holds(index) => [0, index],
            Self::Forbidden(index) => [1, index],
            Self::Caution(index) => [2, index],
        }
    }

    const fn read(bytes: [u8; 2]) -> Option<Self> {
        Some(match bytes {
            [0, index] => Self::Holds(index),
            [1, index] => Self::Forbidden(index),
            [2, index] => Self::Caution(index),
            _ => return None,
        })
    }
}

/// Records one behind the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Records<'a, const N: usize>(pub(super) &'a [[u8; N]]);

/// Parts, one behind the other.
pub type PartRecords<'a> = Records<'a, SAID>;
/// What holds and what could hurt, one behind the other.
pub type HeldRecords<'a> = Records<'a, 2>;

impl<'a> PartRecords<'a> {
    /// Each part.
    pub fn iter(&self) -> impl Iterator<Item = PartSaid> + use<'a> {
        self.0.iter().filter_map(|bytes| PartSaid::read(*bytes))
    }
}

impl<'a> HeldRecords<'a> {
    /// Each thing.
    pub fn iter(&self) -> impl Iterator<Item = Held> + use<'a> {
        self.0.iter().filter_map(|bytes| Held::read(*bytes))
    }
}

/// Bytes as whole records.
fn records<'de: 'a, 'a, D: Deserializer<'de>, const N: usize>(
    from: D,
    good: impl Fn([u8; N]) -> bool,
    most: usize,
) -> Result<Records<'a, N>, D::Error> {
    let bytes = <&'de [u8]>::deserialize(from)?;
    match bytes.as_chunks() {
        (all, []) if all.len() <= most && all.iter().all(|one| good(*one)) => Ok(Records(all)),
        _ => Err(D::Error::custom("records that mean nothing")),
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for PartRecords<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        records(from, |one| PartSaid::read(one).is_some(), PARTS_PAGE)
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for HeldRecords<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        records(from, |one| Held::read(one).is_some(), HELD_PAGE)
    }
}

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
