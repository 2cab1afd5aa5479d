//! What the model says of each family, whatever its size: one small table.
//!
//! All figures are common practice without a source; they are typed here a
//! second time on purpose, so that a slip in the shipped tables shows.

/// The constants of one family.
#[derive(Debug, Clone, Copy)]
pub struct Family {
    /// Name, as in the rows.
    pub name: &'static str,
    /// Share of the pipes on an irrigation job, percent.
    pub irrigation: f64,
    /// Share of the pipes on a municipal job, percent.
    pub municipal: f64,
    /// Thermal expansion, per degree Fahrenheit.
    pub alpha: f64,
    /// Wear or roughness, one standard deviation on the diameter, inches.
    pub wear: f64,
    /// Mean and standard deviation of the installed deflection before it is
    /// cut, as fractions of the OD; zero and zero for a pipe that keeps round.
    pub deflection: (f64, f64),
    /// Whether 5 % of the pipes lie anywhere in a band three times as wide.
    pub wide: bool,
}

const PVC: f64 = 3.0e-5;
const PE: f64 = 9.0e-5;
const STEEL: f64 = 6.5e-6;
const IRON: f64 = 6.0e-6;
const COPPER: f64 = 9.3e-6;
const CEMENT: f64 = 4.5e-6;
const ALUMINUM: f64 = 1.3e-5;

const ROUND: (f64, f64) = (0.0, 0.0);
const PRESSURE: (f64, f64) = (0.008, 0.007);
const SEWER: (f64, f64) = (0.018, 0.012);
const SOFT: (f64, f64) = (0.010, 0.010);

const fn family(
    name: &'static str,
    shares: (f64, f64),
    alpha: f64,
    wear: f64,
    deflection: (f64, f64),
    wide: bool,
) -> Family {
    Family {
        name,
        irrigation: shares.0,
        municipal: shares.1,
        alpha,
        wear,
        deflection,
        wide,
    }
}

/// Every family of the model.
pub const FAMILIES: [Family; 20] = [
    family("ips-pvc", (53.5, 5.0), PVC, 0.0, PRESSURE, false),
    family("c900", (10.0, 33.5), PVC, 0.0, (0.004, 0.004), false),
    family("ductile-iron", (2.4, 28.5), IRON, 0.005, ROUND, true),
    family("cast-iron", (0.4, 11.6), IRON, 0.015, ROUND, true),
    family("pip", (18.5, 0.3), PVC, 0.0, (0.020, 0.012), false),
    family("pvco", (0.3, 2.0), PVC, 0.0, (0.010, 0.007), false),
    family("hdpe-ips", (2.5, 1.5), PE, 0.0, SOFT, false),
    family("hdpe-dips", (0.4, 2.0), PE, 0.0, SOFT, false),
    family("aluminum", (0.8, 0.0), ALUMINUM, 0.0, ROUND, false),
    family("cts-plastic", (0.2, 0.2), PVC, 0.0, ROUND, false),
    family("steel", (3.8, 3.8), STEEL, 0.010, ROUND, false),
    family("copper", (0.4, 0.2), COPPER, 0.0, ROUND, false),
    family("sewer-pvc", (1.0, 2.4), PVC, 0.0, SEWER, false),
    family("asbestos-cement", (1.4, 5.8), CEMENT, 0.010, ROUND, true),
    family("metric-pvc", (0.8, 0.8), PVC, 0.0, PRESSURE, false),
    family("metric-iron", (0.2, 0.2), IRON, 0.005, ROUND, true),
    family("conduit", (1.6, 1.2), PVC, 0.0, PRESSURE, false),
    family("drain-pvc", (1.2, 0.4), PVC, 0.0, SEWER, false),
    family("gas-pe", (0.4, 0.4), PE, 0.0, SOFT, false),
    family("metric-pe", (0.2, 0.2), PE, 0.0, SOFT, false),
];
