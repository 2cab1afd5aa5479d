//! For which jobs pipes buy different parts.

use super::Job;
use crate::image::Image;

/// The jobs for which some rows do not all buy the same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Parted(u8);

impl Parted {
    /// The jobs.
    pub fn jobs(self) -> impl Iterator<Item = Job> {
        let held = move |job: &&Job| self.has(**job);
        Job::ALL.iter().filter(held).copied()
    }

    /// Whether a job is among them.
    #[must_use]
    pub const fn has(self, job: Job) -> bool {
        self.0 >> (job as u8) & 1 == 1
    }
}

/// For which jobs rows of the tables buy different parts. Nothing of one row.
#[must_use]
pub fn parted(image: &Image<'_>, rows: &(impl Iterator<Item = u16> + Clone)) -> Parted {
    let Some(first) = rows.clone().next() else {
        return Parted::default();
    };
    let apart = |job: Job| {
        let bought = image.purchase(job, first);
        rows.clone().any(|row| image.purchase(job, row) != bought)
    };
    let jobs = Job::ALL.iter().filter(|job| apart(**job));
    Parted(jobs.fold(0, |bits, job| bits | 1 << *job as u8))
}
