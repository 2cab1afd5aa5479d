//! Notes on thrust: where soil rows and constants come from, how blocks bear.

use serde::{Deserialize, Serialize};

use super::{Cited, indices};
use crate::thrust::{Origin, Thrust};

/// A constant as it is written, and where it comes from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ConstantNote {
    /// Its key.
    pub key: String,
    /// Its value.
    pub value: f64,
    /// Its unit.
    pub unit: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// A table of bearing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BearingTableNote {
    /// The key in options and JSON.
    pub key: String,
    /// What it is called.
    pub name: String,
    /// Factor on the thrust.
    pub factor: f64,
    /// It is taken where none is named.
    pub default: bool,
    /// What is to be known of it.
    pub remark: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// How a soil bears.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BearingNote {
    /// Index into the tables.
    pub table: usize,
    /// What the table calls the soil.
    pub soil: String,
    /// Words that are taken for it.
    pub words: Vec<String>,
    /// From this depth of the block's middle on, feet.
    pub depth: f64,
    /// Bearing, psf.
    pub psf: f64,
    /// Where it comes from.
    pub cited: Cited,
}

/// What only a desk shows of thrust, by the indices of the image.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ThrustNotes {
    /// Where each soil comes from.
    pub soils: Vec<Cited>,
    /// Where the trench factors come from.
    pub trenches: Vec<Cited>,
    /// Where each word comes from.
    pub words: Vec<Cited>,
    /// Constants.
    pub constants: Vec<ConstantNote>,
    /// Tables of bearing.
    pub tables: Vec<BearingTableNote>,
    /// Their rows.
    pub bearings: Vec<BearingNote>,
    /// What is said of blocks: key, text, where it comes from.
    pub blocks: Vec<(String, String, Cited)>,
}

impl ThrustNotes {
    /// The notes on checked files.
    pub(super) fn of(thrust: &Thrust) -> Self {
        let cited = |origin: &Origin| Cited {
            sources: indices(&origin.sources),
            grade: origin.grade as u8,
        };
        Self {
            soils: thrust.soils.iter().map(|one| cited(&one.origin)).collect(),
            trenches: thrust
                .trenches
                .iter()
                .map(|one| cited(&one.origin))
                .collect(),
            words: thrust.words.iter().map(|one| cited(&one.origin)).collect(),
            constants: thrust
                .constants
                .iter()
                .map(|one| ConstantNote {
                    key: one.key.clone(),
                    value: one.value,
                    unit: one.unit.clone(),
                    cited: cited(&one.origin),
                })
                .collect(),
            tables: thrust
                .tables
                .iter()
                .map(|one| BearingTableNote {
                    key: one.key.clone(),
                    name: one.name.clone(),
                    factor: one.factor,
                    default: one.default,
                    remark: one.remark.clone(),
                    cited: cited(&one.origin),
                })
                .collect(),
            bearings: thrust
                .bearings
                .iter()
                .map(|one| BearingNote {
                    table: one.table,
                    soil: one.soil.clone(),
                    words: one.words.clone(),
                    depth: one.depth,
                    psf: one.psf,
                    cited: cited(&one.origin),
                })
                .collect(),
            blocks: thrust
                .blocks
                .iter()
                .map(|one| (one.key.clone(), one.text.clone(), cited(&one.origin)))
                .collect(),
        }
    }
}
