//! Notes on joints: keys, and where verdicts come from.

use serde::{Deserialize, Serialize};

use super::{Cited, indices};
use crate::joints::{Caution, Joints, Listing, Piece};

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
    /// What is said of each joint end.
    pub made: Vec<EndNote>,
    /// What is said of each caution.
    pub cautions: Vec<CautionNote>,
    /// Parts.
    pub parts: Vec<PartNote>,
    /// What owners allow off a main.
    pub outlets: Vec<OutletNote>,
}

/// What an owner allows off a main by saddle or direct tap.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OutletNote {
    /// Whose it is, a [`springline_core::joint::Owner`].
    pub owner: u8,
    /// The sizes of main, sixty-fourths of an inch, both in it.
    pub mains: (u16, u16),
    /// The largest outlet, sixty-fourths of an inch.
    pub most: u16,
    /// How far taps are from each other, in.
    pub apart: u16,
    /// How far they are from a bell, in.
    pub bell: u16,
    /// Where it comes from.
    pub cited: Cited,
}

/// What only a desk says of a caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CautionNote {
    /// The key in files and JSON.
    pub key: String,
    /// All of it.
    pub full: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// What only a desk says of a joint end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EndNote {
    /// Its gasket; may be empty.
    pub gasket: String,
    /// What is ordered beside each such end; may be empty.
    pub pack: String,
    /// Tools and consumables.
    pub tools: String,
    /// The most that it takes, psi, where a limit of its own is known.
    pub psi: Option<u16>,
}

/// What only a desk says of a part.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartNote {
    /// The key in files and options.
    pub key: String,
    /// The sizes that it is made in, as they are written.
    pub sizes: String,
    /// What it is made as, where a counter must be told which.
    pub pieces: Vec<Piece>,
    /// What it comes with; may be empty.
    pub comes: String,
    /// What it is sold without; may be empty.
    pub less: String,
    /// What it will not do; may be empty.
    pub wont: String,
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
            sizes: part.band.to_string(),
            pieces: part.pieces.clone(),
            comes: part.comes.clone(),
            less: part.less.clone(),
            wont: part.wont.clone(),
            cited: cited(&part.sources, part.grade),
        };
        let caution = |one: &Caution| CautionNote {
            key: one.key.clone(),
            full: one.full.clone(),
            cited: cited(&one.sources, one.grade),
        };
        let end = |end: &crate::joints::End| EndNote {
            gasket: end.gasket.clone(),
            pack: end.pack.clone(),
            tools: end.tools.clone(),
            psi: end.psi,
        };
        let outlet = |one: &crate::joints::OutletRule| OutletNote {
            owner: one.owner as u8,
            mains: one.mains.measures(),
            most: one.most,
            apart: one.apart,
            bell: one.bell,
            cited: cited(&one.sources, one.grade),
        };
        let variants = joints.variants.iter();
        Self {
            ends: joints.ends.iter().map(|end| end.key.clone()).collect(),
            made: joints.ends.iter().map(end).collect(),
            cautions: joints.cautions.iter().map(caution).collect(),
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
            outlets: joints.outlets.iter().map(outlet).collect(),
        }
    }
}
