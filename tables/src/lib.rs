//! The built-in tables: the image that `build.rs` compiles from `tables/sources`, and nothing else.
//!
//! An updated image on a device is the same bytes in the same layout, read by the same `Image` of the core.
//! This crate holds no code, so that there is one reader and one code path.

#![no_std]
#![deny(missing_docs)]

/// Bytes that start on a word, so that a device reads words and not bytes.
#[repr(align(4))]
struct Aligned<T: ?Sized>(T);

static ALIGNED: &Aligned<[u8]> = &Aligned(*include_bytes!(concat!(env!("OUT_DIR"), "/image.bin")));

/// The table image; its layout is specified in `tables/IMAGE.md`.
pub static IMAGE: &[u8] = &ALIGNED.0;

mod set {
    include!(concat!(env!("OUT_DIR"), "/set.rs"));
}

/// The name of the data set.
pub static NAME: &str = set::NAME;

/// Which in the series of data sets; a later one is larger.
pub static COUNTER: u32 = set::COUNTER;

/// SHA-256 of the image.
pub static DIGEST: [u8; 32] = set::DIGEST;

/// Source and grade of every datum, for desks only: postcard of the compiler's `Notes`.
///
/// A device that does not name this does not carry it.
pub static NOTES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/notes.bin"));
