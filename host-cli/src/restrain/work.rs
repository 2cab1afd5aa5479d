//! From what was told to the answer: fitting and pressure first, then the ground, the plan and the block.

use anyhow::{Result, anyhow, bail};
use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image, Material, Set};
use springline_core::joint::{Act, Doing};
use springline_core::thrust::{
    Asked, Fitting, Line, Plan, Procedure, Site, Trench, plan_between, thrust, worst_between, wye,
};
use springline_core::unit::{Distance, Force, Pressure};

use super::answer::{Answer, Held, No, Until};
use super::args::{JointsArg, RestrainArgs};
use super::block::{Block, Concrete, block};
use super::ground::{self, Ground};
use super::held::joints;
use super::legs::legs;
use super::site;
use super::taken::Told;
use super::words::{refused, what};
use crate::fits::caution::due;
use crate::parse;
use crate::rating;

/// What was told, as quantities.
pub(super) struct Work<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) notes: &'a Notes,
    pub(super) args: &'a RestrainArgs,
    pub(super) fitting: Fitting,
    pub(super) line: Line,
    pub(super) pressure: Pressure,
    pub(super) force: Force,
    pub(super) cover: Distance,
}

/// A "no" out of common practice.
pub(super) fn practice(because: &str, instead: &str) -> No {
    No {
        stop: false,
        because: because.to_owned(),
        instead: instead.to_owned(),
        sources: vec![String::from("practice")],
        grade: Grade::Practice,
    }
}

impl Answer {
    /// Works out what there is to say of a pipe that is not refused.
    pub(super) fn work(
        &mut self,
        image: &Image<'_>,
        notes: &Notes,
        args: &RestrainArgs,
        material: Option<Material>,
    ) -> Result<()> {
        let line = site::line(image, &self.known);
        let (fitting, other) = site::fitting(image, notes, &self.known, args)?;
        self.other = other;
        self.what = what(args, &fitting, self.show, self.other.as_ref());
        self.pressures = site::pressures(args)?;
        self.governs = self.pressures.highest();
        let Some((governs, pressure)) = self.governs else {
            bail!("no pressure\n  try: --shutoff 130psi");
        };
        self.temperature = args
            .temp
            .as_ref()
            .map(|text| parse::temperature(text))
            .transpose()?;
        let Some(left) = rating::left(image, material, self.temperature) else {
            self.none = Some(practice(
                "this warm the pipe is not rated for pressure at all.",
                "Metal pipe, or ask its maker; --temp is the temperature of the wall.",
            ));
            return Ok(());
        };
        self.left = left;
        if let Some(no) = self.hold_to_class(image, (governs, pressure)) {
            self.none = Some(no);
            return Ok(());
        }
        let force = thrust(&fitting, &line, pressure);
        let cover = cover(args)?;
        let turn = fitting
            .angle()
            .map_or(0.0, springline_core::unit::Angle::in_degrees);
        if turn > 90.0 {
            let because = format!(
                "a change of direction above 90° in one fitting: the length runs away with tan(angle/2). Thrust {}.",
                self.show.force(force)
            );
            let instead = "Make it of two bends, each of 90° or less, and ask for each.";
            self.none = Some(practice(&because, instead));
            return Ok(());
        }
        self.thrust = Some(force);
        if let Fitting::EvenWye { branch, between } = fitting {
            self.back = wye(pressure, line.area(), branch.area(), between) > Force::ZERO;
        }
        let work = Work {
            image,
            notes,
            args,
            fitting,
            line,
            pressure,
            force,
            cover,
        };
        if let Some(procedure) = material.and_then(Procedure::of) {
            return self.hold(&work, procedure);
        }
        if material == Some(Material::Pe) {
            self.warnings.push(String::from(
                "HDPE shrinks when it cools and PULLS THE NEXT BELLS APART: restrain the gasketed line beyond the transition, or a wall anchor, which an engineer designs.",
            ));
            self.care(&work, &[]);
            self.block = block(&work)?;
        } else {
            self.none = Some(practice(
                "there is no procedure for this pipe: tube is soldered or flared, aluminum lies on the ground and is latched.",
                "Ask who made the joints what holds them.",
            ));
        }
        Ok(())
    }

    /// Cautions of who bolts up these joint ends.
    fn care(&mut self, work: &Work<'_>, ends: &[u8]) {
        let ends = Set(ends.iter().fold(0, |bits, end| bits | (1 << end)));
        let doing = Doing::new(Act::Bolt, ends, []);
        let rows = [self.known.pipe.row];
        self.cautions = due(work.image, work.notes, &rows, self.owner, doing);
    }

    /// What the ground holds.
    fn hold(&mut self, work: &Work<'_>, procedure: Procedure) -> Result<()> {
        let Work {
            image, notes, args, ..
        } = *work;
        let kinds = joints(image, notes, &self.known, self.joints);
        let ends: Vec<u8> = kinds.iter().map(|kind| kind.end).collect();
        self.care(work, &ends);
        if args.wrapped && procedure == Procedure::Pvc {
            bail!("--wrapped is of iron and steel in polyethylene\n  try: leave it out");
        }
        let ground = ground::ground(image, procedure, &args.soil)?;
        if matches!(ground, Ground::Refer) {
            self.none = Some(practice(
                &format!("{} holds nothing: no length and no block.", args.soil),
                "An engineer: piles, a tied line, or sound ground brought in.",
            ));
            return Ok(());
        }
        let (stick, stick_told) = site::stick(notes, &self.known, args)?;
        let (plan, safety) = work.plan(&ground, procedure, stick)?;
        let legs_of = plan.legs.iter().flatten();
        let asks = legs_of.clone().flat_map(|leg| {
            // Up to a stop that is met the length is the same in any soil.
            let asked = leg.own > Distance::ZERO || leg.met.is_none();
            let own = (asked && leg.length > Distance::ZERO).then_some(leg.soil);
            let beyond = (leg.beyond > Distance::ZERO).then_some(leg.beyond_soil);
            [own, beyond].into_iter().flatten().flatten()
        });
        let mut rows: Vec<u8> = asks.collect();
        if rows.is_empty() {
            rows.extend(legs_of.filter_map(|leg| leg.soil).next_back());
        }
        rows.sort_unstable();
        rows.dedup();
        self.block = block(work)?;
        self.say_of_block(notes);
        let mut held = Held {
            legs: legs(&work.fitting, &plan, stick, self.show),
            soils: rows
                .iter()
                .map(|row| image.soil_name(*row).to_owned())
                .collect(),
            procedure,
            safety,
            until: self.until(&plan),
            slick: ground::slick(image, procedure, &ground),
            stick,
            stops: site::stops(args)?,
            kinds,
            taken: Vec::new(),
            plan,
        };
        held.taken = Told {
            work,
            answer: self,
            held: &held,
            soil_known: matches!(ground, Ground::Row(_)),
            stick_known: stick_told,
        }
        .all(&rows);
        self.notes_on(&work.fitting, args, &held);
        self.held = Some(held);
        Ok(())
    }

    fn say_of_block(&mut self, notes: &Notes) {
        let Some(block) = &self.block else {
            return;
        };
        let hangs = matches!(block.concrete, Concrete::Weight(..));
        let due = |key: &str| matches!(key, "ground" | "film" | "mix") || key == "strap" && hangs;
        let texts = notes.thrust.blocks.iter().filter(|(key, ..)| due(key));
        self.block_texts = texts.map(|(_, text, _)| text.clone()).collect();
    }

    /// One answer for the open trench.
    fn until(&self, plan: &Plan) -> Until {
        if self.block.as_ref().is_some_and(Block::stands) {
            Until::Block
        } else if self.joints == JointsArg::Gasket {
            Until::Below(plan.until)
        } else {
            Until::EndToEnd
        }
    }
}

impl Work<'_> {
    /// The plan in this ground, and the safety factor in it. Of soil that nobody knows each side is by the worst row.
    fn plan(&self, ground: &Ground, procedure: Procedure, stick: Distance) -> Result<(Plan, f64)> {
        let (image, args) = (self.image, self.args);
        let trench = args.trench.map(Trench::from);
        let [stop, far, branch_stop] = site::stops(args)?;
        let asked = Asked {
            fitting: self.fitting,
            line: self.line,
            stop,
            branch_stop,
        };
        let soil = match ground {
            Ground::Row(row) => Some(ground::soil(image, *row, trench)?.0),
            // The core looks at every row that is used with this trench; any of them stands in here.
            _ => ground::rows(image, procedure)
                .into_iter()
                .find_map(|row| ground::soil(image, row, trench).ok())
                .map(|(soil, _)| soil),
        };
        let soil = soil.ok_or_else(|| {
            anyhow!("no soil of the tables is used with that trench\n  try: leave --trench out")
        })?;
        let constants = image.thrust_constants();
        let hundredths = |value: u16| f64::from(value) / 100.0;
        let wrapped = if args.wrapped {
            hundredths(constants.wrapped)
        } else {
            1.0
        };
        let at = Site {
            pressure: self.pressure,
            cover: self.cover,
            soil,
            wet: args.water,
            wrapped,
            safety: hundredths(constants.safety),
            stick,
        };
        let found = match ground {
            Ground::Row(row) => plan_between(&asked, far, &at).map(|mut plan| {
                let legs = plan.legs.iter_mut().flatten();
                legs.for_each(|leg| (leg.soil, leg.beyond_soil) = (Some(*row), Some(*row)));
                plan
            }),
            _ => worst_between(image, procedure, trench, (&asked, far), &at),
        };
        Ok((found.map_err(refused)?, at.safety))
    }
}

fn cover(args: &RestrainArgs) -> Result<Distance> {
    let depth = site::distance(Some(&args.depth), args.units.into())?.unwrap_or_default();
    if depth <= Distance::ZERO {
        bail!(
            "no cover, and nothing lies on the pipe: no length holds it\n  try: --depth 3ft, from grade to the top of the pipe"
        );
    }
    Ok(depth)
}
