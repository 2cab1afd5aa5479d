//! A clue that the rest speaks against, and the answer without it.

use springline_core::clue::ClueName;
use springline_core::identify::{Answer, identify};
use springline_core::image::Image;

use super::finding::Finding;
use super::query::{Asked, words};

/// A clue that the readings and the other clues speak against.
pub(crate) struct Contradiction {
    /// Its key in options and JSON.
    pub(crate) clue: String,
    /// How it was told.
    pub(crate) words: String,
    /// Family key, name and size of what leads without it.
    pub(crate) without: Option<(String, String, f64)>,
}

/// Asks again without the clue that an answer names, if it names one.
pub(super) fn of(image: &Image<'_>, asked: &Asked, answer: &Answer) -> Option<Contradiction> {
    let name = answer.contradiction?;
    let mut query = asked.query;
    query.clues = query.clues.without(name);
    let again = identify(image, &query).ok();
    let without = again.and_then(|again| {
        let finding = Finding::new(image, asked, &again);
        let first = finding.first()?;
        let name = format!("{} {}", first.name, first.size());
        Some((first.family.to_owned(), name, first.share))
    });
    Some(Contradiction {
        clue: match name {
            ClueName::Clue(clue) => image.packed_text(image.clue(clue).key).to_owned(),
            ClueName::Plans => "plans".to_owned(),
            ClueName::Print => "print".to_owned(),
        },
        words: words(image, asked, name),
        without,
    })
}
