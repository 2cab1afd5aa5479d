//! All that is said of a fitting, worked out once for people and for programs.

use anyhow::Result;
use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image, Material};
use springline_core::joint::{Doing, Owner, refusal};
use springline_core::thrust::{Governs, Plan, Pressures, Procedure, Stop};
use springline_core::unit::{Distance, Force, Pressure};

use super::args::{BackfillArg, FittingArg, JointsArg, RestrainArgs};
use super::block::{Block, Concrete};
use super::held::JointHeld;
use super::legs::LegSaid;
use super::show::Show;
use super::site;
use super::taken::Taken;
use crate::fits::caution::{Due, due};
use crate::fits::known::Known;
use crate::fits::sheet::keys;
use crate::rating::Rating;

/// What is done until backfill is in.
#[derive(Clone, Copy)]
pub(super) enum Until {
    /// Against a block that has cured.
    Block,
    /// Joints that hold themselves from end to end.
    EndToEnd,
    /// Below a pressure.
    Below(Pressure),
}

/// Soil that bare pipe does not drag on by its weight.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Slick {
    /// It was told.
    Told,
    /// It may be that: nobody knows.
    Feared,
}

/// Why there is no plan.
pub(super) struct No {
    pub(super) stop: bool,
    pub(super) because: String,
    pub(super) instead: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Grade,
}

/// What holds the fitting.
pub(super) struct Held {
    pub(super) plan: Plan,
    pub(super) legs: Vec<LegSaid>,
    /// Each row of soil that was reckoned with.
    pub(super) soils: Vec<String>,
    pub(super) procedure: Procedure,
    pub(super) safety: f64,
    pub(super) until: Until,
    /// Where the pipe would lie bare on soil without friction.
    pub(super) slick: Option<Slick>,
    pub(super) stick: Distance,
    /// What may stop the line, its other side and the branch.
    pub(super) stops: [Option<Stop>; 3],
    pub(super) kinds: Vec<JointHeld>,
    pub(super) taken: Vec<Taken>,
}

/// The answer.
pub(super) struct Answer {
    pub(super) known: Known,
    pub(super) other: Option<Known>,
    pub(super) fitting: FittingArg,
    pub(super) what: String,
    pub(super) joints: JointsArg,
    pub(super) open: bool,
    pub(super) told_open: bool,
    pub(super) owner: Owner,
    pub(super) show: Show,
    pub(super) pressures: Pressures,
    pub(super) governs: Option<(Governs, Pressure)>,
    pub(super) thrust: Option<Force>,
    /// That of an even wye goes back along its run, and not towards the fork.
    pub(super) back: bool,
    pub(super) held: Option<Held>,
    pub(super) block: Option<Block>,
    pub(super) block_texts: Vec<String>,
    /// The class that was told, with what it is rated for.
    pub(super) rated: Option<Rating>,
    /// Temperature of the wall that was told, hundredths of 1 °F.
    pub(super) temperature: Option<i32>,
    /// What it leaves of a rating.
    pub(super) left: f64,
    pub(super) warnings: Vec<String>,
    pub(super) none: Option<No>,
    pub(super) cautions: Vec<Due>,
}

impl Answer {
    /// Whether it is a "no".
    pub(super) fn no(&self) -> bool {
        let half = |block: &Block| matches!(block.concrete, Concrete::Half);
        self.none.is_some() || self.block.as_ref().is_some_and(half)
    }

    /// Works it out.
    pub(super) fn of(image: &Image<'_>, notes: &Notes, args: &RestrainArgs) -> Result<Self> {
        let known = site::find(
            image,
            notes,
            &args.family,
            &args.size,
            args.class.clone(),
            args,
        )?;
        let owner = Owner::from(args.owner);
        let show = Show(args.units.into());
        let family = image.family(known.pipe.row.family);
        let material = Material::from_code(family.material);
        let joined = args.joints.unwrap_or(match material {
            Some(Material::Pe) => JointsArg::Fused,
            _ => JointsArg::Gasket,
        });
        let mut answer = Self {
            other: None,
            fitting: args.fitting,
            what: String::new(),
            joints: joined,
            open: args.backfill != Some(BackfillArg::Done),
            told_open: args.backfill.is_some(),
            owner,
            show,
            pressures: Pressures::default(),
            governs: None,
            thrust: None,
            back: false,
            held: None,
            block: None,
            block_texts: Vec::new(),
            rated: None,
            temperature: None,
            left: 1.0,
            warnings: Vec::new(),
            none: None,
            cautions: due(image, notes, &[known.pipe.row], owner, Doing::default()),
            known,
        };
        if let Some(sealing) = refusal(image, &answer.known.pipe) {
            let cited = notes.joints.matrix.get(usize::from(sealing.row));
            answer.none = Some(No {
                stop: answer.known.stop,
                because: image.phrase(sealing.reason).to_string(),
                instead: String::from("No numbers are given for it."),
                sources: keys(notes, cited),
                grade: sealing.grade,
            });
            return Ok(answer);
        }
        answer.work(image, notes, args, material)?;
        Ok(answer)
    }
}
