//! What the files of jobs hold.

use serde::{Deserialize, Serialize};

use springline_core::image::Grade;

use super::build::Build;
use crate::joints::Condition;

/// Makes an enum whose cases are words of the files.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$case_doc:meta])* $case:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum $name {
            $($(#[$case_doc])* $case,)+
        }

        impl $name {
            /// Every one with its word, in the order of the type.
            pub const WORDS: &'static [(&'static str, Self)] = &[$(($word, Self::$case)),+];

            /// The word for it in files and JSON.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$case => $word,)+
                }
            }
        }
    };
}

words! {
    /// What a line is about, in the order in which a crew meets it.
    Section {
        /// What must be known first.
        Ask = "ask",
        /// Parts beside those of the way.
        Part = "part",
        /// What parts are sold without.
        Accessory = "accessory",
        /// What is used up.
        Consumable = "consumable",
        /// Tools.
        Tool = "tool",
        /// Control wires on the main.
        Wire = "wire",
        /// What is loaded twice.
        Spare = "spare",
        /// What is shut, tagged and locked.
        Shut = "shut",
        /// What is dug, propped and pumped.
        Dig = "dig",
        /// Marks to make.
        Mark = "mark",
        /// Steps in their order.
        Work = "work",
        /// Water back.
        Recharge = "recharge",
    }
}

words! {
    /// Where a thing is pulled from.
    Place {
        /// On the shelf of a well-stocked yard.
        Counter = "counter",
        /// Days.
        Order = "order",
        /// Made up, one to three weeks.
        Shop = "shop",
        /// Made in this size by few: ask.
        Rare = "rare",
        /// What a crew has.
        Truck = "truck",
    }
}

words! {
    /// What a quantity counts.
    Count {
        /// Once for the job.
        Job = "job",
        /// Each joint that the line hangs on.
        Joint = "joint",
        /// Each part that it hangs on.
        Part = "part",
        /// Each cut through a pipe.
        Cut = "cut",
        /// Each wire that was cut.
        Wire = "wire",
        /// Each valve of a manifold.
        Valve = "valve",
        /// Each spacer that the carrier wants.
        Spacer = "spacer",
        /// Each joint between sticks of the carrier.
        CarrierJoint = "carrier-joint",
    }
}

words! {
    /// What may have been said of the site, or follows from the pipes.
    Circumstance {
        /// The pipe cannot be got dry.
        Wet = "wet",
        /// Nobody said whether it can.
        DryUnknown = "dry-unknown",
        /// Colder than glue and old PVC bear.
        Cold = "cold",
        /// Nobody said how cold it is.
        TempUnknown = "temp-unknown",
        /// When water must be back.
        Clock = "clock",
        /// Nobody said.
        ClockUnknown = "clock-unknown",
        /// Where the shut valve is.
        Valve = "valve",
        /// Nobody said.
        ValveUnknown = "valve-unknown",
        /// It is nearer than a stick of this pipe.
        ValveNear = "valve-near",
        /// Control wires were cut.
        Wires = "wires",
        /// Nobody said whether there are any.
        WiresUnknown = "wires-unknown",
        /// It is for drinking.
        Potable = "potable",
        /// It is not.
        NonPotable = "non-potable",
        /// Nobody said.
        WaterUnknown = "water-unknown",
        /// How long the damage is.
        Damage = "damage",
        /// Nobody said.
        DamageUnknown = "damage-unknown",
        /// Polyethylene and a gasketed bell are in it.
        Shrinks = "shrinks",
        /// The pipes differ in OD.
        TwoOds = "two-ods",
        /// They differ in material.
        TwoMaterials = "two-materials",
        /// Nobody said which class it is.
        ClassUnknown = "class-unknown",
        /// A piece of pipe is cut for it.
        Piece = "piece",
        /// Nobody said whose it is.
        OwnerUnknown = "owner-unknown",
        /// A branch was told.
        Branch = "branch",
        /// None was.
        NoBranch = "no-branch",
        /// The outlet is one that saddles and tap tees have, or was not told.
        SmallOutlet = "small-outlet",
        /// It is larger.
        LargeOutlet = "large-outlet",
        /// Nobody said how large it is.
        OutletUnknown = "outlet-unknown",
        /// Nobody said how many valves a manifold has.
        ValvesUnknown = "valves-unknown",
        /// Nobody said how long a road sleeve is.
        LengthUnknown = "length-unknown",
    }
}

/// A job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Job {
    /// The key in files, options and JSON.
    pub key: String,
    /// How it is typed, words with spaces between.
    pub words: String,
    /// What people read.
    pub name: String,
    /// It has a second pipe, a branch or a carrier.
    pub other: Option<String>,
    /// What is done, for cautions.
    pub task: springline_core::joint::Task,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// A way to do a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// The jobs, indices.
    pub jobs: Vec<usize>,
    /// The key within the job.
    pub key: String,
    /// What people read.
    pub name: String,
    /// It is for a pipe of which all of one of these hold; for any where there are none.
    pub when: Vec<Vec<Trigger>>,
    /// Parts as they lie.
    pub build: Build,
    /// What to know of it; may be empty.
    pub remark: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// What a line hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trigger {
    /// A condition as cautions have them, about one joint.
    Joint(Condition),
    /// The pipe of the joint is of this family.
    Family(usize),
    /// The part of the joint is this.
    Part(usize),
    /// The part of the joint does this in a straight run.
    Run(springline_core::joint::Run),
    /// The job is this.
    Job(usize),
    /// It was said, or follows.
    Said(Circumstance),
}

/// A line of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub section: Section,
    /// Its place among those of its section.
    pub order: u16,
    /// The key in files and JSON.
    pub key: String,
    /// It is due where all conditions of one of these hold.
    pub triggers: Vec<Vec<Trigger>>,
    /// How many, of what; none for what is not counted.
    pub quantity: Option<(u16, Count)>,
    /// Where it is pulled from; none for what is not loaded.
    pub place: Option<Place>,
    /// What is said.
    pub text: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// What is to know of a restraint when it is loaded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holder {
    /// The restraint, an index.
    pub restraint: usize,
    /// One goes across a whole part, not on each joint of it.
    pub across: bool,
    /// It takes the place of the gland in the pack.
    pub gland: bool,
    /// Whether its gasket and its bolts come with it, in words.
    pub brings: String,
    /// Where it is pulled from.
    pub place: Place,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// What a part weighs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weight {
    /// The parts, indices.
    pub parts: Vec<usize>,
    /// The nominal size.
    pub size: String,
    /// Pounds, give or take the rule `lift-band`.
    pub pounds: u16,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// How pipe of a family is sold.
#[derive(Clone, Debug, PartialEq)]
pub struct Stick {
    /// The family, an index.
    pub family: usize,
    /// Lengths, feet, the shortest first.
    pub feet: Vec<u8>,
    /// What a cubic inch of its wall weighs, pounds.
    pub density: f64,
    /// The joint end of its own bell; none where sticks are not joined so.
    pub bell: Option<usize>,
    /// The family of pieces that are cut to close a gap in it, where it is not made any more.
    pub piece: Option<usize>,
    /// Where it is pulled from.
    pub place: Place,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// A figure of practice.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// One of [`super::RULES`].
    pub key: String,
    /// How much.
    pub value: f64,
    /// Of what.
    pub unit: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// Everything in `jobs/`, read and checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Jobs {
    /// `jobs.csv`.
    pub jobs: Vec<Job>,
    /// `ways.csv`, those of a job in their order.
    pub ways: Vec<Way>,
    /// `lines.csv`.
    pub lines: Vec<Line>,
    /// `holders.csv`.
    pub holders: Vec<Holder>,
    /// `weights.csv`.
    pub weights: Vec<Weight>,
    /// `sticks.csv`.
    pub sticks: Vec<Stick>,
    /// `rules.csv`.
    pub rules: Vec<Rule>,
}
