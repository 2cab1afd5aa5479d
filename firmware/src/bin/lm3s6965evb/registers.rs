//! Registers by address.

use core::ptr;

/// A peripheral's block of 32-bit registers.
#[derive(Clone, Copy)]
pub(crate) struct Registers(usize);

impl Registers {
    /// # Safety
    ///
    /// A peripheral must have its 4 KiB of registers here, none of whose words may be memory, nor may an access to any of them
    /// make the processor read or write memory behind the program's back.
    const unsafe fn at(base: usize) -> Self {
        Self(base)
    }

    /// Reads a register.
    pub(crate) fn read(self, offset: usize) -> u32 {
        // SAFETY: a word of the peripheral that `at` was promised; the mask keeps it there, and aligned.
        unsafe { ptr::with_exposed_provenance::<u32>(self.0 + (offset & 0xffc)).read_volatile() }
    }

    /// Writes a register.
    pub(crate) fn write(self, offset: usize, value: u32) {
        // SAFETY: as above.
        unsafe {
            ptr::with_exposed_provenance_mut::<u32>(self.0 + (offset & 0xffc))
                .write_volatile(value);
        }
    }

    /// Sets bits of a register and leaves the others.
    pub(crate) fn set(self, offset: usize, bits: u32) {
        self.write(offset, self.read(offset) | bits);
    }
}

// SAFETY: the peripherals of the memory map in the part's data sheet. None of these masters the bus.
mod map {
    use super::Registers;

    pub(crate) const WATCHDOG: Registers = unsafe { Registers::at(0x4000_0000) };
    pub(crate) const PORT_A: Registers = unsafe { Registers::at(0x4000_4000) };
    pub(crate) const PORT_C: Registers = unsafe { Registers::at(0x4000_6000) };
    pub(crate) const PORT_D: Registers = unsafe { Registers::at(0x4000_7000) };
    pub(crate) const SPI: Registers = unsafe { Registers::at(0x4000_8000) };
    pub(crate) const PORT_E: Registers = unsafe { Registers::at(0x4002_4000) };
    pub(crate) const PORT_F: Registers = unsafe { Registers::at(0x4002_5000) };
    pub(crate) const SYSTEM: Registers = unsafe { Registers::at(0x400f_e000) };
}

pub(crate) use map::*;
