//! Clues and their likelihoods in the image's form.

use springline_core::image::{Clue, ClueAnswer, Likelihood};

use super::Pool;
use super::settings::fixed;
use crate::encode::DraftClue;
use crate::model::{self, Meaning, Sources};

/// Every clue with its answers and, by answer and family, its likelihoods.
pub(super) fn clues(sources: &Sources, keys: &mut Pool) -> Vec<DraftClue> {
    let mut next = 0;
    sources
        .clues
        .iter()
        .map(|clue| {
            let record = Clue {
                effort: fixed(clue.minutes * 100.0, 0) as u16,
                first: next,
                answers: clue.answers.len() as u8,
                disguised: u8::from(clue.disguised),
                source: keys.index(&sources.sources[clue.sources[0]].key),
                grade: clue.grade as u8,
                ..Clue::default()
            };
            next += record.answers;
            DraftClue {
                record,
                key: clue.key.clone(),
                question: clue.question.clone(),
                answers: clue.answers.iter().map(answer).collect(),
                likelihoods: (0..clue.answers.len())
                    .flat_map(|answer| clue.likelihoods.iter().map(move |of| chance(of[answer])))
                    .collect(),
            }
        })
        .collect()
}

fn answer(answer: &model::ClueAnswer) -> (ClueAnswer, String, String) {
    let bit = |meaning: &Meaning| match meaning {
        Meaning::Plastic => ClueAnswer::PLASTIC,
        Meaning::Cement => ClueAnswer::CEMENT,
        Meaning::Gas => ClueAnswer::GAS,
    };
    let record = ClueAnswer {
        means: answer.means.iter().map(bit).fold(0, |all, bit| all | bit),
        ..ClueAnswer::default()
    };
    (record, answer.key.clone(), answer.words.clone())
}

/// The nearest likelihood; one itself becomes the largest below it.
fn chance(value: f64) -> Likelihood {
    let (mut halvings, mut scaled) = (0, value);
    while scaled < 0.5 && halvings < 15 {
        scaled *= 2.0;
        halvings += 1;
    }
    Likelihood::of(fixed(scaled, 13).clamp(4096.0, 8191.0) as u16, halvings)
}
