//! What is read of `assembly/`: rows as they are shown, each with where it comes from. Lengths are counts of 10 nm.

use serde::{Deserialize, Serialize};

use crate::notes::Cited;

/// How flanges of a size are drilled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FlangeNote {
    /// Nominal size, quarters of an inch.
    pub size: u8,
    /// The code of its [`springline_core::assembly::Drilling`].
    pub drilling: u8,
    /// Outside diameter.
    pub od: i64,
    /// Bolt circle.
    pub circle: i64,
    /// Bolt hole, where it is known.
    pub hole: Option<i64>,
    /// Bolts.
    pub bolts: u8,
    /// Their diameter.
    pub bolt: i64,
    /// Where the drilling comes from.
    pub cited: Cited,
    /// Thickness of an iron flange and length of a bolt through two, where they are known.
    pub thick_and_length: Option<(i64, i64, Cited)>,
}

/// A mechanical joint of a size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MechanicalNote {
    /// Nominal size, quarters of an inch.
    pub size: u8,
    /// Depth of the socket.
    pub socket: (i64, Cited),
    /// Bolt circle.
    pub circle: i64,
    /// T-bolts.
    pub bolts: u8,
    /// Their diameter.
    pub bolt: i64,
    /// Their length with a plain gland.
    pub length: i64,
    /// Where the bolts come from.
    pub cited: Cited,
    /// Torque, foot-pounds, the least and the most.
    pub torque: (u8, u8, Cited),
    /// The most that bare iron may be turned, minutes of arc, where it is known.
    pub minutes: Option<(u16, Cited)>,
}

/// How long solvent cement takes, of sizes up to one in a band of temperatures.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CureNote {
    /// The largest nominal size, quarters of an inch.
    pub size: u8,
    /// Above so many and up to so many °F.
    pub band: (u8, u8),
    /// Minutes until it may be moved.
    pub set: u16,
    /// Hours until it takes a pressure in psi.
    pub hours: (u8, u8),
    /// Hours until it takes more, where it may.
    pub high_hours: Option<u8>,
    /// How many times as long when wet, tenths.
    pub wet: u8,
    /// Where it comes from.
    pub cited: Cited,
}

/// How deep a solvent socket is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SocketNote {
    /// Schedule of the fitting, `40` or `80`.
    pub schedule: String,
    /// Nominal size, quarters of an inch.
    pub size: u8,
    /// Depth.
    pub depth: i64,
    /// Diameter at its mouth, where it is known.
    pub entrance: Option<i64>,
    /// Where it comes from.
    pub cited: Cited,
}

/// How far a gasketed bell may be turned, of sizes up to one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DeflectionNote {
    /// The code of its [`springline_core::assembly::Bell`].
    pub bell: u8,
    /// The code of the [`springline_core::image::Material`] of the pipe.
    pub material: u8,
    /// The largest nominal size, quarters of an inch.
    pub size: u8,
    /// Minutes of arc.
    pub minutes: u16,
    /// Where it comes from.
    pub cited: Cited,
}

/// Torque of flange bolts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TorqueNote {
    /// `rubber` or `sheet`.
    pub gasket: String,
    /// Nominal size, quarters of an inch.
    pub size: u8,
    /// Foot-pounds.
    pub foot_pounds: u16,
    /// Where it comes from.
    pub cited: Cited,
}

/// How many joints a pound or a quart makes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuantityNote {
    /// `lubricant`, by the pound, or `cement`, by the quart.
    pub what: String,
    /// Nominal size, quarters of an inch.
    pub size: u8,
    /// Joints, hundredths.
    pub joints: u32,
    /// Where it comes from.
    pub cited: Cited,
}

/// How long a stick of a family is taken to be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StickNote {
    /// The family, an index.
    pub family: u8,
    /// Feet.
    pub feet: u8,
    /// Where it comes from.
    pub cited: Cited,
}

/// A step of making a joint up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepNote {
    /// `bell`, `push-on`, `push-ips` (a step of its own instead of that of `push-on`), `mj`, `solvent` or `flange`.
    pub joint: String,
    /// The code of the material of the pipe; `None` for any.
    pub material: Option<u8>,
    /// What it is about, a word.
    pub step: String,
    /// What to do.
    pub text: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// A figure by its key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ConstantNote {
    /// Its key, one of [`CONSTANTS`].
    pub key: String,
    /// The figure, thousandths.
    pub value: u32,
    /// Where it comes from.
    pub cited: Cited,
}

/// Keys of constants, each with the least and the most that it may be.
pub const CONSTANTS: [(&str, f64, f64); 9] = [
    ("gasket-in", 0.03, 0.5),
    ("washer-in", 0.05, 0.5),
    ("washer-large-in", 0.05, 0.5),
    ("oiled", 0.3, 1.0),
    ("short-of-stop-in", 0.1, 2.0),
    ("primer-joints", 0.5, 5.0),
    ("mud", 1.0, 5.0),
    ("owner-iron", 0.2, 1.0),
    ("owner-pvc", 0.2, 1.0),
];

/// Everything in `assembly/`, read and checked; also what the notes keep of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Assembly {
    /// `flanges.csv`, by drilling and size.
    pub flanges: Vec<FlangeNote>,
    /// `mechanical.csv`, by size.
    pub mechanical: Vec<MechanicalNote>,
    /// `cure.csv`, by size and falling temperature.
    pub cures: Vec<CureNote>,
    /// `sockets.csv`.
    pub sockets: Vec<SocketNote>,
    /// `deflection.csv`, by bell, material and size.
    pub deflections: Vec<DeflectionNote>,
    /// `torque.csv`.
    pub torques: Vec<TorqueNote>,
    /// `quantities.csv`.
    pub quantities: Vec<QuantityNote>,
    /// `sticks.csv`.
    pub sticks: Vec<StickNote>,
    /// `steps.csv`, in order.
    pub steps: Vec<StepNote>,
    /// `constants.csv`.
    pub constants: Vec<ConstantNote>,
}

impl Assembly {
    /// How deep a mechanical joint is from lip to stop, in counts of 10 nm, by its size in quarters of an inch.
    #[must_use]
    pub fn mechanical_depth(&self, size: u8) -> Option<&(i64, Cited)> {
        let mut all = self.mechanical.iter();
        all.find(|one| one.size == size).map(|one| &one.socket)
    }

    /// The same of a solvent socket, by the schedule of its fitting.
    #[must_use]
    pub fn socket_depth(&self, schedule: &str, size: u8) -> Option<(i64, &Cited)> {
        let mut all = self.sockets.iter();
        all.find(|one| one.schedule == schedule && one.size == size)
            .map(|one| (one.depth, &one.cited))
    }
}
