//! From readings to a set of pipes with weights.
//!
//! Readings become sights of the diameter (`sight`). A window of rows is found by search in the sorted table, and only those
//! rows are weighed (`plan`): by `single` for one reading, by `balanced` where size and shape part cleanly, by `general`
//! otherwise. What is in no table is weighed by `outside` and competes with the rows. See `DEVELOPERS.md` for the model.

mod answer;
mod apart;
mod balanced;
mod band;
mod belief;
mod classes;
mod evidence;
mod general;
mod outside;
mod plan;
mod priors;
mod propose;
mod ranking;
mod sight;
mod sights;
mod single;

pub use answer::{Answer, Candidate, Hazards, MAX_CANDIDATES, OutOfRound, Outcome, Weight};

pub use classes::{classes, variants_left};
pub use propose::{Cannot, Check, Proposal, Trench, propose};

use answer::share;
use apart::Apart;
use balanced::Balanced;
use belief::Belief;
use plan::{Plan, Weighed};
use ranking::{Groups, Ranking};
use sight::{Sight, View};
use sights::Sights;

use crate::fixed::Real;
use crate::image::{Carries, ClueAnswer, Image, Material};
use crate::joint::Job;
use crate::length::Length;
use crate::print::Contents;
use crate::reading::{Query, ReadingError};

/// Says what pipe the readings may be of.
///
/// # Errors
///
/// A [`ReadingError`] when there is no reading, or one that no pipe can give.
pub fn identify(image: &Image<'_>, query: &Query) -> Result<Answer, ReadingError> {
    let mut sights = Sights::new();
    sights.read(image, query)?;
    let mut belief = Belief::new(image, query);
    let disagreement = disagree(&sights);
    let (round, short) = (
        out_of_round(&sights),
        sights.iter().any(Sight::is_of_short_jaws),
    );
    let apart = sights.are_apart();
    // Readings at odds are compared with misreadings, for which only full densities will do.
    let balanced = if apart || disagreement || sights.len() == 1 {
        None
    } else {
        Balanced::of(&sights)
    };
    if balanced.is_none() && !disagreement && sights.len() > 1 {
        sights.merge();
    }
    let plan = if apart {
        Plan::Apart(Apart::of(&mut belief, &sights))
    } else {
        Plan::of(&sights, balanced)
    };
    let mut weighed = Weighed {
        ranking: Ranking::new(),
        outside: Real::ZERO,
    };
    weighed.outside = plan.weigh(&belief, &mut weighed.ranking);
    if disagreement && apart {
        // What only fits when part of a place is thrown away is to be read again, whatever the other place says.
        weighed.ranking = Ranking::new();
    } else if disagreement {
        weighed.outside += misread(&belief, &sights);
    }
    // Filled in place: an answer is large, and as a returned value it would be copied on its way.
    let mut answer = Answer::new();
    conclude(&belief, query.job, &weighed, &mut answer);
    hazards(&belief, query, &mut answer);
    if belief.is_told() {
        answer.contradiction = evidence::contradiction(&belief, &query.clues, &weighed);
    }
    (answer.od, answer.sigma) = plan.size();
    (answer.out_of_round, answer.short_jaws) = (round, short);
    answer.disagreement = disagreement;
    Ok(answer)
}

/// Whether two readings differ by more than instruments and any shape of pipe are likely to explain.
fn disagree(sights: &Sights) -> bool {
    sights.iter().enumerate().any(|(index, a)| {
        let same_place = |b: &&Sight| b.along == a.along;
        sights.iter().skip(index + 1).filter(same_place).any(|b| {
            let apart = (i64::from(a.value) - i64::from(b.value)).abs();
            let noise = (a.variance(a.value) + b.variance(b.value))
                .isqrt()
                .cast_signed();
            let round = a.view == View::Round && b.view == View::Round;
            // Two per cent is an ordinary squash of one diameter; two of them lie twice that apart.
            let shape = if round { 0 } else { i64::from(a.value) / 16 };
            apart > 4 * noise + shape
        })
    })
}

/// The mass of one of several readings being misread while the others are of one pipe.
fn misread(belief: &Belief<'_>, sights: &Sights) -> Real {
    let mut sum = Real::ZERO;
    for (index, wrong) in sights.iter().enumerate() {
        let mut others = sights.without(index);
        others.merge();
        let plan = match others.iter().next() {
            Some(only) if others.len() == 1 => Plan::Single(only),
            Some(_) => Plan::General(&others),
            None => continue,
        };
        let mut ranking = Ranking::new();
        let unlisted = plan.weigh(belief, &mut ranking);
        sum += share(belief.settings.misread_share)
            * outside::log_uniform(belief, i64::from(wrong.value))
            * (ranking.total() + unlisted);
    }
    sum
}

/// The difference of two diameters that cross, and its share of their mean.
fn oval(least: i64, most: i64) -> OutOfRound {
    OutOfRound {
        spread: length(most - least),
        share: u32::try_from(((most - least) << 17) / (most + least).max(1)).unwrap_or(0),
    }
}

/// How oval the pipe is, from diameters a right angle apart.
fn out_of_round(sights: &Sights) -> Option<OutOfRound> {
    if let Some((first, second)) = sights.pair() {
        let (first, second) = (i64::from(first), i64::from(second));
        return Some(oval(first.min(second), first.max(second)));
    }
    let clocks = || {
        sights.iter().filter_map(|sight| match sight.view {
            View::Clock(clock) => Some((clock.loading(), i64::from(sight.value))),
            _ => None,
        })
    };
    let crossed = clocks()
        .any(|((u, _), _)| clocks().any(|((other, _), _)| i64::from(u) * i64::from(other) < 0));
    let (least, most) = (
        clocks().map(|(_, value)| value).min()?,
        clocks().map(|(_, value)| value).max()?,
    );
    crossed.then(|| oval(least, most))
}

fn length(counts: i64) -> Length {
    Length::from_counts(i32::try_from(counts).unwrap_or(i32::MAX))
}

/// Weights from masses. Every threshold is held against the sum of the rest, never against one minus a rounded weight.
fn conclude(belief: &Belief<'_>, job: Job, weighed: &Weighed, answer: &mut Answer) {
    let settings = belief.settings;
    let Weighed { ranking, outside } = weighed;
    let total = weighed.total();
    if total.is_zero() {
        return;
    }
    let inverse = Real::ONE / total;
    let shown = Weight::share(settings.shown);
    let purchases = belief.image.purchases(job);
    let mut groups = Groups::new(Weight::of(ranking.rest(), inverse));
    for (ranked, weight) in ranking.shares(inverse) {
        groups.add(ranked, weight, || purchases.of(ranked.row));
        if weight >= shown {
            let row = ranked.row;
            answer.list(Candidate { row, weight });
        }
    }
    answer.outside = Weight::of(*outside, inverse);
    let masses = ranking.hazards();
    answer.hazards = Hazards {
        cement: Weight::of(masses.cement, inverse),
        gas: Weight::of(masses.gas, inverse),
    };
    let (best, rest) = groups.best_and_rest();
    answer.likely = best >= Weight::share(settings.likely);
    answer.outcome = if answer.outside >= Weight::share(settings.outside_at_least) {
        Outcome::Outside
    } else if rest.plus(answer.outside) <= Weight::share(settings.settled_rest) {
        Outcome::Settled
    } else {
        Outcome::Split
    };
    let least = Weight::share(settings.counted);
    let counted = groups.weights().filter(|weight| *weight >= least).count();
    answer.counted = u8::try_from(counted.max(1)).unwrap_or(u8::MAX);
    if let Some((family, weight)) = groups.leader()
        && weight >= least
    {
        let family = belief.image.family(family);
        answer.stop.cement = family.material == Material::Cement as u8;
        answer.stop.gas = family.carries == Carries::Gas as u8;
    }
    balance(answer);
}

/// When to stop and ask. `conclude` has noted which of the two leads.
fn hazards(belief: &Belief<'_>, query: &Query, answer: &mut Answer) {
    let settings = belief.settings;
    let means = query.clues.told().fold(0, |means, told| {
        means | belief.image.clue_answer(told.answer).means
    });
    let told = |meaning: u8| means & meaning != 0;
    let print = &query.clues.print;
    let plastic = print
        .as_ref()
        .is_some_and(|line| line.is_plastic(belief.image));
    let plastic = plastic || told(ClueAnswer::PLASTIC);
    // Whoever printed it knew; a reading that speaks against it may be of another pipe in the same trench.
    let gas = print
        .as_ref()
        .is_some_and(|line| line.contents().has(Contents::GAS));
    answer.stop.cement = !plastic
        && answer.hazards.cement >= Weight::share(settings.cement_warning)
        && (answer.stop.cement || told(ClueAnswer::CEMENT));
    answer.stop.gas |=
        gas || told(ClueAnswer::GAS) && answer.hazards.gas >= Weight::share(settings.gas_warning);
}

/// Makes weights sum to one exactly: what rounding leaves over goes to the rest, what it took too much comes off the
/// largest.
fn balance(answer: &mut Answer) {
    let listed = usize::from(answer.listed);
    let taken = answer
        .candidates()
        .iter()
        .fold(answer.outside, |sum, candidate| sum.plus(candidate.weight));
    answer.rest = Weight::ONE.less(taken);
    let excess = taken.less(Weight::ONE);
    match answer
        .candidates
        .get_mut(..listed)
        .and_then(<[_]>::first_mut)
    {
        Some(leader) if leader.weight >= answer.outside => {
            leader.weight = leader.weight.less(excess);
        }
        _ => answer.outside = answer.outside.less(excess),
    }
}
