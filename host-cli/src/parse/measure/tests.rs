//! Every kind of measure, as people type it and as it is wrong.

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
