//! Notes on jobs: what is loaded and done for each. Nothing of it is on a device.

use serde::{Deserialize, Serialize};

use super::{Cited, indices};
use crate::jobs::{Build, Circumstance, Count, Jobs, Place, Section, Trigger};
use crate::joints::Condition;

/// What only a desk knows of jobs, by the indices of the image.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct JobNotes {
    /// Jobs.
    pub jobs: Vec<JobNote>,
    /// Ways, those of a job in their order.
    pub ways: Vec<WayNote>,
    /// Lines by section, in their order.
    pub lines: Vec<LineNote>,
    /// What is to know of restraints that are loaded.
    pub holders: Vec<HolderNote>,
    /// What parts weigh.
    pub weights: Vec<WeightNote>,
    /// How pipe is sold.
    pub sticks: Vec<StickNote>,
    /// Figures of practice: key, value, unit.
    pub rules: Vec<(String, f64, String, Cited)>,
}

/// A job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobNote {
    /// The key in files, options and JSON.
    pub key: String,
    /// How it is typed.
    pub words: String,
    /// What people read.
    pub name: String,
    /// What its other pipe is, where it has one.
    pub other: Option<String>,
    /// A [`springline_core::joint::Task`].
    pub task: u8,
    /// Where it comes from.
    pub cited: Cited,
}

/// A way to do a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WayNote {
    /// The jobs, indices.
    pub jobs: Vec<u16>,
    /// The key within the job.
    pub key: String,
    /// What people read.
    pub name: String,
    /// It is for a pipe of which all of one of these hold.
    pub when: Vec<Vec<TriggerNote>>,
    /// Parts as they lie.
    pub build: Build,
    /// What to know of it; may be empty.
    pub remark: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// A condition by the codes of the image.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ConditionNote {
    /// Nothing.
    Always,
    /// A [`springline_core::joint::Act`].
    Act(u8),
    /// Joint ends, a bit each.
    Ends(u64),
    /// A [`springline_core::image::Material`].
    Material(u8),
    /// [`springline_core::image::Carries`].
    Carries(u8),
    /// An OD system, an index.
    System(u8),
    /// A [`springline_core::joint::Task`].
    Task(u8),
    /// A [`springline_core::joint::Owner`].
    Owner(u8),
}

impl ConditionNote {
    fn of(condition: Condition) -> Self {
        match condition {
            Condition::Always => Self::Always,
            Condition::Act(act) => Self::Act(act as u8),
            Condition::Ends(ends) => Self::Ends(ends.0),
            Condition::Material(material) => Self::Material(material as u8),
            Condition::Carries(carries) => Self::Carries(carries as u8),
            Condition::System(system) => Self::System(u8::try_from(system).unwrap_or(u8::MAX)),
            Condition::Task(task) => Self::Task(task as u8),
            Condition::Owner(owner) => Self::Owner(owner as u8),
        }
    }
}

/// What a line hangs on, by the codes of the image.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TriggerNote {
    /// A condition as cautions have them, about one joint.
    Joint(ConditionNote),
    /// The family of the pipe of the joint.
    Family(u8),
    /// The part of the joint.
    Part(u8),
    /// A [`springline_core::joint::Run`] of the part of the joint.
    Run(u8),
    /// The job, an index.
    Job(u16),
    /// It was said, or follows.
    Said(Circumstance),
}

/// A line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LineNote {
    /// What it is about.
    pub section: Section,
    /// The key in files and JSON.
    pub key: String,
    /// It is due where all conditions of one of these hold.
    pub triggers: Vec<Vec<TriggerNote>>,
    /// How many, of what.
    pub quantity: Option<(u16, Count)>,
    /// Where it is pulled from.
    pub place: Option<Place>,
    /// What is said.
    pub text: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// What is to know of a restraint.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HolderNote {
    /// The restraint, an index.
    pub restraint: u8,
    /// One goes across a whole part.
    pub across: bool,
    /// It takes the place of the gland in the pack.
    pub gland: bool,
    /// Whether its gasket and its bolts come with it, in words.
    pub brings: String,
    /// Where it is pulled from.
    pub place: Place,
    /// Where it comes from.
    pub cited: Cited,
}

/// What some parts weigh in a size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WeightNote {
    /// The parts, indices.
    pub parts: Vec<u8>,
    /// The nominal size.
    pub size: String,
    /// Pounds.
    pub pounds: u16,
    /// Where it comes from.
    pub cited: Cited,
}

/// How pipe of a family is sold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StickNote {
    /// The family, an index.
    pub family: u8,
    /// Lengths, feet, the shortest first.
    pub feet: Vec<u8>,
    /// What a cubic inch of its wall weighs, pounds.
    pub density: f64,
    /// The joint end of its own bell.
    pub bell: Option<u8>,
    /// The family of pieces that close a gap in it, where it is not made any more.
    pub piece: Option<u8>,
    /// Where it is pulled from.
    pub place: Place,
    /// Where it comes from.
    pub cited: Cited,
}

/// Tables are small: what no index of the image holds is not read.
fn byte(at: usize) -> u8 {
    u8::try_from(at).unwrap_or(u8::MAX)
}

fn word(at: usize) -> u16 {
    u16::try_from(at).unwrap_or(u16::MAX)
}

fn triggers(all: &[Vec<Trigger>]) -> Vec<Vec<TriggerNote>> {
    let note = |one: &Trigger| match *one {
        Trigger::Joint(condition) => TriggerNote::Joint(ConditionNote::of(condition)),
        Trigger::Family(at) => TriggerNote::Family(byte(at)),
        Trigger::Part(at) => TriggerNote::Part(byte(at)),
        Trigger::Run(run) => TriggerNote::Run(run as u8),
        Trigger::Job(at) => TriggerNote::Job(word(at)),
        Trigger::Said(said) => TriggerNote::Said(said),
    };
    all.iter()
        .map(|all| all.iter().map(note).collect())
        .collect()
}

impl JobNotes {
    /// The notes on checked jobs.
    pub(super) fn of(jobs: &Jobs) -> Self {
        let cited = |sources: &[usize], grade: springline_core::image::Grade| Cited {
            sources: indices(sources),
            grade: grade as u8,
        };
        Self {
            jobs: jobs
                .jobs
                .iter()
                .map(|one| JobNote {
                    key: one.key.clone(),
                    words: one.words.clone(),
                    name: one.name.clone(),
                    other: one.other.clone(),
                    task: one.task as u8,
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            ways: jobs
                .ways
                .iter()
                .map(|one| WayNote {
                    jobs: one.jobs.iter().map(|at| word(*at)).collect(),
                    key: one.key.clone(),
                    name: one.name.clone(),
                    when: triggers(&one.when),
                    build: one.build.clone(),
                    remark: one.remark.clone(),
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            lines: jobs
                .lines
                .iter()
                .map(|one| LineNote {
                    section: one.section,
                    key: one.key.clone(),
                    triggers: triggers(&one.triggers),
                    quantity: one.quantity,
                    place: one.place,
                    text: one.text.clone(),
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            holders: jobs
                .holders
                .iter()
                .map(|one| HolderNote {
                    restraint: byte(one.restraint),
                    across: one.across,
                    gland: one.gland,
                    brings: one.brings.clone(),
                    place: one.place,
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            weights: jobs
                .weights
                .iter()
                .map(|one| WeightNote {
                    parts: one.parts.iter().map(|at| byte(*at)).collect(),
                    size: one.size.clone(),
                    pounds: one.pounds,
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            sticks: jobs
                .sticks
                .iter()
                .map(|one| StickNote {
                    family: byte(one.family),
                    feet: one.feet.clone(),
                    density: one.density,
                    bell: one.bell.map(byte),
                    piece: one.piece.map(byte),
                    place: one.place,
                    cited: cited(&one.sources, one.grade),
                })
                .collect(),
            rules: jobs
                .rules
                .iter()
                .map(|one| {
                    (
                        one.key.clone(),
                        one.value,
                        one.unit.clone(),
                        cited(&one.sources, one.grade),
                    )
                })
                .collect(),
        }
    }
}
