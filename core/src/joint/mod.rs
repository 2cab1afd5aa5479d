//! Which joint ends seal on a pipe, what holds them, and what is one purchase.
//!
//! Everything is looked up in the image. A verdict ([`sealing`]) is about sealing alone; what holds the joint is listed for
//! its material and OD system ([`restraints`]); rows that buy the same for a job share a purchase
//! ([`Image::purchase`](crate::image::Image::purchase)), whose other jobs may still differ ([`parted`]).

mod cautions;
mod fits;
mod holds;
mod parted;
mod sealing;
pub mod tie;
mod words;

pub use cautions::{Doing, cautions, is_due};
pub use fits::{Decides, Fit, Pipe, fit, fits, is_stop, most_outlet, refusal, stock};
pub use holds::{forbidden, holders, restraints, saddles, use_on};
pub use parted::{Parted, parted};
pub use sealing::{Best, Sealing, best, hangs_on, sealing};
pub use words::{Act, Form, Job, Kind, Owner, Role, Run, Stock, Task, Thread, Use, Verdict};
