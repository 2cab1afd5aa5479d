//! Where the board starts, and its loop.

use cortex_m_rt::entry;
use springline_core::image::Image;
use springline_core::link::Text;
use springline_firmware::app::{App, Identity};
use springline_firmware::trouble::Trouble;
use springline_tables::{COUNTER, DIGEST, IMAGE, NAME};

use crate::board::Handheld;
use crate::trouble::stop;

/// The first thing in the flash, which sets it up. By the oldest command to read, which every flash knows; one for the flash that
/// a board has is faster.
#[unsafe(link_section = ".boot2")]
#[unsafe(no_mangle)]
#[used]
static BOOT2: [u8; 256] = rp2040_boot2::BOOT_LOADER_GENERIC_03H;

/// The device's serial number, given when it is built.
pub(crate) const SERIAL: &str = match option_env!("SPRINGLINE_SERIAL") {
    Some(serial) => serial,
    None => "0",
};

#[entry]
fn main() -> ! {
    let Some(mut board) = Handheld::start() else {
        stop(Trouble::Start("a part of the board"))
    };
    let Ok(image) = Image::new(IMAGE) else {
        stop(Trouble::Start("the built-in tables"))
    };
    // A static, so that the linker sees what it takes of the memory.
    let Some(app) = cortex_m::singleton!(: App<'static> = App::new(image, identity())) else {
        stop(Trouble::Start("started twice"))
    };
    loop {
        app.turn(&mut board);
        board.tend();
        board.rest();
    }
}

fn identity() -> Identity<'static> {
    let text = |text| Text::new(text).unwrap_or_default();
    Identity {
        model: text("rp2040"),
        serial: text(SERIAL),
        firmware: text(env!("CARGO_PKG_VERSION")),
        data_set: text(NAME),
        counter: COUNTER,
        digest: DIGEST,
    }
}
