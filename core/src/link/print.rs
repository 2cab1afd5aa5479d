//! A line of print on the wire.

use serde::{Deserialize, Serialize};

use crate::print::Line;

/// What a line of print names; the values are those of the image.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct WireLine {
    standards: [u64; 2],
    materials: [u32; 2],
    bases: [u16; 2],
    sizes: [u16; 2],
    classes: [u16; 2],
    pressures: [u16; 2],
    contents: u8,
}

impl From<Line> for WireLine {
    fn from(line: Line) -> Self {
        let Line {
            standards,
            materials,
            bases,
            sizes,
            classes,
            pressures,
            contents,
        } = line;
        Self {
            standards,
            materials,
            bases,
            sizes,
            classes,
            pressures,
            contents,
        }
    }
}

impl From<WireLine> for Line {
    fn from(line: WireLine) -> Self {
        let WireLine {
            standards,
            materials,
            bases,
            sizes,
            classes,
            pressures,
            contents,
        } = line;
        Self {
            standards,
            materials,
            bases,
            sizes,
            classes,
            pressures,
            contents,
        }
    }
}
