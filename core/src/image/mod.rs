//! The table image: plain records, checked once, then read in place.
//!
//! [`Image::new`] accepts any bytes. It never panics, does work bounded by a small multiple of their length, and either
//! names what is wrong or returns an image whose accessors cannot fail: every index is in range, every text is ASCII,
//! every law and share is within the bounds that the engine's integers were sized for. The layout is specified in
//! `tables/IMAGE.md` and lives here in [`record`], for the compiler as for the reader.

mod assembly;
mod check;
mod derating;
mod directory;
mod joint;
mod kind;
pub mod layout;
mod print;
mod rated;
pub mod record;
mod settings;
mod thrust;

use core::fmt;

use crate::clue::Told;

pub use assembly::{Cure, Deflection, Flange, Mechanical, Socket};
pub use directory::directory;
pub use joint::{
    Band, Caution, JointEnd, Listing, MARKS, MAX_WORDS, MatrixRow, Part, Phrase, Purchases,
    SHORT_WORDS, SamePurchase, Set, Touches, WordRun, code, is_mark,
};
pub use kind::{Carries, Grade, Material};
pub use print::{Marking, PrintSettings, PrintWord};
pub use rated::Rated;
pub use record::{
    Clue, ClueAnswer, Component, Derating, Family, Instrument, Law, Likelihood, ListedClass, Row,
    Section, System, Text,
};
pub use settings::Settings;
pub use thrust::{SoilRow, SoilWord, ThrustConstants, TrenchRow};

/// Why bytes are not an image.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum ImageError {
    /// Fewer bytes than a header, or than the header says.
    TooShort(usize),
    /// The magic number is not there.
    NotAnImage,
    /// A layout that this reader does not know.
    Format(u16),
    /// The check value does not match.
    Damaged,
    /// A section of this number is missing, has records of another size, overlaps, or lies outside the image.
    Section(u16),
    /// The record of this number in this section points outside its table or is out of range.
    Record(u16, usize),
}

impl fmt::Display for ImageError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort(bytes) => write!(f, "{bytes} bytes are too few for a table image"),
            Self::NotAnImage => f.write_str("not a table image"),
            Self::Format(version) => write!(f, "table image of unknown format {version}"),
            Self::Damaged => f.write_str("damaged table image: its check value does not match"),
            Self::Section(id) => write!(f, "table image with a bad section {id}"),
            Self::Record(id, index) => {
                write!(f, "table image with a bad record {index} in section {id}")
            }
        }
    }
}

impl core::error::Error for ImageError {}

/// A checked table image.
#[derive(Clone, Copy, Debug)]
pub struct Image<'a> {
    text: &'a [u8],
    settings: Settings,
    instruments: &'a [[u8; Instrument::SIZE]],
    systems: &'a [[u8; System::SIZE]],
    families: &'a [[u8; Family::SIZE]],
    laws: &'a [[u8; Law::SIZE]],
    sizes: &'a [[u8; Text::SIZE]],
    labels: &'a [[u8; Text::SIZE]],
    sources: &'a [[u8; Text::SIZE]],
    rows: &'a [[u8; Row::SIZE]],
    classes: &'a [[u8; ListedClass::SIZE]],
    class_lists: &'a [[u8; 2]],
    walls: &'a [[u8; 2]],
    deratings: &'a [[u8; Derating::SIZE]],
    clues: &'a [[u8; Clue::SIZE]],
    answers: &'a [[u8; ClueAnswer::SIZE]],
    likelihoods: &'a [[u8; Likelihood::SIZE]],
    joints: joint::Joints<'a>,
    print: print::Print<'a>,
    thrust: thrust::Thrust<'a>,
    assembly: assembly::Assembly<'a>,
}

/// A wall class of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Class {
    /// Wall, thousandths of an inch, zero where it is not known: minimum for plastics, nominal for metals.
    pub wall: u16,
    /// Working pressure at the reference temperature, psi, zero where it is not known.
    pub psi: u16,
    /// How far the wall can be trusted; `None` where there is none.
    pub grade: Option<Grade>,
    /// What is printed, an index into the labels.
    pub label: u8,
    /// Share within its row: sixteenths of a power of two below one.
    pub share: u8,
    /// The pipe variant that it makes, as joints tell pipes apart.
    pub variant: u8,
}

/// Reads one record of a table; a record of zeros for an index that is not in it, which a checked image never holds.
macro_rules! lookup {
    ($table:expr, $type:ty, $index:expr) => {
        match $table.get(usize::from($index)) {
            Some(bytes) => <$type>::from_bytes(bytes),
            None => <$type>::default(),
        }
    };
}
use lookup;

impl<'a> Image<'a> {
    /// Checks bytes and reads them in place. Accepts anything; the work is linear in the length.
    ///
    /// # Errors
    ///
    /// An [`ImageError`] that names the first thing found wrong.
    pub fn new(bytes: &'a [u8]) -> Result<Self, ImageError> {
        check::image(bytes)
    }

    /// The constants of the model.
    #[must_use]
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// How an instrument sees a diameter.
    #[must_use]
    pub fn instrument(&self, index: u8) -> Instrument {
        lookup!(self.instruments, Instrument, index)
    }

    /// An OD system.
    #[must_use]
    pub fn system(&self, index: u8) -> System {
        lookup!(self.systems, System, index)
    }

    /// Families.
    #[must_use]
    pub fn family_count(&self) -> usize {
        self.families.len()
    }

    /// A family.
    #[must_use]
    #[inline]
    pub fn family(&self, index: u8) -> Family {
        lookup!(self.families, Family, index)
    }

    /// Every family, in the order of their indices.
    pub fn families(&self) -> impl ExactSizeIterator<Item = Family> + 'a {
        self.families.iter().map(Family::from_bytes)
    }

    /// A squash law.
    #[must_use]
    #[inline]
    pub fn law(&self, index: u8) -> Law {
        lookup!(self.laws, Law, index)
    }

    /// What a single diameter of unknown direction sees under a squash law.
    #[inline]
    pub fn sight(&self, law: u8) -> impl Iterator<Item = Component> + use<'a> {
        self.components(law, 0..Law::SIGHT)
    }

    /// The ways of being squashed under a law.
    #[inline]
    pub fn squash(&self, law: u8) -> impl Iterator<Item = Component> + use<'a> {
        self.components(law, Law::SIGHT..Law::SIGHT + Law::SQUASH)
    }

    /// Components of a law that have a share, read one by one: the engine needs some of one for each row.
    #[inline]
    fn components(
        &self,
        law: u8,
        range: core::ops::Range<usize>,
    ) -> impl Iterator<Item = Component> + use<'a> {
        let parts: &'a [[u8; Component::SIZE]] = match self.laws.get(usize::from(law)) {
            Some(bytes) => bytes.as_chunks().0.get(range).unwrap_or(&[]),
            None => &[],
        };
        parts
            .iter()
            .map(Component::from_bytes)
            .filter(|part| part.weight > 0)
    }

    /// A nominal size as it is written: `6`, `1-1/2`, `DN150`, `160mm`.
    #[must_use]
    pub fn size(&self, index: u8) -> &'a str {
        self.text(lookup!(self.sizes, Text, index))
    }

    /// Nominal sizes.
    #[must_use]
    pub fn size_count(&self) -> usize {
        self.sizes.len()
    }

    /// OD systems.
    #[must_use]
    pub fn system_count(&self) -> usize {
        self.systems.len()
    }

    /// A variant or class name; the label of index 0 is empty.
    #[must_use]
    pub fn label(&self, index: u8) -> &'a str {
        self.text(lookup!(self.labels, Text, index))
    }

    /// The key of a source.
    #[must_use]
    pub fn source(&self, index: u8) -> &'a str {
        self.text(lookup!(self.sources, Text, index))
    }

    /// Rows.
    #[must_use]
    pub fn row_count(&self) -> usize {
        self.rows.len()
    }

    /// A row.
    #[must_use]
    #[inline]
    pub fn row(&self, index: u16) -> Row {
        lookup!(self.rows, Row, index)
    }

    /// Every row by low edge, from an index on.
    #[inline]
    pub fn rows_from(&self, index: usize) -> impl ExactSizeIterator<Item = Row> + 'a {
        self.rows
            .get(index..)
            .unwrap_or(&[])
            .iter()
            .map(Row::from_bytes)
    }

    /// The first row for which a condition that is false and then true along the order holds.
    pub(crate) fn first_row(&self, mut condition: impl FnMut(&Row) -> bool) -> usize {
        self.rows
            .partition_point(|bytes| !condition(&Row::from_bytes(bytes)))
    }

    /// The wall classes of a row.
    #[must_use]
    pub fn classes(&self, row: &Row) -> impl ExactSizeIterator<Item = Class> + use<'a> {
        let list = self.class_lists.get(usize::from(row.class_list));
        let from = list.map_or(0, |start| usize::from(u16::from_le_bytes(*start)));
        let first = usize::from(row.first_wall);
        let count = usize::from(row.classes);
        let listed = self.classes.get(from..from + count).unwrap_or(&[]);
        let walls = self.walls.get(first..first + count).unwrap_or(&[]);
        listed.iter().zip(walls).map(|(listed, wall)| {
            let listed = ListedClass::from_bytes(listed);
            Class {
                wall: u16::from_le_bytes(*wall),
                psi: listed.psi_and_grade & 0xfff,
                grade: Grade::from_code(listed.psi_and_grade.to_le_bytes()[1] >> 4),
                label: listed.label,
                share: listed.share,
                variant: listed.variant,
            }
        })
    }

    /// Every clue, in the order of their indices.
    pub fn clues(&self) -> impl ExactSizeIterator<Item = Clue> + 'a {
        self.clues.iter().map(Clue::from_bytes)
    }

    /// A clue.
    #[must_use]
    pub fn clue(&self, index: u8) -> Clue {
        lookup!(self.clues, Clue, index)
    }

    /// An answer of any clue, counted through all of them.
    #[must_use]
    pub fn clue_answer(&self, index: u8) -> ClueAnswer {
        lookup!(self.answers, ClueAnswer, index)
    }

    /// The clue of a key and its answer of a key, when there are such.
    #[must_use]
    pub fn find_clue(&self, clue: &str, answer: &str) -> Option<Told> {
        let (index, clue) = (0u8..)
            .zip(self.clues())
            .find(|(_, record)| self.packed_text(record.key) == clue)?;
        let answers = clue.first..clue.first.saturating_add(clue.answers);
        let answer = answers
            .into_iter()
            .find(|at| self.packed_text(self.clue_answer(*at).key) == answer)?;
        Some(Told {
            clue: index,
            answer,
        })
    }

    /// How often pipes of a family give an answer.
    #[must_use]
    pub fn likelihood(&self, answer: u8, family: u8) -> Likelihood {
        let at = usize::from(answer) * self.families.len() + usize::from(family);
        self.likelihoods
            .get(at)
            .map_or(Likelihood::of(0, 15), |bytes| {
                Likelihood::from_bytes(*bytes)
            })
    }

    /// A text, packed as offset and length in one number.
    #[must_use]
    pub fn packed_text(&self, packed: u32) -> &'a str {
        self.text(Text::from_bytes(&packed.to_le_bytes()))
    }

    pub(crate) fn text(&self, text: Text) -> &'a str {
        let start = usize::from(text.offset);
        self.text
            .get(start..start + usize::from(text.length))
            .and_then(|bytes| core::str::from_utf8(bytes).ok())
            .unwrap_or("")
    }
}
