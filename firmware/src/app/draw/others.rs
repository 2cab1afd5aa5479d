//! What else it could be.

use super::answer::{is_inch, sure};
use super::pager::Pager;
use super::pen::Pen;
use crate::app::App;
use crate::app::open::{counts, groups, rows};
use crate::app::pipe::Pipe;
use crate::app::text::{Line, add, number};

/// The families of a purchase; the size too where it is not that of the first candidate.
pub(super) fn name_group(app: &App<'_>, pipe: &Pipe, group: u16, line: &mut Line) {
    let first = pipe
        .answer
        .candidates()
        .first()
        .map(|candidate| app.image.row(candidate.row));
    for (at, row) in rows(&app.image, pipe, group).enumerate() {
        if at > 0 {
            add(line, " or ");
        }
        add(
            line,
            app.image.packed_text(app.image.family(row.family).name),
        );
        if first.is_none_or(|first| (first.size, first.system) != (row.size, row.system)) {
            let size = app.image.size(row.size);
            add(line, " ");
            add(line, size);
            // In a list the mark of the inch keeps a size in one word.
            add(line, if is_inch(size) { "\"" } else { "" });
        }
    }
}

/// What else it could be.
pub(super) fn others(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let mut pager = Pager::new(pen, page);
    let mut less = false;
    for group in groups(pipe) {
        if !counts(&app.image, pipe, group) && !less {
            less = true;
            pager.heading("less likely");
        }
        let mut name = Line::new();
        name_group(app, pipe, group, &mut name);
        pager.item("- ");
        pager.text(&name);
    }
    if pipe.answer.outside.q30() >= app.image.settings().counted >> 2 {
        pager.item("- ");
        pager.text("no bare barrel: bell, sleeve, wrap");
    }
    let count = pager.finish();
    titled(pen, &sure(pipe), page, count);
    count
}

/// The bar above a list: what it is, and which page of how many.
pub(super) fn titled(pen: &mut Pen<'_>, title: &str, page: u8, pages: u8) {
    let mut right = Line::new();
    number(&mut right, u32::from(page) + 1);
    add(&mut right, "/");
    number(&mut right, u32::from(pages));
    pen.bar(0, title, &right);
}
