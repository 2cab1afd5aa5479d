//! What all draws share: the rows, their purchases, the clues.

use springline_core::clue::Told;
use springline_core::image::Image;
use springline_core::joint::Job;
use springline_tables::IMAGE;

use super::clues::{Clue, clues};
use super::print::Values;
use crate::exact::{FAMILIES, Model, Row};

/// Counts in an inch.
const INCH: f64 = 2_540_000.0;

/// What all draws share.
pub struct Bench {
    /// What the engine is asked about.
    pub image: Image<'static>,
    /// The rows of the image, in its order, as the exact law takes them.
    pub model: Model,
    /// The purchase of each row when nothing is said of the job, counted from nought.
    pub groups: Vec<usize>,
    /// How many purchases there are. This number also stands for what is outside.
    pub outside: usize,
    /// The clues.
    pub clues: Vec<Clue>,
    /// What print lines may name.
    pub printed: Values,
    /// What the engine is told, by clue and answer.
    told: Vec<Vec<Told>>,
    /// The engine's index of each family.
    families: Vec<u8>,
}

impl Default for Bench {
    fn default() -> Self {
        Self::new()
    }
}

impl Bench {
    /// From the built-in image.
    ///
    /// # Panics
    ///
    /// When the image has a family or lacks a clue that the simulator does not know of.
    #[must_use]
    pub fn new() -> Self {
        let image = Image::new(IMAGE).expect("the built-in image");
        let known: Vec<usize> = image
            .families()
            .map(|family| {
                let key = image.packed_text(family.key);
                let found = FAMILIES.iter().position(|f| f.name == key);
                found.unwrap_or_else(|| panic!("the exact law has no family {key}"))
            })
            .collect();
        let rows: Vec<Row> = image
            .rows_from(0)
            .map(|row| {
                let family = known[usize::from(row.family)];
                let inches = |counts: i32| f64::from(counts) / INCH;
                let od = inches(row.od);
                let row_prior = f64::from(row.share) / 4_294_967_296.0;
                let site = 0.6 * FAMILIES[family].irrigation + 0.4 * FAMILIES[family].municipal;
                Row {
                    family,
                    nominal: image.size(row.size).to_owned(),
                    od,
                    plus: inches(row.high) - od,
                    minus: od - inches(row.low),
                    oval: f64::from(row.oval) / 1_048_576.0 * od,
                    row_prior,
                    unknown_prior: site / 100.0 * row_prior,
                }
            })
            .collect();
        let purchases = image.purchases(Job::None);
        let mut keys: Vec<u16> = Vec::new();
        let groups = (0u16..)
            .zip(&rows)
            .map(|(row, _)| {
                let key = purchases.of(row);
                keys.iter().position(|k| *k == key).unwrap_or_else(|| {
                    keys.push(key);
                    keys.len() - 1
                })
            })
            .collect();
        let clues = clues();
        assert_eq!(clues.len(), image.clues().len(), "a clue that is not drawn");
        let told = clues
            .iter()
            .map(|clue| {
                let find = |answer: &&str| image.find_clue(clue.key, answer).expect("a clue");
                clue.answers.iter().map(find).collect()
            })
            .collect();
        let families = (0..FAMILIES.len())
            .map(|family| {
                let at = known.iter().position(|k| *k == family);
                u8::try_from(at.expect("every family")).expect("few families")
            })
            .collect();
        Self {
            printed: Values::of(&image),
            image,
            model: Model::of(rows),
            groups,
            outside: keys.len(),
            clues,
            told,
            families,
        }
    }

    /// What the engine is told of an answer.
    #[must_use]
    pub fn told(&self, clue: usize, answer: usize) -> Told {
        self.told[clue][answer]
    }

    /// Which clue and answer the engine means.
    #[must_use]
    pub fn clue(&self, index: u8) -> Option<usize> {
        self.told
            .iter()
            .position(|answers| answers[0].clue == index)
    }

    /// The engine's index of a family.
    #[must_use]
    pub fn family(&self, family: usize) -> u8 {
        self.families[family]
    }

    /// The engine's index of the size of a row.
    #[must_use]
    pub fn size(&self, row: usize) -> u8 {
        self.image.row(row as u16).size
    }
}

#[cfg(test)]
mod tests {
    use super::Bench;

    /// Shares of rows are the image's, in Q32; families' are typed.
    #[test]
    fn priors_sum_to_one() {
        let bench = Bench::new();
        let sum: f64 = bench.model.rows.iter().map(|row| row.unknown_prior).sum();
        assert!((sum - 1.0).abs() < 1e-6, "{sum}");
        assert!(bench.outside > 250 && bench.outside < bench.groups.len());
    }
}
