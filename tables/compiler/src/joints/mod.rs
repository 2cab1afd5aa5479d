//! Which joint ends seal on which pipe, what holds them, and what is one purchase.
//!
//! [`read_files`] takes the files of `joints/`, proves that the rows of the matrix tile its space exactly once, and hands
//! on typed values. [`Groups`] works out which rows of the OD tables are one purchase. A verdict is about sealing only;
//! what holds the joint is a [`Listing`] of `restraints.csv`. Nothing here is read by a device: what it is told goes
//! through the image.

mod bits;
mod cautions;
mod checks;
mod counts;
mod groups;
mod holds;
mod lists;
mod matrix;
mod model;
mod outlets;
mod parts;
mod piece;
mod reader;
mod sets;
mod space;
mod tile;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

pub use bits::{Band, Bits};
pub use counts::Counts;
pub use groups::{Groups, JOBS};
pub use model::{
    By, Caution, Condition, End, EndForm, Listing, MatrixRow, Part, Trigger, Variant, VariantPart,
};
pub use outlets::OutletRule;
pub use piece::Piece;
pub use space::{Cell, Space};
pub use springline_core::joint::{
    Act, Form, Job, Kind, Owner, Role, Stock, Task, Thread, Use, Verdict,
};

use crate::diagnostic::Diagnostic;
use crate::model::Sources;
pub(crate) use cautions::condition;
use checks::Must;
use lists::Dictionary;
pub(crate) use lists::{end_names, variant_names};
pub(crate) use reader::{Reader, split};
pub(crate) use sets::Names;

/// Everything in `joints/`, read and checked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Joints {
    /// `variants.csv`.
    pub variants: Vec<Variant>,
    /// `ends.csv`.
    pub ends: Vec<End>,
    /// `matrix.csv`.
    pub rows: Vec<MatrixRow>,
    /// `restraints.csv`.
    pub restraints: Vec<Listing>,
    /// `saddles.csv`.
    pub saddles: Vec<Listing>,
    /// `parts.csv`.
    pub parts: Vec<Part>,
    /// `outlets.csv`.
    pub outlets: Vec<OutletRule>,
    /// `cautions.csv`, the worst first.
    pub cautions: Vec<Caution>,
    /// The cells of the matrix.
    pub space: Space,
    cover: tile::Cover,
}

impl Joints {
    /// The row that is about a cell; `None` where the variant does not exist in that size.
    #[must_use]
    pub fn row(&self, cell: Cell) -> Option<&MatrixRow> {
        let index = self.space.index(cell)?;
        self.rows.get(usize::from(*self.cover.get(index)?))
    }

    /// How many cells there are by verdict and by grade.
    #[must_use]
    pub fn counts(&self) -> Counts {
        Counts::of(self)
    }

    /// The joint end of a key.
    #[must_use]
    pub fn end(&self, key: &str) -> Option<usize> {
        self.ends.iter().position(|end| end.key == key)
    }

    /// The variant of a key, `FAMILY/VARIANT`.
    #[must_use]
    pub fn variant(&self, key: &str) -> Option<usize> {
        self.variants.iter().position(|variant| variant.key == key)
    }
}

/// The files of the folder.
pub(crate) const FILES: [&str; 10] = [
    "joints/ends.csv",
    "joints/variants.csv",
    "joints/sets.csv",
    "joints/matrix.csv",
    "joints/restraints.csv",
    "joints/saddles.csv",
    "joints/parts.csv",
    "joints/runs.csv",
    "joints/outlets.csv",
    "cautions.csv",
];

/// Reads and checks the joint files among the files of a folder. The rest of the folder was read before, clean: a joint
/// speaks of families, sizes and classes.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<Joints, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let joints = gather(&mut reader, files);
    let found = reader.finish();
    match joints {
        Some(joints) if found.is_empty() => Ok(joints),
        _ => Err(found),
    }
}

fn gather<'a>(reader: &mut Reader<'a>, files: &'a BTreeMap<String, String>) -> Option<Joints> {
    let [
        ends,
        variants,
        sets,
        matrix,
        restraints,
        saddles,
        parts_file,
        runs_file,
        outlets_file,
        cautions_file,
    ] = FILES;
    let ends = reader.table(files, ends, lists::ENDS);
    let variants = reader.table(files, variants, lists::VARIANTS);
    let sets = reader.table(files, sets, lists::SETS);
    let matrix = reader.table(files, matrix, matrix::MATRIX);
    let restraints = reader.table(files, restraints, holds::RESTRAINTS);
    let saddles = reader.table(files, saddles, holds::SADDLES);
    let parts = reader.table(files, parts_file, parts::PARTS);
    let runs = reader.table(files, runs_file, parts::RUNS);
    let outlets = reader.table(files, outlets_file, outlets::COLUMNS);
    let cautions_table = reader.table(files, cautions_file, cautions::CAUTIONS);
    // Without what the others speak of, every word in them would be a mistake.
    let (end_table, variant_table, sets) = (ends?, variants?, sets?);
    let ends = lists::ends(reader, &end_table);
    let variants = lists::variants(reader, &variant_table);
    tile::classes(reader, &variants, &variant_table);
    let parts_read: usize = variants.iter().map(|variant| variant.parts.len()).sum();
    if ends.len() < end_table.rows.len() || parts_read < variant_table.rows.len() {
        return None;
    }
    let mut dictionary = Dictionary::new(reader, &variants, &ends);
    dictionary.sets(reader, &sets);

    let matrix = matrix?;
    let (rows, complete) = matrix::rows(reader, &dictionary, &matrix);
    let space = Space::new(reader.sources, &variants, &ends);
    let named = tile::Named {
        space: &space,
        variants: &variants,
        ends: &ends,
    };
    let cover = tile::tile(reader, named, &matrix, &rows, complete);
    let (restraints, saddles, part_table) = (restraints?, saddles?, parts?);
    let mut parts = parts::parts(reader, &dictionary, &part_table);
    // A part with a mistake in it would be unknown here.
    if parts.len() == part_table.rows.len() {
        parts::runs(reader, &mut parts, &runs?);
    }
    let joints = Joints {
        restraints: holds::listings(reader, &dictionary, &restraints, true),
        saddles: holds::listings(reader, &dictionary, &saddles, false),
        parts,
        outlets: outlets::outlets(reader, &outlets?),
        cautions: cautions::cautions(reader, &dictionary, &cautions_table?),
        variants,
        ends,
        rows,
        space,
        cover,
    };
    // A matrix with holes would echo them here.
    if reader.report.count() == 0 {
        let of = &joints.restraints;
        checks::listings(reader, &joints, &restraints, of, Must::Somewhere);
        let of = &joints.saddles;
        checks::listings(reader, &joints, &saddles, of, Must::Everywhere);
    }
    Some(joints)
}
