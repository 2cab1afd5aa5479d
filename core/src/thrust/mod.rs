//! What water does to a line where it turns, ends, branches or narrows, and what holds it there.
//!
//! [`plan`] takes a fitting, the pipe it is on and the site, and gives the thrust, the length of pipe that must be one piece on
//! each side once backfill is in, and how many bells that is; [`worst`] does so for a soil that nobody knows. A length holds
//! in backfilled pipe alone: [`Plan::until`] is what the same pipe holds while it lies bare. [`block`] is about concrete.
//!
//! The iron procedure and that for PVC are one set of equations with soil rows of their own. The form of friction, bearing and
//! of a level bend was read (US Army Corps of Engineers ETL 1110-3-446, C-5; *Buried Pipe Design*, 2nd edition, figure 4.30);
//! those of dead ends, reducers, branches and upper bends are from memory, and agree in their ratios with a city's schedule
//! for PVC. Soil rows are table data.

pub mod block;
mod drag;
mod fitting;
mod head;
mod legs;
mod plan;
mod soil;

pub use drag::{Bed, Line, WATER, circle_of, line_of};
pub use fitting::{Fitting, Turn, bend, reducer, tee, thrust, wye};
pub use head::{Governs, Pressures, fall};
pub use legs::one_side;
pub use plan::{
    Asked, Leg, Plan, Refused, Side, Site, Stop, StopKind, bells, plan, plan_between, worst,
    worst_between,
};
pub use soil::{Procedure, Soil, Trench, soil_called};
