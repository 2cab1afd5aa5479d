//! Lines whole, torn, noisy and flipped.

use proptest::prelude::*;

use super::wire::{FORMS, keyed, line, said, tells};
use crate::gauge::ascii::{Ascii, End, Form, Mark};
use crate::gauge::{Event, GaugeReading, Trouble, Unit};

const UNITS: [Unit; 2] = [Unit::Millimetre, Unit::Inch];

/// The digits, places and unit of the only event, if that is a reading.
fn number(events: &[Event]) -> Option<(i64, u8, Option<Unit>)> {
    match events {
        [Event::Reading(reading)] => {
            let shown = reading.shown();
            Some((shown.digits(), shown.places(), reading.unit()))
        }
        _ => None,
    }
}

fn form() -> impl Strategy<Value = Form> {
    prop::sample::select(FORMS.map(|(_, form)| form).to_vec())
}

fn unit() -> impl Strategy<Value = Unit> {
    prop::sample::select(UNITS.to_vec())
}

/// A byte that ends lines of a form, and its fellows that may stand for it.
fn end_of(line: &str) -> u8 {
    line.bytes().last().unwrap()
}

#[test]
fn every_value_comes_back() {
    for (name, form) in FORMS {
        let mut decoder = Ascii::new(form);
        for unit in UNITS {
            let places: u8 = if unit == Unit::Inch { 3 } else { 2 };
            // 0 to 24 in by a thousandth, 0 to 600 mm by a hundredth; under miri a few of them.
            let last = if unit == Unit::Inch { 24_000 } else { 60_000 };
            let step = if cfg!(miri) { 7_919 } else { 1 };
            for size in (0..=last).step_by(step) {
                for digits in [size, -size] {
                    let text = line(form, digits, usize::from(places), unit);
                    let told = tells(form).then_some(unit);
                    assert_eq!(
                        number(&said(&mut decoder, text.as_bytes())),
                        Some((digits, places, told)),
                        "{name}: {text:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_line_ends_once() {
    for end in ["\r", "\n", "\r\n"] {
        let text = ["+012.345 mm", end].concat().repeat(3);
        let events = said(&mut Ascii::new(Form::Signed), text.as_bytes());
        assert_eq!(events.len(), 3, "{end:?}");
        assert!(events.iter().all(|event| number(&[*event]).is_some()));
    }
    // An LF is only swallowed right behind a CR.
    let events = said(&mut Ascii::new(Form::Signed), b"\r\n\n");
    assert_eq!(events, [Event::Damaged(Trouble::Empty); 2]);
}

#[test]
fn each_damage_has_its_reason() {
    let damaged = |form, bytes: &[u8]| match said(&mut Ascii::new(form), bytes)[..] {
        [Event::Damaged(trouble)] => trouble,
        ref other => panic!("{bytes:?}: {other:?}"),
    };
    let signed = |text: &str| damaged(Form::Signed, text.as_bytes());
    assert_eq!(signed("\r"), Trouble::Empty);
    assert_eq!(signed("+12.345 kg\r"), Trouble::Unit);
    assert_eq!(signed("+12.345 mmm\r"), Trouble::Unit);
    assert_eq!(signed("+12345 mm\r"), Trouble::NoPoint);
    assert_eq!(signed("+12345.678901 mm\r"), Trouble::Digits);
    assert_eq!(signed("+00000000.345 mm\r"), Trouble::Digits);
    // 2^64 and a little: what overflows must not come round to a small number.
    assert_eq!(signed("+184467440737095516.28 mm\r"), Trouble::Digits);
    assert_eq!(signed("+1050.01 mm\r"), Trouble::TooLarge);
    assert_eq!(signed("+41.339 in\r"), Trouble::TooLarge);
    assert_eq!(signed("12.345 mm\r"), Trouble::Form);
    assert_eq!(signed("+12.345\r"), Trouble::Form);
    assert_eq!(signed("+12.345 mm < = >\r"), Trouble::Form);
    assert_eq!(signed("+12.345 mm <=\r"), Trouble::Form);
    assert_eq!(signed("ERR\r"), Trouble::Form);
    assert_eq!(signed("ERR22\r"), Trouble::Form);
    assert_eq!(
        signed("+12.345 mm                          \r"),
        Trouble::Overlong
    );
    assert_eq!(damaged(Form::Signed, b"+12.3\x0045 mm\r"), Trouble::NotText);
    assert_eq!(damaged(Form::Signed, b"+12.345 m\xed\r"), Trouble::NotText);
    assert_eq!(damaged(Form::Coded, b"01B+0000.123\r"), Trouble::Form);
    assert_eq!(damaged(Form::Coded, b"11A+0000.123\r"), Trouble::Form);
    assert_eq!(damaged(Form::Coded, b"9112\r"), Trouble::Form);
    assert_eq!(damaged(Form::Typed, b"1 XX+003.4665 inch\r"), Trouble::Form);
    assert_eq!(damaged(Form::Typed, b"1 MW+03.4665 inch\r"), Trouble::Form);
    assert_eq!(damaged(Form::Typed, b" MW+003.4665 inch\r"), Trouble::Form);
    assert_eq!(damaged(Form::Radio, b"5.637 IN 3000\r"), Trouble::Form);
    assert_eq!(
        damaged(Form::Padded, b"      7        1.0000 in\r"),
        Trouble::Form
    );
    assert_eq!(damaged(Form::Columns, b"+2.1380, MM\r"), Trouble::Form);
    assert_eq!(damaged(Form::Columns, b"+    2.1380, MM\r"), Trouble::Form);
    assert_eq!(damaged(Form::Columns, b"+2 .1380, MM\r"), Trouble::NoPoint);
    assert_eq!(
        damaged(Form::Padded, b"              1.0000 in\r"),
        Trouble::Form
    );
    assert_eq!(damaged(Form::Radio, b"5.637 IN 3 5 7\r"), Trouble::Form);
}

#[test]
fn a_top_bit_is_masked_where_the_form_says_so() {
    let text = line(Form::Padded, 10_000, 4, Unit::Inch);
    let high: Vec<u8> = text.bytes().map(|byte| byte | 0x80).collect();
    let want = Some((10_000, 4, Some(Unit::Inch)));
    assert_eq!(number(&said(&mut Ascii::new(Form::Padded), &high)), want);
}

#[test]
fn marks_of_limits_are_told_and_not_which() {
    let read = |text: &str| match said(&mut Ascii::new(Form::Signed), text.as_bytes())[..] {
        [Event::Reading(reading)] => reading,
        ref other => panic!("{text:?}: {other:?}"),
    };
    assert!(!read("+012.345 mm\r").judged());
    for text in ["+012.345 mm <\r", "+012.345 mm =\r", "+012.345 mm = >\r"] {
        assert!(read(text).judged());
    }
}

#[test]
fn a_comma_is_what_the_user_says_it_is() {
    let read = |mark, end, text: &str| said(&mut Ascii::new(keyed(mark, end)), text.as_bytes());
    assert_eq!(
        number(&read(Mark::Comma, End::Line, "105,16\n")),
        Some((10_516, 2, None))
    );
    // Not 105 and then 16.
    for end in [End::Line, End::Comma] {
        let events = read(Mark::Point, end, "105,16\n");
        let none = |event: &Event| matches!(event, Event::Damaged(Trouble::NoPoint));
        assert!(!events.is_empty() && events.iter().all(none), "{events:?}");
    }
    let events = read(Mark::Comma, End::Comma, "105,16,");
    assert!(events.iter().all(|event| number(&[*event]).is_none()));
}

/// What a torn line left must not become the head of the next one.
#[test]
fn a_head_does_not_join_the_next_line() {
    let mut decoder = Ascii::new(Form::Radio);
    assert_eq!(said(&mut decoder, b"1"), []);
    assert_eq!(decoder.silence(), Some(Event::Damaged(Trouble::Unfinished)));
    assert_eq!(decoder.silence(), None);
    let read = number(&said(&mut decoder, b"2.345 MM\r\n"));
    assert_eq!(read, Some((2_345, 3, Some(Unit::Millimetre))));
}

#[test]
fn a_broken_character_spoils_its_line_and_no_other() {
    let mut decoder = Ascii::new(Form::Signed);
    assert_eq!(said(&mut decoder, b"+012."), []);
    assert_eq!(decoder.broken(), Some(Event::Damaged(Trouble::Port)));
    assert_eq!(decoder.broken(), None);
    assert_eq!(said(&mut decoder, b"+345.000 mm\r"), []);
    assert!(number(&said(&mut decoder, b"+012.345 mm\r")).is_some());
}

proptest! {
    #[test]
    fn it_is_in_step_after_any_garbage(
        form in form(),
        garbage in prop::collection::vec(any::<u8>(), 0..200),
        digits in -4_133_i64..=4_133,
        unit in unit(),
    ) {
        let text = line(form, digits, 2, unit);
        let mut decoder = Ascii::new(form);
        let ends = garbage.iter().filter(|byte| b"\r\n\t, ".contains(&(*byte & 0x7f))).count();
        prop_assert!(said(&mut decoder, &garbage).len() <= 2 * ends + 1);
        let _ = decoder.push(end_of(&text));
        // An LF behind garbage that ended in CR belongs to it.
        if end_of(&text) == b'\n' {
            let _ = decoder.push(b'\n');
        }
        let told = tells(form).then_some(unit);
        prop_assert_eq!(number(&said(&mut decoder, text.as_bytes())), Some((digits, 2, told)));
    }

    #[test]
    fn garbage_is_never_longer_than_a_caliper(form in form(), text in "[-+ 0-9.,AINMRWEnimch\r\n]{0,60}") {
        for event in said(&mut Ascii::new(form), text.as_bytes()) {
            if let Event::Reading(reading) = event {
                let length = reading.length_or(Unit::Millimetre).unwrap();
                prop_assert!((-GaugeReading::LARGEST..=GaugeReading::LARGEST).contains(&length));
                prop_assert!(text.contains(['.', ',']));
            }
        }
    }

    #[test]
    fn no_prefix_is_a_reading(form in form(), digits in -4_133_i64..=4_133, unit in unit()) {
        let text = line(form, digits, 2, unit);
        let end = text.trim_end_matches(['\r', '\n', '\t', ',']).len();
        let end = if form == keyed(Mark::Point, End::Blank) { text.len() - 1 } else { end };
        for length in 0..=end {
            let mut decoder = Ascii::new(form);
            prop_assert_eq!(said(&mut decoder, &text.as_bytes()[..length]), []);
            let unfinished = (length > 0).then_some(Event::Damaged(Trouble::Unfinished));
            prop_assert_eq!(decoder.silence(), unfinished);
            prop_assert!(number(&said(&mut decoder, text.as_bytes())).is_some());
        }
    }

    /// A line whose end came early, with the true end behind it: the prefixes that a lost byte or two would make. A
    /// form with fixed widths or a unit at its end refuses them; one without can only lose digits behind the point.
    #[test]
    fn a_tail_that_is_lost_never_changes_the_value_much(
        form in form(), digits in -4_133_i64..=4_133, unit in unit(),
    ) {
        let text = line(form, digits, 2, unit);
        let body = text.trim_end_matches(['\r', '\n', '\t', ',', ' ']);
        for length in 0..body.len() {
            let torn = [&body.as_bytes()[..length], &[end_of(&text)]].concat();
            let events = said(&mut Ascii::new(form), &torn);
            if let Some((read, places, told)) = number(&events) {
                if (read, places, told) == (digits, 2, tells(form).then_some(unit)) {
                    // What was lost said nothing of the number: `ch` of an inch, a channel.
                    continue;
                }
                prop_assert!(matches!(form, Form::Bare | Form::Radio | Form::Keyed { .. }), "{:?}", torn);
                prop_assert!(told.is_none() || told == Some(unit));
                prop_assert_eq!(read, digits / 10_i64.pow(2 - u32::from(places)));
            }
        }
    }

    /// Where a flip can be another number: in a digit, everywhere. Elsewhere it is refused or changes nothing, but for
    /// these: a minus and a blank of padding are each one flip from what forms without fixed widths read past.
    #[test]
    fn a_flipped_bit_outside_the_digits_is_never_another_number(
        form in form(), digits in -4_133_i64..=4_133, unit in unit(),
    ) {
        let text = line(form, digits, 2, unit);
        let want = (digits, tells(form).then_some(unit));
        for at in 0..text.len() {
            for bit in 0..8 {
                let mut bytes = text.clone().into_bytes();
                let was = bytes[at];
                bytes[at] ^= 1 << bit;
                let now = bytes[at];
                for event in said(&mut Ascii::new(form), &bytes) {
                    let Event::Reading(reading) = event else { continue };
                    let shown = reading.shown();
                    let context = format!("{text:?} {at} {bit}: {event:?}");
                    if was.is_ascii_digit() && now.is_ascii_digit() {
                        prop_assert_eq!(reading.unit(), want.1, "{}", context);
                        continue;
                    }
                    // A zero that becomes a blank of padding costs a place, and not the value.
                    let value = shown.digits() * 10_i64.pow(2_u32.saturating_sub(shown.places().into()));
                    let longer = 10_i64.pow(u32::from(shown.places()).saturating_sub(2));
                    let same = value == digits * longer;
                    let unfixed = matches!(form, Form::Radio | Form::Keyed { .. });
                    let minus_ends_line = unfixed && was == b'-' && now == b'\r' && value == -digits;
                    let ends_early = unfixed && form_ends(form, now);
                    prop_assert!(same || minus_ends_line || ends_early, "{}", context);
                    prop_assert!(
                        reading.unit() == want.1 || (unfixed && reading.unit().is_none()),
                        "{}", context
                    );
                }
            }
        }
    }
}

/// Whether a byte ends a line in the form, so that a flip into it makes two lines of one.
fn form_ends(form: Form, byte: u8) -> bool {
    let own = match form {
        Form::Keyed {
            end: End::Blank, ..
        } => b' ',
        Form::Keyed {
            end: End::Comma, ..
        } => b',',
        Form::Keyed { end: End::Tab, .. } => b'\t',
        _ => b'\r',
    };
    byte == own || matches!(byte, b'\r' | b'\n')
}
