//! What a host asks over the link.

use springline_core::identify::{Answer, identify};
use springline_core::link::{
    Call, Entry, HeldSaid, Hello, NumbersSaid, PartsSaid, Request, Response, Room, Screen, Text,
    VERSION,
};

use super::App;

/// Who this device is and what it knows.
#[derive(Clone, Copy, Debug)]
pub struct Identity<'a> {
    /// Its model.
    pub model: Text<'a>,
    /// Its serial number.
    pub serial: Text<'a>,
    /// The version of its firmware.
    pub firmware: Text<'a>,
    /// The name of its data set.
    pub data_set: Text<'a>,
    /// Which in the series of data sets.
    pub counter: u32,
    /// SHA-256 of the data set's image.
    pub digest: [u8; 32],
}

/// How many answers are kept.
const KEPT: usize = 8;

/// The last answers, the youngest first.
pub(super) struct Log {
    answers: [Option<Answer>; KEPT],
    /// Answers since the device was switched on.
    count: u32,
}

impl Log {
    pub(super) const fn new() -> Self {
        Self {
            answers: [None; KEPT],
            count: 0,
        }
    }

    /// Keeps an answer; the oldest goes.
    pub(super) fn keep(&mut self, answer: &Answer) {
        self.answers.rotate_right(1);
        if let Some(first) = self.answers.first_mut() {
            *first = Some(*answer);
        }
        self.count = self.count.wrapping_add(1);
    }

    fn entry(&self, index: u8) -> Option<Entry> {
        let answer = *self.answers.get(usize::from(index))?.as_ref()?;
        Some(Entry {
            count: self.count.wrapping_sub(u32::from(index)),
            answer,
        })
    }
}

impl App<'_> {
    /// Answers a call of the host; every one is answered. What it needs of the stack is not needed while a reading is weighed.
    #[inline(never)]
    pub(super) fn answer_host(&mut self, call: &Call) {
        // The picture that is asked for is that of the state, drawn or not.
        if let Ok(Request::Screen(_)) = &call.asked {
            self.draw();
        }
        let mut room = Room::new();
        let said = match &call.asked {
            Err(refusal) => Response::Refused(*refusal),
            Ok(Request::Hello) => Response::Hello(self.identity.hello()),
            Ok(Request::Identify(query)) => Response::Identify(identify(&self.image, query)),
            Ok(Request::Set(setting)) => Response::Set(self.set(*setting)),
            Ok(Request::Log(index)) => Response::Log(self.log.entry(*index)),
            Ok(Request::Parts(asked)) => {
                Response::Parts(PartsSaid::of(&self.image, asked, &mut room))
            }
            Ok(Request::Held(asked)) => Response::Held(HeldSaid::of(&self.image, asked, &mut room)),
            Ok(Request::Numbers(asked)) => {
                Response::Numbers(NumbersSaid::of(&self.image, asked, &mut room))
            }
            Ok(Request::Screen(part)) => Response::Screen(Screen::of(self.frame.bytes(), *part)),
        };
        let written = said
            .write(call.sequence, &mut self.out)
            .map_or(0, <[u8]>::len);
        (self.sent, self.sending) = (0, written);
    }
}

impl<'a> Identity<'a> {
    const fn hello(self) -> Hello<'a> {
        let Self {
            model,
            serial,
            firmware,
            data_set,
            counter,
            digest,
        } = self;
        Hello {
            protocol: VERSION,
            model,
            serial,
            firmware,
            data_set,
            counter,
            digest,
        }
    }
}
