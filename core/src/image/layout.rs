//! The numbers of the image format; the specification is `tables/IMAGE.md`.

/// Bytes kept in front for the signed envelope; zero in an unsigned image.
pub const ENVELOPE: usize = 128;
/// `SPLN`, read as a little-endian number.
pub const MAGIC: u32 = u32::from_le_bytes(*b"SPLN");
/// Version of the layout of everything behind the envelope.
pub const FORMAT: u16 = 1;
/// The longest image that a device takes. A device checks it before it reads; the reader itself takes any length.
pub const MAX_BYTES: usize = 40 * 1024;
/// The most families, so that an engine can keep a term for each.
pub const MAX_FAMILIES: usize = 32;
/// The most clues, so that a query can hold an answer to each.
pub const MAX_CLUES: usize = 16;
/// The most standards of print lines, so that a set of them is one word.
pub const MAX_STANDARDS: usize = 64;
/// The most sections that a directory may list.
pub const MAX_SECTIONS: usize = 64;

/// Checks every byte behind the header. A static, so that there is one table of 1 KiB however many use it.
pub static CRC: crc::Crc<u32, crc::Table<1>> =
    crc::Crc::<u32, crc::Table<1>>::new(&crc::CRC_32_ISO_HDLC);

/// Section numbers.
pub mod section {
    /// Bytes of every text, ASCII.
    pub const TEXT: u16 = 1;
    /// One [`super::super::Settings`].
    pub const SETTINGS: u16 = 2;
    /// [`super::super::Instrument`]s, in the order of [`crate::reading::Tool`].
    pub const INSTRUMENTS: u16 = 3;
    /// [`super::super::System`]s.
    pub const SYSTEMS: u16 = 4;
    /// [`super::super::Family`] records.
    pub const FAMILIES: u16 = 5;
    /// [`super::super::Law`]s; the first is that of rigid pipe.
    pub const LAWS: u16 = 6;
    /// Nominal sizes, texts.
    pub const SIZES: u16 = 7;
    /// Variants and class names, texts; the first is empty.
    pub const LABELS: u16 = 8;
    /// Keys of sources, texts.
    pub const SOURCES: u16 = 9;
    /// [`super::super::Row`]s, by low edge.
    pub const ROWS: u16 = 10;
    /// [`super::super::ListedClass`]es, by list.
    pub const CLASSES: u16 = 11;
    /// [`super::super::Clue`]s.
    pub const CLUES: u16 = 12;
    /// [`super::super::ClueAnswer`]s, by clue.
    pub const ANSWERS: u16 = 13;
    /// Likelihoods, two bytes each, by answer and then by family.
    pub const LIKELIHOODS: u16 = 14;
    /// Where each list of classes begins, two bytes each.
    pub const CLASS_LISTS: u16 = 15;
    /// Walls by row, thousandths of an inch, two bytes each; zero where one is not known.
    pub const WALLS: u16 = 16;
    // 17 was where each word of phrases begins, before words of one length lay together.
    /// Phrases: a length, and so many bytes of word numbers.
    pub const PHRASES: u16 = 18;
    /// How large the nominal sizes are, sixty-fourths of an inch, two bytes each.
    pub const MEASURES: u16 = 19;
    /// [`super::super::Band`]s of sizes.
    pub const BANDS: u16 = 20;
    /// [`super::super::Set`]s of pipe variants or of joint ends.
    pub const SETS: u16 = 21;
    /// The family of each pipe variant, one byte each.
    pub const VARIANTS: u16 = 22;
    /// [`super::super::JointEnd`]s.
    pub const ENDS: u16 = 23;
    /// [`super::super::MatrixRow`]s.
    pub const MATRIX: u16 = 24;
    /// [`super::super::Listing`]s of restraints.
    pub const RESTRAINTS: u16 = 25;
    /// [`super::super::Listing`]s of saddles.
    pub const SADDLES: u16 = 26;
    /// [`super::super::SamePurchase`]s, by job and row.
    pub const SAME: u16 = 27;
    /// One [`super::super::PrintSettings`].
    pub const PRINT: u16 = 28;
    /// [`super::super::Marking`]s: standards that pipes are marked with.
    pub const STANDARDS: u16 = 29;
    /// [`super::super::Marking`]s: material codes.
    pub const CODES: u16 = 30;
    /// [`super::super::PrintWord`]s, by their first characters.
    pub const PRINT_WORDS: u16 = 31;
    /// What each label is as a class in print, a [`crate::print::PrintedClass`], two bytes each.
    pub const PRINTED: u16 = 32;
    /// [`super::super::Part`]s.
    pub const PARTS: u16 = 33;
    /// [`super::super::Derating`]s, by material and rising temperature.
    pub const DERATINGS: u16 = 34;
    /// [`super::super::WordRun`]s: the words of phrases, from the first byte of the text on.
    pub const WORD_RUNS: u16 = 35;
    /// [`super::super::Caution`]s, the worst first.
    pub const CAUTIONS: u16 = 36;
    /// [`super::super::SoilRow`]s, by procedure.
    pub const SOILS: u16 = 37;
    /// [`super::super::TrenchRow`]s.
    pub const TRENCHES: u16 = 38;
    /// [`super::super::SoilWord`]s.
    pub const SOIL_WORDS: u16 = 39;
    /// One [`super::super::ThrustConstants`].
    pub const THRUST: u16 = 45;
    /// [`super::super::Flange`]s, by drilling and size.
    pub const FLANGES: u16 = 40;
    /// [`super::super::Mechanical`] joints, by size.
    pub const MECHANICAL: u16 = 41;
    /// [`super::super::Cure`]s, by size and falling temperature.
    pub const CURES: u16 = 42;
    /// [`super::super::Socket`]s, by size.
    pub const SOCKETS: u16 = 43;
    /// [`super::super::Deflection`]s, by bell, material and size.
    pub const DEFLECTIONS: u16 = 44;
}
