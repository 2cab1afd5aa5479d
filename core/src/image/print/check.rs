//! What the print sections must hold.

use super::super::check::{Sections, each};
use super::super::layout::{MAX_STANDARDS, section};
use super::super::{Grade, Image, ImageError};
use super::{Marking, Print, PrintSettings, PrintWord};
use crate::print::{Contents, PrintedClass, Scale, Thing, Unit, folded};

/// The print sections, not yet checked.
pub(in super::super) fn tables<'a>(sections: &Sections<'a, '_>) -> Result<Print<'a>, ImageError> {
    let settings = match sections.table(section::PRINT)? {
        [only] => PrintSettings::from_bytes(only),
        _ => return Err(ImageError::Section(section::PRINT)),
    };
    Ok(Print {
        settings,
        standards: sections.table(section::STANDARDS)?,
        codes: sections.table(section::CODES)?,
        words: sections.table(section::PRINT_WORDS)?,
        printed: sections.table(section::PRINTED)?,
    })
}

/// Checks everything that an accessor or the reader of lines relies on.
pub(in super::super) fn contents(image: &Image<'_>) -> Result<(), ImageError> {
    let print = &image.print;
    let bad = ImageError::Section;
    let settings = &print.settings;
    let sane = [settings.misread, settings.foreign]
        .iter()
        .all(|share| *share > 0 && *share < 1 << 30)
        && settings.legible > 0
        && settings.classes > 1
        && settings.pressures > 1;
    if !sane {
        return Err(ImageError::Record(section::PRINT, 0));
    }
    let within = |start: u16, length: u8| {
        length > 0 && usize::from(start) + usize::from(length) <= image.text.len()
    };
    for (id, most, markings) in [
        (section::STANDARDS, MAX_STANDARDS, print.standards),
        (section::CODES, 32, print.codes),
    ] {
        // With one of a kind there would be no other to take it for.
        if markings.len() < 2 || markings.len() > most {
            return Err(bad(id));
        }
        each(id, markings.iter().map(Marking::from_bytes), |marking| {
            within(marking.name, marking.length)
                && usize::from(marking.variants) < image.joints.sets.len()
        })?;
    }
    if image.systems.len() < 2 || image.systems.len() > 16 {
        return Err(bad(section::SYSTEMS));
    }
    if image.sizes.len() < 2 || image.sizes.len() > usize::from(u8::MAX) {
        return Err(bad(section::SIZES));
    }
    if print.printed.len() != image.labels.len() {
        return Err(bad(section::PRINTED));
    }
    each(section::PRINTED, image.printed_classes(), |class| {
        *class == PrintedClass::NONE
            || class.scale().is_some() && class.span().is_none_or(|(low, high)| low < high)
    })?;
    let mut last = 0;
    each(section::PRINT_WORDS, image.print_words(), |word| {
        let first = image.print_word(*word).bytes().next().map_or(0, folded);
        let ordered = first >= last;
        last = first;
        ordered && within(word.word, word.length) && sane_word(image, *word)
    })
}

fn sane_word(image: &Image<'_>, word: PrintWord) -> bool {
    let fits = |table: usize| usize::from(word.value) < table;
    let unit = Unit::from_code(word.value);
    let means = match Thing::from_code(word.thing_and_grade & 15) {
        Some(Thing::Standard) => fits(image.print.standards.len()),
        Some(Thing::Base) => fits(image.systems.len()),
        Some(Thing::Material) => fits(image.print.codes.len()),
        Some(Thing::Contents) => word.value != 0 && word.value < Contents::NON_POTABLE.0 << 1,
        Some(Thing::SizeBefore | Thing::SizeAfter) => unit.is_some_and(|unit| !unit.is_pressure()),
        Some(Thing::PressureBefore | Thing::PressureAfter) => unit.is_some_and(Unit::is_pressure),
        Some(Thing::Class) => Scale::from_code(u16::from(word.value)).is_some(),
        Some(Thing::Plain) => true,
        None => false,
    };
    means && Grade::from_code(word.thing_and_grade >> 4).is_some()
}
