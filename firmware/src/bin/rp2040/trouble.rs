//! The end: what went wrong is put onto the panel, where it stands until the watchdog resets the board.

use core::panic::PanicInfo;
use core::sync::atomic::{AtomicBool, Ordering};

use cortex_m_rt::{ExceptionFrame, exception};
use rp2040_hal::fugit::MicrosDurationU32;
use rp2040_hal::pac::Peripherals;
use rp2040_hal::watchdog::Watchdog;
use springline_firmware::drivers::ssd1306::{PARTS, PAUSE, Panel};
use springline_firmware::trouble::Trouble;

use crate::bus::Bus;

/// Long enough to read it, or to take a picture; the watchdog counts little further.
const READ: MicrosDurationU32 = MicrosDurationU32::millis(8_000);
/// To find the panel, set it up, send every part and light it, and some that are refused.
const STEPS: usize = PARTS + 8;

/// Set by the first trouble: reporting it may make the next.
static REPORTING: AtomicBool = AtomicBool::new(false);

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    let (file, line) = info
        .location()
        .map_or(("?", 0), |at| (at.file(), at.line()));
    stop(Trouble::Panic { file, line })
}

#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    stop(Trouble::HardFault { at: frame.pc() })
}

/// Shows what went wrong and never comes back.
pub(crate) fn stop(trouble: Trouble<'_>) -> ! {
    cortex_m::interrupt::disable();
    if !REPORTING.load(Ordering::Relaxed) {
        REPORTING.store(true, Ordering::Relaxed);
        // SAFETY: whoever owned them does not run any more: there is one core, and nothing can interrupt it.
        let part = unsafe { Peripherals::steal() };
        Watchdog::new(part.WATCHDOG).start(READ);
        let mut panel = Panel::new(Bus::start(part.I2C0, part.RESETS));
        panel.show(&trouble.picture());
        // The clock stands still, so that time is made here: no step waits for the one before it.
        let mut now = 0;
        for _ in 0..STEPS {
            panel.tend(now);
            now += PAUSE;
        }
    }
    // Without a clock for the watchdog, which is among the first things started, it stands here until it is switched off.
    loop {
        cortex_m::asm::nop();
    }
}
