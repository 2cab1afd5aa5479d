//! The pipes that an answer leaves open, and what is the same on all of them: nothing else is said of parts.

mod said;
#[cfg(test)]
mod tests;

use heapless::Vec;
use springline_core::identify::{Candidate, Outcome, Weight};
use springline_core::image::{Image, Listing, Row};
use springline_core::joint::{
    self, Doing, Fit, Form, Owner, Sealing, Stock, Task, Use, Verdict, refusal, use_on,
};

use super::pipe::Pipe;
#[cfg(test)]
pub(crate) use said::LISTED;
pub(crate) use said::{List, Said};

/// So many pipes are asked about parts; where more are left the answer says too little.
const MOST: usize = 4;

/// What may be said of parts.
pub(crate) enum Open {
    /// Nothing: it is a stop.
    Stop,
    /// Nothing: nothing is put on such pipe.
    Refused(Sealing),
    /// Nothing yet: too much is left, or one pipe of it is none that anything is put on.
    TooMany,
    /// What is the same on all of these.
    Pipes(Pipes),
}

/// A few pipes, by their rows of the tables.
pub(crate) struct Pipes(Vec<u16, MOST>);

/// A part on all of them.
#[derive(Clone, Copy)]
pub(crate) struct Shared {
    /// On the first of them.
    pub(crate) fit: Fit,
    /// The verdict is the same on all; where it goes on, end and need, too.
    pub(crate) known: bool,
    /// The reason is, too.
    pub(crate) reasoned: bool,
    /// On some class of one of them it is otherwise.
    pub(crate) by_class: bool,
    /// What it does to any of them.
    pub(crate) doing: Doing,
}

/// Purchases of an answer, that of the likeliest row first.
pub(crate) fn groups(pipe: &Pipe) -> impl Iterator<Item = u16> {
    let bought = &pipe.bought;
    bought.iter().enumerate().filter_map(|(at, purchase)| {
        let before = bought.get(..at).unwrap_or(&[]);
        (!before.contains(purchase)).then_some(*purchase)
    })
}

/// The candidates of a purchase.
fn members(pipe: &Pipe, group: u16) -> impl Iterator<Item = &Candidate> {
    let all = pipe.answer.candidates().iter().zip(&pipe.bought);
    all.filter(move |(_, bought)| **bought == group)
        .map(|(candidate, _)| candidate)
}

/// Whether a purchase counts as one of several.
pub(crate) fn counts(image: &Image<'_>, pipe: &Pipe, group: u16) -> bool {
    let share = members(pipe, group).fold(Weight::ZERO, |sum, one| sum.plus(one.weight));
    share.q30() >= image.settings().counted >> 2
}

/// The rows of a purchase that are named: the first, and those that count.
pub(crate) fn rows<'a>(
    image: &'a Image<'_>,
    pipe: &'a Pipe,
    group: u16,
) -> impl Iterator<Item = Row> + 'a {
    let counted = image.settings().counted >> 2;
    members(pipe, group)
        .enumerate()
        .filter(move |(at, candidate)| *at == 0 || candidate.weight.q30() >= counted)
        .map(|(_, candidate)| image.row(candidate.row))
}

/// Whether one purchase leads so that it is named alone.
pub(crate) fn is_single(pipe: &Pipe) -> bool {
    match pipe.answer.outcome {
        Outcome::Settled => true,
        Outcome::Split => pipe.answer.likely,
        Outcome::Outside => false,
    }
}

impl Open {
    /// What an answer leaves open: of a purchase that leads its rows, else those of every purchase that counts.
    pub(crate) fn of(image: &Image<'_>, pipe: &Pipe) -> Self {
        let answer = &pipe.answer;
        if answer.stop.cement || answer.stop.gas {
            return Self::Stop;
        }
        if answer.outcome == Outcome::Outside {
            return Self::TooMany;
        }
        let single = is_single(pipe);
        // What is no bare barrel, or in no table, takes parts that nobody knows.
        let counted = image.settings().counted >> 2;
        if !single && (answer.counted < 2 || answer.outside.q30() >= counted) {
            return Self::TooMany;
        }
        let mut pipes = Vec::new();
        let bought = &pipe.bought;
        for (at, (candidate, group)) in answer.candidates().iter().zip(bought).enumerate() {
            let before = bought.get(..at).unwrap_or(&[]);
            let leads = !before.contains(group);
            let asked = if single {
                bought.first() == Some(group)
            } else {
                counts(image, pipe, *group)
            };
            if !asked || !leads && candidate.weight.q30() < counted {
                continue;
            }
            if pipes.push(candidate.row).is_err() {
                return Self::TooMany;
            }
        }
        let pipes = Pipes(pipes);
        let (mut refused, mut takes) = (None, false);
        for pipe in pipes.all(image) {
            match refusal(image, &pipe) {
                None => takes = true,
                sealing => refused = sealing,
            }
        }
        match (refused, takes) {
            (None, true) => Self::Pipes(pipes),
            (Some(sealing), false) => Self::Refused(sealing),
            _ => Self::TooMany,
        }
    }
}

impl Pipes {
    /// Each, cut square.
    pub(crate) fn all(&self, image: &Image<'_>) -> impl Iterator<Item = joint::Pipe> {
        self.0.iter().map(|row| square(image, *row))
    }

    /// The rows of the tables.
    pub(crate) fn rows(&self) -> &[u16] {
        &self.0
    }

    /// A part on all of them.
    #[inline(never)]
    pub(crate) fn part(&self, image: &Image<'_>, part: u8, owner: Owner) -> Option<Shared> {
        let mut shared: Option<Shared> = None;
        for pipe in self.all(image) {
            let Some(fit) = joint::fit(image, &pipe, part, owner) else {
                continue;
            };
            let doing = Doing::of(image, &fit);
            let Some(held) = &mut shared else {
                shared = Some(Shared {
                    fit,
                    known: true,
                    reasoned: true,
                    by_class: fit.best.by_class,
                    doing,
                });
                continue;
            };
            held.known &= is_same(&held.fit, &fit);
            held.reasoned &= held.fit.decides == fit.decides
                && held.fit.end == fit.end
                && held.fit.best.sealing.reason == fit.best.sealing.reason;
            held.by_class |= fit.best.by_class;
            held.doing = held.doing.or(doing);
        }
        shared
    }

    /// What all parts together do to any of them.
    pub(crate) fn doing(&self, image: &Image<'_>, owner: Owner) -> Doing {
        let mut doing = Doing::default();
        let mut part = 0;
        while let Some(shared) = self.part(image, part, owner) {
            doing = doing.or(shared.doing);
            part += 1;
        }
        doing
    }

    /// What holds the joint of an end on all of them, and nothing in place of what holds it on some of them only; of no end in
    /// particular what holds any.
    pub(crate) fn holders(
        &self,
        image: &Image<'_>,
        end: Option<u8>,
        take: &mut dyn FnMut(Option<Listing>),
    ) {
        for one in image.restraints() {
            let uses = self.uses(image, &one, end);
            match uses.filter(|used| used.holds()).count() {
                0 => {}
                some => take((some == self.0.len()).then_some(one)),
            }
        }
    }

    /// What a restraint is for on each of them that it has to do with.
    fn uses(&self, image: &Image<'_>, one: &Listing, end: Option<u8>) -> impl Iterator<Item = Use> {
        let all = self.all(image);
        all.filter_map(move |pipe| use_on(image, one, &pipe.row, pipe.variants, end))
    }

    /// What must not be used to hold the joint of an end on any of them, or not without asking.
    pub(crate) fn forbidden(&self, image: &Image<'_>, end: u8) -> impl Iterator<Item = Listing> {
        image
            .restraints()
            .filter(move |one| self.uses(image, one, Some(end)).any(|used| !used.holds()))
    }

    /// The parts that serve a task, those that go on best and are got soonest first.
    pub(crate) fn listed(&self, image: &Image<'_>, task: Task, owner: Owner) -> List {
        let mut list = List::new();
        for (index, part) in (0u8..).zip(image.parts()) {
            if part.tasks >> (task as u8) & 1 == 0 {
                continue;
            }
            let Some(shared) = self.part(image, index, owner) else {
                continue;
            };
            if shared.fit.does(image, task) {
                list.put(index, self.rank(image, index, &shared));
            }
        }
        list
    }

    fn rank(&self, image: &Image<'_>, part: u8, shared: &Shared) -> u8 {
        let stock = match self.stock(image, part) {
            Some(stock) if shared.fit.verdict <= Verdict::FitsWith => stock as u8,
            _ => 0,
        };
        Said::of(shared) as u8 * 4 + stock
    }

    /// How a part is got in the size of the first of them.
    pub(crate) fn stock(&self, image: &Image<'_>, part: u8) -> Option<Stock> {
        let row = image.row(*self.0.first()?);
        Some(joint::stock(image, &image.part(part), row.size))
    }
}

/// The pipe of a row, cut square.
#[inline(never)]
fn square(image: &Image<'_>, row: u16) -> joint::Pipe {
    let row = image.row(row);
    joint::Pipe {
        row,
        variants: image.variants_of(&row),
        form: Form::PlainSquare,
    }
}

/// Whether the same is said of a part. Of what does not go on nothing is bought, and of what is asked about nothing yet.
fn is_same(one: &Fit, other: &Fit) -> bool {
    one.verdict == other.verdict
        && match one.verdict {
            Verdict::No => true,
            Verdict::Refer => one.decides == other.decides,
            _ => {
                one.end == other.end
                    && one.own == other.own
                    && one.best.sealing.need == other.best.sealing.need
            }
        }
}
