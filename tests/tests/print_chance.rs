//! How often a pipe has a line of print, against a second opinion.

use springline_compiler::model::{Carries, Sources};
use springline_core::fixed::Real;
use springline_core::image::Image;
use springline_core::print::{Line, PrintedClass, read};
use springline_tables::IMAGE;
use springline_tests::print::{Named, Opinion, Pipe, cases, class};

#[allow(clippy::cast_precision_loss, reason = "a comparison to a millionth")]
fn float(chance: Real) -> f64 {
    chance.to_fixed(60) as f64 / 2f64.powi(60)
}

/// What a line names, by the names of the sources.
fn named(image: &Image<'_>, sources: &Sources, line: &Line) -> Named {
    let indices = |bits: u64| (0..64usize).filter(move |at| bits >> at & 1 == 1);
    let marked = |bits: u64, all: &[springline_compiler::print::Marking]| -> Vec<String> {
        indices(bits).map(|at| all[at].name.clone()).collect()
    };
    let there = |names: Vec<Vec<String>>| names.into_iter().filter(|all| !all.is_empty()).collect();
    let print = &sources.print;
    let carried = [Carries::Water, Carries::Drain, Carries::Gas, Carries::Wires];
    Named {
        standards: there(
            line.standards
                .map(|bits| marked(bits, &print.standards))
                .to_vec(),
        ),
        codes: there(
            line.materials
                .map(|bits| marked(u64::from(bits), &print.codes))
                .to_vec(),
        ),
        bases: there(
            line.bases
                .map(|bits| {
                    let keys = indices(u64::from(bits)).map(|at| sources.systems[at].key.clone());
                    keys.collect()
                })
                .to_vec(),
        ),
        sizes: there(
            line.sizes
                .map(|both| {
                    let sizes = both.to_le_bytes().into_iter().filter(|size| *size > 0);
                    sizes.map(|size| image.size(size - 1).to_owned()).collect()
                })
                .to_vec(),
        ),
        classes: line.classes().map(|found| spelled(image, found)).collect(),
        pressures: line
            .pressures
            .iter()
            .filter(|psi| **psi > 0)
            .map(|psi| u32::from(*psi))
            .collect(),
        contents: carried
            .into_iter()
            .filter(|carries| line.contents >> *carries as u8 & 1 == 1)
            .collect(),
    }
}

/// A class as the second opinion spells it.
fn spelled(image: &Image<'_>, found: PrintedClass) -> String {
    let label = (0..=255)
        .find(|label| image.printed(*label) == found)
        .expect("a class of the tables");
    class(image.label(label)).expect("a class that is printed")
}

/// The integer likelihood is that of an opinion in `f64` that shares nothing with it: on every pipe, for every line and for
/// lines that name two of everything.
#[test]
fn the_chance_of_a_line_is_that_of_a_second_opinion() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tables/sources");
    let sources = springline_compiler::read(folder.as_ref()).expect("the sources read clean");
    let opinion = Opinion::of(&sources);
    let mut lines: Vec<Line> = cases()
        .iter()
        .map(|case| read(&image, case.line.as_bytes()))
        .collect();
    // Two of each thing, so that they disagree or stand side by side.
    let merged = |a: &Line, b: &Line| {
        let mut both = *a;
        both.standards[1] = b.standards[0] & !a.standards[0];
        both.materials[1] = b.materials[0] & !a.materials[0];
        both.bases[1] = b.bases[0] & !a.bases[0];
        for (held, new) in [
            (&mut both.sizes, b.sizes[0]),
            (&mut both.classes, b.classes[0]),
            (&mut both.pressures, b.pressures[0]),
        ] {
            held[1] = if new == held[0] || held[0] == 0 {
                0
            } else {
                new
            };
        }
        both.contents |= b.contents;
        both
    };
    let pairs: Vec<Line> = lines
        .iter()
        .zip(lines.iter().skip(7).step_by(3))
        .map(|(a, b)| merged(a, b))
        .collect();
    lines.extend(pairs);
    lines.extend(
        ["PV.. C9.. ?IPS DN 200", "..2241 A1.. NSF 61 DWV"]
            .map(|line| read(&image, line.as_bytes())),
    );
    let mut run = 0;
    let mut worst: f64 = 0.0;
    for line in &lines {
        let named = named(&image, &sources, line);
        for row in image.rows_from(0) {
            let family = &sources.families[usize::from(row.family)];
            let pipe = |class| Pipe {
                family: usize::from(row.family),
                nominal: image.size(row.size),
                system: &sources.systems[usize::from(row.system)].key,
                class,
            };
            let mut each = |class: Option<u8>, want: f64| {
                let got = float(line.chance(&image, &row, class));
                let off = (got / want - 1.0).abs();
                // What is below 2^-40 has few digits left in the fixed point of this test.
                if want > 1e-11 {
                    worst = worst.max(off);
                    assert!(
                        off < 1e-6,
                        "{named:?} on {} {:?}: {got} {want}",
                        family.key,
                        image.size(row.size)
                    );
                }
                run += 1;
            };
            if row.classes == 0 {
                each(None, opinion.chance(&named, pipe(None)));
                continue;
            }
            let (mut mean, mut shares) = (0.0, 0.0);
            for (at, held) in (0u8..).zip(image.classes(&row)) {
                let label = image.label(held.label);
                let source = family.classes.iter().find(|class| {
                    let psi = class.psi.as_ref().map_or(0, |psi| psi.value);
                    class.class == label
                        && class.nominal == image.size(row.size)
                        && psi == u32::from(held.psi)
                });
                let chance =
                    opinion.chance(&named, pipe(Some(source.expect("a class of the sources"))));
                each(Some(at), chance);
                let share = (-f64::from(held.share) / 16.0).exp2();
                mean += share * chance;
                shares += share;
            }
            let want = mean / shares;
            let got = float(line.chance(&image, &row, None));
            // Shares are powers of two to four digits.
            assert!(
                want < 1e-11 || (got / want - 1.0).abs() < 1e-4,
                "{got} {want}"
            );
        }
    }
    println!("{run} chances, off by {worst:.1e} at most");
    assert!(run > 100_000, "only {run} chances");
}
