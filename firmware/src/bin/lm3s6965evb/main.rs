//! The handheld on the emulated board.

#![cfg_attr(target_os = "none", no_std, no_main)]

#[cfg(target_os = "none")]
mod board;
#[cfg(target_os = "none")]
mod clock;
#[cfg(target_os = "none")]
mod pins;
#[cfg(target_os = "none")]
mod ports;
#[cfg(target_os = "none")]
mod registers;
#[cfg(target_os = "none")]
mod run;
#[cfg(target_os = "none")]
mod spi;
#[cfg(target_os = "none")]
mod trouble;

#[cfg(not(target_os = "none"))]
fn main() {
    eprintln!(
        "This runs on an emulated board. Build it with\n\
         cargo build -p springline-firmware --profile firmware --target thumbv7m-none-eabi \
         --features handheld-lm3s6965evb --bin lm3s6965evb\n\
         and start it with\n\
         python3 tests/scripts/handheld.py --demo"
    );
}
