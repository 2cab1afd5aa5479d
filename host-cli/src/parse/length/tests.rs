use super::*;

const IN: i64 = 2_540_000;
const MM: i64 = 100_000;

fn d(text: &str) -> Result<i64, ParseError> {
    length(text, Unit::Inch, Limits::DIAMETER)
}

fn refused(text: &str) -> ParseError {
    d(text).expect_err(text)
}

#[test]
fn lengths_people_type() {
    let near_7 = 6_904 * 2_540;
    let tape = 6 * IN + 29 * IN / 32;
    let long = 21 * IN + 11 * IN / 16;
    for (text, want) in [
        ("6.904in", near_7),
        ("6.904 in", near_7),
        ("6.904\"", near_7),
        ("6.904", near_7),
        ("  6.904in  ", near_7),
        ("6.904IN", near_7),
        ("6.904 inch", near_7),
        ("6.904 Inches", near_7),
        ("6.904 in.", near_7),
        ("6.904\u{2033}", near_7),
        ("6.904\u{201d}", near_7),
        ("6.904''", near_7),
        ("6.904\u{2032}\u{2032}", near_7),
        ("006.9040in", near_7),
        ("6.904\u{a0}in", near_7),
        ("6 29/32in", tape),
        ("6-29/32\"", tape),
        ("6\u{2013}29/32in", tape),
        ("6  29 / 32 in", tape),
        ("6 29\u{2044}32in", tape),
        ("29/32in", tape - 6 * IN),
        ("21 11/16\"", long),
        ("1ft 9-11/16in", long),
        ("1'9 11/16\"", long),
        ("1'-9 11/16\"", long),
        ("1' - 9 11/16\"", long),
        ("1\u{2032}9 11/16\u{2033}", long),
        ("1\u{2019}9 11/16\u{201d}", long),
        ("1'9 11/16", long),
        ("1 ft. 9 11/16 in.", long),
        ("1 foot 9.6875 inches", long),
        ("1ft", 12 * IN),
        ("2 FEET", 24 * IN),
        ("1ft 0in", 12 * IN),
        ("0ft 9in", 9 * IN),
        ("0.5ft", 6 * IN),
        ("1 1/2ft", 18 * IN),
        (".5in", IN / 2),
        ("½in", IN / 2),
        ("6½in", 6 * IN + IN / 2),
        ("6 ½\"", 6 * IN + IN / 2),
        ("6-½\"", 6 * IN + IN / 2),
        ("6¼in", 6 * IN + IN / 4),
        ("6¾in", 6 * IN + 3 * IN / 4),
        ("6⅜\u{2033}", 6 * IN + 3 * IN / 8),
        ("1\u{2032} 6⅞\u{2033}", 18 * IN + 7 * IN / 8),
        ("6 0/32in", 6 * IN),
        ("175.4mm", 17_540_000),
        ("175.4MM", 17_540_000),
        ("175.4 millimetres", 17_540_000),
        ("17.54cm", 17_540_000),
        ("72in", 72 * IN),
        ("1828.8mm", 72 * IN),
        ("6ft", 72 * IN),
    ] {
        assert_eq!(d(text), Ok(want), "{text}");
    }
}

#[test]
fn bare_numbers_take_the_unit_given() {
    let mm = |text| length(text, Unit::Millimetre, Limits::DIAMETER);
    assert_eq!(mm("175.4"), Ok(17_540_000));
    assert_eq!(mm("6.904"), Ok(690_400));
    assert_eq!(mm("6.904in"), Ok(6_904 * 2_540));
    // After feet there is only one thing a bare number can be.
    assert_eq!(mm("1'9"), Ok(21 * IN));
    assert_eq!(mm("6 1/2").unwrap_err().help, "6 1/2in");
}

#[test]
fn rounds_once_half_away_from_zero() {
    // 1/64 in is 39687.5 counts.
    assert_eq!(d("1/64in"), Ok(39_688));
    assert_eq!(d("3/64in"), Ok(119_063));
    assert_eq!(d("0.015625in"), Ok(39_688));
    assert_eq!(d("0.01562499999999999999999999in"), Ok(39_687));
    assert_eq!(d("0.000005mm"), Ok(1));
    assert_eq!(d("1.000015mm"), Ok(MM + 2));
    assert_eq!(d("1.0000149999999999999mm"), Ok(MM + 1));
    assert_eq!(d("6.9040000001in"), Ok(6_904 * 2_540));
}

/// The refusals, with the text, the span of the fault, and part of the message.
#[test]
fn refused_with_the_place() {
    for (text, span, part) in [
        ("", 0..0, "missing"),
        ("   ", 3..3, "missing"),
        ("six", 0..3, "starts with a number"),
        ("NaN", 0..3, "starts with a number"),
        ("inf", 0..3, "starts with a number"),
        ("in", 0..2, "number before the unit"),
        ("\"", 0..1, "number before the unit"),
        ("6 1/0in", 4..5, "0 below the line"),
        ("6 29/31in", 5..7, "tapes are not marked"),
        ("6 1/128in", 4..7, "tapes are not marked"),
        ("6 1/1in", 4..5, "tapes are not marked"),
        ("6⅓in", 1..2, "tapes are not marked"),
        ("0in", 0..3, "more than 0"),
        ("0", 0..1, "more than 0"),
        ("0/32in", 0..6, "more than 0"),
        ("0.000000001in", 0..13, "more than 0"),
        ("-3in", 0..1, "no sign"),
        ("\u{2212}3in", 0..1, "no sign"),
        ("+3in", 0..1, "no sign"),
        ("1e9in", 1..2, "powers of ten"),
        ("1E-9in", 1..2, "powers of ten"),
        ("1.5e+9", 3..4, "powers of ten"),
        ("1000000in", 0..9, "too large"),
        ("72.0001in", 0..9, "too large"),
        (" 99999999999999999999999in ", 1..26, "too large"),
        ("99999999999999999999999ft", 0..25, "too large"),
        ("6..9in", 2..3, "second decimal point"),
        ("6.9.1in", 3..4, "second decimal point"),
        ("6.in", 1..2, "after the point"),
        (".", 0..1, "after the point"),
        ("6.9ft 3in", 0..3, "whole number when inches follow"),
        ("1 1/2ft 3in", 0..5, "whole number when inches follow"),
        ("1ft 12in", 4..6, "less than 12"),
        ("1ft 3mm", 5..7, "only inches"),
        ("1ft 2ft", 5..7, "only inches"),
        ("1ft -", 4..5, "inches should follow"),
        ("1ft.5in", 3..4, "could end the unit"),
        ("6in 3mm", 4..7, "nothing may follow"),
        ("6in 1/2", 4..7, "nothing may follow"),
        ("6 in in", 5..7, "second unit"),
        ("6mm cm", 4..6, "second unit"),
        ("6 29 in", 2..4, "second number"),
        ("6 904in", 2..5, "second number"),
        ("6.5 1/2in", 0..3, "cannot be used together"),
        ("6.5½in", 0..3, "cannot be used together"),
        ("6 1.5/2in", 2..5, "whole numbers only"),
        ("6 1/2.5in", 4..7, "whole numbers only"),
        ("6 1/in", 4..5, "below the line is missing"),
        ("6 1/", 4..4, "below the line is missing"),
        ("1/2/2in", 3..4, "second fraction stroke"),
        ("629/32in", 0..3, "less than the bottom"),
        ("6 32/32in", 2..4, "less than the bottom"),
        ("6-9in", 1..2, "hyphen"),
        ("6 - 1/2in", 2..3, "hyphen"),
        ("6-", 1..2, "hyphen"),
        ("175 1/2mm", 0..7, "decimals, not a fraction"),
        ("6,904mm", 1..2, "comma"),
        ("6 1,5/2in", 3..4, "comma"),
        (",5in", 0..1, "comma"),
        ("6m", 1..2, "not a unit"),
        ("6inf", 1..4, "not a unit"),
        ("6x", 1..2, "not a unit"),
        ("6.904in ok", 8..10, "does not belong"),
        ("6.904in!", 7..8, "does not belong"),
        ("6.904#", 5..6, "does not belong"),
        ("6_000mm", 1..2, "does not belong"),
        ("6.9@3", 3..4, "does not belong"),
        ("\u{ff16}in", 0..1, "starts with a number"),
        ("6in\u{6c49}", 3..4, "U+6C49"),
    ] {
        let e = refused(text);
        assert_eq!(e.span, span, "{text}: {e}");
        assert!(e.message.contains(part), "{text}: {e}");
    }
}

#[test]
fn rendering() {
    assert_eq!(
        refused("6 1/0in").to_string(),
        "\"6 1/0in\" is not a length\n  6 1/0in\n      ^ a fraction cannot have 0 below the line\n  \
         try: 6 1/2in, 6.5in or 165mm"
    );
    assert_eq!(
        refused("100in").to_string(),
        "\"100in\" is out of range for a length\n  100in\n  ^^^^^ too large\n  \
         try: more than 0, up to 72in"
    );
}

#[test]
fn advice_fits_what_was_typed() {
    for (text, help) in [
        ("6,904mm", "6.904mm"),
        ("1,234mm", "1.234mm or 1234mm"),
        ("6,9in", "6.9in"),
        ("-3in", "3in"),
        ("6 in in", "6 in"),
        ("629/32in", "6 29/32in, 62 9/32in or 19 21/32in"),
        ("45/32in", "4 5/32in or 1 13/32in"),
        ("175.4", "175.4mm"),
        ("1829mm", "more than 0, up to 1828.8mm"),
        ("6ft 1in", "more than 0, up to 72in"),
    ] {
        assert_eq!(refused(text).help, help, "{text}");
    }
    let wall = Limits {
        min: IN / 10,
        max: 3 * IN,
    };
    let e = length("0.05in", Unit::Inch, wall).unwrap_err();
    assert_eq!(e.help, "from 0.1in, up to 3in");
    assert!(e.message.contains("too small"));
}

/// A refusal must not send a person to something that is refused too.
#[test]
fn the_usual_examples_are_read() {
    for text in ["6 1/2in", "6.5in", "165mm", "1ft 9 11/16in", "21.7in"] {
        assert!(d(text).is_ok(), "{text}");
    }
}

#[test]
fn limits_are_the_callers() {
    let around = |text| length(text, Unit::Inch, Limits::AROUND);
    assert_eq!(around("240in"), Ok(240 * IN));
    assert_eq!(around("20ft"), Ok(240 * IN));
    assert!(around("240.001in").is_err());
    let nothing = Limits { min: -5, max: 0 };
    assert!(length("0in", Unit::Inch, nothing).is_err());
    let open = Limits {
        min: i64::MIN,
        max: i64::MAX,
    };
    assert_eq!(
        length("999999999ft", Unit::Inch, open),
        Ok(999_999_999 * 12 * IN)
    );
    assert!(length("9999999999ft", Unit::Inch, open).is_err());
}

#[test]
fn long_text_is_refused_quickly() {
    for text in [
        "9".repeat(1_000),
        " ".repeat(5_000_000),
        "6 1/2in ".repeat(1_000),
        "\u{1f4a7}".repeat(1_000),
    ] {
        let e = refused(&text);
        assert!(e.message.contains("too long"), "{e}");
        assert!(e.to_string().chars().count() < 400);
        let e = length_at_clock(&text, Unit::Inch, Limits::AROUND).unwrap_err();
        assert!(e.message.contains("too long"), "{e}");
    }
}

#[test]
fn readings_with_a_clock_position() {
    let at = |text| length_at_clock(text, Unit::Inch, Limits::DIAMETER);
    let near_7 = 690 * 25_400;
    assert_eq!(at("6.90in@3"), Ok((near_7, Some(6))));
    assert_eq!(at("6.90 @ 10.5"), Ok((near_7, Some(21))));
    assert_eq!(at("6 29/32\"@7:30"), Ok((6 * IN + 29 * IN / 32, Some(15))));
    assert_eq!(at("6.90in"), Ok((near_7, None)));
    for (text, span, part) in [
        ("6.90in@", 7..7, "clock position is missing"),
        ("@3", 0..0, "length is missing"),
        ("@", 0..0, "length is missing"),
        ("6.90in@25", 7..9, "hours run"),
        ("6.90in@3@4", 6..7, "does not belong"),
        ("6.90in@7:15", 9..11, "half hour"),
        ("6 1/0in@3", 4..5, "0 below"),
        ("0in@3", 0..3, "more than 0"),
        ("six", 0..3, "starts with a number"),
    ] {
        let e = at(text).unwrap_err();
        assert_eq!(e.span, span, "{text}: {e}");
        assert!(e.message.contains(part), "{text}: {e}");
    }
    assert_eq!(at("6,90in@3").unwrap_err().help, "6.90in");
}

#[test]
fn every_64th_however_it_is_written() {
    for parts in 1..=72 * 64_i64 {
        let (whole, top) = (parts / 64, parts % 64);
        let want = (2 * parts * IN + 64) / 128;
        let fraction = match (whole, top) {
            (_, 0) => format!("{whole}"),
            (0, _) => format!("{top}/64"),
            _ => format!("{whole} {top}/64"),
        };
        assert_eq!(d(&fraction), Ok(want), "{fraction}");
        assert_eq!(d(&format!("{fraction}\"")), Ok(want));
        assert_eq!(d(&format!("{}in", fraction.replace(' ', "-"))), Ok(want));

        // The same as a decimal: 1/64 is 0.015625.
        let decimal = format!("{whole}.{:06}in", top * 15_625);
        assert_eq!(d(&decimal), Ok(want), "{decimal}");

        let (feet, inches) = (whole / 12, whole % 12);
        let both = format!("{feet}ft {inches} {top}/64in");
        assert_eq!(d(&both), Ok(want), "{both}");
    }
}

#[test]
fn every_thousandth_of_an_inch() {
    for mils in 1..=72_000_i64 {
        let text = format!("{}.{:03}in", mils / 1_000, mils % 1_000);
        assert_eq!(d(&text), Ok(mils * 2_540), "{text}");
    }
}

#[test]
fn every_tenth_of_a_millimetre() {
    for tenths in 1..=18_288_i64 {
        let text = format!("{}.{}mm", tenths / 10, tenths % 10);
        assert_eq!(d(&text), Ok(tenths * MM / 10), "{text}");
    }
}
