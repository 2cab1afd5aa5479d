//! The serial bus that the panel and the card share, a PL022.

use core::convert::Infallible;

use embedded_hal::spi::{ErrorType, SpiBus};

use crate::registers::SPI;

const CONTROL: usize = 0x000;
const ENABLE: usize = 0x004;
const DATA: usize = 0x008;
const STATUS: usize = 0x00c;
const DIVIDER: usize = 0x010;

/// Eight bits, clock low at rest, taken at its first edge.
const EIGHT_BITS: u32 = 7;
const RUN: u32 = 1 << 1;
const RECEIVED: u32 = 1 << 2;
const FULL: u32 = 1 << 3;
/// Bytes that the part holds each way.
const QUEUE: usize = 8;
/// 50 MHz by 14 is 3.6 MHz; the panel's clock is rated at 4 MHz (recalled, not seen).
const DIVIDE_BY: u32 = 14;

/// The bus. Every byte that goes out brings one in, and all are taken before more go out than its queue holds. So that never
/// overflows, and the bus is at rest after every call.
pub(crate) struct Spi(());

impl Spi {
    /// Starts the bus.
    pub(crate) fn start() -> Self {
        SPI.write(ENABLE, 0);
        SPI.write(CONTROL, EIGHT_BITS);
        SPI.write(DIVIDER, DIVIDE_BY);
        SPI.write(ENABLE, RUN);
        while SPI.read(STATUS) & RECEIVED != 0 {
            SPI.read(DATA);
        }
        Self(())
    }

    /// Waits for as long as a byte takes. Should one never arrive, the watchdog ends it.
    fn exchange(byte: u8) -> u8 {
        SPI.write(DATA, u32::from(byte));
        while SPI.read(STATUS) & RECEIVED == 0 {}
        let [received, ..] = SPI.read(DATA).to_le_bytes();
        received
    }

    /// Sends what fills a queue and drops what it brings, with one wait for all.
    ///
    /// Spelled out, since a compiler that is told to make things small keeps loops, and these would double the cost.
    #[allow(clippy::many_single_char_names, reason = "eight bytes in a row")]
    fn send(&[a, b, c, d, e, f, g, h]: &[u8; QUEUE]) {
        let put = |byte| SPI.write(DATA, u32::from(byte));
        let take = || SPI.read(DATA);
        let _sent = [
            put(a),
            put(b),
            put(c),
            put(d),
            put(e),
            put(f),
            put(g),
            put(h),
        ];
        while SPI.read(STATUS) & FULL == 0 {}
        let _dropped = [
            take(),
            take(),
            take(),
            take(),
            take(),
            take(),
            take(),
            take(),
        ];
    }
}

impl ErrorType for Spi {
    type Error = Infallible;
}

impl SpiBus for Spi {
    fn read(&mut self, bytes: &mut [u8]) -> Result<(), Infallible> {
        for byte in bytes {
            *byte = Self::exchange(0xff);
        }
        Ok(())
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), Infallible> {
        let (eights, rest) = bytes.as_chunks();
        for eight in eights {
            Self::send(eight);
        }
        for byte in rest {
            Self::exchange(*byte);
        }
        Ok(())
    }

    fn transfer(&mut self, read: &mut [u8], write: &[u8]) -> Result<(), Infallible> {
        let (both, more) = read.split_at_mut(read.len().min(write.len()));
        for (into, byte) in both.iter_mut().zip(write) {
            *into = Self::exchange(*byte);
        }
        let more_to_write = write.get(both.len()..).unwrap_or(&[]);
        self.read(more)?;
        self.write(more_to_write)
    }

    fn transfer_in_place(&mut self, bytes: &mut [u8]) -> Result<(), Infallible> {
        for byte in bytes {
            *byte = Self::exchange(*byte);
        }
        Ok(())
    }

    fn flush(&mut self) -> Result<(), Infallible> {
        Ok(())
    }
}
