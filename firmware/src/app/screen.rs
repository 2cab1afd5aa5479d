//! Screens as data, and where each button leads.

use springline_core::assembly::Drilling;
use springline_core::clue::Told;
use springline_core::identify::Check;
use springline_core::joint::Task;
use springline_core::numbers::{About, Fixture};

use super::App;
use super::open::Open;
use super::settings::Settings;
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
    /// What somebody is about to do, what holds it, and cautions, with the row that is marked.
    Menu(u8),
    /// The parts that serve a task, with the one that is marked.
    List(Task, u8),
    /// One of them, what holds it, and cautions, by page.
    Part(Task, u8, u8),
    /// What holds its joints, by page.
    Holds(u8),
    /// Numbers of a joint, by page.
    Numbers(About, u8),
    /// Cautions, by page.
    Cautions(u8),
    /// Why there are no parts, and cautions, by page.
    Nothing(u8),
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

impl Screen {
    /// The page of a text.
    const fn page(self) -> Option<u8> {
        match self {
            Self::Others(page)
            | Self::Part(_, _, page)
            | Self::Holds(page)
            | Self::Numbers(_, page)
            | Self::Cautions(page)
            | Self::Nothing(page) => Some(page),
            _ => None,
        }
    }
}

/// The line above or below, around the end.
fn stepped(at: u8, count: u8, key: Key) -> u8 {
    let last = count.saturating_sub(1);
    match key {
        Key::Up => at.checked_sub(1).unwrap_or(last),
        _ if at >= last => 0,
        _ => at + 1,
    }
}

/// Where numbers begin on the menu.
const FIRST: u8 = 6;

/// The numbers after these, around the end.
fn next(about: About) -> About {
    About::from_code(about.code() + 1).unwrap_or(App::NUMBERS[0])
}

/// The line of the menu that numbers are behind.
fn offer(about: About) -> u8 {
    let starts = App::NUMBERS.iter().zip(FIRST..);
    let before = starts.filter(|(start, _)| start.code() <= about.code());
    before.last().map_or(FIRST, |(_, line)| line)
}

/// A button on the menu.
fn offered(at: u8, key: Key) -> Screen {
    match (key, Task::from_code(at)) {
        (Key::Up | Key::Down, _) => Screen::Menu(stepped(at, App::OFFERS, key)),
        (_, Some(task)) => Screen::List(task, 0),
        (_, None) if at < App::OFFERS - 2 => {
            let offered = App::NUMBERS.get(usize::from(at - FIRST));
            Screen::Numbers(offered.copied().unwrap_or(App::NUMBERS[0]), 0)
        }
        (_, None) if at == App::OFFERS - 2 => Screen::Holds(0),
        (_, None) => Screen::Cautions(0),
    }
}

impl App<'_> {
    /// Takes a button.
    #[inline(never)]
    #[allow(
        clippy::match_same_arms,
        reason = "a table of screens and buttons, a line for each"
    )]
    pub(super) fn press(&mut self, key: Key) {
        self.changed = true;
        self.screen = match (self.screen, key) {
            (Screen::Start, Key::Set) => self.told(0),
            (Screen::Start, _) => Screen::Start,
            (Screen::Notice, _) => self.home(),
            (Screen::Answer, Key::Down) => Screen::Others(0),
            (Screen::Answer, Key::Up) => self.menu(FIRST),
            (Screen::Answer | Screen::Others(_), Key::Right) => self.menu(0),
            (Screen::Answer, Key::Left) => Screen::Start,
            (Screen::Answer, Key::Set) => self.ask(),
            (Screen::Others(_) | Screen::Nothing(_) | Screen::Menu(_), Key::Left) => Screen::Answer,
            (Screen::Menu(at), key) => offered(at, key),
            (Screen::List(task, _), Key::Left) => Screen::Menu(task as u8),
            (Screen::List(task, at), key) => self.listed(task, at, key),
            (Screen::Part(task, at, _), Key::Left) => Screen::List(task, at),
            (Screen::Holds(_), Key::Left) => Screen::Menu(App::OFFERS - 2),
            (Screen::Numbers(about, _), Key::Left) => Screen::Menu(offer(about)),
            (Screen::Numbers(about, _), Key::Right) => Screen::Numbers(next(about), 0),
            (Screen::Numbers(..), Key::Set) => self.told(Settings::TRENCH),
            (Screen::Cautions(_), Key::Left) => Screen::Menu(App::OFFERS - 1),
            // What hurts is a press away, however much is said before it.
            (Screen::Part(task, at, page), Key::Right) if page < self.pages.cautions => {
                Screen::Part(task, at, self.pages.cautions)
            }
            (screen, Key::Set) if screen.page().is_some() => self.ask(),
            (screen, key) if screen.page().is_some() => self.turned(screen, key != Key::Up),
            (Screen::Ask(clue, at), key) => self.answering(clue, at, key),
            (Screen::Again(_), Key::Left) => self.not_again(),
            (Screen::Again(second), Key::Set) => self.cannot(second.check()),
            (again @ Screen::Again(_), _) => again,
            (Screen::GaugeUnit(at), Key::Up | Key::Down) => Screen::GaugeUnit(1 - at.min(1)),
            (Screen::GaugeUnit(at), Key::Set | Key::Right) => self.gauge_unit(at),
            (Screen::GaugeUnit(_), Key::Left) => self.home(),
            (Screen::Settings(row), key) => self.setting(row, key),
            // Every other screen has pages.
            (screen, _) => screen,
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

    /// What the menu offers: the tasks, numbers, what holds it, cautions.
    pub(super) const OFFERS: u8 = 11;
    /// The numbers that it leads to; from each of them right leads to the next of all.
    const NUMBERS: [About; 3] = [
        About::Hold(Fixture::Quarter),
        About::Flange(Drilling::Class125),
        About::Depth,
    ];

    /// The settings from a row on, and back from there.
    const fn told(&mut self, row: u8) -> Screen {
        self.back = self.screen;
        Screen::Settings(row)
    }

    /// The page before or after, as far as there are any.
    fn turned(&self, screen: Screen, on: bool) -> Screen {
        let to = |page: u8| {
            if on {
                (page + 1).min(self.pages.count.saturating_sub(1))
            } else {
                page.saturating_sub(1)
            }
        };
        match screen {
            Screen::Others(page) => Screen::Others(to(page)),
            Screen::Part(task, at, page) => Screen::Part(task, at, to(page)),
            Screen::Holds(page) => Screen::Holds(to(page)),
            Screen::Numbers(about, page) => Screen::Numbers(about, to(page)),
            Screen::Cautions(page) => Screen::Cautions(to(page)),
            Screen::Nothing(page) => Screen::Nothing(to(page)),
            other => other,
        }
    }

    /// The menu with a line marked, or why there is nothing on it.
    fn menu(&self, at: u8) -> Screen {
        match &self.pipe {
            Some(pipe) if matches!(Open::of(&self.image, pipe), Open::Pipes(_)) => Screen::Menu(at),
            _ => Screen::Nothing(0),
        }
    }

    /// A button on a list of parts.
    fn listed(&self, task: Task, at: u8, key: Key) -> Screen {
        match key {
            Key::Up | Key::Down => Screen::List(task, stepped(at, self.pages.count, key)),
            // Of an empty list there is none.
            _ if self.pages.count == 0 => Screen::List(task, at),
            _ => Screen::Part(task, at, 0),
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
        let rows = Settings::ROWS;
        match key {
            Key::Up => Screen::Settings(row.checked_sub(1).unwrap_or(rows - 1)),
            Key::Down => Screen::Settings((row + 1) % rows),
            Key::Left | Key::Right => {
                let soils = self.image.soil_words().len();
                self.settings.step(row, key == Key::Right, soils);
                Screen::Settings(row)
            }
            Key::Set => self.back,
        }
    }
}
