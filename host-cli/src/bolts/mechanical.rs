//! What is said of a mechanical joint.

use anyhow::{Result, anyhow};
use springline_compiler::assembly::MechanicalNote;
use springline_compiler::notes::Notes;
use springline_core::assembly::{MechanicalSet, Nominal, mechanical};
use springline_core::image::Image;

use super::BoltsArgs;
use super::words::{self, Sourced};

/// A mechanical joint and its bolts.
pub(super) struct MechanicalSaid {
    pub(super) size: Nominal,
    pub(super) set: MechanicalSet,
    /// Where it comes from.
    pub(super) why: Vec<Sourced>,
    /// A restraint is on it, which brings its own bolts.
    pub(super) restraint: bool,
}

impl MechanicalSaid {
    pub(super) fn of(
        image: &Image<'_>,
        notes: &Notes,
        size: Nominal,
        args: &BoltsArgs,
    ) -> Result<Self> {
        let is = |note: &&MechanicalNote| note.size == size.in_quarters();
        let note = notes.assembly.mechanical.iter().find(is);
        let (Some(set), Some(note)) = (mechanical(image, size), note) else {
            let sizes: Vec<String> = image
                .mechanical_joints()
                .map(|row| words::size(Nominal::quarters(row.size)))
                .collect();
            return Err(anyhow!(
                "no mechanical joint of {} in in the tables\n  try one of: {}",
                words::size(size),
                sizes.join(", ")
            ));
        };
        Ok(Self {
            size,
            set,
            why: [
                ("bolts", &note.cited),
                ("socket", &note.socket.1),
                ("torque", &note.torque.2),
            ]
            .map(|(what, cited)| Sourced::of(notes, what, cited))
            .into(),
            restraint: args.restraint,
        })
    }
}
