//! The files of jobs, row by row.

use std::collections::BTreeMap;

use springline_core::joint::Task;

use super::build::build;
use super::model::{Count, Holder, Job, Jobs, Line, Place, Rule, Section, Stick, Way, Weight};
use super::trigger::{Words, named, triggers};
use super::{FILES, RULES};
use crate::joints::{Reader, end_names, split};
use crate::read::table::{Row, Table};
use crate::report::Cell;

/// At most so many characters in a name.
const NAME: usize = 80;
/// At most so many characters in a line.
const TEXT: usize = 320;
/// What a blank in a text stands for, beside rules and measures.
const BLANKS: [&str; 6] = ["parts", "outlet", "valve", "lubricant", "cement", "primer"];
/// Units of measures in a text.
const UNITS: [&str; 5] = ["in", "ft", "ft/s", "lb", "F"];

const JOBS: &[&str] = &["key", "words", "name", "other", "task", "source", "grade"];
const WAYS: &[&str] = &[
    "job", "key", "name", "when", "build", "remark", "source", "grade",
];
const LINES: &[&str] = &[
    "section", "order", "key", "triggers", "quantity", "place", "text", "source", "grade",
];
const HOLDERS: &[&str] = &[
    "restraint",
    "across",
    "gland",
    "brings",
    "place",
    "source",
    "grade",
];
const WEIGHTS: &[&str] = &["parts", "size", "lb", "source", "grade"];
const STICKS: &[&str] = &[
    "family", "feet", "lb_in3", "bell", "piece", "place", "source", "grade",
];
const RULE_COLUMNS: &[&str] = &["key", "value", "unit", "source", "grade"];

pub(super) fn gather<'a>(
    reader: &mut Reader<'a>,
    files: &'a BTreeMap<String, String>,
) -> Option<Jobs> {
    let [jobs, ways, lines, holders, weights, sticks, rules] = FILES;
    let job_table = reader.table(files, jobs, JOBS);
    let ways = reader.table(files, ways, WAYS);
    let lines = reader.table(files, lines, LINES);
    let holders = reader.table(files, holders, HOLDERS);
    let weights = reader.table(files, weights, WEIGHTS);
    let sticks = reader.table(files, sticks, STICKS);
    let rules = reader.table(files, rules, RULE_COLUMNS);
    let job_table = job_table?;
    let mut all = Jobs {
        jobs: each(&job_table, |row| job(reader, row)),
        ..Jobs::default()
    };
    // Without what they speak of, every other row would be a mistake.
    if all.jobs.len() < job_table.rows.len() {
        return None;
    }
    let words = Words {
        ends: end_names(reader.sources),
        jobs: all.jobs.iter().map(|job| job.key.clone()).collect(),
    };
    for row in &job_table.rows {
        let same = |held: &&Job| held.words == row["words"].text;
        reader.unique(&row["words"], all.jobs.iter().filter(same).count() > 1);
    }
    let ways = ways?;
    all.ways = each(&ways, |row| way(reader, &words, row));
    if all.ways.len() == ways.rows.len() {
        for (row, job) in job_table.rows.iter().zip(0..) {
            if !all.ways.iter().any(|way| way.jobs.contains(&job)) {
                let message = format!("no way to do \"{}\"", row["key"].text);
                let help = "add a row to jobs/ways.csv, or remove the job";
                reader.report.add(row["key"].place, message, help);
            }
        }
    }
    all.lines = each(&lines?, |row| line(reader, &words, row));
    all.lines.sort_by_key(|line| (line.section, line.order));
    let holders = holders?;
    all.holders = each(&holders, |row| holder(reader, row));
    if all.holders.len() == holders.rows.len() {
        covered(reader, &all.holders, holders.file);
    }
    all.weights = each(&weights?, |row| weight(reader, row));
    all.sticks = each(&sticks?, |row| stick(reader, &words, row));
    let rules = rules?;
    all.rules = each(&rules, |row| rule(reader, row));
    for key in RULES {
        if all.rules.len() == rules.rows.len() && !all.rules.iter().any(|rule| rule.key == key) {
            reader.report.add(
                crate::report::Place::file(rules.file),
                format!("no rule \"{key}\""),
                "the command works with it: add a row",
            );
        }
    }
    Some(all)
}

fn each<T>(table: &Table<'_>, of: impl FnMut(&Row<'_>) -> Option<T>) -> Vec<T> {
    let rows = table.rows.iter().filter(|row| row.whole);
    rows.filter_map(of).collect()
}

fn job(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Job> {
    let key = reader.key(&row["key"]);
    let words = reader.needed(&row["words"], "words", NAME);
    let name = reader.needed(&row["name"], "name", NAME);
    let other = reader.text(&row["other"], "other pipe", NAME);
    let task = reader.word(&row["task"], "task", Task::WORDS);
    let (sources, grade) = reader.cited(row)?;
    Some(Job {
        key,
        words,
        name,
        other: (!other.is_empty()).then_some(other),
        task: task?,
        sources,
        grade,
    })
}

fn way(reader: &mut Reader<'_>, words: &Words, row: &Row<'_>) -> Option<Way> {
    let jobs: Option<Vec<usize>> = split(&row["job"], ' ')
        .iter()
        .map(|cell| named(reader, cell, "job", &words.jobs))
        .collect();
    let key = reader.key(&row["key"]);
    let name = reader.needed(&row["name"], "name", NAME);
    let when = if row["when"].is_empty() {
        Some(Vec::new())
    } else {
        triggers(reader, words, &row["when"])
    };
    let build = build(reader, &row["build"]);
    let remark = reader.text(&row["remark"], "remark", TEXT);
    let (sources, grade) = reader.cited(row)?;
    Some(Way {
        jobs: jobs?,
        key,
        name,
        when: when?,
        build: build?,
        remark,
        sources,
        grade,
    })
}

fn line(reader: &mut Reader<'_>, words: &Words, row: &Row<'_>) -> Option<Line> {
    let section = reader.word(&row["section"], "section", Section::WORDS);
    let order = number(reader, &row["order"], "order", 1.0, 999.0);
    let key = reader.key(&row["key"]);
    let triggers = triggers(reader, words, &row["triggers"]);
    let quantity = if row["quantity"].is_empty() {
        Some(None)
    } else {
        quantity(reader, &row["quantity"]).map(Some)
    };
    let place = if row["place"].is_empty() {
        Some(None)
    } else {
        reader.word(&row["place"], "place", Place::WORDS).map(Some)
    };
    let text = reader.needed(&row["text"], "text", TEXT);
    blanks(reader, &row["text"]);
    let (sources, grade) = reader.cited(row)?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "kept between 1 and 999"
    )]
    Some(Line {
        section: section?,
        order: order? as u16,
        key,
        triggers: triggers?,
        quantity: quantity?,
        place: place?,
        text,
        sources,
        grade,
    })
}

/// Every blank of a text must be one that is filled: else a crew reads braces.
fn blanks(reader: &mut Reader<'_>, cell: &Cell) {
    let mut rest = cell.text.as_str();
    while let Some((_, behind)) = rest.split_once('{') {
        let (inside, after) = behind.split_once('}').unwrap_or((behind, ""));
        let measure = inside
            .split_once(' ')
            .is_some_and(|(value, unit)| value.parse::<f64>().is_ok() && UNITS.contains(&unit));
        if !measure && !BLANKS.contains(&inside) && !RULES.contains(&inside) {
            reader.report.add(
                cell.place,
                format!("unknown blank \"{{{inside}}}\""),
                format!(
                    "one of {}, a rule, or a measure in {}, as {{12 in}}",
                    BLANKS.join(", "),
                    UNITS.join(", ")
                ),
            );
        }
        rest = after;
    }
}

/// `2`, or `2*joint`.
fn quantity(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<(u16, Count)> {
    let (times, of) = cell.text.split_once('*').unwrap_or((&cell.text, "job"));
    let times = times.parse::<u16>().ok().filter(|times| *times > 0);
    let of = Count::WORDS.iter().find(|(word, _)| *word == of);
    if let (Some(times), Some((_, of))) = (times, of) {
        return Some((times, *of));
    }
    let known: Vec<&str> = Count::WORDS.iter().map(|(word, _)| *word).collect();
    reader.report.add(
        cell.place,
        format!("\"{}\" is no quantity", cell.text),
        format!("write 2, or 2* and one of: {}", known.join(", ")),
    );
    None
}

fn holder(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Holder> {
    let known: Vec<String> = reader
        .sources
        .joints
        .restraints
        .iter()
        .map(|one| one.key.clone())
        .collect();
    let restraint = named(reader, &row["restraint"], "restraint", &known);
    let yes = [("yes", true), ("no", false)];
    let across = reader.word(&row["across"], "word", &yes);
    let gland = reader.word(&row["gland"], "word", &yes);
    let brings = reader.needed(&row["brings"], "what it brings", TEXT);
    let place = reader.word(&row["place"], "place", Place::WORDS);
    let (sources, grade) = reader.cited(row)?;
    Some(Holder {
        restraint: restraint?,
        across: across?,
        gland: gland?,
        brings,
        place: place?,
        sources,
        grade,
    })
}

/// Reports what holds joints and has no row: a list would be silent about what comes with it.
fn covered(reader: &mut Reader<'_>, holders: &[Holder], file: &str) {
    let all = reader.sources.joints.restraints.iter().enumerate();
    for (at, one) in all.filter(|(_, one)| one.used == springline_core::joint::Use::Holds) {
        if !holders.iter().any(|held| held.restraint == at) {
            reader.report.add(
                crate::report::Place::file(file),
                format!("no row for \"{}\", which holds joints", one.key),
                "say whether it is the gland, and what comes with it",
            );
        }
    }
}

fn weight(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Weight> {
    let known: Vec<String> = reader
        .sources
        .joints
        .parts
        .iter()
        .map(|one| one.key.clone())
        .collect();
    let parts: Option<Vec<usize>> = split(&row["parts"], ' ')
        .iter()
        .map(|cell| named(reader, cell, "part", &known))
        .collect();
    let size = reader.needed(&row["size"], "size", NAME);
    let pounds = number(reader, &row["lb"], "weight", 1.0, 20_000.0);
    let (sources, grade) = reader.cited(row)?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "kept between 1 and 20,000"
    )]
    Some(Weight {
        parts: parts?,
        size,
        pounds: pounds? as u16,
        sources,
        grade,
    })
}

fn stick(reader: &mut Reader<'_>, words: &Words, row: &Row<'_>) -> Option<Stick> {
    let family = reader.family(&row["family"]);
    let mut feet: Vec<u8> = Vec::new();
    for cell in split(&row["feet"], ' ') {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "kept between 1 and 100"
        )]
        feet.push(number(reader, &cell, "length", 1.0, 100.0)? as u8);
    }
    if !feet.is_sorted() {
        let help = "the shortest first";
        reader.report.add(row["feet"].place, "not in order", help);
    }
    let density = number(reader, &row["lb_in3"], "weight", 0.01, 1.0);
    let bell = if row["bell"].is_empty() {
        Some(None)
    } else {
        named(reader, &row["bell"], "joint end", &words.ends.keys).map(Some)
    };
    let piece = if row["piece"].is_empty() {
        Some(None)
    } else {
        reader.family(&row["piece"]).map(Some)
    };
    let place = reader.word(&row["place"], "place", Place::WORDS);
    let (sources, grade) = reader.cited(row)?;
    Some(Stick {
        family: family?,
        feet,
        density: density?,
        bell: bell?,
        piece: piece?,
        place: place?,
        sources,
        grade,
    })
}

fn rule(reader: &mut Reader<'_>, row: &Row<'_>) -> Option<Rule> {
    let known = RULES.map(str::to_owned);
    let at = named(reader, &row["key"], "rule", &known);
    let value = number(reader, &row["value"], "figure", 0.0, 10_000.0);
    let unit = reader.needed(&row["unit"], "unit", NAME);
    let (sources, grade) = reader.cited(row)?;
    Some(Rule {
        key: RULES[at?].to_owned(),
        value: value?,
        unit,
        sources,
        grade,
    })
}

/// A number between two bounds.
fn number(
    reader: &mut Reader<'_>,
    cell: &Cell<'_>,
    what: &str,
    least: f64,
    most: f64,
) -> Option<f64> {
    let value = cell.text.parse::<f64>().ok();
    let value = value.filter(|value| (least..=most).contains(value));
    if value.is_none() {
        let message = format!("\"{}\" is no {what}", cell.text);
        let help = format!("write a number from {least} to {most}");
        reader.report.add(cell.place, message, help);
    }
    value
}
