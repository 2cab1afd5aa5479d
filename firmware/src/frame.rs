//! What the panel shows: 128 by 64 pixels, one bit each.

use core::convert::Infallible;

use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::Rectangle;

/// Pixels in a row.
pub const WIDTH: usize = 128;
/// Rows.
pub const HEIGHT: usize = 64;
/// Bytes of a row.
const STRIDE: usize = WIDTH / 8;

/// A picture: rows from the top, eight pixels to a byte, the leftmost in the highest bit; a set bit is lit.
#[derive(Clone, PartialEq, Eq)]
pub struct Frame {
    bytes: [u8; Self::BYTES],
}

impl Frame {
    /// Bytes of a picture.
    pub const BYTES: usize = STRIDE * HEIGHT;

    /// All dark.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            bytes: [0; Self::BYTES],
        }
    }

    /// The bytes, row after row.
    #[must_use]
    pub const fn bytes(&self) -> &[u8; Self::BYTES] {
        &self.bytes
    }

    /// The rows, from the top.
    #[must_use]
    pub const fn rows(&self) -> &[[u8; STRIDE]] {
        self.bytes.as_chunks().0
    }

    /// Whether a pixel is lit; none outside is.
    #[must_use]
    pub fn is_lit(&self, x: usize, y: usize) -> bool {
        let byte = self.rows().get(y).and_then(|row| row.get(x / 8));
        byte.is_some_and(|byte| byte >> (7 - x % 8) & 1 == 1)
    }

    /// Darkens everything.
    pub const fn clear(&mut self) {
        self.bytes = [0; Self::BYTES];
    }

    /// Lights or darkens pixels of a row from a place on, the first in the highest bit. What lies outside is left out.
    pub fn stamp(&mut self, x: usize, y: usize, bits: u16, lit: bool) {
        let row = self.bytes.as_chunks_mut::<STRIDE>().0.get_mut(y);
        let [first, second, third, _] = ((u32::from(bits) << 16) >> (x % 8)).to_be_bytes();
        let Some(bytes) = row.and_then(|row| row.get_mut(x / 8..)) else {
            return;
        };
        // By reference: an array that is used up goes through a function of its own, once for each byte.
        for (byte, mask) in bytes.iter_mut().zip(&[first, second, third]) {
            *byte = if lit { *byte | mask } else { *byte & !mask };
        }
    }

    fn set(&mut self, x: usize, y: usize, lit: bool) {
        let row = self.bytes.as_chunks_mut::<STRIDE>().0.get_mut(y);
        if let Some(byte) = row.and_then(|row| row.get_mut(x / 8)) {
            let bit = 0x80 >> (x % 8);
            if lit {
                *byte |= bit;
            } else {
                *byte &= !bit;
            }
        }
    }
}

impl Default for Frame {
    fn default() -> Self {
        Self::new()
    }
}

impl OriginDimensions for Frame {
    fn size(&self) -> Size {
        Size::new(128, 64)
    }
}

impl DrawTarget for Frame {
    type Color = BinaryColor;
    type Error = Infallible;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Self::Error>
    where
        I: IntoIterator<Item = Pixel<Self::Color>>,
    {
        for Pixel(Point { x, y }, color) in pixels {
            if let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y))
                && x < WIDTH
            {
                self.set(x, y, color.is_on());
            }
        }
        Ok(())
    }

    // Eight pixels at a time: through `draw_iter` a cleared panel costs four hundred times as much.
    fn fill_solid(&mut self, area: &Rectangle, color: Self::Color) -> Result<(), Self::Error> {
        // Letters come as hundreds of short runs: clipped by hand, and only the bytes that a run touches.
        let clip = |from: i32, length: u32, size: usize| {
            let end = i64::from(from) + i64::from(length);
            let inside = |value: i64| usize::try_from(value).unwrap_or(0).min(size);
            (inside(i64::from(from)), inside(end))
        };
        let (left, right) = clip(area.top_left.x, area.size.width, WIDTH);
        let (top, bottom) = clip(area.top_left.y, area.size.height, HEIGHT);
        if left >= right || top >= bottom {
            return Ok(());
        }
        let (first, last) = (left / 8, (right - 1) / 8);
        let (head, tail) = (0xff_u8 >> (left % 8), 0xff_u8 << (7 - (right - 1) % 8));
        let rows = self.bytes.as_chunks_mut::<STRIDE>().0;
        for row in rows.get_mut(top..bottom).unwrap_or(&mut []) {
            let bytes = row.get_mut(first..=last).unwrap_or(&mut []);
            let end = last - first;
            for (at, byte) in bytes.iter_mut().enumerate() {
                let mask = if at == 0 { head } else { 0xff } & if at == end { tail } else { 0xff };
                *byte = if color.is_on() {
                    *byte | mask
                } else {
                    *byte & !mask
                };
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use embedded_graphics::prelude::*;
    use embedded_graphics::primitives::{PrimitiveStyle, Rectangle};

    use super::*;

    #[test]
    fn a_filled_area_is_what_its_pixels_are() {
        for (x, y, w, h) in [
            (0, 0, 128, 64),
            (3, 5, 1, 1),
            (3, 5, 10, 2),
            (-4, -4, 8, 8),
            (120, 60, 40, 40),
            (7, 0, 2, 64),
            (8, 1, 8, 1),
            (0, 0, 0, 3),
            (200, 5, 4, 4),
        ] {
            let area = Rectangle::new(Point::new(x, y), Size::new(w, h));
            let mut filled = Frame::new();
            filled
                .fill_solid(&area, BinaryColor::On)
                .expect("never fails");
            let mut drawn = Frame::new();
            let pixels = area.points().map(|point| Pixel(point, BinaryColor::On));
            drawn.draw_iter(pixels).expect("never fails");
            assert!(filled == drawn, "{area:?}");
            filled
                .fill_solid(&area, BinaryColor::Off)
                .expect("never fails");
            assert!(filled == Frame::new(), "{area:?}");
        }
    }

    #[test]
    fn a_stamp_is_what_its_pixels_are() {
        for (x, y) in [(0, 0), (3, 5), (121, 63), (127, 0), (128, 2), (9, 64)] {
            for bits in [0xffffu16, 0x8001, 0xa5c3] {
                let mut stamped = Frame::new();
                stamped.stamp(x, y, bits, true);
                let mut drawn = Frame::new();
                for at in (0..16).filter(|at| bits >> (15 - at) & 1 == 1) {
                    if x + at < WIDTH {
                        drawn.set(x + at, y, true);
                    }
                }
                assert!(stamped == drawn, "{x} {y} {bits:x}");
                stamped.stamp(x, y, bits, false);
                assert!(stamped == Frame::new());
            }
        }
    }

    #[test]
    fn bits_lie_from_left_to_right_and_rows_from_the_top() {
        let mut frame = Frame::new();
        Rectangle::new(Point::new(1, 2), Size::new(2, 1))
            .into_styled(PrimitiveStyle::with_fill(BinaryColor::On))
            .draw(&mut frame)
            .expect("never fails");
        assert_eq!(frame.bytes()[2 * 16], 0x60);
        assert!(frame.is_lit(1, 2) && frame.is_lit(2, 2) && !frame.is_lit(3, 2));
        assert!(!frame.is_lit(128, 2) && !frame.is_lit(0, 64));
        frame.clear();
        assert!(frame == Frame::new());
    }
}
