//! What is in no table: a bell or sleeve instead of the barrel, a misreading, a pipe that nobody listed.

use super::answer::share;
use super::belief::Belief;
use crate::fixed::Real;

/// The density, per count, of a log-uniform diameter.
pub(super) fn log_uniform(belief: &Belief<'_>, at: i64) -> Real {
    let settings = belief.settings;
    if at < i64::from(settings.outside_low) || at > i64::from(settings.outside_high) {
        return Real::ZERO;
    }
    share(settings.log_uniform) / Real::integer(at)
}

/// The density, per count, of a bell, coupling or sleeve of this diameter: uniform from `bell_low` to `bell_high` times
/// the OD of a pipe of the tables.
pub(super) fn bell(belief: &Belief<'_>, at: i64) -> Real {
    let settings = belief.settings;
    let over =
        |ratio: u32| (Real::integer(at << 16) / Real::unsigned(u64::from(ratio), 0)).to_fixed(0);
    let (smallest, largest) = (over(settings.bell_high), over(settings.bell_low));
    // Rows lie in the order of their low edges, which no tolerance puts more than a sixteenth below the OD.
    let image = belief.image;
    let first = image.first_row(|row| i64::from(row.low) >= smallest - (smallest >> 4));
    let (mut sum, mut named) = (0u64, Real::ZERO);
    for row in image.rows_from(first) {
        if i64::from(row.low) > largest {
            break;
        }
        let od = i64::from(row.od);
        if od < smallest || od > largest {
            continue;
        }
        // Units of 2^12 counts keep the quotient in 32 bits, where a divider is one instruction.
        let part = row.share / (row.od.unsigned_abs() >> 12).max(1);
        let mass = (u64::from(part) * u64::from(belief.prior(row.family))) >> 8;
        // A bell is on a pipe of the tables, which has what was told of it more or less often than pipe in no table.
        let told = belief.inside().map(|inside| inside.against_unlisted(&row));
        match (belief.size_factor(row.size), told) {
            (None, None) => sum += mass,
            (size, told) => {
                let factor = size.unwrap_or(Real::ONE) * told.unwrap_or(Real::ONE);
                named += Real::unsigned(mass, 0) * factor;
            }
        }
    }
    let width = Real::integer(i64::from(settings.bell_high) - i64::from(settings.bell_low));
    // Q32 times Q32, less the eight places above, in units of 2^12 counts; the width is Q16.
    (Real::unsigned(sum, 0) + named) * Real::scaled(1, 8 - 64 - 12 + 16) / width
}
