//! Notes on print lines: where words and what they mean come from.

use serde::{Deserialize, Serialize};

use super::{Cited, indices};
use crate::print::{Marking, Print};

/// What only a desk shows of print lines, standards and codes by the indices of the image.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PrintNotes {
    /// Where it comes from that a pipe is marked with each standard.
    pub standards: Vec<Cited>,
    /// The same for each material code.
    pub codes: Vec<Cited>,
    /// Each word, and where it comes from.
    pub words: Vec<(String, Cited)>,
}

impl PrintNotes {
    /// The notes of checked print lines.
    #[must_use]
    pub fn of(print: &Print) -> Self {
        let marking = |held: &Marking| cited(&held.sources, held.grade as u8);
        Self {
            standards: print.standards.iter().map(marking).collect(),
            codes: print.codes.iter().map(marking).collect(),
            words: print
                .words
                .iter()
                .map(|word| (word.word.clone(), cited(&word.sources, word.grade as u8)))
                .collect(),
        }
    }
}

fn cited(sources: &[usize], grade: u8) -> Cited {
    Cited {
        sources: indices(sources),
        grade,
    }
}
