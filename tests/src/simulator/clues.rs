//! The tables of clues, read here a second time: chances of each answer by family.

use crate::exact::FAMILIES;

/// The likelihoods of one clue.
#[derive(Clone, Debug)]
pub struct Clue {
    /// Its key.
    pub key: &'static str,
    /// Keys of its answers.
    pub answers: Vec<&'static str>,
    /// Chances of the answers, by family in the order of [`FAMILIES`].
    pub chances: Vec<Vec<f64>>,
    /// Whether a disguised pipe shows another's.
    pub hidden: bool,
    /// Whether it is about how a pipe looks, so that no answer is plainly wrong.
    pub looks: bool,
    /// How often it is told in the field with the first reading.
    pub told: f64,
}

macro_rules! clue {
    ($key:literal, $hidden:literal, $looks:literal, $told:literal) => {
        Clue::read(
            $key,
            include_str!(concat!("../../../tables/sources/clues/", $key, ".csv")),
            ($hidden, $looks, $told),
        )
    };
}

/// Every clue.
#[must_use]
pub fn clues() -> Vec<Clue> {
    vec![
        clue!("material", true, false, 0.80),
        clue!("magnet", false, false, 0.35),
        clue!("color", true, true, 0.70),
        clue!("end", false, true, 0.40),
        clue!("lead-hub", false, false, 0.0),
        clue!("pressure", false, false, 0.50),
        clue!("iron-marks", false, true, 0.0),
    ]
}

impl Clue {
    /// A file's columns are `families`, one for each answer, `source`, `grade`; `others` are all families not named.
    fn read(
        key: &'static str,
        text: &'static str,
        (hidden, looks, told): (bool, bool, f64),
    ) -> Self {
        let mut lines = text
            .lines()
            .filter(|line| !line.is_empty() && !line.starts_with('#'));
        let header: Vec<&'static str> = lines.next().expect("a header").split(',').collect();
        let answers = header[1..header.len() - 2].to_vec();
        let mut chances: Vec<Option<Vec<f64>>> = vec![None; FAMILIES.len()];
        let mut others = None;
        for line in lines {
            let cells: Vec<&str> = line.split(',').collect();
            let of: Vec<f64> = cells[1..=answers.len()]
                .iter()
                .map(|cell| cell.parse().expect("a chance"))
                .collect();
            let sum: f64 = of.iter().sum();
            assert!((sum - 1.0).abs() < 1e-9, "{key}: {line}");
            for family in cells[0].split(';') {
                if family == "others" {
                    others = Some(of.clone());
                } else {
                    let at = FAMILIES.iter().position(|f| f.name == family);
                    chances[at.expect("a family")] = Some(of.clone());
                }
            }
        }
        let fill = |own: Option<Vec<f64>>| {
            own.or_else(|| others.clone())
                .expect("chances for every family")
        };
        Self {
            key,
            answers,
            chances: chances.into_iter().map(fill).collect(),
            hidden,
            looks,
            told,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::clues;
    use crate::exact::FAMILIES;

    /// Cells of the model's tables, typed a second time (common practice, no source).
    #[test]
    fn tables_are_read_as_they_stand() {
        for (key, answer, family, chance) in [
            ("material", "cement", "ips-pvc", 0.0095),
            ("material", "iron", "steel", 0.140),
            ("magnet", "yes", "asbestos-cement", 0.020),
            ("color", "blue", "pvco", 0.76),
            ("color", "yellow", "gas-pe", 0.79),
            ("end", "threaded", "copper", 0.10),
            ("lead-hub", "yes", "cast-iron", 0.15),
            ("lead-hub", "yes", "pip", 0.001),
            ("pressure", "yes", "conduit", 0.003),
            ("pressure", "yes", "steel", 0.97),
            ("iron-marks", "new", "metric-iron", 0.40),
            ("iron-marks", "none", "aluminum", 0.98),
        ] {
            let clue = clues().into_iter().find(|c| c.key == key).expect("a clue");
            let at = clue
                .answers
                .iter()
                .position(|a| *a == answer)
                .expect("an answer");
            let of = FAMILIES
                .iter()
                .position(|f| f.name == family)
                .expect("a family");
            assert!(
                (clue.chances[of][at] - chance).abs() < 1e-12,
                "{key} {answer} {family}"
            );
        }
    }
}
