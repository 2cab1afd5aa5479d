//! Screens as data, and where each button leads.

use springline_core::clue::Told;
use springline_core::identify::Check;

use super::App;
use crate::board::Key;

/// A second reading of the pipe at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Second {
    /// At right angles to the first.
    Crossed,
    /// A foot along.
    Along,
}

impl Second {
    /// The check that it answers.
    pub(super) const fn check(self) -> Check {
        match self {
            Self::Crossed => Check::CrossedDiameter,
            Self::Along => Check::Along,
        }
    }
}

/// What the panel shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// Nothing was read yet.
    Start,
    /// The answer.
    Answer,
    /// What else it could be, by page.
    Others(u8),
    /// What fits, what holds it, and cautions, by page.
    Parts(u8),
    /// The proposed clue, with the answer that is marked; the last is that it cannot be told.
    Ask(u8, u8),
    /// The proposed reading: another diameter, or that it cannot be read.
    Again(Second),
    /// A value without a unit: inches (0) or millimetres (1).
    GaugeUnit(u8),
    /// Settings, with the row that is marked.
    Settings(u8),
    /// Something that was not a reading.
    Notice,
}

impl App<'_> {
    /// Takes a button.
    #[allow(
        clippy::match_same_arms,
        reason = "a table of screens and buttons, a line for each"
    )]
    pub(super) fn press(&mut self, key: Key) {
        self.changed = true;
        self.screen = match (self.screen, key) {
            (Screen::Start, Key::Set) => Screen::Settings(0),
            (Screen::Start, _) => Screen::Start,
            (Screen::Notice, _) => self.home(),
            (Screen::Answer, Key::Up | Key::Down) => Screen::Others(0),
            (Screen::Answer, Key::Right) => Screen::Parts(0),
            (Screen::Answer, Key::Left) => Screen::Start,
            (Screen::Answer, Key::Set) => self.ask(),
            (Screen::Others(_) | Screen::Parts(_), Key::Left) => Screen::Answer,
            (Screen::Others(_) | Screen::Parts(_), Key::Set) => self.ask(),
            (Screen::Others(_), Key::Right) => Screen::Parts(0),
            (Screen::Parts(page), Key::Right | Key::Down) => Screen::Parts(self.page(page, true)),
            (Screen::Parts(page), Key::Up) => Screen::Parts(self.page(page, false)),
            (Screen::Others(page), Key::Down) => Screen::Others(self.page(page, true)),
            (Screen::Others(page), Key::Up) => Screen::Others(self.page(page, false)),
            (Screen::Ask(clue, at), key) => self.answering(clue, at, key),
            (Screen::Again(_), Key::Left) => self.not_again(),
            (Screen::Again(second), Key::Set) => self.cannot(second.check()),
            (again @ Screen::Again(_), _) => again,
            (Screen::GaugeUnit(at), Key::Up | Key::Down) => Screen::GaugeUnit(1 - at.min(1)),
            (Screen::GaugeUnit(at), Key::Set | Key::Right) => self.gauge_unit(at),
            (Screen::GaugeUnit(_), Key::Left) => self.home(),
            (Screen::Settings(row), key) => self.setting(row, key),
        };
    }

    /// Where a notice or a question leads back to.
    pub(super) const fn home(&self) -> Screen {
        if let Some(second) = self.again {
            Screen::Again(second)
        } else if self.pipe.is_some() {
            Screen::Answer
        } else {
            Screen::Start
        }
    }

    /// The page before or after, as far as there are any.
    fn page(&self, page: u8, on: bool) -> u8 {
        if on {
            (page + 1).min(self.pages.saturating_sub(1))
        } else {
            page.saturating_sub(1)
        }
    }

    /// The screen that asks for the check to make next, where there is one.
    fn ask(&mut self) -> Screen {
        self.look();
        let next = self.pipe.as_ref().and_then(|pipe| pipe.next);
        match next.map(|next| next.check) {
            Some(Check::Clue(clue)) => Screen::Ask(clue, 0),
            Some(Check::CrossedDiameter) => self.once_more(Second::Crossed),
            Some(Check::Along) => self.once_more(Second::Along),
            Some(Check::Tape | Check::Print | Check::Wall) | None => Screen::Answer,
        }
    }

    /// The next reading is a second one of this pipe.
    const fn once_more(&mut self, second: Second) -> Screen {
        self.again = Some(second);
        Screen::Again(second)
    }

    /// A button while a clue is asked for.
    fn answering(&mut self, clue: u8, at: u8, key: Key) -> Screen {
        let record = self.image.clue(clue);
        let cannot = record.answers;
        match key {
            Key::Up => Screen::Ask(clue, at.checked_sub(1).unwrap_or(cannot)),
            Key::Down => Screen::Ask(clue, if at >= cannot { 0 } else { at + 1 }),
            Key::Left => Screen::Answer,
            Key::Set | Key::Right if at >= cannot => self.cannot(Check::Clue(clue)),
            Key::Set | Key::Right => {
                let told = Told {
                    clue,
                    answer: record.first.saturating_add(at),
                };
                if let Some(pipe) = &self.pipe {
                    let again = pipe.told(&self.image, told);
                    self.answered(again);
                }
                self.screen
            }
        }
    }

    /// The second diameter is not read after all.
    const fn not_again(&mut self) -> Screen {
        self.again = None;
        Screen::Answer
    }

    /// A check cannot be made: another is looked for.
    fn cannot(&mut self, check: Check) -> Screen {
        self.again = None;
        if let Some(pipe) = &mut self.pipe {
            pipe.cannot(check);
        }
        Screen::Answer
    }

    /// A button among the settings.
    fn setting(&mut self, row: u8, key: Key) -> Screen {
        let rows = super::Settings::ROWS;
        match key {
            Key::Up => Screen::Settings(row.checked_sub(1).unwrap_or(rows - 1)),
            Key::Down => Screen::Settings((row + 1) % rows),
            Key::Left | Key::Right => {
                self.settings.step(row, key == Key::Right);
                Screen::Settings(row)
            }
            Key::Set => Screen::Start,
        }
    }
}
