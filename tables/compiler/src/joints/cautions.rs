//! `cautions.csv`: what could hurt somebody, and what it hangs on.

use super::bits::Bits;
use super::lists::Dictionary;
use super::model::{Caution, Condition};
use super::reader::{LONG, Reader, split};
use crate::read::CONTENTS;
use crate::read::MATERIALS;
use crate::read::table::Table;
use crate::report::Cell;
use springline_core::joint::{Act, Owner, Task};

/// Columns of `cautions.csv`.
pub(super) const CAUTIONS: &[&str] = &[
    "key", "triggers", "order", "fold", "short", "full", "source", "grade",
];
/// At most so many characters in the full text.
const FULL: usize = 400;

/// The rows of `cautions.csv`, the worst first.
pub(super) fn cautions(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    table: &Table<'_>,
) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = Vec::new();
    for row in table.rows.iter().filter(|row| row.whole) {
        let key = reader.key(&row["key"]);
        reader.unique(&row["key"], cautions.iter().any(|held| held.key == key));
        let triggers: Option<Vec<Vec<Condition>>> = split(&row["triggers"], ' ')
            .iter()
            .map(|cell| {
                let all = split(cell, '+');
                all.iter()
                    .map(|one| condition(reader, dictionary, one))
                    .collect()
            })
            .collect();
        let order = row["order"].text.parse::<u8>().ok();
        let first = |held: &Caution| order.is_some_and(|order| held.order >= order);
        if order.is_none() || cautions.iter().any(first) {
            let message = format!(
                "\"{}\" is not a number above those before it",
                row["order"].text
            );
            let help = "the worst first: orders rise from row to row, up to 255";
            reader.report.add(row["order"].place, message, help);
        }
        let fold = reader.word(&row["fold"], "word", &[("yes", true), ("no", false)]);
        let short = reader.needed(&row["short"], "short text", LONG);
        let full = reader.needed(&row["full"], "full text", FULL);
        let cited = reader.cited(row);
        let (Some(triggers), Some(order), Some(fold), Some((sources, grade))) =
            (triggers, order, fold, cited)
        else {
            continue;
        };
        cautions.push(Caution {
            key,
            triggers,
            order,
            fold,
            short,
            full,
            sources,
            grade,
        });
    }
    cautions
}

/// One condition: `always`, or what it is about, a colon, and a word.
fn condition(
    reader: &mut Reader<'_>,
    dictionary: &Dictionary,
    cell: &Cell<'_>,
) -> Option<Condition> {
    if cell.text == "always" {
        return Some(Condition::Always);
    }
    let parts = split(cell, ':');
    let [about, word] = &parts[..] else {
        reader.report.add(
            cell.place,
            format!("\"{}\" is no condition", cell.text),
            "write always, act:, end:, material:, carries:, system:, task: or owner: and a word",
        );
        return None;
    };
    Some(match about.text.as_str() {
        "act" => Condition::Act(reader.word(word, "act", Act::WORDS)?),
        "end" => Condition::Ends(ends(reader, dictionary, word)?),
        "material" => Condition::Material(reader.word(word, "material", &MATERIALS)?),
        "carries" => Condition::Carries(reader.word(word, "contents", &CONTENTS)?),
        "system" => Condition::System(reader.system(word)?),
        "task" => Condition::Task(reader.word(word, "task", Task::WORDS)?),
        "owner" => Condition::Owner(reader.word(word, "owner", Owner::WORDS)?),
        _ => {
            let known = [
                "act", "end", "material", "carries", "system", "task", "owner",
            ];
            reader.unknown(about, "condition", known);
            return None;
        }
    })
}

fn ends(reader: &mut Reader<'_>, dictionary: &Dictionary, cell: &Cell<'_>) -> Option<Bits> {
    dictionary.ends.read(reader, cell)
}
