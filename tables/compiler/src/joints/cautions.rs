//! `cautions.csv`: what could hurt somebody, and what it hangs on.

use super::bits::Bits;
use super::lists::Dictionary;
use super::model::{Caution, Condition, Trigger};
use super::reader::{Reader, split};
use super::sets::Names;
use crate::read::CONTENTS;
use crate::read::MATERIALS;
use crate::read::table::Table;
use crate::report::Cell;
use springline_core::image::Touches;
use springline_core::joint::{Act, Owner, Task};

/// Columns of `cautions.csv`.
pub(super) const CAUTIONS: &[&str] = &[
    "key", "triggers", "order", "fold", "short", "full", "source", "grade",
];
/// At most so many characters in the short text: a handheld shows it on one page.
const PAGE: usize = 100;
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
                    .map(|one| condition(reader, &dictionary.ends, one))
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
        let short = reader.needed(&row["short"], "short text", PAGE);
        let full = reader.needed(&row["full"], "full text", FULL);
        let cited = reader.cited(row);
        let (Some(triggers), Some(order), Some(fold), Some((sources, grade))) =
            (triggers, order, fold, cited)
        else {
            continue;
        };
        let Some(trigger) = joined(&triggers) else {
            let message = "these triggers cannot be joined";
            let help = "all of them must hang on the same pipe, and each on one thing more that is done, or none of them";
            reader.report.add(row["triggers"].place, message, help);
            continue;
        };
        cautions.push(Caution {
            key,
            triggers,
            trigger,
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

/// Triggers joined, as a device keeps them: one pipe, and the things that are done. `None` where that would say something else.
fn joined(triggers: &[Vec<Condition>]) -> Option<Trigger> {
    let mut all: Option<Trigger> = None;
    for trigger in triggers {
        let one = single(trigger)?;
        all = Some(match all {
            None => one,
            Some(held) => {
                if held.pipe != one.pipe || is_any(&held) != is_any(&one) {
                    return None;
                }
                Trigger {
                    pipe: held.pipe,
                    acts: Bits(held.acts.0 | one.acts.0),
                    tasks: Bits(held.tasks.0 | one.tasks.0),
                    ends: Bits(held.ends.0 | one.ends.0),
                }
            }
        });
    }
    all
}

/// Whether it hangs on nothing that is done.
fn is_any(trigger: &Trigger) -> bool {
    [trigger.acts, trigger.tasks, trigger.ends] == [Bits::default(); 3]
}

/// Conditions that must all hold: at most one of a pipe and one of what is done.
fn single(all: &[Condition]) -> Option<Trigger> {
    let mut trigger = Trigger {
        pipe: Touches::Any,
        acts: Bits::default(),
        tasks: Bits::default(),
        ends: Bits::default(),
    };
    for condition in all {
        let pipe = match *condition {
            Condition::Always => continue,
            Condition::Act(act) if is_any(&trigger) => {
                trigger.acts = Bits(1 << act as u8);
                continue;
            }
            Condition::Task(task) if is_any(&trigger) => {
                trigger.tasks = Bits(1 << task as u8);
                continue;
            }
            Condition::Ends(ends) if is_any(&trigger) => {
                trigger.ends = ends;
                continue;
            }
            Condition::Act(_) | Condition::Task(_) | Condition::Ends(_) => return None,
            Condition::Material(material) => Touches::Material(material as u8),
            Condition::Carries(carries) => Touches::Carries(carries as u8),
            Condition::System(system) => Touches::System(u8::try_from(system).ok()?),
            Condition::Owner(owner) => Touches::Owner(owner as u8),
        };
        if trigger.pipe != Touches::Any {
            return None;
        }
        trigger.pipe = pipe;
    }
    Some(trigger)
}

/// One condition: `always`, or what it is about, a colon, and a word.
pub(crate) fn condition(
    reader: &mut Reader<'_>,
    names: &Names,
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
        "end" => Condition::Ends(names.read(reader, word)?),
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
