//! Which values the tables have, so that other numbers of a line mean nothing.

use super::class::{PrintedClass, Scale};
use super::number::Number;
use super::parts::Said;
use super::thing::Unit;
use crate::image::Image;

/// Hundredths of psi in a bar.
const BAR: u32 = 1450;

/// How a nominal size is written.
fn unit_of(size: &str) -> Unit {
    if size.starts_with("DN") {
        Unit::Dn
    } else if size.ends_with("mm") {
        Unit::Millimetre
    } else {
        Unit::Inch
    }
}

/// A nominal size, or two: a DN may be iron's number or plastic's OD, and so may millimetres.
pub(super) fn size(image: &Image<'_>, number: Number, unit: Unit) -> Option<Said> {
    // What is cut off may go on.
    if number.open {
        return None;
    }
    let find = |unit: Unit, measure: u32| {
        let sizes = 0..u8::try_from(image.size_count()).unwrap_or(u8::MAX);
        let is = |size: &u8| {
            u32::from(image.measure(*size)) == measure && unit_of(image.size(*size)) == unit
        };
        sizes.into_iter().find(is)
    };
    if unit == Unit::Inch {
        return find(unit, number.sixty_fourths()?).map(|size| Said::Size(size, None));
    }
    let whole = number.whole()?;
    // Sizes compare in sixty-fourths of an inch, a DN as 25 to the inch.
    let iron = find(Unit::Dn, (whole * 128 + 25) / 50);
    let plastic = find(Unit::Millimetre, (whole * 1280 + 254) / 508);
    match (iron, plastic) {
        (Some(first), second) => Some(Said::Size(first, second)),
        (None, Some(only)) => Some(Said::Size(only, None)),
        (None, None) => None,
    }
}

/// A pressure of some class.
pub(super) fn pressure(image: &Image<'_>, number: Number, unit: Unit) -> Option<Said> {
    let psi = match unit {
        Unit::Bar => (number.tenths()? * BAR + 500) / 1000,
        _ => number.whole()?,
    };
    let is = |held: u16| u32::from(held) == psi;
    let spans = image.printed_classes().filter_map(PrintedClass::span);
    let known = image.pressures().any(is)
        || spans
            .into_iter()
            .any(|(low, high)| PrintedClass::steps(low, high).any(is));
    let longer = |held: u16| u32::from(held / 10) == psi || u32::from(held / 100) == psi;
    let sure = !number.open || !image.pressures().any(longer);
    let psi = u16::try_from(psi).ok().filter(|_| known && sure)?;
    Some(Said::Pressure(psi))
}

/// A class of the tables; what is called a class from 100 on is a pressure.
pub(super) fn class(image: &Image<'_>, number: Number, scale: Scale) -> Option<Said> {
    let tenths = number.tenths()?;
    if scale == Scale::Class && tenths >= 1000 {
        return pressure(image, number, Unit::Psi);
    }
    let class = PrintedClass::number(scale, tenths)?;
    let longer = |held: PrintedClass| {
        let held_tenths = u32::from(held.value());
        held != class
            && held.scale() == Some(scale)
            && (1..4).any(|places| held_tenths / 10_u32.pow(places) == tenths / 10)
    };
    let sure = !number.open || !image.printed_classes().any(longer);
    let known = image.printed_classes().any(|held| held == class);
    (known && sure).then_some(Said::Class(class))
}

/// The class that is a word, where the tables have it.
pub(super) fn weight(image: &Image<'_>) -> Option<PrintedClass> {
    image
        .printed_classes()
        .find(|held| held.scale() == Some(Scale::Weight))
}

/// A class that is a letter.
pub(super) fn letter(image: &Image<'_>, scale: Scale, letter: u8) -> Option<PrintedClass> {
    let class = PrintedClass::letter(scale, letter);
    image.printed_classes().find(|held| *held == class)
}
