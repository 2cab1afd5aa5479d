//! The end: what went wrong is put into the log and onto the panel, and the emulator is told.

use core::panic::PanicInfo;
use core::sync::atomic::{AtomicBool, Ordering};

use cortex_m_rt::{ExceptionFrame, exception};
use springline_firmware::frame::Frame;
use springline_firmware::letters::Letters;

use crate::board::Panel;

/// Small letters in a row.
const ACROSS: usize = 21;
/// What the emulator exits with.
const FAILED: i32 = 1;

/// Set by the first trouble: reporting it may make the next.
static REPORTING: AtomicBool = AtomicBool::new(false);

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    once();
    // The message would bring the formatting of the core library along, half as large as the application.
    let (file, line) = info
        .location()
        .map_or(("?", 0), |at| (at.file(), at.line()));
    defmt::error!("panic at {=str}:{=u32}", file, line);
    // The end of a path tells more than its beginning.
    let tail = file.get(file.len().saturating_sub(ACROSS)..).unwrap_or("");
    show("PANIC", tail, "line ", Number::of(line, 10).text())
}

#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    once();
    defmt::error!("hard fault at {=u32:#x}", frame.pc());
    show("HARD FAULT", "", "at 0x", Number::of(frame.pc(), 16).text())
}

/// Goes on at the first trouble and ends at the next.
fn once() {
    cortex_m::interrupt::disable();
    if REPORTING.load(Ordering::Relaxed) {
        semihosting::process::exit(FAILED);
    }
    REPORTING.store(true, Ordering::Relaxed);
}

fn show(title: &str, file: &str, label: &str, number: &str) -> ! {
    let mut frame = Frame::new();
    let mut write = |text: &str, x, y| Letters::Small.write(&mut frame, x, y, text, true);
    write(title, 0, 0);
    write(file, 0, 16);
    write(label, 0, 28);
    write(number, 36, 28);
    // Its owner will not come back.
    Panel::start().show(&frame);
    semihosting::process::exit(FAILED)
}

/// A number in digits.
struct Number {
    digits: [u8; 10],
    from: usize,
}

impl Number {
    /// Ten digits hold any number of base ten or more.
    fn of(mut number: u32, base: u32) -> Self {
        let mut digits = [b'0'; 10];
        let mut from = digits.len();
        for (at, digit) in digits.iter_mut().enumerate().rev() {
            let value = u8::try_from(number % base).unwrap_or(0);
            *digit = if value < 10 { b'0' } else { b'a' - 10 } + value;
            from = at;
            number /= base;
            if number == 0 {
                break;
            }
        }
        Self { digits, from }
    }

    fn text(&self) -> &str {
        let digits = self.digits.get(self.from..).unwrap_or(&[]);
        core::str::from_utf8(digits).unwrap_or("?")
    }
}
