//! A family as people type it: its key, or what the trade calls it.

use anyhow::{Result, bail};
use springline_compiler::notes::Notes;
use springline_core::image::Image;

/// The family that is meant, an index into the image's families.
///
/// # Errors
///
/// That there is none, with those that come near, else all.
pub(crate) fn find(image: &Image<'_>, notes: &Notes, typed: &str) -> Result<u8> {
    let word = typed.trim().to_ascii_lowercase().replace([' ', '_'], "-");
    let keys = || (0u8..).zip(image.families().map(|family| image.packed_text(family.key)));
    let also = |at: u8| {
        notes
            .also
            .get(usize::from(at))
            .map_or(&[][..], Vec::as_slice)
    };
    let found = keys().find(|(at, key)| *key == word || also(*at).contains(&word));
    if let Some((at, _)) = found {
        return Ok(at);
    }
    let near = |(at, key): &(u8, &str)| {
        let parts = |name: &str| name.split('-').any(|part| part == word);
        parts(key) || also(*at).iter().any(|name| parts(name))
    };
    let mut some: Vec<&str> = keys().filter(near).map(|(_, key)| key).collect();
    if some.is_empty() {
        some = keys().map(|(_, key)| key).collect();
    }
    bail!(
        "no family \"{typed}\" in the tables\n  try one of: {}",
        some.join(", ")
    )
}
