//! A panel of 128 by 64 pixels on a two-wire bus: light-emitting behind an SSD1306, or a liquid crystal behind an ST7567,
//! which the sun makes readable.
//!
//! Both have a memory of eight pages, a byte of which is a column of eight pixels with the uppermost in the lowest bit, and
//! both find a place in it by the same three commands. They differ in what sets them up and in their address. The driver
//! is given the kinds that there may be and goes through them until one answers.
//!
//! A picture is cut into [`PARTS`]: 32 columns of a page. The driver keeps the picture and a bit for each part that the panel
//! may not hold yet, and each [`Ssd1306::step`] sends one. At 400 kHz that is a millisecond, where a whole picture would be
//! thirty; whoever owns the loop does other things in between. A part that goes back to what it was before it was
//! sent is sent all the same: to know better would take the panel's own picture, another KiB.
//!
//! A panel that refuses a byte may have lost its power, and with it all that it was told. So it is set up again and gets the
//! whole picture, without being switched off for that: where nothing was lost, nobody sees it. One that lost its power and
//! has it back refuses nothing; for it there is [`Ssd1306::renew`].
//!
//! Commands, addresses and the byte that parts commands from data are those of
//! `github.com/zephyrproject-rtos/zephyr`, `drivers/display`: `ssd1306_regs.h` in commit 08ff9877 and
//! `display_st7567_regs.h` in commit 7c341bcf. Contrast, voltages and timings are common practice for modules of this size,
//! no source; none of it was ever seen on glass.

use embedded_hal::i2c::I2c;

use crate::frame::{Frame, HEIGHT, WIDTH};

/// Columns of a part.
const ACROSS: usize = 32;
/// Pixels in a byte of the panel's memory.
const PAGE: usize = 8;
/// Parts beside each other.
const COLUMNS: usize = WIDTH / ACROSS;
/// Parts of a picture; a bit of a word for each.
pub const PARTS: usize = COLUMNS * HEIGHT / PAGE;
const ALL: u32 = u32::MAX;
const _: () = assert!(PARTS == u32::BITS as usize);

/// What follows this byte are commands, and what follows that one goes into the memory.
const COMMANDS: u8 = 0x00;
const DATA: u8 = 0x40;

const SET_PAGE: u8 = 0xb0;
const SET_COLUMN_HIGH: u8 = 0x10;
const SET_COLUMN_LOW: u8 = 0x00;
const ON: u8 = 0xaf;

/// What one kind of panel wants.
#[derive(Debug)]
pub struct Kind {
    /// Its address on the bus.
    address: u8,
    /// What sets it up, with the byte that announces commands.
    set_up: &'static [u8],
}

/// A light-emitting panel behind an SSD1306, its address pin low.
#[rustfmt::skip]
pub const SSD1306: Kind = Kind {
    address: 0x3c,
    set_up: &[
        COMMANDS,
        0xd5, 0x80, // oscillator and divider
        0xa8, 63,   // rows that are driven, less one
        0xd3, 0,    // no offset
        0x40,       // the first row of the memory is the first
        0x8d, 0x14, // charge pump on
        0x20, 0x02, // columns go on within a page
        0xa1, 0xc8, // columns and rows as most modules wire them: the plug above the picture
        0xda, 0x12, // odd and even rows apart
        0x81, 0xcf, // contrast, of 255
        0xd9, 0xf1, // precharge
        0xdb, 0x40, // voltage of rows at rest
        0xa4, 0xa6, // shows its memory, and a set bit is lit
    ],
};

/// A reflective panel behind an ST7567. Its memory has 132 columns, of which the first 128 are on the glass.
#[rustfmt::skip]
pub const ST7567: Kind = Kind {
    address: 0x3f,
    set_up: &[
        COMMANDS,
        0xa2,             // a ninth of bias
        0xa0, 0xc8,       // columns and rows as most modules wire them
        0x2c, 0x2e, 0x2f, // booster, regulator, follower, one after the other
        0x23,             // ratio of the regulator's resistors
        0x81, 0x24,       // contrast, of 63
        0x40,             // the first row of the memory is the first
        0xa4, 0xa6,       // shows its memory, and a set bit is dark
    ],
};

/// Every kind, the usual one first.
pub const KINDS: &[Kind] = &[SSD1306, ST7567];

/// The panel, and what it is to show.
pub struct Ssd1306 {
    kinds: &'static [Kind],
    /// Which of them it seems to be.
    kind: usize,
    frame: Frame,
    /// Parts that the panel may not hold, a bit for each.
    due: u32,
    /// The part to look at first: a picture that changes all the time above must not keep what is below from being sent.
    next: u32,
    state: State,
}

/// What the panel was told.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// Nothing that can be relied on.
    Unknown,
    /// Everything but to light up: its memory holds noise until the whole picture was sent.
    SetUp,
    /// Everything.
    Lit,
}

impl Ssd1306 {
    /// A dark picture for a panel of one of these kinds.
    #[must_use]
    pub const fn new(kinds: &'static [Kind]) -> Self {
        Self {
            kinds,
            kind: 0,
            frame: Frame::new(),
            due: ALL,
            next: 0,
            state: State::Unknown,
        }
    }

    /// Takes a picture, which [`Ssd1306::step`] sends.
    pub fn show(&mut self, frame: &Frame) {
        self.due |= differing(&self.frame, frame);
        self.frame = frame.clone();
    }

    /// Has the panel set up and the whole picture sent again. A spark of static may make it forget everything, and it has no
    /// way to tell; a board does this every few seconds.
    pub const fn renew(&mut self) {
        self.state = State::Unknown;
    }

    /// Whether the panel shows the picture, as far as anyone can know.
    #[must_use]
    pub fn is_shown(&self) -> bool {
        self.state == State::Lit && self.due == 0
    }

    /// Does the next piece of work on the bus: sets the panel up, sends a part, or lights it. Does nothing when the picture
    /// [is shown](Ssd1306::is_shown).
    ///
    /// # Errors
    ///
    /// When the bus fails or nobody answers on it. Nothing is lost: after some time the next step tries again.
    pub fn step<B: I2c>(&mut self, bus: &mut B) -> Result<(), B::Error> {
        let Some(kind) = self.kinds.get(self.kind) else {
            self.kind = 0;
            return Ok(());
        };
        let before = core::mem::replace(&mut self.state, State::Unknown);
        match before {
            State::Unknown => {
                if let Err(error) = bus.write(kind.address, kind.set_up) {
                    self.kind = (self.kind + 1) % self.kinds.len();
                    return Err(error);
                }
                self.due = ALL;
                self.state = State::SetUp;
            }
            State::SetUp | State::Lit if self.due != 0 => {
                let part =
                    (self.due.rotate_right(self.next).trailing_zeros() + self.next) % u32::BITS;
                send(bus, kind.address, &self.frame, part as usize)?;
                self.due &= !(1 << part);
                self.next = (part + 1) % u32::BITS;
                self.state = before;
            }
            State::SetUp | State::Lit => {
                if before == State::SetUp {
                    bus.write(kind.address, &[COMMANDS, ON])?;
                }
                self.state = State::Lit;
            }
        }
        Ok(())
    }
}

/// Milliseconds from a refusal to the next try: nobody looks at a panel that comes back sooner.
pub const PAUSE: u32 = 100;
/// Milliseconds after which a panel is [set up again](Ssd1306::renew), whatever it seems to hold.
pub const RENEWAL: u32 = 5_000;

/// A panel on a bus of its own, for a loop to look after.
pub struct Panel<B> {
    driver: Ssd1306,
    bus: B,
    /// When a step was refused, if the last one was.
    refused: Option<u32>,
    renewed: u32,
}

impl<B: I2c> Panel<B> {
    /// A panel of any of the [`KINDS`] on this bus.
    #[must_use]
    pub const fn new(bus: B) -> Self {
        Self {
            driver: Ssd1306::new(KINDS),
            bus,
            refused: None,
            renewed: 0,
        }
    }

    /// Takes a picture.
    pub fn show(&mut self, frame: &Frame) {
        self.driver.show(frame);
    }

    /// Does one piece of work, if any is due. `now` counts milliseconds and may wrap around. Whether there is more to do
    /// at once.
    pub fn tend(&mut self, now: u32) -> bool {
        if self.refused.is_some_and(|at| now.wrapping_sub(at) < PAUSE) {
            return false;
        }
        if now.wrapping_sub(self.renewed) >= RENEWAL {
            self.renewed = now;
            self.driver.renew();
        }
        if self.driver.is_shown() {
            return false;
        }
        let step = self.driver.step(&mut self.bus);
        self.refused = step.is_err().then_some(now);
        self.refused.is_none()
    }
}

/// The parts in which two pictures differ, a bit for each: page by page, from the left.
fn differing(one: &Frame, other: &Frame) -> u32 {
    let mut parts = 0;
    for (y, (one, other)) in one.rows().iter().zip(other.rows()).enumerate() {
        let pieces = one.as_chunks::<{ ACROSS / 8 }>().0.iter();
        for (x, (one, other)) in pieces.zip(other.as_chunks().0).enumerate() {
            parts |= u32::from(one != other) << (y / PAGE * COLUMNS + x);
        }
    }
    parts
}

/// Sends a part of a picture.
fn send<B: I2c>(bus: &mut B, address: u8, frame: &Frame, part: usize) -> Result<(), B::Error> {
    let (page, left) = (part / COLUMNS, part % COLUMNS * ACROSS);
    let [place, column] = [page, left].map(|value| u8::try_from(value).unwrap_or(0));
    let window = [
        COMMANDS,
        SET_PAGE | place,
        SET_COLUMN_HIGH | column >> 4,
        SET_COLUMN_LOW | column & 0x0f,
    ];
    bus.write(address, &window)?;
    bus.write(address, &turned(frame, page, left))
}

/// The columns of a part as the panel's memory has them, behind the byte that announces data.
fn turned(frame: &Frame, page: usize, left: usize) -> [u8; 1 + ACROSS] {
    let mut bytes = [0; 1 + ACROSS];
    let (first, columns) = bytes.split_at_mut(1);
    first.fill(DATA);
    for (y, row) in frame.rows().iter().skip(page * PAGE).take(PAGE).enumerate() {
        let eights = columns.chunks_mut(8).zip(row.iter().skip(left / 8));
        for (eight, drawn) in eights {
            for (x, column) in eight.iter_mut().enumerate() {
                *column |= (drawn >> (7 - x) & 1) << y;
            }
        }
    }
    bytes
}

#[cfg(test)]
mod tests;
