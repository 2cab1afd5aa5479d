//! The figures as a table, each beside its target.

use std::fmt;

use super::bench::Bench;
use super::figures::{Figures, Followed, LawProved, Settled};
use super::instrument::Instrument;
use super::nature::Nature;
use super::run::{Task, run};
use super::tally::{Calibration, Mean};

/// How much is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Size {
    /// Draws of the believed world.
    pub draws: u64,
    /// Draws of each instrument alone.
    pub alone: u64,
    /// Draws of each world that differs.
    pub others: u64,
    /// Every how many draws the exact law is asked.
    pub exact: u64,
    /// Every how many draws the proposals are followed.
    pub walks: u64,
}

impl Size {
    /// A hundred thousand draws: what runs with every check of the project.
    pub const DEFAULT: Self = Self {
        draws: 100_000,
        alone: 15_000,
        others: 25_000,
        exact: 10,
        walks: 10,
    };
    /// Four times as many.
    pub const FOUR_HUNDRED_THOUSAND: Self = Self {
        draws: 400_000,
        alone: 50_000,
        others: 150_000,
        exact: 10,
        walks: 10,
    };
    /// A million.
    pub const MILLION: Self = Self {
        draws: 1_000_000,
        alone: 200_000,
        others: 500_000,
        exact: 10,
        walks: 10,
    };
}

/// Everything that is measured.
#[derive(Clone, Debug)]
pub struct Report {
    /// The believed world.
    pub believed: Figures,
    /// Calibration with one instrument alone.
    pub alone: Vec<(Instrument, Calibration)>,
    /// The same world with nothing wrong in it.
    pub clean: Settled,
    /// Worlds that differ from belief.
    pub worlds: Vec<(&'static str, Settled)>,
    /// How well the exact law knows the believed world: all draws, and by instrument.
    pub law: Vec<(&'static str, LawProved)>,
}

/// The seeds of the believed world, of one instrument alone, and of the others.
const SEEDS: [u64; 3] = [20_261, 20_262, 20_263];

impl Report {
    /// Draws, and measures.
    #[must_use]
    pub fn of(bench: &Bench, size: Size) -> Self {
        let task = Task {
            nature: Nature::believed(),
            seed: SEEDS[0],
            draws: size.draws,
            only: None,
            exact: size.exact,
            walks: size.walks,
        };
        let (records, refused) = run(bench, &task);
        let every = Instrument::FIELD.map(|(instrument, _)| instrument);
        let mut law = vec![("all", LawProved::of(&records, None))];
        law.extend(every.map(|own| (own.name(), LawProved::of(&records, Some(own)))));
        let bare = Task {
            exact: 0,
            walks: 0,
            ..task
        };
        let alone = every.map(|instrument| {
            let task = Task {
                seed: SEEDS[1],
                draws: size.alone,
                only: Some(instrument),
                ..bare
            };
            let pairs = run(bench, &task)
                .0
                .iter()
                .map(|r| (r.weight, r.right))
                .collect();
            (instrument, Calibration::of(pairs))
        });
        let settled = |nature: Nature| {
            let task = Task {
                nature,
                seed: SEEDS[2],
                draws: size.others,
                ..bare
            };
            Settled::of(&run(bench, &task).0.iter())
        };
        Self {
            believed: Figures::of(&records, refused),
            alone: alone.to_vec(),
            clean: settled(Nature::clean()),
            worlds: Nature::worlds()
                .into_iter()
                .map(|(name, nature)| (name, settled(nature)))
                .collect(),
            law,
        }
    }

    /// Lines about what is settled at once.
    fn settled(&self, line: &mut impl FnMut(&str, &str, String)) {
        let believed = &self.believed;
        let settled = &believed.settled;
        line("settled, of all draws", "", percent(settled.share));
        line(
            "settled and wrong, of settled",
            "≤ 5e-4",
            rare(settled.wrong),
        );
        line(
            "— to be expected by its own weights",
            "within 20 % + 3 errors",
            rare(settled.believed),
        );
        line(
            "— of what the exact law knows of: by its own weights / by the exact law",
            "within 20 % + 3 errors",
            format!(
                "{} / {}",
                rare(believed.law.believed),
                rare(believed.law.wrong)
            ),
        );
        let (calibration, inside) = &believed.inside;
        line(
            "with a wall or a line of print told: calibration error",
            "≤ .01",
            error(calibration),
        );
        line(
            "— settled / wrong of these / to be expected",
            "",
            format!(
                "{} / {} / {}",
                percent(inside.share),
                rare(inside.wrong),
                rare(inside.believed)
            ),
        );
        line(
            "— with nothing wrong in the world",
            "≤ 1e-4",
            rare(self.clean.wrong),
        );
    }

    /// Lines of the table: figure, target, measured.
    fn lines(&self) -> Vec<[String; 3]> {
        let mut lines = Vec::new();
        let mut line = |figure: &str, target: &str, measured: String| {
            lines.push([figure.to_owned(), target.to_owned(), measured]);
        };
        let believed = &self.believed;
        line(
            "calibration error, all draws",
            "≤ .01",
            error(&believed.calibration),
        );
        for (instrument, calibration) in &self.alone {
            line(
                &format!("— {} alone", instrument.name()),
                "≤ .01",
                error(calibration),
            );
        }
        self.settled(&mut line);
        let law = &believed.law;
        line(
            "settled, of what the exact law settles at .9995",
            "≥ 97 %",
            percent(law.settled),
        );
        let spread = |(mean, most, largest): (Mean, f64, f64)| {
            format!("{:.4}, {most:.3}, {largest:.2}", mean.mean)
        };
        line(
            "largest difference of a weight from the exact law: mean, 99.9 % of draws, largest",
            "≤ .003, ≤ .02",
            spread(law.difference),
        );
        line("— without chords", "", spread(law.without_chords));
        line(
            "settled by the exact law: at once / every clue answered",
            "",
            format!(
                "{} / {}",
                percent(law.law_settles.0),
                percent(law.law_settles.1)
            ),
        );
        for (what, walk, checks, possible) in [
            (
                "clues as in the field",
                &believed.followed.0,
                "≤ 2.0",
                "≥ 98 %",
            ),
            ("a bare reading", &believed.followed.1, "≤ 3.6", "≥ 97 %"),
            (
                "the field, without print, wall and along",
                &believed.followed_outside.0,
                "",
                "",
            ),
            (
                "a bare reading, without these",
                &believed.followed_outside.1,
                "",
                "",
            ),
        ] {
            followed(&mut line, (what, checks, possible), walk);
        }
        for (name, settled) in &self.worlds {
            line(
                &format!("wrong of settled: {name}"),
                "≤ 2e-3",
                rare(settled.wrong),
            );
        }
        lines
    }
}

/// A calibration error, and what it would be by chance.
fn error(calibration: &Calibration) -> String {
    format!(
        "{:.4} (by chance {:.4})",
        calibration.error, calibration.chance
    )
}

fn followed(
    line: &mut impl FnMut(&str, &str, String),
    (what, checks, possible): (&str, &str, &str),
    walk: &Followed,
) {
    line(
        &format!("from {what}: checks until settled"),
        checks,
        format!(
            "{:.2} ({:.2} of them in vain)",
            walk.checks.mean, walk.cannot.mean
        ),
    );
    line(
        "— settled, of what can be settled",
        possible,
        percent(walk.of_possible),
    );
    line(
        "— minutes until settled / where it does not settle",
        "",
        format!("{:.1} / {:.1}", walk.minutes.mean, walk.in_vain.mean),
    );
    line(
        "— settled at once / in the end / wrong of these",
        "",
        format!(
            "{} / {} / {}",
            percent(walk.at_once),
            percent(walk.in_the_end),
            rare(walk.wrong)
        ),
    );
}

fn percent(mean: Mean) -> String {
    format!("{:.1} %", 100.0 * mean.mean)
}

/// A small share, with its standard error.
fn rare(mean: Mean) -> String {
    format!("{:.1e} ± {:.0e}", mean.mean, mean.error)
}

/// A table in Markdown.
impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (draws, refused) = self.believed.draws;
        writeln!(f, "{draws} draws, and {refused} chords that are refused\n")?;
        writeln!(f, "| figure | target | measured |\n| --- | --- | --- |")?;
        for [figure, target, measured] in self.lines() {
            writeln!(f, "| {figure} | {target} | {measured} |")?;
        }
        writeln!(
            f,
            "\n| the exact law, held against the draws | draws | surprise | worst bin | calibration (by chance) |"
        )?;
        writeln!(f, "| --- | --- | --- | --- | --- |")?;
        for (name, law) in &self.law {
            writeln!(
                f,
                "| {name} | {} | {:+.1} σ | {:+.1} σ | {:.4} ({:.4}) |",
                law.draws,
                law.surprise,
                law.worst_bin,
                law.calibration.error,
                law.calibration.chance
            )?;
        }
        Ok(())
    }
}
