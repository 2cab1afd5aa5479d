//! Fixed-point functions of the identification: the normal law without a floating-point unit.
//!
//! A Cortex-M0+ has neither floats nor a divider, and a soft float costs some twenty times an integer operation, so the
//! engine works on integers from end to end. The functions here are the only approximations it makes; their errors are
//! stated at each and held by tests against `libm`.

mod normal;
mod real;
mod tables;

pub(crate) use normal::{
    CHANCE_BITS, DENSITY_BITS, InverseSigma, density, exp_half, exp2_sixteenths, interval,
    log2_share,
};
pub use real::Real;
