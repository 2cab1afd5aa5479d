//! Notes on joints: keys, and where verdicts come from.

use serde::{Deserialize, Serialize};

use super::{Cited, indices};
use crate::joints::{Joints, Listing};

/// What only a desk shows of joints, by the indices of the image.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct JointNotes {
    /// Keys of the joint ends.
    pub ends: Vec<String>,
    /// Key and name of the pipe variants.
    pub variants: Vec<(String, String)>,
    /// Where each row of the matrix comes from.
    pub matrix: Vec<Cited>,
    /// Key of each restraint, and where it comes from.
    pub restraints: Vec<(String, Cited)>,
    /// Key of each saddle, and where it comes from.
    pub saddles: Vec<(String, Cited)>,
    /// Parts, which devices do not know yet.
    pub parts: Vec<PartNote>,
}

/// A part: a set of joint ends.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartNote {
    /// The key in files and options.
    pub key: String,
    /// What people read.
    pub name: String,
    /// Its ends, as indices, a double one twice.
    pub ends: Vec<u8>,
    /// The sizes that it is made in, as they are written.
    pub sizes: String,
    /// Where it is got: the word of [`springline_core::joint::Stock`].
    pub stock: String,
    /// What to know of it; may be empty.
    pub remark: String,
    /// Of sizes and stock.
    pub cited: Cited,
}

impl JointNotes {
    /// The notes on checked joints.
    pub(super) fn of(joints: &Joints) -> Self {
        let cited = |sources: &[usize], grade: springline_core::image::Grade| Cited {
            sources: indices(sources),
            grade: grade as u8,
        };
        let listing = |one: &Listing| (one.key.clone(), cited(&one.sources, one.grade));
        let part = |part: &crate::joints::Part| PartNote {
            key: part.key.clone(),
            name: part.name.clone(),
            ends: part
                .ends
                .iter()
                .filter_map(|end| u8::try_from(*end).ok())
                .collect(),
            sizes: part.band.to_string(),
            stock: part.stock.key().to_owned(),
            remark: part.remark.clone(),
            cited: cited(&part.sources, part.grade),
        };
        let variants = joints.variants.iter();
        Self {
            ends: joints.ends.iter().map(|end| end.key.clone()).collect(),
            variants: variants
                .map(|one| (one.key.clone(), one.name.clone()))
                .collect(),
            matrix: joints
                .rows
                .iter()
                .map(|row| cited(&row.sources, row.grade))
                .collect(),
            restraints: joints.restraints.iter().map(listing).collect(),
            saddles: joints.saddles.iter().map(listing).collect(),
            parts: joints.parts.iter().map(part).collect(),
        }
    }
}
