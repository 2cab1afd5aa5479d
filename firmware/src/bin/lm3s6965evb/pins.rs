//! Pins: a port and a bit.

use core::convert::Infallible;

use embedded_hal::digital::{ErrorType, InputPin, OutputPin};

use crate::registers::Registers;

/// Whether a pin is driven.
const DIRECTION: usize = 0x400;
/// Whether a pin belongs to a peripheral.
const ALTERNATE: usize = 0x420;
const PULL_UP: usize = 0x510;
const DIGITAL: usize = 0x51c;

/// Hands pins to a peripheral.
pub(crate) fn lend(port: Registers, bits: u32) {
    port.set(ALTERNATE, bits);
    port.set(DIGITAL, bits);
}

/// A pin that is driven.
pub(crate) struct Output(Pin);

impl Output {
    /// Drives a pin, from now on at this level.
    pub(crate) fn new(port: Registers, bit: u32, high: bool) -> Self {
        let pin = Pin { port, bit };
        port.set(DIRECTION, 1 << bit);
        pin.write(high);
        port.set(DIGITAL, 1 << bit);
        Self(pin)
    }
}

impl ErrorType for Output {
    type Error = Infallible;
}

impl OutputPin for Output {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.write(false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        self.0.write(true);
        Ok(())
    }
}

/// A pin that is read, pulled up.
pub(crate) struct Input(Pin);

impl Input {
    /// Makes a pin an input, which it is after reset, and pulls it up.
    pub(crate) fn new(port: Registers, bit: u32) -> Self {
        port.set(PULL_UP, 1 << bit);
        port.set(DIGITAL, 1 << bit);
        Self(Pin { port, bit })
    }
}

impl ErrorType for Input {
    type Error = Infallible;
}

impl InputPin for Input {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(self.0.read())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!self.0.read())
    }
}

/// The address of a port's data carries a mask of the pins that are meant, so that nobody reads a port to write one pin of it.
struct Pin {
    port: Registers,
    bit: u32,
}

impl Pin {
    const fn address(&self) -> usize {
        4 << self.bit
    }

    fn write(&self, high: bool) {
        self.port
            .write(self.address(), if high { 1 << self.bit } else { 0 });
    }

    fn read(&self) -> bool {
        self.port.read(self.address()) != 0
    }
}
