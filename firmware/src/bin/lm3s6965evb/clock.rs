//! The processor's clock, milliseconds, and the watchdog.

use core::sync::atomic::{AtomicU32, Ordering};

use cortex_m::peripheral::SYST;
use cortex_m::peripheral::syst::SystClkSource;
use cortex_m_rt::exception;

use crate::registers::{SYSTEM, WATCHDOG};

/// The processor's and the peripherals' clock.
pub(crate) const HERTZ: u32 = 50_000_000;

const RAW_STATUS: usize = 0x050;
const RUN_MODE: usize = 0x060;
const LOCKED: u32 = 1 << 6;
/// Divides the 200 MHz of the loop by four.
const DIVIDE_BY_4: u32 = 3 << 23;
const DIVIDED: u32 = 1 << 22;
const LOOP_OFF: u32 = 1 << 13;
const BYPASS: u32 = 1 << 11;
const CRYSTAL_8_MHZ: u32 = 0xe << 6;
/// Looks at the loop before it is used in any case: the data sheet allows it half a millisecond.
const PATIENCE: u32 = 100_000;

/// Peripherals are clocked by these, a bit for each.
const CLOCKED: usize = 0x100;
const WATCHDOG_CLOCK: u32 = 1 << 3;
const UART_AND_SPI: u32 = 1 | 1 << 1 | 1 << 4;
const PORTS_A_TO_F: u32 = 0x3f;

/// Runs the processor at [`HERTZ`] off the crystal and gives the peripherals their clocks.
pub(crate) fn start() {
    // Off the crystal first, with the loop running up beside it; the emulator looks at nothing but the divider.
    SYSTEM.write(RUN_MODE, CRYSTAL_8_MHZ | BYPASS | LOOP_OFF);
    let dividers = CRYSTAL_8_MHZ | DIVIDE_BY_4 | DIVIDED;
    SYSTEM.write(RUN_MODE, dividers | BYPASS);
    for _ in 0..PATIENCE {
        if SYSTEM.read(RAW_STATUS) & LOCKED != 0 {
            break;
        }
    }
    SYSTEM.write(RUN_MODE, dividers);
    SYSTEM.set(CLOCKED, WATCHDOG_CLOCK);
    SYSTEM.set(CLOCKED + 4, UART_AND_SPI);
    SYSTEM.set(CLOCKED + 8, PORTS_A_TO_F);
    // A peripheral answers a few clocks after it got its own.
    SYSTEM.read(CLOCKED + 8);
}

static MILLISECONDS: AtomicU32 = AtomicU32::new(0);

/// Counts milliseconds from now on.
pub(crate) fn count(timer: &mut SYST) {
    timer.set_clock_source(SystClkSource::Core);
    timer.set_reload(HERTZ / 1000 - 1);
    timer.clear_current();
    timer.enable_counter();
    timer.enable_interrupt();
}

/// Milliseconds since [`count`]; wraps around.
pub(crate) fn now() -> u32 {
    MILLISECONDS.load(Ordering::Relaxed)
}

#[exception]
fn SysTick() {
    // Nobody else writes it: no need for an indivisible addition, which smaller processors lack.
    MILLISECONDS.store(now().wrapping_add(1), Ordering::Relaxed);
}

const WATCHDOG_LOAD: usize = 0x000;
const WATCHDOG_CONTROL: usize = 0x008;
const WATCHDOG_CLEAR: usize = 0x00c;
const WATCHDOG_LOCK: usize = 0xc00;
const COUNT: u32 = 1;
const RESET: u32 = 1 << 1;
const UNLOCK: u32 = 0x1acc_e551;
/// It resets the second time that it runs out, after eight seconds: an emulator may be kept from running for long.
const WATCHDOG_PERIOD: u32 = 4 * HERTZ;

/// Resets the board when [`feed`] is not called any more.
pub(crate) fn guard() {
    WATCHDOG.write(WATCHDOG_LOCK, UNLOCK);
    WATCHDOG.write(WATCHDOG_LOAD, WATCHDOG_PERIOD);
    WATCHDOG.write(WATCHDOG_CONTROL, COUNT | RESET);
}

/// Says that the loop is alive.
pub(crate) fn feed() {
    WATCHDOG.write(WATCHDOG_CLEAR, 1);
}
