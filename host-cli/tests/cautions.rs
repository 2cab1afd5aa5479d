//! The command's cautions against the core's, which a device asks too.

mod common;

use common::{json, springline};
use serde_json::Value;
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_core::joint::{Doing, Form, Owner, Pipe, Verdict, cautions, fit, fits, refusal};
use springline_tables::{IMAGE, NOTES};

fn keys(value: &Value) -> Vec<String> {
    let list = value["cautions"].as_array().expect("cautions");
    let key = |one: &Value| one["caution"].as_str().expect("a key").to_owned();
    list.iter().map(key).collect()
}

/// Families of which a size names one row, with the size in the middle.
fn pipes(image: &Image<'_>) -> Vec<(String, String, Pipe)> {
    let mut all = Vec::new();
    for (at, family) in image.families().enumerate() {
        let rows: Vec<_> = image
            .rows_from(0)
            .filter(|row| usize::from(row.family) == at)
            .collect();
        let single = |size: u8| rows.iter().filter(|row| row.size == size).count() == 1;
        let own: Vec<_> = rows.iter().filter(|row| single(row.size)).collect();
        let Some(row) = own.get(own.len() / 2) else {
            continue;
        };
        let pipe = Pipe {
            row: **row,
            variants: image.variants_of(row),
            form: Form::PlainSquare,
        };
        let key = image.packed_text(family.key).to_owned();
        all.push((key, image.size(row.size).to_owned(), pipe));
    }
    all
}

#[test]
fn the_command_and_the_core_warn_of_the_same_in_the_same_order() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let notes = Notes::from_bytes(NOTES).expect("the built-in notes");
    let named = |pipe: &Pipe, owner: Owner, doing: Doing| -> Vec<String> {
        let found = cautions(&image, [pipe.row].into_iter(), owner, doing);
        let key = |index: u8| notes.joints.cautions[usize::from(index)].key.clone();
        found.map(|(index, _)| key(index)).collect()
    };
    let pipes = pipes(&image);
    let mut lists = std::collections::BTreeSet::new();
    for (family, size, pipe) in &pipes {
        let refused = refusal(&image, pipe).is_some();
        for owner in Owner::ALL {
            let all = fits(&image, pipe, *owner).filter(|_| !refused);
            let doing = all.map(|fit| Doing::of(&image, &fit));
            let doing = doing.fold(Doing::default(), Doing::or);
            let args = ["fits", family, size, "--owner", owner.key(), "--json"];
            let said = keys(&json(&args).0);
            assert_eq!(said, named(pipe, *owner, doing), "{args:?}");
            lists.insert(said);
        }
    }
    let parts = || (0u8..).zip(&notes.joints.parts);
    // Each part on some pipe, and on a few of them all of those that go on.
    for (at, (family, size, pipe)) in pipes.iter().enumerate() {
        let often = ["c900", "ips-pvc", "steel"].contains(&family.as_str());
        for (index, part) in parts() {
            if refusal(&image, pipe).is_some() || !often && usize::from(index) % pipes.len() != at {
                continue;
            }
            let found = fit(&image, pipe, index, Owner::Unknown).expect("a verdict");
            let args = ["fits", family, size, "--part", &part.key, "--json"];
            let (value, _) = json(&args);
            let verdict = value["rows"][0]["verdict"].as_str();
            assert_eq!(verdict, Some(found.verdict.key()), "{args:?}");
            let said = keys(&value);
            assert_eq!(
                said,
                named(pipe, Owner::Unknown, Doing::of(&image, &found)),
                "{args:?}"
            );
            assert!(found.verdict < Verdict::No || !said.contains(&"pressure".to_owned()));
            lists.insert(said);
        }
    }
    assert!(lists.len() > 20, "{}", lists.len());
}

/// Five lines and how many more there are; what may not be folded stands there however many there are.
#[test]
fn what_may_not_be_folded_is_always_said() {
    let image = Image::new(IMAGE).expect("the built-in image");
    for (family, size, pipe) in pipes(&image) {
        let refused = refusal(&image, &pipe).is_some();
        let all = fits(&image, &pipe, Owner::Purveyor).filter(|_| !refused);
        let doing = all.fold(Doing::default(), |held, fit| {
            held.or(Doing::of(&image, &fit))
        });
        let (text, ..) = springline(&["fits", &family, &size, "--owner", "purveyor"]);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for (_, one) in cautions(&image, [pipe.row].into_iter(), Owner::Purveyor, doing) {
            let short = image.phrase(one.short).to_string();
            assert!(one.folds() || text.contains(&short), "{family}: {short}");
        }
    }
}
