//! What a bore holds and passes.

use crate::unit::{Area, Distance, Flow, Speed, Volume};

/// The bore of a pipe: OD less two walls. `None` where nothing is left.
#[must_use]
pub fn bore(od: Distance, wall: Distance) -> Option<Distance> {
    let bore = od - wall * 2.0;
    (bore > Distance::ZERO).then_some(bore)
}

/// What a length of it holds.
#[must_use]
pub fn held(bore: Distance, length: Distance) -> Volume {
    Area::circle(bore) * length
}

/// What a foot of it holds.
#[must_use]
pub fn per_foot(bore: Distance) -> Volume {
    held(bore, Distance::feet(1.0))
}

/// The flow that fills the bore at a speed.
#[must_use]
pub fn flow_at(bore: Distance, speed: Speed) -> Flow {
    Area::circle(bore) * speed
}

/// How fast a flow runs in it.
#[must_use]
pub fn speed_of(flow: Flow, bore: Distance) -> Speed {
    flow / Area::circle(bore)
}
