//! In which order bolts are tightened.

/// The bolts of a circle in the order in which they are tightened, counted clockwise from 1: each with the one across from it,
/// then the two a quarter turn on, and so on to those between. Common practice, no source. Every bolt once.
pub fn star(bolts: u8) -> impl Iterator<Item = u8> {
    let pairs = bolts / 2;
    // How far a pair lies from the one that is tightened with it, and so how many pairs are left to start from.
    let quarter = pairs.div_ceil(2);
    // Every second start, so that neighbours do not follow each other; of few there is nothing to leap.
    let leaps = quarter >= 4;
    let start = move |turn: u8| {
        if !leaps {
            turn
        } else if turn < quarter.div_ceil(2) {
            2 * turn
        } else {
            2 * (turn - quarter.div_ceil(2)) + 1
        }
    };
    (0..quarter)
        .map(start)
        .flat_map(move |first| [first, first.saturating_add(quarter)])
        .filter(move |pair| *pair < pairs)
        .flat_map(move |pair| [pair + 1, pair.saturating_add(pairs) + 1])
}

/// How many times round the circle bolts are tightened, the last to the full torque. `large` is a mechanical joint of 30 in and
/// above, which takes five (AWWA C600 as quoted); others take three.
#[must_use]
pub const fn passes(large: bool) -> u8 {
    if large { 5 } else { 3 }
}
