//! Pressures, distances, speeds, flows, times and angles as people type them: a number and its unit.

mod kind;

use springline_core::thrust::fall;
use springline_core::unit::{Angle, Distance, Duration, Flow, Pressure, Speed, Volume};

use super::Unit;
use super::error::ParseError;
use kind::Kind;

const PSI: &[&str] = &["psi", "psig", "lb/in2"];
const FEET_OF_HEAD: &[&str] = &[
    "ft-head",
    "ft of head",
    "feet of head",
    "foot of head",
    "ft head",
    "ft of water",
    "feet of water",
    "fthead",
    "fth2o",
    "ft h2o",
];
const METRES_OF_HEAD: &[&str] = &[
    "m-head",
    "m of head",
    "metres of head",
    "meters of head",
    "m head",
    "m of water",
    "mh2o",
    "m h2o",
];
const FEET: &[&str] = &["ft", "foot", "feet", "'", "′", "’"];
const INCHES: &[&str] = &["in", "inch", "inches", "\"", "″", "”"];
const MM: &[&str] = &[
    "mm",
    "millimetre",
    "millimetres",
    "millimeter",
    "millimeters",
];
const METRES: &[&str] = &["m", "metre", "metres", "meter", "meters"];

/// Reads a pressure of water such as `130psi`, `9 bar` or `900kPa`, or by its head as irrigation handbooks have it, `300ft-head`
/// or `300 ft of head`, of water of 62.4 lb/ft³. A length alone is no pressure.
///
/// # Errors
///
/// Anything that is not one, or above 1,000 psi, with the place of the fault; a number alone.
pub(crate) fn pressure(text: &str) -> Result<Pressure, ParseError> {
    Kind {
        what: "pressure",
        usual: "130psi, 9bar, 900kPa or 300ft-head",
        units: &[
            (PSI, Pressure::psi),
            (&["bar"], Pressure::bar),
            (&["kPa"], Pressure::kpa),
            (&["MPa"], Pressure::mpa),
            (FEET_OF_HEAD, |v| fall(Distance::feet(v))),
            (METRES_OF_HEAD, |v| fall(Distance::metres(v))),
        ],
        bare: None,
        joined: None,
        least: Pressure::ZERO,
        most: Pressure::psi(1000.0),
        range: "from 0psi to 1000psi",
    }
    .read(text)
}

/// Reads how far along a line, down or up such as `40ft`, `12m`, `3ft 6in`. A number alone is in feet, or in metres where
/// `bare` is metric: nobody measures a line in inches.
///
/// # Errors
///
/// Anything that is not one, or above ten miles, with the place of the fault.
pub(crate) fn distance(text: &str, bare: Unit) -> Result<Distance, ParseError> {
    Kind {
        what: "distance",
        usual: "40ft, 3ft 6in or 12m",
        units: &[
            (FEET, Distance::feet),
            (INCHES, Distance::inches),
            (METRES, Distance::metres),
            (MM, Distance::mm),
            (&["cm"], |v| Distance::mm(10.0 * v)),
            (&["km"], |v| Distance::metres(1000.0 * v)),
            (&["mi", "mile", "miles"], |v| Distance::feet(5280.0 * v)),
        ],
        bare: Some(match bare {
            Unit::Inch => Distance::feet,
            Unit::Millimetre => Distance::metres,
        }),
        joined: Some(|a, b| a + b),
        least: Distance::ZERO,
        most: Distance::feet(52_800.0),
        range: "from 0ft to 52800ft",
    }
    .read(text)
}

/// Reads a speed of water such as `5ft/s`, `5fps` or `1.5m/s`.
///
/// # Errors
///
/// Anything that is not one, or above 100 ft/s, with the place of the fault; a number alone.
#[allow(dead_code, reason = "a verb to come asks for it")]
pub(crate) fn speed(text: &str) -> Result<Speed, ParseError> {
    Kind {
        what: "speed",
        usual: "5ft/s or 1.5m/s",
        units: &[
            (&["ft/s", "fps", "ft/sec"], Speed::feet_per_second),
            (&["m/s", "m/sec"], Speed::metres_per_second),
        ],
        bare: None,
        joined: None,
        least: Speed::ZERO,
        most: Speed::feet_per_second(100.0),
        range: "from 0ft/s to 100ft/s",
    }
    .read(text)
}

/// Reads a flow such as `400gpm` or `25L/s`.
///
/// # Errors
///
/// Anything that is not one, or above 100,000 gpm, with the place of the fault; a number alone.
#[allow(dead_code, reason = "a verb to come asks for it")]
pub(crate) fn flow(text: &str) -> Result<Flow, ParseError> {
    Kind {
        what: "flow",
        usual: "400gpm or 25L/s",
        units: &[
            (&["gpm", "gal/min"], Flow::gpm),
            (&["L/s", "lps", "l/sec"], Flow::litres_per_second),
            (&["m3/h", "m³/h"], |v| Flow::litres_per_second(v / 3.6)),
        ],
        bare: None,
        joined: None,
        least: Flow::ZERO,
        most: Flow::gpm(100_000.0),
        range: "from 0gpm to 100000gpm",
    }
    .read(text)
}

/// Reads a volume such as `8gal` or `30L`.
///
/// # Errors
///
/// Anything that is not one, or above ten million gallons, with the place of the fault; a number alone.
pub(crate) fn volume(text: &str) -> Result<Volume, ParseError> {
    Kind {
        what: "volume",
        usual: "8gal or 30L",
        units: &[
            (&["gal", "gallon", "gallons"], Volume::gallons),
            (&["qt", "quart", "quarts"], Volume::quarts),
            (&["L", "litre", "litres", "liter", "liters"], Volume::litres),
            (&["m3", "m³"], Volume::cubic_metres),
        ],
        bare: None,
        joined: None,
        least: Volume::ZERO,
        most: Volume::gallons(10_000_000.0),
        range: "from 0gal to 10000000gal",
    }
    .read(text)
}

/// Reads how long such as `6h`, `90min`, `1h 30min` or `3 days`.
///
/// # Errors
///
/// Anything that is not one, or above a year, with the place of the fault; a number alone.
pub(crate) fn duration(text: &str) -> Result<Duration, ParseError> {
    Kind {
        what: "time",
        usual: "6h, 90min or 3 days",
        units: &[
            (&["h", "hr", "hrs", "hour", "hours"], Duration::hours),
            (&["min", "mins", "minute", "minutes"], Duration::minutes),
            (
                &["s", "sec", "secs", "second", "seconds"],
                Duration::seconds,
            ),
            (&["d", "day", "days"], Duration::days),
            (&["week", "weeks"], |v| Duration::days(7.0 * v)),
        ],
        bare: None,
        joined: Some(|a, b| a + b),
        least: Duration::ZERO,
        most: Duration::days(366.0),
        range: "from 0 to 366 days",
    }
    .read(text)
}

/// Reads a change of direction such as `90`, `22-1/2` or `45deg`; a number alone is in degrees.
///
/// # Errors
///
/// Anything that is not one, or above 180°, with the place of the fault.
pub(crate) fn angle(text: &str) -> Result<Angle, ParseError> {
    Kind {
        what: "change of direction",
        usual: "90, 45 or 22-1/2",
        units: &[(&["°", "deg", "degree", "degrees"], Angle::degrees)],
        bare: Some(Angle::degrees),
        joined: None,
        least: Angle::ZERO,
        most: Angle::degrees(180.0),
        range: "from 0 to 180 degrees",
    }
    .read(text)
}

#[cfg(test)]
mod tests;
