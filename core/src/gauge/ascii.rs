//! ASCII lines, as serial ports, radio receivers and adapters that act as a keyboard send them.
//!
//! Every gauge has a form of its own, and the forms contradict each other: `911` is an error of one and could be a number
//! of another. So a decoder is made for one [`Form`], matches a line whole, and never looks for the first number in it.
//! A line ends in CR, LF or both, and gives nothing before its end. No form of any gauge shows a number without its
//! decimal point, so that a number without one is refused as a code or a torn line.
//!
//! What a line can be held against: its form, the width of its fields where the form fixes it, and the parity that the
//! port checks (then say [`Ascii::broken`]). A flip that makes one digit of another is another reading. In the forms
//! without fixed widths ([`Form::Radio`], [`Form::Keyed`]) so is a line that lost its head.

mod forms;
mod scan;

use super::{Event, Trouble, event};

/// The longest line that any form has, and some blanks.
const CAPACITY: usize = 32;

/// What a gauge's lines look like. Letters may be of either case; an inch is `in` or `inch`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Form {
    /// `01A+0000.123`: code 0, channel, item, sign, eight characters; no unit. `9`, channel and code are an error.
    Coded,
    /// `001, -1.2340, NRM, 01`: number, value, mode (`MIN`, `MAX` and `TIR` are held), channel; no unit.
    Numbered,
    /// `1 MW+003.4665 inch`: channel, type, sign, eight characters, unit. Type `TO` is a time-out, whatever follows.
    Typed,
    /// `+ 2.1380, MM`: sign, a field that blanks may pad, comma, unit.
    Columns,
    /// Thirteen blanks, a blank or a minus, seven characters, a blank, the unit. The top bit of each byte is undefined.
    Padded,
    /// `+012.345 mm`, then at most two marks of limits, ` <`, ` =` or ` >`. `ERR2` is an error.
    Signed,
    /// `+12.345` or with a blank for plus; no unit. `ERR3` is an error.
    Bare,
    /// `5.637`, `5.637 IN`, `5.637 IN 3`, `5.637 IN 3 5`: the unit, the number of the sender and its strength.
    Radio,
    /// `105.16` or `105.16mm`, as if it were typed.
    Keyed {
        /// The decimal mark. A decimal comma and a comma at the end cannot both be: nothing is read then.
        mark: Mark,
        /// What is typed at the end, beside CR and LF.
        end: End,
    },
}

/// The decimal mark of a gauge that types.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A point.
    Point,
    /// A comma.
    Comma,
}

/// What a gauge that types puts behind a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// A new line.
    Line,
    /// A tab.
    Tab,
    /// A comma.
    Comma,
    /// A blank: then the unit must be joined to the number.
    Blank,
}

impl Form {
    /// Whether a byte ends a line.
    #[inline]
    fn ends(self, byte: u8) -> bool {
        let own = match self {
            Self::Keyed { end, .. } => match end {
                End::Line => None,
                End::Tab => Some(b'\t'),
                End::Comma => Some(b','),
                End::Blank => Some(b' '),
            },
            _ => None,
        };
        matches!(byte, b'\r' | b'\n') || own == Some(byte)
    }
}

/// Reads lines from bytes.
#[derive(Clone, Copy, Debug)]
pub struct Ascii {
    form: Form,
    line: [u8; CAPACITY],
    length: usize,
    /// The line is damaged, and said so: nothing more of it.
    skipping: bool,
    /// The last byte was a CR: an LF belongs to it.
    returned: bool,
}

impl Ascii {
    /// A decoder at the beginning of a line. Where the gauge may be in the middle of one, call [`Ascii::broken`] first.
    #[must_use]
    pub const fn new(form: Form) -> Self {
        Self {
            form,
            line: [0; CAPACITY],
            length: 0,
            skipping: false,
            returned: false,
        }
    }

    /// Takes in a byte.
    #[inline]
    pub fn push(&mut self, byte: u8) -> Option<Event> {
        let byte = if self.form == Form::Padded {
            byte & 0x7f
        } else {
            byte
        };
        let returned = core::mem::replace(&mut self.returned, byte == b'\r');
        if returned && byte == b'\n' {
            return None;
        }
        if self.form.ends(byte) {
            let line = self.line.get(..self.length).unwrap_or_default();
            let ended = (!self.skipping).then(|| event(forms::read(self.form, line)));
            self.length = 0;
            self.skipping = false;
            return ended;
        }
        if !matches!(byte, b' '..=b'~') {
            return self.spoil(Trouble::NotText);
        }
        let Some(slot) = self.line.get_mut(self.length) else {
            return self.spoil(Trouble::Overlong);
        };
        *slot = byte;
        self.length = self.length.saturating_add(1);
        None
    }

    /// Takes in that the port saw a broken character, or lost some. The line is damaged up to its end.
    pub fn broken(&mut self) -> Option<Event> {
        self.returned = false;
        self.spoil(Trouble::Port)
    }

    /// Takes in that the line has been still for longer than a gauge pauses within one (a tenth of a second will do at
    /// any speed). What was begun will not be finished: without this its head would join the next line. Without a
    /// call the decoder waits for an end for ever, and shows nothing.
    #[inline]
    pub fn silence(&mut self) -> Option<Event> {
        let begun = self.length > 0 && !self.skipping;
        self.length = 0;
        self.skipping = false;
        begun.then_some(Event::Damaged(Trouble::Unfinished))
    }

    /// One event for a damaged line, then nothing up to its end.
    #[inline]
    fn spoil(&mut self, trouble: Trouble) -> Option<Event> {
        self.length = 0;
        let first = !core::mem::replace(&mut self.skipping, true);
        first.then_some(Event::Damaged(trouble))
    }
}
