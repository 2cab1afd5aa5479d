//! Where the bytes of a table image go.

use springline_core::image::Section;
use springline_core::image::layout::{ENVELOPE, section};
use springline_core::image::record::Header;

/// Sections by number, with the names that the budgets use.
pub const NAMES: [(u16, &str); 14] = [
    (section::TEXT, "text"),
    (section::SETTINGS, "settings"),
    (section::INSTRUMENTS, "instruments"),
    (section::SYSTEMS, "systems"),
    (section::FAMILIES, "families"),
    (section::LAWS, "laws"),
    (section::SIZES, "sizes"),
    (section::LABELS, "labels"),
    (section::SOURCES, "sources"),
    (section::ROWS, "rows"),
    (section::CLASSES, "classes"),
    (section::CLUES, "clues"),
    (section::ANSWERS, "answers"),
    (section::LIKELIHOODS, "likelihoods"),
];

/// Name and bytes of every section in the directory of an image; a section that has no name here is `unknown`.
pub fn sizes(image: &[u8]) -> impl Iterator<Item = (&'static str, u32)> {
    let rest = image.get(ENVELOPE..).unwrap_or(&[]);
    let (header, entries) = match rest.split_first_chunk::<{ Header::SIZE }>() {
        Some((header, entries)) => (Header::from_bytes(header), entries),
        None => (Header::default(), rest),
    };
    let (directory, _) = entries.as_chunks::<{ Section::SIZE }>();
    directory
        .iter()
        .take(usize::from(header.sections))
        .map(Section::from_bytes)
        .map(|entry| {
            let name = NAMES.iter().find(|(id, _)| *id == entry.id);
            let bytes = entry.count.saturating_mul(u32::from(entry.record));
            (name.map_or("unknown", |(_, name)| name), bytes)
        })
}
