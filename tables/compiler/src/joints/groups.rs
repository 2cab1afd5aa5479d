//! Purchase groups: rows of the OD tables for which the same parts are bought.

use std::collections::HashMap;

use super::Joints;
use super::bits::Bits;
use super::checks::applies;
use super::space::{Cell, is_of};
use crate::assemble::system_of;
use crate::model::{NominalSize, Sources};
use springline_core::joint::{Form, Job, Verdict};

/// How many jobs there are.
pub const JOBS: usize = Job::ALL.len();

/// The purchase group of every OD row, for every job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Groups {
    /// Of each family, of each of its OD rows, by [`Job`].
    of: Vec<Vec<[u16; JOBS]>>,
    counts: [u16; JOBS],
}

impl Groups {
    /// The groups of the OD rows of checked sources.
    #[must_use]
    pub fn of(joints: &Joints, sources: &Sources) -> Self {
        let mut numbers: [HashMap<Signature<'_>, u16>; JOBS] = Default::default();
        let mut of = Vec::new();
        for (index, family) in sources.families.iter().enumerate() {
            let groups = (0..family.od.len()).map(|row| {
                let pipe = Pipe::of(joints, sources, index, row);
                let mut groups = [0; JOBS];
                for (job, number) in Job::ALL.iter().zip(&mut numbers) {
                    let signature = Signature::of(joints, sources, &pipe, *job);
                    let next = u16::try_from(number.len()).unwrap_or(u16::MAX);
                    groups[*job as usize] = *number.entry(signature).or_insert(next);
                }
                groups
            });
            of.push(groups.collect());
        }
        let count = |number: HashMap<_, _>| u16::try_from(number.len()).unwrap_or(u16::MAX);
        Self {
            of,
            counts: numbers.map(count),
        }
    }

    /// The group of an OD row for a job: the index of its family and its index in the family's OD rows. Rows of one family,
    /// nominal size and OD have one group, so that a row of the image has one.
    #[must_use]
    pub fn group(&self, family: usize, row: usize, job: Job) -> Option<u16> {
        Some(self.of.get(family)?.get(row)?[job as usize])
    }

    /// The groups of an OD row by [`Job`]; those of the first row of all where there is no such row.
    #[must_use]
    pub fn of_row(&self, family: usize, row: usize) -> [u16; JOBS] {
        let held = self.of.get(family).and_then(|rows| rows.get(row));
        held.copied().unwrap_or_default()
    }

    /// How many groups a job has; they are numbered from 0 in the order of their first rows.
    #[must_use]
    pub const fn count(&self, job: Job) -> u16 {
        self.counts[job as usize]
    }

    /// The rows of a group: indices of families and of their OD rows.
    #[must_use]
    pub fn rows(&self, job: Job, group: u16) -> Vec<(usize, usize)> {
        let families = self.of.iter().enumerate();
        let rows = families.flat_map(|(family, rows)| {
            let held = rows.iter().enumerate();
            held.filter(move |(_, groups)| groups[job as usize] == group)
                .map(move |(row, _)| (family, row))
        });
        rows.collect()
    }
}

/// A row of the OD tables with all that shares its family, nominal size and OD.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pipe {
    pub(super) family: usize,
    size: Option<NominalSize>,
    od: i64,
    system: usize,
    /// The variants that it may be of.
    variants: Bits,
}

impl Pipe {
    /// The pipe of an OD row.
    pub(super) fn of(joints: &Joints, sources: &Sources, family: usize, row: usize) -> Self {
        let index = family;
        let family = &sources.families[index];
        let row = &family.od[row];
        let alike = |other: &&crate::model::OdRow| {
            other.nominal == row.nominal && other.od.value == row.od.value
        };
        let mut variants = Bits::default();
        for alike in family.od.iter().filter(alike) {
            for (at, variant) in joints.variants.iter().enumerate() {
                if variant.family == index && is_of(variant, family, alike) {
                    variants = variants.with(Bits::one(at));
                }
            }
        }
        Self {
            family: index,
            size: NominalSize::parse(&row.nominal),
            od: row.od.value,
            system: system_of(sources, index, row.od.value),
            variants,
        }
    }

    /// The verdict on a variant of it, cut square as in a trench, and what it needs.
    fn cell<'j>(&self, joints: &'j Joints, variant: usize, end: usize) -> Sealing<'j> {
        let row = self.size.and_then(|size| {
            joints.row(Cell {
                variant,
                size,
                form: Form::PlainSquare,
                end,
            })
        });
        row.map_or((Verdict::No, ""), |row| (row.verdict, row.need.as_str()))
    }

    /// The best verdict on any class of it. A saddle that thin classes do not take is still the saddle of this pipe.
    pub(super) fn best<'j>(&self, joints: &'j Joints, end: usize) -> Sealing<'j> {
        let of = |variant| self.cell(joints, variant, end);
        // Of equal verdicts that of the first variant, as a device has it.
        let all = self.variants.iter().map(of);
        all.min_by_key(|(verdict, _)| *verdict)
            .unwrap_or((Verdict::No, ""))
    }

    /// The restraints that hold it, as indices.
    pub(super) fn restraints(&self, joints: &Joints) -> Vec<usize> {
        let holds = |listing: &super::Listing| {
            matches!(listing.used, super::Use::Holds | super::Use::Blocks)
                && listing.system.is_none_or(|system| system == self.system)
                && applies(listing, self.variants)
                && self.size.is_some_and(|size| listing.band.holds(size))
        };
        (0..joints.restraints.len())
            .filter(|index| holds(&joints.restraints[*index]))
            .collect()
    }
}

/// A verdict and what it needs.
pub(super) type Sealing<'j> = (Verdict, &'j str);

/// What the purchase for a job hangs on. Rows whose signatures agree are one purchase.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
struct Signature<'j> {
    /// As bought: by OD system and nominal size, unless the OD alone is asked for.
    size: Option<(usize, NominalSize)>,
    od: i64,
    /// What pipe carries decides whether anything is bought at all.
    carries: Option<u8>,
    /// The family, where it is bought by that.
    family: Option<usize>,
    /// What the device must be listed for.
    material: Option<u8>,
    /// The verdicts on the ends that the job is about; one list, or one for each class where the class is decisive.
    sealing: Vec<Vec<Sealing<'j>>>,
    restraints: Vec<usize>,
}

impl<'j> Signature<'j> {
    fn of(joints: &'j Joints, sources: &Sources, pipe: &Pipe, job: Job) -> Self {
        let family = &sources.families[pipe.family];
        let material = Some(family.material as u8);
        let base = Self {
            size: pipe.size.map(|size| (pipe.system, size)),
            od: pipe.od,
            carries: Some(family.carries as u8),
            ..Self::default()
        };
        let best = |wanted: &dyn Fn(&super::End) -> bool| {
            let ends = (0..joints.ends.len()).filter(|end| wanted(&joints.ends[*end]));
            vec![ends.map(|end| pipe.best(joints, end)).collect()]
        };
        match job {
            Job::None => Self {
                material,
                sealing: best(&|end| end.coupling || end.saddle),
                restraints: pipe.restraints(joints),
                ..base
            },
            Job::Saddle => Self {
                sealing: best(&|end| end.saddle),
                ..base
            },
            Job::Coupling => Self {
                size: None,
                sealing: best(&|end| end.coupling),
                ..base
            },
            Job::Length => Self {
                family: Some(pipe.family),
                ..base
            },
            Job::Restraint => Self {
                material,
                restraints: pipe.restraints(joints),
                ..base
            },
            Job::Tap => {
                let ends = || (0..joints.ends.len()).filter(|end| joints.ends[*end].tap);
                let of = |variant| ends().map(|end| pipe.cell(joints, variant, end)).collect();
                let mut sealing: Vec<Vec<Sealing<'_>>> = pipe.variants.iter().map(of).collect();
                sealing.sort();
                sealing.dedup();
                Self {
                    material,
                    sealing,
                    ..base
                }
            }
        }
    }
}
