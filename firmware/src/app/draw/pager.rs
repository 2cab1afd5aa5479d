//! Running text in pages of small lines.

use springline_core::image::is_mark;

use super::pen::{COLUMNS, LINE, Pen};
use crate::app::text::{Line, add};
use crate::letters::Letters;

/// Lines of a page, below the bar.
const ROWS: u16 = 5;
/// Where the first of them is.
const TOP: i32 = 13;

/// Lays words out in lines and draws those of one page.
pub(super) struct Pager<'p, 'f> {
    pen: &'p mut Pen<'f>,
    page: u8,
    /// The line that is being filled.
    row: u16,
    line: Line,
    /// What stands before its words, and before those of the lines that follow.
    indent: &'static str,
    marked: bool,
    /// Something stands in the line beside its mark or indent.
    filled: bool,
    top: i32,
}

impl<'p, 'f> Pager<'p, 'f> {
    pub(super) fn new(pen: &'p mut Pen<'f>, page: u8) -> Self {
        Self {
            pen,
            page,
            row: 0,
            line: Line::new(),
            indent: "",
            marked: false,
            filled: false,
            top: TOP,
        }
    }

    /// Three lines below a title in large letters.
    pub(super) fn below(pen: &'p mut Pen<'f>) -> Self {
        Self {
            top: 34,
            ..Self::new(pen, 0)
        }
    }

    /// Two lines at the place of the names of an answer.
    pub(super) fn names(pen: &'p mut Pen<'f>) -> Self {
        Self {
            top: 33,
            ..Self::new(pen, 0)
        }
    }

    /// Lines from the top of the panel.
    pub(super) fn top(pen: &'p mut Pen<'f>) -> Self {
        Self {
            top: 1,
            ..Self::new(pen, 0)
        }
    }

    /// Begins a heading: one dark line on light.
    pub(super) fn heading(&mut self, text: &str) {
        self.end();
        add(&mut self.line, text);
        (self.marked, self.filled) = (true, true);
        self.end();
    }

    /// Begins an item on a line of its own; what does not fit in it is set in.
    pub(super) fn item(&mut self, mark: &str) {
        self.end();
        add(&mut self.line, mark);
        self.indent = if mark.is_empty() { "" } else { "  " };
    }

    /// Adds words to the item. A comma and its like follow without a space; a word longer than a line is cut in
    /// two.
    pub(super) fn words<'w>(&mut self, words: impl Iterator<Item = &'w str>) {
        for word in words {
            self.word(word);
        }
    }

    fn word(&mut self, mut word: &str) {
        loop {
            let joined = !self.filled || is_mark(word);
            let room = COLUMNS.saturating_sub(self.line.len() + usize::from(!joined));
            if word.len() <= room || !self.filled {
                if !joined {
                    add(&mut self.line, " ");
                }
                self.filled = true;
                let Some((head, rest)) = word
                    .split_at_checked(room)
                    .filter(|(head, _)| !head.is_empty())
                else {
                    return add(&mut self.line, word);
                };
                add(&mut self.line, head);
                if rest.is_empty() {
                    return;
                }
                word = rest;
            }
            self.end();
            add(&mut self.line, self.indent);
        }
    }

    /// Ends a line.
    fn end(&mut self) {
        if !self.filled {
            self.line.clear();
            return;
        }
        let first = u16::from(self.page) * ROWS;
        if let Some(at) = self.row.checked_sub(first)
            && at < ROWS
        {
            let y = self.top + i32::from(at) * LINE;
            if self.marked {
                self.pen.marked(y, &self.line);
            } else {
                self.pen.write(Letters::Small, 1, y, &self.line);
            }
        }
        (self.marked, self.filled) = (false, false);
        self.line.clear();
        self.row += 1;
    }

    /// Ends the text; how many pages it has.
    pub(super) fn finish(mut self) -> u8 {
        self.end();
        u8::try_from(self.row.div_ceil(ROWS).max(1)).unwrap_or(u8::MAX)
    }
}
