//! The search: every chain to its full length, given up as soon as it costs more than the best so far.

use super::CHAINS;
use super::chain::{Chain, MOST, MOST_STRAIGHT, On, Piece, Side, TieEnd, agree, is_made, sizes_go};
use super::cost::{ANCHOR, CUT, JOINT, LATE, NEED, stock_cost, stock_hours};
use super::direct::direct;
use super::rules::Rules;
use super::seat::{ALONE, MOST_RUNS, Runner, runners};
use crate::image::{Image, JointEnd};
use crate::joint::{Form, Run, stock};

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
    /// It does not cure in time.
    late: bool,
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
            self.best = None;
            if let Some(chain) = direct(self.image, self.ends, self.rules) {
                self.judge(chain);
            }
            self.extend(Chain::default(), Face::Pipe(On::First));
            let (Some(found), Some(slot)) = (self.best, self.taken.get_mut(at)) else {
                break;
            };
            *slot = Some(found);
        }
        self.taken
    }

    /// Tries every part on what is open.
    fn extend(&mut self, chain: Chain, face: Face) {
        for at in 0..MOST_RUNS {
            let Some(runner) = self.runners.get(at).copied().flatten() else {
                return;
            };
            for side in 0..2 {
                let within = |entered: &Made| {
                    let cost = chain.cost.saturating_add(entered.cost);
                    self.best.is_none_or(|best| cost <= best.cost)
                };
                if let Some(entered) = self.enter(&runner, side, face).filter(within) {
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
                    late: seat.late,
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
        // Two flanges want their bolt set and gasket.
        let need = if matches!(face, Face::Flange(..)) {
            NEED
        } else {
            0
        };
        (goes && bell == kind).then_some(Made {
            side,
            cost: JOINT + need,
            loose: false,
            dry: false,
            late: false,
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
                late: seat.late,
            };
            let idles = self.idles(runner.run, entered.side.on, on);
            self.put(chain, runner, [entered, left], idles);
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
                late: false,
            };
            self.put(chain, runner, [entered, left], false);
            if first == second {
                break;
            }
        }
    }

    /// A part that leads from a plain end to a cut piece of the same pipe leads nowhere, unless it closes the gap.
    fn idles(&self, run: Run, near: On, far: On) -> bool {
        let closes = self.rules.closing && run == Run::Slides;
        let plain = |form: Form| matches!(form, Form::PlainSquare | Form::PlainBevelled);
        let [near_pipe, far_pipe] = [near, far].map(|on| on.pipe(self.ends));
        let same = match (near_pipe, far_pipe) {
            (Some(one), Some(other)) => {
                let alike = one.row == other.row && one.variants == other.variants;
                alike && plain(one.form) && plain(other.form)
            }
            _ => false,
        };
        same && !closes && (near.is_cut() || far.is_cut())
    }

    /// Puts a part into a chain as it runs straight on, and as a bend, and goes on. One that idles does so as a bend alone.
    fn put(&mut self, chain: Chain, runner: &Runner, made: [Made; 2], idles: bool) {
        let sides = made.map(|one| one.side);
        let nominals = sides.map(|side| side.size);
        let part = self.image.part(runner.part);
        if !is_made(self.image, &part, nominals) {
            return;
        }
        let straight = sizes_go(self.image, runner.run, nominals) || self.ranged(sides);
        if runner.run != Run::Turns && straight && self.bores(sides) && !idles {
            self.lay(chain, runner, made, 0);
        }
        let lie = self.rules.site.lie;
        let [one, other] = nominals.map(|size| self.image.measure(size));
        let turns = match runner.offsets {
            true if lie.parallel => 2,
            false if runner.bends > 0 && runner.bends >= lie.least => 1,
            _ => return,
        };
        let turned: u8 = chain.pieces().map(|piece| piece.turns).sum();
        if one == other && turned + turns <= lie.bends {
            self.lay(chain, runner, made, turns);
        }
    }

    /// Lays a part that stands for so many bends, and goes on.
    fn lay(&mut self, mut chain: Chain, runner: &Runner, made: [Made; 2], turns: u8) {
        let sides = made.map(|one| one.side);
        let nominals = sides.map(|side| side.size);
        let part = self.image.part(runner.part);
        let got = nominals.map(|size| stock(self.image, &part, size));
        let [one, other] = got;
        let got = one.max(other);
        let loose = made.iter().any(|one| one.loose);
        let anchor = if loose { ANCHOR } else { 0 };
        let joints: u16 = made.iter().map(|one| one.cost).sum();
        let hours = self.rules.site.hours;
        let waits = hours.is_some_and(|hours| hours < stock_hours(got));
        let late = if waits { LATE } else { 0 };
        let cost = joints + anchor + stock_cost(got) + late;
        chain.cost = chain.cost.saturating_add(cost);
        chain.late += u8::from(waits) + made.iter().map(|one| u8::from(one.late)).sum::<u8>();
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
            turns,
        });
        if far.on == On::Second {
            self.judge(chain);
        } else if count + 1 < self.most() {
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

    /// The most parts that a chain may have.
    const fn most(&self) -> usize {
        if self.rules.site.lie.bends > 0 {
            MOST
        } else {
            MOST_STRAIGHT
        }
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
        let turned: u8 = chain.pieces().map(|piece| piece.turns).sum();
        let turned = turned == self.rules.site.lie.bends;
        let rank = |chain: &Chain| (chain.cost, chain.len());
        let better = self
            .best
            .as_ref()
            .is_none_or(|best| rank(&chain) < rank(best));
        if unlike && closed && turned && better {
            self.best = Some(chain);
        }
    }
}
