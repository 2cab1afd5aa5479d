//! Breaks text into lines.

/// Lines are kept to this width, so that a phone's terminal holds them.
const WIDTH: usize = 78;

/// Breaks a sentence into lines; those after the first are set in under the first.
pub(crate) fn wrap(out: &mut String, mark: &str, sentence: &str) {
    let indent = " ".repeat(mark.len());
    let mut line = mark.to_owned();
    let mut empty = true;
    for word in sentence.split_whitespace() {
        if !empty && line.len() + 1 + word.len() > WIDTH {
            out.push_str(&line);
            out.push('\n');
            line.clone_from(&indent);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out.push_str(&line);
    out.push('\n');
}
