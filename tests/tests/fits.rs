//! Properties of the joint matrix and of the parts: what must hold of every pipe, whatever the rows say.

use springline_compiler::notes::Notes;
use springline_core::image::{Image, JointEnd, Row};
use springline_core::joint::{
    Decides, Form, Owner, Pipe, Role, Verdict, best, fits, forbidden, holders, is_stop, refusal,
};
use springline_tables::{IMAGE, NOTES};

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// Every row of the tables in every end form.
fn pipes(image: &Image<'static>) -> impl Iterator<Item = Pipe> {
    let all = *image;
    image.rows_from(0).flat_map(move |row| {
        let variants = all.variants_of(&row);
        Form::ALL.iter().map(move |form| Pipe {
            row,
            variants,
            form: *form,
        })
    })
}

fn ends(image: &Image<'_>) -> Vec<(u8, JointEnd)> {
    (0u8..).zip(image.joint_ends()).collect()
}

/// Nothing falls through to a default, counted again without the compiler: each pipe, form and end has one row.
#[test]
fn every_cell_has_one_row() {
    let image = image();
    let mut cells = 0;
    for pipe in pipes(&image) {
        for variant in pipe.variants.iter() {
            for (end, _) in ends(&image) {
                let measure = image.measure(pipe.row.size);
                let speaks = image.matrix().filter(|row| {
                    row.forms >> (pipe.form as u8) & 1 == 1
                        && image.set(row.ends).has(end)
                        && image.set(row.variants).has(variant)
                        && image.band(row.band).holds(measure)
                });
                assert_eq!(
                    speaks.count(),
                    1,
                    "{} {variant} {end}",
                    image.size(pipe.row.size)
                );
                cells += 1;
            }
        }
    }
    assert!(cells > 100_000, "{cells}");
}

/// An end that is bored for one OD system seals on another's pipe only where their ODs agree at that size.
#[test]
fn an_exact_bell_takes_no_other_od() {
    let image = image();
    let rows: Vec<Row> = image.rows_from(0).collect();
    let mut looked = 0;
    for pipe in pipes(&image) {
        for (end, record) in ends(&image) {
            if record.by >= JointEnd::RANGE || record.by == pipe.row.system {
                continue;
            }
            let Some(found) = best(&image, &pipe.row, pipe.variants, pipe.form, end) else {
                continue;
            };
            looked += 1;
            if found.sealing.verdict > Verdict::FitsWith {
                continue;
            }
            let agree = rows.iter().any(|row| {
                row.system == record.by && row.size == pipe.row.size && row.od == pipe.row.od
            });
            assert!(
                agree,
                "{} on {} {}",
                image.phrase(record.name),
                image.packed_text(image.family(pipe.row.family).key),
                image.size(pipe.row.size)
            );
        }
    }
    assert!(looked > 10_000, "{looked}");
}

/// From memory: transition gaskets are made from 2 to 12 in, and only for IPS pipe.
#[test]
fn transition_gaskets_stop_where_their_rows_stop() {
    let image = image();
    let notes = Notes::from_bytes(NOTES).expect("notes");
    let at = notes
        .joints
        .ends
        .iter()
        .position(|key| key == "mj-transition");
    let end = u8::try_from(at.expect("the end")).expect("few ends");
    for pipe in pipes(&image) {
        let measure = image.measure(pipe.row.size);
        let found = best(&image, &pipe.row, pipe.variants, pipe.form, end).expect("a cell");
        if !(2 * 64..=12 * 64).contains(&measure) {
            assert!(
                found.sealing.verdict >= Verdict::Refer,
                "{}",
                image.size(pipe.row.size)
            );
        }
    }
}

/// Sleeves, flanges and fused ends know no side; bells do: PVC goes into an iron bell with a shorter bevel, iron never into a
/// PVC bell.
#[test]
fn only_sleeves_flanges_grooves_and_fusion_are_symmetric() {
    let image = image();
    let notes = Notes::from_bytes(NOTES).expect("notes");
    let end = |key: &str| {
        let at = notes.joints.ends.iter().position(|held| held == key);
        u8::try_from(at.expect(key)).expect("few ends")
    };
    let row = |family: &str, size: &str| {
        image
            .rows_from(0)
            .find(|row| {
                image.packed_text(image.family(row.family).key) == family
                    && image.size(row.size) == size
            })
            .expect("the pipe")
    };
    for size in ["4", "6", "8", "10", "12"] {
        let (pvc, iron) = (row("c900", size), row("ductile-iron", size));
        let verdict = |row: &Row, key: &str, form| {
            let found = best(&image, row, image.variants_of(row), form, end(key));
            found.expect("a cell").sealing.verdict
        };
        for (key, form) in [
            ("sleeve", Form::PlainSquare),
            ("mj", Form::PlainSquare),
            ("flange", Form::Flanged),
        ] {
            assert_eq!(
                verdict(&pvc, key, form),
                verdict(&iron, key, form),
                "{size} {key}"
            );
        }
        let form = Form::PlainBevelled;
        assert_eq!(verdict(&iron, "bell-ciod", form), Verdict::No);
        assert_eq!(verdict(&pvc, "push-ciod", form), Verdict::FitsWith);
        assert_eq!(verdict(&iron, "push-ciod", form), Verdict::Fits);
    }
}

/// A part is never better than its best end, is made in its sizes only, and nothing is cut, tapped or adapted on a purveyor's
/// pipe.
#[test]
fn a_part_is_no_better_than_its_ends() {
    let image = image();
    let mut told = 0;
    for pipe in pipes(&image) {
        let of = |owner| fits(&image, &pipe, owner).collect::<Vec<_>>();
        for (ours, theirs) in of(Owner::Ours).into_iter().zip(of(Owner::Purveyor)) {
            let part = image.part(ours.part);
            let best = part
                .joint_ends()
                .flat_map(|end| [Some(end), image.joint_end(end).another()])
                .flatten()
                .filter_map(|end| best(&image, &pipe.row, pipe.variants, pipe.form, end))
                .map(|best| best.sealing.verdict)
                .min()
                .expect("an end");
            assert!(ours.verdict >= best, "{}", image.phrase(part.name));
            if !image.band(part.band).holds(image.measure(pipe.row.size)) {
                assert_eq!(ours.verdict, Verdict::No);
            }
            assert!(theirs.verdict >= ours.verdict);
            let opens = matches!(part.act_and_stock & 15, 0 | 1);
            if opens {
                assert!(
                    theirs.verdict >= Verdict::Refer,
                    "{}",
                    image.phrase(part.name)
                );
                told += usize::from(theirs.decides == Decides::Owner);
            }
            assert!(ours.verdict < Verdict::Adapter || ours.kind().is_some());
        }
    }
    assert!(told > 1_000, "{told}");
}

/// What holds a joint is not what must not be used on it.
#[test]
fn nothing_is_both_listed_and_forbidden() {
    let image = image();
    let mut never = 0;
    for pipe in pipes(&image).filter(|pipe| pipe.form == Form::PlainSquare) {
        for variant in pipe.variants.iter() {
            let variants = springline_core::image::Set::default().with(variant);
            for (end, _) in ends(&image) {
                let held: Vec<String> = holders(&image, pipe.row, variants, end)
                    .map(|(_, one)| image.phrase(one.name).to_string())
                    .collect();
                for (_, one) in forbidden(&image, pipe.row, variants, end) {
                    never += 1;
                    let name = image.phrase(one.name).to_string();
                    assert!(
                        !held.contains(&name),
                        "{name} on {}",
                        image.size(pipe.row.size)
                    );
                    assert!(!image.phrase(one.remark).is_empty(), "{name} without a why");
                }
            }
        }
    }
    assert!(never > 100, "{never}");
}

/// Gas and asbestos-cement are a stop; drain, sewer and conduit a referral; one row of the matrix says so, and no other pipe is
/// refused.
#[test]
fn what_is_no_water_pipe_has_one_refusal() {
    let image = image();
    for pipe in pipes(&image) {
        let family = image.family(pipe.row.family);
        let key = image.packed_text(family.key);
        let refused = [
            "asbestos-cement",
            "gas-pe",
            "conduit",
            "drain-pvc",
            "sewer-pvc",
        ];
        let found = refusal(&image, &pipe);
        assert_eq!(found.is_some(), refused.contains(&key), "{key}");
        if let Some(found) = found {
            assert_eq!(found.verdict, Verdict::Refer, "{key}");
        }
        assert_eq!(
            is_stop(&image, &pipe.row),
            refused[..2].contains(&key),
            "{key}"
        );
    }
    // Roles of ends are known, whichever there are.
    for (_, end) in ends(&image) {
        assert!(Role::from_code(end.role_and_grade & 15).is_some());
    }
}

/// Geometry: the gap that a transition gasket fills beyond the standard one is half of the difference of the ODs of C900 and IPS
/// pipe. The figures are worked by hand from 3.96, 4.80, 6.90, 9.05, 11.10, 13.20, 15.30, 17.40 and 3.50, 4.50, 6.625, 8.625,
/// 10.75, 12.75, 14.00, 16.00 in (AWWA C111 and ASTM D2241 sizes).
#[test]
fn the_gap_of_a_transition_gasket() {
    let image = image();
    let od = |family: &str, size: &str| {
        let named = |row: &Row| {
            image.packed_text(image.family(row.family).key) == family
                && image.size(row.size) == size
        };
        image.rows_from(0).find(named).map(|row| row.od)
    };
    for (size, gap) in [
        ("3", 0.23),
        ("4", 0.15),
        ("6", 0.1375),
        ("8", 0.2125),
        ("10", 0.175),
        ("12", 0.225),
        ("14", 0.65),
        ("16", 0.70),
    ] {
        // Iron has every size, C900 begins at 4 in.
        let (iron, ips) = (od("ductile-iron", size), od("ips-pvc", size));
        let (iron, ips) = (iron.expect("iron"), ips.expect("IPS"));
        let found = f64::from(iron - ips) / 2.0 / 2_540_000.0;
        assert!((found - gap).abs() < 1e-6, "{size}: {found}");
    }
}
