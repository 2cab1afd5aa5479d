//! A panel of 128 by 64 pixels in sixteen greys behind an SSD0323.
//!
//! Its memory holds two pixels in a byte, the left one in the high half, 64 bytes in a row. A picture has eight in a byte, so
//! that every byte of it becomes four on the way out.
//!
//! The driver keeps what is shown and sends only rows that differ. That takes 1 KiB; a marker for each row would take 8 bytes,
//! but the application draws every picture from nothing, and all rows would be marked all the time. A check value for each
//! row would take 128 bytes, and now and then leave an old row on the panel.
//!
//! Selecting the chip is the board's business, since the bus may be shared: while a method runs the bus must be the panel's.

use core::fmt;

use embedded_hal::digital::OutputPin;
use embedded_hal::spi::SpiBus;

use crate::frame::{Frame, HEIGHT, WIDTH};

/// Bytes of a row as the application draws it.
const DRAWN: usize = WIDTH / 8;
/// Bytes of a row in the panel's memory.
const SENT: usize = WIDTH / 2;

/// The columns that are written, in pairs of pixels, and then, the rows.
const SET_COLUMNS: u8 = 0x15;
const SET_ROWS: u8 = 0x75;
const LAST_COLUMN: u8 = 63;
const LAST_ROW: u8 = 63;

const OFF: u8 = 0xae;
const ON: u8 = 0xaf;

/// Commands and their arguments. Currents and timings are recalled from common practice for panels of this size and were
/// never seen on glass: the emulated panel takes and ignores them.
#[rustfmt::skip]
const SET_UP: [u8; 36] = [
    OFF,
    0xa8, LAST_ROW,       // rows that are driven, less one
    0xa1, 0,              // the first of them
    0xa2, 0,              // no offset
    0xa0, 0x52,           // left pixel in the high half; rows from the top, odd and even ones apart
    0xa4,                 // shows its memory as it is
    0x81, 50,             // contrast, of 127
    0x85,                 // half the current range
    0xb1, 0x22,           // phases
    0xb2, 70,             // clocks in a row
    0xb3, 0xf1,           // oscillator and divider
    0xbc, 0x10,           // precharge
    0xbe, 0x02,           // voltage of rows at rest
    0xbf, 0x0d,           // voltage of dark segments
    0xb8, 0x01, 0x11, 0x22, 0x32, 0x43, 0x54, 0x65, 0x76, // steps of grey
    0xad, 0x03,           // converter on
];

/// The panel, and what it shows.
#[derive(Debug)]
pub struct Ssd0323<D> {
    data: D,
    shown: [[u8; DRAWN]; HEIGHT],
    /// Whether `shown` is what the panel holds; not before the first picture, nor after a bus that failed half-way.
    known: bool,
}

/// Why a picture did not arrive. The next one is sent whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Error<B, P> {
    /// The bus failed.
    Bus(B),
    /// The pin that parts data from commands failed.
    Pin(P),
}

impl<B: fmt::Debug, P: fmt::Debug> fmt::Display for Error<B, P> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bus(error) => write!(out, "the panel's bus failed: {error:?}"),
            Self::Pin(error) => write!(out, "the panel's data pin failed: {error:?}"),
        }
    }
}

impl<B: fmt::Debug, P: fmt::Debug> core::error::Error for Error<B, P> {}

impl<D: OutputPin> Ssd0323<D> {
    /// A panel of which nothing is known, with the pin that is high for data and low for commands.
    pub const fn new(data: D) -> Self {
        Self {
            data,
            shown: [[0; DRAWN]; HEIGHT],
            known: false,
        }
    }

    /// Sets the panel up, darkens it, and only then lights it: its memory holds noise after power-up.
    ///
    /// # Errors
    ///
    /// When the bus or the pin fails.
    pub fn init<B: SpiBus>(&mut self, bus: &mut B) -> Result<(), Error<B::Error, D::Error>> {
        self.known = false;
        command(&mut self.data, bus, &SET_UP)?;
        self.show(bus, &Frame::new())?;
        command(&mut self.data, bus, &[ON])
    }

    /// Sends the rows that differ from what is shown, and returns how many these were.
    ///
    /// # Errors
    ///
    /// When the bus or the pin fails; the next picture is then sent whole.
    pub fn show<B: SpiBus>(
        &mut self,
        bus: &mut B,
        frame: &Frame,
    ) -> Result<usize, Error<B::Error, D::Error>> {
        let known = core::mem::replace(&mut self.known, false);
        // The panel goes on to the next row by itself, so that rows in sequence need one window.
        let mut in_sequence = false;
        let mut sent = 0;
        let mut wide = [0; SENT];
        for (y, (shown, row)) in (0_u8..).zip(self.shown.iter_mut().zip(frame.rows())) {
            if known && same(shown, row) {
                in_sequence = false;
                continue;
            }
            if !in_sequence {
                let window = [SET_COLUMNS, 0, LAST_COLUMN, SET_ROWS, y, LAST_ROW];
                command(&mut self.data, bus, &window)?;
                in_sequence = true;
            }
            widen(row, &mut wide);
            bus.write(&wide).map_err(Error::Bus)?;
            *shown = *row;
            sent += 1;
        }
        bus.flush().map_err(Error::Bus)?;
        self.known = true;
        Ok(sent)
    }
}

/// Sends commands and leaves the pin at data. The pin may only change when the bus is at rest.
fn command<D: OutputPin, B: SpiBus>(
    data: &mut D,
    bus: &mut B,
    bytes: &[u8],
) -> Result<(), Error<B::Error, D::Error>> {
    bus.flush().map_err(Error::Bus)?;
    data.set_low().map_err(Error::Pin)?;
    bus.write(bytes).map_err(Error::Bus)?;
    bus.flush().map_err(Error::Bus)?;
    data.set_high().map_err(Error::Pin)
}

/// Whether two rows are the same. By words: comparing slices calls a loop over bytes, which costs five times as much.
fn same(one: &[u8; DRAWN], other: &[u8; DRAWN]) -> bool {
    u128::from_ne_bytes(*one) == u128::from_ne_bytes(*other)
}

/// Turns a row into what the panel holds: a lit pixel is all ones.
///
/// Bits are moved apart in three steps, whose masks are immediates of the processor. A table of 256 entries would save a few
/// instructions of the ten for four bytes and cost 1 KiB.
fn widen(row: &[u8; DRAWN], out: &mut [u8; SENT]) {
    let (fours, _) = out.as_chunks_mut();
    for (four, byte) in fours.iter_mut().zip(row) {
        let bits = u32::from(*byte);
        let bits = (bits | bits << 12) & 0x000f_000f;
        let bits = (bits | bits << 6) & 0x0303_0303;
        let bits = (bits | bits << 3) & 0x1111_1111;
        // Ones stand four apart: no product reaches into the next.
        *four = (bits * 15).to_be_bytes();
    }
}

#[cfg(test)]
mod tests;
