//! A line of print in words: what was understood of it, what goes together, and what was not understood.

use std::collections::BTreeSet;

use springline_compiler::notes::Notes;
use springline_core::fixed::Real;
use springline_core::image::{Grade, Image, Row, Set};
use springline_core::print::{Contents, Line, Part, PrintedClass, Said, Scale, parts};

use super::lines::wrap;

/// At most so many pipes of one pressure are named.
const MOST: usize = 6;

/// What was understood of a line, in the trade's words, and what was not. Without notes it does not say which edition prints
/// what.
pub(super) fn print(image: &Image<'_>, notes: Option<&Notes>, text: &str) -> String {
    let mut line = Line::default();
    let found: Vec<Part> = parts(image, text.as_bytes()).collect();
    for part in &found {
        line.take(image, part);
    }
    let mut things: Vec<(u8, String)> = Vec::new();
    for part in &found {
        if let Some(thing) = thing(image, text, part)
            && !things.contains(&thing)
        {
            things.push(thing);
        }
    }
    // In the order in which people say them, not in that of the print.
    things.sort_by_key(|(order, _)| *order);
    let words: Vec<String> = things.into_iter().map(|(_, words)| words).collect();
    let mut out = String::new();
    if words.is_empty() {
        wrap(&mut out, "", "Print: nothing of it was understood.");
    } else {
        wrap(&mut out, "", &format!("Print: {}.", words.join("; ")));
    }
    if let Some(same) = pressure(image, notes, &line) {
        wrap(&mut out, "  ", &same);
    }
    if line.disagrees(image) {
        wrap(
            &mut out,
            "  ",
            "No pipe in the tables is all of that: something was misread, or this is another pipe.",
        );
    }
    if let Some(contents) = contents(line.contents()) {
        wrap(&mut out, "  ", contents);
    }
    let rest = rest(text, &found);
    if !rest.is_empty() {
        wrap(
            &mut out,
            "  ",
            &format!("Not understood: {}.", rest.join(", ")),
        );
    }
    out
}

/// A part in words, and its place among the others. Nothing for what says nothing of the pipe.
fn thing(image: &Image<'_>, text: &str, part: &Part) -> Option<(u8, String)> {
    let bits = |set: u64| Set(set).iter();
    let either = |names: Vec<&str>| names.join(" or ");
    let (order, mut words) = match part.said {
        Said::Size(size, or) => {
            let sizes = [Some(size), or];
            let sizes = sizes
                .iter()
                .flatten()
                .map(|size| size_words(image.size(*size)));
            (
                0,
                format!("size {}", sizes.collect::<Vec<_>>().join(" or ")),
            )
        }
        Said::Base(set) => {
            let labels = bits(u64::from(set)).map(|at| image.packed_text(image.system(at).label));
            (1, format!("OD base {}", either(labels.collect())))
        }
        Said::Material(set) => {
            let names = bits(u64::from(set)).map(|at| image.marking(image.code(at)));
            (2, either(names.collect()))
        }
        Said::Class(class) => (3, class_words(class)),
        Said::Pressure(psi) => (4, format!("pressure {psi} psi")),
        Said::Standard(set) => {
            let names = bits(set.0).map(|at| image.marking(image.standard(at)));
            (5, either(names.collect()))
        }
        Said::Contents(_) | Said::Plain => return None,
    };
    if !part.whole {
        // What was read of it, so that a person can look again.
        let read = text.get(part.bytes.clone()).unwrap_or("");
        words = format!("{words} (damaged: {read})");
    }
    Some((order, words))
}

/// `6 in`, `DN150`, `160mm`.
fn size_words(size: &str) -> String {
    if size.starts_with("DN") || size.ends_with("mm") {
        size.to_owned()
    } else {
        format!("{size} in")
    }
}

/// A class in the trade's words.
fn class_words(class: PrintedClass) -> String {
    let letter = || char::from(u8::try_from(class.value()).unwrap_or(b'?'));
    let tenths = class.value();
    let number = match (tenths / 10, tenths % 10) {
        (whole, 0) => whole.to_string(),
        (whole, place) => format!("{whole}.{place}"),
    };
    match class.scale() {
        Some(Scale::Ratio) => format!("DR {number}"),
        Some(Scale::Schedule) => format!("Sch {number}"),
        Some(Scale::Class) if tenths < 100 => format!("class {}", letter()),
        Some(Scale::Class) => format!("class {number}"),
        Some(Scale::Type) => format!("type {}", letter()),
        Some(Scale::Stiffness) => format!("PS {number}"),
        Some(Scale::Weight) => "standard weight".to_owned(),
        Some(Scale::Pressures) | None => String::new(),
    }
}

/// The rows and classes that a line fits best; of one that fits several alike, all.
fn best(image: &Image<'_>, line: &Line) -> Vec<(Row, u8)> {
    let mut found: Vec<(Real, Row, u8)> = Vec::new();
    for row in image.rows_from(0) {
        for class in 0..row.classes {
            found.push((line.chance(image, &row, Some(class)), row, class));
        }
    }
    let most = found
        .iter()
        .map(|(chance, ..)| *chance)
        .max()
        .unwrap_or(Real::ZERO);
    let near = most - most * Real::scaled(1, -8);
    let best = found.into_iter().filter(|(chance, ..)| *chance >= near);
    best.map(|(_, row, class)| (row, class)).collect()
}

/// A pressure that another edition prints otherwise, or that several pipes have.
fn pressure(image: &Image<'_>, notes: Option<&Notes>, line: &Line) -> Option<String> {
    let [psi, 0] = line.pressures else {
        return None;
    };
    if psi == 0 || line.disagrees(image) {
        return None;
    }
    let mut pipes: Vec<(u8, &str, &str)> = Vec::new();
    for (row, class) in best(image, line) {
        let class = image.classes(&row).nth(usize::from(class))?;
        let pipe = (row.family, image.size(row.size), image.label(class.label));
        if class.psi == psi
            && !pipes
                .iter()
                .any(|held| (held.0, held.2) == (pipe.0, pipe.2))
        {
            pipes.push(pipe);
        }
    }
    match pipes.as_slice() {
        [(family, size, label)] => {
            let editions = editions(notes?, *family, size, label);
            let others: Vec<&(u32, String)> = editions
                .iter()
                .filter(|(p, _)| *p != u32::from(psi))
                .collect();
            if others.is_empty() {
                return None;
            }
            let own = editions.iter().find(|(p, _)| *p == u32::from(psi));
            let own = own.map_or(String::new(), |(_, by)| format!(" is printed by {by};"));
            let others: Vec<String> = others
                .iter()
                .map(|(p, by)| format!("{p} by {by}"))
                .collect();
            Some(format!(
                "{psi}{own} the same {label} is printed {}.",
                others.join(", ")
            ))
        }
        [] => None,
        several => {
            let name = |(family, _, label): &(u8, &str, &str)| {
                format!("{} {label}", image.packed_text(image.family(*family).name))
            };
            let named: Vec<String> = several.iter().take(MOST).map(name).collect();
            let more = if several.len() > MOST {
                " and others"
            } else {
                ""
            };
            Some(format!(
                "{psi} psi is printed on {}{more}.",
                named.join(", ")
            ))
        }
    }
}

/// The pressures that a class of a size is printed with, each with the standards that do; what is recalled says so.
fn editions(notes: &Notes, family: u8, nominal: &str, label: &str) -> Vec<(u32, String)> {
    let mut all: BTreeSet<(u32, String)> = BTreeSet::new();
    let of = notes.classes.iter();
    for class in of.filter(|c| c.family == family && c.nominal == nominal && c.class == label) {
        let Some((psi, cited)) = &class.psi else {
            continue;
        };
        let standard = notes
            .od
            .iter()
            .find(|od| od.family == family && od.nominal == nominal && od.series == class.series);
        let name = standard.map_or(class.series.as_str(), |od| od.standard.as_str());
        let recalled = match Grade::from_code(cited.grade) {
            Some(Grade::Memory) => " (from memory)",
            _ => "",
        };
        all.insert((*psi, format!("{name}{recalled}")));
    }
    all.into_iter().collect()
}

/// What it is said to carry, where that matters.
fn contents(said: Contents) -> Option<&'static str> {
    if said.has(Contents::GAS) {
        return Some("It says GAS. Stop, and ask the gas company before anything else.");
    }
    if said.is_not_water() {
        return Some(if said.has(Contents::WIRES) && !said.has(Contents::DRAIN) {
            "It says that wires are in it, not water: do not cut it."
        } else if said.has(Contents::WIRES) {
            "It says that it is not for pressure: a drain, or wires."
        } else {
            "It says that it is a drain or a sewer, not a pressure pipe."
        });
    }
    said.has(Contents::NON_POTABLE)
        .then_some("It says that the water is not to be drunk.")
}

/// The words that nothing was taken from.
fn rest<'t>(text: &'t str, found: &[Part]) -> Vec<&'t str> {
    let mut rest = Vec::new();
    let mut from = 0;
    let ends = found.iter().map(|part| (part.bytes.start, part.bytes.end));
    for (start, end) in ends.chain([(text.len(), text.len())]) {
        // Parts end where a character does, but for bytes that are no text.
        let between = text.get(from..start).unwrap_or("");
        let words = between
            .split_whitespace()
            .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()));
        rest.extend(words.filter(|word| !word.is_empty()));
        from = end;
    }
    rest
}

#[cfg(test)]
mod tests {
    use springline_tables::{IMAGE, NOTES};

    use super::*;

    fn said(text: &str) -> String {
        let image = Image::new(IMAGE).expect("the built-in image");
        let notes = Notes::from_bytes(NOTES).expect("its notes");
        print(&image, Some(&notes), text)
    }

    #[test]
    fn what_was_understood_is_said_in_one_order() {
        assert_eq!(
            said("AWWA C900-16 DR 18 PVC PC 235 6\" CIOD XYZ 12JUN09"),
            "Print: size 6 in; OD base C900/DI size; PVC; DR 18; pressure 235 psi; AWWA\n\
             C900.\n  \
             235 is printed by AWWA C900-16; the same DR 18 is printed 150 by AWWA\n  \
             C900-97 and earlier.\n  \
             Not understood: XYZ, 12JUN09.\n"
        );
        assert_eq!(
            said("12J7"),
            "Print: nothing of it was understood.\n  Not understood: 12J7.\n"
        );
        assert_eq!(said(""), "Print: nothing of it was understood.\n");
    }

    #[test]
    fn a_pressure_of_several_pipes_names_them() {
        let text = said("CL 200 6 IN PVC");
        assert!(text.contains("200 psi is printed on "), "{text}");
        let flat = text.replace("\n  ", " ");
        for pipe in ["IPS PVC SDR 21", "C900 PVC DR 14", "C900 PVC DR 21"] {
            assert!(flat.contains(pipe), "{pipe} in {text}");
        }
    }

    #[test]
    fn damage_is_shown_and_leaves_several_values() {
        let text = said("..IN DR18 PC235 AWWA C9..").replace('\n', " ");
        for words in [
            "AWWA C900",
            " or AWWA C906",
            "(damaged: C9..)",
            "Not understood: IN.",
        ] {
            assert!(text.contains(words), "{words} in {text}");
        }
    }

    #[test]
    fn what_does_not_go_together_and_what_it_carries_are_said() {
        for (line, words) in [
            ("SDR 21 D1785", "No pipe in the tables is all of that"),
            ("4 IN GAS", "It says GAS."),
            ("PVC CONDUIT", "wires are in it"),
            ("CELLULAR CORE", "not for pressure"),
            ("PVC SEWER", "a drain or a sewer"),
            ("RECLAIMED WATER", "not to be drunk"),
        ] {
            assert!(said(line).contains(words), "{line}: {}", said(line));
        }
        assert!(!said("6 IN DR 18 C900 NSF-61").contains("It says"));
    }

    #[test]
    fn every_class_has_words() {
        for (line, words) in [
            ("SDR 32.5", "DR 32.5"),
            ("SCH 40", "Sch 40"),
            ("CL 52", "class 52"),
            ("CLASS B", "class B"),
            ("TYPE L", "type L"),
            ("PS 46", "PS 46"),
            ("STD", "standard weight"),
            ("DN 200", "DN200 or 200mm"),
        ] {
            assert!(said(line).contains(words), "{line}: {}", said(line));
        }
    }
}
