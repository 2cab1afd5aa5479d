//! Words that several verbs take.

use clap::ValueEnum;
use springline_core::joint::{Job, Owner};

use crate::parse::Unit;

/// `yes` or `no`.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum YesNo {
    Yes,
    No,
}

/// Kinds of site.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SiteArg {
    Irrigation,
    Municipal,
    Unknown,
}

/// What may be bought.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum JobArg {
    Saddle,
    Coupling,
    Length,
    Restraint,
    Tap,
}

impl From<JobArg> for Job {
    fn from(job: JobArg) -> Self {
        match job {
            JobArg::Saddle => Self::Saddle,
            JobArg::Coupling => Self::Coupling,
            JobArg::Length => Self::Length,
            JobArg::Restraint => Self::Restraint,
            JobArg::Tap => Self::Tap,
        }
    }
}

/// Whose a pipe may be.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum OwnerArg {
    Ours,
    Purveyor,
    Unknown,
}

/// Units of length.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsArg {
    In,
    Mm,
}

impl From<UnitsArg> for Unit {
    fn from(units: UnitsArg) -> Self {
        match units {
            UnitsArg::In => Self::Inch,
            UnitsArg::Mm => Self::Millimetre,
        }
    }
}

impl From<OwnerArg> for Owner {
    fn from(owner: OwnerArg) -> Self {
        match owner {
            OwnerArg::Ours => Self::Ours,
            OwnerArg::Purveyor => Self::Purveyor,
            OwnerArg::Unknown => Self::Unknown,
        }
    }
}
