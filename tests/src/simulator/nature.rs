//! What the world is like: as believed, or different in one thing.

/// What may differ from belief. Each is a factor, a share or a standard deviation; [`Nature::believed`] is the model itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nature {
    /// Share of pipes whose average OD is normal about the middle of the band (σ a quarter of the band) instead of uniform.
    pub normal_bands: f64,
    /// Times the installed deflection.
    pub deflection: f64,
    /// Times the out-of-round.
    pub oval: f64,
    /// Share of pipes whose out-of-round has the root mean square of the law as its amplitude, instead of a normal one.
    pub fixed_oval: f64,
    /// Standard deviation of the logarithm of each family's share.
    pub priors: f64,
    /// Times the wrong answers about what a pipe is or does: material, magnet, pressure, lead, plans.
    pub wrong_facts: f64,
    /// Times all answers but the likeliest about how it looks: color, end, iron's marks.
    pub odd_looks: f64,
    /// Share of pipes that are disguised.
    pub disguised: f64,
    /// Share of pipes that carry a coat.
    pub coated: f64,
    /// The thickest coat on the diameter, inches.
    pub coat: f64,
    /// Times the errors of every instrument.
    pub errors: f64,
    /// Share of readings that are not of the barrel: seven in ten of a bell, the others misread.
    pub blunders: f64,
    /// Share of pipes that are in no table.
    pub unlisted: f64,
}

impl Nature {
    /// As the model believes.
    #[must_use]
    pub const fn believed() -> Self {
        Self {
            normal_bands: 0.0,
            deflection: 1.0,
            oval: 1.0,
            fixed_oval: 0.0,
            priors: 0.0,
            wrong_facts: 1.0,
            odd_looks: 1.0,
            disguised: 0.01,
            coated: 0.45,
            coat: 0.020,
            errors: 1.0,
            blunders: 0.005,
            unlisted: 0.005,
        }
    }

    /// No wrong answer, no disguise, every pipe listed and every reading of the barrel. How a pipe looks has no wrong answer:
    /// its colors and ends are drawn as believed.
    #[must_use]
    pub const fn clean() -> Self {
        Self {
            wrong_facts: 0.0,
            disguised: 0.0,
            blunders: 0.0,
            unlisted: 0.0,
            ..Self::believed()
        }
    }

    /// The worlds that differ from belief, each with its name.
    #[must_use]
    pub fn worlds() -> [(&'static str, Self); 11] {
        let be = Self::believed();
        [
            (
                "bands normal, σ a quarter",
                Self {
                    normal_bands: 1.0,
                    ..be
                },
            ),
            (
                "deflection twice",
                Self {
                    deflection: 2.0,
                    ..be
                },
            ),
            (
                "deflection none",
                Self {
                    deflection: 0.0,
                    ..be
                },
            ),
            (
                "ovality 1.6 times, fixed",
                Self {
                    oval: 1.6,
                    fixed_oval: 1.0,
                    ..be
                },
            ),
            ("priors × e^normal(0, .8)", Self { priors: 0.8, ..be }),
            (
                "clue errors 2.5 times",
                Self {
                    wrong_facts: 2.5,
                    odd_looks: 1.5,
                    ..be
                },
            ),
            (
                "4 % disguised",
                Self {
                    disguised: 0.04,
                    ..be
                },
            ),
            (
                "coats twice, on 70 %",
                Self {
                    coated: 0.70,
                    coat: 0.040,
                    ..be
                },
            ),
            ("instrument errors 1.7 times", Self { errors: 1.7, ..be }),
            (
                "1.5 % blunders, 1.5 % unlisted",
                Self {
                    blunders: 0.015,
                    unlisted: 0.015,
                    ..be
                },
            ),
            // Deflection can be half as much again, or half; more of it is the harder one.
            (
                "all at half strength",
                Self {
                    normal_bands: 0.5,
                    deflection: 1.5,
                    oval: 1.3,
                    fixed_oval: 0.5,
                    priors: 0.4,
                    wrong_facts: 1.75,
                    odd_looks: 1.25,
                    disguised: 0.025,
                    coated: 0.575,
                    coat: 0.030,
                    errors: 1.35,
                    blunders: 0.010,
                    unlisted: 0.010,
                },
            ),
        ]
    }

    /// Chances of a list of answers in this world, where they are believed to be these.
    pub(super) fn answers(&self, believed: &[f64], looks: bool) -> Vec<f64> {
        let times = if looks {
            self.odd_looks
        } else {
            self.wrong_facts
        };
        let likeliest = (0..believed.len())
            .max_by(|a, b| believed[*a].total_cmp(&believed[*b]))
            .unwrap_or(0);
        let mut chances: Vec<f64> = believed.iter().map(|p| p * times).collect();
        chances[likeliest] = 0.0;
        let others: f64 = chances.iter().sum();
        assert!(
            others <= 1.0,
            "errors of more than everything: {believed:?}"
        );
        chances[likeliest] = 1.0 - others;
        chances
    }
}

#[cfg(test)]
mod tests {
    use super::Nature;

    #[test]
    fn answers_sum_to_one_and_only_the_likeliest_gives_way() {
        let believed = [0.1, 0.7, 0.2];
        let as_is = Nature::believed().answers(&believed, false);
        assert!(
            as_is
                .iter()
                .zip(believed)
                .all(|(a, b)| (a - b).abs() < 1e-12)
        );
        let wrong = Nature::worlds()[5].1;
        let facts = wrong.answers(&believed, false);
        assert!((facts[0] - 0.25).abs() < 1e-12 && (facts[2] - 0.5).abs() < 1e-12);
        assert!((facts[1] - 0.25).abs() < 1e-12);
        let looks = wrong.answers(&believed, true);
        assert!((looks[0] - 0.15).abs() < 1e-12 && (looks[1] - 0.55).abs() < 1e-12);
        assert_eq!(Nature::clean().answers(&believed, false), [0.0, 1.0, 0.0]);
    }
}
