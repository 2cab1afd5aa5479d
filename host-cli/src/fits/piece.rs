//! What a counter asks back about a part: which piece, which branch, which angle.

use anyhow::{Result, bail};
use springline_compiler::joints::Piece;
use springline_compiler::notes::PartNote;
use springline_core::image::{Grade, Image, Part};
use springline_core::joint::{Kind, Task, Verdict};

use super::known::{Known, size};
use super::sheet::PartRow;
use crate::cli::FitsArgs;
use crate::format;

/// Bends as parts are made, the largest first: degrees, and as they are written. A part that is made as one is made as all before
/// it.
const BENDS: [(f64, &str); 4] = [
    (90.0, "90"),
    (45.0, "45"),
    (22.5, "22-1/2"),
    (11.25, "11-1/4"),
];

/// What was told of the piece.
#[derive(Clone)]
pub(super) enum Wanted {
    /// Nothing: a counter will ask.
    Any,
    /// A branch or an outlet of a size: as it is written, and sixty-fourths of an inch.
    Outlet(String, u16),
    /// A bend, by its place in [`BENDS`].
    Bend(usize),
}

impl Wanted {
    /// Reads `--outlet` and `--angle`.
    pub(super) fn parse(image: &Image<'_>, known: &Known, args: &FitsArgs) -> Result<Self> {
        if let Some(typed) = &args.outlet {
            let outlet = format::spelled(typed);
            let main = image.measure(known.pipe.row.size);
            let all = (0..=u8::MAX).take(image.size_count());
            let Some(found) = all
                .into_iter()
                .find(|at| image.size(*at).eq_ignore_ascii_case(&outlet))
            else {
                bail!("no outlet has a size \"{typed}\"\n  try: a nominal size, as 2 or 1-1/2");
            };
            let measure = image.measure(found);
            if measure > main {
                bail!(
                    "an outlet of {} is larger than the pipe, {}\n  try: springline fits of the larger one; it is the main",
                    size(&outlet),
                    known.size()
                );
            }
            return Ok(Self::Outlet(outlet, measure));
        }
        if let Some(typed) = &args.angle {
            let degrees = crate::parse::angle(typed)?.in_degrees();
            let found = BENDS
                .iter()
                .position(|(one, _)| (one - degrees).abs() < 1e-6);
            let Some(at) = found else {
                let all = BENDS.map(|(_, word)| word).join(", ");
                bail!(
                    "no bend is made of {degrees}°\n  try one of: {all}\n  or springline tie-in --angle, which makes others of two"
                )
            };
            return Ok(Self::Bend(at));
        }
        Ok(Self::Any)
    }

    /// What people are about to do who say so much of a piece.
    pub(super) const fn task(&self) -> Option<Task> {
        match self {
            Self::Any => None,
            Self::Outlet(..) => Some(Task::Outlet),
            Self::Bend(_) => Some(Task::Turn),
        }
    }

    /// Whether a part is of the kind at all that was told.
    pub(super) fn is_of(&self, row: &PartRow) -> bool {
        match self {
            Self::Any => true,
            Self::Outlet(..) => {
                row.outlet.is_some() || row.pieces.iter().any(|piece| piece.branches())
            }
            Self::Bend(_) => row.pieces.contains(&Piece::Bend),
        }
    }

    /// Holds a part that would go on against what was told, and writes what is then said of it.
    pub(super) fn judge(
        &self,
        image: &Image<'_>,
        part: &Part,
        note: Option<&PartNote>,
        row: &mut PartRow,
    ) {
        let mut never = |reason: String| {
            row.verdict = Verdict::No;
            row.kind = Some(Kind::Range);
            row.needs.clear();
            row.reason = reason;
            row.grade = Grade::Practice;
        };
        match self {
            Self::Any => {}
            Self::Outlet(told, measure) => {
                if let Some((_, sizes)) = &mut row.outlet {
                    let (made, may) = (is_made(part, *measure), sizes.contains(&told.as_str()));
                    sizes.retain(|size| size == told);
                    if !made {
                        never(format!("has no outlet of {}", size(told)));
                    } else if !may {
                        never(format!(
                            "{} is more than is taken off this main by a saddle or a tap",
                            size(told)
                        ));
                    }
                } else if row.pieces.iter().any(|piece| piece.branches())
                    && !image.band(part.band).holds(*measure)
                {
                    let sizes = note.map_or("other sizes", |note| &note.sizes);
                    never(format!("its branches are made in {sizes} only"));
                }
            }
            Self::Bend(at) => {
                let least = usize::from(part.bends());
                if part.run().is_some() && row.pieces.contains(&Piece::Bend) && *at > least {
                    never(format!("its smallest bend is {}", BENDS[least].1));
                }
            }
        }
    }

    /// What is said of the piece behind the name of the part, with a blank for what was not told: `tee, run 4 in, branch 2 in`.
    pub(super) fn said(&self, known: &Known, row: &PartRow, task: Option<Task>) -> Option<String> {
        let task = task.or_else(|| self.task());
        let fit = |piece: &&Piece| match task {
            Some(Task::Outlet) => piece.branches(),
            Some(Task::Turn) => match self {
                Self::Bend(_) => **piece == Piece::Bend,
                _ => matches!(
                    piece,
                    Piece::Bend | Piece::Reducer | Piece::Cap | Piece::Offset
                ),
            },
            Some(Task::Join) => matches!(piece, Piece::Reducer | Piece::Coupling | Piece::Bend),
            _ => true,
        };
        let run = known.size();
        let mut said: Vec<String> = Vec::new();
        for piece in row.pieces.iter().filter(fit) {
            // "MJ tee, tee" says one thing twice.
            let word = if row.name.ends_with(piece.key()) || *piece == Piece::Branch {
                ""
            } else {
                piece.key()
            };
            let outlet = match self {
                Self::Outlet(told, _) => size(told),
                _ => String::from("__ in"),
            };
            let rest = match piece {
                // A thread is told as an outlet.
                Piece::Tee | Piece::Wye | Piece::Cross if row.outlet.is_some() => String::new(),
                Piece::Tee | Piece::Wye => format!("run {run}, branch {outlet}"),
                Piece::Cross => format!("run {run}, branches {outlet}"),
                Piece::Branch => format!("branch {outlet}"),
                Piece::Bend => match self {
                    Self::Bend(at) => format!("of {} degrees", BENDS[*at].1),
                    _ => String::from("of __ degrees"),
                },
                Piece::Reducer => format!("{run} to __ in"),
                Piece::Offset => String::from("by __ in"),
                Piece::Coupling | Piece::Cap => String::new(),
            };
            let glue = if word.is_empty() || rest.is_empty() {
                ""
            } else if *piece == Piece::Bend || *piece == Piece::Reducer {
                " "
            } else {
                ", "
            };
            let one = format!("{word}{glue}{rest}");
            if !one.is_empty() {
                said.push(one);
            }
            // Who says the size of a branch wants one piece, and the first that has it is the usual one.
            if matches!(self, Self::Outlet(..)) || task == Some(Task::Outlet) {
                break;
            }
        }
        (!said.is_empty()).then(|| said.join(", or "))
    }
}

/// Whether a part is made with a threaded outlet of so much, whatever the main allows.
fn is_made(part: &Part, measure: u16) -> bool {
    Part::OUTLETS
        .iter()
        .enumerate()
        .any(|(at, size)| *size == measure && part.outlets >> at & 1 == 1)
}
