//! Letters and bars.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::Rectangle;
use u8g2_fonts::types::{FontColor, VerticalPosition};
use u8g2_fonts::{FontRenderer, fonts};

use crate::frame::Frame;

/// Columns of the small letters.
pub(crate) const COLUMNS: usize = 21;
/// Rows of pixels that a small line takes.
pub(crate) const LINE: i32 = 10;

const SMALL: FontRenderer = FontRenderer::new::<fonts::u8g2_font_6x10_mr>();
const MIDDLE: FontRenderer = FontRenderer::new::<fonts::u8g2_font_8x13B_mr>();
const LARGE: FontRenderer = FontRenderer::new::<fonts::u8g2_font_10x20_mr>();

/// Sizes of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Letters {
    /// 6 by 10.
    Small,
    /// 8 by 13, bold.
    Middle,
    /// 10 by 20.
    Large,
}

impl Letters {
    /// How many fit across the panel.
    pub(crate) const fn columns(self) -> usize {
        match self {
            Self::Small => COLUMNS,
            Self::Middle => 16,
            Self::Large => 12,
        }
    }

    /// The largest in which a text of so many letters fits across.
    pub(crate) const fn fitting(letters: usize) -> Self {
        if letters <= Self::Large.columns() {
            Self::Large
        } else if letters <= Self::Middle.columns() {
            Self::Middle
        } else {
            Self::Small
        }
    }

    const fn font(self) -> &'static FontRenderer {
        match self {
            Self::Small => &SMALL,
            Self::Middle => &MIDDLE,
            Self::Large => &LARGE,
        }
    }
}

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
        self.colored(letters, x, y, text, BinaryColor::On);
    }

    /// Writes dark on a lit bar across the panel: something on the left, something on the right.
    pub(crate) fn bar(&mut self, y: i32, left: &str, right: &str) {
        let area = Rectangle::new(Point::new(0, y), Size::new(128, 11));
        let Ok(()) = self.frame.fill_solid(&area, BinaryColor::On);
        self.colored(Letters::Small, 1, y + 1, left, BinaryColor::Off);
        let width = i32::try_from(right.len()).unwrap_or(0) * 6;
        self.colored(Letters::Small, 127 - width, y + 1, right, BinaryColor::Off);
    }

    /// Lights an area.
    pub(crate) fn fill(&mut self, x: i32, y: i32, width: u32, height: u32) {
        let area = Rectangle::new(Point::new(x, y), Size::new(width, height));
        let Ok(()) = self.frame.fill_solid(&area, BinaryColor::On);
    }

    /// Writes dark on a lit line.
    pub(crate) fn marked(&mut self, y: i32, text: &str) {
        self.fill(0, y, 128, 10);
        self.colored(Letters::Small, 1, y, text, BinaryColor::Off);
    }

    fn colored(&mut self, letters: Letters, x: i32, y: i32, text: &str, color: BinaryColor) {
        let place = (
            Point::new(x, y),
            VerticalPosition::Top,
            FontColor::Transparent(color),
        );
        let (point, vertical, color) = place;
        // A letter that the font lacks is left out; tables hold ASCII, which it has.
        let _ = letters
            .font()
            .render(text, point, vertical, color, self.frame);
    }
}
