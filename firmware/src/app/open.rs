//! The pipes that an answer leaves open, and what is the same on all of them: nothing else is said of parts.

#[cfg(test)]
mod tests;

use heapless::Vec;
use springline_core::identify::{Candidate, Outcome, Weight};
use springline_core::image::{Image, Listing, Part, Row};
use springline_core::joint::{
    self, Doing, Fit, Form, Owner, Sealing, Stock, Task, Verdict, forbidden, holders, refusal,
    restraints,
};

use super::pipe::Pipe;

/// So many pipes are asked about parts; where more are left the answer says too little.
const MOST: usize = 4;
/// So many parts serve a task.
pub(crate) const LISTED: usize = 96;

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

/// A few pipes, each cut square.
pub(crate) struct Pipes(Vec<joint::Pipe, MOST>);

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
        let asked = groups(pipe).enumerate().filter(|(at, group)| {
            if single {
                *at == 0
            } else {
                counts(image, pipe, *group)
            }
        });
        for row in asked.flat_map(|(_, group)| rows(image, pipe, group)) {
            let one = joint::Pipe {
                row,
                variants: image.variants_of(&row),
                form: Form::PlainSquare,
            };
            if pipes.push(one).is_err() {
                return Self::TooMany;
            }
        }
        let mut refused = pipes.iter().filter_map(|pipe| refusal(image, pipe));
        match refused.next() {
            Some(sealing) if refused.count() + 1 == pipes.len() => Self::Refused(sealing),
            Some(_) => Self::TooMany,
            None if pipes.is_empty() => Self::TooMany,
            None => Self::Pipes(Pipes(pipes)),
        }
    }
}

impl Pipes {
    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    /// The rows of the tables.
    pub(crate) fn rows(&self) -> impl Iterator<Item = Row> + Clone {
        self.0.iter().map(|pipe| pipe.row)
    }

    /// A part on all of them.
    pub(crate) fn part(&self, image: &Image<'_>, part: u8, owner: Owner) -> Option<Shared> {
        let mut all = self
            .0
            .iter()
            .filter_map(|pipe| joint::fit(image, pipe, part, owner));
        let fit = all.next()?;
        // Of what does not go on nothing is bought, and of what is asked about nothing yet.
        let said = |fit: &Fit| match fit.verdict {
            Verdict::No => (fit.verdict, None, None),
            Verdict::Refer => (fit.verdict, Some(fit.decides), None),
            _ => (
                fit.verdict,
                Some(fit.decides),
                Some((fit.end, fit.own, fit.best.sealing.need)),
            ),
        };
        let why = |fit: &Fit| (fit.decides, fit.end, fit.best.sealing.reason);
        let first = Shared {
            fit,
            known: true,
            reasoned: true,
            by_class: fit.best.by_class,
            doing: Doing::of(image, &fit),
        };
        Some(all.fold(first, |held, one| Shared {
            fit,
            known: held.known && said(&one) == said(&fit),
            reasoned: held.reasoned && why(&one) == why(&fit),
            by_class: held.by_class || one.best.by_class,
            doing: held.doing.or(Doing::of(image, &one)),
        }))
    }

    /// What all parts together do to any of them.
    pub(crate) fn doing(&self, image: &Image<'_>, owner: Owner) -> Doing {
        let all = (0u8..).take(image.parts().len());
        let all = all.filter_map(|part| self.part(image, part, owner));
        all.fold(Doing::default(), |held, one| held.or(one.doing))
    }

    /// What holds the joint of an end on all of them; of no end in particular what holds any.
    pub(crate) fn holders(
        &self,
        image: &Image<'_>,
        end: Option<u8>,
        mut take: impl FnMut(Option<Listing>),
    ) {
        let count = u8::try_from(image.restraints().len()).unwrap_or(u8::MAX);
        for at in 0..count {
            let holding = self.0.iter().filter(|pipe| match end {
                Some(end) => {
                    holders(image, pipe.row, pipe.variants, end).any(|(held, _)| held == at)
                }
                None => restraints(image, pipe.row, pipe.variants).any(|(held, _)| held == at),
            });
            match holding.count() {
                0 => {}
                some if some == self.count() => {
                    take(image.restraints().nth(usize::from(at)));
                }
                // Some of them only: it is not known yet.
                _ => take(None),
            }
        }
    }

    /// What must not be used to hold the joint of an end on any of them, or not without asking.
    pub(crate) fn forbidden(&self, image: &Image<'_>, end: u8, mut take: impl FnMut(Listing)) {
        for (at, pipe) in self.0.iter().enumerate() {
            for (index, listing) in forbidden(image, pipe.row, pipe.variants, end) {
                let before = self.0.get(..at).unwrap_or(&[]);
                let told = before.iter().any(|pipe| {
                    forbidden(image, pipe.row, pipe.variants, end).any(|(held, _)| held == index)
                });
                if !told {
                    take(listing);
                }
            }
        }
    }

    /// The parts that serve a task, those that go on best and are got soonest first.
    pub(crate) fn listed(&self, image: &Image<'_>, task: Task, owner: Owner) -> List {
        let mut list = List(Vec::new());
        for (index, part) in (0u8..).zip(image.parts()) {
            if part.tasks >> (task as u8) & 1 == 0 {
                continue;
            }
            let Some(shared) = self.part(image, index, owner) else {
                continue;
            };
            if shared.fit.does(image, task) {
                list.put(index, self.rank(image, &part, &shared));
            }
        }
        list
    }

    fn rank(&self, image: &Image<'_>, part: &Part, shared: &Shared) -> u8 {
        let size = self.0.first().map_or(0, |pipe| pipe.row.size);
        let stock = match joint::stock(image, part, size) {
            _ if shared.fit.verdict > Verdict::FitsWith => 0,
            stock => stock as u8,
        };
        Said::of(shared) as u8 * 4 + stock
    }

    /// How a part is got in the size of the first of them.
    pub(crate) fn stock(&self, image: &Image<'_>, part: u8) -> Option<Stock> {
        let first = self.0.first()?;
        Some(joint::stock(image, &image.part(part), first.row.size))
    }
}

/// What is said of a part in a word, the best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd)]
pub(crate) enum Said {
    Fits,
    FitsWith,
    Needs,
    AskOwner,
    Ask,
    NotKnown,
    WontSeal,
}

impl Said {
    /// Of a part.
    pub(crate) fn of(shared: &Shared) -> Self {
        if !shared.known {
            return Self::NotKnown;
        }
        match shared.fit.verdict {
            Verdict::Fits => Self::Fits,
            Verdict::FitsWith => Self::FitsWith,
            Verdict::Adapter => Self::Needs,
            Verdict::Refer if shared.fit.decides == joint::Decides::Owner => Self::AskOwner,
            Verdict::Refer => Self::Ask,
            Verdict::No => Self::WontSeal,
        }
    }

    /// The word.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Fits => "FITS",
            Self::FitsWith => "FITS WITH",
            Self::Needs => "NEEDS",
            Self::AskOwner => "ASK OWNER",
            Self::Ask => "ASK",
            Self::NotKnown => "NOT KNOWN YET",
            Self::WontSeal => "WON'T SEAL",
        }
    }
}

/// Parts in the order in which they are shown, each with its rank.
pub(crate) struct List(Vec<(u8, u8), LISTED>);

impl List {
    /// Puts a part behind those that are not worse. There are few, and a sort would cost more flash.
    fn put(&mut self, part: u8, rank: u8) {
        let mut at = self.0.len();
        if self.0.push((part, rank)).is_err() {
            return;
        }
        while let Some(before) = at.checked_sub(1)
            && self.0.get(before).is_some_and(|(_, held)| *held > rank)
        {
            self.0.swap(before, at);
            at = before;
        }
    }

    /// How many there are.
    pub(crate) fn len(&self) -> u8 {
        u8::try_from(self.0.len()).unwrap_or(u8::MAX)
    }

    /// The parts.
    pub(crate) fn parts(&self) -> impl Iterator<Item = u8> {
        self.0.iter().map(|(part, _)| *part)
    }
}
