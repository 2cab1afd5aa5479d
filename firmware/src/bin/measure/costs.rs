//! What is measured, and the lines that say so.

use core::hint::black_box;

use cortex_m_rt::entry;
use semihosting::println;
use springline_core::identify::{Answer, Cannot, Trench, identify, propose};
use springline_core::image::{Image, directory};
use springline_core::print::read;
use springline_core::reading::{Query, ReadingError};
use springline_firmware::sweep::{Digest, Kind};
use springline_tables::IMAGE;

use crate::application;
use crate::board::Counter;
use crate::stack::Painted;

#[entry]
fn main() -> ! {
    let Some(mut peripherals) = cortex_m::Peripherals::take() else {
        semihosting::process::exit(3)
    };
    let counter = Counter::calibrate(&mut peripherals.SYST);
    let (ticks, instructions) = counter.known();
    println!("known_loop_ticks {ticks}");
    println!("known_loop_instructions {instructions}");
    println!("image_bytes {}", IMAGE.len());
    for (name, entry) in directory(IMAGE) {
        let bytes = entry.count.saturating_mul(u32::from(entry.record));
        println!("image_{name}_bytes {bytes}");
    }
    let image = ready(&counter);
    for kind in Kind::ALL {
        sweep(&counter, &image, kind);
    }
    proposals(&counter, &image, Kind::SteelTape, "propose_clues");
    proposals(&counter, &image, Kind::Diameter, "propose");
    lines(&counter, &image);
    application::application(&counter, &image);
    println!("done 1");
    semihosting::process::exit(0)
}

/// What it takes from bytes to an image.
#[inline(never)]
fn ready(counter: &Counter) -> Image<'static> {
    let painted = Painted::below();
    let (instructions, image) = counter.count(|| Image::new(black_box(IMAGE)));
    let stack = painted.touched();
    println!("ready_instructions {instructions}");
    println!("ready_stack {stack}");
    match image {
        Ok(image) => image,
        Err(error) => {
            println!("refused {error}");
            semihosting::process::exit(2)
        }
    }
}

/// Not inlined, so that its stack is that of the identification and of nothing around it.
#[inline(never)]
fn ask(image: &Image<'_>, query: &Query) -> Result<Answer, ReadingError> {
    identify(image, query)
}

#[inline(never)]
fn sweep(counter: &Counter, image: &Image<'_>, kind: Kind) {
    let mut digest = Digest::new();
    let mut spread = Spread::new();
    let (mut refused, mut asked) = (0u32, 0u32);
    let mut stack = 0;
    for mils in kind.mils() {
        let query = kind.query(mils);
        let painted = (asked % 16 == 0).then(Painted::below);
        let (instructions, answer) = counter.count(|| ask(black_box(image), black_box(&query)));
        if let Some(painted) = painted {
            stack = stack.max(painted.touched());
        }
        digest.add(&answer);
        spread.add(instructions, mils);
        asked += 1;
        refused += u32::from(answer.is_err());
    }
    let key = kind.key();
    println!("{key}_readings {asked}");
    println!("{key}_refused {refused}");
    spread.print(key);
    println!("{key}_stack {stack}");
    println!("{key}_answers {:08x}", digest.value());
}

/// What it takes to say which check to make next. After a tape only clues are left to weigh.
#[inline(never)]
fn proposals(counter: &Counter, image: &Image<'_>, kind: Kind, key: &str) {
    let mut spread = Spread::new();
    for mils in kind.mils() {
        let query = kind.query(mils);
        let Ok(answer) = ask(image, &query) else {
            continue;
        };
        let (instructions, _) = counter.count(|| {
            propose(
                black_box(image),
                black_box(&query),
                black_box(&answer),
                Trench::default(),
                Cannot::none(),
            )
        });
        spread.add(instructions, mils);
    }
    spread.print(key);
}

/// What it takes to read a line of print: what a pipe says in two yards, and as many bytes that begin word after word.
#[inline(never)]
fn lines(counter: &Counter, image: &Image<'_>) {
    const LINE: &[u8; 96] =
        b"XYZ 6 IN PVC 12454 DR 18 PC 235 AWWA C900-16 CIOD NSF-61 NSF-PW UL FM 20 FT 06/14/19 11:25 B L7 ";
    let mut hard = [b'C'; 96];
    for (at, byte) in hard.iter_mut().enumerate() {
        if at % 3 == 1 {
            *byte = b'.';
        }
    }
    for (key, line) in [("line", LINE), ("hard_line", &hard)] {
        let (instructions, _) = counter.count(|| read(black_box(image), black_box(line)));
        println!("{key}_instructions {instructions}");
    }
}

/// The worst cost, and counts of readings by their cost for a median without keeping every one.
pub(crate) struct Spread {
    counts: [u16; Spread::BINS],
    total: u32,
    worst: u32,
    worst_mils: i32,
}

impl Spread {
    const BINS: usize = 4096;
    /// Instructions in one bin; what is dearer than all bins counts in the last.
    const WIDTH: u32 = 256;

    pub(crate) const fn new() -> Self {
        Self {
            counts: [0; Self::BINS],
            total: 0,
            worst: 0,
            worst_mils: 0,
        }
    }

    pub(crate) fn add(&mut self, instructions: u32, mils: i32) {
        if instructions > self.worst {
            (self.worst, self.worst_mils) = (instructions, mils);
        }
        let bin = usize::try_from(instructions / Self::WIDTH).unwrap_or(usize::MAX);
        if let Some(count) = self.counts.get_mut(bin.min(Self::BINS - 1)) {
            *count = count.saturating_add(1);
        }
        self.total += 1;
    }

    /// The worst.
    pub(crate) const fn worst(&self) -> u32 {
        self.worst
    }

    /// Worst, where it was met, and median.
    pub(crate) fn print(&self, key: &str) {
        let (whole, mils) = (self.worst_mils / 1000, self.worst_mils % 1000);
        println!("{key}_worst {}", self.worst);
        println!("{key}_worst_at {whole}.{mils:03}");
        println!("{key}_median {}", self.median());
    }

    /// The middle cost, to the middle of its bin.
    fn median(&self) -> u32 {
        let (mut seen, mut at) = (0, Self::WIDTH / 2);
        for count in self.counts {
            seen += u32::from(count);
            if 2 * seen >= self.total {
                break;
            }
            at += Self::WIDTH;
        }
        at
    }
}
