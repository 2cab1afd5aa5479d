//! The handheld's application: bytes, buttons and time in; pictures and bytes out. Nothing waits, and there is no board.
//!
//! A reading arrives and the answer is on the panel without a press. Up and down page through what else it could be, right
//! goes on to what is about to be done, to the parts that serve it, and to one of them, or to the numbers of a joint; left goes back, set asks the proposed
//! check and takes its answer, and on numbers tells of the trench. Every reading
//! starts a new pipe, unless the panel is asking for a second diameter. The words on it are those of the trade, and there are
//! no percentages.

mod draw;
mod figures;
mod host;
mod numbers;
mod open;
mod pipe;
mod screen;
mod settings;
mod text;

pub use host::Identity;
pub use screen::{Screen, Second};
pub use settings::Settings;

use springline_core::Length;
use springline_core::Unit;
use springline_core::gauge::ascii::{Ascii, End, Form, Mark};
use springline_core::gauge::{Event, GaugeReading};
use springline_core::image::Image;
use springline_core::link::{Link, MAX_FRAME, NotSet, Setting};
use springline_core::reading::ReadingError;

use crate::board::{Board, Key};
use crate::frame::Frame;
use host::Log;
use pipe::Pipe;

/// Something happens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// A byte of the gauge.
    Gauge(u8),
    /// A byte of the host.
    Host(u8),
    /// A button.
    Key(Key),
    /// The time now, milliseconds since some start; wraps around. What follows happens then.
    Tick(u32),
}

/// Something is to be done.
pub enum Effect<'a> {
    /// Show a picture.
    Show(&'a Frame),
    /// Send bytes to the host.
    Send(&'a [u8]),
}

/// A line of the gauge that pauses so long was torn, milliseconds: a gauge sends a whole one in a tenth of that.
const TORN: u32 = 100;

/// Why there is no reading, as far as the panel tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Notice {
    /// What the gauge said.
    Gauge(Event),
    /// A reading that no pipe gives.
    Reading(ReadingError),
}

/// The application.
pub struct App<'a> {
    image: Image<'a>,
    identity: Identity<'a>,
    settings: Settings,
    screen: Screen,
    /// Where the settings lead back to.
    back: Screen,
    /// How many pages the screen has; known once it is drawn.
    pages: draw::Pages,
    pipe: Option<Pipe>,
    /// The next reading is a second diameter of the pipe, whatever stands on the panel meanwhile.
    again: Option<Second>,
    /// A reading whose unit is being asked for.
    unitless: Option<GaugeReading>,
    notice: Option<Notice>,
    gauge: Ascii,
    now: u32,
    /// When the gauge sent its last byte.
    heard_at: u32,
    link: Link,
    out: [u8; MAX_FRAME],
    /// Bytes of `out` that are a response, and how many of them are on their way.
    sending: usize,
    sent: usize,
    log: Log,
    frame: Frame,
    /// The picture is not that of the state any more.
    changed: bool,
    /// The panel does not show the picture yet: a host may have had it drawn.
    unshown: bool,
}

impl<'a> App<'a> {
    /// The application as it is switched on.
    #[must_use]
    pub fn new(image: Image<'a>, identity: Identity<'a>) -> Self {
        Self {
            image,
            identity,
            settings: Settings::START,
            screen: Screen::Start,
            back: Screen::Start,
            pages: draw::Pages::ONE,
            pipe: None,
            again: None,
            unitless: None,
            notice: None,
            gauge: Ascii::new(Form::Keyed {
                mark: Mark::Point,
                end: End::Line,
            }),
            now: 0,
            heard_at: 0,
            link: Link::new(),
            out: [0; MAX_FRAME],
            sending: 0,
            sent: 0,
            log: Log::new(),
            frame: Frame::new(),
            changed: true,
            unshown: true,
        }
    }

    /// What the panel shows, or will with the next picture.
    #[must_use]
    pub const fn screen(&self) -> Screen {
        self.screen
    }

    /// The settings.
    #[must_use]
    pub const fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Changes a setting.
    ///
    /// # Errors
    ///
    /// [`NotSet::OutOfRange`] for a value that no gauge and no trench has.
    pub fn set(&mut self, setting: Setting) -> Result<(), NotSet> {
        self.settings.set(&self.image, setting)?;
        self.changed = true;
        Ok(())
    }

    /// Takes what happened.
    pub fn take(&mut self, input: Input) {
        match input {
            Input::Key(key) => self.press(key),
            Input::Tick(now) => self.now = now,
            Input::Gauge(byte) => {
                if self.now.wrapping_sub(self.heard_at) > TORN {
                    // What was begun then would join this line and spoil it.
                    let _ = self.gauge.silence();
                }
                self.heard_at = self.now;
                if let Some(event) = self.gauge.push(byte) {
                    self.heard(event);
                }
            }
            Input::Host(byte) => {
                if let Some(call) = self.link.push(byte) {
                    self.answer_host(&call);
                }
            }
        }
    }

    /// The next thing to be done, if there is any. The picture comes first; then what takes longer.
    pub fn effect(&mut self) -> Option<Effect<'_>> {
        if self.is_sending() {
            let bytes = self.out.get(self.sent..self.sending).unwrap_or(&[]);
            self.sent = self.sending;
            return Some(Effect::Send(bytes));
        }
        self.next_picture().map(Effect::Show)
    }

    /// The picture that the panel does not show yet.
    fn next_picture(&mut self) -> Option<&Frame> {
        if !self.changed && !self.unshown {
            self.look();
        }
        self.draw();
        core::mem::take(&mut self.unshown).then_some(&self.frame)
    }

    /// Draws the picture of the state, if it is another than the last.
    #[inline(never)]
    fn draw(&mut self) {
        if self.changed {
            (self.changed, self.unshown) = (false, true);
            self.pages = draw::draw(self);
        }
    }

    /// Looks for the check to make next where that is still to be done.
    #[inline(never)]
    fn look(&mut self) {
        if let Some(pipe) = &mut self.pipe
            && pipe.looking
        {
            pipe.look(&self.image);
            self.changed = true;
        }
    }

    /// One turn of a board's loop: takes what has come, does what is to be done.
    pub fn turn(&mut self, board: &mut impl Board) {
        board.alive();
        self.take(Input::Tick(board.now()));
        while let Some(byte) = board.gauge() {
            self.take(Input::Gauge(byte));
        }
        if let Some(key) = board.key() {
            self.take(Input::Key(key));
        }
        // One request at a time: the response to it must be on its way before the next.
        while !self.is_sending()
            && let Some(byte) = board.host()
        {
            self.take(Input::Host(byte));
        }
        while self.is_sending()
            && let Some(byte) = self.out.get(self.sent)
            && board.send(*byte)
        {
            self.sent += 1;
        }
        // A port that is full is no reason to hold back a picture.
        if let Some(frame) = self.next_picture() {
            board.show(frame);
        }
    }

    const fn is_sending(&self) -> bool {
        self.sent < self.sending
    }

    /// Takes what the gauge said.
    #[inline(never)]
    fn heard(&mut self, event: Event) {
        let reading = match event {
            Event::Reading(reading) => reading,
            // Noise on a line that says nothing is no news: the panel keeps what it shows.
            Event::Damaged(_) if self.again.is_none() => return,
            other => return self.notify(Notice::Gauge(other)),
        };
        let unit = reading.unit().or(self.settings.gauge_unit);
        let Some(unit) = unit else {
            self.unitless = Some(reading);
            self.screen = Screen::GaugeUnit(0);
            self.changed = true;
            return;
        };
        match reading.length_or(unit) {
            Ok(value) => self.read(value),
            Err(trouble) => self.notify(Notice::Gauge(Event::Damaged(trouble))),
        }
    }

    /// Takes a diameter: of a new pipe, or a second one of this when that was asked for.
    fn read(&mut self, value: Length) {
        let read = match (&self.pipe, self.again) {
            (Some(pipe), Some(second)) => {
                pipe.read_again(&self.image, &self.settings, second, value)
            }
            _ => Pipe::read(&self.image, &self.settings, value),
        };
        self.answered(read);
    }

    /// Shows an answer, or why there is none; the pipe before it stays then.
    fn answered(&mut self, read: Result<Pipe, ReadingError>) {
        self.changed = true;
        match read {
            Ok(pipe) => {
                self.log.keep(&pipe.answer);
                self.pipe = Some(pipe);
                self.again = None;
                self.notice = None;
                self.screen = Screen::Answer;
            }
            Err(error) => self.notify(Notice::Reading(error)),
        }
    }

    fn notify(&mut self, notice: Notice) {
        self.notice = Some(notice);
        self.screen = Screen::Notice;
        self.changed = true;
    }

    /// The unit of a gauge that names none was chosen: it is kept, and the reading that waited is taken.
    fn gauge_unit(&mut self, at: u8) -> Screen {
        let unit = if at == 0 {
            Unit::Inch
        } else {
            Unit::Millimetre
        };
        self.settings.gauge_unit = Some(unit);
        if let Some(reading) = self.unitless.take() {
            self.screen = self.home();
            self.heard(Event::Reading(reading));
            return self.screen;
        }
        self.home()
    }
}
