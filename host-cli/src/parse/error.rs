//! The error a person sees when a typed value cannot be read.

use std::fmt;
use std::ops::Range;

use super::scan::MAX_CHARS;

/// Why a typed value was refused, where, and what would have been right.
///
/// `Display` gives up to four lines: the verdict, the text, a caret under the
/// fault, and something to try.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ParseError {
    /// The text as typed, cut to a bounded length and with every character
    /// that could upset a terminal or shift the caret replaced.
    pub(crate) text: String,
    /// The verdict, such as `is not a length`.
    pub(crate) verdict: String,
    /// What is wrong at the span.
    pub(crate) message: String,
    /// Where the fault is, in characters from the start of the text.
    pub(crate) span: Range<usize>,
    /// What would be right.
    pub(crate) help: String,
}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "\"{}\" {}", self.text, self.verdict)?;
        if self.text.trim().is_empty() {
            // A caret under nothing points at nothing.
            writeln!(f, "  {}", self.message)?;
        } else {
            let carets = "^".repeat(self.span.len().max(1));
            writeln!(f, "  {}", self.text)?;
            writeln!(
                f,
                "  {}{carets} {}",
                " ".repeat(self.span.start),
                self.message
            )?;
        }
        write!(f, "  try: {}", self.help)
    }
}

impl std::error::Error for ParseError {}

/// What to put on the `try:` line.
#[derive(Clone, Debug)]
pub(super) enum Help {
    /// The usual examples for this kind of value.
    Usual,
    /// A sentence of its own.
    Text(String),
    /// Rewritten texts; those that cannot be read themselves are dropped.
    Rewrites(Vec<String>),
}

/// A fault found while reading, before it is dressed for the person.
#[derive(Clone, Debug)]
pub(super) struct Fault {
    pub(super) span: Range<usize>,
    pub(super) message: String,
    pub(super) help: Help,
    /// The value was understood, but lies outside what is taken.
    pub(super) out_of_range: bool,
}

impl Fault {
    pub(super) fn new(span: Range<usize>, message: impl Into<String>) -> Self {
        Self {
            span,
            message: message.into(),
            help: Help::Usual,
            out_of_range: false,
        }
    }

    pub(super) fn tell(mut self, help: impl Into<String>) -> Self {
        self.help = Help::Text(help.into());
        self
    }

    pub(super) fn rewrites(mut self, texts: Vec<String>) -> Self {
        self.help = Help::Rewrites(texts);
        self
    }

    pub(super) fn beyond(mut self) -> Self {
        self.out_of_range = true;
        self
    }

    /// Turns the fault into the error a person sees. `reads` says whether a
    /// rewrite would itself be accepted, so that no advice leads to a refusal.
    pub(super) fn dress(
        self,
        text: &str,
        what: &str,
        usual: &str,
        reads: impl Fn(&str) -> bool,
    ) -> ParseError {
        let help = match self.help {
            Help::Usual => usual.to_owned(),
            Help::Text(text) => text,
            Help::Rewrites(texts) => {
                let good: Vec<String> = texts
                    .iter()
                    .filter(|t| reads(t))
                    .map(|t| shown(t))
                    .collect();
                if good.is_empty() {
                    usual.to_owned()
                } else {
                    any_of(&good)
                }
            }
        };
        ParseError {
            text: shown(text),
            verdict: if self.out_of_range {
                format!("is out of range for a {what}")
            } else {
                format!("is not a {what}")
            },
            message: self.message,
            span: self.span,
            help,
        }
    }
}

/// Joins as `a`, `a or b`, `a, b or c`.
fn any_of(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

/// The text made fit to print: bounded, on one line, one column to a character.
fn shown(text: &str) -> String {
    let mut out: String = text.chars().take(MAX_CHARS).map(printable).collect();
    if text.chars().nth(MAX_CHARS).is_some() {
        out.push_str("...");
    }
    out
}

/// A character as it may be shown. Controls could drive the terminal; wide and
/// combining characters would put the caret under the wrong place.
fn printable(c: char) -> char {
    if c.is_whitespace() {
        ' '
    } else if is_printable(c) {
        c
    } else {
        char::REPLACEMENT_CHARACTER
    }
}

fn is_printable(c: char) -> bool {
    matches!(c,
        '!'..='~'
        | '\u{a1}'..='\u{ac}'
        | '\u{ae}'..='\u{2ff}'
        | '\u{2010}'..='\u{2015}'
        | '\u{2018}'..='\u{201f}'
        | '\u{2032}'..='\u{2037}'
        | '\u{2044}'
        | '\u{2103}'
        | '\u{2109}'
        | '\u{2150}'..='\u{215f}'
        | '\u{2189}'
        | '\u{2212}'
        | '\u{2215}')
}

/// Names a character for a message, by number where it cannot be shown.
pub(super) fn name_of(c: char) -> String {
    if is_printable(c) {
        format!("'{c}'")
    } else {
        format!("the character U+{:04X}", u32::from(c))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn error(text: &str, fault: Fault) -> ParseError {
        fault.dress(text, "length", "6.5in", |t| t != "bad")
    }

    #[test]
    fn caret_is_under_the_fault() {
        let e = error("abc de", Fault::new(4..6, "no"));
        assert_eq!(
            e.to_string(),
            "\"abc de\" is not a length\n  abc de\n      ^^ no\n  try: 6.5in"
        );
    }

    #[test]
    fn empty_text_has_no_caret() {
        let e = error("", Fault::new(0..0, "nothing was typed"));
        assert_eq!(
            e.to_string(),
            "\"\" is not a length\n  nothing was typed\n  try: 6.5in"
        );
    }

    #[test]
    fn rewrites_that_do_not_read_are_dropped() {
        let texts = |t: &[&str]| t.iter().map(|&s| s.to_owned()).collect::<Vec<_>>();
        let f = Fault::new(0..1, "no");
        let help = |t: &[&str]| error("x", f.clone().rewrites(texts(t))).help;
        assert_eq!(help(&["a", "bad", "b", "c"]), "a, b or c");
        assert_eq!(help(&["a", "b"]), "a or b");
        assert_eq!(help(&["bad"]), "6.5in");
    }

    #[test]
    fn terminal_controls_and_wide_characters_are_not_echoed() {
        assert_eq!(
            shown("a\u{1b}[2J\n\u{202e}\u{6c49}\u{301}"),
            "a\u{fffd}[2J \u{fffd}\u{fffd}\u{fffd}"
        );
        assert_eq!(name_of('\u{7}'), "the character U+0007");
        assert_eq!(name_of('#'), "'#'");
    }

    #[test]
    fn long_text_is_cut() {
        let long = "9".repeat(100_000);
        assert_eq!(shown(&long).chars().count(), MAX_CHARS + 3);
    }
}
