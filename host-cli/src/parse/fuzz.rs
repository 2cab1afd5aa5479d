//! Random text must never panic, and every answer must keep its promises.

use super::{Limits, ParseError, Unit, clock, length, length_at_clock, temperature};

/// A small generator, so that a failure is the same on every run.
struct XorShift(u64);

impl XorShift {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.next() >> 33).unwrap() % n
    }
}

fn check_error(text: &str, error: &ParseError) {
    let chars = text.chars().count();
    assert!(error.span.start <= error.span.end, "{text:?}: {error:?}");
    assert!(error.span.end <= chars, "{text:?}: {error:?}");
    let shown = error.to_string();
    assert!(
        shown.lines().count() == 4 || error.text.trim().is_empty(),
        "{text:?}: {shown}"
    );
    assert!(!shown.chars().any(|c| c.is_control() && c != '\n'));
    assert!(!error.message.is_empty() && !error.help.is_empty());
}

fn check(text: &str) {
    for unit in [Unit::Inch, Unit::Millimetre] {
        for limits in [Limits::DIAMETER, Limits::AROUND] {
            let taken = limits.min..=limits.max;
            match length(text, unit, limits) {
                Ok(counts) => {
                    assert!(taken.contains(&counts), "{text:?}");
                    assert_eq!(length_at_clock(text, unit, limits), Ok((counts, None)));
                }
                Err(error) => check_error(text, &error),
            }
            match length_at_clock(text, unit, limits) {
                Ok((counts, half_hours)) => {
                    assert!(taken.contains(&counts), "{text:?}");
                    assert!(half_hours.is_none_or(|h| h < 24), "{text:?}");
                }
                Err(error) => check_error(text, &error),
            }
        }
    }
    match temperature(text) {
        Ok(value) => assert!((-4_000..=18_000).contains(&value), "{text:?}"),
        Err(error) => check_error(text, &error),
    }
    match clock(text) {
        Ok(half_hours) => assert!(half_hours < 24, "{text:?}"),
        Err(error) => check_error(text, &error),
    }
}

#[test]
fn random_bytes() {
    let mut random = XorShift(0x1234_5678_9abc_def1);
    for _ in 0..20_000 {
        let len = random.below(80);
        let bytes: Vec<u8> = (0..len).map(|_| random.next().to_le_bytes()[3]).collect();
        check(&String::from_utf8_lossy(&bytes));
    }
}

/// Random bytes seldom get past the first character; these pieces do.
#[test]
fn random_pieces_of_readings() {
    const PIECES: [&str; 44] = [
        "0",
        "1",
        "2",
        "3",
        "6",
        "9",
        "12",
        "29",
        "32",
        "64",
        "904",
        ".",
        ",",
        "/",
        "-",
        " ",
        "in",
        "ft",
        "mm",
        "cm",
        "\"",
        "'",
        "\u{2032}",
        "\u{2033}",
        "½",
        "⅜",
        "⅓",
        "\u{2044}",
        "@",
        ":",
        ":30",
        ".5",
        "F",
        "C",
        "°",
        "deg",
        "℃",
        "e",
        "E9",
        "+",
        "\t",
        "\u{2212}",
        "\u{1f4a7}",
        "\n",
    ];
    let mut random = XorShift(0xfeed_beef_cafe_0001);
    let mut read = 0;
    for _ in 0..60_000 {
        let count = 1 + random.below(8);
        let text: String = (0..count)
            .map(|_| PIECES[random.below(PIECES.len())])
            .collect();
        check(&text);
        read += usize::from(length(&text, Unit::Inch, Limits::AROUND).is_ok());
    }
    // If next to nothing is read, the pieces no longer test what they should.
    assert!(read > 500, "{read}");
}

/// Honest readings with one character lost, doubled or changed.
#[test]
fn slips_of_the_finger() {
    let honest = [
        "6.904in",
        "6 29/32in",
        "6-29/32\"",
        "1ft 9-11/16in",
        "1'9 11/16\"",
        "175.4mm",
        "17.54cm",
        "6½\u{2033}",
        "6.90in@10.5",
        "95 °F",
        "-4F",
        "7:30",
    ];
    let others = [
        '0', '9', '.', '/', ' ', '-', ',', '@', 'i', '\'', '\u{ff16}', '\0',
    ];
    for text in honest {
        check(text);
        let chars: Vec<char> = text.chars().collect();
        for at in 0..chars.len() {
            let (before, rest) = chars.split_at(at);
            let join = |middle: &[char], after: &[char]| {
                [before, middle, after].concat().iter().collect::<String>()
            };
            check(&join(&[], &rest[1..]));
            check(&join(&[], &[]));
            for c in others {
                check(&join(&[c], &rest[1..]));
                check(&join(&[c], rest));
            }
        }
    }
}
