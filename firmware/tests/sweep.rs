//! The sweep asks what it says, and its check value hangs on every answer.

use springline_core::Length;
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::print::read;
use springline_core::reading::Reading;
use springline_firmware::sweep::{Digest, FIRST_MILS, Kind, LAST_MILS, PRINTED, TOLD};
use springline_tables::IMAGE;

#[test]
fn a_sweep_runs_from_end_to_end() {
    for kind in Kind::ALL {
        assert_eq!(kind.mils().next(), Some(FIRST_MILS), "{}", kind.key());
        assert_eq!(kind.mils().last(), Some(LAST_MILS), "{}", kind.key());
    }
}

#[test]
fn a_chord_is_four_rises_of_its_circle() {
    let query = Kind::Chord.query(10_000);
    let inches = |mils| Length::from_mils(mils).expect("a short length");
    let chord = Reading::Chord {
        chord: inches(8_000),
        rise: inches(2_000),
        sigma: None,
    };
    assert_eq!(query.readings().collect::<Vec<_>>(), [&chord]);
}

#[test]
fn what_is_told_is_what_it_says() {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    let words = [
        ("material", "pvc"),
        ("magnet", "no"),
        ("color", "blue"),
        ("pressure", "yes"),
    ];
    let found = words.map(|(clue, answer)| image.find_clue(clue, answer));
    assert_eq!(found, TOLD.map(Some));
}

#[test]
fn what_is_printed_is_what_it_says() {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    let text = b"6 IN DR 18 PC 235 PVC AWWA C900 CIOD NSF-61";
    assert_eq!(read(&image, text), PRINTED);
}

/// Only the smallest rises may be refused: no other reading of the sweep is beyond use.
#[test]
fn every_reading_but_small_rises_is_answered() {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    for kind in Kind::ALL {
        for mils in kind.mils().step_by(10) {
            let answered = identify(&image, &kind.query(mils)).is_ok();
            assert!(
                answered || (kind == Kind::Chord && mils < 3_000),
                "{} at {mils}",
                kind.key()
            );
        }
    }
}

#[test]
fn one_answer_more_or_another_changes_the_check_value() {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    let of = |diameters: &[i32]| {
        let mut digest = Digest::new();
        for mils in diameters {
            digest.add(&identify(&image, &Kind::Diameter.query(*mils)));
        }
        digest.value()
    };
    let values = [of(&[]), of(&[6_900]), of(&[6_905]), of(&[6_900, 6_905])];
    for (index, value) in values.iter().enumerate() {
        assert!(!values[index + 1..].contains(value));
    }
    assert_eq!(of(&[6_900]), values[1]);
}
