//! What the names of classes are in print.

use springline_core::print::{PrintedClass, Scale, Thing};

use super::Print;

/// A class name of the tables as it is printed: its first word must be one of the words for a class. A name that is a
/// pressure, or nothing that is printed, is none.
pub(crate) fn printed(print: &Print, label: &str) -> PrintedClass {
    let mut pieces = label.splitn(2, ' ');
    let (first, rest) = (pieces.next().unwrap_or(""), pieces.next().unwrap_or(""));
    let is =
        |held: &&super::Word| held.thing == Thing::Class && held.word.eq_ignore_ascii_case(first);
    let Some(word) = print.words.iter().find(is) else {
        return PrintedClass::NONE;
    };
    let scale = Scale::from_code(u16::from(word.value)).unwrap_or(Scale::Class);
    let class = match scale {
        Scale::Weight => PrintedClass::number(scale, 10),
        Scale::Class if rest.contains(['-', '/']) => {
            let pressures = rest.split(['-', '/']).map(str::parse);
            match pressures.collect::<Result<Vec<u16>, _>>().as_deref() {
                Ok([low, high]) => Some(PrintedClass::pressures(*low, *high)),
                _ => None,
            }
        }
        _ => match (tenths(rest), rest.as_bytes()) {
            // A class from 100 on is a pressure.
            (Some(tenths), _) if scale == Scale::Class && tenths >= 1000 => None,
            (Some(tenths), _) => PrintedClass::number(scale, tenths),
            (None, [letter]) => Some(PrintedClass::letter(scale, *letter)),
            _ => None,
        },
    };
    class.unwrap_or(PrintedClass::NONE)
}

/// A number with at most one place behind the point, in tenths.
fn tenths(text: &str) -> Option<u32> {
    let (whole, place) = text.split_once('.').unwrap_or((text, "0"));
    let (whole, place): (u32, u32) = (whole.parse().ok()?, place.parse().ok()?);
    (place < 10).then(|| whole * 10 + place)
}
