//! Draws the letters of the panel once, at build time.
//!
//! A board that draws them itself spends thousands of instructions on each, and carries a drawing library whose indices can
//! panic. So they are drawn here, by that library, and a board copies rows of bits.

use std::convert::Infallible;
use std::fmt::Write;
use std::path::PathBuf;
use std::{env, fs};

use embedded_graphics::mono_font::ascii::{FONT_6X10, FONT_8X13_BOLD, FONT_10X20};
use embedded_graphics::mono_font::{MonoFont, MonoTextStyle};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::prelude::*;
use embedded_graphics::text::{Baseline, Text};

/// One letter's pixels, row by row, the leftmost in the highest bit.
struct Cell {
    size: Size,
    rows: Vec<u16>,
}

impl OriginDimensions for Cell {
    fn size(&self) -> Size {
        self.size
    }
}

impl DrawTarget for Cell {
    type Color = BinaryColor;
    type Error = Infallible;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Infallible>
    where
        I: IntoIterator<Item = Pixel<BinaryColor>>,
    {
        for Pixel(point, color) in pixels {
            if color.is_on() && self.bounding_box().contains(point) {
                let row = usize::try_from(point.y).expect("inside");
                self.rows[row] |= 0x8000 >> point.x;
            }
        }
        Ok(())
    }
}

/// Writes `letters.rs`: every printable ASCII letter of three fonts.
pub(super) fn write() {
    let mut text = String::new();
    table(&mut text, "SMALL", &FONT_6X10, 1);
    table(&mut text, "MIDDLE", &FONT_8X13_BOLD, 1);
    table(&mut text, "LARGE", &FONT_10X20, 2);
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR"));
    fs::write(out.join("letters.rs"), text).expect("OUT_DIR can be written");
}

/// A table of a font: so many bytes a row.
fn table(text: &mut String, name: &str, font: &MonoFont<'_>, bytes: usize) {
    let size = font.character_size;
    let rows = usize::try_from(size.height).expect("a small font");
    let letters = b' '..=b'~';
    let count = letters.clone().count();
    let mut add = |part: String| text.push_str(&part);
    add(format!(
        "pub(super) static {name}: [[u8; {}]; {count}] = [\n",
        rows * bytes
    ));
    for letter in letters {
        let mut cell = Cell {
            size,
            rows: vec![0; rows],
        };
        let letter = char::from(letter).to_string();
        let style = MonoTextStyle::new(font, BinaryColor::On);
        let drawn = Text::with_baseline(&letter, Point::zero(), style, Baseline::Top);
        drawn.draw(&mut cell).expect("never fails");
        let mut line = String::from("    [");
        for byte in cell
            .rows
            .iter()
            .flat_map(|row| row.to_be_bytes().into_iter().take(bytes))
        {
            let _ = write!(line, "{byte}, ");
        }
        add(line + "],\n");
    }
    add(String::from("];\n"));
}
