//! Numbers of a device are those that a desk works out: the same lines, plans, bolts and times, asked with the same site.

use springline_core::Length;
use springline_core::assembly::{Bell, allowed, cure, flange, mechanical};
use springline_core::image::{Carries, Image, Material, SoilWord};
use springline_core::joint::{Form, Pipe};
use springline_core::numbers::{About, Fixture, NoNumbers, SiteTold, at, is_glued, nominal, page};
use springline_core::thrust::{
    Asked, Fitting, Line, Plan, Procedure, Site, Soil, Turn, bend, line_of, plan, tee, worst,
};
use springline_core::unit::{Angle, Distance, Pressure};
use springline_tables::IMAGE;
use springline_tests::numbers::Draws;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn on_desk(fixture: Fixture, line: Line) -> Fitting {
    match (fixture.angle(), fixture) {
        (Some(angle), _) => Fitting::Bend {
            angle,
            turn: Turn::Level,
        },
        (None, Fixture::Tee) => Fitting::Tee {
            branch: line,
            run_held: Distance::ZERO,
        },
        (None, _) => Fitting::DeadEnd,
    }
}

/// What holds a fitting, by the way that a desk goes: with its search for stops, of which there are none.
#[test]
fn lengths_are_those_of_a_desk() {
    let image = image();
    let mut draws = Draws::new(7);
    let (mut held, mut worsts, mut refused) = (0, 0, 0);
    for _ in 0..20_000 {
        let (asked, pipe) = draws.pipe(&image);
        let (about, told) = (draws.about(), draws.site(&image));
        let About::Hold(fixture) = about else {
            continue;
        };
        let got = page(&image, &pipe, asked.class, about, &told);
        let family = image.family(pipe.row.family);
        let material = Material::from_code(family.material).expect("a material");
        let (Some(pressure), Some(cover)) = (told.pressure(), told.cover()) else {
            assert!(got.is_err());
            refused += 1;
            continue;
        };
        let Some(procedure) =
            Procedure::of(material).filter(|_| family.carries == Carries::Water as u8)
        else {
            assert!(got.is_err());
            refused += 1;
            continue;
        };
        let od = Length::from_counts(pipe.row.od).into();
        let line = line_of(&image, &pipe.row, od, |label| {
            asked.class.is_none_or(|class| class == label)
        });
        let on = Asked {
            fitting: on_desk(fixture, line),
            line,
            stop: None,
            branch_stop: None,
        };
        let mut site = Site {
            pressure,
            cover,
            soil: Soil::default(),
            wet: told.wet,
            wrapped: 1.0,
            safety: f64::from(image.thrust_constants().safety) / 100.0,
            stick: told.stick().unwrap_or(Distance::feet(1.0)),
        };
        let wanted: Plan = if let Some(word) = told.soil {
            let word = image.soil_words().nth(usize::from(word)).expect("a word");
            let row = match procedure {
                Procedure::Iron => word.iron,
                Procedure::Pvc => word.pvc,
            };
            if row == SoilWord::REFER {
                assert_eq!(got.expect_err("muck holds nothing"), NoNumbers::Soil);
                refused += 1;
                continue;
            }
            site.soil = Soil::of(&image, row, None).expect("a row").0;
            plan(&on, &site).expect("a plan")
        } else {
            worsts += 1;
            worst(&image, procedure, None, &on, &site).expect("a plan")
        };
        let got = got.expect("numbers");
        held += 1;
        assert_eq!(got.get(at::THRUST), Some(wanted.thrust.in_lbf()));
        assert_eq!(got.get(at::UNTIL), Some(wanted.until.in_psi()));
        for leg in wanted.legs.iter().flatten() {
            if leg.length == Distance::ZERO {
                // The run of a tee.
                continue;
            }
            assert_eq!(got.get(at::LENGTH), Some(leg.length.in_inches()));
            let bells = told.stick.map(|_| f64::from(leg.bells));
            assert_eq!(got.get(at::BELLS), bells);
            if let Some(soil) = leg.soil {
                assert_eq!(got.get(at::SOIL), Some(f64::from(soil)));
            }
        }
    }
    assert!(
        held > 7000 && worsts > 2000 && refused > 1000,
        "{held} {worsts} {refused}"
    );
}

/// 150 psi on 6 in ductile iron: 2 P A sin(45°) on a bend and P A on a dead end, A of the OD of 6.90 in (AWWA C151; the forms of
/// ETL 1110-3-446); less cover and more pressure hold less, an open trench next to nothing.
#[test]
fn a_bend_by_hand() {
    let image = image();
    let row = image
        .rows_from(0)
        .find(|row| {
            image.packed_text(image.family(row.family).key) == "ductile-iron"
                && image.size(row.size) == "6"
        })
        .expect("6 in ductile iron");
    let pipe = Pipe {
        row,
        variants: image.variants_of(&row),
        form: Form::PlainSquare,
    };
    let told = SiteTold {
        psi: Some(150),
        cover: Some(36),
        ..SiteTold::NOTHING
    };
    let of = |about, told: &SiteTold| page(&image, &pipe, None, about, told).expect("numbers");
    let get = |code: u8, told: &SiteTold, place: usize| {
        let about = About::from_code(code).expect("a code");
        of(about, told).get(place).expect("a figure")
    };
    let area = springline_core::thrust::circle_of(Distance::inches(6.9));
    let pressure = Pressure::psi(150.0);
    let quarter = bend(pressure, area, Angle::degrees(90.0)).in_lbf();
    assert!((get(0, &told, at::THRUST) - quarter).abs() < 1e-6);
    assert!((get(5, &told, at::THRUST) - tee(pressure, area).in_lbf()).abs() < 1e-6);
    // Bends of less ask for less, the dead end for the most.
    let lengths: Vec<f64> = (0..4).map(|code| get(code, &told, at::LENGTH)).collect();
    assert!(lengths.windows(2).all(|two| two[0] > two[1]), "{lengths:?}");
    assert!(get(5, &told, at::LENGTH) > lengths[0]);
    let shallow = SiteTold {
        cover: Some(24),
        ..told
    };
    assert!(get(0, &shallow, at::LENGTH) > lengths[0]);
    assert!(get(0, &told, at::UNTIL) < 10.0);
    // Bolts of 6 in: 8 of 3/4 in on class 125 (ASME B16.1), 12 of 3/4 in on class 250, 6 T-bolts of 3/4 in (AWWA C111).
    for (code, bolts) in [(6, 8.0), (7, 12.0), (8, 6.0)] {
        assert!((get(code, &told, at::BOLTS) - bolts).abs() < 1e-12);
        assert!((get(code, &told, at::BOLT) - 0.75).abs() < 1e-12);
    }
    assert!((get(8, &told, at::TORQUE[0]) - 75.0).abs() < 1e-9);
    assert_eq!(of(About::Mechanical, &told).all().len(), 9);
}

/// Every other number is that of its own function, and glue is only for what is glued.
#[test]
fn bolts_turns_and_times_are_those_of_a_desk() {
    let image = image();
    let mut draws = Draws::new(8);
    let (mut bolts, mut turns, mut glued) = (0, 0, 0);
    for _ in 0..4000 {
        let (_, pipe) = draws.pipe(&image);
        let told = draws.site(&image);
        let of = |about| page(&image, &pipe, None, about, &told);
        let Some(size) = nominal(&image, &pipe.row) else {
            assert_eq!(of(About::Turn).expect_err("metric"), NoNumbers::Size);
            continue;
        };
        for about in [&About::ALL[6], &About::ALL[7], &About::Mechanical] {
            let set = match about {
                About::Flange(drilling) => {
                    flange(&image, size, *drilling).map(|set| (set.bolts, set.bolt))
                }
                _ => mechanical(&image, size).map(|set| (set.bolts, set.bolt)),
            };
            let got = of(*about).ok();
            let got = got.map(|page| (page.get(at::BOLTS), page.get(at::BOLT)));
            bolts += usize::from(set.is_some());
            assert_eq!(
                got,
                set.map(|(count, bolt)| (Some(f64::from(count)), Some(bolt.in_inches())))
            );
        }
        let material = Material::from_code(image.family(pipe.row.family).material).expect("one");
        let page = of(About::Turn).expect("turns");
        for (bell, place) in Bell::ALL.into_iter().zip(at::ANGLE) {
            let angle = allowed(&image, bell, material, size).map(|(angle, _)| angle.in_degrees());
            turns += usize::from(angle.is_some());
            assert_eq!(page.get(place), angle);
        }
        match (of(About::Glue), is_glued(&image, &pipe)) {
            (Err(NoNumbers::NotGlued), glued) => assert!(!glued),
            (Ok(page), is_glued) => {
                assert!(is_glued);
                glued += 1;
                let (warm, pressure) = (told.temperature(), told.pressure());
                let wait = cure(
                    &image,
                    size,
                    warm.expect("told"),
                    pressure.expect("told"),
                    told.wet,
                );
                assert_eq!(
                    page.get(at::CURE),
                    wait.ok().map(|wait| wait.cure.in_minutes())
                );
            }
            (Err(_), is_glued) => assert!(is_glued),
        }
    }
    assert!(
        bolts > 1000 && turns > 500 && glued > 20,
        "{bolts} {turns} {glued}"
    );
}
