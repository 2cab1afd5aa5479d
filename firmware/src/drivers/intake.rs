//! Bytes of a port on their way from its interrupt to the loop, with a mark where some were lost.
//!
//! A gauge's line has no checksum. A byte that goes missing without a trace makes one number of another: `16.904` without its
//! first digit is as sound a line as before. So wherever bytes were lost, on the line, in the port or for want of room
//! here, a byte stands that no line can hold, and the decoder drops that line.

use heapless::spsc::Producer;

/// What stands for bytes that were lost: no character of any gauge.
pub const LOST: u8 = 0xff;

/// The end of a queue that an interrupt fills.
pub struct Intake<'q> {
    queue: Producer<'q, u8>,
    /// Bytes were lost, and the queue has no mark of it yet.
    torn: bool,
}

impl<'q> Intake<'q> {
    /// Fills this queue.
    #[must_use]
    pub const fn new(queue: Producer<'q, u8>) -> Self {
        Self { queue, torn: false }
    }

    /// Takes a byte that came whole; `false` where there was no room for it.
    pub fn take(&mut self, byte: u8) -> bool {
        self.mark();
        // No byte passes a mark that is still to be made.
        let kept = !self.torn && self.queue.enqueue(byte).is_ok();
        self.torn |= !kept;
        kept
    }

    /// Takes that bytes were lost.
    pub fn lose(&mut self) {
        self.torn = true;
        self.mark();
    }

    fn mark(&mut self) {
        if self.torn {
            self.torn = self.queue.enqueue(LOST).is_err();
        }
    }
}

#[cfg(test)]
mod tests {
    use std::vec::Vec;

    use heapless::spsc::Queue;
    use proptest::prelude::*;
    use springline_core::gauge::Event;
    use springline_core::gauge::ascii::{Ascii, End, Form, Mark};

    use super::*;

    /// What happens at a port.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    enum Happens {
        Byte(u8),
        Lost,
        /// The loop takes a byte.
        Taken,
    }

    fn happenings() -> impl Strategy<Value = Vec<Happens>> {
        let happens = prop_oneof![
            6 => (b'0'..=b'9').prop_map(Happens::Byte),
            1 => Just(Happens::Lost),
            4 => Just(Happens::Taken),
        ];
        proptest::collection::vec(happens, 0..200)
    }

    proptest! {
        #[test]
        fn no_two_bytes_meet_where_some_were_lost_between_them(all in happenings()) {
            let mut queue: Queue<u8, 8> = Queue::new();
            let (producer, mut consumer) = queue.split();
            let mut intake = Intake::new(producer);
            // Every byte has a number of its own, so that it is known which were neighbours on the line.
            let (mut sent, mut out) = (Vec::new(), Vec::new());
            for happens in &all {
                match happens {
                    Happens::Byte(_) => {
                        let number = u8::try_from(sent.len()).expect("200 at most");
                        sent.push(Some(number));
                        intake.take(number);
                    }
                    Happens::Lost => {
                        sent.push(None);
                        intake.lose();
                    }
                    Happens::Taken => out.extend(consumer.dequeue()),
                }
            }
            out.extend(core::iter::from_fn(|| consumer.dequeue()));
            let mut before: Option<u8> = None;
            let mut marked = false;
            for byte in out {
                if byte == LOST {
                    marked = true;
                    continue;
                }
                let next = before.map_or(0, |before| before + 1);
                prop_assert!(byte >= next);
                prop_assert!(marked || byte == next, "{byte} came where {next} was due");
                (before, marked) = (Some(byte), false);
            }
        }
    }

    /// What a decoder makes of a line whose bytes come whole or not.
    fn read(line: &[Option<u8>]) -> Vec<Event> {
        let mut queue: Queue<u8, 64> = Queue::new();
        let (producer, mut consumer) = queue.split();
        let mut intake = Intake::new(producer);
        for byte in line {
            match byte {
                Some(byte) => assert!(intake.take(*byte)),
                None => intake.lose(),
            }
        }
        let mut ascii = Ascii::new(Form::Keyed {
            mark: Mark::Point,
            end: End::Line,
        });
        let bytes = core::iter::from_fn(|| consumer.dequeue());
        bytes.filter_map(|byte| ascii.push(byte)).collect()
    }

    #[test]
    fn a_line_that_lost_a_byte_anywhere_is_no_reading() {
        let whole: Vec<_> = b"16.904 in\r".iter().copied().map(Some).collect();
        assert!(matches!(read(&whole)[..], [Event::Reading(_)]));
        // The end may be lost too: the next line is then part of the damage.
        for at in 0..whole.len() {
            let mut torn = whole.clone();
            torn[at] = None;
            let events = read(&torn);
            assert!(
                matches!(events[..], [Event::Damaged(_)]),
                "{at}: {events:?}"
            );
        }
    }

    #[test]
    fn a_queue_without_room_leaves_its_mark_when_there_is_some() {
        let mut queue: Queue<u8, 4> = Queue::new();
        let (producer, mut consumer) = queue.split();
        let mut intake = Intake::new(producer);
        for byte in b"12345" {
            intake.take(*byte);
        }
        assert_eq!(consumer.dequeue(), Some(b'1'));
        // Room for the mark alone: the byte behind it is lost, too.
        intake.take(b'6');
        assert_eq!(consumer.dequeue(), Some(b'2'));
        assert_eq!(consumer.dequeue(), Some(b'3'));
        intake.take(b'7');
        let rest: Vec<_> = core::iter::from_fn(|| consumer.dequeue()).collect();
        assert_eq!(rest, [LOST, LOST, b'7']);
    }
}
