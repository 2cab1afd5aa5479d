//! What the panel shows when a program has come to its end.
//!
//! The message of a panic would bring the formatting of the core library along, half as large as the application. So there is
//! where it was, and nothing else.

use crate::frame::Frame;
use crate::letters::Letters;

/// What ended the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble<'a> {
    /// A panic at a line of a file.
    Panic {
        /// The file, with its path.
        file: &'a str,
        /// The line.
        line: u32,
    },
    /// The processor gave up at an address.
    HardFault {
        /// The instruction's address.
        at: u32,
    },
    /// The program could not start: why, in a few words.
    Start(&'a str),
}

impl Trouble<'_> {
    /// The picture of it.
    #[must_use]
    pub fn picture(self) -> Frame {
        match self {
            Self::Panic { file, line } => {
                // The end of a path tells more than its beginning.
                let cut = file.len().saturating_sub(Letters::Small.columns());
                let tail = file.get(cut..).unwrap_or("");
                picture("PANIC", tail, "line", Number::of(line, 10).text())
            }
            Self::HardFault { at } => picture("HARD FAULT", "", "at 0x", Number::of(at, 16).text()),
            Self::Start(why) => picture("NO START", why, "", ""),
        }
    }
}

fn picture(title: &str, text: &str, label: &str, number: &str) -> Frame {
    let mut frame = Frame::new();
    let mut write = |text: &str, x, y| Letters::Small.write(&mut frame, x, y, text, true);
    write(title, 0, 0);
    write(text, 0, 16);
    write(label, 0, 28);
    write(number, 36, 28);
    frame
}

/// A number in digits.
struct Number {
    digits: [u8; 10],
    from: usize,
}

impl Number {
    /// Ten digits hold any number of base ten or more.
    fn of(mut number: u32, base: u32) -> Self {
        let mut digits = [b'0'; 10];
        let mut from = digits.len();
        for (at, digit) in digits.iter_mut().enumerate().rev() {
            let value = u8::try_from(number % base).unwrap_or(0);
            *digit = if value < 10 { b'0' } else { b'a' - 10 } + value;
            from = at;
            number /= base;
            if number == 0 {
                break;
            }
        }
        Self { digits, from }
    }

    fn text(&self) -> &str {
        let digits = self.digits.get(self.from..).unwrap_or(&[]);
        core::str::from_utf8(digits).unwrap_or("?")
    }
}

#[cfg(test)]
mod tests {
    use std::format;

    use super::*;

    #[test]
    fn numbers_are_those_of_the_formatter() {
        for number in [0, 7, 10, 99, 409, 65_535, 0x1000_0100, u32::MAX] {
            assert_eq!(Number::of(number, 10).text(), format!("{number}"));
            assert_eq!(Number::of(number, 16).text(), format!("{number:x}"));
        }
    }

    #[test]
    fn a_panic_is_told_by_the_end_of_its_path() {
        let drawn = |lines: &[(&str, i32, i32)]| {
            let mut frame = Frame::new();
            for (text, x, y) in lines {
                Letters::Small.write(&mut frame, *x, *y, text, true);
            }
            frame
        };
        let file = "firmware/src/bin/board/somewhere/main.rs";
        let panic = Trouble::Panic { file, line: 409 }.picture();
        let tail = "ard/somewhere/main.rs";
        let lines = [
            ("PANIC", 0, 0),
            (tail, 0, 16),
            ("line", 0, 28),
            ("409", 36, 28),
        ];
        assert!(panic == drawn(&lines));
        let fault = Trouble::HardFault { at: 0x1000_beef }.picture();
        assert!(fault == drawn(&[("HARD FAULT", 0, 0), ("at 0x", 0, 28), ("1000beef", 36, 28)]));
        let start = Trouble::Start("tables").picture();
        assert!(start == drawn(&[("NO START", 0, 0), ("tables", 0, 16)]));
    }
}
