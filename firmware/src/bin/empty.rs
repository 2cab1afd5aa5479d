//! What a program costs before it identifies anything: the other side of the difference that `bare` is measured by.

#![cfg_attr(target_os = "none", no_std, no_main)]

#[cfg(not(target_os = "none"))]
fn main() {
    eprintln!("This is for the size of a board's program; see tests/scripts/measure.py.");
}

#[cfg(target_os = "none")]
mod board {
    use cortex_m as _;
    use cortex_m_rt::entry;

    #[entry]
    fn main() -> ! {
        loop {
            core::hint::spin_loop();
        }
    }

    #[panic_handler]
    fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
        loop {
            core::hint::spin_loop();
        }
    }
}
