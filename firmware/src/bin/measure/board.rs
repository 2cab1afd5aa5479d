//! The emulated board as a counter of instructions.
//!
//! Under a fixed instruction clock the board's timer advances in step with instructions, so that a known loop turns its
//! ticks into instructions. There is no cycle counter in the emulator.

use core::arch::asm;

use cortex_m::peripheral::SYST;
use cortex_m::peripheral::syst::SystClkSource;
use semihosting::println;

/// Instructions of the known loop: two a round.
const KNOWN: u32 = 2_000_000;
/// The timer is 24 bits wide and counts down.
const MASK: u32 = 0x00ff_ffff;

/// Turns ticks into instructions.
pub(crate) struct Counter {
    ticks: u32,
    overhead: u32,
}

impl Counter {
    /// Starts the timer and measures the known loop.
    pub(crate) fn calibrate(timer: &mut SYST) -> Self {
        timer.set_clock_source(SystClkSource::Core);
        timer.set_reload(MASK);
        timer.clear_current();
        timer.enable_counter();
        let mut counter = Self {
            ticks: KNOWN,
            overhead: 0,
        };
        counter.overhead = ticks(|| ());
        counter.ticks = ticks(|| known_loop(KNOWN / 2)) - counter.overhead;
        counter
    }

    /// Ticks of the known loop, and its instructions.
    pub(crate) fn known(&self) -> (u32, u32) {
        (self.ticks, KNOWN)
    }

    /// Instructions of some work, and what came of it. Good for up to ten million.
    pub(crate) fn count<T>(&self, work: impl FnOnce() -> T) -> (u32, T) {
        let mut out = None;
        let spent = ticks(|| out = Some(core::hint::black_box(work())));
        let instructions = u64::from(spent.saturating_sub(self.overhead)) * u64::from(KNOWN)
            / u64::from(self.ticks);
        // Never `None`: `ticks` calls its closure once.
        match out {
            Some(out) => (u32::try_from(instructions).unwrap_or(u32::MAX), out),
            None => semihosting::process::exit(3),
        }
    }
}

fn ticks(work: impl FnOnce()) -> u32 {
    let before = SYST::get_current();
    work();
    let after = SYST::get_current();
    before.wrapping_sub(after) & MASK
}

fn known_loop(rounds: u32) {
    // SAFETY: counts a register down; touches nothing else but the flags.
    unsafe {
        asm!("2:", "subs {0}, #1", "bne 2b", inout(reg) rounds => _, options(nomem, nostack));
    }
}

#[panic_handler]
fn panic(info: &core::panic::PanicInfo<'_>) -> ! {
    println!("panicked {info}");
    semihosting::process::exit(101)
}
