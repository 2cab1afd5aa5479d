//! Forces, pressures and distances as they are shown: lengths to restrain never shorter, pressures to stay below never higher.

use springline_core::unit::{Area, Distance, Force, LineLoad, Pressure, UnitWeight, Volume};

use crate::parse::Unit;
use crate::show::{rated, trimmed, whole as grouped};

/// Where an output is in inches and pounds, or metric.
#[derive(Clone, Copy)]
pub(super) struct Show(pub(super) Unit);

impl Show {
    fn us(self) -> bool {
        self.0 == Unit::Inch
    }

    /// `7,182 lb` or `31.9 kN`.
    pub(super) fn force(self, force: Force) -> String {
        if self.us() {
            format!("{} lb", grouped(force.in_lbf().round()))
        } else {
            format!("{:.1} kN", force.in_kn())
        }
    }

    /// `147 psi` or `10.2 bar`.
    pub(super) fn pressure(self, pressure: Pressure) -> String {
        if self.us() {
            format!("{} psi", trimmed(pressure.in_psi(), 1))
        } else {
            format!("{} bar", trimmed(pressure.in_bar(), 2))
        }
    }

    /// What is rated, whole psi or hundredths of a bar: never higher.
    pub(super) fn rated(self, pressure: Pressure) -> String {
        rated(pressure, self.0)
    }

    /// A pressure to stay below: rounded down, whole psi or tenths of a bar.
    pub(super) fn below(self, pressure: Pressure) -> String {
        if self.us() {
            format!("{:.0} psi", (pressure.in_psi() + 1e-9).floor())
        } else {
            format!(
                "{} bar",
                trimmed((pressure.in_bar() * 10.0 + 1e-9).floor() / 10.0, 1)
            )
        }
    }

    /// Bearing: psf or kPa.
    pub(super) fn stress(self, pressure: Pressure) -> String {
        if self.us() {
            format!("{} psf", grouped(pressure.in_psf().round()))
        } else {
            format!("{:.0} kPa", pressure.in_kpa())
        }
    }

    /// Weight of soil or concrete.
    pub(super) fn weight(self, weight: UnitWeight) -> String {
        if self.us() {
            format!("{:.0} pcf", weight.in_pcf())
        } else {
            format!("{:.1} kN/m3", weight.in_kn_per_cubic_metre())
        }
    }

    /// A place along a line, as it was measured.
    pub(super) fn place(self, distance: Distance) -> String {
        if self.us() {
            format!("{} ft", trimmed(distance.in_feet(), 1))
        } else {
            format!("{} m", trimmed(distance.in_metres(), 2))
        }
    }

    /// A length that must be held: rounded up, whole feet or tenths of a metre.
    pub(super) fn length(self, distance: Distance) -> String {
        if self.us() {
            format!("{:.0} ft", (distance.in_feet() - 1e-6).ceil().max(0.0))
        } else {
            let tenths = (distance.in_metres() * 10.0 - 1e-6).ceil().max(0.0);
            format!("{} m", trimmed(tenths / 10.0, 1))
        }
    }

    /// A side of a block: up to the next tenth of a foot, or the next centimetre.
    pub(super) fn side(self, distance: Distance) -> String {
        if self.us() {
            format!("{:.1} ft", (distance.in_feet() * 10.0 - 1e-6).ceil() / 10.0)
        } else {
            format!(
                "{:.2} m",
                (distance.in_metres() * 100.0 - 1e-6).ceil() / 100.0
            )
        }
    }

    /// An area of a face.
    pub(super) fn area(self, area: Area) -> String {
        if self.us() {
            format!("{:.1} ft2", area.in_square_feet())
        } else {
            format!("{:.2} m2", area.in_square_metres())
        }
    }

    /// Concrete.
    pub(super) fn volume(self, volume: Volume) -> String {
        if self.us() {
            format!(
                "{:.1} ft3 ({:.1} yd3)",
                volume.in_cubic_feet(),
                volume.in_cubic_yards()
            )
        } else {
            format!("{:.2} m3", volume.in_cubic_metres())
        }
    }

    /// What a foot weighs or holds.
    pub(super) fn load(self, load: LineLoad) -> String {
        if self.us() {
            format!("{} lb/ft", grouped(load.in_lbf_per_foot().round()))
        } else {
            format!("{:.2} kN/m", load.in_kn_per_metre())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn never_shorter_and_never_higher() {
        let (us, metric) = (Show(Unit::Inch), Show(Unit::Millimetre));
        assert_eq!(us.length(Distance::feet(20.0)), "20 ft");
        assert_eq!(us.length(Distance::feet(20.01)), "21 ft");
        assert_eq!(metric.length(Distance::metres(6.01)), "6.1 m");
        assert_eq!(us.below(Pressure::psi(3.99)), "3 psi");
        assert_eq!(metric.below(Pressure::bar(0.29)), "0.2 bar");
        assert_eq!(us.side(Distance::feet(2.01)), "2.1 ft");
        assert_eq!(us.force(Force::lbf(1_234_567.4)), "1,234,567 lb");
        assert_eq!(us.force(Force::lbf(706.0)), "706 lb");
        assert_eq!(us.pressure(Pressure::psi(147.33)), "147.3 psi");
        assert_eq!(us.pressure(Pressure::psi(150.0)), "150 psi");
        assert_eq!(us.place(Distance::feet(6.5)), "6.5 ft");
    }
}
