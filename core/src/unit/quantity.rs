//! The quantities, and the units that they go in and come out by.

use core::cmp::Ordering;
use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use crate::Length;

/// Millimetres of an inch.
const MM: f64 = 1.0 / 25.4;
/// A newton, in pounds of force.
const NEWTON: f64 = 1.0 / (0.453_592_37 * 9.806_65);
/// A US gallon, in cubic inches.
const GALLON: f64 = 231.0;
/// A litre, in cubic inches.
const LITRE: f64 = 1.0e6 * MM * MM * MM;

/// A quantity: its type, what adds up, and a pair of functions for each unit.
macro_rules! quantity {
    ($(#[$about:meta])* $name:ident { $($(#[$unit:meta])* $into:ident $out:ident = $factor:expr;)+ }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(pub(super) f64);

        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(0.0);

            $(
                $(#[$unit])*
                #[must_use]
                pub const fn $into(value: f64) -> Self {
                    Self(value * $factor)
                }

                $(#[$unit])*
                #[must_use]
                pub const fn $out(self) -> f64 {
                    self.0 / $factor
                }
            )+

            /// The larger of two; the other where one is not a number.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of two; the other where one is not a number.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// Without its sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// In order of size, with what is not a number behind all else.
            #[must_use]
            pub fn total_cmp(&self, other: &Self) -> Ordering {
                self.0.total_cmp(&other.0)
            }

            /// Whether it is a number at all: a quotient by nothing is not.
            #[must_use]
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self {
                Self(self.0 * times)
            }
        }

        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, what: $name) -> $name {
                $name(self * what.0)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, by: f64) -> Self {
                Self(self.0 / by)
            }
        }

        impl Div for $name {
            type Output = f64;
            fn div(self, by: Self) -> f64 {
                self.0 / by.0
            }
        }

        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, Add::add)
            }
        }
    };
}

quantity! {
    /// How far: along a line, down to it, across it. [`Length`] is for what is measured of a pipe and must be exact; it ends
    /// at 70 ft.
    Distance {
        /// Inches.
        inches in_inches = 1.0;
        /// Feet of twelve inches.
        feet in_feet = 12.0;
        /// Millimetres.
        mm in_mm = MM;
        /// Metres.
        metres in_metres = 1000.0 * MM;
    }
}

quantity! {
    /// An area.
    Area {
        /// Square inches.
        square_inches in_square_inches = 1.0;
        /// Square feet.
        square_feet in_square_feet = 144.0;
        /// Square millimetres.
        square_mm in_square_mm = MM * MM;
        /// Square metres.
        square_metres in_square_metres = 1.0e6 * MM * MM;
    }
}

quantity! {
    /// A volume, of concrete or of water.
    Volume {
        /// Cubic inches.
        cubic_inches in_cubic_inches = 1.0;
        /// Cubic feet.
        cubic_feet in_cubic_feet = 1728.0;
        /// Cubic yards.
        cubic_yards in_cubic_yards = 46_656.0;
        /// US gallons.
        gallons in_gallons = GALLON;
        /// US quarts.
        quarts in_quarts = GALLON / 4.0;
        /// Litres.
        litres in_litres = LITRE;
        /// Cubic metres.
        cubic_metres in_cubic_metres = 1000.0 * LITRE;
    }
}

quantity! {
    /// A force, and a weight.
    Force {
        /// Pounds of force.
        lbf in_lbf = 1.0;
        /// Newtons.
        newtons in_newtons = NEWTON;
        /// Kilonewtons.
        kn in_kn = 1000.0 * NEWTON;
    }
}

quantity! {
    /// A pressure of water, and a stress of soil or of a wall.
    Pressure {
        /// Pounds on a square inch.
        psi in_psi = 1.0;
        /// Pounds on a square foot.
        psf in_psf = 1.0 / 144.0;
        /// Kilopascals.
        kpa in_kpa = NEWTON / (1000.0 * MM * MM);
        /// Bar.
        bar in_bar = 0.1 * NEWTON / (MM * MM);
        /// Megapascals, which are newtons on a square millimetre.
        mpa in_mpa = NEWTON / (MM * MM);
    }
}

quantity! {
    /// A force on each length of a line: a load of earth, a pipe with its water, the drag of soil.
    LineLoad {
        /// Pounds on a foot.
        lbf_per_foot in_lbf_per_foot = 1.0 / 12.0;
        /// Kilonewtons on a metre.
        kn_per_metre in_kn_per_metre = NEWTON / MM;
    }
}

quantity! {
    /// The weight of a volume: soil, concrete, water.
    UnitWeight {
        /// Pounds on a cubic foot.
        pcf in_pcf = 1.0 / 1728.0;
        /// Kilonewtons on a cubic metre.
        kn_per_cubic_metre in_kn_per_cubic_metre = NEWTON / (1.0e6 * MM * MM * MM);
    }
}

quantity! {
    /// A speed, of water or of a wave in it.
    Speed {
        /// Feet a second.
        feet_per_second in_feet_per_second = 12.0;
        /// Metres a second.
        metres_per_second in_metres_per_second = 1000.0 * MM;
    }
}

quantity! {
    /// How a speed grows: the pull of the earth on what falls.
    Acceleration {
        /// Feet a second, each second.
        feet_per_second_squared in_feet_per_second_squared = 12.0;
        /// Metres a second, each second.
        metres_per_second_squared in_metres_per_second_squared = 1000.0 * MM;
    }
}

impl Acceleration {
    /// Standard gravity, 9.80665 m/s² by definition (NIST Special Publication 811, appendix B).
    pub const GRAVITY: Self = Self::metres_per_second_squared(9.806_65);
}

quantity! {
    /// A flow.
    Flow {
        /// US gallons a minute.
        gpm in_gpm = GALLON / 60.0;
        /// US gallons an hour.
        gph in_gph = GALLON / 3600.0;
        /// Litres a second.
        litres_per_second in_litres_per_second = LITRE;
    }
}

quantity! {
    /// How long something takes.
    Duration {
        /// Seconds.
        seconds in_seconds = 1.0;
        /// Minutes.
        minutes in_minutes = 60.0;
        /// Hours.
        hours in_hours = 3600.0;
        /// Days.
        days in_days = 86_400.0;
    }
}

quantity! {
    /// What a wrench puts on a bolt.
    Torque {
        /// Foot-pounds.
        foot_pounds in_foot_pounds = 12.0;
        /// Newton metres.
        newton_metres in_newton_metres = NEWTON * 1000.0 * MM;
    }
}

impl Area {
    /// Of a circle of this diameter.
    #[must_use]
    pub const fn circle(across: Distance) -> Self {
        Self(core::f64::consts::FRAC_PI_4 * across.0 * across.0)
    }

    /// The side of a square of this area.
    #[must_use]
    pub fn side(self) -> Distance {
        Distance(libm::sqrt(self.0))
    }
}

impl Distance {
    /// The next whole part of an inch that is no shorter; parts are halves, eighths, thirty-seconds.
    #[must_use]
    pub fn up_to(self, part: Self) -> Self {
        Self(libm::ceil(self.0 / part.0 - 1e-9) * part.0)
    }

    /// The nearest whole part of an inch, halves away from nothing.
    #[must_use]
    pub fn to_nearest(self, part: Self) -> Self {
        Self(libm::round(self.0 / part.0) * part.0)
    }
}

impl From<Length> for Distance {
    fn from(length: Length) -> Self {
        Self(f64::from(length.counts()) / f64::from(Length::INCH))
    }
}
