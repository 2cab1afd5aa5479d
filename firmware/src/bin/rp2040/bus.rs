//! The two-wire bus of the panel, which is written and never read.
//!
//! The support library has a bus, too. But that looks for a refusal only while its queue is full, so that a short transfer
//! that nobody took passes for a success, and it waits without end for a bus that is stuck. A board without a panel must
//! still answer its host: so every transfer here is seen to its end, and given up after some time.

use embedded_hal::i2c::{Error, ErrorKind, ErrorType, I2c, NoAcknowledgeSource, Operation};
use rp2040_hal::pac::{I2C0, RESETS};

use crate::clock;

/// Clocks of the bus in a second: fast mode.
const HERTZ: u32 = 400_000;
const PERIOD: u32 = clock::HERTZ / HERTZ;
/// The line is low for longer than it is high: the specification asks for 1.3 and 0.6 us.
const LOW: u32 = PERIOD * 3 / 5;
const HIGH: u32 = PERIOD - LOW;
/// Data stay for 300 ns after the clock fell.
const HOLD: u32 = clock::HERTZ / 1_000_000 * 3 / 10 + 1;
/// Pulses of less than a sixteenth of the low time are none.
const SPIKE: u32 = LOW / 16;
/// Looks at a byte that does not end; it takes some 25 us, which is far less than a thousand of them.
const PATIENCE: u32 = 4_000;

/// Why a transfer did not arrive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Refused {
    /// Nobody took a byte.
    NotTaken,
    /// A line is held by somebody.
    Stuck,
    /// A read.
    OnlyWrites,
}

impl Error for Refused {
    fn kind(&self) -> ErrorKind {
        match self {
            Self::NotTaken => ErrorKind::NoAcknowledge(NoAcknowledgeSource::Unknown),
            Self::Stuck => ErrorKind::Bus,
            Self::OnlyWrites => ErrorKind::Other,
        }
    }
}

/// The bus. Its pins belong to it already.
pub(crate) struct Bus {
    i2c: I2C0,
    resets: RESETS,
}

impl Bus {
    /// Starts the bus.
    pub(crate) fn start(i2c: I2C0, resets: RESETS) -> Self {
        let mut bus = Self { i2c, resets };
        bus.restart();
        bus
    }

    /// Puts the peripheral into its first state, whatever it was doing.
    fn restart(&mut self) {
        self.resets.reset().modify(|_, w| w.i2c0().set_bit());
        self.resets.reset().modify(|_, w| w.i2c0().clear_bit());
        // It comes up within a few clocks, unless the part is broken.
        self.wait(|bus| bus.resets.reset_done().read().i2c0().bit_is_set());
        let i2c = &self.i2c;
        i2c.ic_enable().write(|w| w.enable().disabled());
        i2c.ic_con().write(|w| {
            w.speed().fast();
            w.master_mode().enabled();
            w.ic_slave_disable().slave_disabled();
            w.ic_restart_en().enabled();
            // The queue counts as empty when the last bit is out.
            w.tx_empty_ctrl().enabled()
        });
        // SAFETY: each value is in the range of its field, the only one in its register. The data sheet asks for nothing else but
        // that the peripheral be switched off.
        unsafe {
            i2c.ic_tx_tl().write(|w| w.bits(0));
            i2c.ic_fs_scl_hcnt().write(|w| w.bits(HIGH));
            i2c.ic_fs_scl_lcnt().write(|w| w.bits(LOW));
            i2c.ic_fs_spklen().write(|w| w.bits(SPIKE));
            i2c.ic_sda_hold().write(|w| w.bits(HOLD));
        }
    }

    /// Sends bytes, each after the one before it was taken.
    fn send<'b>(
        &mut self,
        address: u8,
        bytes: impl Iterator<Item = &'b u8>,
    ) -> Result<(), Refused> {
        // The address may only change while the peripheral is off.
        self.i2c.ic_enable().write(|w| w.enable().disabled());
        // SAFETY: an address of seven bits fits into the field's ten.
        let to = u16::from(address);
        self.i2c.ic_tar().write(|w| unsafe { w.ic_tar().bits(to) });
        self.i2c.ic_enable().write(|w| w.enable().enabled());
        let mut bytes = bytes.peekable();
        while let Some(byte) = bytes.next() {
            let is_last = bytes.peek().is_none();
            self.i2c.ic_data_cmd().write(|w| {
                // SAFETY: any byte may be sent.
                unsafe { w.dat().bits(*byte) };
                w.stop().bit(is_last)
            });
            let status = |bus: &Self| bus.i2c.ic_raw_intr_stat().read();
            let out = self.wait(|bus| {
                let status = status(bus);
                status.tx_empty().bit_is_set() || status.tx_abrt().bit_is_set()
            });
            if !out {
                return Err(Refused::Stuck);
            }
            let is_refused = status(self).tx_abrt().bit_is_set();
            if is_refused || is_last {
                // After a refusal the peripheral ends the transfer by itself.
                if !self.wait(|bus| status(bus).stop_det().bit_is_set()) {
                    return Err(Refused::Stuck);
                }
                // Reading clears.
                self.i2c.ic_clr_stop_det().read();
                let is_refused = status(self).tx_abrt().bit_is_set();
                self.i2c.ic_clr_tx_abrt().read();
                if is_refused {
                    return Err(Refused::NotTaken);
                }
            }
        }
        Ok(())
    }

    /// Whether something comes true before patience ends.
    fn wait(&self, is_true: impl Fn(&Self) -> bool) -> bool {
        (0..PATIENCE).any(|_| is_true(self))
    }
}

impl ErrorType for Bus {
    type Error = Refused;
}

impl I2c for Bus {
    fn transaction(
        &mut self,
        address: u8,
        operations: &mut [Operation<'_>],
    ) -> Result<(), Refused> {
        let is_read = |operation: &Operation<'_>| matches!(operation, Operation::Read(_));
        if operations.iter().any(is_read) {
            return Err(Refused::OnlyWrites);
        }
        let bytes = operations.iter().flat_map(|operation| match operation {
            Operation::Write(bytes) => bytes.iter(),
            Operation::Read(_) => [].iter(),
        });
        let sent = self.send(address, bytes);
        if sent == Err(Refused::Stuck) {
            self.restart();
        }
        sent
    }
}
