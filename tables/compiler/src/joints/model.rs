//! The joints as typed values: plain structs, one a row, in the order of the files.

use springline_core::image::{Carries, Grade, Material, Touches};

use super::bits::{Band, Bits};
use super::piece::Piece;
use springline_core::joint::{
    Act, Form, Kind, Owner, Role, Run, Stock, Task, Thread, Use, Verdict,
};

/// A joint end: what a part offers to the pipe.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a word of its file, and none hangs on another"
)]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// The key in files and options.
    pub key: String,
    /// What people read, at most 24 characters.
    pub name: String,
    /// What it is for.
    pub role: Role,
    /// Whether the purchase of a coupling hangs on it.
    pub coupling: bool,
    /// Whether the purchase of a saddle hangs on it.
    pub saddle: bool,
    /// Whether the purchase of a tap hangs on it.
    pub tap: bool,
    /// What it is asked for by.
    pub by: By,
    /// The same end with another gasket in it, an index.
    pub or: Option<usize>,
    /// It cannot be made up wet.
    pub dry: bool,
    /// It must cure before it takes pressure.
    pub cures: bool,
    /// Whether pipe comes with it, or it goes into another.
    pub form: EndForm,
    /// The most that it takes, psi, where a limit of its own is known.
    pub psi: Option<u16>,
    /// Its gasket; may be empty.
    pub gasket: String,
    /// What is ordered beside each such end, because it is sold without; may be empty.
    pub pack: String,
    /// Tools and consumables to make it up.
    pub tools: String,
    /// Of the end as such: indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}

/// What a joint end is beside what takes a pipe.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum EndForm {
    /// Nothing else.
    #[default]
    Other,
    /// A bell that pipe comes with.
    Bell,
    /// A spigot, which goes into the end of `or` and takes no pipe.
    Spigot,
}

/// What a joint end is asked for by at a counter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The OD system of the pipe, an index.
    System(usize),
    /// The range that holds the measured OD.
    Range,
    /// The class of the flange.
    Flange,
    /// The thread.
    Thread,
    /// The nominal size alone.
    Size,
}

/// A pipe as far as joints tell it apart: a family, or some classes of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variant {
    /// Index into the families.
    pub family: usize,
    /// The key: `FAMILY/VARIANT`.
    pub key: String,
    /// What people read, at most 24 characters.
    pub name: String,
    /// The classes that it covers; more than one where the classes depend on the size.
    pub parts: Vec<VariantPart>,
}

impl Variant {
    /// Whether a class of a size is of this variant.
    #[must_use]
    pub fn covers(&self, class: &str, size: crate::model::NominalSize) -> bool {
        self.parts.iter().any(|part| part.covers(class, size))
    }
}

/// Some classes in a band of sizes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VariantPart {
    /// The classes as printed; `None` for every one.
    pub classes: Option<Vec<String>>,
    /// The sizes.
    pub band: Band,
    /// Line in `joints/variants.csv`, from 1.
    pub line: usize,
}

impl VariantPart {
    /// Whether a class of a size is among them.
    #[must_use]
    pub fn covers(&self, class: &str, size: crate::model::NominalSize) -> bool {
        let named = |classes: &Vec<String>| classes.iter().any(|label| label == class);
        self.band.holds(size) && self.classes.as_ref().is_none_or(named)
    }
}

/// One row of the matrix: the verdict on every cell of a block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MatrixRow {
    /// Indices into [`super::Joints::variants`].
    pub variants: Bits,
    /// Indices into [`Form::ALL`].
    pub forms: Bits,
    /// Indices into [`super::Joints::ends`].
    pub ends: Bits,
    /// The sizes.
    pub band: Band,
    /// Whether it seals.
    pub verdict: Verdict,
    /// What the reason is about; always there unless it fits.
    pub kind: Option<Kind>,
    /// What must be ordered, cut or put in, at most 60 characters; empty where nothing must.
    pub need: String,
    /// Why, at most 60 characters.
    pub reason: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
    /// Line in `joints/matrix.csv`, from 1.
    pub line: usize,
}

impl MatrixRow {
    /// Whether it speaks of an end form.
    #[must_use]
    pub const fn has_form(&self, form: Form) -> bool {
        self.forms.has(form as usize)
    }
}

/// Something that is put on pipe and must be listed for its material and OD system: a restraint or a saddle body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listing {
    /// The key in files and options.
    pub key: String,
    /// What people read, at most 24 characters.
    pub name: String,
    /// Whether it holds there, or must not be used. A saddle is for use.
    pub used: Use,
    /// The pipe that it may go on: indices into [`super::Joints::variants`].
    pub variants: Bits,
    /// The material that it must be listed for; PVC and PVCO are one; `None` where all are alike.
    pub material: Option<Material>,
    /// The OD system that it must be listed for: index into the systems; `None` where all are alike.
    pub system: Option<usize>,
    /// The joint ends that it serves: indices into [`super::Joints::ends`].
    pub ends: Bits,
    /// The sizes that it is made in.
    pub band: Band,
    /// What to know of it, at most 60 characters; may be empty.
    pub remark: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
    /// Line in its file, from 1.
    pub line: usize,
}

/// A part: a set of ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// The key in files and options.
    pub key: String,
    /// What people read, at most 24 characters.
    pub name: String,
    /// Its ends, indices into [`super::Joints::ends`], a double one twice.
    pub ends: Vec<usize>,
    /// The sizes that it is made in.
    pub band: Band,
    /// What people are about to do when they ask for it.
    pub tasks: Vec<Task>,
    /// What is done to the pipe.
    pub act: Act,
    /// Where it is got.
    pub stock: Stock,
    /// Sizes that are got otherwise, at most two bands.
    pub others: Vec<(Band, Stock)>,
    /// The thread of its outlet and the sizes of it, bits for [`springline_core::image::Part::OUTLETS`].
    pub outlet: Option<(Thread, u16)>,
    /// What it does in a straight run, of `runs.csv`.
    pub run: Option<Run>,
    /// The smallest bend that it is made as, from one: 45, 22-1/2, 11-1/4; 0 for none.
    pub bends: u8,
    /// What it is made as, where a counter must be told which.
    pub pieces: Vec<Piece>,
    /// What it comes with; may be empty.
    pub comes: String,
    /// What it is sold without, beside the packs of its ends; may be empty.
    pub less: String,
    /// What it will not do; may be empty.
    pub wont: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
    /// Line in `joints/parts.csv`, from 1.
    pub line: usize,
}

/// What could hurt somebody.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// The key in files and JSON.
    pub key: String,
    /// It is due where all conditions of one of these hold.
    pub triggers: Vec<Vec<Condition>>,
    /// The same, joined.
    pub trigger: Trigger,
    /// The worst have the lowest number.
    pub order: u8,
    /// It may be folded away where there are many.
    pub fold: bool,
    /// One line.
    pub short: String,
    /// All of it.
    pub full: String,
    /// Indices into the sources.
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}

/// What a caution hangs on, joined: it is due of that pipe where one of the other things is done, or whatever is done where
/// there are none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trigger {
    /// The pipe.
    pub pipe: Touches,
    /// Indices into [`Act::ALL`].
    pub acts: Bits,
    /// Indices into [`Task::ALL`].
    pub tasks: Bits,
    /// Indices into [`super::Joints::ends`].
    pub ends: Bits,
}

/// What a caution hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Condition {
    /// Nothing: it is true of every trench.
    Always,
    /// What is done to the pipe.
    Act(Act),
    /// A joint end, a set of indices.
    Ends(Bits),
    /// What the pipe is made of.
    Material(Material),
    /// What it carries.
    Carries(Carries),
    /// Its OD system, an index.
    System(usize),
    /// What is to be done.
    Task(Task),
    /// Whose it is.
    Owner(Owner),
}
