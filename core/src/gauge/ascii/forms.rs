//! Each form, from a whole line without its end.

use super::scan::Scan;
use super::{End, Form, Mark};
use crate::gauge::{Decimal, Event, Fault, GaugeReading, NotLive, Trouble, Unit};

/// Reads a line. What a gauge calls an error is looked for before any number.
#[inline]
pub(super) fn read(form: Form, line: &[u8]) -> Result<Event, Trouble> {
    if line.is_empty() {
        return Err(Trouble::Empty);
    }
    let scan = Scan::new(line);
    match form {
        Form::Coded => coded(scan),
        Form::Numbered => numbered(scan),
        Form::Typed => typed(scan),
        Form::Columns => columns(scan),
        Form::Padded => padded(scan),
        Form::Signed => signed(scan),
        Form::Bare => bare(scan),
        Form::Radio => radio(scan),
        Form::Keyed { mark, end } => keyed(scan, mark, end),
    }
}

/// `01A+0000.123`, `911`.
#[inline]
fn coded(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    if scan.eat(b"9") {
        scan.digit()?;
        let code = scan.digit()?;
        scan.end()?;
        return Ok(Event::Fault(match code {
            1 => Fault::NoData,
            code => Fault::Code(code),
        }));
    }
    scan.expect(b"0")?;
    scan.digit()?;
    scan.expect(b"A")?;
    let number = eight(&mut scan)?;
    scan.end()?;
    reading(number, None)
}

/// `001, -1.2340, NRM, 01`.
#[inline]
fn numbered(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    scan.label()?;
    scan.expect(b", ")?;
    let minus = sign(&mut scan).unwrap_or(false);
    let number = scan.number(minus, b'.')?;
    scan.expect(b", ")?;
    let held = if scan.eat(b"NRM") {
        None
    } else if scan.eat(b"MIN") {
        Some(NotLive::HeldSmallest)
    } else if scan.eat(b"MAX") {
        Some(NotLive::HeldLargest)
    } else {
        scan.expect(b"TIR")?;
        Some(NotLive::HeldSpread)
    };
    scan.expect(b", ")?;
    scan.label()?;
    scan.end()?;
    let read = reading(number, None)?;
    Ok(held.map_or(read, Event::NotLive))
}

/// `1 MW+003.4665 inch`, `3 TO 999999.99 mm`.
#[inline]
fn typed(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    scan.label()?;
    scan.expect(b" ")?;
    if scan.eat(b"TO") {
        return Ok(Event::Fault(Fault::TimedOut));
    }
    scan.expect(b"MW")?;
    let number = eight(&mut scan)?;
    scan.expect(b" ")?;
    let unit = scan.unit()?;
    scan.end()?;
    reading(number, Some(unit))
}

/// `+ 2.1380, MM`: public descriptions of the field differ, from seven characters to nine.
#[inline]
fn columns(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    let minus = sign(&mut scan)?;
    let field = scan.until(b',');
    if !(7..=9).contains(&field.length()) {
        return Err(Trouble::Form);
    }
    let number = whole(field.trimmed(), minus)?;
    scan.expect(b", ")?;
    let unit = scan.unit()?;
    scan.end()?;
    reading(number, Some(unit))
}

/// `               1.0000 in`: always 24 characters.
#[inline]
fn padded(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    scan.expect(&[b' '; 13])?;
    let minus = scan.eat(b"-");
    if !minus {
        scan.expect(b" ")?;
    }
    let number = whole(scan.take(7)?.trimmed(), minus)?;
    scan.expect(b" ")?;
    let last = scan.take(2)?;
    scan.end()?;
    reading(number, Some({ last }.unit()?))
}

/// `+012.345 mm = >`, `ERR2`.
#[inline]
fn signed(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    if let Some(code) = error(&mut scan)? {
        return Ok(Event::Fault(Fault::Code(code)));
    }
    let minus = sign(&mut scan)?;
    let number = scan.number(minus, b'.')?;
    scan.expect(b" ")?;
    let unit = scan.unit()?;
    let judged = !scan.done();
    for _ in 0..2 {
        if !scan.done() {
            scan.expect(b" ")?;
            if !(scan.eat(b"<") || scan.eat(b"=") || scan.eat(b">")) {
                return Err(Trouble::Form);
            }
        }
    }
    scan.end()?;
    let reading = GaugeReading::new(number, Some(unit))?;
    Ok(Event::Reading(reading.with_verdict(judged)))
}

/// `+12.345`, ` 12.345`, `ERR3`.
#[inline]
fn bare(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    if let Some(code) = error(&mut scan)? {
        return Ok(Event::Fault(match code {
            0 => Fault::Sensor,
            3 => Fault::OffScale,
            code => Fault::Code(code),
        }));
    }
    let minus = if scan.eat(b" ") {
        false
    } else {
        sign(&mut scan)?
    };
    reading(whole(scan, minus)?, None)
}

/// `5.637 IN 3 5`.
#[inline]
fn radio(mut scan: Scan<'_>) -> Result<Event, Trouble> {
    let minus = sign(&mut scan).unwrap_or(false);
    let number = scan.number(minus, b'.')?;
    let mut unit = None;
    if scan.eat(b" ") {
        unit = Some(scan.unit()?);
        for _ in 0..2 {
            if scan.eat(b" ") {
                scan.label()?;
            }
        }
    }
    scan.end()?;
    reading(number, unit)
}

/// `105.16mm`.
#[inline]
fn keyed(mut scan: Scan<'_>, mark: Mark, end: End) -> Result<Event, Trouble> {
    // A gauge that pads its numbers types the blanks too. Where a line ends in something else than itself, what follows a
    // blank may be the middle of another form's.
    while end == End::Line && scan.eat(b" ") {}
    let minus = sign(&mut scan).unwrap_or(false);
    let number = match mark {
        Mark::Point => scan.number(minus, b'.'),
        Mark::Comma => scan.number(minus, b','),
    }?;
    let mut unit = None;
    if !scan.done() {
        if end != End::Blank {
            scan.eat(b" ");
        }
        unit = Some(scan.unit()?);
    }
    scan.end()?;
    reading(number, unit)
}

#[inline]
fn reading(number: Decimal, unit: Option<Unit>) -> Result<Event, Trouble> {
    GaugeReading::new(number, unit).map(Event::Reading)
}

/// A plus or a minus; whether it is a minus.
#[inline]
fn sign(scan: &mut Scan<'_>) -> Result<bool, Trouble> {
    if scan.eat(b"-") {
        return Ok(true);
    }
    scan.expect(b"+").map(|()| false)
}

/// A sign and eight characters of a number.
#[inline]
fn eight(scan: &mut Scan<'_>) -> Result<Decimal, Trouble> {
    let minus = sign(scan)?;
    whole(scan.take(8)?, minus)
}

/// A number and nothing else.
#[inline]
fn whole(mut scan: Scan<'_>, minus: bool) -> Result<Decimal, Trouble> {
    let number = scan.number(minus, b'.')?;
    scan.end()?;
    Ok(number)
}

/// The code of a line such as `ERR2`, where it is one.
#[inline]
fn error(scan: &mut Scan<'_>) -> Result<Option<u8>, Trouble> {
    if !scan.eat(b"ERR") {
        return Ok(None);
    }
    let code = scan.digit()?;
    scan.end()?;
    Ok(Some(code))
}
