//! How many cells there are of each kind.

use springline_core::image::Grade;

use super::Joints;
use springline_core::joint::Verdict;

/// Cells of the matrix by verdict and grade.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// By [`Verdict`], then by [`Grade`].
    cells: [[usize; Grade::ALL.len()]; Verdict::ALL.len()],
}

impl Counts {
    /// Counts the cells.
    pub(super) fn of(joints: &Joints) -> Self {
        let mut counts = Self::default();
        for row in joints
            .cover
            .iter()
            .filter_map(|at| joints.rows.get(usize::from(*at)))
        {
            counts.cells[row.verdict as usize][row.grade as usize] += 1;
        }
        counts
    }

    /// Cells of a verdict.
    #[must_use]
    pub fn verdict(&self, verdict: Verdict) -> usize {
        self.cells[verdict as usize].iter().sum()
    }

    /// Cells of a grade.
    #[must_use]
    pub fn grade(&self, grade: Grade) -> usize {
        self.cells.iter().map(|of| of[grade as usize]).sum()
    }

    /// Cells of a verdict and a grade.
    #[must_use]
    pub const fn both(&self, verdict: Verdict, grade: Grade) -> usize {
        self.cells[verdict as usize][grade as usize]
    }

    /// Every cell.
    #[must_use]
    pub fn all(&self) -> usize {
        self.cells.iter().flatten().sum()
    }
}
