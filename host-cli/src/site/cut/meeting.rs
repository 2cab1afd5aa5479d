//! What stands in a gap: a part, and every place where two things meet.

use anyhow::{Result, bail};
use springline_compiler::notes::Cited;
use springline_core::cut::Meeting;
use springline_core::unit::Distance;

use super::closure::{Part, Term};
use super::{CutArgs, MeetArg};
use crate::cli::YesNo;
use crate::site::pipe::{self, Pipe};
use crate::site::unit::tape;

/// The part in the gap, if there is one.
pub(super) fn part(pipe: &Pipe<'_>, args: &CutArgs) -> Result<Option<Part>> {
    let lay = pipe::by_tape(args.lay.as_ref(), pipe.unit)?;
    let flanged = args.flanged.map(|told| told == YesNo::Yes);
    let Some(key) = &args.part else {
        return Ok(lay.map(|lay| Part {
            name: String::from("the part in hand"),
            lay: Some(lay),
            cited: None,
            how: String::from("measured"),
            flanged: flanged.unwrap_or(false),
        }));
    };
    let site = &pipe.notes.site;
    if let Some(any) = site.lays.iter().find(|one| one.key == *key) {
        let fixed = site.lay(key, pipe.nominal);
        return Ok(Some(Part {
            name: any.name.clone(),
            cited: fixed.filter(|_| lay.is_none()).map(|one| one.cited.clone()),
            lay: lay.or(fixed.map(|one| Distance::inches(one.inches.get()))),
            how: any.how.clone(),
            flanged: flanged.unwrap_or(true),
        }));
    }
    let at = pipe
        .notes
        .joints
        .parts
        .iter()
        .position(|part| part.key == *key);
    let Some(at) = at.and_then(|at| u8::try_from(at).ok()) else {
        let mut keys: Vec<&str> = Vec::new();
        for one in &site.lays {
            if !keys.contains(&one.key.as_str()) {
                keys.push(&one.key);
            }
        }
        bail!(
            "no part \"{key}\"\n  try one of: {}\n  or a key of springline fits {} {}, or --lay alone",
            keys.join(", "),
            pipe.known.family,
            pipe.known.nominal
        );
    };
    let record = pipe.image.part(at);
    Ok(Some(Part {
        name: pipe.image.phrase(record.name).to_string(),
        lay,
        cited: None,
        how: String::from(if lay.is_some() {
            "measured"
        } else {
            "its laying length"
        }),
        flanged: flanged.unwrap_or_else(|| key.contains("flange")),
    }))
}

/// Every place where two things meet, from one side to the other.
pub(super) fn terms(pipe: &Pipe<'_>, args: &CutArgs, part: Option<&Part>) -> Result<Vec<Term>> {
    let gap = pipe::by_tape(args.gap.as_ref(), pipe.unit)?;
    let side = |meet: MeetArg, depth: Option<&String>| {
        let depth = pipe::by_tape(depth, pipe.unit)?;
        term(pipe, gap, meet, depth)
    };
    let first = side(args.from, args.from_depth.as_ref())?;
    let Some(part) = part else {
        return Ok(vec![first, side(args.to, args.to_depth.as_ref())?]);
    };
    let joint = || {
        side(
            if part.flanged {
                MeetArg::Flange
            } else {
                MeetArg::Plain
            },
            None,
        )
    };
    if args.pieces == 2 {
        let last = side(args.to, args.to_depth.as_ref())?;
        return Ok(vec![first, joint()?, joint()?, last]);
    }
    // The part itself meets the second side: a pipe that goes into it, a flange on its flange, or a centre line.
    let last = match (args.to, part.flanged) {
        (MeetArg::Plain, false) | (MeetArg::Flange, true) => joint()?,
        (MeetArg::Centre, _) => side(MeetArg::Centre, None)?,
        (_, flanged) => {
            let takes = if flanged { "flange" } else { "plain" };
            bail!(
                "that end does not go on the part: with one piece the part itself meets the second side\n  try: --to {takes} or --to centre, or --pieces 2"
            )
        }
    };
    Ok(vec![first, joint()?, last])
}

/// A place where the piece, or pipe that is there, meets something: with the gap that was told, and the depth of its bell.
pub(crate) fn term(
    pipe: &Pipe<'_>,
    told: Option<Distance>,
    meet: MeetArg,
    depth: Option<Distance>,
) -> Result<Term> {
    let unit = pipe.unit;
    let usual = pipe.figure("gap")?;
    let gap = told.unwrap_or(Distance::inches(usual.value.get()));
    let mut cited: Vec<Cited> = Vec::new();
    if told.is_none() {
        cited.push(usual.cited.clone());
    }
    let end = match meet {
        MeetArg::Plain => {
            return Ok(Term {
                words: format!("less {} of gap", tape(gap, unit)),
                meeting: Some(Meeting::Apart(gap)),
                cited,
            });
        }
        MeetArg::Flange => {
            let gasket = pipe.figure("gasket")?;
            let thick = Distance::inches(gasket.value.get());
            return Ok(Term {
                words: format!("less {} of gasket", tape(thick, unit)),
                meeting: Some(Meeting::Gasket(thick)),
                cited: vec![gasket.cited.clone()],
            });
        }
        MeetArg::Centre => {
            return Ok(Term {
                words: String::from("and nothing and nothing to the centre line"),
                meeting: Some(Meeting::Point),
                cited: Vec::new(),
            });
        }
        MeetArg::Mj => "MJ",
        MeetArg::Bell => "the bell",
        MeetArg::Solvent40 => "solvent socket Sch 40",
        MeetArg::Solvent80 => "solvent socket Sch 80",
    };
    // Glue goes home.
    let glued = matches!(meet, MeetArg::Solvent40 | MeetArg::Solvent80);
    let gap = if glued && told.is_none() {
        cited.clear();
        Distance::ZERO
    } else {
        gap
    };
    let assembly = &pipe.notes.assembly;
    let fixed = pipe.quarters().and_then(|size| match meet {
        MeetArg::Mj => assembly
            .mechanical_depth(size)
            .map(|(deep, from)| (*deep, from)),
        MeetArg::Solvent40 => assembly.socket_depth("40", size),
        MeetArg::Solvent80 => assembly.socket_depth("80", size),
        _ => None,
    });
    let name = if fixed.is_some() { end } else { "the bell" };
    let known = depth.or(fixed.map(|(counts, _)| pipe::inches(counts)));
    let short = if gap > Distance::ZERO {
        format!(", {} short of its stop", tape(gap, unit))
    } else {
        String::new()
    };
    let Some(deep) = known else {
        return Ok(Term {
            words: format!("and ____ into the bell, lip to stop{short}"),
            meeting: None,
            cited,
        });
    };
    if depth.is_none() {
        cited.extend(fixed.map(|(_, from)| from.clone()));
    }
    Ok(Term {
        words: format!("and {} into {name}{short}", tape(deep - gap, unit)),
        meeting: Some(Meeting::Into { depth: deep, gap }),
        cited,
    })
}
