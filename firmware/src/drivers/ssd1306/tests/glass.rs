//! Panels of memory and address counters stand for the real ones. They know the commands of the public register headers that
//! the driver names, refuse what is none, and may be made to refuse a byte or to lose their power.

use std::vec::Vec;

use embedded_hal::i2c::{ErrorKind, ErrorType, I2c, NoAcknowledgeSource, Operation};

use crate::frame::Frame;

/// Columns of the memory: the liquid crystal's has some that the glass has not.
const COLUMNS_OF_MEMORY: usize = 132;
/// What a refused byte is told as.
pub(super) const REFUSED: ErrorKind = ErrorKind::NoAcknowledge(NoAcknowledgeSource::Unknown);

/// The panel's side of the bus.
pub(super) struct Glass {
    address: u8,
    /// How many columns there are before a write starts over.
    columns: usize,
    /// Whether a command has this many arguments.
    arguments: fn(u8) -> Option<usize>,
    pub(super) memory: [[u8; COLUMNS_OF_MEMORY]; 8],
    page: usize,
    column: usize,
    pub(super) lit: bool,
    /// What it was told since its power came on, but for places and lighting up.
    pub(super) told: Vec<u8>,
    /// Bytes of memory that were written, and transfers.
    pub(super) data: usize,
    pub(super) transfers: usize,
    /// The longest transfer.
    pub(super) longest: usize,
    /// Bytes until one is refused.
    pub(super) fuel: usize,
}

/// Commands of `ssd1306_regs.h`.
fn ssd1306(command: u8) -> Option<usize> {
    match command {
        0x00..=0x1f
        | 0x40..=0x7f
        | 0xa0
        | 0xa1
        | 0xa4..=0xa7
        | 0xae..=0xb7
        | 0xc0
        | 0xc8
        | 0xe3 => Some(0),
        0x20 | 0x81 | 0x8d | 0xa8 | 0xd3 | 0xd5 | 0xd9 | 0xda | 0xdb => Some(1),
        0x21 | 0x22 => Some(2),
        _ => None,
    }
}

/// Commands of `display_st7567_regs.h`.
fn st7567(command: u8) -> Option<usize> {
    match command {
        0x00..=0x7f | 0xa0..=0xa7 | 0xae..=0xb7 | 0xc0 | 0xc8 | 0xe2 => Some(0),
        0x81 => Some(1),
        _ => None,
    }
}

impl Glass {
    fn new(address: u8, columns: usize, arguments: fn(u8) -> Option<usize>) -> Self {
        let mut panel = Self {
            address,
            columns,
            arguments,
            memory: [[0; COLUMNS_OF_MEMORY]; 8],
            page: 0,
            column: 0,
            lit: false,
            told: Vec::new(),
            data: 0,
            transfers: 0,
            longest: 0,
            fuel: usize::MAX,
        };
        panel.lose_power();
        panel
    }

    pub(super) fn emitting() -> Self {
        Self::new(0x3c, 128, ssd1306)
    }

    pub(super) fn reflecting() -> Self {
        Self::new(0x3f, COLUMNS_OF_MEMORY, st7567)
    }

    /// Dark, with noise in its memory and without anything that it was told.
    pub(super) fn lose_power(&mut self) {
        let mut noise = 0x5bu8;
        for byte in self.memory.iter_mut().flatten() {
            noise = noise.wrapping_mul(29).wrapping_add(71);
            *byte = noise;
        }
        (self.page, self.column, self.lit) = (0, 0, false);
        self.told.clear();
    }

    fn take(&mut self, bytes: &[u8]) {
        match bytes {
            [0x40, data @ ..] => {
                for byte in data {
                    assert!(self.column < self.columns, "past the last column");
                    self.memory[self.page][self.column] = *byte;
                    self.column += 1;
                }
                self.data += data.len();
            }
            [0x00, commands @ ..] => self.obey(commands),
            [] => {}
            [first, ..] => panic!("neither commands nor data: {first:#x}"),
        }
    }

    fn obey(&mut self, mut commands: &[u8]) {
        while let [command, rest @ ..] = commands {
            let count = (self.arguments)(*command);
            let count = count.unwrap_or_else(|| panic!("no such command: {command:#x}"));
            assert!(rest.len() >= count, "{command:#x} lacks an argument");
            let (taken, after) = commands.split_at(1 + count);
            commands = after;
            match command {
                0xb0..=0xb7 => self.page = usize::from(command & 7),
                0x00..=0x0f => self.column = self.column & 0xf0 | usize::from(command & 15),
                0x10..=0x1f => self.column = self.column & 0x0f | usize::from(command & 15) << 4,
                0xae => self.lit = false,
                0xaf => self.lit = true,
                _ => self.told.extend(taken),
            }
        }
    }

    /// Whether a picture is on the glass, every pixel by itself.
    pub(super) fn holds(&self, frame: &Frame) -> bool {
        (0..64).all(|y| {
            (0..128).all(|x| (self.memory[y / 8][x] >> (y % 8) & 1 == 1) == frame.is_lit(x, y))
        })
    }
}

impl ErrorType for Glass {
    type Error = ErrorKind;
}

impl I2c for Glass {
    fn transaction(
        &mut self,
        address: u8,
        operations: &mut [Operation<'_>],
    ) -> Result<(), ErrorKind> {
        self.transfers += 1;
        let [Operation::Write(bytes)] = operations else {
            panic!("one write, and nothing else");
        };
        self.longest = self.longest.max(bytes.len());
        if address != self.address || self.fuel == 0 {
            return Err(REFUSED);
        }
        // What came before the refused byte is taken.
        let taken = bytes.len().min(self.fuel);
        self.fuel -= taken;
        // A command whose argument was refused is none.
        let cut = if bytes[0] == 0x00 && taken < bytes.len() {
            0
        } else {
            taken
        };
        self.take(&bytes[..cut]);
        if taken < bytes.len() {
            Err(REFUSED)
        } else {
            Ok(())
        }
    }
}
