//! A CSV file as cells that know where they stand.

use std::ops::Index;
use std::rc::Rc;

use super::number::Unit;
use crate::report::{Cell, Place, Report, choices};

/// A file.
#[derive(Debug)]
pub(crate) struct Table<'a> {
    pub(crate) file: &'a str,
    pub(crate) unit: Unit,
    pub(crate) rows: Vec<Row<'a>>,
}

impl<'a> Table<'a> {
    /// The row on a line.
    pub(crate) fn on(&self, line: usize) -> Option<&Row<'a>> {
        let at = self.rows.binary_search_by_key(&line, |row| row.line).ok()?;
        self.rows.get(at)
    }
}

/// A row.
#[derive(Debug)]
pub(crate) struct Row<'a> {
    pub(crate) line: usize,
    /// Whether it has as many cells as the header.
    pub(crate) whole: bool,
    columns: Rc<[String]>,
    cells: Vec<Cell<'a>>,
}

impl<'a> Index<&str> for Row<'a> {
    type Output = Cell<'a>;

    /// The cell of a column, by the name in the list the table was read with.
    fn index(&self, column: &str) -> &Cell<'a> {
        let at = self.columns.iter().position(|name| name == column);
        &self.cells[at.expect("a column of this kind of file")]
    }
}

impl Row<'_> {
    /// The texts of some columns, to compare rows by.
    pub(crate) fn key<const N: usize>(&self, columns: [&str; N]) -> [&str; N] {
        columns.map(|column| self[column].text.as_str())
    }
}

/// Reads a file that has these columns, in any order. A column whose name ends in `*` is a length; the file says in which
/// unit. `None`, reported, when the header is wrong: the rows would only echo it.
pub(crate) fn table<'a>(
    report: &mut Report<'_>,
    file: &'a str,
    text: &str,
    columns: &[&str],
) -> Option<Table<'a>> {
    let mut lines = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'));
    let Some((at, line)) = lines.next() else {
        report.add(Place::file(file), "empty file", "add the header line");
        return None;
    };
    let (header, paired) = cells(report, file, at + 1, line);
    if !paired {
        return None;
    }
    let (unit, order) = header_order(report, &header, columns)?;

    let columns: Rc<[String]> = columns.iter().copied().map(str::to_owned).collect();
    let mut rows = Vec::new();
    for (at, line) in lines {
        let (found, paired) = cells(report, file, at + 1, line);
        // Spreadsheets write rows of nothing but commas.
        if found.iter().all(Cell::is_empty) {
            continue;
        }
        let whole = paired && found.len() == header.len();
        if paired && !whole {
            let place = found
                .get(header.len())
                .map_or_else(|| end_of(file, at + 1, line), |extra| extra.place);
            report.add(
                place,
                format!("{} cells under {} columns", found.len(), header.len()),
                "a text with a comma stands between quotes; an empty cell keeps its comma",
            );
        }
        let cell = |index: &usize| {
            found.get(*index).cloned().unwrap_or_else(|| Cell {
                text: String::new(),
                place: end_of(file, at + 1, line),
                lead: 0,
            })
        };
        rows.push(Row {
            line: at + 1,
            whole,
            columns: Rc::clone(&columns),
            cells: order.iter().map(cell).collect(),
        });
    }
    Some(Table { file, unit, rows })
}

/// Behind the last character of a line.
fn end_of<'a>(file: &'a str, line: usize, text: &str) -> Place<'a> {
    Place {
        file,
        line,
        column: text.chars().count() + 1,
        span: 1,
    }
}

/// The unit, and where in the header each of the columns is.
fn header_order(
    report: &mut Report<'_>,
    header: &[Cell<'_>],
    columns: &[&str],
) -> Option<(Unit, Vec<usize>)> {
    let before = report.count();
    let name = |column: &str, unit: Unit| match column.strip_suffix("_*") {
        Some(stem) => format!("{stem}{}", unit.suffix()),
        None => column.to_owned(),
    };
    let has = |cell: &Cell<'_>, unit| {
        columns
            .iter()
            .any(|column| column.ends_with('*') && cell.text == name(column, unit))
    };
    let millimetres = header.iter().position(|cell| has(cell, Unit::Millimetre));
    let inches = header.iter().position(|cell| has(cell, Unit::Inch));
    let unit = match (inches, millimetres) {
        (None, Some(_)) => Unit::Millimetre,
        (Some(a), Some(b)) if b < a => Unit::Millimetre,
        _ => Unit::Inch,
    };
    let other = match unit {
        Unit::Inch => Unit::Millimetre,
        Unit::Millimetre => Unit::Inch,
    };
    let names: Vec<String> = columns.iter().map(|column| name(column, unit)).collect();
    let mut mixed = false;
    for (at, cell) in header.iter().enumerate() {
        if has(cell, other) {
            mixed = true;
            report.add(
                cell.place,
                "inches and millimetres in one file",
                format!("convert the column to {}", unit.suffix()),
            );
        } else if !names.contains(&cell.text) {
            report.add(
                cell.place,
                format!("unknown column \"{}\"", cell.text),
                format!(
                    "remove it or use one of: {}",
                    choices(&cell.text, names.iter().map(String::as_str))
                ),
            );
        } else if header[..at].iter().any(|first| first.text == cell.text) {
            report.add(
                cell.place,
                format!("column \"{}\" is there twice", cell.text),
                "remove one of them",
            );
        }
    }
    let mut order = Vec::with_capacity(names.len());
    for name in &names {
        match header.iter().position(|cell| cell.text == *name) {
            Some(at) => order.push(at),
            None if mixed => {}
            None => {
                let last = header.last()?.place;
                report.add(
                    Place {
                        column: last.column + last.span,
                        span: 1,
                        ..last
                    },
                    format!("missing column \"{name}\""),
                    "add it to the header and to every row",
                );
            }
        }
    }
    (report.count() == before).then_some((unit, order))
}

/// The cells of a line and whether its quotes pair, which is reported where they do not. The cells are a guess then, good
/// enough to know the row by.
fn cells<'a>(
    report: &mut Report<'_>,
    file: &'a str,
    number: usize,
    line: &str,
) -> (Vec<Cell<'a>>, bool) {
    let cell = |text: &str, (start, span): (usize, usize)| Cell {
        text: text.to_owned(),
        place: Place {
            file,
            line: number,
            column: start + 1,
            span,
        },
        lead: usize::from(span > text.chars().count()),
    };
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .buffer_capacity(512)
        .from_reader(line.as_bytes());
    let record = reader.records().next().and_then(Result::ok);
    if let (Some(record), Some(spans)) = (record, raw_spans(line))
        && record.len() == spans.len()
    {
        let found = record.iter().zip(spans);
        return (found.map(|(text, span)| cell(text, span)).collect(), true);
    }
    let quote = line.chars().position(|c| c == '"').unwrap_or(0);
    report.add(
        cell("\"", (quote, 1)).place,
        "quotes do not pair",
        "quote the whole cell and double the quotes inside; one row a line",
    );
    let mut start = 0;
    let guess = line.split(',').map(|text| {
        let span = text.chars().count();
        start += span + 1;
        cell(text, (start - span - 1, span))
    });
    (guess.collect(), false)
}

/// Where the cells of a line begin and how long they are, quotes included, in characters; `None` for an open quote. The
/// CSV reader gives the texts, but not where they stand.
fn raw_spans(line: &str) -> Option<Vec<(usize, usize)>> {
    let (mut spans, mut start, mut end, mut quoted) = (Vec::new(), 0, 0, false);
    for c in line.chars() {
        if c == '"' {
            quoted = !quoted;
        }
        if c == ',' && !quoted {
            spans.push((start, end - start));
            start = end + 1;
        }
        end += 1;
    }
    spans.push((start, end - start));
    (!quoted).then_some(spans)
}
