//! What lies where in an image, for those who show or weigh it.

use super::layout::{ENVELOPE, section};
use super::record::{Header, Section};

/// Sections by number, with their names in reports and budgets.
const NAMES: [(u16, &str); 44] = [
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
    (section::CLASS_LISTS, "class_lists"),
    (section::WALLS, "walls"),
    (section::PHRASES, "phrases"),
    (section::MEASURES, "measures"),
    (section::BANDS, "bands"),
    (section::SETS, "sets"),
    (section::VARIANTS, "variants"),
    (section::ENDS, "ends"),
    (section::MATRIX, "matrix"),
    (section::RESTRAINTS, "restraints"),
    (section::SADDLES, "saddles"),
    (section::SAME, "same"),
    (section::PRINT, "print"),
    (section::STANDARDS, "standards"),
    (section::CODES, "codes"),
    (section::PRINT_WORDS, "print_words"),
    (section::PRINTED, "printed"),
    (section::PARTS, "parts"),
    (section::DERATINGS, "deratings"),
    (section::WORD_RUNS, "words"),
    (section::CAUTIONS, "cautions"),
    (section::SOILS, "soils"),
    (section::TRENCHES, "trenches"),
    (section::SOIL_WORDS, "soil_words"),
    (section::THRUST, "thrust"),
    (section::FLANGES, "flanges"),
    (section::MECHANICAL, "mechanical"),
    (section::CURES, "cures"),
    (section::SOCKETS, "sockets"),
    (section::DEFLECTIONS, "deflections"),
];

/// Every section that the directory of some bytes lists, with its name; one of an unknown number is `unknown`. Nothing is
/// checked but that the entries are there.
pub fn directory(bytes: &[u8]) -> impl Iterator<Item = (&'static str, Section)> {
    let rest = bytes.get(ENVELOPE..).unwrap_or(&[]);
    let (header, entries) = match rest.split_first_chunk::<{ Header::SIZE }>() {
        Some((header, entries)) => (Header::from_bytes(header), entries),
        None => (Header::default(), rest),
    };
    let (entries, _) = entries.as_chunks::<{ Section::SIZE }>();
    let listed = entries.iter().take(usize::from(header.sections));
    listed.map(Section::from_bytes).map(|entry| {
        let name = NAMES.iter().find(|(id, _)| *id == entry.id);
        (name.map_or("unknown", |(_, name)| name), entry)
    })
}
