//! Identification judged by the simulator: each figure is held to its target or, where the target is missed, to what was
//! measured. A million draws: `cargo test --release -p springline-tests --test simulator -- --ignored --nocapture`.

use springline_core::identify::Outcome;
use springline_tests::exact::FAMILIES;
use springline_tests::simulator::draw::{Draw, Told};
use springline_tests::simulator::engine::{ask, best, query};
use springline_tests::simulator::figures::Figures;
use springline_tests::simulator::instrument::{Instrument, Shown};
use springline_tests::simulator::report::{Report, Size};
use springline_tests::simulator::run::{Task, record, run};
use springline_tests::simulator::tally::{Calibration, Mean};
use springline_tests::simulator::{Bench, Nature};

/// What does not hold, so that a run shows all of it.
#[derive(Default)]
struct Misses(Vec<String>);

impl Misses {
    fn at_most(&mut self, what: &str, got: f64, most: f64) {
        if got.is_nan() || got > most {
            self.0.push(format!("{what}: {got:.6}, at most {most:.6}"));
        }
    }

    fn at_least(&mut self, what: &str, got: f64, least: f64) {
        if got.is_nan() || got < least {
            self.0
                .push(format!("{what}: {got:.6}, at least {least:.6}"));
        }
    }

    /// A small share that may be above its target by three standard errors of so many draws.
    fn rare(&mut self, what: &str, got: Mean, most: f64) {
        self.at_most(what, got.mean, most + 3.0 * got.error);
    }
}

fn hold(report: &Report) {
    println!("{report}");
    let mut misses = Misses::default();
    let believed = &report.believed;
    misses.at_most("calibration", believed.calibration.error, 0.01);
    for (instrument, calibration) in &report.alone {
        // Few draws are off by chance; half of that is left to it.
        let most = 0.01 + calibration.chance / 2.0;
        misses.at_most(instrument.name(), calibration.error, most);
    }

    let settled = &believed.settled;
    // No target: .27 is expected.
    misses.at_least("settled", settled.share.mean, 0.22);
    misses.rare("settled and wrong", settled.wrong, 5e-4);
    let law = &believed.law;
    let (inside, of_inside) = &believed.inside;
    misses.at_most(
        "calibration with wall or print",
        inside.error,
        0.01 + inside.chance / 2.0,
    );
    misses.at_least("settled with wall or print", of_inside.share.mean, 0.53);
    misses.rare("wrong with wall or print", of_inside.wrong, 5e-4);
    for (what, wrong, believed) in [
        (
            "wrong beside its own weights",
            settled.wrong,
            settled.believed,
        ),
        (
            "wrong with wall or print beside its own weights",
            of_inside.wrong,
            of_inside.believed,
        ),
        // Of draws without wall and print, which the exact law does not know of.
        (
            "wrong by the exact law beside its own weights",
            law.wrong,
            law.believed,
        ),
    ] {
        misses.at_most(
            what,
            (wrong.mean - believed.mean).abs(),
            0.2 * believed.mean + 3.0 * wrong.error,
        );
    }
    misses.rare(
        "wrong with nothing wrong in the world",
        report.clean.wrong,
        1e-4,
    );

    misses.at_least(
        "settled of what the exact law settles",
        law.settled.mean,
        0.97,
    );
    misses.at_most(
        "difference from the exact law, mean",
        law.difference.0.mean,
        0.003,
    );
    // Target .02, missed. Chords: the law knows that a rise is .10 to .40 of the diameter and the engine does not, so that a
    // reading at either end is taken for a larger or smaller pipe than the law takes it for (eight of ten chords, between, are
    // off by .006); to model those ends would cure it. The others: squash and direction of crossing diameters are fitted by
    // three normals, where families of one OD have nothing else to part them; more components would cure it.
    misses.at_most("difference, 99.9 % of draws", law.difference.1, 0.30);
    misses.at_most(
        "difference without chords, 99.9 %",
        law.without_chords.1,
        0.09,
    );

    hold_walks(&mut misses, believed);
    for (name, settled) in &report.worlds {
        misses.rare(name, settled.wrong, 2e-3);
    }

    // The simulator's own proof: what the exact law says of these very draws is true of them, within four standard errors,
    // and four and a half for the worst of eighty bins.
    for (name, law) in &report.law {
        misses.at_most(
            &format!("{name}: surprise of the law"),
            law.surprise.abs(),
            4.0,
        );
        misses.at_most(
            &format!("{name}: worst bin of the law"),
            law.worst_bin.abs(),
            4.5,
        );
        let most = 1.6 * law.calibration.chance;
        misses.at_most(
            &format!("{name}: calibration of the law"),
            law.calibration.error,
            most,
        );
    }
    assert!(misses.0.is_empty(), "{:#?}", misses.0);
}

/// What following the proposals comes to.
fn hold_walks(misses: &mut Misses, believed: &Figures) {
    let (field, bare) = &believed.followed;
    misses.at_most("checks from the field", field.checks.mean, 2.0);
    misses.at_most("checks from a bare reading", bare.checks.mean, 3.6);
    // Target .98, missed: what is left has no line that can be read, and nothing else worth one in 1024 a minute.
    misses.at_least(
        "settled of what can be, field",
        field.of_possible.mean,
        0.95,
    );
    misses.at_least(
        "settled of what can be, bare",
        bare.of_possible.mean + 3.0 * bare.of_possible.error,
        0.97,
    );
    misses.at_least("settled in the end, field", field.in_the_end.mean, 0.66);
    misses.at_least("settled in the end, bare", bare.in_the_end.mean, 0.64);
    let (without, bare_without) = &believed.followed_outside;
    for (what, got, least) in [
        (
            "field, without print, wall and along",
            without.of_possible,
            0.92,
        ),
        (
            "bare, without print, wall and along",
            bare_without.of_possible,
            0.93,
        ),
    ] {
        misses.at_least(what, got.mean, least);
    }
    for (what, walk) in [
        ("wrong after checks", field),
        ("wrong after checks from a bare reading", bare),
        ("wrong after checks, without print, wall and along", without),
        (
            "wrong after checks from a bare reading, without print, wall and along",
            bare_without,
        ),
    ] {
        misses.rare(what, walk.wrong, 5e-4);
    }
}

#[test]
#[ignore = "half a minute in release on two idle cores: a step of its own in tests/run"]
fn a_hundred_thousand_draws() {
    hold(&Report::of(&Bench::new(), Size::DEFAULT));
}

/// What was read and a line of print, and nothing else told: of field draws too few have a line for its faults to show.
#[test]
#[ignore = "seconds in release: with the hundred thousand"]
fn lines_alone_of_four_hundred_hundreds() {
    let (bench, nature) = (Bench::new(), Nature::believed());
    let (mut pairs, mut settled) = (Vec::new(), Vec::new());
    for number in 0..40_000 {
        let draw = Draw::new(&bench, &nature, (20_264, number), None);
        let told = Told {
            clues: vec![None; bench.clues.len()],
            print: draw.line,
            ..Told::default()
        };
        let asked = query(&bench, &draw, &draw.shown, &told);
        let (Some(_), Ok(answer)) = (draw.line, ask(&bench, &asked)) else {
            continue;
        };
        let (group, weight) = best(&bench, &answer);
        let right = group == draw.truth(&bench);
        pairs.push((weight, right));
        if answer.outcome == Outcome::Settled {
            settled.push(right);
        }
    }
    let calibration = Calibration::of(pairs);
    let wrong = Mean::share(settled.into_iter().map(|right| !right));
    println!("{calibration:?} {wrong:?}");
    let mut misses = Misses::default();
    // Target .01, missed: a pipe of several standards is believed to have each, whichever of them is read.
    misses.at_most("calibration with a line", calibration.error, 0.014);
    misses.at_most("wrong with a line", wrong.mean, 6e-4);
    assert!(misses.0.is_empty(), "{:#?}", misses.0);
}

#[test]
#[ignore = "minutes"]
fn four_times_as_many_draws() {
    hold(&Report::of(&Bench::new(), Size::FOUR_HUNDRED_THOUSAND));
}

#[test]
#[ignore = "minutes"]
fn a_million_draws() {
    hold(&Report::of(&Bench::new(), Size::MILLION));
}

/// A draw is the same alone and among others, on whatever thread.
#[test]
fn a_draw_is_found_again_by_its_number() {
    let bench = Bench::new();
    let task = Task {
        nature: Nature::believed(),
        seed: 4,
        draws: 2_000,
        only: None,
        exact: 0,
        walks: 100,
    };
    let (records, refused) = run(&bench, &task);
    assert_eq!(records.len() as u64 + refused, task.draws);
    for among in records.iter().step_by(50) {
        let alone = record(&bench, &task, among.number).expect("not refused before");
        assert_eq!(alone.weight.to_bits(), among.weight.to_bits());
        assert_eq!(
            (alone.right, alone.walks),
            (among.right, among.walks.clone())
        );
    }
}

/// The mean of something of the draws of a world, where they have it.
fn of_draws(bench: &Bench, nature: Nature, of: &dyn Fn(&Draw) -> Option<f64>) -> Mean {
    let draw = |number| Draw::new(bench, &nature, (8, number), Some(Instrument::DiameterTape));
    Mean::of((0..40_000).filter_map(|number| of(&draw(number))))
}

/// The world that a name begins so.
fn world(name: &str) -> Nature {
    let found = Nature::worlds().into_iter().find(|w| w.0.starts_with(name));
    found.expect("a world").1
}

/// Five standard errors.
fn near(what: &str, got: Mean, want: f64) {
    println!("{what}: {:.5} ± {:.5}, {want:.5}", got.mean, got.error);
    assert!(
        (got.mean - want).abs() < 5.0 * got.error,
        "{what}: {got:?}, {want}"
    );
}

fn flag(so: bool) -> f64 {
    f64::from(u8::from(so))
}

/// Each world differs from the believed one in what its name says: pipes.
#[test]
fn pipes_of_worlds_are_what_their_names_say() {
    let bench = Bench::new();
    let be = Nature::believed();
    let draws = |nature: Nature, of: &dyn Fn(&Draw) -> Option<f64>| of_draws(&bench, nature, of);
    let row = |draw: &Draw| &bench.model.rows[draw.pipe.row];
    let family = |draw: &Draw| row(draw).family().name;
    let unlisted = |d: &Draw| Some(flag(!d.pipe.listed));
    near("unlisted", draws(be, &unlisted), 0.005);
    near("unlisted, more", draws(world("1.5 %"), &unlisted), 0.015);
    let bell = |d: &Draw| Some(flag(d.pipe.bell));
    near("bells", draws(be, &bell), 0.0035);
    near("bells, more", draws(world("1.5 %"), &bell), 0.0105);
    let misread = |d: &Draw| Some(flag(d.misread));
    near("misread", draws(be, &misread), 0.0015);
    near("misread, more", draws(world("1.5 %"), &misread), 0.0045);
    // Irrigation is .6 of the site, so that IPS PVC is .6 × .535 + .4 × .05 of all pipes.
    near(
        "IPS PVC",
        draws(be, &|d| Some(flag(family(d) == "ips-pvc"))),
        0.341,
    );
    // PIP: normal(.020, .012), cut at nought and .068.
    let pip = |d: &Draw| (family(d) == "pip").then_some(d.pipe.deflection);
    near("deflection", draws(be, &pip), 0.02125);
    near(
        "deflection, twice",
        draws(world("deflection twice"), &pip),
        2.0 * 0.02125,
    );
    assert!(draws(world("deflection none"), &pip).mean.abs() < 1e-12);
    // The square of both components together, over that of the row.
    let oval = |d: &Draw| {
        let [a, b] = d.pipe.oval;
        d.pipe
            .barrel()
            .then(|| (a * a + b * b) / row(d).oval.powi(2))
    };
    near("ovality", draws(be, &oval), 2.0);
    let fixed = draws(world("ovality"), &oval);
    assert!(
        (fixed.mean - 2.0 * 2.56).abs() < 1e-9 && fixed.error < 1e-6,
        "{fixed:?}"
    );
    // C900 has no wear, and a band with its middle at the OD: what is left is coat, .45 × .010 in on average.
    let beyond = |d: &Draw| {
        let cold = d.pipe.diameter - row(d).od * (1.0 + 3e-5 * (d.pipe.temperature - 73.4));
        (d.pipe.barrel() && family(d) == "c900").then_some(cold)
    };
    near("coat", draws(be, &beyond), 0.45 * 0.010);
    near(
        "coat, twice on more",
        draws(world("coats"), &beyond),
        0.70 * 0.020,
    );
    let bare = |nature: Nature| Nature {
        coated: 0.0,
        ..nature
    };
    let square = |d: &Draw| beyond(d).map(|x| (x / (row(d).plus + row(d).minus)).powi(2));
    near("band", draws(bare(be), &square), 1.0 / 12.0);
    near(
        "band, normal",
        draws(bare(world("bands normal")), &square),
        1.0 / 16.0,
    );
}

/// The same of what is told and shown.
#[test]
fn clues_and_errors_of_worlds_are_what_their_names_say() {
    let bench = Bench::new();
    let be = Nature::believed();
    let draws = |nature: Nature, of: &dyn Fn(&Draw) -> Option<f64>| of_draws(&bench, nature, of);
    let family = |draw: &Draw| bench.model.rows[draw.pipe.row].family().name;
    let answers = |of: &'static str, key: &str, answer: &str| {
        let at = bench
            .clues
            .iter()
            .position(|c| c.key == key)
            .expect("a clue");
        let answer = bench.clues[at].answers.iter().position(|a| *a == answer);
        let answer = answer.expect("an answer");
        move |d: &Draw| (family(d) == of).then_some(flag(d.answers[at] == answer))
    };
    let magnet = answers("c900", "magnet", "yes");
    near("magnet on PVC", draws(be, &magnet), 0.015);
    near(
        "magnet on PVC, more",
        draws(world("clue errors"), &magnet),
        2.5 * 0.015,
    );
    assert!(draws(Nature::clean(), &magnet).mean.abs() < 1e-12);
    let blue = answers("pvco", "color", "blue");
    near("blue PVCO", draws(Nature::clean(), &blue), 0.76);
    let odd = Nature {
        disguised: 0.0,
        ..world("clue errors")
    };
    near(
        "blue PVCO, with odd looks",
        draws(odd, &blue),
        1.0 - 1.5 * 0.24,
    );
    // Of disguised pipes, few look like their own row.
    let disguised = |d: &Draw| Some(flag(d.pipe.looks_like != d.pipe.row));
    let (few, more) = (draws(be, &disguised), draws(world("4 %"), &disguised));
    assert!(
        (3.2..5.0).contains(&(more.mean / few.mean)),
        "{few:?} {more:?}"
    );
    // Plans name the pipe's own family where they are right, or wrong and by chance the same: C900 is .194 of all, on some
    // sites more.
    let plans = |d: &Draw| {
        let (named, _) = d.told.plans?;
        (family(d) == "c900").then_some(flag(FAMILIES[named].name == "c900"))
    };
    let own = |wrong: f64| 1.0 - wrong + wrong * 0.194;
    let named = draws(be, &plans);
    assert!(
        (named.mean - own(0.10)).abs() < 5.0 * named.error + 0.01,
        "{named:?}"
    );
    let error = |d: &Draw| match d.shown[..] {
        [Shown::DiameterTape(shown)] if !d.misread => {
            let own = d.pipe.diameter;
            Some(((shown - own) / (0.004 + 0.0002 * own)).powi(2))
        }
        _ => None,
    };
    near("error of a tape", draws(be, &error), 1.0);
    near(
        "error of a tape, more",
        draws(world("instrument"), &error),
        1.7 * 1.7,
    );
}
