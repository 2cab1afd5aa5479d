//! The answer: how sure, what, and what would settle it.

use springline_core::identify::Outcome;
use springline_core::image::Row;

use super::check_name;
use super::pager::Pager;
use super::pen::Pen;
use crate::app::App;
use crate::app::open::{groups, is_single};
use crate::app::pipe::Pipe;
use crate::app::text::{Line, add, length, number};
use crate::letters::Letters;

/// Draws the answer.
pub(super) fn answer(app: &App<'_>, pipe: &Pipe, pen: &mut Pen<'_>) {
    let answer = &pipe.answer;
    let mut read = Line::new();
    length(&mut read, answer.od, app.settings.unit);
    if answer.stop.cement || answer.stop.gas {
        pen.bar(0, "STOP - ASK", &read);
        return stop(pipe, pen);
    }
    if answer.outcome == Outcome::Outside {
        pen.bar(0, "NOT IN TABLES", "");
        pen.write(Letters::Large, 1, 12, &read);
        return outside(app, pipe, pen);
    }
    let sure = sure(pipe);
    pen.bar(0, &sure, &read);
    let Some(first) = answer.candidates().first() else {
        return;
    };
    let row = app.image.row(first.row);
    let title = size_and_system(app, &row);
    let letters = Letters::fitting(title.len());
    let down = if letters == Letters::Large { 12 } else { 16 };
    pen.write(letters, 1, down, &title);
    names(app, pipe, pen);
    below(app, pipe, pen);
}

/// How sure it is, in the words of the trade.
pub(super) fn sure(pipe: &Pipe) -> Line {
    let mut line = Line::new();
    match pipe.answer.outcome {
        Outcome::Settled => add(&mut line, "IT IS"),
        Outcome::Outside => add(&mut line, "NOT IN TABLES"),
        Outcome::Split if pipe.answer.likely => add(&mut line, "LIKELY"),
        Outcome::Split => {
            add(&mut line, "ONE OF ");
            number(&mut line, u32::from(pipe.answer.counted.max(2)));
        }
    }
    line
}

/// `6 in C900/DI`, `DN150 metric`.
pub(super) fn size_and_system(app: &App<'_>, row: &Row) -> Line {
    let mut line = Line::new();
    add_size(&mut line, app.image.size(row.size));
    add(&mut line, " ");
    let label = app.image.packed_text(app.image.system(row.system).label);
    // Every label is a size: the word says nothing on a narrow panel.
    add(&mut line, label.strip_suffix(" size").unwrap_or(label));
    line
}

/// `6 in`, `DN150`, `160mm`.
pub(super) fn add_size<const N: usize>(line: &mut heapless::String<N>, size: &str) {
    add(line, size);
    if is_inch(size) {
        add(line, " in");
    }
}

/// Whether a nominal size is in inches.
pub(super) fn is_inch(size: &str) -> bool {
    !size.starts_with("DN") && !size.ends_with("mm")
}

/// The families that lead, two lines of them: large where there is one.
fn names(app: &App<'_>, pipe: &Pipe, pen: &mut Pen<'_>) {
    let mut leading = groups(pipe);
    let first = leading.next();
    let single = is_single(pipe);
    let Some(first) = first else {
        return;
    };
    let mut name = Line::new();
    super::others::name_group(app, pipe, first, &mut name);
    if name.len() <= Letters::Middle.columns() && single && !pipe.answer.short_jaws {
        pen.write(Letters::Middle, 1, 34, &name);
        return;
    }
    if single && !pipe.answer.short_jaws {
        let mut pager = Pager::names(pen);
        pager.item("");
        pager.text(&name);
        let _ = pager.finish();
        return;
    }
    let mut lines = Lines::new(pen);
    let short = pipe.answer.short_jaws;
    let second = leading.next().filter(|_| !short);
    let counted = usize::from(pipe.answer.counted.max(1));
    if short {
        lines.line(&name, counted - 1);
        return lines.line("jaws too short: tape!", 0);
    }
    let Some(second) = second else {
        return lines.line(&name, 0);
    };
    lines.line(&name, 0);
    name.clear();
    super::others::name_group(app, pipe, second, &mut name);
    lines.line(&name, counted.saturating_sub(2));
}

/// Two lines at the place of the names.
struct Lines<'p, 'f> {
    pen: &'p mut Pen<'f>,
    y: i32,
}

impl<'p, 'f> Lines<'p, 'f> {
    const fn new(pen: &'p mut Pen<'f>) -> Self {
        Self { pen, y: 33 }
    }

    /// A line, and how many more there are; what does not fit is marked as cut.
    fn line(&mut self, text: &str, more: usize) {
        let mut rest = Line::new();
        if more > 0 {
            add(&mut rest, "+");
            number(&mut rest, u32::try_from(more).unwrap_or(0));
        }
        let room = Letters::Small.columns() - rest.len();
        let at = |column: usize| 1 + 6 * i32::try_from(column).unwrap_or(0);
        match text.get(..room.saturating_sub(1)) {
            Some(head) if text.len() > room => {
                self.pen.write(Letters::Small, 1, self.y, head);
                self.pen.write(Letters::Small, at(room - 1), self.y, "~");
            }
            _ => self.pen.write(Letters::Small, 1, self.y, text),
        }
        self.pen.write(Letters::Small, at(room), self.y, &rest);
        self.y += 10;
    }
}

/// The line at the foot: what is wrong with the reading, or the check that would settle it.
fn below(app: &App<'_>, pipe: &Pipe, pen: &mut Pen<'_>) {
    let answer = &pipe.answer;
    let mut line = Line::new();
    if answer.contradiction.is_some() {
        add(&mut line, "CLUES DISAGREE: look");
    } else if let Some(next) = &pipe.next {
        add(&mut line, "SET: ");
        add(&mut line, check_name(&app.image, next.check));
        add(&mut line, "?");
    } else if pipe.looking {
        return;
    } else if answer.outcome != Outcome::Settled {
        add(&mut line, "no check here helps");
    } else {
        add(&mut line, "fits and holds");
    }
    pen.fill(0, 53, 128, 1);
    pen.write(Letters::Small, 1, 54, &line);
    pen.write(Letters::Small, 121, 54, ">");
}

/// What to do about asbestos-cement or gas.
fn stop(pipe: &Pipe, pen: &mut Pen<'_>) {
    let (title, words) = if pipe.answer.stop.gas {
        (
            "GAS PIPE?",
            "Do not cut, tap or strike. No flame. Call the gas utility.",
        )
    } else {
        (
            "ASBESTOS?",
            "No cut, file, scratch or tap. Ask owner and licensed crew.",
        )
    };
    pen.write(Letters::Large, 1, 12, title);
    text(pen, words);
}

fn outside(app: &App<'_>, pipe: &Pipe, pen: &mut Pen<'_>) {
    if pipe.answer.disagreement {
        return text(
            pen,
            "Readings do not go together: a bell, a wrap, or misread.",
        );
    }
    let mut lines = Lines::new(pen);
    lines.line("Bell, sleeve or wrap?", 0);
    lines.line("Read the bare barrel.", 0);
    below(app, pipe, pen);
}

/// Running text below a title.
fn text(pen: &mut Pen<'_>, words: &str) {
    let mut pager = Pager::below(pen);
    pager.item("");
    pager.text(words);
    let _ = pager.finish();
}
