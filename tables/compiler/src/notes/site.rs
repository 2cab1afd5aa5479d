//! Notes on surge, on water in a line and on digging: figures that only a desk reckons with.

use serde::{Deserialize, Serialize};
use springline_core::image::Grade;

use super::Cited;

/// A number that was read from a cell, so that it is one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Number(f64);

impl Eq for Number {}

impl Number {
    pub(crate) const fn new(value: f64) -> Self {
        Self(value)
    }

    /// The number.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// Sizes from one to another in inches, both in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SizeNote {
    /// The smallest; `None` for no end.
    pub from: Option<Number>,
    /// The largest; `None` for no end.
    pub to: Option<Number>,
}

impl SizeNote {
    /// Whether a size in inches is in it.
    #[must_use]
    pub fn holds(&self, inches: f64) -> bool {
        self.from.is_none_or(|from| from.get() <= inches)
            && self.to.is_none_or(|to| inches <= to.get())
    }
}

/// A set of constants for water.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WaterNote {
    /// Its key.
    pub set: String,
    /// How fast sound is in it, ft/s.
    pub sound_fps: Number,
    /// Its bulk modulus, psi.
    pub bulk_psi: Number,
    /// Where people know it from.
    pub what: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// How stiff the pipe of some families is for a short load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StiffnessNote {
    /// Indices of families.
    pub families: Vec<u8>,
    /// Modulus of elasticity, psi.
    pub psi: Number,
    /// Where that comes from.
    pub cited: Cited,
    /// Poisson's ratio.
    pub poisson: Number,
    /// Where that comes from.
    pub poisson_cited: Cited,
}

/// What working pressure and surge may be together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LimitNote {
    /// Indices of families.
    pub families: Vec<u8>,
    /// What the rule is called.
    pub rule: String,
    /// So many times the class with recurring surge.
    pub recurring: Number,
    /// So many times the class with occasional surge.
    pub occasional: Number,
    /// On top of it, psi.
    pub allowance_psi: Number,
    /// The rules of irrigation mains go with it: a speed, and a share of the rating where surge is not computed.
    pub irrigation: bool,
    /// Where it comes from.
    pub cited: Cited,
}

/// A figure by itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FigureNote {
    /// Its key.
    pub key: String,
    /// The figure, in the unit that its file says.
    pub value: Number,
    /// That unit.
    pub unit: String,
    /// What it is.
    pub what: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// A length of a part in the line that a standard fixes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FixedNote {
    /// The key of the part or the end.
    pub key: String,
    /// What people read.
    pub name: String,
    /// How it is measured.
    pub how: String,
    /// The sizes.
    pub sizes: SizeNote,
    /// Inches.
    pub inches: Number,
    /// Where it comes from.
    pub cited: Cited,
}

/// The most that an outlet may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Most {
    /// Half of the main.
    Half,
    /// A size, inches.
    Inches(Number),
}

/// How large an outlet may be on a main.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TapNote {
    /// A [`springline_core::joint::Owner`]; `None` for whoever's it is.
    pub owner: Option<u8>,
    /// Straight into the wall; else by saddle.
    pub direct: bool,
    /// Indices of families; none for every one.
    pub families: Vec<u8>,
    /// Classes as printed; none for every one.
    pub classes: Vec<String>,
    /// Sizes of the main.
    pub mains: SizeNote,
    /// The most.
    pub most: Most,
    /// What goes with it.
    pub what: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// What a caution of site work hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WhenNote {
    /// A line is filled, flushed or tested.
    Fill,
    /// A hole is dug.
    Dig,
    /// Pipe is cut.
    Cut,
    /// Surge is asked about.
    Surge,
    /// The pipe is of a [`springline_core::image::Material`].
    Material(u8),
    /// The hole is so many feet deep, or deeper.
    Depth(u8),
    /// The hole is deeper than so many feet.
    Beyond(u8),
}

/// A caution of site work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SiteCaution {
    /// The key in files and JSON.
    pub key: String,
    /// It is due where all conditions of one of these hold.
    pub when: Vec<Vec<WhenNote>>,
    /// The worst have the lowest number.
    pub order: u8,
    /// It may be folded away where there are many.
    pub fold: bool,
    /// One line.
    pub short: String,
    /// All of it.
    pub full: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// What only a desk knows of surge, water and digging.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SiteNotes {
    /// Sets of constants for water; the first is the usual one.
    pub waters: Vec<WaterNote>,
    /// Stiffness by family.
    pub stiffness: Vec<StiffnessNote>,
    /// What surge may be.
    pub limits: Vec<LimitNote>,
    /// Figures by key, of all three folders.
    pub figures: Vec<FigureNote>,
    /// Laying lengths.
    pub lays: Vec<FixedNote>,
    /// How large an outlet may be.
    pub taps: Vec<TapNote>,
    /// Cautions, the worst first.
    pub cautions: Vec<SiteCaution>,
}

impl SiteNotes {
    /// A figure by its key. Every key of the compiler's list is there in notes that it wrote.
    #[must_use]
    pub fn figure(&self, key: &str) -> Option<&FigureNote> {
        self.figures.iter().find(|figure| figure.key == key)
    }

    /// What a part's laying length is in a size, where a standard fixes it.
    #[must_use]
    pub fn lay(&self, part: &str, inches: f64) -> Option<&FixedNote> {
        fixed(&self.lays, part, inches)
    }
}

fn fixed<'a>(all: &'a [FixedNote], key: &str, inches: f64) -> Option<&'a FixedNote> {
    all.iter()
        .find(|one| one.key == key && one.sizes.holds(inches))
}

impl Cited {
    /// How far it can be trusted; `None` where nothing is graded.
    #[must_use]
    pub const fn graded(&self) -> Option<Grade> {
        Grade::from_code(self.grade)
    }
}
