//! Screens with a few lines: start, questions, settings, notices.

use springline_core::Unit;
use springline_core::gauge::{Event, Fault, NotLive};
use springline_core::joint::Owner;
use springline_core::reading::{ReadingError, Site};

use super::pager::Pager;
use super::pen::{LINE, Pen};
use crate::app::text::{Line, add, decimal, number};
use crate::app::{App, Notice, Second, Settings, figures};
use crate::letters::Letters;
use springline_core::Length;

/// Nothing was read yet.
pub(super) fn start(app: &App<'_>, pen: &mut Pen<'_>) {
    pen.bar(0, "READY", app.identity.data_set.as_str());
    pen.write(Letters::Large, 1, 13, "clamp, read");
    let mut line = Line::new();
    add(&mut line, "jaws ");
    jaws(&mut line, app.settings.jaws);
    pen.write(Letters::Small, 1, 34, &line);
    pen.write(Letters::Small, 1, 44, "bare barrel, no bell");
    foot(pen, "SET: settings");
}

fn foot(pen: &mut Pen<'_>, text: &str) {
    pen.fill(0, 53, 128, 1);
    pen.write(Letters::Small, 1, 54, text);
}

fn jaws(line: &mut Line, depth: Option<Length>) {
    match depth {
        None => add(line, "reach any pipe"),
        Some(depth) => {
            let mm = depth.counts().unsigned_abs() / Length::MILLIMETRE.unsigned_abs();
            number(line, mm);
            add(line, " mm");
        }
    }
}

/// A clue: the question, and as many of its answers as fit around the one that is marked.
pub(super) fn ask(app: &App<'_>, clue: u8, at: u8, pen: &mut Pen<'_>) {
    let image = &app.image;
    let record = image.clue(clue);
    let mut pager = Pager::top(pen);
    pager.item("");
    pager.text(image.packed_text(record.question));
    let _ = pager.finish();
    pen.fill(0, 21, 128, 1);
    let shown = 4;
    let last = record.answers;
    let columns = Letters::Small.columns();
    let answer = |index: u8| image.clue_answer(record.first.saturating_add(index));
    // Words where all of them fit, else the shorter keys: half a sentence is none.
    let spoken = (0..last).all(|index| image.packed_text(answer(index).words).len() <= columns);
    let from = at
        .saturating_sub(shown - 1)
        .min((last + 1).saturating_sub(shown));
    for index in from..(from + shown).min(last + 1) {
        let y = 23 + i32::from(index - from) * LINE;
        let text = match index < last {
            true if spoken => image.packed_text(answer(index).words),
            true => image.packed_text(answer(index).key),
            false => "cannot tell",
        };
        if index == at {
            pen.marked(y, text);
        } else {
            pen.write(Letters::Small, 1, y, text);
        }
    }
}

/// Another diameter is asked for.
pub(super) fn again(second: Second, pen: &mut Pen<'_>) {
    let (title, large, lines) = match second {
        Second::Crossed => (
            "2nd DIAMETER",
            "turn, read",
            ["a quarter turn round,", "same spot on the pipe"],
        ),
        Second::Along => (
            "READ AGAIN",
            "move, read",
            ["a foot along, on bare", "barrel: no bell, wrap"],
        ),
    };
    pen.bar(0, title, "");
    pen.write(Letters::Large, 1, 13, large);
    pen.write(Letters::Small, 1, 34, lines[0]);
    pen.write(Letters::Small, 1, 44, lines[1]);
    foot(pen, "SET: cannot  < back");
}

/// A value came without its unit.
pub(super) fn gauge_unit(app: &App<'_>, at: u8, pen: &mut Pen<'_>) {
    pen.bar(0, "WHICH UNIT?", "");
    let mut line = Line::new();
    if let Some(reading) = app.unitless {
        add(&mut line, "it shows ");
        decimal(&mut line, reading.shown());
    }
    pen.write(Letters::Small, 1, 13, &line);
    for (index, text) in [(0, "inches"), (1, "millimetres")] {
        let y = 26 + i32::from(index) * 12;
        if index == at {
            pen.marked(y, text);
        } else {
            pen.write(Letters::Small, 1, y, text);
        }
    }
    foot(pen, "SET: keep this");
}

/// The settings.
pub(super) fn settings(app: &App<'_>, row: u8, pen: &mut Pen<'_>) {
    pen.bar(0, "SETTINGS", "");
    let settings = &app.settings;
    // The marked one is among those that have room.
    let from = (row + 1).saturating_sub(4);
    for index in from..from + 4 {
        let mut line = Line::new();
        match index {
            0 => {
                add(&mut line, "units     ");
                add(
                    &mut line,
                    if settings.unit == Unit::Inch {
                        "in"
                    } else {
                        "mm"
                    },
                );
            }
            1 => {
                add(&mut line, "jaws      ");
                jaws(&mut line, settings.jaws);
            }
            2 => {
                add(&mut line, "site      ");
                add(
                    &mut line,
                    match settings.site {
                        Site::Irrigation => "irrigation",
                        Site::Municipal => "municipal",
                        Site::Unknown => "not known",
                    },
                );
            }
            3 => {
                add(&mut line, "buried    ");
                add(&mut line, if settings.buried { "yes" } else { "no" });
            }
            4 => {
                add(&mut line, "owner     ");
                add(
                    &mut line,
                    match settings.owner {
                        Owner::Unknown => "not known",
                        Owner::Ours => "ours",
                        Owner::Purveyor => "purveyor",
                    },
                );
            }
            index => trench(app, index - Settings::TRENCH, &mut line),
        }
        let y = 13 + i32::from(index - from) * LINE;
        if index == row {
            pen.marked(y, &line);
        } else {
            pen.write(Letters::Small, 1, y, &line);
        }
    }
    foot(pen, "< > change  SET: done");
}

/// A setting that is about the trench.
#[inline(never)]
fn trench(app: &App<'_>, row: u8, line: &mut Line) {
    let Settings { told, unit, .. } = app.settings;
    let names = [
        "pressure  ",
        "cover     ",
        "soil      ",
        "gr. water ",
        "trench    ",
        "stick     ",
        "pipe at   ",
    ];
    add(line, names.get(usize::from(row)).unwrap_or(&""));
    let text = match row {
        0 => match told.pressure() {
            Some(told) => return figures::pressure(line, told, unit),
            None => "not known",
        },
        1 => match told.cover() {
            Some(told) => return figures::place(line, told, unit),
            None => "not known",
        },
        2 => match told.soil {
            Some(word) => {
                let word = app.image.soil_words().nth(usize::from(word));
                word.map_or("", |word| app.image.soil_word(&word))
            }
            None => "not known",
        },
        3 if told.wet => "above pipe",
        3 => "below pipe",
        4 if told.open => "open",
        4 => "filled",
        5 => match told.stick() {
            Some(told) => return figures::place(line, told, unit),
            None => "not known",
        },
        _ => match told.temperature() {
            Some(told) => return figures::temperature(line, told, unit),
            None => "not known",
        },
    };
    add(line, text);
}

/// What was no reading, and what to do about it.
pub(super) fn notice(app: &App<'_>, pen: &mut Pen<'_>) {
    let (title, words) = match app.notice {
        Some(Notice::Gauge(event)) => said(event),
        Some(Notice::Reading(error)) => ("NO READING", refused(error)),
        None => ("NO READING", "Read again."),
    };
    pen.bar(0, "GAUGE", "");
    let letters = Letters::fitting(title.len());
    pen.write(letters, 1, 13, title);
    let mut pager = Pager::below(pen);
    pager.item("");
    pager.text(words);
    let _ = pager.finish();
}

const fn said(event: Event) -> (&'static str, &'static str) {
    match event {
        Event::NotLive(NotLive::HeldLargest | NotLive::HeldSmallest | NotLive::HeldSpread) => (
            "on HOLD",
            "The caliper is on HOLD: release it and read again.",
        ),
        Event::NotLive(_) => (
            "from memory",
            "Not what the jaws read now: leave its memory.",
        ),
        Event::Fault(Fault::OffScale) => ("off scale", "Beyond the gauge's range: tape the pipe."),
        Event::Fault(_) => ("gauge error", "Close the jaws, set it to zero, read again."),
        Event::Damaged(_) | Event::Reading(_) => ("garbled", "Check plug and cable, read again."),
    }
}

const fn refused(error: ReadingError) -> &'static str {
    match error {
        ReadingError::TooMany => "Six readings are held: read anew for a new pipe.",
        ReadingError::NotPositive | ReadingError::None => {
            "Zero or less: set zero on closed jaws, read again."
        }
        ReadingError::OutOfRange => "No pipe is of this size: check unit and zero.",
        _ => "The jaws are too short for this: tape the pipe.",
    }
}
