//! Counts what identifications cost on the emulated board, and sums up their answers.
//!
//! Lines are `name value`. On a host it prints the check values alone, which must be those of the board.

#![cfg_attr(target_os = "none", no_std, no_main)]

#[cfg(all(target_os = "none", not(feature = "board-mps2-an385")))]
mod application;
#[cfg(target_os = "none")]
mod board;
#[cfg(all(target_os = "none", not(feature = "board-mps2-an385")))]
mod costs;
#[cfg(all(target_os = "none", feature = "board-mps2-an385"))]
mod growth;
#[cfg(all(target_os = "none", not(feature = "board-mps2-an385")))]
mod stack;

#[cfg(not(target_os = "none"))]
fn main() {
    use springline_core::identify::identify;
    use springline_core::image::Image;
    use springline_firmware::sweep::{Digest, Kind};

    let image = Image::new(springline_tables::IMAGE).expect("the built-in image passes its gate");
    for kind in Kind::ALL {
        let mut digest = Digest::new();
        for mils in kind.mils() {
            digest.add(&identify(&image, &kind.query(mils)));
        }
        println!("{}_answers {:08x}", kind.key(), digest.value());
    }
    eprintln!(
        "These are a desk's answers. What they cost on the emulated board: python3 tests/scripts/measure.py, or\n\
         cargo run -p springline-firmware --profile firmware --target thumbv7m-none-eabi \
         --features board-lm3s6965evb --bin measure"
    );
}
