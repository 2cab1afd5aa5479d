//! What can be read of a print line.
//!
//! Lines are made of what the tables have, thing by thing, and not of text, so that what is measured is not how they are read.
//! The same lines as text are held against the reader below.

use springline_core::image::{Class, Image, Row, Set};
use springline_core::print::{Line, PrintedClass, Scale};

use super::bench::Bench;
use super::nature::Nature;
use super::pipe::Pipe;
use super::random::Stream;

/// Pipes with a line that can be read.
const LEGIBLE: f64 = 0.5;
/// Each of its things is read with a chance between these.
const READ: (f64, f64) = (0.20, 0.95);
/// A thing that is read as another of the tables' values.
const MISREAD: f64 = 0.01;
/// Lines that belong to something else.
const FOREIGN: f64 = 0.003;

/// What is named of each of six things, an index or a value of the image.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Named {
    /// A standard.
    pub standard: Option<u8>,
    /// A material code.
    pub material: Option<u8>,
    /// An OD system.
    pub base: Option<u8>,
    /// A nominal size.
    pub size: Option<u8>,
    /// A class.
    pub class: Option<PrintedClass>,
    /// A pressure, psi.
    pub pressure: Option<u16>,
}

/// The classes and pressures that a line may name, each once.
#[derive(Clone, Debug)]
pub struct Values {
    /// Classes.
    pub classes: Vec<PrintedClass>,
    /// Pressures, psi.
    pub pressures: Vec<u16>,
}

impl Values {
    /// Of an image.
    #[must_use]
    pub fn of(image: &Image<'_>) -> Self {
        let (spans, mut classes): (Vec<_>, Vec<_>) =
            image.printed_classes().partition(|class| !has_word(*class));
        classes.sort_by_key(|class| class.0);
        classes.dedup();
        let steps = spans.iter().filter_map(|class| class.span());
        let mut pressures: Vec<u16> = image.pressures().collect();
        pressures.extend(steps.flat_map(|(low, high)| (low..=high).step_by(50)));
        pressures.sort_unstable();
        pressures.dedup();
        Self { classes, pressures }
    }
}

/// What of a thing is the pipe's own.
enum Own<T> {
    /// These. One of them is printed, all alike; where there is none, nothing is.
    These(Vec<T>),
    /// The tables do not know: anything.
    Unknown,
}

/// How a line is read.
struct Reader<'a> {
    stream: &'a mut Stream,
    chance: f64,
    misread: f64,
    foreign: bool,
}

impl Reader<'_> {
    /// A thing of the line, of which the tables have all these.
    fn thing<T: Copy + PartialEq>(&mut self, all: &[T], own: &Own<T>) -> Option<T> {
        if !self.stream.happens(self.chance) {
            return None;
        }
        let any = |stream: &mut Stream, of: &[T]| {
            (!of.is_empty()).then(|| of[stream.pick(of.iter().map(|_| 1.0))])
        };
        let misread = self.stream.happens(self.misread);
        match own {
            Own::These(own) if !self.foreign => {
                let printed = any(self.stream, own);
                if !misread {
                    return printed;
                }
                let others = all.iter().copied().filter(|one| !own.contains(one));
                any(self.stream, &others.collect::<Vec<_>>())
            }
            _ => any(self.stream, all),
        }
    }
}

/// What can be read of a pipe's line; `None` where it has none that can be read.
#[must_use]
pub fn named(
    bench: &Bench,
    pipe: &Pipe,
    class: Option<usize>,
    nature: &Nature,
    stream: &mut Stream,
) -> Option<Named> {
    let (legible, chance) = (stream.happens(LEGIBLE), stream.between(READ.0, READ.1));
    let foreign = stream.happens(FOREIGN * nature.wrong_facts);
    if !legible {
        return None;
    }
    let image = &bench.image;
    let row = image.row(pipe.row as u16);
    let class = class.and_then(|class| image.classes(&row).nth(class));
    let mut reader = Reader {
        stream,
        chance,
        misread: MISREAD * nature.wrong_facts,
        foreign,
    };
    let indices = |count: usize| (0..count as u8).collect::<Vec<u8>>();
    let standards = indices(image.standards().len());
    let codes = indices(image.codes().len());
    let marked = |all: &[u8], set: &dyn Fn(u8) -> Set| {
        let own = all.iter().copied();
        Own::These(
            own.filter(|i| is_marked(image, &row, class, set(*i)))
                .collect(),
        )
    };
    Some(Named {
        standard: reader.thing(
            &standards,
            &marked(&standards, &|i| image.marked(image.standard(i))),
        ),
        base: reader.thing(
            &indices(image.system_count()),
            &Own::These(vec![row.system]),
        ),
        size: reader.thing(&indices(image.size_count()), &Own::These(vec![row.size])),
        class: reader.thing(&bench.printed.classes, &own_class(image, class)),
        pressure: reader.thing(&bench.printed.pressures, &own_pressures(image, class)),
        material: reader.thing(&codes, &marked(&codes, &|i| image.marked(image.code(i)))),
    })
}

/// Whether a line can name a class: one that is a span of pressures is named by a pressure.
fn has_word(class: PrintedClass) -> bool {
    class.scale().is_some_and(|scale| scale != Scale::Pressures)
}

fn is_marked(image: &Image<'_>, row: &Row, class: Option<Class>, set: Set) -> bool {
    match class {
        Some(class) => set.has(class.variant),
        None => set.meets(image.variants_of(row)),
    }
}

fn own_class(image: &Image<'_>, class: Option<Class>) -> Own<PrintedClass> {
    class.map_or(Own::Unknown, |class| {
        let printed = image.printed(class.label);
        Own::These(Some(printed).filter(|c| has_word(*c)).into_iter().collect())
    })
}

fn own_pressures(image: &Image<'_>, class: Option<Class>) -> Own<u16> {
    class.map_or(Own::Unknown, |class| {
        Own::These(match image.printed(class.label).span() {
            Some((low, high)) => (low..=high).step_by(50).collect(),
            None => Some(class.psi).filter(|psi| *psi > 0).into_iter().collect(),
        })
    })
}

/// The line that names them.
#[must_use]
pub fn line(named: &Named) -> Line {
    let bit = |index: Option<u8>| index.map_or(0, |index| 1u64 << index);
    Line {
        standards: [bit(named.standard), 0],
        materials: [bit(named.material) as u32, 0],
        bases: [bit(named.base) as u16, 0],
        sizes: [named.size.map_or(0, |size| u16::from(size) + 1), 0],
        classes: [named.class.map_or(0, |class| class.0), 0],
        pressures: [named.pressure.unwrap_or(0), 0],
        contents: 0,
    }
}

#[cfg(test)]
mod tests;
