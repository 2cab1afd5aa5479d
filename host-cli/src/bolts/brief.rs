//! The bolts of a joint in short, for the list of another verb.

use anyhow::Result;
use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image};

use super::flange::FlangeSaid;
use super::mechanical::MechanicalSaid;
use super::words::{self, Sourced};
use super::{BoltedArg, BoltsArgs, GasketArg, nominal, text};

/// What is said of the bolts of one joint.
pub(crate) struct Brief {
    /// Bolts of one joint.
    pub(crate) each: u16,
    /// What is said: `bolts`, `wrench`, `torque`, `order`, in words.
    pub(crate) lines: Vec<(&'static str, String)>,
    /// There is a torque.
    pub(crate) known: bool,
    /// Keys of sources.
    pub(crate) sources: Vec<String>,
    /// The weakest grade of them.
    pub(crate) grade: Grade,
}

/// Answers it.
pub(crate) fn brief(image: &Image<'_>, notes: &Notes, args: &BoltsArgs) -> Result<Brief> {
    let size = nominal(&args.size)?;
    Ok(match args.joint {
        BoltedArg::Flange => flange(&FlangeSaid::of(image, notes, size, args)?, args),
        BoltedArg::Mj => mechanical(&MechanicalSaid::of(image, notes, size, args)?, args),
    })
}

fn stands_on(all: &[Sourced]) -> (Vec<String>, Grade) {
    let mut sources: Vec<String> = Vec::new();
    for key in all.iter().flat_map(|one| &one.keys) {
        if !sources.contains(key) {
            sources.push(key.clone());
        }
    }
    let grade = all.iter().map(|one| one.grade).max();
    (sources, grade.unwrap_or(Grade::Memory))
}

fn flange(said: &FlangeSaid, args: &BoltsArgs) -> Brief {
    let unit = args.units.into();
    let (sources, grade) = stands_on(&said.why);
    let lines = if let Some(refused) = &said.refused {
        vec![("bolts", format!("NO: {refused}"))]
    } else {
        let torque = if args.gasket == GasketArg::Unknown && said.torque.is_err() {
            let why = text::flange_torque(said, unit);
            if why.contains("--gasket") {
                String::from(
                    "it hangs on the gasket: open the set and look, then say --gasket rubber or sheet. Unknown, no figure.",
                )
            } else {
                why
            }
        } else {
            text::flange_torque(said, unit)
        };
        vec![
            ("bolts", text::flange_bolts(said, unit)),
            ("wrench", text::wrench(said.set.bolt, unit)),
            ("torque", torque),
            (
                "order",
                format!(
                    "{} ROUNDS {}",
                    text::flange_order(said.set.bolts),
                    text::flange_rounds(said, unit)
                ),
            ),
        ]
    };
    Brief {
        each: said.count,
        lines,
        known: said.torque.is_ok(),
        sources,
        grade,
    }
}

fn mechanical(said: &MechanicalSaid, args: &BoltsArgs) -> Brief {
    let unit = args.units.into();
    let (sources, grade) = stands_on(&said.why);
    let set = &said.set;
    let bolt = words::bought(set.bolt, unit);
    let mark = words::mark(set.grade);
    let bolts = if said.restraint {
        format!(
            "{} T-bolts of {bolt}{mark}; how long is the restraint's to say, often longer than the plain pack's: by its sheet, no length is known here.",
            set.bolts
        )
    } else {
        text::mechanical_bolts(said, unit)
    };
    Brief {
        each: u16::from(set.bolts),
        lines: vec![
            ("bolts", bolts),
            ("wrench", text::wrench(set.bolt, unit)),
            ("torque", text::mechanical_torque(said, unit)),
            (
                "order",
                format!(
                    "{} ROUNDS {}",
                    text::mechanical_order(set.bolts),
                    text::mechanical_rounds(said, unit)
                ),
            ),
        ],
        known: true,
        sources,
        grade,
    }
}
