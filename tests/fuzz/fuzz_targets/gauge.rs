//! Any bytes and any edges at each gauge decoder: nothing that no caliper spans comes out, and a whole line or frame
//! behind the worst of them is read.

#![no_main]

use libfuzzer_sys::fuzz_target;
use springline_core::gauge::ascii::{Ascii, End, Form, Mark};
use springline_core::gauge::clocked24::Clocked24;
use springline_core::gauge::spc13::{DIGITS, Spc13};
use springline_core::gauge::{Event, GaugeReading, Unit};

/// Each form, and a line of it that is a reading.
const FORMS: [(Form, &[u8]); 10] = [
    (Form::Coded, b"01A+0073.120\r"),
    (Form::Numbered, b"001, -1.2340, NRM, 01\r"),
    (Form::Typed, b"1 MW+003.4665 inch\r"),
    (Form::Columns, b"+ 2.1380, MM\r"),
    (Form::Padded, b"               1.0000 in\r"),
    (Form::Signed, b"+012.345 mm = >\r"),
    (Form::Bare, b"+12.345\r"),
    (Form::Radio, b"5.637 IN 3 5\r"),
    (
        Form::Keyed {
            mark: Mark::Point,
            end: End::Tab,
        },
        b"105.16mm\t",
    ),
    (
        Form::Keyed {
            mark: Mark::Comma,
            end: End::Blank,
        },
        b"105,16 ",
    ),
];

fuzz_target!(|data: &[u8]| {
    let Some((&way, data)) = data.split_first() else {
        return;
    };
    match usize::from(way) {
        way @ 0..128 => lines(FORMS[way % FORMS.len()], data),
        128..192 => clocked(
            data,
            Clocked24::new(0, true, true),
            Clocked24::edge,
            Clocked24::elapse,
            (24, "000010001110010000000000"),
        ),
        192..240 => clocked(
            data,
            Spc13::new(0, true, true),
            Spc13::edge,
            Spc13::elapse,
            (52, "1111111111111111000000000000100100101010101001000000"),
        ),
        _ => words(data),
    }
});

fn sound(event: Option<Event>) -> bool {
    let Some(Event::Reading(reading)) = event else {
        return false;
    };
    let length = reading
        .length_or(Unit::Millimetre)
        .expect("a caliper's length");
    assert!((-GaugeReading::LARGEST..=GaugeReading::LARGEST).contains(&length));
    true
}

fn lines((form, whole): (Form, &[u8]), data: &[u8]) {
    let mut decoder = Ascii::new(form);
    for &byte in data {
        match byte {
            0xfe => sound(decoder.silence()),
            0xff => sound(decoder.broken()),
            byte => sound(decoder.push(byte)),
        };
    }
    sound(decoder.silence());
    let events = whole.iter().filter(|&&byte| sound(decoder.push(byte)));
    assert_eq!(events.count(), 1, "{form:?} is in step");
}

/// Steps of three bytes: a wait, and the levels of the two lines or that only time passed. Then a silence and a frame.
fn clocked<C>(
    data: &[u8],
    mut decoder: C,
    edge: fn(&mut C, u32, bool, bool) -> Option<Event>,
    elapse: fn(&mut C, u32) -> Option<Event>,
    (count, whole): (usize, &str),
) {
    let mut now = 0_u32;
    for step in data.chunks_exact(3) {
        let wait = u32::from(u16::from_le_bytes([step[0], step[1]]));
        now = now.wrapping_add(wait << (step[2] >> 4));
        sound(if step[2] & 4 == 0 {
            edge(&mut decoder, now, step[2] & 1 == 1, step[2] & 2 == 2)
        } else {
            elapse(&mut decoder, now)
        });
    }
    // The clock comes to rest high, whatever it was.
    sound(edge(&mut decoder, now, true, true));
    now = now.wrapping_add(60_000);
    sound(elapse(&mut decoder, now));
    assert_eq!(whole.len(), count);
    let mut read = 0;
    for bit in whole.bytes() {
        for clock in [false, true] {
            now = now.wrapping_add(100);
            read += u32::from(sound(edge(&mut decoder, now, clock, bit == b'1')));
        }
    }
    now = now.wrapping_add(60_000);
    read += u32::from(sound(elapse(&mut decoder, now)));
    assert_eq!(read, 1, "in step");
}

/// Whole frames, past what guards them on the line.
fn words(data: &[u8]) {
    for word in data.chunks_exact(4) {
        let word = u32::from_le_bytes([word[0], word[1], word[2], word[3]]);
        sound(Clocked24::word(word).ok());
    }
    for digits in data.chunks_exact(DIGITS) {
        let mut frame = [0; DIGITS];
        frame.copy_from_slice(digits);
        sound(Spc13::digits(&frame).ok());
        sound(Spc13::digits(&frame.map(|digit| digit & 0xf)).ok());
    }
}
