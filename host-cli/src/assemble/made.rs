//! What is said of a joint: gathered once, for people and for programs.

use anyhow::{Result, anyhow, bail};
use springline_compiler::assembly::{QuantityNote, StepNote};
use springline_compiler::notes::Notes;
use springline_core::assembly::{Nominal, growth, movement};
use springline_core::image::{Image, Material, Set};
use springline_core::joint::{
    Act, Doing, Form, Owner, Sealing, Task, Verdict, best, holders, refusal,
};
use springline_core::numbers::nominal;
use springline_core::unit::{Distance, Temperature};

use super::times::Glue;
use super::turning::Turning;
use super::{AssembleArgs, MadeArg};
use crate::bolts::words::Sourced;
use crate::cli::{EndArg, FitsArgs};
use crate::fits::caution::{Due, due};
use crate::fits::known::Known;
use crate::fits::sheet::keys;
use crate::parse::{self, Unit};

/// A joint on a pipe.
pub(super) struct Made {
    pub(super) known: Known,
    pub(super) joint: MadeArg,
    pub(super) unit: Unit,
    /// Nothing is put on such pipe: why, and the sources.
    pub(super) refused: Option<(Sealing, String, Vec<String>)>,
    /// It does not go, or not so: why.
    pub(super) no: Option<String>,
    /// What must be ordered, cut or put in.
    pub(super) need: String,
    pub(super) end_name: String,
    pub(super) steps: Vec<(String, Sourced)>,
    pub(super) depth: Vec<String>,
    /// Where the mark is, where that is known.
    pub(super) mark: Option<Distance>,
    pub(super) turning: Option<Turning>,
    /// Why it is not turned.
    pub(super) no_turning: Option<&'static str>,
    /// Growth, with what of the length and the warming was told.
    pub(super) moves: Moves,
    pub(super) glue: Option<Glue>,
    /// What to bring: a count, its unit, what of, with remarks.
    pub(super) bring: Vec<Bring>,
    pub(super) holds: Vec<String>,
    pub(super) why: Vec<Sourced>,
    pub(super) cautions: Vec<Due>,
}

/// How much a length moves.
pub(super) struct Moves {
    pub(super) per_f: f64,
    /// Free length, degrees warmer, movement.
    pub(super) told: Option<(Distance, f64, Distance)>,
}

/// What to bring.
pub(super) struct Bring {
    pub(super) what: &'static str,
    pub(super) count: f64,
    pub(super) unit: &'static str,
    pub(super) remark: String,
}

impl Made {
    pub(super) fn of(image: &Image<'_>, notes: &Notes, args: &AssembleArgs) -> Result<Self> {
        let known = Known::find(image, notes, &asked(args))?;
        let pipe = known.pipe;
        let family = image.family(pipe.row.family);
        let mut made = Self {
            known,
            joint: args.joint,
            unit: args.units.into(),
            refused: None,
            no: None,
            need: String::new(),
            end_name: String::new(),
            steps: Vec::new(),
            depth: Vec::new(),
            mark: None,
            turning: None,
            no_turning: None,
            moves: moves(&family, args)?,
            glue: None,
            bring: Vec::new(),
            holds: Vec::new(),
            why: Vec::new(),
            cautions: Vec::new(),
        };
        let owner = Owner::from(args.owner);
        if let Some(sealing) = refusal(image, &pipe) {
            let from = keys(notes, notes.joints.matrix.get(usize::from(sealing.row)));
            let reason = image.phrase(sealing.reason).to_string();
            made.refused = Some((sealing, reason, from));
            made.cautions = due(image, notes, &[pipe.row], owner, Doing::default());
            return Ok(made);
        }
        let (end, sealing) = made.end(image, notes)?;
        made.end_name = image.phrase(image.joint_end(end).name).to_string();
        if sealing.verdict > Verdict::FitsWith {
            let reason = image.phrase(sealing.reason).to_string();
            made.no = Some(format!("{reason}. {}", others(image, notes, &made.known)));
        } else {
            made.need = image.phrase(sealing.need).to_string();
            made.gather(image, notes, end, args)?;
        }
        let doing = Doing::new(Act::Cut, Set(1 << end), [Task::Join]);
        made.cautions = due(image, notes, &[pipe.row], owner, doing);
        Ok(made)
    }

    /// The end of the tables that goes best on this pipe, of those that such a joint may have.
    fn end(&self, image: &Image<'_>, notes: &Notes) -> Result<(u8, Sealing)> {
        let found = best_end(image, notes, &self.known, self.joint);
        found.ok_or_else(|| anyhow!("the tables know no such joint on this pipe"))
    }

    /// Everything of a joint that goes.
    fn gather(
        &mut self,
        image: &Image<'_>,
        notes: &Notes,
        end: u8,
        args: &AssembleArgs,
    ) -> Result<()> {
        let row = self.known.pipe.row;
        let key = notes
            .joints
            .ends
            .get(usize::from(end))
            .map_or("", String::as_str);
        let material = Material::from_code(image.family(row.family).material);
        let material = material.ok_or_else(|| anyhow!("pipe of an unknown material"))?;
        self.steps = steps(notes, self.joint.key(), key, material);
        self.holds = holders(image, row, self.known.pipe.variants, end)
            .map(|(_, one)| image.phrase(one.name).to_string())
            .collect();
        let size = nominal(image, &row);
        self.depths(image, notes, size, args)?;
        self.turns(image, notes, size, material, args)?;
        if self.turning.is_none() {
            self.steps.retain(|(_, from)| from.what != "turn");
        }
        if self.joint == MadeArg::Solvent {
            let glue = Glue::of(image, notes, size, &self.known, args)?;
            self.no = self.no.take().or_else(|| glue.refused());
            self.glue = Some(glue);
        }
        self.bring(notes, size, args)
    }

    /// What to bring for so many joints.
    fn bring(&mut self, notes: &Notes, size: Option<Nominal>, args: &AssembleArgs) -> Result<()> {
        let what = match self.joint {
            MadeArg::Solvent => "cement",
            MadeArg::Bell | MadeArg::PushOn => "lubricant",
            MadeArg::Mj => return Ok(()),
        };
        let Some(size) = size else { return Ok(()) };
        let Some(note) = quantity(notes, what, size) else {
            return Ok(());
        };
        let from = Sourced::of(notes, what, &note.cited);
        let joints = f64::from(args.joints);
        let each = f64::from(note.joints) / 100.0;
        let count = |each: f64| (joints / each - 1e-9).ceil();
        if what == "cement" {
            let (times, _) = constant(notes, "primer-joints")?;
            let remark = |each: f64| format!("joints to a quart: {each}");
            self.bring.push(Bring {
                what: "cement",
                count: count(each),
                unit: "qt",
                remark: remark(each),
            });
            self.bring.push(Bring {
                what: "primer",
                count: count(each * times),
                unit: "qt",
                remark: remark(each * times),
            });
        } else {
            let (mud, _) = constant(notes, "mud")?;
            let others = if self.joint == MadeArg::Bell {
                ", iron's figure"
            } else {
                ""
            };
            self.bring.push(Bring {
                what: "lubricant",
                count: count(each),
                unit: "lb",
                remark: format!(
                    "joints to a pound: {each}{others}; {} lb in mud (common practice)",
                    count(each / mud)
                ),
            });
        }
        self.why.push(from);
        Ok(())
    }
}

/// How many joints a pound of lubricant or a quart of cement makes; a size between two takes the next larger one.
pub(super) fn quantity<'a>(
    notes: &'a Notes,
    what: &str,
    size: Nominal,
) -> Option<&'a QuantityNote> {
    let holds = |one: &&QuantityNote| one.what == what && one.size >= size.in_quarters();
    notes.assembly.quantities.iter().find(holds)
}

/// What `fits` would be asked.
fn asked(args: &AssembleArgs) -> FitsArgs {
    FitsArgs {
        family: args.family.clone(),
        size: args.size.clone(),
        class: args.class.clone(),
        end: EndArg::PlainSquare,
        job: None,
        owner: args.owner,
        part: None,
        outlet: None,
        angle: None,
        range: None,
        why: args.why,
        json: args.json,
        units: args.units,
    }
}

/// The end that goes best on a pipe, of those that such a joint may have.
fn best_end(
    image: &Image<'_>,
    notes: &Notes,
    known: &Known,
    joint: MadeArg,
) -> Option<(u8, Sealing)> {
    let pipe = &known.pipe;
    let of = |key: &&str| {
        let at = notes.joints.ends.iter().position(|held| held == key)?;
        let end = u8::try_from(at).ok()?;
        let best = best(image, &pipe.row, pipe.variants, Form::PlainSquare, end)?;
        Some((end, best.sealing))
    };
    let ends = joint.ends().iter().filter_map(of);
    ends.min_by_key(|(_, sealing)| sealing.verdict)
}

/// The joints that do go on a pipe.
fn others(image: &Image<'_>, notes: &Notes, known: &Known) -> String {
    let all = [
        MadeArg::Bell,
        MadeArg::PushOn,
        MadeArg::Mj,
        MadeArg::Solvent,
    ];
    let goes = |joint: &MadeArg| {
        let found = best_end(image, notes, known, *joint);
        found.is_some_and(|(_, sealing)| sealing.verdict <= Verdict::FitsWith)
    };
    let names: Vec<&str> = all.into_iter().filter(goes).map(MadeArg::key).collect();
    if names.is_empty() {
        format!(
            "None of these joints goes on it: springline fits {} {} says what does",
            known.family, known.nominal
        )
    } else {
        format!("These go: --joint {}", names.join(", "))
    }
}

/// The steps of a joint: those of its end instead of the general ones, of this material or of any.
fn steps(notes: &Notes, joint: &str, end: &str, material: Material) -> Vec<(String, Sourced)> {
    let serves = |one: &&StepNote| one.material.is_none_or(|code| code == material as u8);
    let of = |name: &str| -> Vec<&StepNote> {
        let all = notes.assembly.steps.iter();
        all.filter(serves).filter(|one| one.joint == name).collect()
    };
    let own = if end == joint { Vec::new() } else { of(end) };
    let mut found = Vec::new();
    for one in of(joint) {
        if !own.iter().any(|held| held.step == one.step) {
            found.push(one);
        }
    }
    let all = own.into_iter().chain(found);
    all.map(|one| {
        let text = one.text.trim_end_matches('.').to_owned();
        (text, Sourced::of(notes, &one.step, &one.cited))
    })
    .collect()
}

/// A constant of the tables and where it comes from.
pub(super) fn constant(notes: &Notes, key: &str) -> Result<(f64, Sourced)> {
    let found = notes.assembly.constants.iter().find(|held| held.key == key);
    let found =
        found.ok_or_else(|| anyhow!("the tables have no {key}\n  try: springline tables check"))?;
    Ok((
        f64::from(found.value) / 1000.0,
        Sourced::of(notes, key, &found.cited),
    ))
}

/// A temperature of the arguments.
pub(super) fn degrees(text: &str) -> Result<Temperature> {
    let hundredths = parse::temperature(text)?;
    Ok(Temperature::fahrenheit(f64::from(hundredths) / 100.0))
}

/// How much it moves, as far as length and temperatures are told.
fn moves(family: &springline_core::image::Family, args: &AssembleArgs) -> Result<Moves> {
    let per_f = growth(family);
    let told = match (&args.length, &args.temp, &args.runs) {
        (Some(length), Some(now), Some(runs)) => {
            let length = parse::distance(length, args.units.into())?;
            let warmer = degrees(runs)? - degrees(now)?;
            Some((
                length,
                warmer.in_fahrenheit(),
                movement(length, warmer, per_f),
            ))
        }
        (Some(length), ..) => {
            parse::distance(length, args.units.into())?;
            bail!("--length moves by a change of temperature\n  try: --temp 95F --runs 55F with it")
        }
        _ => None,
    };
    Ok(Moves { per_f, told })
}
