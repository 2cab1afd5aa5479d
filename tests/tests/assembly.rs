//! How joints are made up: against figures from outside, and what must hold of every row of the tables.

use proptest::prelude::*;
use springline_core::assembly::{Bell, NoWait};
use springline_core::assembly::{
    Drilling, Grip, Nominal, Turn, across_flats, allowed, allowed_in_mechanical, cure, flange,
    mechanical, movement, solvent_socket, star,
};
use springline_core::image::layout::{CRC, ENVELOPE, section};
use springline_core::image::{Image, ImageError, Material};
use springline_core::unit::{Angle, Distance, Pressure, Temperature, Warming};
use springline_tables::{IMAGE, NOTES};
use springline_tests::cells;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn notes() -> springline_compiler::notes::Notes {
    springline_compiler::notes::Notes::from_bytes(NOTES).expect("notes")
}

/// `a=1;b=2` by name.
fn input(inputs: &str, name: &str) -> f64 {
    let found = inputs
        .split(';')
        .find_map(|pair| pair.strip_prefix(name)?.strip_prefix('='));
    found
        .and_then(|value| value.parse().ok())
        .unwrap_or_else(|| panic!("{inputs} has no {name}"))
}

fn nominal(inches: f64) -> Nominal {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    Nominal::quarters((inches * 4.0).round() as u8)
}

/// Each row names its source.
#[test]
fn figures_from_outside() {
    let (image, notes) = (image(), notes());
    let mut run = 0;
    for line in include_str!("../outside/assembly.csv").lines().skip(1) {
        let row = cells(line);
        let (id, topic, inputs, key) = (&row[0], row[1].as_str(), &row[2], row[3].as_str());
        let of = |name: &str| input(inputs, name);
        let size = || nominal(of("size"));
        let turn = || Turn {
            stick: Distance::feet(of("length_ft")),
            angle: Angle::degrees(of("angle_deg")),
        };
        let flanged = || flange(&image, size(), Drilling::Class125).expect("a flange");
        let joint = || mechanical(&image, size()).expect("a mechanical joint");
        let got = match (topic, key) {
            ("deflection", "offset_ft") => turn().offset().in_feet(),
            ("deflection", "offset_in") => turn().offset().in_inches(),
            ("deflection", "radius_ft") => turn().radius().in_feet(),
            ("mj", "torque_hi_ftlb") => joint().torque[1].in_foot_pounds(),
            ("mj", "bolts") => f64::from(joint().bolts),
            ("mj", "socket_in") => joint().socket.in_inches(),
            ("flange", "bolts") => f64::from(flanged().bolts),
            ("flange", "bolt_dia_in") => flanged().bolt.in_inches(),
            ("flange", "bolt_circle_in") => flanged().circle.in_inches(),
            ("flange", "chord_in") => flanged().spacing().in_inches(),
            ("expand" | "expand.rule", "dl_in") => {
                let per_f = if topic == "expand" {
                    3.0e-5
                } else {
                    0.375 / 12_000.0
                };
                let warming = Warming::fahrenheit(of("dt_f"));
                movement(Distance::feet(of("l_ft")), warming, per_f).in_inches()
            }
            ("stud", "length_in") => {
                let thick = Distance::inches(of("flange_in"));
                let grip = Grip {
                    flanges: [thick, thick],
                    between: Distance::mm(3.0),
                    washers: Distance::ZERO,
                };
                grip.stud(Distance::inches(of("bolt_in"))).in_inches()
            }
            ("socket.depth", "depth_in") => solvent_socket(&image, size())
                .expect("a socket")
                .0
                .in_inches(),
            ("socket.entrance", "dia_in") => {
                let sockets = &notes.assembly.sockets;
                let is = size().in_quarters();
                let socket = sockets
                    .iter()
                    .find(|socket| socket.size == is)
                    .expect("a socket");
                #[allow(clippy::cast_precision_loss)]
                let counts = socket.entrance.expect("an entrance") as f64;
                counts / 2_540_000.0
            }
            other => panic!("{id}: nothing runs {other:?}"),
        };
        let number = |at: usize| row[at].parse::<f64>().expect("a number");
        let (want, tolerance) = (number(4), number(6));
        assert!(
            (got - want).abs() <= tolerance,
            "{id}: {got}, expected {want}"
        );
        run += 1;
    }
    assert_eq!(run, 29, "every row is run");
}

/// A table prints 124 ft for a 4 in joint beside 20 ft lengths: that is the radius of 18 ft. It is computed here, so that no such slip
/// is copied.
#[test]
fn the_radius_is_that_of_the_stick() {
    let angle = allowed_in_mechanical(&image(), Material::Iron, false, nominal(4.0)).unwrap();
    let radius = |feet| {
        let stick = Distance::feet(feet);
        Turn { stick, angle }.radius().in_feet()
    };
    assert!((radius(18.0) - 124.4).abs() < 0.1 && (radius(20.0) - 138.2).abs() < 0.1);
}

/// What must hold of every flange.
#[test]
fn flanges() {
    let (image, notes) = (image(), notes());
    let mut seen = 0;
    for note in &notes.assembly.flanges {
        let drilling = Drilling::from_code(note.drilling).unwrap();
        let set = flange(&image, Nominal::quarters(note.size), drilling).expect("in the image");
        seen += 1;
        assert!(set.bolts.is_multiple_of(4));
        #[allow(clippy::cast_precision_loss)]
        let inches = |counts: i64| counts as f64 / 2_540_000.0;
        assert!((set.circle.in_inches() - inches(note.circle)).abs() < 1e-9);
        assert!((set.bolt.in_inches() - inches(note.bolt)).abs() < 1e-9);
        assert!(set.circle.in_inches() + set.bolt.in_inches() < inches(note.od));
        // Holes on the circle, by their places: the next one is clear of a head.
        let angle = std::f64::consts::TAU / f64::from(set.bolts);
        let radius = set.circle.in_inches() / 2.0;
        let step = (radius * angle.sin()).hypot(radius - radius * angle.cos());
        assert!((set.spacing().in_inches() - step).abs() < 1e-9);
        let corners = across_flats(set.bolt, true).in_inches() / (3.0_f64.sqrt() / 2.0);
        assert!(step > corners, "{} in: {step} and {corners}", note.size);
        assert_eq!(star(set.bolts).count(), usize::from(set.bolts));
        // A bolt of the table goes through what it is for with a nut, and is at most an inch too long.
        if let Some((thick, length, _)) = note.thick_and_length {
            let thick = Distance::inches(inches(thick));
            let grip = Grip {
                flanges: [thick, thick],
                ..Grip::default()
            };
            let spare = inches(length) - grip.bolt(set.bolt).in_inches();
            assert!(
                (0.0..1.0).contains(&spare),
                "{} quarters: {spare}",
                note.size
            );
            assert!((set.length.unwrap().in_inches() - inches(length)).abs() < 1e-9);
        }
    }
    assert_eq!(seen, image.flanges().len());
    // Of two drillings no flange bolts to the other.
    for note in notes
        .assembly
        .flanges
        .iter()
        .filter(|note| note.drilling == 1)
    {
        let size = Nominal::quarters(note.size);
        let [light, heavy] = Drilling::ALL.map(|drilling| flange(&image, size, drilling).unwrap());
        assert!(heavy.circle > light.circle);
    }
}

#[test]
fn mechanical_joints() {
    let image = image();
    let joints: Vec<_> = image
        .mechanical_joints()
        .map(|row| Nominal::quarters(row.size))
        .collect();
    assert_eq!(joints.len(), 16);
    for size in joints {
        let set = mechanical(&image, size).unwrap();
        assert!(set.torque[0] < set.torque[1] && set.length > set.bolt);
        assert_eq!(set.passes, if size.in_inches() < 30.0 { 3 } else { 5 });
        // Figures are of bare iron with a plain gland.
        let turned = |pipe, held| allowed_in_mechanical(&image, pipe, held, size);
        assert_eq!(turned(Material::Iron, false), set.deflection);
        for (pipe, held) in [
            (Material::Pvc, false),
            (Material::Iron, true),
            (Material::Pe, false),
        ] {
            assert_eq!(turned(pipe, held), None);
        }
    }
}

#[test]
fn bells() {
    let image = image();
    let degrees =
        |bell, pipe, size| allowed(&image, bell, pipe, nominal(size)).map(|(a, _)| a.in_degrees());
    assert_eq!(degrees(Bell::PushOn, Material::Iron, 12.0), Some(5.0));
    assert_eq!(degrees(Bell::PushOn, Material::Iron, 14.0), Some(3.0));
    assert_eq!(degrees(Bell::Plastic, Material::Pvc, 8.0), Some(1.0));
    assert_eq!(degrees(Bell::Plastic, Material::Iron, 8.0), None);
}

proptest! {
    /// Cement never takes less when it is colder, larger, wetter or under more pressure, nor is a time refused to what is easier
    /// than what has one.
    #[test]
    fn cement(
        size in 1..70_u8, larger in 0..20_u8, at in -10.0..120.0_f64, colder in 0.0..60.0_f64,
        psi in 1.0..400.0_f64, more in 0.0..200.0_f64, wet: bool,
    ) {
        let image = image();
        let ask = |size, at, psi, wet| cure(&image, Nominal::quarters(size), Temperature::fahrenheit(at), Pressure::psi(psi), wet);
        let easy = ask(size, at, psi, wet);
        for hard in [
            ask(size + larger, at, psi, wet),
            ask(size, at - colder, psi, wet),
            ask(size, at, psi + more, wet),
            ask(size, at, psi, true),
            ask(size + larger, at - colder, psi + more, true),
        ] {
            match (&easy, hard) {
                (Ok(easy), Ok(hard)) => {
                    prop_assert!(hard.set >= easy.set && hard.cure >= easy.cure, "{:?} and {:?}", easy, hard);
                }
                (Err(NoWait::TooHot(_)), _) | (_, Err(_)) => {}
                (Err(error), Ok(hard)) => prop_assert!(false, "{:?} but {:?}", error, hard),
            }
        }
    }
}

/// What the gate must refuse: a byte of a first record that is not as it should be, behind a check value that is right again.
#[test]
fn the_gate_refuses() {
    let found = |id: u16| {
        let sections = springline_core::image::directory(IMAGE);
        let mut all = sections.map(|(_, section)| section);
        all.find(|section| section.id == id).expect("a section")
    };
    for (id, byte, value) in [
        (section::FLANGES, 1, 0x57),
        (section::FLANGES, 3, 0),
        (section::FLANGES, 4, 6),
        (section::FLANGES, 5, 0),
        (section::MECHANICAL, 1, 5),
        (section::MECHANICAL, 5, 255),
        (section::MECHANICAL, 8, 255),
        (section::CURES, 2, 0),
        (section::CURES, 8, 9),
        (section::SOCKETS, 1, 0),
        (section::DEFLECTIONS, 1, 99),
    ] {
        let mut bytes = IMAGE.to_vec();
        let start = usize::try_from(found(id).offset).expect("in memory");
        bytes[start + byte] = value;
        if id == section::FLANGES && byte == 3 {
            bytes[start + 2] = 0;
        }
        let crc = CRC.checksum(&bytes[ENVELOPE + 16..]);
        bytes[ENVELOPE + 12..ENVELOPE + 16].copy_from_slice(&crc.to_le_bytes());
        let refused = Image::new(&bytes).err();
        assert_eq!(refused, Some(ImageError::Record(id, 0)), "{id} {byte}");
    }
    // Rows that do not rise: the second flange made as small as the first.
    let mut bytes = IMAGE.to_vec();
    let start = usize::try_from(found(section::FLANGES).offset).expect("in memory");
    bytes[start + 7] = bytes[start];
    let crc = CRC.checksum(&bytes[ENVELOPE + 16..]);
    bytes[ENVELOPE + 12..ENVELOPE + 16].copy_from_slice(&crc.to_le_bytes());
    assert_eq!(
        Image::new(&bytes).err(),
        Some(ImageError::Record(section::FLANGES, 1))
    );
}
