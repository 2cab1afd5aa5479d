//! Pictures of the screens.

mod answer;
mod lists;
mod menu;
mod numbers;
mod others;
mod pager;
mod parts;
mod pen;
#[cfg(test)]
mod tests;

use springline_core::identify::Check;
use springline_core::image::Image;

use super::App;
use super::screen::Screen;
use pen::Pen;

/// How many pages a screen has.
#[derive(Clone, Copy)]
pub(super) struct Pages {
    pub(super) count: u8,
    /// The first of cautions.
    pub(super) cautions: u8,
}

impl Pages {
    pub(super) const ONE: Self = Self::of(1);

    const fn of(count: u8) -> Self {
        Self { count, cautions: 0 }
    }
}

/// Draws the screen; how many pages it has.
pub(super) fn draw(app: &mut App<'_>) -> Pages {
    // Taken out while it is drawn on, so that everything else of the state can be looked at.
    let mut frame = core::mem::take(&mut app.frame);
    let pages = screen(app, &mut Pen::new(&mut frame));
    app.frame = frame;
    pages
}

fn screen(app: &App<'_>, pen: &mut Pen<'_>) -> Pages {
    let count = match (app.screen, &app.pipe) {
        (Screen::Others(page), Some(pipe)) => others::others(app, pipe, page, pen),
        (Screen::Nothing(page), Some(pipe)) => parts::nothing(app, pipe, page, pen),
        (Screen::List(task, at), Some(pipe)) => menu::list(app, pipe, task, at, pen),
        (Screen::Part(task, at, page), Some(pipe)) => {
            return parts::part(app, pipe, (task, at), page, pen);
        }
        (Screen::Holds(page), Some(pipe)) => parts::holds(app, pipe, page, pen),
        (Screen::Numbers(about, page), Some(pipe)) => numbers::numbers(app, pipe, about, page, pen),
        (Screen::Cautions(page), Some(pipe)) => parts::warned(app, pipe, page, pen),
        (single, pipe) => {
            match (single, pipe) {
                (Screen::Answer, Some(pipe)) => answer::answer(app, pipe, pen),
                (Screen::Menu(at), Some(pipe)) => menu::menu(app, pipe, at, pen),
                (Screen::Ask(clue, at), _) => lists::ask(app, clue, at, pen),
                (Screen::Again(second), _) => lists::again(second, pen),
                (Screen::GaugeUnit(at), _) => lists::gauge_unit(app, at, pen),
                (Screen::Settings(row), _) => lists::settings(app, row, pen),
                (Screen::Notice, _) => lists::notice(app, pen),
                // What shows a pipe is shown of none only before the first.
                (_, _) => lists::start(app, pen),
            }
            1
        }
    };
    Pages::of(count)
}

/// A check in few words.
fn check_name<'a>(image: &Image<'a>, check: Check) -> &'a str {
    match check {
        Check::Clue(clue) => image.packed_text(image.clue(clue).key),
        Check::CrossedDiameter => "2nd diameter",
        Check::Tape => "tape around",
        Check::Along => "a foot along",
        Check::Print => "the print",
        Check::Wall => "the wall",
    }
}
