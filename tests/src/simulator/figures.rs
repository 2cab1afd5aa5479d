//! The figures that identification is judged by.

use springline_core::identify::Outcome;

use super::instrument::Instrument;
use super::run::Record;
use super::tally::{Calibration, Mean, quantile};
use super::walk::Walk;

/// Settled answers, and those of them that are wrong.
#[derive(Clone, Copy, Debug, Default)]
pub struct Settled {
    /// Share of settled among all answers.
    pub share: Mean,
    /// Share of wrong among the settled.
    pub wrong: Mean,
    /// Mean of one minus the weight, of the settled: the share that should be wrong.
    pub believed: Mean,
}

impl Settled {
    /// Of some draws.
    #[must_use]
    pub fn of<'a>(records: &(impl Iterator<Item = &'a Record> + Clone)) -> Self {
        let settled = || records.clone().filter(|r| r.outcome == Outcome::Settled);
        Self {
            share: Mean::share(records.clone().map(|r| r.outcome == Outcome::Settled)),
            wrong: Mean::share(settled().map(|r| !r.right)),
            believed: Mean::of(settled().map(|r| 1.0 - r.weight)),
        }
    }
}

/// What following the proposals comes to.
#[derive(Clone, Copy, Debug, Default)]
pub struct Followed {
    /// Settled before any check.
    pub at_once: Mean,
    /// Settled in the end, of all draws.
    pub in_the_end: Mean,
    /// Checks until settled, where any was needed and it settled.
    pub checks: Mean,
    /// Of these, checks that could not be made.
    pub cannot: Mean,
    /// Minutes that they took.
    pub minutes: Mean,
    /// Settled, of what needs a check and can be settled.
    pub of_possible: Mean,
    /// Wrong, of those settled in the end.
    pub wrong: Mean,
    /// Minutes, where nothing settles it.
    pub in_vain: Mean,
}

impl Followed {
    fn of<'a, I: Iterator<Item = &'a Walk>>(all: impl Fn() -> I) -> Self {
        let later = || all().filter(|walk| !walk.at_once);
        let settled = || later().filter(|walk| walk.settled);
        Self {
            at_once: Mean::share(all().map(|walk| walk.at_once)),
            in_the_end: Mean::share(all().map(|walk| walk.settled)),
            checks: Mean::of(settled().map(|walk| f64::from(walk.checks))),
            cannot: Mean::of(settled().map(|walk| f64::from(walk.cannot))),
            minutes: Mean::of(settled().map(|walk| walk.minutes)),
            of_possible: Mean::share(later().filter(|walk| walk.can).map(|walk| walk.settled)),
            wrong: Mean::share(all().filter(|walk| walk.settled).map(|walk| !walk.right)),
            in_vain: Mean::of(all().filter(|walk| !walk.settled).map(|walk| walk.minutes)),
        }
    }
}

/// The engine beside the exact law.
#[derive(Clone, Debug, Default)]
pub struct BesideLaw {
    /// Settled by the engine, of those that the exact law settles at .9995.
    pub settled: Mean,
    /// Largest difference of any weight of a draw: mean, 99.9 % of draws, largest.
    pub difference: (Mean, f64, f64),
    /// The same without chords.
    pub without_chords: (Mean, f64, f64),
    /// The mean of that by instrument.
    pub by_instrument: Vec<(Instrument, Mean)>,
    /// The share of the engine's settled answers that should be wrong by the exact law.
    pub wrong: Mean,
    /// The same by the engine's own weights, of the same answers.
    pub believed: Mean,
    /// Settled at .999 by the exact law: of all draws, and once every clue is answered.
    pub law_settles: (Mean, Mean),
    /// Mean of one minus the weight where the exact law settles.
    pub law_doubts: Mean,
}

impl BesideLaw {
    fn of(records: &[Record]) -> Self {
        let both = || {
            records
                .iter()
                .filter_map(|r| r.exact.as_deref().map(|e| (r, e)))
        };
        let settled = |r: &Record| r.outcome == Outcome::Settled;
        let spread = |chords: bool| {
            let own = both().filter(|(r, _)| chords || r.instrument != Instrument::Chord);
            let mut all: Vec<f64> = own.map(|(_, e)| e.difference).collect();
            (
                Mean::of(all.iter().copied()),
                quantile(&mut all, 0.999),
                quantile(&mut all, 1.0),
            )
        };
        let by_instrument = Instrument::FIELD.map(|(instrument, _)| {
            let own = both().filter(|(r, _)| r.instrument == instrument);
            (instrument, Mean::of(own.map(|(_, e)| e.difference)))
        });
        Self {
            settled: Mean::share(
                both()
                    .filter(|(_, e)| e.best.0 >= 0.9995)
                    .map(|(r, _)| settled(r)),
            ),
            difference: spread(true),
            without_chords: spread(false),
            by_instrument: by_instrument.to_vec(),
            wrong: Mean::of(
                both()
                    .filter(|(r, _)| settled(r))
                    .map(|(_, e)| 1.0 - e.of_engines),
            ),
            believed: Mean::of(
                both()
                    .filter(|(r, _)| settled(r))
                    .map(|(r, _)| 1.0 - r.weight),
            ),
            law_settles: (
                Mean::share(both().map(|(_, e)| e.best.0 >= 0.999)),
                Mean::share(both().map(|(_, e)| e.answered >= 0.999)),
            ),
            law_doubts: Mean::of(
                both()
                    .filter(|(_, e)| e.best.0 >= 0.999)
                    .map(|(_, e)| 1.0 - e.best.0),
            ),
        }
    }
}

/// How well the exact law knows the world that is drawn.
#[derive(Clone, Copy, Debug)]
pub struct LawProved {
    /// Draws that it was asked about.
    pub draws: usize,
    /// Surprise at the truth less doubt, in standard errors.
    pub surprise: f64,
    /// Of ten bins of all weights, the one where the share that is so is farthest from the weight, in standard errors.
    pub worst_bin: f64,
    /// Calibration of the largest weight.
    pub calibration: Calibration,
}

impl LawProved {
    /// Of draws, of one instrument or of all.
    #[must_use]
    pub fn of(records: &[Record], only: Option<Instrument>) -> Self {
        let laws = || {
            let own = records
                .iter()
                .filter(|r| only.is_none_or(|only| only == r.instrument));
            own.filter_map(|r| r.exact.as_deref())
        };
        let off: f64 = laws().map(|e| e.surprise.0).sum();
        let variance: f64 = laws().map(|e| e.surprise.1).sum();
        let mut bins = [(0.0, 0.0); 10];
        for (weight, so) in laws().flat_map(|e| &e.weights) {
            // Most weights are near nought or one: bins by odds, each a factor of four.
            let odds = libm::log2(weight / (1.0 - weight).max(1e-9)) / 2.0;
            let bin = &mut bins[(odds.floor() + 5.0).clamp(0.0, 9.0) as usize];
            bin.0 += f64::from(u8::from(*so)) - weight;
            bin.1 += weight * (1.0 - weight);
        }
        let scores = bins
            .iter()
            .map(|(off, variance): &(f64, f64)| off / variance.max(1.0).sqrt());
        Self {
            draws: laws().count(),
            surprise: off / variance.max(1e-12).sqrt(),
            worst_bin: scores.fold(
                0.0,
                |worst: f64, z| if z.abs() > worst.abs() { z } else { worst },
            ),
            calibration: Calibration::of(laws().map(|e| e.best).collect()),
        }
    }
}

/// All figures of a world.
#[derive(Clone, Debug)]
pub struct Figures {
    /// How many draws there were, and how many readings were refused beside them.
    pub draws: (usize, u64),
    /// Calibration of the best purchase, all draws.
    pub calibration: Calibration,
    /// The same by instrument.
    pub by_instrument: Vec<(Instrument, Calibration)>,
    /// Settled and wrong.
    pub settled: Settled,
    /// Beside the exact law.
    pub law: BesideLaw,
    /// Calibration and settled answers where a wall or a line of print was told.
    pub inside: (Calibration, Settled),
    /// Proposals followed, from what is told in the field and from the reading alone.
    pub followed: (Followed, Followed),
    /// The same without print, wall and the reading a foot along.
    pub followed_outside: (Followed, Followed),
}

impl Figures {
    /// Of the draws of a world.
    #[must_use]
    pub fn of(records: &[Record], refused: u64) -> Self {
        let calibration = |only: Option<Instrument>| {
            let own = records
                .iter()
                .filter(|r| only.is_none_or(|only| only == r.instrument));
            Calibration::of(own.map(|r| (r.weight, r.right)).collect())
        };
        let walks = || records.iter().filter_map(|r| r.walks.as_deref());
        let inside = || records.iter().filter(|r| r.inside);
        Self {
            draws: (records.len(), refused),
            calibration: calibration(None),
            by_instrument: Instrument::FIELD
                .iter()
                .map(|(instrument, _)| (*instrument, calibration(Some(*instrument))))
                .collect(),
            settled: Settled::of(&records.iter()),
            inside: (
                Calibration::of(inside().map(|r| (r.weight, r.right)).collect()),
                Settled::of(&inside()),
            ),
            law: BesideLaw::of(records),
            followed: (
                Followed::of(|| walks().map(|w| &w.all.0)),
                Followed::of(|| walks().map(|w| &w.all.1)),
            ),
            followed_outside: (
                Followed::of(|| walks().map(|w| &w.outside.0)),
                Followed::of(|| walks().map(|w| &w.outside.1)),
            ),
        }
    }
}
