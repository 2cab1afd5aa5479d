//! The whole way: a folder of sources to the bytes that are embedded.

use std::fmt::Write;
use std::path::Path;

use sha2::{Digest, Sha256};

use crate::assemble::assemble;
use crate::diagnostic::Diagnostic;
use crate::encode::encode;
use crate::model::Sources;
use crate::notes::Notes;
use crate::read::read;

/// An image, its notes and its digest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compiled {
    /// The image that devices carry.
    pub image: Vec<u8>,
    /// The host-only blob.
    pub notes: Vec<u8>,
    /// SHA-256 of the image.
    pub digest: [u8; 32],
    /// The name of the data set.
    pub name: String,
    /// Which in the series of data sets.
    pub counter: u32,
}

/// Compiles a folder of sources.
///
/// # Errors
///
/// Every mistake found in the sources.
pub fn compile(folder: &Path) -> Result<Compiled, Vec<Diagnostic>> {
    read(folder).map(|sources| compile_sources(&sources))
}

/// Compiles sources that were read and checked.
#[must_use]
pub fn compile_sources(sources: &Sources) -> Compiled {
    let image = encode(&assemble(sources));
    let digest: [u8; 32] = Sha256::digest(&image).into();
    let notes = Notes::of(sources, digest).to_bytes();
    Compiled {
        image,
        notes,
        digest,
        name: sources.settings.set.name.clone(),
        counter: sources.settings.set.counter,
    }
}

/// A digest in hexadecimal.
#[must_use]
pub fn hex(digest: &[u8]) -> String {
    digest.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}
