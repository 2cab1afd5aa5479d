//! The end: what went wrong is put into the log and onto the panel, and the emulator is told.

use core::panic::PanicInfo;
use core::sync::atomic::{AtomicBool, Ordering};

use cortex_m_rt::{ExceptionFrame, exception};
use springline_firmware::trouble::Trouble;

use crate::board::Panel;

/// What the emulator exits with.
const FAILED: i32 = 1;

/// Set by the first trouble: reporting it may make the next.
static REPORTING: AtomicBool = AtomicBool::new(false);

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    once();
    let (file, line) = info
        .location()
        .map_or(("?", 0), |at| (at.file(), at.line()));
    defmt::error!("panic at {=str}:{=u32}", file, line);
    show(Trouble::Panic { file, line })
}

#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    once();
    defmt::error!("hard fault at {=u32:#x}", frame.pc());
    show(Trouble::HardFault { at: frame.pc() })
}

/// Goes on at the first trouble and ends at the next.
fn once() {
    cortex_m::interrupt::disable();
    if REPORTING.load(Ordering::Relaxed) {
        semihosting::process::exit(FAILED);
    }
    REPORTING.store(true, Ordering::Relaxed);
}

fn show(trouble: Trouble<'_>) -> ! {
    // Its owner will not come back.
    Panel::start().show(&trouble.picture());
    semihosting::process::exit(FAILED)
}
