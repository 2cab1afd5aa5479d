//! What may be multiplied and divided, and what it gives.

use core::ops::{Div, Mul};

use super::{
    Acceleration, Area, Distance, Duration, Flow, Force, LineLoad, Pressure, Speed, Torque,
    UnitWeight, Volume,
};

/// `$a * $b = $c` and its turned forms, for two types that are not one.
macro_rules! products {
    ($($a:ident * $b:ident = $c:ident;)+) => { $(
        impl Mul<$b> for $a {
            type Output = $c;
            fn mul(self, other: $b) -> $c {
                $c(self.0 * other.0)
            }
        }

        impl Mul<$a> for $b {
            type Output = $c;
            fn mul(self, other: $a) -> $c {
                $c(self.0 * other.0)
            }
        }

        impl Div<$a> for $c {
            type Output = $b;
            fn div(self, by: $a) -> $b {
                $b(self.0 / by.0)
            }
        }

        impl Div<$b> for $c {
            type Output = $a;
            fn div(self, by: $b) -> $a {
                $a(self.0 / by.0)
            }
        }
    )+ };
}

products! {
    Pressure * Area = Force;
    Pressure * Distance = LineLoad;
    LineLoad * Distance = Force;
    UnitWeight * Distance = Pressure;
    UnitWeight * Area = LineLoad;
    UnitWeight * Volume = Force;
    Area * Distance = Volume;
    Area * Speed = Flow;
    Speed * Duration = Distance;
    Acceleration * Duration = Speed;
    Flow * Duration = Volume;
}

impl Mul for Distance {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area(self.0 * other.0)
    }
}

impl Div<Distance> for Area {
    type Output = Distance;
    fn div(self, by: Distance) -> Distance {
        Distance(self.0 / by.0)
    }
}

impl Mul<Distance> for Force {
    type Output = Torque;
    fn mul(self, arm: Distance) -> Torque {
        Torque(self.0 * arm.0)
    }
}

impl Div<Distance> for Torque {
    type Output = Force;
    fn div(self, arm: Distance) -> Force {
        Force(self.0 / arm.0)
    }
}
