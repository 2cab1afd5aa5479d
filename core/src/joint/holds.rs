//! What holds a joint, and which saddle a pipe takes: what must be listed for its material and OD system.

use super::{Role, Use};
use crate::image::{Image, Listing, Row, Set};

/// The restraints that may go on some variants of a row, each with its index, in the order of the image.
pub fn restraints(
    image: &Image<'_>,
    row: Row,
    variants: Set,
) -> impl Iterator<Item = (u8, Listing)> {
    used(image, row, variants, None, true)
}

/// What holds the joint of an end on some variants of a row, each with its index, in the order of the image. Nothing listed
/// means that nothing holds it.
pub fn holders(
    image: &Image<'_>,
    row: Row,
    variants: Set,
    end: u8,
) -> impl Iterator<Item = (u8, Listing)> {
    used(image, row, variants, Some(end), true)
}

/// What must not be put on the joint of an end on some variants of a row to hold it, or not without asking. What is bored for
/// another pipe is named, too, so that its OD system is not that of the row.
pub fn forbidden(
    image: &Image<'_>,
    row: Row,
    variants: Set,
    end: u8,
) -> impl Iterator<Item = (u8, Listing)> {
    used(image, row, variants, Some(end), false)
}

fn used(
    image: &Image<'_>,
    row: Row,
    variants: Set,
    end: Option<u8>,
    holding: bool,
) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.restraints());
    all.filter(move |(_, one)| {
        use_on(image, one, &row, variants, end).is_some_and(|used| used.holds() == holding)
    })
}

/// What a restraint is for on the joint of an end, on some variants of a row; without an end, whether it holds a joint of them.
/// `None` where it has nothing to do with it. What holds only joints that are asked for by name, and what holds
/// on every pipe alike, is told with their ends.
#[must_use]
#[inline(never)]
pub fn use_on(
    image: &Image<'_>,
    one: &Listing,
    row: &Row,
    variants: Set,
    end: Option<u8>,
) -> Option<Use> {
    let used = one.of()?;
    let other = |end: u8| image.joint_end(end).role_and_grade & 15 == Role::Other as u8;
    let ends = image.set(one.ends);
    let meant = match end {
        Some(end) => ends.has(end),
        None => used.holds() && !one.is_for_all() && !ends.iter().all(other),
    };
    let system = [row.system, Listing::ANY].contains(&one.system) || !used.holds();
    (meant && system && reaches(image, one, row, variants)).then_some(used)
}

/// The saddles that may go on some variants of a row, each with its index, in the order of the image.
pub fn saddles(image: &Image<'_>, row: Row, variants: Set) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.saddles());
    all.filter(move |(_, listing)| {
        [row.system, Listing::ANY].contains(&listing.system)
            && reaches(image, listing, &row, variants)
    })
}

fn reaches(image: &Image<'_>, listing: &Listing, row: &Row, variants: Set) -> bool {
    image.set(listing.variants).meets(variants)
        && image.band(listing.band).holds(image.measure(row.size))
}
