//! What is wrong with a source file, where, and what to do about it.

use std::fmt;

/// A mistake in a source file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Diagnostic {
    /// The file, relative to the folder of the sources, with `/` between its parts.
    pub file: String,
    /// The line, from 1; 0 when the mistake is the whole file.
    pub line: usize,
    /// The column in characters, from 1.
    pub column: usize,
    /// How many characters are at fault; at least one is underlined.
    pub span: usize,
    /// The whole line.
    pub text: String,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub help: String,
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line == 0 {
            write!(f, "{}: error: {}", self.file, self.message)?;
        } else {
            let Self {
                file,
                line,
                column,
                message,
                ..
            } = self;
            writeln!(f, "{file}:{line}:{column}: error: {message}")?;
            writeln!(f, "  {}", self.text)?;
            // A tab is as wide as the terminal has it, so it is repeated and not replaced by a space.
            let margin: String = self
                .text
                .chars()
                .take(column.saturating_sub(1))
                .map(|c| if c == '\t' { '\t' } else { ' ' })
                .collect();
            write!(f, "  {margin}{}", "^".repeat(self.span.max(1)))?;
        }
        if !self.help.is_empty() {
            write!(f, "\n  help: {}", self.help)?;
        }
        Ok(())
    }
}

impl std::error::Error for Diagnostic {}

#[cfg(test)]
mod tests {
    use super::Diagnostic;

    #[test]
    fn the_fault_is_underlined() {
        let diagnostic = Diagnostic {
            file: "od/c900.csv".into(),
            line: 7,
            column: 19,
            span: 6,
            text: "6,,C900,é16,6.900,hi-dta,two-sources".into(),
            message: "unknown source \"hi-dta\"".into(),
            help: "add [hi-dta] to sources.toml".into(),
        };
        assert_eq!(
            diagnostic.to_string(),
            "od/c900.csv:7:19: error: unknown source \"hi-dta\"\n  \
             6,,C900,é16,6.900,hi-dta,two-sources\n  \
             \u{20}                 ^^^^^^\n  \
             help: add [hi-dta] to sources.toml"
        );
    }

    #[test]
    fn a_whole_file_has_no_line() {
        let diagnostic = Diagnostic {
            file: "sizes.csv".into(),
            line: 0,
            column: 0,
            span: 0,
            text: String::new(),
            message: "file not found".into(),
            help: "add it".into(),
        };
        assert_eq!(
            diagnostic.to_string(),
            "sizes.csv: error: file not found\n  help: add it"
        );
    }
}
