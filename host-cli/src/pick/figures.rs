//! The numbers of a job that are not this verb's: the one seam to what computes them.
//!
//! Every function says what is asked and gives a [`Figure`]. Where nothing computes it yet the figure says what to ask or what
//! to measure, and has no number: a number that was made up is loaded, cut and buried. Whoever has the numbers fills in the
//! body of one function here, and nothing else of `pick` changes.

use springline_core::unit::{Distance, Duration};

use super::built::{Built, Joint, Pipes};
use super::site::Site;

/// A number in words, or where to get it.
pub(super) struct Figure {
    /// What is printed.
    pub(super) text: String,
    /// The number is known; else the text says what to ask or measure.
    pub(super) known: bool,
    /// Keys of sources; `practice` and `memory` where nothing was read.
    pub(super) sources: Vec<String>,
    /// Key of its grade.
    pub(super) grade: String,
}

/// Where to get it.
fn ask(text: impl Into<String>) -> Figure {
    Figure {
        text: text.into(),
        known: false,
        sources: vec![String::from("practice")],
        grade: String::from("practice"),
    }
}

/// Bolts of a flanged or mechanical joint: count, size, length, wrench, torque with its condition.
pub(super) fn bolts(size: &str, flanged: bool) -> Figure {
    let kind = if flanged { "flange" } else { "mj" };
    ask(format!(
        "bolts, wrench and torque: springline bolts ({kind}, {size}); count what is in the box"
    ))
}

/// Which joints beyond those of the job must be held on each side, and how far.
pub(super) fn restrain(_pipes: &Pipes, _built: &Built, _site: &Site) -> Figure {
    ask(
        "HOLDING: beyond these joints, how many bells on each side (and at a branch) must be held: springline restrain, with \
         the highest pressure, the soil and the trench OPEN. Unanswered, no water goes on.",
    )
}

/// The length that a closing piece is cut to.
pub(super) fn cut_length(built: &Built) -> Figure {
    let gaps = built.pieces.len();
    ask(format!(
        "Cut length of {}: lay the parts in hand on the bank, measure the opening, take off lay lengths and gaps, add what goes \
         into each end. springline cut has the formula; no length is known here.",
        if gaps == 1 { "the piece" } else { "each piece" }
    ))
}

/// How long glued joints set and cure at this temperature, this size and this pressure. `None` where nothing computes it: glue
/// is not offered against a clock then.
pub(super) const fn cure(_size: &str, _fahrenheit: Option<f64>) -> Option<Duration> {
    None
}

/// The depth that an end goes in, and the mark.
pub(super) fn insertion(_joint: &Joint, slides: bool) -> Figure {
    ask(if slides {
        "mark half of the length of the coupling in hand: measure it. It has no stop"
    } else {
        "depth mark: measure this bell or socket, lip to stop; springline assemble where one is standard"
    })
}

/// Bare straight barrel for parts that slide, where it must be known before digging.
pub(super) fn bare_barrel(_built: &Built) -> Figure {
    ask("Bare barrel in feet: springline dig, with the lengths of the parts in hand.")
}

/// The outline of the hole.
pub(super) fn excavation(_pipes: &Pipes, _built: &Built) -> Figure {
    ask("Length, width and depth of the hole: springline dig.")
}

/// Water to be pumped out of the line.
pub(super) fn gallons(_pipes: &Pipes, drained: Option<Distance>) -> Figure {
    ask(if drained.is_some() {
        "Gallons that come out between the cut and the valve: springline fill."
    } else {
        "Gallons to pump out: springline fill, with the length that drains to the cut."
    })
}
