//! A part of a chain, with what is on either side of it.

use springline_core::image::{Grade, JointEnd};
use springline_core::joint::tie::{On, Piece, Side};
use springline_core::joint::{Act, Stock, Use, Verdict, best, forbidden, holders};

use super::super::known::size;
use super::super::range::told;
use super::super::sheet::{Held, keys};
use super::way::Maker;

/// A part as it is told.
pub(super) struct PieceSaid {
    pub(super) key: String,
    pub(super) name: String,
    /// The bend that it is here, or that it is two in one.
    pub(super) turn: Option<String>,
    pub(super) act: Act,
    pub(super) stock: Stock,
    /// The side that is made up first comes first.
    pub(super) sides: Vec<SideSaid>,
    /// Indices of its joint ends as they are made up.
    pub(super) ends: [u8; 2],
    /// What is ordered beside it.
    pub(super) packs: Vec<(usize, String)>,
    pub(super) comes: String,
    pub(super) less: String,
    pub(super) wont: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

/// A side of it.
pub(super) struct SideSaid {
    /// What it is on.
    pub(super) on: On,
    /// That in words.
    pub(super) what: String,
    pub(super) end: String,
    pub(super) end_name: String,
    pub(super) size: String,
    /// Of the joint with a pipe.
    pub(super) verdict: Option<Verdict>,
    pub(super) need: String,
    pub(super) reason: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
    pub(super) gasket: String,
    pub(super) range: Option<String>,
    pub(super) dry: bool,
    /// It is a flange.
    pub(super) is_flange: bool,
    /// Of a joint with another part: what keeps it together.
    pub(super) kept: &'static str,
    pub(super) holds: Vec<Held>,
    pub(super) never: Vec<Held>,
}

impl SideSaid {
    /// Nothing is listed that holds it.
    pub(super) fn is_loose(&self) -> bool {
        self.on != On::Part && self.holds.is_empty()
    }
}

impl Maker<'_> {
    /// A part; its sides the other way about where the line is put together from the second end.
    pub(super) fn piece(&self, piece: &Piece, nth: usize, backwards: bool) -> PieceSaid {
        let part = self.image.part(piece.part);
        let note = self.notes.joints.parts.get(usize::from(piece.part));
        let ends = piece.sides.map(|side| side.end);
        let mut packs: Vec<(usize, String)> = Vec::new();
        for (at, (side, end)) in piece.sides.iter().zip(ends).enumerate() {
            let made = self.notes.joints.made.get(usize::from(end));
            let pack = made.map_or("", |made| made.pack.as_str());
            // Of two parts bolted together the first one is said to need the bolts.
            let said = side.on == On::Part && at == 0;
            if pack.is_empty() || said {
                continue;
            }
            match packs.iter_mut().find(|(_, held)| held == pack) {
                Some((count, _)) => *count += 1,
                None => packs.push((1, pack.to_owned())),
            }
        }
        let mut sides: Vec<SideSaid> = piece
            .sides
            .into_iter()
            .map(|side| self.side(side))
            .collect();
        if backwards {
            sides.reverse();
        }
        PieceSaid {
            key: note.map_or(String::new(), |note| note.key.clone()),
            name: self.image.phrase(part.name).to_string(),
            turn: match piece.turns {
                // A fitting that may be a bend is asked for by what it is here.
                0 if part.bends() > 0 => Some(String::from(match piece.sides {
                    [one, other] if one.size == other.size => "as a coupling",
                    _ => "as a reducer",
                })),
                0 => None,
                1 => self.lying.bend(nth).map(|bend| {
                    let article = if bend.starts_with("11") { "an" } else { "a" };
                    format!("as {article} {bend} bend")
                }),
                _ => Some(self.lying.offset(self.unit)),
            },
            act: Act::from_code(part.act_and_stock & 15).unwrap_or(Act::Cut),
            stock: piece.stock,
            sides,
            ends,
            packs,
            comes: note.map_or(String::new(), |note| note.comes.clone()),
            less: note.map_or(String::new(), |note| note.less.clone()),
            wont: note.map_or(String::new(), |note| note.wont.clone()),
            sources: keys(self.notes, note.map(|note| &note.cited)),
            grade: Grade::from_code(part.grade()),
        }
    }

    /// What a side is on, in words.
    pub(super) fn what(&self, on: On) -> String {
        let [first, second] = self.ends;
        match on {
            On::First => first.name(),
            On::Second => second.name(),
            On::CutOfFirst => format!("the cut piece of {}", first.name()),
            On::CutOfSecond => format!("the cut piece of {}", second.name()),
            On::Part => String::from("the part beside it"),
        }
    }

    /// A side of a part, or of two ends that go together.
    pub(super) fn side(&self, side: Side) -> SideSaid {
        let image = self.image;
        let record = image.joint_end(side.end);
        let made = self.notes.joints.made.get(usize::from(side.end));
        let key = self.notes.joints.ends.get(usize::from(side.end));
        let mut said = SideSaid {
            on: side.on,
            what: self.what(side.on),
            end: key.cloned().unwrap_or_default(),
            end_name: image.phrase(record.name).to_string(),
            size: size(image.size(side.size)),
            verdict: None,
            need: String::new(),
            reason: String::new(),
            sources: Vec::new(),
            grade: None,
            gasket: made.map_or(String::new(), |made| made.gasket.clone()),
            range: None,
            dry: record.is_dry(),
            is_flange: record.by == JointEnd::FLANGE,
            kept: match record.by {
                JointEnd::FLANGE => "Its bolts hold it, by the weaker of the two",
                JointEnd::THREAD => {
                    "The thread holds it: plastic into metal hand tight and a turn or two"
                }
                _ => "The MJ takes its spigot, held by a gland listed for that",
            },
            holds: Vec::new(),
            never: Vec::new(),
        };
        let Some(pipe) = side.on.pipe(self.asked) else {
            return said;
        };
        if let Some(best) = best(image, &pipe.row, pipe.variants, pipe.form, side.end) {
            let sealing = best.sealing;
            said.verdict = Some(sealing.verdict);
            said.need = image.phrase(sealing.need).to_string();
            said.reason = image.phrase(sealing.reason).to_string();
            said.grade = Some(sealing.grade);
            said.sources = keys(
                self.notes,
                self.notes.joints.matrix.get(usize::from(sealing.row)),
            );
        }
        if record.by == JointEnd::RANGE {
            let known = match side.on {
                On::First | On::CutOfFirst => &self.ends[0].known,
                _ => &self.ends[1].known,
            };
            said.range = Some(told(known.band(), self.unit));
        }
        let held = |(at, one): (u8, springline_core::image::Listing)| Held {
            key: self
                .notes
                .joints
                .restraints
                .get(usize::from(at))
                .map_or(String::new(), |(key, _)| key.clone()),
            name: image.phrase(one.name).to_string(),
            remark: image.phrase(one.remark).to_string(),
            ask: one.of() == Some(Use::Refer),
            itself: one.of() == Some(Use::Itself),
        };
        said.holds = holders(image, pipe.row, pipe.variants, side.end)
            .filter(|(_, one)| one.ties())
            .map(held)
            .collect();
        said.never = forbidden(image, pipe.row, pipe.variants, side.end)
            .map(held)
            .collect();
        said
    }
}
