//! Rows, priors, and the laws that are worth keeping between queries.

use std::sync::OnceLock;

use super::barrel::Barrel;
use super::family::{FAMILIES, Family};
use super::instrument::{thermal, with_temperature};
use super::quad::Node;
use super::query::Site;
use super::shape::deflected;

/// One listed pipe: a family, a nominal size and an OD.
#[derive(Debug, Clone)]
pub struct Row {
    /// Place of the family in [`FAMILIES`].
    pub family: usize,
    /// Nominal size as printed, such as `6`, `1-1/4`, `DN150` or `315mm`.
    pub nominal: String,
    /// Outside diameter, inches.
    pub od: f64,
    /// Upper side of the band, inches.
    pub plus: f64,
    /// Lower side of the band, inches.
    pub minus: f64,
    /// Standard deviation of each component of the out-of-round, inches.
    pub oval: f64,
    /// Share of the row within its family; these sum to one.
    pub row_prior: f64,
    /// Prior where the site is unknown.
    pub unknown_prior: f64,
}

impl Row {
    /// The family's constants.
    #[must_use]
    pub fn family(&self) -> &'static Family {
        &FAMILIES[self.family]
    }

    /// Prior of the row on this kind of site, a fraction of all listed pipe.
    #[must_use]
    pub fn prior(&self, site: Site) -> f64 {
        match site {
            Site::Unknown => self.unknown_prior,
            Site::Irrigation => self.family().irrigation / 100.0 * self.row_prior,
            Site::Municipal => self.family().municipal / 100.0 * self.row_prior,
        }
    }

    pub(super) fn barrel(&self) -> Barrel {
        Barrel::new(
            self.od - self.minus,
            self.od + self.plus,
            self.family().wide,
        )
    }
}

/// What a diameter at one clock position does, by family, fractions of the OD.
#[derive(Debug, Clone)]
pub(super) struct Clock {
    /// Deflection × growth.
    pub(super) deflected: Vec<Vec<Node>>,
    /// The same with an unknown temperature on top.
    pub(super) growth: Vec<Vec<Node>>,
}

/// All rows, and each family's law of deflection in an unknown direction.
#[derive(Debug, Clone)]
pub struct Model {
    /// The rows, in the order of the file.
    pub rows: Vec<Row>,
    /// Out-of-round of each family as a fraction of the OD, averaged over its
    /// sizes: what a bell or an unlisted pipe is taken to have.
    pub(super) oval_share: Vec<f64>,
    /// Deflection × growth of a diameter in an unknown direction, by family.
    pub(super) any_deflected: Vec<Vec<Node>>,
    /// The same with an unknown temperature on top: the commonest query.
    pub(super) any_growth: Vec<Vec<Node>>,
    /// What diameters at each hour of the clock do, once it was asked for.
    clock: [OnceLock<Clock>; 12],
}

impl Default for Model {
    fn default() -> Self {
        Self::new()
    }
}

impl Model {
    /// The model over the rows kept beside the tests.
    ///
    /// # Panics
    ///
    /// If that file is broken.
    #[must_use]
    pub fn new() -> Self {
        Self::from_csv(include_str!("../../data/model-rows.csv"))
    }

    /// The model over rows given as text: comment lines start with `#`, then
    /// a header, then `family,nominal,od,plus,minus,oval,row prior,prior`.
    ///
    /// # Panics
    ///
    /// If a line does not have that form or names an unknown family: test data
    /// that cannot be read should stop the test.
    #[must_use]
    pub fn from_csv(text: &str) -> Self {
        let rows: Vec<Row> = text
            .lines()
            .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
            .skip(1)
            .map(row)
            .collect();
        Self::of(rows)
    }

    /// The model over these rows.
    #[must_use]
    pub fn of(rows: Vec<Row>) -> Self {
        let oval_share = (0..FAMILIES.len())
            .map(|f| {
                let own = rows.iter().filter(|r| r.family == f);
                own.map(|r| r.row_prior * r.oval / r.od).sum()
            })
            .collect();
        let any_deflected: Vec<Vec<Node>> = FAMILIES
            .iter()
            .map(|f| deflected(f.deflection, None))
            .collect();
        let any_growth = any_deflected
            .iter()
            .zip(thermal(None))
            .map(|(deflected, thermal)| with_temperature(deflected, &thermal))
            .collect();
        Self {
            rows,
            oval_share,
            any_deflected,
            any_growth,
            clock: Default::default(),
        }
    }

    /// What a diameter at a clock position does.
    pub(super) fn clock(&self, hour: u8) -> &Clock {
        self.clock[usize::from(hour % 12)].get_or_init(|| {
            let families = FAMILIES.iter();
            let deflected: Vec<_> = families
                .map(|f| deflected(f.deflection, Some(hour)))
                .collect();
            let growth = deflected
                .iter()
                .zip(thermal(None))
                .map(|(deflected, thermal)| with_temperature(deflected, &thermal))
                .collect();
            Clock { deflected, growth }
        })
    }
}

fn row(line: &str) -> Row {
    let cells: Vec<&str> = line.split(',').map(str::trim).collect();
    let number = |i: usize| -> f64 {
        cells
            .get(i)
            .and_then(|cell| cell.parse().ok())
            .unwrap_or_else(|| panic!("no number in cell {i} of: {line}"))
    };
    let family = FAMILIES
        .iter()
        .position(|f| f.name == cells[0])
        .unwrap_or_else(|| panic!("unknown family in: {line}"));
    Row {
        family,
        nominal: cells[1].to_owned(),
        od: number(2),
        plus: number(3),
        minus: number(4),
        oval: number(5),
        row_prior: number(6),
        unknown_prior: number(7),
    }
}
