//! The sections of how joints are made up.

use springline_core::image::layout::section;
use springline_core::image::{Cure, Deflection, Flange, Mechanical, Socket};

use super::Parts;

/// How joints are made up.
#[derive(Clone, Debug, Default)]
pub struct DraftAssembly {
    /// By drilling and rising size.
    pub flanges: Vec<Flange>,
    /// By rising size.
    pub mechanical: Vec<Mechanical>,
    /// By rising size and falling temperature.
    pub cures: Vec<Cure>,
    /// By rising size.
    pub sockets: Vec<Socket>,
    /// By bell, material and rising size.
    pub deflections: Vec<Deflection>,
}

impl DraftAssembly {
    /// Writes the sections.
    pub(super) fn encode(&self, parts: &mut Parts) {
        let flanges: Vec<_> = self.flanges.iter().map(Flange::to_bytes).collect();
        let mechanical: Vec<_> = self.mechanical.iter().map(Mechanical::to_bytes).collect();
        let cures: Vec<_> = self.cures.iter().map(Cure::to_bytes).collect();
        let sockets: Vec<_> = self.sockets.iter().map(Socket::to_bytes).collect();
        let deflections: Vec<_> = self.deflections.iter().map(Deflection::to_bytes).collect();
        parts.add(section::FLANGES, &flanges);
        parts.add(section::MECHANICAL, &mechanical);
        parts.add(section::CURES, &cures);
        parts.add(section::SOCKETS, &sockets);
        parts.add(section::DEFLECTIONS, &deflections);
    }
}
