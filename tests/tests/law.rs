//! What the mixture costs: the engine against the exact law, over the same reference rows.

use springline_core::identify::Answer;
use springline_core::image::Image;
use springline_tests::exact::{Model, Posterior, Query, Reading, posterior};
use springline_tests::{answer, around, chord, dia, dia_at, draft, reference, share, weight};

/// Largest difference of any weight of the answer, and of the outside mass.
fn difference(image: &Image<'_>, got: &Answer, want: &Posterior) -> f64 {
    let mut worst = (share(got.outside.q30()) - want.outside).abs();
    for candidate in got.candidates() {
        let row = image.row(candidate.row);
        let family = image.packed_text(image.family(row.family).key);
        let size = image.size(row.size);
        let off = weight(image, got, family, size) - want.weight(family, size);
        worst = worst.max(off.abs());
    }
    worst
}

/// Runs a sweep; returns mean and largest difference.
fn sweep(
    readings: impl Iterator<Item = (Vec<springline_core::reading::Reading>, Reading)>,
) -> (usize, f64, f64) {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let model = Model::new();
    let (mut count, mut sum, mut worst) = (0, 0.0, (0.0f64, None));
    for (ours, theirs) in readings {
        let off = difference(
            &image,
            &answer(&image, &ours),
            &posterior(&model, &Query::new(theirs.clone())),
        );
        count += 1;
        sum += off;
        if off > worst.0 {
            worst = (off, Some(theirs));
        }
    }
    println!(
        "{count} readings, mean difference {:.5}, largest {:.4} at {:?}",
        sum / f64::from(count),
        worst.0,
        worst.1
    );
    (
        usize::try_from(count).expect("few"),
        sum / f64::from(count),
        worst.0,
    )
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a few thousand steps"
)]
fn grid(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let count = ((to - from) / step) as u32;
    (0..count).map(move |i| from + f64::from(i) * step)
}

#[test]
fn a_single_diameter() {
    let (_, mean, worst) =
        sweep(grid(0.6, 66.0, 0.031).map(|d| (vec![dia(d)], Reading::caliper(d))));
    assert!(mean < 0.003, "mean {mean}");
    assert!(worst < 0.06, "worst {worst}");
}

#[test]
fn a_steel_tape() {
    let (_, mean, worst) =
        sweep(grid(2.0, 160.0, 0.83).map(|c| (vec![around(c)], Reading::SteelTape(c))));
    assert!(mean < 0.003, "mean {mean}");
    assert!(worst < 0.06, "worst {worst}");
}

#[test]
fn a_chord_and_its_rise() {
    let (_, mean, worst) = sweep(grid(4.0, 30.0, 0.37).map(|od| {
        let rise = od / 5.0;
        let across = 4.0 * rise;
        (
            vec![chord(across, rise)],
            Reading::ChordRise {
                chord: across,
                rise,
            },
        )
    }));
    assert!(mean < 0.03, "mean {mean}");
    assert!(worst < 0.2, "worst {worst}");
}

#[test]
fn two_diameters_at_right_angles() {
    let (_, mean, worst) = sweep(grid(4.0, 26.0, 0.43).map(|d| {
        let (a, b) = (d * 1.01, d * 0.99);
        (
            vec![dia_at(a, 3), dia_at(b, 12)],
            Reading::Diameters(vec![(a, Some(3)), (b, Some(12))]),
        )
    }));
    assert!(mean < 0.01, "mean {mean}");
    assert!(worst < 0.1, "worst {worst}");
}

#[test]
fn two_diameters_of_unknown_direction() {
    let (_, mean, worst) = sweep(grid(4.0, 20.0, 0.79).map(|d| {
        let (a, b) = (d * 1.012, d * 0.996);
        (
            vec![dia(a), dia(b)],
            Reading::Diameters(vec![(a, None), (b, None)]),
        )
    }));
    assert!(mean < 0.05, "mean {mean}");
    assert!(worst < 0.3, "worst {worst}");
}
