//! A panel of memory and address counters stands for the real one; the bus may be made to fail.

use core::cell::Cell;
use core::convert::Infallible;

use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::prelude::*;
use embedded_hal::digital::{ErrorType as PinType, OutputPin};
use embedded_hal::spi::{ErrorKind, ErrorType as BusType, SpiBus};

use super::*;

struct Pin<'a>(&'a Cell<bool>);

impl PinType for Pin<'_> {
    type Error = Infallible;
}

impl OutputPin for Pin<'_> {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.set(false);
        Ok(())
    }
    fn set_high(&mut self) -> Result<(), Infallible> {
        self.0.set(true);
        Ok(())
    }
}

/// The panel's side of the bus.
struct Panel<'a> {
    is_data: &'a Cell<bool>,
    memory: [[u8; 64]; 80],
    columns: (usize, usize),
    rows: (usize, usize),
    at: (usize, usize),
    lit: bool,
    command: [u8; 9],
    length: usize,
    windows: usize,
    data: usize,
    /// Bytes until the bus fails.
    fuel: usize,
}

impl<'a> Panel<'a> {
    fn new(is_data: &'a Cell<bool>) -> Self {
        Self {
            is_data,
            memory: [[0xa5; 64]; 80],
            columns: (0, 63),
            rows: (0, 79),
            at: (0, 0),
            lit: false,
            command: [0; 9],
            length: 0,
            windows: 0,
            data: 0,
            fuel: usize::MAX,
        }
    }

    fn take(&mut self, byte: u8) {
        if self.is_data.get() {
            assert_eq!(self.length, 0, "data amid a command");
            let (x, y) = self.at;
            self.memory[y][x] = byte;
            self.data += 1;
            self.at = if x < self.columns.1 {
                (x + 1, y)
            } else if y < self.rows.1 {
                (self.columns.0, y + 1)
            } else {
                (self.columns.0, self.rows.0)
            };
            return;
        }
        self.command[self.length] = byte;
        self.length += 1;
        let arguments = match self.command[0] {
            0x15 | 0x75 => 2,
            0x81 | 0xa0 | 0xa1 | 0xa2 | 0xa8 | 0xad | 0xb1 | 0xb2 | 0xb3 | 0xbc | 0xbe | 0xbf => 1,
            0xb8 => 8,
            0x84..=0x86 | 0xa4..=0xa7 | 0xae | 0xaf => 0,
            unknown => panic!("no such command: {unknown:#x}"),
        };
        if self.length <= arguments {
            return;
        }
        self.length = 0;
        let [name, low, high, ..] = self.command;
        let pair = (usize::from(low), usize::from(high));
        match name {
            0x15 => {
                self.columns = pair;
                self.at.0 = pair.0;
                self.windows += 1;
            }
            0x75 => {
                self.rows = pair;
                self.at.1 = pair.0;
            }
            0xae => self.lit = false,
            0xaf => {
                let dark = self.memory[..64].iter().flatten().all(|byte| *byte == 0);
                assert!(dark, "lit with noise");
                self.lit = true;
            }
            _ => {}
        }
    }

    /// Whether the panel shows this picture, every pixel by itself.
    fn shows(&self, frame: &Frame) -> bool {
        (0..64).all(|y| {
            (0..128).all(|x| {
                let byte = self.memory[y][x / 2];
                let grey = if x % 2 == 0 { byte >> 4 } else { byte & 15 };
                grey == if frame.is_lit(x, y) { 15 } else { 0 }
            })
        })
    }
}

impl BusType for Panel<'_> {
    type Error = ErrorKind;
}

impl SpiBus for Panel<'_> {
    fn read(&mut self, _: &mut [u8]) -> Result<(), ErrorKind> {
        panic!("the panel cannot be read by a serial bus")
    }
    fn write(&mut self, bytes: &[u8]) -> Result<(), ErrorKind> {
        for byte in bytes {
            self.fuel = self.fuel.checked_sub(1).ok_or(ErrorKind::Other)?;
            self.take(*byte);
        }
        Ok(())
    }
    fn transfer(&mut self, _: &mut [u8], bytes: &[u8]) -> Result<(), ErrorKind> {
        self.write(bytes)
    }
    fn transfer_in_place(&mut self, bytes: &mut [u8]) -> Result<(), ErrorKind> {
        self.write(bytes)
    }
    fn flush(&mut self) -> Result<(), ErrorKind> {
        Ok(())
    }
}

fn dots(dots: impl IntoIterator<Item = (i32, i32)>) -> Frame {
    let mut frame = Frame::new();
    let pixels = dots.into_iter();
    frame
        .draw_iter(pixels.map(|(x, y)| Pixel(Point::new(x, y), BinaryColor::On)))
        .expect("never fails");
    frame
}

/// Some picture of noise.
fn noise(seed: u32) -> Frame {
    let mut state = seed;
    dots(
        (0..64)
            .flat_map(|y| (0..128).map(move |x| (x, y)))
            .filter(|_| {
                state ^= state << 13;
                state ^= state >> 17;
                state ^= state << 5;
                state & 1 == 1
            }),
    )
}

#[test]
fn a_panel_is_dark_before_it_is_lit() {
    let line = Cell::new(true);
    let mut bus = Panel::new(&line);
    let mut panel = Ssd0323::new(Pin(&line));
    panel.init(&mut bus).expect("no fault");
    assert!(bus.lit);
    assert!(bus.shows(&Frame::new()));
    assert_eq!(bus.length, 0, "every command has its arguments");
    // What lies outside the picture was left alone.
    assert!(bus.memory[64..].iter().flatten().all(|byte| *byte == 0xa5));
}

#[test]
fn every_pixel_arrives_where_it_was_drawn() {
    let line = Cell::new(false);
    let mut bus = Panel::new(&line);
    let mut panel = Ssd0323::new(Pin(&line));
    panel.init(&mut bus).expect("no fault");
    for x in 0..128 {
        let frame = dots([(x, x % 64)]);
        panel.show(&mut bus, &frame).expect("no fault");
        assert!(bus.shows(&frame), "column {x}");
    }
    for seed in 1..20 {
        let frame = noise(seed);
        panel.show(&mut bus, &frame).expect("no fault");
        assert!(bus.shows(&frame), "seed {seed}");
    }
}

#[test]
fn only_rows_that_differ_are_sent() {
    let line = Cell::new(false);
    let mut bus = Panel::new(&line);
    let mut panel = Ssd0323::new(Pin(&line));
    panel.init(&mut bus).expect("no fault");
    for (frame, rows, windows) in [
        (Frame::new(), 0, 0),
        (dots([(5, 0), (6, 1), (7, 2)]), 3, 1),
        // One row stays as it is.
        (dots([(6, 1)]), 2, 2),
        (dots([(6, 1), (0, 63)]), 1, 1),
        (dots((0..64).map(|y| (127, y))), 64, 1),
        (dots((0..64).map(|y| (127, y))), 0, 0),
    ] {
        (bus.data, bus.windows) = (0, 0);
        assert_eq!(panel.show(&mut bus, &frame), Ok(rows));
        assert_eq!((bus.data, bus.windows), (rows * 64, windows));
        assert!(bus.shows(&frame));
    }
}

#[test]
fn after_a_fault_the_whole_picture_is_sent() {
    let line = Cell::new(false);
    for fuel in [0, 3, 6, 6 + 63, 6 + 64, 6 + 64 + 40] {
        let mut bus = Panel::new(&line);
        let mut panel = Ssd0323::new(Pin(&line));
        panel.init(&mut bus).expect("no fault");
        let frame = noise(7);
        bus.fuel = fuel;
        let failed = panel.show(&mut bus, &frame);
        assert_eq!(failed, Err(Error::Bus(ErrorKind::Other)), "fuel {fuel}");
        // The panel was reset: it holds noise, and no half of a command.
        let mut bus = Panel::new(&line);
        assert_eq!(panel.show(&mut bus, &frame), Ok(64));
        assert!(bus.shows(&frame), "fuel {fuel}");
        assert_eq!(panel.show(&mut bus, &frame), Ok(0));
    }
}
