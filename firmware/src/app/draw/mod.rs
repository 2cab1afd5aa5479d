//! Pictures of the screens.

mod answer;
mod lists;
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

/// Draws the screen; how many pages it has.
pub(super) fn draw(app: &mut App<'_>) -> u8 {
    // Taken out while it is drawn on, so that everything else of the state can be looked at.
    let mut frame = core::mem::take(&mut app.frame);
    let pages = screen(app, &mut Pen::new(&mut frame));
    app.frame = frame;
    pages
}

fn screen(app: &App<'_>, pen: &mut Pen<'_>) -> u8 {
    match (app.screen, &app.pipe) {
        (Screen::Answer, Some(pipe)) => answer::answer(app, pipe, pen),
        (Screen::Others(page), Some(pipe)) => return parts::others(app, pipe, page, pen),
        (Screen::Parts(page), Some(pipe)) => return parts::parts(app, pipe, page, pen),
        (Screen::Ask(clue, at), _) => lists::ask(app, clue, at, pen),
        (Screen::Again(second), _) => lists::again(second, pen),
        (Screen::GaugeUnit(at), _) => lists::gauge_unit(app, at, pen),
        (Screen::Settings(row), _) => lists::settings(app, row, pen),
        (Screen::Notice, _) => lists::notice(app, pen),
        (Screen::Start | Screen::Answer | Screen::Others(_) | Screen::Parts(_), _) => {
            lists::start(app, pen);
        }
    }
    1
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
