//! The processor's clock, milliseconds, and short waits.

use core::sync::atomic::{AtomicU32, Ordering};

use cortex_m::peripheral::SYST;
use cortex_m::peripheral::syst::SystClkSource;
use cortex_m_rt::exception;
use embedded_hal::delay::DelayNs;

/// The crystal of the part's reference design.
pub(crate) const CRYSTAL: u32 = 12_000_000;
/// What the board's support library makes of it, for the processor and the peripherals.
pub(crate) const HERTZ: u32 = 125_000_000;

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
    // Nobody else writes it: no need for an indivisible addition, which this processor lacks.
    MILLISECONDS.store(now().wrapping_add(1), Ordering::Relaxed);
}

/// Waits by counting the processor's clocks, a few more than asked.
pub(crate) struct Wait;

impl DelayNs for Wait {
    fn delay_ns(&mut self, nanoseconds: u32) {
        // Eight nanoseconds a clock.
        cortex_m::asm::delay(nanoseconds / (1_000_000_000 / HERTZ) + 1);
    }
}
