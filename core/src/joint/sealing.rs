//! Whether a joint end seals on a pipe.

use super::{Form, Job, Kind, Verdict};
use crate::image::{Grade, Image, MatrixRow, Row, Set};

/// Whether an end of a joint seals on a pipe, what it needs, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sealing {
    /// The verdict. It is about sealing alone; what holds the joint is another matter.
    pub verdict: Verdict,
    /// What the reason is about; always there unless it fits.
    pub kind: Option<Kind>,
    /// What must be ordered, cut or put in, a phrase of the image.
    pub need: u16,
    /// Why, a phrase of the image.
    pub reason: u16,
    /// How far it can be trusted.
    pub grade: Grade,
    /// The row of the matrix that says so.
    pub row: u16,
}

impl Sealing {
    fn of(row: u16, record: &MatrixRow) -> Option<Self> {
        Some(Self {
            verdict: Verdict::from_code(record.verdict_and_kind & 15)?,
            kind: Kind::from_code(record.verdict_and_kind >> 4),
            need: record.need,
            reason: record.reason,
            grade: Grade::from_code(record.grade)?,
            row,
        })
    }

    /// What a purchase sees of it.
    #[must_use]
    pub const fn bought(&self) -> (Verdict, u16) {
        (self.verdict, self.need)
    }
}

/// The verdict on a pipe variant in a size, an end form and a joint end. A checked matrix has one for every pipe that exists;
/// `None` where there is no such pipe.
#[must_use]
pub fn sealing(image: &Image<'_>, variant: u8, size: u8, form: Form, end: u8) -> Option<Sealing> {
    let measure = image.measure(size);
    let (at, row) = (0u16..).zip(image.matrix()).find(|(_, row)| {
        row.forms >> (form as u8) & 1 == 1
            && image.set(row.ends).has(end)
            && image.set(row.variants).has(variant)
            && image.band(row.band).holds(measure)
    })?;
    Sealing::of(at, &row)
}

/// The verdicts on some variants of a row of the tables: the best, and whether they agree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Best {
    /// The best of them.
    pub sealing: Sealing,
    /// Whether the class decides: another variant has another verdict or another need.
    pub by_class: bool,
}

/// The best verdict on those variants: what thin classes do not take is still what this pipe is bought.
#[must_use]
#[inline(never)]
pub fn best(image: &Image<'_>, row: &Row, variants: Set, form: Form, end: u8) -> Option<Best> {
    let mut found: Option<Best> = None;
    for variant in variants.iter() {
        let Some(sealing) = sealing(image, variant, row.size, form, end) else {
            continue;
        };
        found = Some(match found {
            None => Best {
                sealing,
                by_class: false,
            },
            Some(held) => {
                let other = held.sealing.bought() != sealing.bought();
                Best {
                    sealing: if sealing.verdict < held.sealing.verdict {
                        sealing
                    } else {
                        held.sealing
                    },
                    by_class: held.by_class || other,
                }
            }
        });
    }
    found
}

/// Whether a purchase hangs on a joint end.
#[must_use]
pub fn hangs_on(image: &Image<'_>, end: u8, job: Job) -> bool {
    let jobs = image.joint_end(end).jobs;
    let on = |job: Job| jobs >> (job as u8) & 1 == 1;
    match job {
        Job::None => on(Job::Coupling) || on(Job::Saddle),
        job => on(job),
    }
}
