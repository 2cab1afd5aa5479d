//! What a device must say of parts, put together from the core's own lists, and pages asked for one behind the other.

use springline_core::image::Image;
use springline_core::joint::{
    Doing, Form, Owner, Pipe, Task, cautions, fit, fits, forbidden, holders, refusal, restraints,
};
use springline_core::link::{
    Held, HeldAsked, NoPipe, PartSaid, PartsAsked, PipeAsked, Request, Response,
};

use crate::handheld::Handheld;

/// The parts of a pipe: the row that refuses it, and what is said of each.
pub type Parts = (Option<u16>, Vec<PartSaid>);

/// Every row of the tables that a family, a size and, where that is not enough, a class names; every third of them with a class,
/// all in turn in each form and for each owner.
#[must_use]
pub fn pipes(image: &Image<'_>) -> Vec<(PipeAsked, Pipe)> {
    let mut all = Vec::new();
    for (at, row) in image.rows_from(0).enumerate() {
        let alike = image
            .rows_from(0)
            .filter(|other| (other.family, other.size) == (row.family, row.size));
        let alone = alike.count() == 1;
        let mut classes = image.classes(&row);
        let class = if alone && at % 3 > 0 {
            None
        } else {
            classes.next()
        };
        if !alone && class.is_none() {
            continue;
        }
        let form = Form::ALL[at % Form::ALL.len()];
        let asked = PipeAsked {
            family: row.family,
            size: row.size,
            class: class.map(|class| class.label),
            form,
            owner: Owner::ALL[at / 2 % Owner::ALL.len()],
        };
        let of = |label: u8| {
            let named = image
                .classes(&row)
                .filter(move |class| class.label == label);
            named.fold(springline_core::image::Set::default(), |set, class| {
                set.with(class.variant)
            })
        };
        let variants = asked.class.map_or_else(|| image.variants_of(&row), of);
        // A class that another diameter of the size has, too, is that of the first.
        let first = image.rows_from(0).find(|other| {
            let mut classes = image.classes(other);
            (other.family, other.size) == (row.family, row.size)
                && asked
                    .class
                    .is_none_or(|label| classes.any(|class| class.label == label))
        });
        if first == Some(row) {
            all.push((
                asked,
                Pipe {
                    row,
                    variants,
                    form,
                },
            ));
        }
    }
    all
}

/// What is to be said of the parts of a pipe.
#[must_use]
pub fn parts(image: &Image<'_>, asked: PipeAsked, pipe: &Pipe, task: Option<Task>) -> Parts {
    if let Some(sealing) = refusal(image, pipe) {
        return (Some(sealing.row), Vec::new());
    }
    let serves = |fit: &springline_core::joint::Fit| {
        let tasks = image.part(fit.part).tasks;
        task.is_none_or(|task| tasks >> task as u8 & 1 == 1 && (!fit.far || task == Task::Join))
    };
    let all = fits(image, pipe, asked.owner).filter(serves);
    (None, all.map(|fit| PartSaid::from(&fit)).collect())
}

/// What is to be said of what holds a part, or any joint, and of cautions.
///
/// # Panics
///
/// When there is no such part.
#[must_use]
pub fn held(image: &Image<'_>, asked: PipeAsked, pipe: &Pipe, part: Option<u8>) -> Vec<Held> {
    let Pipe { row, variants, .. } = *pipe;
    let mut held = Vec::new();
    let mut doing = Doing::default();
    let refused = refusal(image, pipe).is_some();
    let on = part.map(|part| fit(image, pipe, part, asked.owner).expect("a part"));
    if let Some(fit) = on.filter(|_| !refused) {
        doing = Doing::of(image, &fit);
        if fit.wants_holding(image) {
            let holds = holders(image, row, variants, fit.end).map(|(at, _)| (at, true));
            let never = forbidden(image, row, variants, fit.end).map(|(at, _)| (at, false));
            let mut all: Vec<(u8, bool)> = holds.chain(never).collect();
            all.sort_unstable();
            held.extend(all.into_iter().map(|(at, holds)| {
                if holds {
                    Held::Holds(at)
                } else {
                    Held::Forbidden(at)
                }
            }));
        }
    } else if part.is_none() && !refused {
        held.extend(restraints(image, row, variants).map(|(at, _)| Held::Holds(at)));
        let all = fits(image, pipe, asked.owner);
        doing = all.fold(doing, |held, fit| held.or(Doing::of(image, &fit)));
    }
    let rows = core::iter::once(row);
    let due = cautions(image, rows, asked.owner, doing);
    held.extend(due.map(|(at, _)| Held::Caution(at)));
    held
}

/// Someone who answers requests.
pub trait Answers {
    /// Asks, and hands on what is said.
    fn ask<T>(&mut self, request: &Request, take: impl FnOnce(Response<'_>) -> T) -> T;
}

impl Answers for Handheld {
    fn ask<T>(&mut self, request: &Request, take: impl FnOnce(Response<'_>) -> T) -> T {
        Self::ask(self, request, take)
    }
}

/// All pages of the parts of a pipe.
///
/// # Errors
///
/// What is said in place of a page.
///
/// # Panics
///
/// When something else is said, or a page that does not lead on.
pub fn ask_parts(
    device: &mut impl Answers,
    pipe: PipeAsked,
    task: Option<Task>,
) -> Result<Parts, NoPipe> {
    let mut all = (None, Vec::new());
    let mut from = 0;
    loop {
        let asked = Request::Parts(PartsAsked { pipe, task, from });
        let next = device.ask(&asked, |said| {
            let Response::Parts(said) = said else {
                panic!("{said:?}")
            };
            let said = said?;
            all.0 = said.refused;
            all.1.extend(said.parts.iter());
            Ok(said.next)
        })?;
        match next {
            None => return Ok(all),
            Some(next) => {
                assert!(next > from, "{next} after {from}");
                from = next;
            }
        }
    }
}

/// All pages of what holds a part and of cautions.
///
/// # Errors
///
/// What is said in place of a page.
///
/// # Panics
///
/// When something else is said, or a page that does not lead on.
pub fn ask_held(
    device: &mut impl Answers,
    pipe: PipeAsked,
    part: Option<u8>,
) -> Result<Vec<Held>, NoPipe> {
    let mut all = Vec::new();
    let mut from = 0;
    loop {
        let asked = Request::Held(HeldAsked { pipe, part, from });
        let next = device.ask(&asked, |said| {
            let Response::Held(said) = said else {
                panic!("{said:?}")
            };
            let said = said?;
            all.extend(said.held.iter());
            Ok(said.next)
        })?;
        match next {
            None => return Ok(all),
            Some(next) => {
                assert!(next > from, "{next} after {from}");
                from = next;
            }
        }
    }
}
