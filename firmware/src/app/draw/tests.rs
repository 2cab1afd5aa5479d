//! Every text of the tables fits the box that it is drawn in.

use std::string::String;
use std::vec::Vec;

use springline_core::image::{Image, directory, is_mark};
use springline_core::joint::Task;
use springline_tables::IMAGE;

use super::pen::COLUMNS;
use crate::app::open::LISTED;
use crate::app::text::{Line, add};
use crate::letters::Letters;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// Lines that words take in so many columns.
fn lines<'w>(words: impl Iterator<Item = &'w str>, columns: usize) -> Vec<String> {
    let mut lines = Vec::from([String::new()]);
    for word in words {
        let line = lines.last_mut().expect("one");
        if !line.is_empty() && line.len() + 1 + word.len() > columns {
            lines.push(String::from(word));
            continue;
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    lines
}

#[test]
fn sizes_and_systems_fit_across() {
    let image = image();
    for row in image.rows_from(0) {
        let mut line = Line::new();
        super::answer::add_size(&mut line, image.size(row.size));
        add(&mut line, " ");
        let label = image.packed_text(image.system(row.system).label);
        add(&mut line, label.strip_suffix(" size").unwrap_or(label));
        assert!(line.len() <= Letters::Middle.columns() + 5, "{line}");
        assert!(
            Letters::fitting(line.len()).columns() >= line.len(),
            "{line}"
        );
    }
}

#[test]
fn a_family_with_its_size_is_cut_by_a_letter_or_two_at_most() {
    let image = image();
    for row in image.rows_from(0) {
        let name = image.packed_text(image.family(row.family).name);
        // A space between, the mark of the inch behind, and how many more there are; lists break it in two.
        let length = name.len() + 1 + image.size(row.size).len() + 1 + 2;
        assert!(length <= COLUMNS + 3, "{name} {}", image.size(row.size));
        assert!(name.len() < COLUMNS, "{name}");
    }
}

#[test]
fn questions_take_two_lines_and_answers_one() {
    let image = image();
    for clue in image.clues() {
        let question = image.packed_text(clue.question);
        assert!(lines(question.split(' '), COLUMNS).len() <= 2, "{question}");
        assert!(
            image.packed_text(clue.key).len() <= COLUMNS - 6,
            "SET: {question}?"
        );
        for answer in clue.first..clue.first + clue.answers {
            let key = image.packed_text(image.clue_answer(answer).key);
            assert!(key.len() <= COLUMNS, "{key}");
        }
    }
}

#[test]
fn no_word_of_a_phrase_is_longer_than_a_line() {
    let image = image();
    let phrases = image
        .matrix()
        .flat_map(|row| [row.need, row.reason])
        .chain(image.joint_ends().map(|end| end.name))
        .chain(image.restraints().flat_map(|one| [one.name, one.remark]))
        .chain(image.saddles().flat_map(|one| [one.name, one.remark]));
    let mut longest = 0;
    for phrase in phrases {
        for word in image.phrase(phrase).words() {
            longest = longest.max(word.len());
            assert!(word.len() <= COLUMNS - 2, "{word}");
        }
    }
    assert!(longest > 10 && directory(IMAGE).count() > 20);
}

#[test]
fn cautions_take_a_page_and_lists_have_room() {
    let image = image();
    let mut longest = 0;
    for caution in image.cautions() {
        let mut words: Vec<String> = Vec::new();
        for word in image.phrase(caution.short).words() {
            match words.last_mut() {
                Some(last) if is_mark(word) => last.push_str(word),
                _ => words.push(String::from(word)),
            }
        }
        let lines = lines(words.iter().map(String::as_str), COLUMNS);
        longest = longest.max(lines.len());
        assert!(lines.len() <= 5, "{lines:?}");
        assert!(lines.iter().all(|line| line.len() <= COLUMNS), "{lines:?}");
    }
    assert_eq!(longest, 5, "as many as there are on a page");
    for task in Task::ALL {
        let parts = image.parts();
        let count = parts.filter(|part| part.tasks >> *task as u8 & 1 == 1);
        assert!(count.count() <= LISTED, "{task:?}");
    }
    for part in image.parts() {
        for word in image.phrase(part.name).words() {
            assert!(word.len() <= COLUMNS - 2, "{word}");
        }
    }
}
