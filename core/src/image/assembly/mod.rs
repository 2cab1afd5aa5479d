//! The sections for whoever makes a joint up: bolts, sockets, how far a bell turns, how long cement takes.

pub(super) mod check;
mod record;

pub use record::{Cure, Deflection, Flange, Mechanical, Socket};

use super::Image;

/// The tables of these sections.
#[derive(Clone, Copy, Debug)]
pub(super) struct Assembly<'a> {
    flanges: &'a [[u8; Flange::SIZE]],
    mechanical: &'a [[u8; Mechanical::SIZE]],
    cures: &'a [[u8; Cure::SIZE]],
    sockets: &'a [[u8; Socket::SIZE]],
    deflections: &'a [[u8; Deflection::SIZE]],
}

impl<'a> Image<'a> {
    /// Flanges, by drilling and rising size.
    pub fn flanges(&self) -> impl ExactSizeIterator<Item = Flange> + 'a {
        self.assembly.flanges.iter().map(Flange::from_bytes)
    }

    /// Mechanical joints, by rising size.
    pub fn mechanical_joints(&self) -> impl ExactSizeIterator<Item = Mechanical> + 'a {
        self.assembly.mechanical.iter().map(Mechanical::from_bytes)
    }

    /// Times of solvent cement, by rising size and then by falling temperature.
    pub fn cures(&self) -> impl ExactSizeIterator<Item = Cure> + 'a {
        self.assembly.cures.iter().map(Cure::from_bytes)
    }

    /// Solvent sockets of ordinary fittings, by rising size.
    pub fn sockets(&self) -> impl ExactSizeIterator<Item = Socket> + 'a {
        self.assembly.sockets.iter().map(Socket::from_bytes)
    }

    /// How far bells may be turned, by bell and material, each with rising sizes.
    pub fn deflections(&self) -> impl ExactSizeIterator<Item = Deflection> + 'a {
        self.assembly.deflections.iter().map(Deflection::from_bytes)
    }
}
