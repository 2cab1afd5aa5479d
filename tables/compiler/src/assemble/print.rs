//! Print lines in the image's form.

use std::collections::BTreeSet;

use springline_core::image::{ListedClass, PrintSettings, Set};
use springline_core::print::PrintedClass;

use super::joints::index;
use super::settings::q32;
use crate::encode::DraftPrint;
use crate::model::Sources;
use crate::print::{Marking, printed};

/// The print sections, beside labels and classes that are complete; sets of variants go to those of the joints.
pub(super) fn print(
    sources: &Sources,
    labels: &[String],
    classes: &[ListedClass],
    sets: &mut Vec<Set>,
) -> DraftPrint {
    let (print, constants) = (&sources.print, &sources.settings.print);
    let labels: Vec<PrintedClass> = labels.iter().map(|label| printed(print, label)).collect();
    let single = |class: &&PrintedClass| **class != PrintedClass::NONE && class.span().is_none();
    let names: BTreeSet<u16> = labels.iter().filter(single).map(|class| class.0).collect();
    let spans = labels.iter().filter_map(|class| class.span());
    let ends = spans.flat_map(|(low, high)| (low..=high).step_by(usize::from(PrintedClass::STEP)));
    let pressures: BTreeSet<u16> = classes
        .iter()
        .map(|class| class.psi_and_grade & 0xfff)
        .filter(|psi| *psi > 0)
        .chain(ends)
        .collect();
    let count = |all: &BTreeSet<u16>| u16::try_from(all.len()).unwrap_or(u16::MAX);
    let mut markings = |all: &[Marking]| {
        let one = |held: &Marking| (held.name.clone(), index(sets, Set(held.variants.0)));
        all.iter().map(one).collect()
    };
    DraftPrint {
        settings: PrintSettings {
            misread: q32(constants.misread),
            foreign: q32(constants.foreign),
            legible: q32(constants.legible),
            classes: count(&names),
            pressures: count(&pressures),
        },
        standards: markings(&print.standards),
        codes: markings(&print.codes),
        words: print
            .words
            .iter()
            .map(|word| {
                let thing_and_grade = word.thing as u8 | (word.grade as u8) << 4;
                (word.word.clone(), thing_and_grade, word.value)
            })
            .collect(),
        printed: labels.iter().map(|class| class.0).collect(),
    }
}
