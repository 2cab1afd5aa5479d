//! `springline tie-in`: two pipe ends to the parts that lead from one to the other.

pub(crate) mod end;
mod lie;
mod piece;
mod render;
mod say;
mod text;
mod way;

use anyhow::{Result, bail};
use sha2::{Digest, Sha256};
use springline_compiler::notes::Notes;
use springline_core::image::{Image, Material, Set};
use springline_core::joint::tie::{Nothing, Site, nothing, ties};
use springline_core::joint::{Doing, Owner, Sealing, Task, refusal};
use springline_tables::{IMAGE, NOTES};

use super::caution::{Due, due};
use super::sheet::keys;
use crate::Said;
use crate::cli::TieArgs;
use end::End;
use lie::Lying;
use way::{Maker, Way};

/// An end on which nothing is put: which of the two, why, and the sources.
struct Refused {
    end: usize,
    sealing: Sealing,
    reason: String,
    sources: Vec<String>,
}

/// All that is said of two ends.
struct Tied {
    ends: [End; 2],
    /// How they lie.
    lying: Lying,
    site: Site,
    owner: Owner,
    refused: Option<Refused>,
    ways: Vec<Way>,
    /// Why there is none.
    none: Option<Nothing>,
    /// Polyethylene is among them.
    shrinks: bool,
    cautions: Vec<Due>,
}

/// Answers how two ends are joined.
pub(crate) fn run(args: &TieArgs) -> Result<Said> {
    let image = Image::new(IMAGE)?;
    let notes = Notes::from_bytes(NOTES)?;
    if notes.image != <[u8; 32]>::from(Sha256::digest(IMAGE)) {
        bail!("the notes are of another image\n  try: build the command anew");
    }
    let ends = [
        End::parse(&image, &notes, &args.from, args)?,
        End::parse(&image, &notes, &args.to, args)?,
    ];
    let tied = Tied::of(&image, &notes, ends, args)?;
    let text = if args.json {
        render::json(&tied, args)
    } else {
        text::text(&tied, args)
    };
    Ok(Said {
        text,
        no: tied.ways.is_empty(),
    })
}

impl Tied {
    fn of(image: &Image<'_>, notes: &Notes, ends: [End; 2], args: &TieArgs) -> Result<Self> {
        let lying = Lying::parse(args)?;
        let hours = args.back_in.as_deref().map(lie::hours).transpose()?;
        let site = Site {
            dry: match (args.wet, args.dry) {
                (true, _) => Some(false),
                (_, true) => Some(true),
                _ => None,
            },
            hours,
            lie: lying.lie(),
        };
        let owner = Owner::from(args.owner);
        let refused = ends.iter().enumerate().find_map(|(end, one)| {
            let sealing = refusal(image, &one.known.pipe)?;
            Some(Refused {
                end,
                sealing,
                reason: image.phrase(sealing.reason).to_string(),
                sources: keys(notes, notes.joints.matrix.get(usize::from(sealing.row))),
            })
        });
        let asked = [ends[0].tie(), ends[1].tie()];
        let maker = Maker {
            image,
            notes,
            ends: &ends,
            asked: &asked,
            lying: &lying,
            unit: args.units.into(),
        };
        let ways: Vec<Way> = match refused {
            Some(_) => Vec::new(),
            None => ties(image, &asked, site)
                .iter()
                .flatten()
                .map(|chain| maker.way(chain))
                .collect(),
        };
        let none = (refused.is_none() && ways.is_empty()).then(|| nothing(image, &asked, site));
        let rows = match &refused {
            Some(refused) => vec![ends[refused.end].known.pipe.row],
            None => ends.iter().map(|end| end.known.pipe.row).collect(),
        };
        let pieces = ways.iter().flat_map(|way| &way.pieces);
        let doing = pieces.fold(Doing::default(), |held, piece| {
            let ends = piece.ends.iter().copied();
            let ends = ends.fold(Set::default(), Set::with);
            held.or(Doing::new(piece.act, ends, [Task::Join]))
        });
        let cautions = due(image, notes, &rows, owner, doing);
        let shrinks = ends.iter().any(|end| {
            let family = image.family(end.known.pipe.row.family);
            Material::from_code(family.material) == Some(Material::Pe)
        });
        Ok(Self {
            ends,
            lying,
            site,
            owner,
            refused,
            ways,
            none,
            shrinks,
            cautions,
        })
    }

    /// Neither end can be moved.
    fn both_fixed(&self) -> bool {
        self.ends.iter().all(|end| end.fixed)
    }
}
