//! The handheld on a board with an RP2040. `boards/rp2040/README.md` has the wiring.

#![cfg_attr(target_os = "none", no_std, no_main)]

#[cfg(target_os = "none")]
mod board;
#[cfg(target_os = "none")]
mod bus;
#[cfg(target_os = "none")]
mod clock;
#[cfg(target_os = "none")]
mod gauge;
#[cfg(target_os = "none")]
mod host;
#[cfg(target_os = "none")]
mod run;
#[cfg(target_os = "none")]
mod trouble;

#[cfg(not(target_os = "none"))]
fn main() {
    eprintln!(
        "This runs on a board with an RP2040. Build it with\n\
         cargo handheld-rp2040\n\
         and make the file that the board takes with\n\
         python3 tests/scripts/uf2.py"
    );
}
