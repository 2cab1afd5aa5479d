//! One line of a list, and lists laid over each other.

use springline_compiler::jobs::Place;
use springline_compiler::notes::{Cited, Notes};
use springline_core::image::Grade;

use crate::fits::sheet::keys;

/// A line.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Line {
    /// What it is about: a section of the tables, or `head`, `way`, `pipe`, `joint`, `gasket`, `holder`, `figure`, `measure`, `lift`,
    /// `clock`, `caution`.
    pub(super) section: String,
    /// Key of the part, the restraint, the line of the tables.
    pub(super) key: String,
    /// How many, where it is counted.
    pub(super) count: Option<u32>,
    /// What is said.
    pub(super) text: String,
    /// The joints that it is about, as `J1`.
    pub(super) joints: String,
    /// Where it is pulled from, where it is loaded.
    pub(super) place: Option<Place>,
    pub(super) sources: Vec<String>,
    /// Key of the grade.
    pub(super) grade: String,
    /// The pipes that it is for, indices; all of them where it is for every one.
    pub(super) only: Vec<usize>,
}

impl Line {
    /// A line that is not counted and not loaded.
    pub(super) fn new(section: &str, key: &str, text: impl Into<String>) -> Self {
        Self {
            section: section.to_owned(),
            key: key.to_owned(),
            count: None,
            text: text.into(),
            joints: String::new(),
            place: None,
            sources: vec![String::from("practice")],
            grade: String::from("practice"),
            only: Vec::new(),
        }
    }

    /// So many of it, from there.
    pub(super) fn load(mut self, count: u32, place: Place) -> Self {
        (self.count, self.place) = (Some(count), Some(place));
        self
    }

    /// About these joints.
    pub(super) fn at(mut self, joints: impl Into<String>) -> Self {
        self.joints = joints.into();
        self
    }

    /// From there, as far as that can be trusted.
    pub(super) fn cited(mut self, notes: &Notes, cited: &Cited) -> Self {
        self.sources = keys(notes, Some(cited));
        self.grade =
            Grade::from_code(cited.grade).map_or(String::new(), |grade| grade.key().to_owned());
        self
    }

    fn is_like(&self, other: &Self) -> bool {
        let told = |line: &Self| {
            (
                line.section.clone(),
                line.key.clone(),
                line.count,
                line.text.clone(),
                line.joints.clone(),
                line.place,
            )
        };
        told(self) == told(other)
    }
}

/// Lines that are told joint by joint, and stay together.
fn is_joint(line: &Line) -> bool {
    let about = ["joint", "gasket", "accessory", "holder", "brings"];
    about.contains(&line.section.as_str()) && !line.joints.is_empty()
}

/// Lays the lists of pipes that are not told apart over each other: each line once, with the pipes that it is for. Joints
/// are one list only where all of them agree.
pub(super) fn merged(lists: Vec<Vec<Line>>) -> Vec<Line> {
    let joints = |list: &[Line]| -> Vec<Line> {
        list.iter().filter(|line| is_joint(line)).cloned().collect()
    };
    let joints: Vec<Vec<Line>> = lists.iter().map(|list| joints(list)).collect();
    let first = |at: usize| (0..at).find(|before| joints[*before] == joints[at]);
    let mut all: Vec<Line> = Vec::new();
    for (at, list) in lists.into_iter().enumerate() {
        let same = first(at);
        // Behind the line that was met last, so that the order of work stays one.
        let mut behind = 0;
        for mut line in list {
            let rest = all.iter().skip(behind);
            let held = rest.into_iter().position(|held| {
                let shared = !is_joint(&line) || same.is_some_and(|same| held.only.contains(&same));
                shared && held.is_like(&line)
            });
            if let Some(found) = held {
                behind += found;
                all[behind].only.push(at);
                behind += 1;
                continue;
            }
            let together = |held: &Line| match line.section.as_str() {
                _ if is_joint(&line) => is_joint(held),
                "way" | "part" | "pipe" => held.section == line.section,
                _ => held.section == line.section && held.key == line.key,
            };
            while all.get(behind).is_some_and(together) {
                behind += 1;
            }
            line.only = vec![at];
            all.insert(behind, line);
            behind += 1;
        }
    }
    all
}

/// The same thing of several lines, counted together.
pub(super) struct Pulled<'a> {
    pub(super) line: &'a Line,
    pub(super) count: u32,
    /// The joints that it is for.
    pub(super) joints: Vec<&'a str>,
}

/// What is pulled from one place, each thing once.
pub(super) fn pulled<'a>(lines: impl Iterator<Item = &'a Line>, place: Place) -> Vec<Pulled<'a>> {
    let mut all: Vec<Pulled<'a>> = Vec::new();
    for line in lines.filter(|line| line.place == Some(place)) {
        let count = line.count.unwrap_or(1);
        let same = |held: &&mut Pulled<'_>| {
            held.line.key == line.key && held.line.text == line.text && held.line.only == line.only
        };
        if let Some(held) = all.iter_mut().find(same) {
            held.count += count;
            held.joints.push(&line.joints);
        } else {
            all.push(Pulled {
                line,
                count,
                joints: vec![&line.joints],
            });
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A small generator, so that every run makes the same lists.
    fn next(state: &mut u64) -> u64 {
        *state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        *state >> 33
    }

    /// What is for one pipe, in its order, is the list of that pipe again; what is the same in all is there once.
    #[test]
    fn each_list_comes_back() {
        let sections = ["ask", "part", "joint", "gasket", "work", "work"];
        let mut state = 1;
        for round in 0..400 {
            let lists: Vec<Vec<Line>> = (0..=round % 4)
                .map(|_| {
                    let mut list: Vec<Line> = Vec::new();
                    for section in sections {
                        for at in 0..next(&mut state) % 4 {
                            let text = format!("{section} {}", 4 * at + next(&mut state) % 2);
                            let mut line = Line::new(section, &text, &*text);
                            if ["joint", "gasket"].contains(&section) {
                                line.joints = format!("J{at}");
                            }
                            list.push(line);
                        }
                    }
                    list
                })
                .collect();
            let all = merged(lists.clone());
            for (at, list) in lists.iter().enumerate() {
                let own: Vec<&Line> = all.iter().filter(|line| line.only.contains(&at)).collect();
                assert_eq!(own.len(), list.len());
                assert!(own.iter().zip(list).all(|(one, other)| one.is_like(other)));
            }
            if lists.windows(2).all(|two| two[0] == two[1]) {
                assert_eq!(all.len(), lists[0].len());
            }
        }
    }

    #[test]
    fn the_same_thing_is_pulled_once_with_its_count() {
        let pack = || Line::new("accessory", "mj", "pack, 8 in").load(1, Place::Counter);
        let lines = [
            pack().at("J1"),
            pack().at("J2"),
            pack().load(3, Place::Order),
        ];
        let found = pulled(lines.iter(), Place::Counter);
        assert_eq!(found.len(), 1);
        assert_eq!(
            (found[0].count, found[0].joints.as_slice()),
            (2, &["J1", "J2"][..])
        );
        assert_eq!(pulled(lines.iter(), Place::Order)[0].count, 3);
        assert!(pulled(lines.iter(), Place::Truck).is_empty());
    }
}
