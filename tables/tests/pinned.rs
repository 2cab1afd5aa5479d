//! The built-in image is what the tree says it is.

use sha2::{Digest, Sha256};
use springline_core::image::Image;
use springline_tables::IMAGE;

/// A change of the tables shows in review as a change of one line, on every machine alike.
#[test]
fn the_digest_is_pinned() {
    let digest = Sha256::digest(IMAGE)
        .iter()
        .fold(String::new(), |text, byte| text + &format!("{byte:02x}"));
    assert_eq!(Sha256::digest(IMAGE)[..], springline_tables::DIGEST);
    let pinned = include_str!("../image.sha256");
    assert_eq!(
        pinned.trim(),
        digest,
        "\nthe image has changed; if you meant it, put this line into tables/image.sha256:\n{digest}\n"
    );
}

#[test]
fn the_image_passes_its_own_gate() {
    Image::new(IMAGE).expect("the compiler writes what the reader accepts");
}

#[test]
fn every_section_has_a_name_and_they_fit_into_the_image() {
    let all: Vec<_> = springline_core::image::directory(IMAGE).collect();
    assert!(all.iter().all(|(name, _)| *name != "unknown"));
    let bytes = all
        .iter()
        .map(|(_, entry)| entry.count * u32::from(entry.record));
    let sum: u32 = bytes.sum();
    let length = u32::try_from(IMAGE.len()).expect("a small image");
    // Besides them there are envelope and header, an entry for each, and at most three bytes to the next word.
    let count = u32::try_from(all.len()).expect("few sections");
    let least = sum + 128 + 16 + 12 * count;
    assert!(
        (least..=least + 3 * count).contains(&length),
        "{sum} of {length}"
    );
}
