//! A chain in the order in which it is put together.

use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_core::joint::tie::{Chain, Direct, On, Side, TieEnd};
use springline_core::joint::{Run, Stock};

use super::end::End;
use super::lie::Lying;
use super::piece::{PieceSaid, SideSaid};
use crate::parse::Unit;

/// What chains are told from.
pub(super) struct Maker<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) notes: &'a Notes,
    pub(super) ends: &'a [End; 2],
    pub(super) asked: &'a [TieEnd; 2],
    pub(super) lying: &'a Lying,
    pub(super) unit: Unit,
}

/// The piece that closes between two fixed ends.
pub(super) struct Closing {
    /// Its place among the pieces as they are told.
    pub(super) piece: usize,
    /// The pipe that it slides over.
    pub(super) over: Option<String>,
}

/// A chain.
pub(super) struct Way {
    /// In the order of assembly.
    pub(super) pieces: Vec<PieceSaid>,
    pub(super) closing: Option<Closing>,
    /// The joint that is closed last.
    pub(super) last: String,
    /// Pieces of pipe that are cut for it.
    pub(super) cuts: Vec<String>,
    pub(super) joints: usize,
    /// How the slowest of its parts is got.
    pub(super) stock: Stock,
    pub(super) dry: bool,
    /// Something of it is not got or does not cure in time.
    pub(super) late: bool,
    /// How two ends go together with nothing between them, and the joints that this makes.
    pub(super) direct: Option<(Direct, Vec<SideSaid>)>,
    pub(super) cost: u16,
}

impl Maker<'_> {
    /// Tells a chain.
    pub(super) fn way(&self, chain: &Chain) -> Way {
        let [first, second] = self.ends;
        // What cannot be moved is where it starts.
        let backwards = !first.fixed && second.fixed;
        let raw: Vec<_> = chain.pieces().collect();
        let order: Vec<(usize, bool)> = match chain.closes.map(usize::from) {
            Some(closes) => {
                let before = (0..closes).map(|at| (at, false));
                let behind = (closes + 1..raw.len()).rev().map(|at| (at, true));
                before.chain(behind).chain([(closes, false)]).collect()
            }
            None if backwards => (0..raw.len()).rev().map(|at| (at, true)).collect(),
            None => (0..raw.len()).map(|at| (at, false)).collect(),
        };
        let pieces: Vec<PieceSaid> = order
            .iter()
            .filter_map(|(at, turned)| {
                let bends = raw.iter().take(*at).filter(|piece| piece.turns > 0);
                Some(self.piece(raw.get(*at)?, bends.count(), *turned))
            })
            .collect();
        let mut cuts: Vec<String> = Vec::new();
        for side in raw.iter().filter_map(|piece| piece.sides.last()) {
            if side.on.is_cut() {
                let of = usize::from(side.on == On::CutOfSecond);
                cuts.push(self.ends[of].name());
            }
        }
        let closing = chain.closing().map(|piece| Closing {
            piece: pieces.len().saturating_sub(1),
            over: piece
                .slides_over(self.asked)
                .and_then(|side| piece.sides.get(side))
                .map(|side| self.what(side.on)),
        });
        let last = match (chain.closing(), &closing) {
            (Some(piece), Some(closing)) if piece.run == Run::Slides => {
                let over = closing.over.as_deref().unwrap_or("its pipe");
                format!("both joints of it, when it is back over the gap: the one on {over} last")
            }
            (Some(piece), _) => {
                let pipe = piece.sides.iter().find(|side| side.on != On::Part);
                match pipe {
                    Some(side) => {
                        format!("bolted first, then drawn tight on {}", self.what(side.on))
                    }
                    None => String::from("its own bolts, when both flanges are made up"),
                }
            }
            (None, _) if pieces.is_empty() => String::from(match chain.direct {
                Some(Direct::Bell(..)) => "the spigot, straight home to its mark and no further",
                Some(Direct::Fused(_)) => "the melt, left in the machine until it is cold",
                _ => "the flanges, drawn up crosswise",
            }),
            (None, _) => {
                let end = if backwards { first } else { second };
                let pushed = if end.fixed {
                    ""
                } else {
                    ": the pipe is brought up to it"
                };
                format!("the joint on {}{pushed}", end.name())
            }
        };
        let joints = raw
            .iter()
            .map(|piece| 1 + usize::from(piece.sides[1].on != On::Part))
            .sum::<usize>()
            .max(1);
        Way {
            stock: raw
                .iter()
                .map(|piece| piece.stock)
                .max()
                .unwrap_or(Stock::Counter),
            dry: chain.dry > 0,
            late: chain.late > 0,
            direct: chain.direct.map(|direct| (direct, self.direct(direct))),
            pieces,
            closing,
            last,
            cuts,
            joints,
            cost: chain.cost,
        }
    }

    /// The joints of two ends that go together.
    fn direct(&self, direct: Direct) -> Vec<SideSaid> {
        let [first, second] = self.asked;
        let side = |on: On, end: u8| {
            let of = if on == On::First { first } else { second };
            self.side(Side {
                on,
                end,
                own: end,
                size: of.pipe.row.size,
                joint: 0,
            })
        };
        match direct {
            Direct::Flanges => vec![
                side(On::First, first.flange),
                side(On::Second, second.flange),
            ],
            Direct::Bell(bell, end) => {
                let spigot = if bell == 0 { On::Second } else { On::First };
                let mut side = side(spigot, end);
                side.gasket = String::from("for the groove of that bell, by its maker");
                vec![side]
            }
            Direct::Fused(end) => vec![side(On::First, end), side(On::Second, end)],
        }
    }
}
