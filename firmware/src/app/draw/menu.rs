//! What somebody is about to do, and the parts that serve it.

use springline_core::image::Image;
use springline_core::joint::Task;

use super::answer::{size_and_system, sure};
use super::pager::Pager;
use super::pen::{COLUMNS, LINE, Pen};
use crate::app::App;
use crate::app::open::{List, Open, Said};
use crate::app::pipe::Pipe;
use crate::app::text::Line;
use crate::letters::Letters;

/// Lines below the bar.
const LINES: u16 = 5;

/// What is offered: the tasks in their order, numbers, then two more.
const OFFERS: [&str; 11] = [
    "repair",
    "branch, outlet",
    "valve, meter, pump",
    "turn, resize, end",
    "go under a road",
    "join another pipe",
    "thrust: bends, tees",
    "bolts",
    "go in, turn, glue",
    "what holds it",
    "cautions",
];
const _: () = assert!(OFFERS.len() == App::OFFERS as usize);

/// What may be asked of the pipe at hand.
pub(super) fn menu(app: &App<'_>, pipe: &Pipe, marked: u8, pen: &mut Pen<'_>) {
    let first = pipe.answer.candidates().first();
    let row = first.map(|candidate| app.image.row(candidate.row));
    let title = row.map_or_else(Line::new, |row| size_and_system(app, &row));
    let sure = sure(pipe);
    let title = if title.len() + sure.len() < COLUMNS {
        &title
    } else {
        "PARTS"
    };
    pen.bar(0, title, &sure);
    let last = App::OFFERS - 1;
    let shown = 5;
    let from = marked.saturating_sub(3).min(last + 1 - shown);
    let offers = (0u8..).zip(OFFERS).skip(usize::from(from));
    for (y, (at, offer)) in (0i32..).zip(offers.take(usize::from(shown))) {
        let y = 13 + y * LINE;
        if at == marked {
            pen.marked(y, offer);
        } else {
            pen.write(Letters::Small, 1, y, offer);
        }
        pen.arrow(y, at == marked);
    }
}

/// The name of a task in a bar.
const fn title(task: Task) -> &'static str {
    match task {
        Task::Repair => "REPAIR",
        Task::Outlet => "OUTLET",
        Task::Equipment => "CONNECT",
        Task::Turn => "TURN",
        Task::Road => "ROAD",
        Task::Join => "JOIN",
    }
}

/// The parts that serve a task, below what is said of them; how many there are.
pub(super) fn list(app: &App<'_>, pipe: &Pipe, task: Task, marked: u8, pen: &mut Pen<'_>) -> u8 {
    let Open::Pipes(pipes) = Open::of(&app.image, pipe) else {
        return 1;
    };
    let listed = pipes.listed(&app.image, task, app.settings.owner);
    // Once to find the lines of the marked one, once to draw those around it.
    let mut pager = Pager::unseen(pen);
    let (_, last, total) = lay(&app.image, &listed, marked, &mut pager);
    let from = last.saturating_sub(3).min(total.saturating_sub(LINES));
    let mut pager = Pager::from(pen, from);
    let (said, ..) = lay(&app.image, &listed, marked, &mut pager);
    if listed.len() == 0 {
        pager.item("");
        pager.text("Nothing in the tables does this on it.");
    }
    let _ = pager.finish();
    pen.bar(0, title(task), said.map_or("", Said::word));
    listed.len()
}

/// Lays parts out; what is said of the marked one, its last line, and how many lines there are.
#[inline(never)]
fn lay(
    image: &Image<'_>,
    listed: &List,
    marked: u8,
    pager: &mut Pager<'_, '_>,
) -> (Option<Said>, u16, u16) {
    let mut above = None;
    let (mut of_marked, mut line) = (None, 0);
    let mut at = 0;
    listed.parts(&mut |part, rank| {
        let said = Said::ranked(rank);
        if above != Some(said) {
            above = Some(said);
            pager.group(said.word());
        }
        pager.item(" ");
        if at == marked {
            pager.mark();
        }
        pager.phrase(image.phrase(image.part(part).name), "");
        if at == marked {
            of_marked = above;
            line = pager.end();
        }
        at += 1;
    });
    (of_marked, line.saturating_sub(1), pager.end())
}
