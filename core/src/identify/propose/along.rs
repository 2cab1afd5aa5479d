//! The reading again a foot along as a check: whether the first was of the barrel at all.

use super::standing::{Gathered, Standing, Worth};
use super::{Check, Proposal};
use crate::identify::answer::{Answer, Weight};
use crate::image::Settings;
use crate::reading::{Query, Reading};

/// How much less likely two readings are that agree and are both of no barrel: about one in so many.
const AGREE: u32 = 50;

/// Whether the readings are a caliper's, and all of one place.
pub(super) fn can_be_made(query: &Query) -> bool {
    query
        .readings()
        .all(|reading| matches!(reading, Reading::Diameter { .. } | Reading::Wall { .. }))
}

/// Of the mass that is of no listed pipe, the part that a reading elsewhere mends: a bell or a slip, and not a pipe that nobody
/// listed. Q30.
fn mends(settings: &Settings, answer: &Answer) -> u32 {
    let slips = u64::from(settings.bell_share) + u64::from(settings.misread_share);
    let all = slips + u64::from(settings.unlisted_share);
    let part = (u64::from(answer.outside.q30()) * slips).checked_div(all);
    u32::try_from(part.unwrap_or(0)).unwrap_or(0)
}

/// The proposal where the reading is of no pipe in the tables.
pub(super) fn first_of_all(settings: &Settings, answer: &Answer) -> Proposal {
    Proposal {
        check: Check::Along,
        settles: Weight::from_q30(mends(settings, answer)),
        less_doubt: 0,
        effort: settings.along_effort,
    }
}

/// What it is worth where rows are left.
pub(super) fn worth(settings: &Settings, standing: &Standing, answer: &Answer) -> Worth {
    let mut gathered = Gathered::default();
    // It agrees: what was of no barrel all but goes; pipe that nobody listed stays.
    let slips = mends(settings, answer);
    let differs = slips - slips / AGREE;
    let mut agrees = standing.now(1 << 30);
    agrees.others = agrees.others.saturating_sub(differs);
    gathered.take(standing, &agrees);
    // It does not: as doubtful as it is, for some other pipe.
    gathered.take(standing, &standing.now(u64::from(differs)));
    standing.worth(gathered)
}
