//! Characters of a line.

/// The same sign for letters and digits that are taken for each other; what looks like a digit is one.
#[must_use]
pub const fn folded(c: u8) -> u8 {
    match c.to_ascii_uppercase() {
        b'O' => b'0',
        b'I' | b'L' => b'1',
        b'Z' => b'2',
        b'S' => b'5',
        b'G' => b'6',
        b'B' => b'8',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_for_each_other_is_the_same() {
        for pair in ["O0", "I1", "L1", "l1", "S5", "B8", "Z2", "G6"] {
            let [a, b] = [pair.as_bytes()[0], pair.as_bytes()[1]];
            assert_eq!(folded(a), folded(b), "{pair}");
        }
        assert_ne!(folded(b'C'), folded(b'G'));
    }
}
