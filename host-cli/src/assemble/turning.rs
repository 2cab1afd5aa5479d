//! How far a joint is turned, and where that leads.

use anyhow::{Result, anyhow};
use springline_compiler::assembly::DeflectionNote;
use springline_compiler::notes::Notes;
use springline_core::assembly::{Bell, Nominal, Turn, allowed, allowed_in_mechanical};
use springline_core::image::{Grade, Image, Material};
use springline_core::unit::{Angle, Distance};

use super::made::{Made, constant};
use super::{AssembleArgs, MadeArg};
use crate::bolts::words::Sourced;
use crate::parse;

/// How far it may be turned.
pub(super) struct Turning {
    pub(super) turn: Turn,
    pub(super) most: Angle,
    pub(super) grade: Grade,
    /// The part of it that owners allow.
    pub(super) owners: f64,
    pub(super) stick_told: bool,
    /// The figure is that of bare iron with a plain gland.
    pub(super) bare: bool,
    /// Joints for the turn of a line, with its degrees.
    pub(super) joints: Option<(f64, u16)>,
}

impl Made {
    /// How far it may be turned, and what that gives.
    pub(super) fn turns(
        &mut self,
        image: &Image<'_>,
        notes: &Notes,
        size: Option<Nominal>,
        material: Material,
        args: &AssembleArgs,
    ) -> Result<()> {
        let told = args.angle.as_deref().map(parse::angle).transpose()?;
        let line = args.turn.as_deref().map(parse::angle).transpose()?;
        let found = most(image, notes, self.joint, size, material, args.restraint);
        let (most, grade) = match found {
            Ok(found) => found,
            Err(why) => {
                self.no_turning = Some(why);
                if told.is_some_and(|angle| angle.in_degrees() > 0.0) || line.is_some() {
                    self.no = Some(format!(
                        "the joint is not to be turned: {why}. A bend does it."
                    ));
                }
                return Ok(());
            }
        };
        let bell = match self.joint {
            MadeArg::PushOn => Some(Bell::PushOn as u8),
            MadeArg::Bell => Some(Bell::Plastic as u8),
            _ => None,
        };
        let is = |one: &&DeflectionNote| {
            Some(one.bell) == bell
                && one.material == material as u8
                && size.is_some_and(|size| one.size >= size.in_quarters())
        };
        if let Some(note) = notes.assembly.deflections.iter().find(is) {
            self.why.push(Sourced::of(notes, "turning", &note.cited));
        }
        let stick = args.stick.as_deref();
        let stick = stick
            .map(|text| parse::distance(text, self.unit))
            .transpose()?;
        let stick_told = stick.is_some();
        let family = self.known.pipe.row.family;
        let listed = notes
            .assembly
            .sticks
            .iter()
            .find(|one| one.family == family);
        let stick = stick
            .filter(|stick| *stick > Distance::ZERO)
            .or(listed.map(|one| Distance::feet(f64::from(one.feet))))
            .ok_or_else(|| {
                anyhow!(
                    "the tables have no stick of {}\n  try: --stick 20ft",
                    self.known.family
                )
            })?;
        if let Some(listed) = listed.filter(|_| !stick_told) {
            self.why.push(Sourced::of(notes, "stick", &listed.cited));
        }
        let is_iron = material == Material::Iron;
        let (owners, from) = constant(notes, if is_iron { "owner-iron" } else { "owner-pvc" })?;
        if is_iron {
            self.why.push(from);
        }
        let at = told.unwrap_or(most);
        if at > most {
            self.no = Some(format!(
                "{:.1} degrees are more than the {:.1} that it may be turned: more joints, or a bend",
                at.in_degrees(),
                most.in_degrees()
            ));
        }
        let turn = Turn { stick, angle: at };
        let joints = line.and_then(|line| {
            let per = Turn {
                stick,
                angle: if at > most { most } else { at },
            };
            Some((line.in_degrees(), per.joints(line)?))
        });
        self.turning = Some(Turning {
            turn,
            most,
            grade,
            owners: if is_iron { owners } else { 1.0 },
            stick_told,
            bare: self.joint == MadeArg::Mj,
            joints,
        });
        Ok(())
    }
}

/// The most that a joint may be turned, or why there is no figure.
fn most(
    image: &Image<'_>,
    notes: &Notes,
    joint: MadeArg,
    size: Option<Nominal>,
    material: Material,
    restrained: bool,
) -> Result<(Angle, Grade), &'static str> {
    match (joint, size) {
        (_, None) => Err("no figure in the tables for this size: the maker's"),
        (MadeArg::Solvent, _) => Err("not at all: glue is rigid, and the barrel is not bent"),
        (MadeArg::Mj, Some(_)) if restrained => {
            Err("less than without a restraint: by the restraint's own sheet. None here")
        }
        (MadeArg::Mj, Some(_)) if material != Material::Iron => {
            Err("plan for none: MJ figures are for bare iron, and do not hold for this pipe")
        }
        (MadeArg::Mj, Some(size)) => allowed_in_mechanical(image, material, false, size)
            .map(|angle| (angle, minutes_grade(notes, size)))
            .ok_or("no figure in the tables for this size"),
        (MadeArg::Bell | MadeArg::PushOn, _) if restrained => {
            Err("a restraint takes most of it away: by its own sheet. None here")
        }
        (MadeArg::PushOn, Some(size)) => allowed(image, Bell::PushOn, material, size)
            .ok_or("no figure in the tables for this pipe in such a bell: the maker's"),
        (MadeArg::Bell, Some(size)) => allowed(image, Bell::Plastic, material, size)
            .ok_or("no figure in the tables for this pipe in such a bell: the maker's"),
    }
}

/// How far the turn of a mechanical joint can be trusted.
fn minutes_grade(notes: &Notes, size: Nominal) -> Grade {
    let mut joints = notes.assembly.mechanical.iter();
    let note = joints.find(|note| note.size == size.in_quarters());
    let grade = note
        .and_then(|note| note.minutes.as_ref())
        .map(|(_, cited)| cited.grade);
    grade.and_then(Grade::from_code).unwrap_or(Grade::Memory)
}
