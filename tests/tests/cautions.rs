//! Cautions as the image has them against the conditions of `cautions.csv`, worked through one by one.

use std::path::Path;

use springline_compiler::joints::{Caution, Condition};
use springline_compiler::model::Sources;
use springline_core::image::{Image, Row};
use springline_core::joint::{
    Act, Doing, Fit, Form, Owner, Pipe, Task, Verdict, cautions, fits, is_stop,
};
use springline_tables::IMAGE;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn sources() -> Sources {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tables/sources");
    springline_compiler::read(&folder).expect("the sources read clean")
}

/// Whether a condition holds of a pipe and of a part that is put on it, by the words of the file and no code of the core's.
fn holds(image: &Image<'_>, one: Condition, row: &Row, owner: Owner, fit: Option<&Fit>) -> bool {
    let family = image.family(row.family);
    match one {
        Condition::Always => true,
        Condition::Material(material) => family.material == material as u8,
        Condition::Carries(carries) => family.carries == carries as u8,
        Condition::System(system) => usize::from(row.system) == system,
        Condition::Owner(asked) => owner == asked,
        Condition::Act(act) => fit.is_some_and(|fit| {
            Act::from_code(image.part(fit.part).act_and_stock & 15) == Some(act)
        }),
        Condition::Ends(ends) => fit.is_some_and(|fit| {
            let all = image.part(fit.part).joint_ends();
            all.map(|own| if own == fit.own { fit.end } else { own })
                .any(|end| ends.has(usize::from(end)))
        }),
        Condition::Task(task) => fit.is_some_and(|fit| {
            let has = image.part(fit.part).tasks >> task as u8 & 1 == 1;
            has && (!fit.far || task == Task::Join)
        }),
    }
}

/// The indices of the cautions that are due of a pipe and some parts.
fn due(image: &Image<'_>, all: &[Caution], row: &Row, owner: Owner, parts: &[&Fit]) -> Vec<u8> {
    let met = |one: &Caution, part: Option<&Fit>| {
        let mut ways = one.triggers.iter();
        ways.any(|way| way.iter().all(|c| holds(image, *c, row, owner, part)))
    };
    (0u8..)
        .zip(all)
        .filter(|(_, one)| met(one, None) || parts.iter().any(|part| met(one, Some(*part))))
        .map(|(index, _)| index)
        .collect()
}

fn pipes(image: &Image<'static>) -> impl Iterator<Item = Pipe> {
    let all = *image;
    image.rows_from(0).flat_map(move |row| {
        let variants = all.variants_of(&row);
        [Form::PlainSquare, Form::Threaded, Form::Flanged].map(|form| Pipe {
            row,
            variants,
            form,
        })
    })
}

/// Every pipe, part and owner, and all parts together.
#[test]
fn what_is_due_is_what_the_file_says() {
    let (image, sources) = (image(), sources());
    let all = &sources.joints.cautions;
    assert_eq!(image.cautions().len(), all.len());
    let mut looked = 0;
    for pipe in pipes(&image) {
        for owner in Owner::ALL {
            let fits: Vec<Fit> = fits(&image, &pipe, *owner).collect();
            let said = |doing| -> Vec<u8> {
                let rows = [pipe.row].into_iter();
                let found = cautions(&image, rows, *owner, doing);
                found.map(|(index, _)| index).collect()
            };
            for fit in &fits {
                let goes = (fit.verdict != Verdict::No).then_some(fit);
                let parts: Vec<&Fit> = goes.into_iter().collect();
                let wanted = due(&image, all, &pipe.row, *owner, &parts);
                assert_eq!(said(Doing::of(&image, fit)), wanted, "{fit:?}");
                looked += 1;
            }
            let some: Vec<&Fit> = fits.iter().filter(|f| f.verdict != Verdict::No).collect();
            let doing = fits.iter().map(|fit| Doing::of(&image, fit));
            let doing = doing.fold(Doing::default(), Doing::or);
            let wanted = due(&image, all, &pipe.row, *owner, &some);
            assert_eq!(said(doing), wanted, "{:?}", pipe.row);
        }
    }
    assert!(looked > 200_000, "{looked}");
}

/// The words, what may be folded, and that the worst stand first: in the image by place, in the file by number.
#[test]
fn the_image_has_the_words_of_the_file_in_its_order() {
    let (image, sources) = (image(), sources());
    let all = &sources.joints.cautions;
    for (held, one) in image.cautions().zip(all) {
        assert_eq!(image.phrase(held.short).to_string(), one.short);
        assert_eq!(held.folds(), one.fold, "{}", one.key);
    }
    assert!(all.is_sorted_by(|a, b| a.order < b.order));
}

/// A stop comes first, and neither it nor the trench is ever folded away, nor that a line must be dead.
#[test]
fn a_stop_and_the_trench_are_never_folded() {
    let image = image();
    let mut stops = 0;
    for pipe in pipes(&image) {
        let doing = fits(&image, &pipe, Owner::Unknown).map(|fit| Doing::of(&image, &fit));
        let doing = doing.fold(Doing::default(), Doing::or);
        let rows = [pipe.row].into_iter();
        let found: Vec<_> = cautions(&image, rows, Owner::Unknown, doing).collect();
        let text = |at: usize| image.phrase(found[at].1.short).to_string();
        let kept = |word: &str| {
            let mut all = found.iter();
            all.any(|(_, one)| !one.folds() && image.phrase(one.short).to_string().contains(word))
        };
        assert!(kept("competent person"), "{:?}", pipe.row);
        if is_stop(&image, &pipe.row) {
            stops += 1;
            let first = text(0);
            assert!(!found[0].1.folds());
            assert!(first.starts_with("GAS:") || first.starts_with("ASBESTOS-CEMENT: stop"));
        } else {
            assert!(text(0).starts_with("PROVE IT DEAD") || !kept("PROVE IT DEAD"));
        }
    }
    assert!(stops > 10);
}
