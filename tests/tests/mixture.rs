//! The integer engine against its own mixture in f64, over every reading.

use springline_core::clue::Told;
use springline_core::identify::{Answer, MAX_CANDIDATES, identify};
use springline_core::image::Image;
use springline_core::reading::Query;
use springline_tables::IMAGE;
use springline_tests::mixture::{Reading, Weights, weigh, weigh_with};
use springline_tests::{answer, around, chord, dia, share};

/// The worst that a sweep met, for the record.
#[derive(Default)]
struct Worst {
    weight: f64,
    odds: f64,
    readings: usize,
}

impl Worst {
    /// Holds one answer against the oracle: 1/256 in every weight, 1/32 in log2 odds above 2^-13, and the same set but
    /// where the oracle is within a tenth of the threshold.
    fn hold(&mut self, what: Reading, got: &Answer, want: &Weights) {
        self.readings += 1;
        let mut listed = vec![false; want.rows.len()];
        let mut sum = u64::from(got.rest.q30()) + u64::from(got.outside.q30());
        let mut check = |got: f64, want: f64| {
            self.weight = self.weight.max((got - want).abs());
            assert!((got - want).abs() < 1.0 / 256.0, "{what:?}: {got} {want}");
            if want > 1.0 / 8192.0 && want < 1.0 - 1.0 / 8192.0 {
                let odds = |p: f64| libm::log2(p / (1.0 - p));
                let off = (odds(got) - odds(want)).abs();
                self.odds = self.odds.max(off);
                assert!(off < 1.0 / 32.0, "{what:?}: odds of {got} and {want}");
            }
        };
        check(share(got.outside.q30()), want.outside);
        check(share(got.hazards.cement.q30()), want.cement);
        for candidate in got.candidates() {
            sum += u64::from(candidate.weight.q30());
            listed[usize::from(candidate.row)] = true;
            check(
                share(candidate.weight.q30()),
                want.rows[usize::from(candidate.row)],
            );
        }
        assert_eq!(sum, 1 << 30, "{what:?}: weights sum to one");
        let full = got.candidates().len() == MAX_CANDIDATES;
        for (row, weight) in want.rows.iter().enumerate() {
            let shown = 0.0005;
            assert!(
                listed[row] || full || *weight < shown * 1.1,
                "{what:?}: row {row} not shown"
            );
            assert!(
                !listed[row] || *weight > shown * 0.9,
                "{what:?}: row {row} shown"
            );
        }
    }

    fn report(&self, what: &str) {
        println!(
            "{what}: {} readings, largest difference {:.6}, in log2 odds {:.5}",
            self.readings, self.weight, self.odds
        );
    }
}

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

#[test]
fn every_thousandth_of_an_inch_by_caliper() {
    let image = image();
    let mut worst = Worst::default();
    for mils in 400..=66_000 {
        let d = f64::from(mils) / 1000.0;
        worst.hold(
            Reading::Diameter(d),
            &answer(&image, &[dia(d)]),
            &weigh(&image, Reading::Diameter(d)),
        );
    }
    worst.report("caliper");
    assert_eq!(worst.readings, 65_601);
}

#[test]
fn every_hundredth_of_an_inch_around() {
    let image = image();
    let mut worst = Worst::default();
    // 0.4 in to 66 in of diameter.
    for hundredths in 126..=20_734 {
        let c = f64::from(hundredths) / 100.0;
        worst.hold(
            Reading::Around(c),
            &answer(&image, &[around(c)]),
            &weigh(&image, Reading::Around(c)),
        );
    }
    worst.report("steel tape");
}

/// Clues drawn without regard to the pipe, so that many contradict it: the far tails are where a family's share underflows.
#[test]
fn clues_of_every_kind() {
    let image = image();
    let mut worst = Worst::default();
    let mut seed = 1u64;
    let mut draw = |below: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (seed >> 33) % below
    };
    for mils in (400..=66_000).step_by(7) {
        let mut query = Query::new();
        let d = f64::from(mils) / 1000.0;
        query.add(dia(d)).expect("room for one");
        for (index, clue) in (0u8..).zip(image.clues()) {
            if draw(2) == 0 {
                let nth = draw(u64::from(clue.answers));
                let answer = clue.first + u8::try_from(nth).expect("few answers");
                query.clues.tell(Told {
                    clue: index,
                    answer,
                });
            }
        }
        let got = identify(&image, &query).expect("a usable reading");
        let reading = Reading::Diameter(d);
        worst.hold(reading, &got, &weigh_with(&image, reading, &query.clues));
    }
    worst.report("caliper with clues");
}

#[test]
fn every_hundredth_of_an_inch_by_chord() {
    let image = image();
    for times in [2.0, 3.0, 4.0, 6.0] {
        let mut worst = Worst::default();
        for hundredths in 40..=6600 {
            // OD = c²/(4 s) + s with c = times × s.
            let od = f64::from(hundredths) / 100.0;
            let rise = od / (times * times / 4.0 + 1.0);
            // Refused: within eight sigma (.045 in) of nothing.
            if rise < 0.3601 {
                continue;
            }
            let reading = Reading::Chord(times * rise, rise);
            worst.hold(
                reading,
                &answer(&image, &[chord(times * rise, rise)]),
                &weigh(&image, reading),
            );
        }
        worst.report(&format!("chord {times} times the rise"));
    }
}
