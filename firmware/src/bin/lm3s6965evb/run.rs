//! Where the board starts, and its loop.

use cortex_m_rt::entry;
use defmt_semihosting as _;
use springline_core::image::Image;
use springline_core::link::Text;
use springline_firmware::app::{App, Identity};
use springline_tables::{COUNTER, DIGEST, IMAGE, NAME};

use crate::board::{Handheld, rest};
use crate::clock;

defmt::timestamp!("{=u32:ms}", clock::now());

#[entry]
fn main() -> ! {
    let Ok(image) = Image::new(IMAGE) else {
        defmt::error!("the built-in tables are no image");
        semihosting::process::exit(4)
    };
    // A static, so that the linker sees what it takes of the memory.
    let app = cortex_m::singleton!(: App<'static> = App::new(image, identity()));
    let board = Handheld::start();
    let (Some(app), Some(mut board)) = (app, board) else {
        // Nothing was started before.
        semihosting::process::exit(3)
    };
    defmt::info!("started");
    loop {
        app.turn(&mut board);
        rest();
    }
}

fn identity() -> Identity<'static> {
    let text = |text| Text::new(text).unwrap_or_default();
    Identity {
        model: text("emulated"),
        serial: text("0"),
        firmware: text(env!("CARGO_PKG_VERSION")),
        data_set: text(NAME),
        counter: COUNTER,
        digest: DIGEST,
    }
}
