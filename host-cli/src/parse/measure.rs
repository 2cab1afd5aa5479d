//! Pressures, distances, speeds, flows, times and angles as people type them: a number and its unit.

use std::ops::Range;

use springline_core::thrust::fall;
use springline_core::unit::{Angle, Distance, Duration, Flow, Pressure, Speed, Volume};

use super::Unit;
use super::error::{Fault, ParseError};
use super::quantity::{at_quantity, quantity};
use super::scan::Scan;

/// Parts of one that a typed number is kept to; enough for a hair of a mile and a second of a day.
const PARTS: u32 = 1_000_000;

/// How one unit is spelled, and what so many of it are.
type Spelled<T> = (&'static [&'static str], fn(f64) -> T);

/// What a kind of value is called, in what it may be typed, and how much of it is taken.
struct Kind<T: 'static> {
    what: &'static str,
    usual: &'static str,
    units: &'static [Spelled<T>],
    /// Of a number without a unit, where that is plain enough.
    bare: Option<fn(f64) -> T>,
    /// Whether two may follow each other, as feet and inches do.
    joined: Option<fn(T, T) -> T>,
    least: T,
    most: T,
    /// From where to where, in words.
    range: &'static str,
}

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
#[allow(dead_code, reason = "verbs to come ask for it")]
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

impl<T: Copy + PartialOrd> Kind<T> {
    fn read(&self, text: &str) -> Result<T, ParseError> {
        self.whole(text).map_err(|fault| {
            fault.dress(text, self.what, self.usual, |text| self.whole(text).is_ok())
        })
    }

    fn whole(&self, text: &str) -> Result<T, Fault> {
        let mut input = Scan::new(text)?;
        let mut sum = self.one(&mut input)?;
        input.skip_space();
        if let Some(join) = self.joined
            && at_quantity(&input)
        {
            sum = join(sum, self.one(&mut input)?);
            input.skip_space();
        }
        if input.peek().is_some() {
            return Err(input.unexpected());
        }
        if sum < self.least || sum > self.most {
            return Err(Fault::new(input.trimmed(), "more than is met with")
                .beyond()
                .tell(self.range));
        }
        Ok(sum)
    }

    /// A unit of several words, where one stands there; else the unit that was read.
    fn longer(&self, input: &mut Scan, unit: &Range<usize>) -> Range<usize> {
        let mut most = unit.end;
        for name in self.units.iter().flat_map(|(names, _)| names.iter()) {
            let end = unit.start + name.chars().count();
            let whole = input.text_at(&(unit.start..end));
            let whole = whole.is_some_and(|text| text.to_lowercase() == *name);
            let next = input.text_at(&(end..end + 1)).unwrap_or_default();
            if whole && end > most && !next.starts_with(char::is_alphanumeric) {
                most = end;
            }
        }
        if most > unit.end {
            input.back_to(most);
        }
        unit.start..most
    }

    /// A number and its unit.
    fn one(&self, input: &mut Scan) -> Result<T, Fault> {
        input.skip_space();
        if !at_quantity(input) {
            return Err(match input.peek() {
                None if input.trimmed().is_empty() => Fault::new(input.here(), "nothing was typed"),
                Some(',') => input.unexpected(),
                _ => Fault::new(
                    input.here(),
                    format!("a {} starts with a number", self.what),
                ),
            });
        }
        let number = quantity(input)?;
        input.skip_space();
        let unit = input.run(|c| c.is_alphabetic() || "/'\"′″’”°²³".contains(c));
        // A cubic metre or a square inch may be written with its digit.
        let unit = match input.peek() {
            Some('2' | '3') if input.peek_by(1).is_none_or(|c| c == '/') && !unit.is_empty() => {
                input.bump();
                unit.start..input.run(|c| c.is_alphabetic() || c == '/').end
            }
            _ => unit,
        };
        let unit = self.longer(input, &unit);
        let word = input.slice(&unit).to_lowercase();
        let made = if word.is_empty() {
            self.bare
        } else {
            let named =
                |(names, _): &&Spelled<T>| names.iter().any(|name| name.to_lowercase() == word);
            self.units.iter().find(named).map(|&(_, made)| made)
        };
        let Some(made) = made else {
            return Err(if word.is_empty() {
                let typed = input.slice(&(input.trimmed().start..number.span.end));
                let rewrites = self
                    .units
                    .iter()
                    .map(|(names, _)| format!("{typed}{}", names[0]));
                Fault::new(
                    number.span.end..number.span.end,
                    "say the unit: the number alone could be any",
                )
                .rewrites(rewrites.collect())
            } else {
                let head = self.units.iter().any(|(names, _)| names == &FEET_OF_HEAD);
                let length = FEET.contains(&word.as_str()) || METRES.contains(&word.as_str());
                let fault = Fault::new(unit, format!("not a unit of a {}", self.what));
                if head && length {
                    let typed = input.slice(&(input.trimmed().start..number.span.end));
                    let of = if FEET.contains(&word.as_str()) {
                        "ft"
                    } else {
                        "m"
                    };
                    fault.tell(format!("{typed}{of}-head, where it is a head of water"))
                } else {
                    fault
                }
            });
        };
        #[allow(
            clippy::cast_precision_loss,
            reason = "limits lie far below 2^53 parts"
        )]
        let value = number
            .counts(PARTS)
            .map(|counts| counts as f64 / f64::from(PARTS));
        value.map(made).ok_or_else(|| {
            Fault::new(number.span.clone(), "more than is met with")
                .beyond()
                .tell(self.range)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: f64, want: f64) {
        assert!((got - want).abs() < 1e-6, "{got} for {want}");
    }

    #[test]
    fn examples() {
        for text in ["130psi", "130 psi", "130 PSI", "130psig", "896.318kPa"] {
            assert!(
                (pressure(text).unwrap().in_psi() - 130.0).abs() < 1e-3,
                "{text}"
            );
        }
        close(pressure("9bar").unwrap().in_bar(), 9.0);
        // 2.31 ft of water to the psi, as handbooks round it.
        for text in [
            "231ft-head",
            "231 ft of head",
            "231 FT HEAD",
            "231ft of water",
            "231 ftH2O",
            "231 feet of head",
            "70.41m-head",
        ] {
            let psi = pressure(text).unwrap().in_psi();
            assert!((psi - 100.0).abs() < 0.15, "{text}: {psi}");
        }
        for text in [
            "42ft",
            "42",
            "42'",
            "504in",
            "41ft 12in",
            "41' 12\"",
            "41ft12in",
        ] {
            close(distance(text, Unit::Inch).unwrap().in_feet(), 42.0);
        }
        close(
            distance("3ft 6 1/2in", Unit::Inch).unwrap().in_inches(),
            42.5,
        );
        close(distance("12", Unit::Millimetre).unwrap().in_metres(), 12.0);
        close(distance("1.5 mi", Unit::Inch).unwrap().in_feet(), 7920.0);
        close(speed("5ft/s").unwrap().in_feet_per_second(), 5.0);
        close(speed("1.5 m/s").unwrap().in_metres_per_second(), 1.5);
        close(volume("8 gal").unwrap().in_gallons(), 8.0);
        close(volume("30L").unwrap().in_litres(), 30.0);
        close(volume("2 qt").unwrap().in_gallons(), 0.5);
        close(volume("1.5 m3").unwrap().in_litres(), 1500.0);
        close(flow("400gpm").unwrap().in_gpm(), 400.0);
        close(flow("90 m3/h").unwrap().in_litres_per_second(), 25.0);
        close(flow("25 L/s").unwrap().in_litres_per_second(), 25.0);
        for text in ["90min", "1.5h", "1 1/2 hours", "1h 30min", "1h30min"] {
            close(duration(text).unwrap().in_minutes(), 90.0);
        }
        close(duration("3 days").unwrap().in_hours(), 72.0);
        for text in ["22-1/2", "22.5", "22½", "22 1/2°", "22.5 deg"] {
            close(angle(text).unwrap().in_degrees(), 22.5);
        }
    }

    #[test]
    fn refused_with_the_place() {
        for (text, span) in [
            ("", 0..0),
            ("130", 3..3),
            ("130ft", 3..5),
            ("130ft of heat", 3..5),
            ("130ft-headed", 3..5),
            ("130ft of head 5", 14..15),
            ("psi", 0..1),
            ("130psi 5", 7..8),
            ("-5psi", 0..1),
            ("1,300psi", 1..2),
            ("2000psi", 0..7),
            ("1e3psi", 1..2),
            ("99999999999999psi", 0..14),
        ] {
            assert_eq!(pressure(text).unwrap_err().span, span, "{text}");
        }
        assert_eq!(
            pressure("130ft").unwrap_err().help,
            "130ft-head, where it is a head of water"
        );
        assert_eq!(distance("40psi", Unit::Inch).unwrap_err().span, 2..5);
        assert_eq!(duration("6").unwrap_err().span, 1..1);
        assert_eq!(angle("200").unwrap_err().help, "from 0 to 180 degrees");
    }

    #[test]
    fn a_bare_number_is_asked_for_its_unit() {
        assert_eq!(
            pressure("130").unwrap_err().to_string(),
            "\"130\" is not a pressure\n  130\n     ^ say the unit: the number alone could be any\n  \
             try: 130psi, 130kPa, 130ft-head or 130m-head"
        );
    }
}
