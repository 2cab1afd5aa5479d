//! A chain put together joint by joint, from the first end to the second, and what that costs.

use springline_core::image::{Image, JointEnd};
use springline_core::joint::tie::{Chain, Direct, On, Piece, Site, TieEnd};
use springline_core::joint::{Form, Run};

use super::{Known, Shelf, goes};
use crate::tie::walk::is_pe;

/// What a chain is held against.
#[derive(Debug)]
pub struct Replay<'a> {
    /// The image.
    pub image: &'a Image<'a>,
    /// The parts of the files.
    pub shelves: &'a [Shelf],
    /// The two ends.
    pub ends: &'a [TieEnd; 2],
    /// What is known of the site.
    pub site: Site,
}

impl Replay<'_> {
    /// What the chain costs.
    ///
    /// # Panics
    ///
    /// When it cannot be put together.
    pub fn cost(&self, known: &mut Known, chain: &Chain) -> u32 {
        let pieces: Vec<&Piece> = chain.pieces().collect();
        assert!(pieces.len() <= if self.site.lie.bends > 0 { 4 } else { 3 });
        let [Some(first), Some(last)] = [pieces.first(), pieces.last()] else {
            return self.direct(known, chain);
        };
        assert_eq!(
            (first.sides[0].on, last.sides[1].on),
            (On::First, On::Second)
        );
        let mut cost = 0;
        for (at, piece) in pieces.iter().enumerate() {
            cost += self.piece(known, piece);
            if let Some(next) = pieces.get(at + 1) {
                cost += self.between(piece, next);
            }
        }
        let turned: u8 = pieces.iter().map(|piece| piece.turns).sum();
        assert_eq!(turned, self.site.lie.bends);
        let both = self.ends.iter().all(|end| end.fixed);
        assert_eq!(both, chain.closes.is_some());
        if let Some(piece) = chain.closing() {
            self.closes(piece);
        }
        cost
    }

    /// The joint of an end on what it is on, and whether it is held.
    fn joint(&self, known: &mut Known, on: On, own: u8) -> (u8, u32, bool) {
        let pipe = on.pipe(self.ends).expect("a pipe");
        let (end, cost, holds) = known.joint(self.image, &pipe, own).expect("it seals");
        let record = self.image.joint_end(end);
        let dry = self.site.dry;
        assert!(!(dry == Some(false) && record.is_dry()), "it is wet");
        let of_use = match pipe.form {
            Form::Flanged => record.by == JointEnd::FLANGE,
            Form::Threaded => record.by == JointEnd::THREAD,
            Form::Belled => false,
            _ => true,
        };
        let asked = match on {
            On::First => Some(self.ends[0]),
            On::Second => Some(self.ends[1]),
            _ => None,
        };
        if let Some(asked) = asked {
            assert!(of_use || !asked.keep, "what is on it stays");
            let flanged = pipe.form == Form::Flanged && record.by == JointEnd::FLANGE;
            assert!(!flanged || asked.flange == end, "one drilling");
        }
        let spared = if dry == Some(true) && record.is_dry() {
            400
        } else {
            0
        };
        let slow = u32::from(record.cures() && self.hurried(24)) * 1500;
        (end, cost + slow - spared, holds)
    }

    /// Whether water must be back sooner.
    fn hurried(&self, hours: u16) -> bool {
        self.site.hours.is_some_and(|given| given < hours)
    }

    /// Two ends that go together as they are.
    fn direct(&self, known: &mut Known, chain: &Chain) -> u32 {
        let ends = self.ends;
        assert!(!(ends[0].fixed && ends[1].fixed) && self.site.lie.bends == 0);
        let [one, other] = ends.map(|end| self.image.measure(end.pipe.row.size));
        assert_eq!(one, other);
        let mut on = |on: On, end: u8| {
            let (_, cost, holds) = self.joint(known, on, end);
            cost + u32::from(!holds) * 80
        };
        match chain.direct.expect("nothing between them") {
            Direct::Flanges => {
                assert!(ends.iter().all(|end| end.pipe.form == Form::Flanged));
                assert_eq!(ends[0].flange, ends[1].flange);
                10
            }
            Direct::Bell(at, end) => {
                assert_eq!(ends[usize::from(at)].pipe.form, Form::Belled);
                assert!(self.image.joint_end(end).is_bell());
                on(if at == 0 { On::Second } else { On::First }, end)
            }
            Direct::Fused(end) => {
                assert_eq!(ends[0].pipe.row, ends[1].pipe.row);
                on(On::First, end).max(on(On::Second, end))
            }
        }
    }

    /// A part with its joints on pipes.
    fn piece(&self, known: &mut Known, piece: &Piece) -> u32 {
        let image = self.image;
        let found = self.shelves.iter().find(|one| one.part == piece.part);
        let made = found.expect("only what is in a run");
        assert_eq!(made.run, piece.run.key());
        let (mut loose, mut cost) = (false, 0);
        for side in &piece.sides {
            let Some(pipe) = side.on.pipe(self.ends) else {
                continue;
            };
            assert_eq!(pipe.row.size, side.size);
            let (end, joint, holds) = self.joint(known, side.on, side.own);
            assert_eq!(end, side.end);
            let spigot = piece.run == Run::Spigot && side.own != made.ends[0];
            assert!(!spigot, "no spigot on a pipe");
            loose |= !holds;
            cost += joint;
        }
        let shrinks = self.ends.iter().any(|end| is_pe(image, &end.pipe));
        assert!(!(loose && shrinks), "PE is held");
        let sizes = piece.sides.map(|side| image.measure(side.size));
        assert!(sizes.into_iter().all(|size| made.made(size)), "it is made");
        match piece.turns {
            0 => assert!(goes(made, sizes[0], sizes[1]) || self.ranged(piece)),
            1 => assert!(sizes[0] == sizes[1] && made.least >= self.site.lie.least.max(1)),
            _ => assert!(sizes[0] == sizes[1] && self.site.lie.parallel && made.run == "turns"),
        }
        let got = made.stock(sizes[0]).max(made.stock(sizes[1]));
        let waits = [(60, 48), (200, 168), (300, 336)];
        let wait = waits.iter().find(|(cost, _)| *cost == got);
        let late = wait.is_some_and(|(_, hours)| self.hurried(*hours));
        cost + u32::from(loose) * 80 + got + u32::from(late) * 1500
    }

    /// Whether one range holds the pipes on both sides.
    fn ranged(&self, piece: &Piece) -> bool {
        let by = |end: u8| self.image.joint_end(end).by == JointEnd::RANGE;
        let rows = piece.sides.map(|side| side.on.pipe(self.ends));
        let rows = rows.map(|pipe| pipe.expect("a pipe").row);
        piece.sides.iter().all(|side| by(side.end))
            && rows[0].low <= rows[1].high
            && rows[1].low <= rows[0].high
    }

    /// What stands between two parts.
    fn between(&self, piece: &Piece, next: &Piece) -> u32 {
        let (here, there) = (piece.sides[1], next.sides[0]);
        assert_eq!((here.on, here.size), (there.on, there.size));
        if here.on != On::Part {
            assert!(here.on.is_cut());
            return 10;
        }
        let image = self.image;
        let bell = |end: u8| image.joint_end(end).bell().unwrap_or(end);
        assert_eq!(bell(here.end), bell(there.end));
        let flange = image.joint_end(here.end).by == JointEnd::FLANGE;
        let spigot = |one: &&&Piece| one.run == Run::Spigot;
        let spigots = [&piece, &next].iter().filter(|one| spigot(one)).count();
        assert!(flange || spigots == 1, "a bell takes no bell");
        // A bolt set and a gasket are a need.
        if flange { 12 } else { 10 }
    }

    /// The piece that closes between two fixed ends.
    fn closes(&self, piece: &Piece) {
        assert!(matches!(piece.run, Run::Slides | Run::TakesUp));
        if piece.run == Run::Slides {
            let over = piece.slides_over(self.ends);
            let over = over.expect("it slides over something");
            let [one, other] = piece.sides.map(|side| side.on.pipe(self.ends));
            let row = [one, other][over].expect("a pipe").row;
            let not = [other, one][over].map_or(i32::MAX, |pipe| pipe.row.high);
            assert!(row.low <= not, "never over the larger pipe");
        }
    }
}
