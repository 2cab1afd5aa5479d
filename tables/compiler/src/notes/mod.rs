//! What only a desk shows: where every single datum comes from, and what other sources say.
//!
//! The notes travel beside the image, never inside it, and carry its digest so that one cannot be read with the other's
//! successor.

mod jobs;
mod joints;
mod print;
mod site;
mod thrust;

use serde::{Deserialize, Serialize};

pub use jobs::{
    ConditionNote, HolderNote, JobNote, JobNotes, LineNote, StickNote, TriggerNote, WayNote,
    WeightNote,
};
pub use joints::{CautionNote, EndNote, JointNotes, OutletNote, PartNote};
pub use print::PrintNotes;
pub use site::{
    FigureNote, FixedNote, LimitNote, Most, Number, SiteCaution, SiteNotes, SizeNote,
    StiffnessNote, TapNote, WaterNote, WhenNote,
};
pub use thrust::{BearingNote, BearingTableNote, ConstantNote, ThrustNotes};

use crate::assembly::Assembly;
use crate::model::{self, Datum, Sources};

/// A value as written for people, where it comes from, and its grade by [`springline_core::image::Grade::from_code`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cited {
    /// Indices into [`Notes::sources`].
    pub sources: Vec<u16>,
    /// The grade's code.
    pub grade: u8,
}

/// A source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SourceNote {
    /// How data refer to it.
    pub key: String,
    /// What it is.
    pub title: String,
    /// What kind of thing it is.
    pub kind: String,
    /// Where it was found.
    pub place: String,
}

/// One size of one series, as in the sources. Lengths in counts of 10 nm.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OdNote {
    /// The family, an index into the image's families.
    pub family: u8,
    /// The nominal size.
    pub nominal: String,
    /// Tells apart the ODs of a nominal; may be empty.
    pub variant: String,
    /// The series.
    pub series: String,
    /// Its standard.
    pub standard: String,
    /// The OD.
    pub od: (i64, Cited),
    /// Tolerance above and below, where one is known.
    pub tolerance: Option<(i64, i64, Cited)>,
    /// Out-of-round allowance each way, where one is known.
    pub out_of_round: Option<(i64, Cited)>,
}

/// One wall class of one size, as in the sources.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClassNote {
    /// The family, an index into the image's families.
    pub family: u8,
    /// The nominal size.
    pub nominal: String,
    /// Tells apart the ODs of a nominal; may be empty.
    pub variant: String,
    /// The series.
    pub series: String,
    /// What is printed.
    pub class: String,
    /// The wall in counts of 10 nm, where it is known.
    pub wall: Option<(i64, Cited)>,
    /// Whether that wall is the least allowed; else it is the nominal one.
    pub least: bool,
    /// The printed pressure in psi, where there is one.
    pub psi: Option<(u32, Cited)>,
    /// Why it breaks a rule of its series.
    pub exception: Option<String>,
}

/// Two sources that do not agree.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DifferenceNote {
    /// The family, an index into the image's families.
    pub family: u8,
    /// The row: nominal, variant, series, class.
    pub row: [String; 4],
    /// The column.
    pub field: String,
    /// The value that was kept, and the one that was not.
    pub values: [String; 2],
    /// Where each comes from, indices into [`Notes::sources`].
    pub sources: [Vec<u16>; 2],
    /// Why the first was kept.
    pub reason: String,
}

/// The host-only blob.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Notes {
    /// SHA-256 of the image that these notes are of.
    pub image: [u8; 32],
    /// Every source.
    pub sources: Vec<SourceNote>,
    /// What the trade calls each family, too, by the image's families.
    pub also: Vec<Vec<String>>,
    /// Every size of every series.
    pub od: Vec<OdNote>,
    /// Every wall class.
    pub classes: Vec<ClassNote>,
    /// Every difference between sources.
    pub differences: Vec<DifferenceNote>,
    /// Joints.
    pub joints: JointNotes,
    /// Print lines.
    pub print: PrintNotes,
    /// Thrust.
    pub thrust: ThrustNotes,
    /// Surge, water and digging.
    pub site: SiteNotes,
    /// How joints are made up.
    pub assembly: Assembly,
    /// Jobs.
    pub jobs: JobNotes,
}

fn index(at: usize) -> u8 {
    u8::try_from(at).unwrap_or(u8::MAX)
}

pub(crate) fn indices(sources: &[usize]) -> Vec<u16> {
    sources
        .iter()
        .map(|at| u16::try_from(*at).unwrap_or(u16::MAX))
        .collect()
}

pub(crate) fn cited<T>(datum: &Datum<T>) -> Cited {
    Cited {
        sources: indices(&datum.sources),
        grade: datum.grade as u8,
    }
}

impl Notes {
    /// The notes of checked sources, for the image of this digest.
    #[must_use]
    pub fn of(sources: &Sources, image: [u8; 32]) -> Self {
        let each = || sources.families.iter().enumerate();
        Self {
            image,
            sources: sources
                .sources
                .iter()
                .map(|source| SourceNote {
                    key: source.key.clone(),
                    title: source.title.clone(),
                    kind: source.kind.clone(),
                    place: source.place.clone(),
                })
                .collect(),
            also: each().map(|(_, family)| family.also.clone()).collect(),
            od: each()
                .flat_map(|(at, family)| family.od.iter().map(move |row| od_note(at, row)))
                .collect(),
            classes: each()
                .flat_map(|(at, family)| family.classes.iter().map(move |row| class_note(at, row)))
                .collect(),
            differences: sources.differences.iter().map(difference_note).collect(),
            joints: JointNotes::of(&sources.joints),
            print: PrintNotes::of(&sources.print),
            thrust: ThrustNotes::of(&sources.thrust),
            site: sources.site.clone(),
            assembly: sources.assembly.clone(),
            jobs: JobNotes::of(&sources.jobs),
        }
    }

    /// Reads notes that [`Self::to_bytes`] wrote.
    ///
    /// # Errors
    ///
    /// What postcard says of bytes that are not notes.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, postcard::Error> {
        postcard::from_bytes(bytes)
    }

    /// The notes as bytes.
    ///
    /// # Panics
    ///
    /// Never: plain values in memory can always be serialised.
    #[must_use]
    pub fn to_bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("plain values serialise")
    }
}

fn od_note(family: usize, row: &model::OdRow) -> OdNote {
    OdNote {
        family: index(family),
        nominal: row.nominal.clone(),
        variant: row.variant.clone(),
        series: row.series.clone(),
        standard: row.standard.clone(),
        od: (row.od.value, cited(&row.od)),
        tolerance: row
            .tolerance
            .as_ref()
            .map(|datum| (datum.value.plus, datum.value.minus, cited(datum))),
        out_of_round: row
            .out_of_round
            .as_ref()
            .map(|datum| (datum.value, cited(datum))),
    }
}

fn class_note(family: usize, row: &model::ClassRow) -> ClassNote {
    ClassNote {
        family: index(family),
        nominal: row.nominal.clone(),
        variant: row.variant.clone(),
        series: row.series.clone(),
        class: row.class.clone(),
        wall: row.wall.as_ref().map(|datum| (datum.value, cited(datum))),
        least: row.wall_kind == Some(model::WallKind::Min),
        psi: row.psi.as_ref().map(|datum| (datum.value, cited(datum))),
        exception: row.exception.clone(),
    }
}

fn difference_note(difference: &model::Difference) -> DifferenceNote {
    DifferenceNote {
        family: index(difference.family),
        row: [
            difference.nominal.clone(),
            difference.variant.clone(),
            difference.series.clone(),
            difference.class.clone(),
        ],
        field: difference.field.clone(),
        values: [difference.kept.clone(), difference.other.clone()],
        sources: [
            indices(&difference.kept_sources),
            indices(&difference.other_sources),
        ],
        reason: difference.reason.clone(),
    }
}
