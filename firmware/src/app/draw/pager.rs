//! Running text in pages of small lines.

use springline_core::image::{Phrase, is_mark};

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
    /// The first line that is drawn.
    first: u16,
    /// The line that is being filled.
    row: u16,
    line: Line,
    /// What stands before its words, and before those of the lines that follow.
    indent: &'static str,
    marked: bool,
    /// The item is one dark on light.
    dark: bool,
    /// Something stands in the line beside its mark or indent.
    filled: bool,
    top: i32,
}

impl<'p, 'f> Pager<'p, 'f> {
    pub(super) fn new(pen: &'p mut Pen<'f>, page: u8) -> Self {
        Self::from(pen, u16::from(page) * ROWS)
    }

    /// Draws nothing: for finding out where lines are.
    pub(super) fn unseen(pen: &'p mut Pen<'f>) -> Self {
        Self::from(pen, u16::MAX)
    }

    /// Draws a page that begins with a line.
    pub(super) fn from(pen: &'p mut Pen<'f>, first: u16) -> Self {
        Self {
            pen,
            first,
            row: 0,
            line: Line::new(),
            indent: "",
            marked: false,
            dark: false,
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

    /// Begins a heading: one dark line on light, and never the last of a page.
    #[inline(never)]
    pub(super) fn heading(&mut self, text: &str) {
        self.end();
        if self.row % ROWS == ROWS - 1 {
            self.row += 1;
        }
        add(&mut self.line, text);
        (self.marked, self.filled) = (true, true);
        self.end();
    }

    /// Begins a group: its name and a rule behind it.
    pub(super) fn group(&mut self, text: &str) {
        self.end();
        self.dark = false;
        if let Some(y) = self.y() {
            let from = 6 * i32::try_from(text.len()).unwrap_or(0) + 4;
            let width = u32::try_from(128 - from).unwrap_or(0);
            self.pen.fill(from, y + 4, width, 1);
        }
        add(&mut self.line, text);
        self.filled = true;
        self.end();
    }

    /// The item that was begun is the marked one.
    pub(super) const fn mark(&mut self) {
        self.dark = true;
    }

    /// Begins an item on a line of its own; what does not fit in it is set in.
    #[inline(never)]
    pub(super) fn item(&mut self, mark: &str) {
        self.end();
        self.dark = false;
        add(&mut self.line, mark);
        self.indent = if mark.is_empty() { "" } else { "  " };
    }

    /// Adds a phrase to the item, and the mark that follows it. Many texts are laid out, by one function each.
    #[inline(never)]
    pub(super) fn phrase(&mut self, phrase: Phrase<'_>, mark: &str) {
        self.words(&mut phrase.words(), mark);
    }

    /// Adds the words of a text.
    #[inline(never)]
    pub(super) fn text(&mut self, text: &str) {
        self.words(&mut text.split_ascii_whitespace(), "");
    }

    /// Adds words to the item, and a mark. A comma and its like follow without a space; a word longer than a line is cut in two.
    #[inline(never)]
    fn words<'w>(&mut self, words: &mut dyn Iterator<Item = &'w str>, mark: &'w str) {
        let mut next = words.next();
        while let Some(word) = next {
            next = words.next();
            // A mark must not begin a line.
            let marked = next.map_or(!mark.is_empty(), is_mark);
            self.word(word, COLUMNS - usize::from(marked));
        }
        if !mark.is_empty() {
            self.word(mark, COLUMNS);
        }
    }

    #[inline(never)]
    fn word(&mut self, mut word: &str, columns: usize) {
        loop {
            let joined = !self.filled || is_mark(word);
            let room = columns.saturating_sub(self.line.len() + usize::from(!joined));
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

    /// Where the line is drawn, if it is.
    fn y(&self) -> Option<i32> {
        let at = self.row.checked_sub(self.first)?;
        (at < ROWS).then(|| self.top + i32::from(at) * LINE)
    }

    /// Ends a line; how many there are so far.
    #[inline(never)]
    pub(super) fn end(&mut self) -> u16 {
        if !self.filled {
            self.line.clear();
            return self.row;
        }
        if let Some(y) = self.y() {
            if self.marked || self.dark {
                self.pen.marked(y, &self.line);
            } else {
                self.pen.write(Letters::Small, 1, y, &self.line);
            }
        }
        (self.marked, self.filled) = (false, false);
        self.line.clear();
        self.row += 1;
        self.row
    }

    /// Ends a page, unless it is empty; how many there are so far.
    #[inline(never)]
    pub(super) fn page_end(&mut self) -> u8 {
        self.end();
        self.row = self.row.next_multiple_of(ROWS);
        u8::try_from(self.row / ROWS).unwrap_or(u8::MAX)
    }

    /// Ends the text; how many pages it has.
    pub(super) fn finish(mut self) -> u8 {
        self.end();
        u8::try_from(self.row.div_ceil(ROWS).max(1)).unwrap_or(u8::MAX)
    }
}
