//! A second opinion on lines of print, in `f64` and from the sources.
//!
//! It reads no image and shares no code with the core: which pipe is marked with what comes from the rows of the sources,
//! classes are compared as texts.

mod lines;

use std::collections::BTreeSet;

use springline_compiler::joints::Variant;
use springline_compiler::model::{Carries, ClassRow, NominalSize, Sources};
use springline_compiler::print::Marking;

pub use lines::{Case, cases};

/// What a line names, thing by thing, each a list of what it may be; an empty list for nothing.
#[derive(Clone, Debug, Default)]
pub struct Named {
    /// Names of standards.
    pub standards: Vec<Vec<String>>,
    /// Names of material codes.
    pub codes: Vec<Vec<String>>,
    /// Keys of OD systems.
    pub bases: Vec<Vec<String>>,
    /// Nominal sizes.
    pub sizes: Vec<Vec<String>>,
    /// Classes, as [`class`] has them.
    pub classes: Vec<String>,
    /// Pressures, psi.
    pub pressures: Vec<u32>,
    /// What it may carry.
    pub contents: Vec<Carries>,
}

/// A pipe of the sources: a family, a size, an OD system and, where it has any, a class.
#[derive(Clone, Copy, Debug)]
pub struct Pipe<'a> {
    /// Index of the family.
    pub family: usize,
    /// The nominal size.
    pub nominal: &'a str,
    /// The key of its OD system.
    pub system: &'a str,
    /// The class.
    pub class: Option<&'a ClassRow>,
}

/// The name of a class as it is printed, whatever the word for a dimension ratio; `None` for a name that is not printed or
/// is a pressure.
#[must_use]
pub fn class(label: &str) -> Option<String> {
    let (word, rest) = label.split_once(' ').unwrap_or((label, ""));
    let number: Option<f64> = rest.parse().ok();
    match (word, number) {
        ("DR" | "SDR", Some(ratio)) => Some(format!("DR {ratio}")),
        ("Class", Some(class)) if class >= 100.0 => None,
        ("Class", None) if rest.len() > 1 => None,
        ("Sch" | "Class" | "Type" | "PS", _) => Some(label.to_owned()),
        ("STD", _) => Some("STD".to_owned()),
        _ => None,
    }
}

/// The pressures that a class may be printed with, where its name is a span of them.
fn span(label: &str) -> Option<Vec<u32>> {
    let (low, high) = label.strip_prefix("Class ")?.split_once(['-', '/'])?;
    let (low, high): (u32, u32) = (low.parse().ok()?, high.parse().ok()?);
    Some((low..=high).step_by(50).collect())
}

/// The opinion.
#[derive(Debug)]
pub struct Opinion<'a> {
    sources: &'a Sources,
    classes: usize,
    pressures: usize,
    sizes: usize,
}

impl<'a> Opinion<'a> {
    /// An opinion from sources.
    #[must_use]
    pub fn of(sources: &'a Sources) -> Self {
        let every = || sources.families.iter().flat_map(|family| &family.classes);
        let classes: BTreeSet<String> = every().filter_map(|row| class(&row.class)).collect();
        let mut pressures: BTreeSet<u32> = every()
            .filter_map(|row| Some(row.psi.as_ref()?.value))
            .collect();
        pressures.extend(every().filter_map(|row| span(&row.class)).flatten());
        let rows = sources.families.iter().flat_map(|family| &family.od);
        let sizes: BTreeSet<&str> = rows.map(|row| row.nominal.as_str()).collect();
        Self {
            sources,
            classes: classes.len(),
            pressures: pressures.len(),
            sizes: sizes.len(),
        }
    }

    /// Whether a pipe is marked so.
    fn marked(&self, marking: &Marking, pipe: Pipe<'_>) -> bool {
        let size = NominalSize::parse(pipe.nominal).expect("a size");
        let is = |variant: &Variant| match pipe.class {
            Some(class) => variant.family == pipe.family && variant.covers(&class.class, size),
            None => variant.family == pipe.family,
        };
        let variants = self.sources.joints.variants.iter().enumerate();
        variants
            .filter(|(_, variant)| is(variant))
            .any(|(at, _)| marking.variants.has(at))
    }

    /// The chance of a line on a pipe, up to the factor that the core leaves out too.
    ///
    /// # Panics
    ///
    /// When a name is none of the sources.
    #[must_use]
    pub fn chance(&self, named: &Named, pipe: Pipe<'_>) -> f64 {
        let constants = self.sources.settings.print;
        let (wrong, print) = (constants.misread, &self.sources.print);
        let carries = self.sources.families[pipe.family].carries;
        let of_marking = |all: &[Marking], names: &[Vec<String>]| {
            let own = |name: &String| {
                let marking = all.iter().find(|held| held.name == *name).expect("a name");
                self.marked(marking, pipe)
            };
            of_thing(names, all.len(), wrong, |name| Some(own(name)))
        };
        let printed = pipe.class.map(|row| class(&row.class));
        let own_class = |name: &String| printed.as_ref().map(|own| own.as_ref() == Some(name));
        let own_pressure = |psi: &u32| {
            pipe.class.map(|row| match span(&row.class) {
                Some(all) => all.contains(psi),
                None => row.psi.as_ref().is_some_and(|held| held.value == *psi),
            })
        };
        let one = |all: &[String]| {
            all.iter()
                .map(|name| vec![name.clone()])
                .collect::<Vec<_>>()
        };
        let numbers: Vec<Vec<u32>> = named.pressures.iter().map(|psi| vec![*psi]).collect();
        let contents: Vec<Vec<Carries>> = match named.contents.as_slice() {
            [] => Vec::new(),
            all => vec![all.to_vec()],
        };
        let things = [
            of_marking(&print.standards, &named.standards),
            of_marking(&print.codes, &named.codes),
            of_thing(&named.bases, self.sources.systems.len(), wrong, |key| {
                Some(key == pipe.system)
            }),
            of_thing(&named.sizes, self.sizes, wrong, |size| {
                Some(size == pipe.nominal)
            }),
            of_thing(&one(&named.classes), self.classes, wrong, own_class),
            of_thing(&numbers, self.pressures, wrong, own_pressure),
            of_thing(&contents, 4, wrong, |what| Some(*what == carries)),
        ];
        let own: f64 = things.iter().map(|(own, _)| own).product();
        let any: f64 = things.iter().map(|(_, any)| any).product();
        (1.0 - constants.foreign) * own + constants.foreign * any
    }
}

/// The chance of what is named of a thing on a pipe, and on anything.
fn of_thing<T>(
    named: &[Vec<T>],
    count: usize,
    wrong: f64,
    own: impl Fn(&T) -> Option<bool>,
) -> (f64, f64) {
    let (mut chance, mut any, mut read) = (1.0, 1.0, false);
    for alternatives in named {
        let uniform = alternatives.len() as f64 / count as f64;
        any *= uniform;
        let hits: Option<Vec<bool>> = alternatives.iter().map(&own).collect();
        let Some(hits) = hits else {
            chance *= uniform;
            continue;
        };
        let right = hits.iter().any(|hit| *hit);
        let others = hits.iter().filter(|hit| !**hit).count() as f64;
        if right && read {
            continue;
        }
        read |= right;
        let spread = wrong * others / (count - 1) as f64;
        chance *= if right { 1.0 - wrong + spread } else { spread };
    }
    (chance, any)
}
