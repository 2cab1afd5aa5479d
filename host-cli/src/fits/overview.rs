//! All that goes on a pipe, on one page: what each joint needs and what holds it once, then parts by what is to be done.

use springline_core::image::Grade;
use springline_core::joint::{Act, Role, Stock, Task, Verdict};

use super::sheet::{PartRow, Sheet};
use crate::read::lines::wrap;

/// So many parts are named that go on by an adapter; how many more there are is said.
const NAMED: usize = 2;

/// So many parts are named that are for what another pipe is.
const FEW: usize = 4;

/// The need of what is asked for by range, and wants nothing else.
const RANGE: &str = "a range that holds the measured OD";

/// What people are about to do, in front of its parts.
const fn heading(task: Task) -> &'static str {
    match task {
        Task::Repair => "REPAIR   ",
        Task::Outlet => "OUTLET   ",
        Task::Equipment => "CONNECT  ",
        Task::Turn => "TURN     ",
        Task::Road => "ROAD     ",
        Task::Join => "JOIN     ",
    }
}

/// The joints of the pipe, each once.
pub(super) fn joints(sheet: &Sheet<'_>, out: &mut String) {
    let mut seen: Vec<u8> = Vec::new();
    // Ends of which the same is said stand in one line.
    let mut said: Vec<(String, Vec<String>)> = Vec::new();
    let mut recalled = false;
    let shown =
        |row: &&PartRow| row.verdict < Verdict::Adapter && !row.far && row.role != Role::Other;
    for row in sheet.rows.iter().filter(shown) {
        if seen.contains(&row.end) {
            continue;
        }
        seen.push(row.end);
        recalled |= row.grade == Grade::Memory;
        let mark = if row.grade == Grade::Memory { "*" } else { "" };
        let name = format!("{}{mark}", row.end_name);
        let text = joint(row);
        match said.iter_mut().find(|(held, _)| *held == text) {
            Some((_, names)) => names.push(name),
            None => said.push((text, vec![name])),
        }
    }
    out.push_str("JOINTS on this pipe (in full: --job, --part KEY)\n");
    for (text, names) in said {
        wrap(out, "- ", &format!("{}{text}", names.join(", ")));
    }
    if recalled {
        out.push_str("  * from memory: no standard was seen; check it.\n");
    }
}

/// What is said of a joint behind its name.
fn joint(row: &PartRow) -> String {
    let mut text = String::new();
    let needs = row.needs.join("; ");
    match row.verdict {
        Verdict::FitsWith if needs == RANGE => text.push_str(": by range"),
        Verdict::FitsWith => text.extend([": with ", &needs]),
        Verdict::Adapter => text.extend([": needs ", &needs]),
        _ => {}
    }
    if row.by_class {
        text.push_str(" (not every class)");
    }
    text.push('.');
    if row.wants_holding() {
        let names: Vec<&str> = row.holds.iter().map(|held| held.name.as_str()).collect();
        if !names.is_empty() {
            text.extend([" HELD BY ", &names.join("; or "), "."]);
        } else if row.act != Act::Bolt {
            text.push_str(" NOTHING HOLDS IT.");
        }
    }
    text
}

/// What is to be asked first: parts that seal, by how they are got; then those by an adapter; then those to ask about.
pub(super) fn group(sheet: &Sheet<'_>, task: Task, out: &mut String) {
    // A part is named once, where it is asked for first; the job in full names all of its parts.
    // What goes on by its far end is for another pipe, which tie-in is told: a few are named, many are not.
    let far = |row: &PartRow| task == Task::Join && row.far && row.verdict <= Verdict::FitsWith;
    let many = sheet.rows.iter().filter(|row| far(row)).count() > FEW;
    let beyond = |row: &PartRow| many && far(row);
    let first = |row: &&PartRow| row.tasks.first() == Some(&task) && !beyond(row);
    let rows = || sheet.rows.iter().filter(first);
    let told_before = |row: &&PartRow| {
        row.tasks.contains(&task) && !first(row) && !beyond(row) && row.verdict <= Verdict::FitsWith
    };
    let beyond = sheet
        .rows
        .iter()
        .filter(|row| row.tasks.contains(&task) && beyond(row))
        .count();
    let above = sheet.rows.iter().filter(told_before).count();
    let mut said: Vec<String> = Vec::new();
    let names = |rows: &[&PartRow]| {
        let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
        names.join(", ")
    };
    for (stock, words) in [
        (Stock::Counter, "Counter"),
        (Stock::Order, "By order"),
        (Stock::Shop, "Shop-made"),
        (Stock::Rare, "Rare, ask"),
    ] {
        let seals = |row: &&PartRow| row.verdict <= Verdict::FitsWith && row.stock == stock;
        let some: Vec<&PartRow> = rows().filter(seals).collect();
        if !some.is_empty() {
            said.push(format!("{words}: {}.", names(&some)));
        }
    }
    let mut by: Vec<(String, Vec<&PartRow>)> = Vec::new();
    for row in rows().filter(|row| row.verdict == Verdict::Adapter) {
        let needs = row.needs.join("; ");
        match by.iter_mut().find(|(held, _)| *held == needs) {
            Some((_, held)) => held.push(row),
            None => by.push((needs, vec![row])),
        }
    }
    let mut folded = above;
    // What goes on by an adapter is told where equipment is connected.
    if task != Task::Equipment {
        folded += by.drain(..).map(|(_, rows)| rows.len()).sum::<usize>();
    }
    // The adapter that most go on by is told, the others with the part.
    by.sort_by_key(|(_, rows)| std::cmp::Reverse(rows.len()));
    let mut others: Vec<&PartRow> = Vec::new();
    for (at, (needs, rows)) in by.into_iter().enumerate() {
        if at > 0 {
            others.extend(rows);
            continue;
        }
        let (shown, rest) = rows.split_at(NAMED.min(rows.len()));
        folded += rest.len();
        let more = if rest.is_empty() {
            String::new()
        } else {
            format!(" and {} more", rest.len())
        };
        said.push(format!("By {needs}: {}{more}.", names(shown)));
    }
    if !others.is_empty() {
        folded += others.len();
        said.push(format!("By other adapters: {}.", names(&others)));
    }
    let mut asks: Vec<(&str, Vec<&PartRow>)> = Vec::new();
    for row in rows().filter(|row| row.verdict == Verdict::Refer) {
        match asks.iter_mut().find(|(reason, _)| *reason == row.reason) {
            Some((_, held)) => held.push(row),
            None => asks.push((&row.reason, vec![row])),
        }
    }
    // Of the owner it is said above, once.
    said.extend(asks.into_iter().map(|(why, rows)| match rows[..] {
        [row, ..] if row.owners => format!("ASK OWNER: {}.", names(&rows)),
        [row, ..] if row.act == Act::Crew => format!("ASK a trained crew: {}.", names(&rows)),
        _ => format!("ASK: {} ({why}).", names(&rows)),
    }));
    if beyond > 0 {
        said.push(format!(
            "{beyond} more by what the other pipe is: springline tie-in."
        ));
        folded += beyond;
    }
    if above > 0 {
        said.push(format!("{above} more named above."));
    }
    if said.is_empty() {
        return;
    }
    if folded > 0 {
        said.push(format!("All: --job {}.", task.key()));
    }
    wrap(out, heading(task), &said.join(" "));
}

/// Tools of the joints that are shown, each once.
pub(super) fn tools(sheet: &Sheet<'_>) -> String {
    let mut all: Vec<&str> = Vec::new();
    let rows = sheet.asked();
    for tool in rows
        .filter(|row| row.verdict <= Verdict::FitsWith && row.role != Role::Connection)
        .flat_map(|row| row.tools.split(", "))
    {
        if !tool.is_empty() && !all.contains(&tool) {
            all.push(tool);
        }
    }
    all.join(", ")
}
