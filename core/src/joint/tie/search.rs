//! The search: every chain to its full length, given up as soon as it costs more than the best so far.

use super::CHAINS;
use super::chain::{Chain, MOST, On, Piece, Side, TieEnd, agree, is_made, sizes_go};
use super::cost::{ANCHOR, CUT, JOINT, stock_cost};
use super::seat::{ALONE, MOST_RUNS, Runner, runners};
use crate::image::{Image, JointEnd, Material};
use crate::joint::{Form, Run, Verdict, best, stock};

/// What a chain must keep to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rules {
    /// No end moves: a piece must slide or take up.
    pub(super) closing: bool,
    /// Every joint must be held: where polyethylene shrinks, what is not held is pulled apart.
    pub(super) held: bool,
}

impl Rules {
    pub(super) fn of(image: &Image<'_>, ends: &[TieEnd; 2]) -> Self {
        let shrinks = |end: &TieEnd| {
            let family = image.family(end.pipe.row.family);
            Material::from_code(family.material) == Some(Material::Pe)
        };
        Self {
            closing: ends.iter().all(|end| end.fixed),
            held: ends.iter().any(shrinks),
        }
    }
}

/// What the next part must go on.
#[derive(Clone, Copy, Debug)]
enum Face {
    Pipe(On),
    /// A flange of a part: another of its kind.
    Flange(u8, u8),
    /// A bell of a part: a spigot of its kind.
    Bell(u8, u8),
    /// A spigot of a part: a bell of its kind.
    Spigot(u8, u8),
}

/// A side of a part as it is made up on what it is on.
#[derive(Clone, Copy, Debug)]
struct Made {
    side: Side,
    cost: u16,
    /// Nothing is listed that holds it.
    loose: bool,
    /// It cannot be made up wet.
    dry: bool,
}

/// A search between two ends.
pub(super) struct Search<'a> {
    image: &'a Image<'a>,
    ends: &'a [TieEnd; 2],
    rules: Rules,
    runners: [Option<Runner>; MOST_RUNS],
    taken: [Option<Chain>; CHAINS],
    best: Option<Chain>,
}

impl<'a> Search<'a> {
    pub(super) fn new(image: &'a Image<'a>, ends: &'a [TieEnd; 2], rules: Rules) -> Self {
        Self {
            image,
            ends,
            rules,
            runners: runners(image, ends, rules),
            taken: [None; CHAINS],
            best: None,
        }
    }

    /// The cheapest chains, each unlike those before.
    pub(super) fn cheapest(mut self) -> [Option<Chain>; CHAINS] {
        for at in 0..CHAINS {
            self.best = self.bolted();
            self.extend(Chain::default(), Face::Pipe(On::First));
            let (Some(found), Some(slot)) = (self.best, self.taken.get_mut(at)) else {
                break;
            };
            *slot = Some(found);
        }
        self.taken
    }

    /// Two flanges of one size, bolted together, where one of them can be moved.
    fn bolted(&self) -> Option<Chain> {
        let [first, second] = self.ends.map(|end| end.pipe);
        let flanged = first.form == Form::Flanged && second.form == Form::Flanged;
        let one_size = self.image.measure(first.row.size) == self.image.measure(second.row.size);
        if self.rules.closing || !flanged || !one_size || self.taken.iter().any(Option::is_some) {
            return None;
        }
        let is_flange = |one: &JointEnd| one.by == JointEnd::FLANGE;
        let mut all = (0u8..).zip(self.image.joint_ends());
        let (flange, _) = all.find(|(_, one)| is_flange(one))?;
        let takes = |pipe: crate::joint::Pipe| {
            let found = best(self.image, &pipe.row, pipe.variants, pipe.form, flange);
            found.is_some_and(|best| best.sealing.verdict <= Verdict::FitsWith)
        };
        (takes(first) && takes(second)).then_some(Chain {
            cost: JOINT,
            ..Chain::default()
        })
    }

    /// Tries every part on what is open.
    fn extend(&mut self, chain: Chain, face: Face) {
        for at in 0..MOST_RUNS {
            let Some(runner) = self.runners.get(at).copied().flatten() else {
                return;
            };
            for side in 0..2 {
                if let Some(entered) = self.enter(&runner, side, face) {
                    self.leave(chain, &runner, side, entered);
                }
            }
        }
    }

    /// A side of a part on what is open, and what that joint costs.
    fn enter(&self, runner: &Runner, at: usize, face: Face) -> Option<Made> {
        let own = runner.end(at);
        let spigot = runner.run == Run::Spigot && at == 1;
        // A spigot goes into the bell that it is made for.
        let bell = self.bell(own);
        let (kind, nominal, goes) = match face {
            Face::Pipe(on) => {
                let seat = runner.seat(at, on)?;
                let near = Side {
                    on,
                    end: seat.end,
                    own,
                    size: on.pipe(self.ends)?.row.size,
                    joint: seat.joint,
                };
                return Some(Made {
                    side: near,
                    cost: seat.cost,
                    loose: seat.loose,
                    dry: seat.dry,
                });
            }
            Face::Flange(kind, nominal) => (kind, nominal, true),
            Face::Bell(kind, nominal) => (kind, nominal, spigot),
            Face::Spigot(kind, nominal) => (kind, nominal, !spigot),
        };
        let side = Side {
            on: On::Part,
            end: own,
            own,
            size: nominal,
            joint: ALONE | u16::from(own),
        };
        (goes && bell == kind).then_some(Made {
            side,
            cost: JOINT,
            loose: false,
            dry: false,
        })
    }

    /// Goes on from the other side of a part.
    fn leave(&mut self, chain: Chain, runner: &Runner, side: usize, entered: Made) {
        let far = 1 - side;
        for on in [On::Second, On::CutOfFirst, On::CutOfSecond] {
            let (Some(seat), Some(pipe)) = (runner.seat(far, on), on.pipe(self.ends)) else {
                continue;
            };
            let side = Side {
                on,
                end: seat.end,
                own: runner.end(far),
                size: pipe.row.size,
                joint: seat.joint,
            };
            let left = Made {
                side,
                cost: seat.cost + if on.is_cut() { CUT } else { 0 },
                loose: seat.loose,
                dry: seat.dry,
            };
            if !self.idles(runner.run, entered.side.on, on) {
                self.put(chain, runner, [entered, left]);
            }
        }
        let end = runner.end(far);
        let [first, second] = self.ends.map(|end| end.pipe.row.size);
        for size in [first, second] {
            let side = Side {
                on: On::Part,
                end,
                own: end,
                size,
                joint: ALONE | u16::from(end),
            };
            // The joint is counted where the next part enters.
            let left = Made {
                side,
                cost: 0,
                loose: false,
                dry: false,
            };
            self.put(chain, runner, [entered, left]);
            if first == second {
                break;
            }
        }
    }

    /// A part that leads from a pipe to a cut piece of the same pipe leads nowhere, unless it closes the gap.
    fn idles(&self, run: Run, near: On, far: On) -> bool {
        let closes = self.rules.closing && run == Run::Slides;
        let [near_pipe, far_pipe] = [near, far].map(|on| on.pipe(self.ends));
        let same = match (near_pipe, far_pipe) {
            (Some(one), Some(other)) => one.row == other.row && one.variants == other.variants,
            _ => false,
        };
        same && !closes && (near.is_cut() || far.is_cut())
    }

    /// Puts a part into a chain, and goes on.
    fn put(&mut self, mut chain: Chain, runner: &Runner, made: [Made; 2]) {
        let sides = made.map(|one| one.side);
        let part = self.image.part(runner.part);
        let nominals = sides.map(|side| side.size);
        let goes = sizes_go(self.image, runner.run, nominals) || self.ranged(sides);
        if !(goes && self.bores(sides) && is_made(self.image, &part, nominals)) {
            return;
        }
        let got = nominals.map(|size| stock(self.image, &part, size));
        let [one, other] = got;
        let got = one.max(other);
        let loose = made.iter().any(|one| one.loose);
        let anchor = if loose { ANCHOR } else { 0 };
        let joints: u16 = made.iter().map(|one| one.cost).sum();
        let cost = joints + anchor + stock_cost(got);
        chain.cost = chain.cost.saturating_add(cost);
        chain.loose += u8::from(loose);
        chain.dry += made.iter().map(|one| u8::from(one.dry)).sum::<u8>();
        let over = |best: &Chain| chain.cost > best.cost;
        if self.best.as_ref().is_some_and(over) {
            return;
        }
        let closes = match runner.run {
            Run::Slides => sides.iter().any(|side| side.on != On::Part),
            Run::TakesUp => true,
            _ => false,
        };
        let count = chain.len();
        if self.rules.closing && closes && chain.closes.is_none() {
            chain.closes = u8::try_from(count).ok();
        }
        let [_, far] = sides;
        let chain = chain.with(Piece {
            part: runner.part,
            run: runner.run,
            stock: got,
            sides,
        });
        if far.on == On::Second {
            self.judge(chain);
        } else if count + 1 < MOST {
            let record = self.image.joint_end(far.end);
            let spigot = runner.run == Run::Spigot && far.end == runner.end(1);
            let next = match far.on {
                On::Part if record.by == JointEnd::FLANGE => Face::Flange(far.end, far.size),
                On::Part if spigot => Face::Spigot(self.bell(far.end), far.size),
                On::Part => Face::Bell(far.end, far.size),
                on => Face::Pipe(on),
            };
            self.extend(chain, next);
        }
    }

    /// The bell that an end goes into where it is a spigot, else the end itself.
    fn bell(&self, end: u8) -> u8 {
        self.image.joint_end(end).bell().unwrap_or(end)
    }

    /// What is asked for by its size alone is bored for one OD, and so joins no two.
    fn bores(&self, sides: [Side; 2]) -> bool {
        let alone = |side: Side| self.image.joint_end(side.end).by == JointEnd::SIZE_ALONE;
        match sides.map(|side| side.on.pipe(self.ends)) {
            [Some(one), Some(other)] if sides.into_iter().all(alone) => agree(&one.row, &other.row),
            _ => true,
        }
    }

    /// A range spans two nominals where their ODs agree.
    fn ranged(&self, sides: [Side; 2]) -> bool {
        let by_range = |side: Side| self.image.joint_end(side.end).by == JointEnd::RANGE;
        let [one, other] = sides.map(|side| side.on.pipe(self.ends));
        let (Some(one), Some(other)) = (one, other) else {
            return false;
        };
        sides.into_iter().all(by_range) && agree(&one.row, &other.row)
    }

    fn judge(&mut self, chain: Chain) {
        let unlike = self
            .taken
            .iter()
            .flatten()
            .all(|held| !held.is_like(&chain));
        let closed = !self.rules.closing || chain.closes.is_some();
        let rank = |chain: &Chain| (chain.cost, chain.len());
        let better = self
            .best
            .as_ref()
            .is_none_or(|best| rank(&chain) < rank(best));
        if unlike && closed && better {
            self.best = Some(chain);
        }
    }
}
