//! Pressures, forces, lengths along a line and whatever else a trench is reckoned in, each a type of its own.
//!
//! A pound is a force and a psi is not, and nothing here lets one stand for the other: what may be multiplied or divided
//! gives the type that it is, and all else does not compile. Inside, every quantity is an `f64` in inches, pounds of force
//! and seconds, so that no product needs a factor; a unit is named where a number goes in and where it comes out, in either
//! system. Real functions are those of `libm` on every machine, so that a desk and a microcontroller agree.
//!
//! Factors are exact by definition: the inch is 25.4 mm, the avoirdupois pound .45359237 kg, standard gravity 9.80665 m/s²
//! (NIST Special Publication 811, appendix B), the US gallon 231 in³ (NIST Handbook 44, appendix C).
//!
//! ```
//! use springline_core::unit::{Area, Distance, Pressure};
//!
//! let push = Pressure::psi(100.0) * Area::circle(Distance::inches(13.20));
//! assert_eq!(push.in_lbf() as i32, 13_684);
//! assert_eq!(push.in_kn() as i32, 60);
//! ```
//!
//! ```compile_fail
//! use springline_core::unit::{Distance, Pressure};
//!
//! let _ = Pressure::psi(100.0) + Distance::feet(3.0);
//! ```
//!
//! ```compile_fail
//! use springline_core::unit::{Area, Force, Pressure};
//!
//! let _: Pressure = Pressure::psi(100.0) * Area::square_feet(1.0);
//! ```

mod angle;
mod product;
mod quantity;
mod temperature;

#[cfg(test)]
mod tests;

pub use angle::Angle;
pub use quantity::{
    Acceleration, Area, Distance, Duration, Flow, Force, LineLoad, Pressure, Speed, Torque,
    UnitWeight, Volume,
};
pub use temperature::{Temperature, Warming};
