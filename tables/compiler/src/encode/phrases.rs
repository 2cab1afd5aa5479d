//! Short texts as runs of word numbers.

use std::collections::HashMap;

use springline_core::image::{MARKS, MAX_WORDS, SHORT_WORDS, WordRun, code};

/// Phrases, each kept once, and the words that they are made of.
#[derive(Debug)]
pub(super) struct Phrases {
    /// Words: those of one byte, which are the most frequent, and the others, each by length.
    pub(super) words: Vec<String>,
    numbers: HashMap<String, u16>,
    starts: HashMap<String, u16>,
    /// A length, and so many bytes, for each.
    pub(super) bytes: Vec<u8>,
}

impl Phrases {
    /// The words of all texts that will be asked for.
    pub(super) fn of<'t>(texts: impl Iterator<Item = &'t str>) -> Self {
        let mut unique: Vec<&str> = texts.collect();
        unique.sort_unstable();
        unique.dedup();
        let mut counts: HashMap<&str, usize> = HashMap::new();
        for word in unique.iter().flat_map(|text| pieces(text)) {
            *counts.entry(word).or_default() += 1;
        }
        let mut words: Vec<(&str, usize)> = counts.into_iter().collect();
        words.sort_unstable_by_key(|(word, count)| (usize::MAX - count, *word));
        // More words than two bytes can tell apart are more than an image can hold.
        words.truncate(MAX_WORDS);
        let short = words.len().min(usize::from(SHORT_WORDS));
        let (short, long) = words.split_at_mut(short);
        for some in [short, long] {
            some.sort_unstable_by_key(|(word, _)| (word.len(), *word));
        }
        let words: Vec<String> = words.iter().map(|(word, _)| (*word).to_owned()).collect();
        let number =
            |(at, word): (usize, &String)| (word.clone(), u16::try_from(at).unwrap_or(u16::MAX));
        let mut phrases = Self {
            numbers: words.iter().enumerate().map(number).collect(),
            words,
            starts: HashMap::new(),
            bytes: Vec::new(),
        };
        // What says nothing comes first.
        phrases.start("");
        phrases
    }

    /// The words by length, as they lie one behind the other.
    pub(super) fn runs(&self) -> Vec<WordRun> {
        let mut runs: Vec<WordRun> = Vec::new();
        for word in &self.words {
            let length = u8::try_from(word.len()).unwrap_or(u8::MAX);
            match runs.last_mut() {
                Some(run) if run.length == length && run.count < u8::MAX => run.count += 1,
                _ => runs.push(WordRun { length, count: 1 }),
            }
        }
        runs
    }

    /// Where a text starts.
    pub(super) fn start(&mut self, text: &str) -> u16 {
        if let Some(start) = self.starts.get(text) {
            return *start;
        }
        let numbers = pieces(text).filter_map(|word| self.numbers.get(word));
        let codes: Vec<u8> = numbers
            .flat_map(|number| {
                let (bytes, length) = code(*number);
                bytes.into_iter().take(length)
            })
            .collect();
        let start = u16::try_from(self.bytes.len()).unwrap_or(u16::MAX);
        self.bytes
            .push(u8::try_from(codes.len()).unwrap_or(u8::MAX));
        self.bytes.extend(codes);
        self.starts.insert(text.to_owned(), start);
        start
    }
}

/// The words of a text; one of [`MARKS`] behind one is a word of its own.
fn pieces(text: &str) -> impl Iterator<Item = &str> {
    text.split(' ').flat_map(|word| {
        // Points that stand for something left out are one word.
        let marked = word.ends_with(MARKS) && !word.starts_with(MARKS);
        let at = word.len() - usize::from(marked);
        let (stem, mark) = word.split_at(at);
        [stem, mark].into_iter().filter(|piece| !piece.is_empty())
    })
}
