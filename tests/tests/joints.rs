//! Joints and purchases against what stands outside the project.

#![allow(
    clippy::cast_possible_truncation,
    reason = "there are at most 64 variants and ends"
)]

use std::collections::BTreeSet;

use springline_compiler::notes::Notes;
use springline_core::image::{Image, Row};
use springline_core::joint::{Form, Job, restraints, sealing};
use springline_tables::{IMAGE, NOTES};
use springline_tests::cells;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn notes() -> Notes {
    Notes::from_bytes(NOTES).expect("the built-in notes")
}

/// The rows of a typed file, without its remarks and its header.
fn typed(text: &str) -> Vec<Vec<String>> {
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines.map(cells).collect()
}

fn size(image: &Image<'_>, nominal: &str) -> u8 {
    (0..=u8::MAX)
        .find(|at| image.size(*at) == nominal)
        .unwrap_or_else(|| panic!("no size {nominal}"))
}

#[test]
fn cells_that_a_public_text_speaks_of() {
    let (image, notes) = (image(), notes());
    let rows = typed(include_str!("../outside/joints.csv"));
    assert!(rows.len() >= 25);
    for row in rows {
        let [pipe, nominal, form, end, verdicts, source] = &row[..] else {
            panic!("six cells: {row:?}");
        };
        assert!(source.len() > 20, "{row:?} names no source");
        let variant = notes
            .joints
            .variants
            .iter()
            .position(|(key, _)| key == pipe);
        let end_at = notes.joints.ends.iter().position(|key| key == end);
        let (variant, end_at) = (variant.expect(pipe), end_at.expect(end));
        let plain = |of: &&Form| match form.as_str() {
            "*" => matches!(of, Form::PlainBevelled | Form::PlainSquare),
            form => of.key() == form,
        };
        let forms: Vec<&Form> = Form::ALL.iter().filter(plain).collect();
        assert!(!forms.is_empty(), "{row:?}");
        for form in forms {
            let found = sealing(
                &image,
                variant as u8,
                size(&image, nominal),
                *form,
                end_at as u8,
            );
            let said = found.expect("the pipe exists").verdict.key();
            let allowed: Vec<&str> = verdicts.split(' ').collect();
            assert!(allowed.contains(&said), "{row:?} {}: {said}", form.key());
        }
    }
}

fn find(image: &Image<'_>, family: &str, nominal: &str) -> Option<(u16, Row)> {
    (0u16..).zip(image.rows_from(0)).find(|(_, row)| {
        image.packed_text(image.family(row.family).key) == family && image.size(row.size) == nominal
    })
}

/// ASTM F1674 is about restraint on PVC pipe, UL 194 about iron: a city water system's specification for joint restraint asks
/// for the one on C900 4 to 12 in and C905 16 to 24 in, for the other on ductile iron 4 to 24 in (businessdocbox.com,
/// Construction/93363225). NFPA 24-2019, 10.6.2, has for iron: locking joints, MJ with retainer glands, bolted flanges, clamps
/// and rods (spaspecialcommitteesibu.com).
#[test]
fn restraint_is_listed_for_the_material_that_it_bites_into() {
    let (image, notes) = (image(), notes());
    let holds = |family: &str, nominal: &str| -> BTreeSet<String> {
        let (_, row) = find(&image, family, nominal).expect(family);
        let found = restraints(&image, row, image.variants_of(&row));
        found
            .map(|(at, listing)| {
                let own = image.family(row.family).material;
                assert!([own, 255].contains(&listing.material), "{family} {nominal}");
                notes.joints.restraints[usize::from(at)].0.clone()
            })
            .collect()
    };
    for nominal in ["4", "6", "8", "10", "12", "16", "20", "24"] {
        let iron = holds("ductile-iron", nominal);
        for kind in ["gasket-lock", "wedge-iron", "rods-iron"] {
            assert!(iron.contains(kind), "{nominal}: {iron:?}");
        }
        let pvc = holds("c900", nominal);
        assert!(pvc.contains("ring-ciod"), "{nominal}: {pvc:?}");
        assert!(pvc.is_disjoint(&iron), "{nominal}");
    }
    // Rings of iron size and of IPS do not go on each other's pipe: 6.900 and 6.625 in.
    assert!(holds("c900", "6").is_disjoint(&holds("ips-pvc", "6")));
    // On PIP a block, glue, or a harness listed for PIP: never a ring of another OD system.
    let pip = holds("pip", "12");
    assert!(pip.contains("block-pip"), "{pip:?}");
    for other in ["c900", "ips-pvc", "ductile-iron"] {
        assert!(pip.is_disjoint(&holds(other, "12")), "{pip:?}");
    }
}

/// Families that share ODs, as the standards give them: C900, C909, C151, C906 in iron sizes and centrifugal cast iron by
/// one table; D1785, D2241, D3035 and B36.10 by another; `overlaps.csv` lists what else meets.
const SAME_OD: [&[&str]; 2] = [
    &["c900", "pvco", "ductile-iron", "hdpe-dips", "cast-iron"],
    &[
        "ips-pvc",
        "hdpe-ips",
        "steel",
        "conduit",
        "gas-pe",
        "drain-pvc",
    ],
];

/// Pairs of families with a purchase in common for a job, at any size where their ODs agree.
fn together(image: &Image<'_>, job: Job) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let rows: Vec<(u16, Row)> = (0u16..).zip(image.rows_from(0)).collect();
    let key = |row: &Row| image.packed_text(image.family(row.family).key);
    for (at, one) in &rows {
        for (other_at, other) in &rows {
            let (a, b) = (key(one), key(other));
            let bought = image.purchase(job, *at) == image.purchase(job, *other_at);
            if bought && a < b {
                // What is one purchase has one OD, whatever it is called.
                assert_eq!(one.od, other.od, "{a} and {b}");
                found.insert(format!("{a} {b}"));
            }
        }
    }
    found
}

fn set(pairs: &[&str]) -> BTreeSet<String> {
    pairs.iter().map(|pair| (*pair).to_owned()).collect()
}

/// Common practice, no source: what buys the same although it is another pipe. A coupling asks for an OD, and PE for a
/// stiffener in it; a strap saddle asks for system and size; a restraint for the material too.
#[test]
fn collisions_that_no_purchase_parts_and_those_that_one_does() {
    let image = image();
    assert_eq!(together(&image, Job::None), set(&["c900 pvco"]));
    assert_eq!(together(&image, Job::Restraint), set(&["c900 pvco"]));
    assert_eq!(together(&image, Job::Length), set(&[]));
    let coupling = together(&image, Job::Coupling);
    for pair in [
        "c900 ductile-iron",
        "c900 pvco",
        "c900 pip",
        "ips-pvc steel",
        "cast-iron ductile-iron",
    ] {
        assert!(coupling.contains(pair), "{pair}: {coupling:?}");
    }
    // PE takes a stiffener, thin gravity pipe an even and low torque; the rest is no water pipe.
    for pair in coupling {
        for apart in ["sewer", "conduit", "drain", "gas", "asbestos"] {
            assert!(!pair.contains(apart), "{pair}");
        }
        let pe = pair
            .split(' ')
            .filter(|family| family.starts_with("hdpe") || family.ends_with("-pe"));
        assert_ne!(pe.count(), 1, "{pair}");
    }
    // Every pair that shares an OD and is not named above is parted when nothing is said of the job.
    for families in SAME_OD {
        for (at, a) in families.iter().enumerate() {
            for b in &families[at + 1..] {
                let Some((one, row)) = find(&image, a, "6") else {
                    continue;
                };
                let Some((other, same)) = find(&image, b, "6") else {
                    continue;
                };
                assert_eq!(row.od, same.od, "{a} {b}");
                let bought = |job| image.purchase(job, one) == image.purchase(job, other);
                assert_eq!(bought(Job::None), [*a, *b] == ["c900", "pvco"], "{a} {b}");
            }
        }
    }
    let mut parted = 0;
    for row in typed(include_str!("../outside/overlaps.csv")) {
        let rows = [&row[..2], &row[3..5]].map(|side| find(&image, &side[0], &side[1]));
        if let [Some((one, _)), Some((other, _))] = rows {
            assert_ne!(
                image.purchase(Job::None, one),
                image.purchase(Job::None, other),
                "{row:?}"
            );
            parted += 1;
        }
    }
    assert!(parted > 150, "only {parted} pairs of the reference");
}
