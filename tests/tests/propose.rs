//! Which check is proposed: against every answer worked through in f64, and as a person would find sensible.

use springline_core::clue::{Clues, Told};
use springline_core::identify::{Answer, Cannot, Check, Outcome, Trench, identify, propose};
use springline_core::image::Image;
use springline_core::joint::Job;
use springline_core::reading::{Query, Reading as Read};
use springline_tables::IMAGE;
use springline_tests::mixture::{Reading, Weights, evidence, weigh_with};
use springline_tests::{around, dia, share};

/// Checks that are no clues.
const READINGS: [Check; 5] = [
    Check::CrossedDiameter,
    Check::Tape,
    Check::Along,
    Check::Print,
    Check::Wall,
];

/// A trench in which everything can be reached.
const DUG: Trench = Trench {
    dug: true,
    cut_end: true,
};

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

fn asked(image: &Image<'_>, reading: Read, clues: &[(&str, &str)]) -> (Query, Answer) {
    let mut query = Query::new();
    query.add(reading).expect("room for one");
    for (clue, answer) in clues {
        let told = image.find_clue(clue, answer).expect("a clue of ours");
        query.clues.tell(told);
    }
    let answer = identify(image, &query).expect("a usable reading");
    (query, answer)
}

/// Masses by purchase, and of everything outside, among which count the rows that were too small to list before a
/// clue was told.
fn groups(image: &Image<'_>, weights: &Weights, before: &Weights) -> Vec<f64> {
    let mut keys: Vec<u16> = Vec::new();
    let mut sums: Vec<f64> = Vec::new();
    let mut others = weights.outside;
    let rows = (0u16..).zip(&weights.rows).zip(&before.rows);
    for ((row, weight), listed) in rows {
        if *listed < 0.0005 {
            others += weight;
            continue;
        }
        let key = image.purchase(Job::None, row);
        if let Some(at) = keys.iter().position(|held| *held == key) {
            sums[at] += weight;
        } else {
            keys.push(key);
            sums.push(*weight);
        }
    }
    sums.push(others);
    sums
}

fn doubt(groups: &[f64]) -> f64 {
    groups
        .iter()
        .filter(|p| **p > 0.0)
        .map(|p| -p * libm::log2(*p))
        .sum()
}

/// What a clue is worth by every one of its answers: the chance that it settles, and the doubt that it takes away.
fn worth(image: &Image<'_>, reading: Reading, clues: &Clues, clue: u8) -> (f64, f64) {
    let before = weigh_with(image, reading, clues);
    let (told, drawn) = evidence(image, clues);
    let record = image.clue(clue);
    let (mut settles, mut left) = (0.0, 0.0);
    for answer in record.first..record.first + record.answers {
        let mut more = *clues;
        more.tell(Told { clue, answer });
        let (then, then_drawn) = evidence(image, &more);
        let rows = image.rows_from(0).zip(&before.rows);
        let chance = rows
            .map(|(row, weight)| {
                let family = usize::from(row.family);
                weight * then[family] / told[family]
            })
            .sum::<f64>()
            + before.outside * then_drawn / drawn;
        let after = groups(image, &weigh_with(image, reading, &more), &before);
        let listed = &after[..after.len() - 1];
        let best = listed.iter().copied().fold(0.0, f64::max);
        if 1.0 - best <= 0.001 {
            settles += chance;
        }
        left += chance * doubt(&after);
    }
    (settles, doubt(&groups(image, &before, &before)) - left)
}

/// Over readings and clues of every kind: the clue that is proposed is worth what it says, and none is worth more per minute.
#[test]
fn clues_are_proposed_by_what_their_answers_would_do() {
    let image = image();
    let told: [&[(&str, &str)]; 5] = [
        &[],
        &[("magnet", "no")],
        &[("material", "pvc"), ("magnet", "no")],
        &[("material", "iron"), ("magnet", "yes")],
        &[("color", "grey")],
    ];
    let (mut proposed, mut off, mut worst, mut lost) = (0, 0, 0.0f64, 0.0f64);
    for mils in (1_050..=26_000).step_by(457) {
        for clues in told {
            let d = f64::from(mils) / 1000.0;
            let (query, answer) = asked(&image, dia(d), clues);
            let no_readings = READINGS
                .iter()
                .fold(Cannot::none(), |cannot, check| cannot.and(*check));
            let Some(proposal) = propose(&image, &query, &answer, Trench::default(), no_readings)
            else {
                continue;
            };
            let Check::Clue(clue) = proposal.check else {
                panic!("only clues can be made");
            };
            let reading = Reading::Diameter(d);
            let value = |(settles, fall): (f64, f64)| settles + 0.15 * fall.max(0.0);
            let (settles, fall) = worth(&image, reading, &query.clues, clue);
            let got = (
                share(proposal.settles.q30()),
                f64::from(proposal.less_doubt) / 65_536.0,
            );
            // An answer may settle within rounding of the threshold and be counted the other way; doubt has no such edge.
            worst = worst.max((fall - got.1).abs());
            // A bell has the clues of its own pipe, which the proposal takes as drawn from the site.
            let bells = 0.25 * share(answer.outside.q30());
            assert!(
                (fall - got.1).abs() < 0.03 + bells,
                "{d} {clues:?}: {got:?} {fall}"
            );
            let minutes = |clue: u8| f64::from(image.clue(clue).effort) / 100.0;
            let ours = value((settles, fall)) / minutes(clue);
            for (other, _) in (0u8..).zip(image.clues()) {
                if query.clues.answer(other).is_some() {
                    continue;
                }
                let all = value(worth(&image, reading, &query.clues, other));
                // Below one in 1024 a minute a check is not worth asking for.
                let theirs = all / minutes(other);
                if theirs > 1.0 / 1000.0 {
                    let part = (theirs - ours) / theirs;
                    lost = lost.max(part);
                    off += u32::from(part > 0.02);
                }
            }
            proposed += 1;
        }
    }
    println!(
        "{proposed} proposals, doubt off by at most {worst:.4} bits; {off} not the best, at most {lost:.4} of the value lost"
    );
    assert!(proposed > 150 && lost < 0.3, "{proposed} {lost}");
    assert!(off * 50 <= proposed, "{off} of {proposed}");
}

#[test]
fn the_check_is_the_one_a_person_would_make() {
    let image = image();
    let check = |reading, clues: &[(&str, &str)]| {
        let (query, answer) = asked(&image, reading, clues);
        let proposal = propose(&image, &query, &answer, Trench::default(), Cannot::none());
        proposal.map(|proposal| match proposal.check {
            Check::Clue(clue) => image.packed_text(image.clue(clue).key),
            Check::CrossedDiameter => "crossed-diameter",
            Check::Tape => "tape",
            Check::Along => "along",
            Check::Print => "print",
            Check::Wall => "wall",
        })
    };
    assert_eq!(check(dia(6.90), &[]), Some("magnet"));
    assert_eq!(check(dia(6.90), &[("magnet", "no")]), Some("material"));
    let iron = [("material", "iron"), ("magnet", "yes")];
    assert_eq!(check(dia(6.90), &iron), Some("iron-marks"));
    let squashed = [("material", "pvc"), ("magnet", "no"), ("pressure", "yes")];
    assert_eq!(check(dia(12.6), &squashed), Some("crossed-diameter"));
    assert!(check(around(48.07), &[("material", "pvc")]).is_some());
    assert_eq!(
        check(dia(7.60), &[]),
        Some("along"),
        "of no barrel, most likely"
    );
}

#[test]
fn what_cannot_be_done_is_not_proposed_and_what_is_settled_needs_nothing() {
    let image = image();
    let (query, answer) = asked(&image, dia(6.90), &[]);
    let mut cannot = Cannot::none();
    let mut seen = 0;
    while let Some(proposal) = propose(&image, &query, &answer, DUG, cannot) {
        assert!(!cannot.holds(proposal.check));
        cannot = cannot.and(proposal.check);
        seen += 1;
    }
    assert!((4..=13).contains(&seen), "{seen}");
    let clues = [
        ("material", "pvc"),
        ("magnet", "no"),
        ("color", "purple"),
        ("end", "gasketed-bell"),
    ];
    let (query, answer) = asked(&image, dia(8.16), &clues);
    if answer.outcome == Outcome::Settled {
        assert!(propose(&image, &query, &answer, DUG, Cannot::none()).is_none());
    }
}

/// Classes split no answer, but a direct tap hangs on one: then it is asked for, and only then.
#[test]
fn the_class_is_asked_for_where_the_job_hangs_on_it() {
    let image = image();
    let clues = [
        ("material", "pvc"),
        ("magnet", "no"),
        ("color", "blue"),
        ("pressure", "yes"),
        ("end", "gasketed-bell"),
    ];
    let next = |job, wall: Option<f64>, cannot| {
        let (mut query, _) = asked(&image, dia(6.9), &clues);
        query.job = job;
        if let Some(wall) = wall {
            let value = springline_tests::inches(wall);
            let wall = springline_core::reading::Reading::Wall { value, sigma: None };
            query.add(wall).expect("room for a wall");
        }
        let answer = identify(&image, &query).expect("usable readings");
        (
            answer.outcome,
            propose(&image, &query, &answer, DUG, cannot).map(|next| next.check),
        )
    };
    let no_print = Cannot::none().and(Check::Print);
    assert_eq!(
        next(Job::Saddle, None, Cannot::none()),
        (Outcome::Settled, Some(Check::Print))
    );
    assert_eq!(
        next(Job::Saddle, None, no_print),
        (Outcome::Settled, Some(Check::Wall))
    );
    assert_eq!(
        next(Job::Saddle, Some(0.39), no_print),
        (Outcome::Settled, None)
    );
    assert_eq!(
        next(Job::None, None, Cannot::none()),
        (Outcome::Settled, None)
    );
}

/// A tape takes twenty minutes where it has to be dug under, three where it does not.
#[test]
fn a_tape_is_dearer_under_ground() {
    let image = image();
    let (query, answer) = asked(&image, dia(12.6), &[]);
    let mut cannot = Cannot::none();
    for check in READINGS.into_iter().filter(|check| *check != Check::Tape) {
        cannot = cannot.and(check);
    }
    for clue in 0..16 {
        cannot = cannot.and(Check::Clue(clue));
    }
    let effort = |dug| {
        propose(
            &image,
            &query,
            &answer,
            Trench {
                dug,
                cut_end: false,
            },
            cannot,
        )
        .map(|p| (p.check, p.effort))
    };
    assert_eq!(effort(false), Some((Check::Tape, 2000)));
    assert_eq!(effort(true), Some((Check::Tape, 300)));
}
