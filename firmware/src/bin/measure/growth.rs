//! What the same questions cost with many more rows. It needs the memory of a larger board.

use core::hint::black_box;

use cortex_m_rt::entry;
use semihosting::println;
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_firmware::grown::grow;
use springline_firmware::sweep::{Digest, Kind};
use springline_tables::IMAGE;

use crate::board::Counter;

/// Room for the longest table.
const ROOM: usize = 2 * 1024 * 1024;
/// The kinds of reading whose windows have an upper end well below the added rows.
const KINDS: [Kind; 4] = [
    Kind::DiameterTape,
    Kind::SteelTape,
    Kind::Crossed,
    Kind::Diameter,
];

#[entry]
fn main() -> ! {
    let room = cortex_m::singleton!(: [u8; ROOM] = [0; ROOM]);
    let (Some(mut peripherals), Some(room)) = (cortex_m::Peripherals::take(), room) else {
        semihosting::process::exit(3)
    };
    let counter = Counter::calibrate(&mut peripherals.SYST);
    for times in [10, 100] {
        let grown = grow(IMAGE, times, room).and_then(|length| room.get(..length));
        let images = (Image::new(IMAGE), grown.map(Image::new));
        let (Ok(image), Some(Ok(grown))) = images else {
            println!("refused {times}");
            semihosting::process::exit(2)
        };
        println!("growth_{times}x_rows {}", grown.row_count());
        let mut worst = 0;
        for kind in KINDS {
            worst = worst.max(dearer(&counter, &image, &grown, kind));
        }
        println!("growth_{times}x_permille {worst}");
    }
    println!("done 1");
    semihosting::process::exit(0)
}

/// The largest cost with the grown table over that with the real one, in thousandths; the answers must be the same.
#[inline(never)]
fn dearer(counter: &Counter, image: &Image<'_>, grown: &Image<'_>, kind: Kind) -> u32 {
    let (mut ours, mut theirs) = (Digest::new(), Digest::new());
    let mut worst = 0;
    for mils in kind.mils().step_by(61) {
        let query = kind.query(mils);
        let ask =
            |image: &Image<'_>| counter.count(|| identify(black_box(image), black_box(&query)));
        let (real, answer) = ask(image);
        ours.add(&answer);
        let (longer, answer) = ask(grown);
        theirs.add(&answer);
        let permille = u64::from(longer) * 1000 / u64::from(real.max(1));
        worst = worst.max(u32::try_from(permille).unwrap_or(u32::MAX));
    }
    if ours.value() != theirs.value() {
        println!("{} answers otherwise with more rows", kind.key());
        semihosting::process::exit(4)
    }
    worst
}
