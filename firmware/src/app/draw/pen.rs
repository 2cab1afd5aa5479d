//! Letters and bars.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::Rectangle;

use crate::frame::Frame;
use crate::letters::Letters;

/// Columns of the small letters.
pub(crate) const COLUMNS: usize = Letters::Small.columns();
/// Rows of pixels that a small line takes.
pub(crate) const LINE: i32 = 10;

/// Draws on a picture.
pub(crate) struct Pen<'f> {
    frame: &'f mut Frame,
}

impl<'f> Pen<'f> {
    /// A pen on an empty picture.
    pub(crate) fn new(frame: &'f mut Frame) -> Self {
        frame.clear();
        Self { frame }
    }

    /// Writes a text, its upper left corner at a place.
    pub(crate) fn write(&mut self, letters: Letters, x: i32, y: i32, text: &str) {
        letters.write(self.frame, x, y, text, true);
    }

    /// Writes dark on a lit bar across the panel: something on the left, something on the right.
    pub(crate) fn bar(&mut self, y: i32, left: &str, right: &str) {
        let area = Rectangle::new(Point::new(0, y), Size::new(128, 11));
        let Ok(()) = self.frame.fill_solid(&area, BinaryColor::On);
        Letters::Small.write(self.frame, 1, y + 1, left, false);
        let width = i32::try_from(right.len()).unwrap_or(0) * 6;
        Letters::Small.write(self.frame, 127 - width, y + 1, right, false);
    }

    /// A sign at the end of a line that right leads on.
    pub(crate) fn arrow(&mut self, y: i32, marked: bool) {
        Letters::Small.write(self.frame, 121, y, ">", !marked);
    }

    /// Lights an area.
    pub(crate) fn fill(&mut self, x: i32, y: i32, width: u32, height: u32) {
        let area = Rectangle::new(Point::new(x, y), Size::new(width, height));
        let Ok(()) = self.frame.fill_solid(&area, BinaryColor::On);
    }

    /// Writes dark on a lit line.
    pub(crate) fn marked(&mut self, y: i32, text: &str) {
        self.fill(0, y, 128, 10);
        Letters::Small.write(self.frame, 1, y, text, false);
    }
}
