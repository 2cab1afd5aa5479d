//! Every format against what gauges are known to send, and against lines that break in every way.

mod ascii;
mod clocked24;
mod spc13;
mod vectors;
mod wire;

use super::*;

#[test]
fn a_number_is_the_nearest_length() {
    let length = |digits, places, unit| {
        let shown = Decimal::new(digits, places).unwrap();
        shown.length(unit).map(Length::counts)
    };
    // 0.12345 in is 3.135 63 mm exactly, and 0.00001 in is 25.4 counts.
    assert_eq!(length(12_345, 5, Unit::Inch), Some(313_563));
    assert_eq!(length(1, 5, Unit::Inch), Some(25));
    assert_eq!(length(-5, 6, Unit::Millimetre), Some(-1));
    assert_eq!(length(-4, 6, Unit::Millimetre), Some(0));
    assert_eq!(length(21_475, 0, Unit::Millimetre), None);
    assert_eq!(length(9_999_999_999, 9, Unit::Inch), Some(25_400_000));
    assert_eq!(Decimal::new(10_000_000_000, 0), None);
    assert_eq!(Decimal::new(1, 10), None);
}

#[test]
fn a_unit_that_was_told_stands() {
    let shown = Decimal::new(4_500, 3).unwrap();
    let told = GaugeReading::new(shown, Some(Unit::Inch)).unwrap();
    let inches = Length::from_mils(4_500).unwrap();
    assert_eq!(told.length(), Some(inches));
    assert_eq!(told.length_or(Unit::Millimetre), Ok(inches));
    assert_eq!(
        told.step_or(Unit::Millimetre),
        Length::from_mils(1).unwrap()
    );
    let untold = GaugeReading::new(shown, None).unwrap();
    assert_eq!(untold.length(), None);
    assert_eq!(untold.length_or(Unit::Inch), Ok(inches));
    assert_eq!(
        untold.length_or(Unit::Millimetre),
        Ok(Length::from_counts(450_000))
    );
    assert_eq!(untold.step_or(Unit::Millimetre), Length::from_counts(100));
}

#[test]
fn what_no_caliper_spans_is_refused() {
    let read = |digits, unit| GaugeReading::new(Decimal::new(digits, 2).unwrap(), unit);
    for sign in [1, -1] {
        assert!(read(sign * 105_000, Some(Unit::Millimetre)).is_ok());
        assert_eq!(
            read(sign * 105_001, Some(Unit::Millimetre)),
            Err(Trouble::TooLarge)
        );
        assert!(read(sign * 4_133, Some(Unit::Inch)).is_ok());
        assert_eq!(read(sign * 4_134, Some(Unit::Inch)), Err(Trouble::TooLarge));
        // Without a unit it may still be millimetres, and is no longer a length once it is inches.
        let untold = read(sign * 4_134, None).unwrap();
        assert!(untold.length_or(Unit::Millimetre).is_ok());
        assert_eq!(untold.length_or(Unit::Inch), Err(Trouble::TooLarge));
        assert_eq!(read(sign * 105_001, None), Err(Trouble::TooLarge));
    }
}

#[test]
fn every_word_for_the_user_is_its_own() {
    let troubles = [
        Trouble::Empty,
        Trouble::Overlong,
        Trouble::NotText,
        Trouble::Port,
        Trouble::Unfinished,
        Trouble::Form,
        Trouble::NoPoint,
        Trouble::Digits,
        Trouble::Unit,
        Trouble::Glitch,
        Trouble::MissedEdge,
        Trouble::Slow,
        Trouble::Idle,
        Trouble::Bits(23),
        Trouble::Stuck,
        Trouble::Marks,
        Trouble::BadDigit,
        Trouble::NoUnit,
        Trouble::NoAnswer,
        Trouble::TooLarge,
    ];
    let faults = [
        Fault::OffScale,
        Fault::NoData,
        Fault::TimedOut,
        Fault::Sensor,
        Fault::Code(4),
    ];
    let mut words: Vec<String> = troubles.iter().map(ToString::to_string).collect();
    words.extend(faults.iter().map(ToString::to_string));
    let count = words.len();
    words.sort();
    words.dedup();
    assert_eq!(words.len(), count);
}
