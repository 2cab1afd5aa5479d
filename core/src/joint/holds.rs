//! What holds a joint, and which saddle a pipe takes: what must be listed for its material and OD system.

use super::Role;
use crate::image::{Image, Listing, Row, Set};

/// The restraints that may go on some variants of a row, each with its index, in the order of the image.
pub fn restraints(
    image: &Image<'_>,
    row: Row,
    variants: Set,
) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.restraints());
    // What holds only joints that are asked for by name, and what holds on every pipe alike, is told with them ([`holders`]).
    let named = |one: &Listing| {
        let other = |end: u8| image.joint_end(end).role_and_grade & 15 == Role::Other as u8;
        one.is_for_all() || image.set(one.ends).iter().all(other)
    };
    all.filter(move |(_, one)| one.holds() && !named(one) && serves(image, one, &row, variants))
}

/// What holds the joint of an end on some variants of a row, each with its index, in the order of the image. Nothing listed
/// means that nothing holds it.
pub fn holders(
    image: &Image<'_>,
    row: Row,
    variants: Set,
    end: u8,
) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.restraints());
    all.filter(move |(_, one)| {
        one.holds() && image.set(one.ends).has(end) && serves(image, one, &row, variants)
    })
}

/// What must not be put on the joint of an end on some variants of a row to hold it, or not without asking. What is bored for
/// another pipe is named, too, so that its OD system is not that of the row.
pub fn forbidden(
    image: &Image<'_>,
    row: Row,
    variants: Set,
    end: u8,
) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.restraints());
    all.filter(move |(_, one)| {
        !one.holds()
            && image.set(one.ends).has(end)
            && image.set(one.variants).meets(variants)
            && image.band(one.band).holds(image.measure(row.size))
    })
}

/// The saddles that may go on some variants of a row, each with its index, in the order of the image.
pub fn saddles(image: &Image<'_>, row: Row, variants: Set) -> impl Iterator<Item = (u8, Listing)> {
    let all = (0u8..).zip(image.saddles());
    all.filter(move |(_, listing)| serves(image, listing, &row, variants))
}

fn serves(image: &Image<'_>, listing: &Listing, row: &Row, variants: Set) -> bool {
    [row.system, Listing::ANY].contains(&listing.system)
        && image.set(listing.variants).meets(variants)
        && image.band(listing.band).holds(image.measure(row.size))
}
