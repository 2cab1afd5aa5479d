//! `clues.toml` and the files of its clues.

use serde::Deserialize;
use toml::Spanned;

use super::catalog::{KEY, name};
use super::context::Context;
use super::document::{Document, number_in};
use super::table::{Row, Table};
use crate::model::{Clue, ClueAnswer, Grade, Meaning};
use crate::report::Cell;

/// At most so many characters in a question, which devices show on two lines.
const QUESTION: usize = 40;
/// At most so many characters in an answer as it is told back.
const WORDS: usize = 32;
/// At most so many clues, and answers of one: a query holds that many.
const CLUES: usize = 16;
const ANSWERS: usize = 8;
/// How far a sum of decimals may miss by floating-point rounding.
const ROUNDING: f64 = 1e-6;
/// The families that no other row names.
const OTHERS: &str = "others";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawClue {
    key: Spanned<String>,
    question: Spanned<String>,
    #[allow(
        dead_code,
        reason = "read with its place, so that its range can be reported"
    )]
    minutes: f64,
    #[serde(default)]
    disguised: bool,
    answer: Vec<RawAnswer>,
    source: Spanned<String>,
    grade: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawAnswer {
    key: Spanned<String>,
    words: Spanned<String>,
    #[serde(default)]
    means: Vec<Spanned<String>>,
}

/// Reads `clues.toml`. With each clue comes the cell of its key; its likelihoods are still empty.
pub(crate) fn clues<'a>(
    context: &mut Context<'_>,
    document: &Document<'a>,
) -> Vec<(Clue, Cell<'a>)> {
    let mut all: Vec<(Clue, Cell<'a>)> = Vec::new();
    for value in document.list(&mut context.report, "clue") {
        let Some(raw) = document.typed::<RawClue>(&mut context.report, value) else {
            continue;
        };
        let key = document.cell(&raw.key);
        name(context, &key, "key", KEY);
        if all.iter().any(|(held, _)| held.key == key.text) {
            context.report.add(
                key.place,
                format!("clue \"{}\" is there twice", key.text),
                "remove one of them",
            );
        }
        context.needed(&document.cell(&raw.question), "question", QUESTION);
        let minutes = number_in(value, &["minutes"]);
        context.between(document, "minutes", minutes, 0.05, 120.0);
        let answers: Vec<ClueAnswer> = raw
            .answer
            .iter()
            .map(|raw| answer(context, document, raw))
            .collect();
        if answers.len() < 2 || answers.len() > ANSWERS {
            context.report.add(
                key.place,
                format!("clue \"{}\" has {} answers", key.text, answers.len()),
                format!("a question needs two to {ANSWERS}"),
            );
        }
        if all.len() == CLUES {
            context.report.add(
                key.place,
                "more clues than a device holds",
                format!("keep at most {CLUES}"),
            );
        }
        let sources = context.sources(&document.cell(&raw.source));
        let grade = context.grade(&document.cell(&raw.grade));
        let clue = Clue {
            key: key.text.clone(),
            question: raw.question.into_inner(),
            minutes: raw.minutes,
            disguised: raw.disguised,
            answers,
            likelihoods: Vec::new(),
            sources,
            grade: grade.unwrap_or(Grade::Memory),
        };
        all.push((clue, key));
    }
    all
}

fn answer(context: &mut Context<'_>, document: &Document<'_>, raw: &RawAnswer) -> ClueAnswer {
    let key = document.cell(&raw.key);
    name(context, &key, "key", KEY);
    context.needed(&document.cell(&raw.words), "words", WORDS);
    let words = [
        ("plastic", Meaning::Plastic),
        ("cement", Meaning::Cement),
        ("gas", Meaning::Gas),
    ];
    ClueAnswer {
        key: key.text,
        words: raw.words.get_ref().clone(),
        means: raw
            .means
            .iter()
            .filter_map(|word| context.word(&document.cell(word), "meaning", &words))
            .collect(),
    }
}

/// The columns of a clue's file.
pub(crate) fn columns(clue: &Clue) -> Vec<&str> {
    let mut columns = vec!["families"];
    columns.extend(clue.answers.iter().map(|answer| answer.key.as_str()));
    columns.extend(["source", "grade"]);
    columns
}

/// The chance of each answer by family, from a clue's file: every family in one row, and each row summing to one.
pub(crate) fn likelihoods(
    context: &mut Context<'_>,
    clue: &Clue,
    table: &Table<'_>,
) -> Vec<Vec<f64>> {
    let count = context.families.keys.len();
    let mut of: Vec<Option<Vec<f64>>> = vec![None; count];
    let mut others = None;
    for row in table.rows.iter().filter(|row| row.whole) {
        let chances = chances(context, clue, row);
        for part in row["families"].parts() {
            if part.text == OTHERS {
                others = Some(chances.clone());
                continue;
            }
            let Some(family) = context.family(&part) else {
                continue;
            };
            if of[family].is_some() {
                context.report.add(
                    part.place,
                    format!("family \"{}\" is there twice", part.text),
                    "name it in one row",
                );
            }
            of[family] = Some(chances.clone());
        }
    }
    let missing: Vec<String> = (0..count)
        .filter(|family| of[*family].is_none() && others.is_none())
        .map(|family| context.families.keys[family].clone())
        .collect();
    if let (false, true, Some(last)) = (
        missing.is_empty(),
        context.families.complete,
        table.rows.last(),
    ) {
        context.report.add(
            last["families"].place,
            format!("no row for {}", missing.join(", ")),
            format!("add one, or a row for \"{OTHERS}\""),
        );
    }
    let even = vec![1.0; clue.answers.len()];
    of.into_iter()
        .map(|held| {
            held.or_else(|| others.clone())
                .unwrap_or_else(|| even.clone())
        })
        .collect()
}

fn chances(context: &mut Context<'_>, clue: &Clue, row: &Row<'_>) -> Vec<f64> {
    let before = context.report.count();
    let chances: Vec<f64> = clue
        .answers
        .iter()
        .map(|answer| {
            let cell = &row[answer.key.as_str()];
            let value = context.share(cell);
            let cited = context.cited(
                value,
                !cell.is_empty(),
                &answer.key,
                &row["source"],
                &row["grade"],
            );
            if cell.is_empty() {
                context.report.add(
                    cell.place,
                    format!("missing {}", answer.key),
                    "every answer has a chance, however small",
                );
            }
            cited.map_or(1.0, |cited| cited.value)
        })
        .collect();
    let sum: f64 = chances.iter().sum();
    if (sum - 1.0).abs() > ROUNDING && context.report.count() == before {
        context.report.add(
            row["families"].place,
            format!("the chances of the answers sum to {sum:.4}"),
            "they must sum to 1",
        );
    }
    chances
}
