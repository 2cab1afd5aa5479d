//! Shares, means and calibration, each with how well so many draws can know it.

/// A mean and its standard error.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mean {
    /// The mean.
    pub mean: f64,
    /// Its standard error.
    pub error: f64,
    /// How many values there were.
    pub count: usize,
}

impl Mean {
    /// Of some values; nought of none.
    #[must_use]
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let (mut count, mut sum, mut squares) = (0usize, 0.0, 0.0);
        for value in values {
            count += 1;
            sum += value;
            squares += value * value;
        }
        let n = (count as f64).max(1.0);
        let mean = sum / n;
        Self {
            mean,
            error: ((squares / n - mean * mean).max(0.0) / n).sqrt(),
            count,
        }
    }

    /// The share of those that are true.
    #[must_use]
    pub fn share(values: impl Iterator<Item = bool>) -> Self {
        Self::of(values.map(|value| f64::from(u8::from(value))))
    }
}

/// Expected calibration error, and how large it would be on average, by chance, were calibration perfect.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Calibration {
    /// Mean over the bins of how far the mean weight is from the share that was right.
    pub error: f64,
    /// The same by chance alone.
    pub chance: f64,
    /// How many draws there were.
    pub count: usize,
}

/// Bins of equal counts.
const BINS: usize = 20;

impl Calibration {
    /// Of weights, each with whether it was right.
    #[must_use]
    pub fn of(mut pairs: Vec<(f64, bool)>) -> Self {
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        let count = pairs.len();
        let (mut error, mut chance) = (0.0, 0.0);
        for bin in 0..BINS {
            let of = &pairs[count * bin / BINS..count * (bin + 1) / BINS];
            if of.is_empty() {
                continue;
            }
            let weights: f64 = of.iter().map(|p| p.0).sum();
            let right: f64 = of.iter().map(|p| f64::from(u8::from(p.1))).sum();
            let variance: f64 = of.iter().map(|p| p.0 * (1.0 - p.0)).sum();
            error += (weights - right).abs() / count as f64;
            // A normal is on average the root of two over pi of its standard deviation from its mean.
            chance += (variance * 2.0 / std::f64::consts::PI).sqrt() / count as f64;
        }
        Self {
            error,
            chance,
            count,
        }
    }
}

/// The value below which such a share of the values lies.
#[must_use]
pub fn quantile(values: &mut [f64], share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = ((values.len() as f64 * share) as usize).min(values.len().saturating_sub(1));
    values.get(at).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::simulator::random::{Part, Stream};

    #[test]
    fn perfect_calibration_is_as_far_off_as_chance_says_and_an_error_shows() {
        let mut stream = Stream::new(5, 0, Part::World);
        let mut pairs = |off: f64| -> Vec<(f64, bool)> {
            (0..40_000)
                .map(|_| {
                    let p = stream.between(0.1, 0.9);
                    (p, stream.happens(p - off))
                })
                .collect()
        };
        let good = Calibration::of(pairs(0.0));
        assert!((good.error / good.chance - 1.0).abs() < 0.6, "{good:?}");
        let bad = Calibration::of(pairs(0.05));
        assert!((bad.error - 0.05).abs() < 0.01, "{bad:?}");
    }

    #[test]
    fn means_and_quantiles() {
        let mean = Mean::of([1.0, 2.0, 3.0, 4.0].into_iter());
        assert!(
            (mean.mean - 2.5).abs() < 1e-12 && (mean.error - (1.25_f64 / 4.0).sqrt()).abs() < 1e-12
        );
        let mut values: Vec<f64> = (0..1000).rev().map(f64::from).collect();
        assert!((quantile(&mut values, 0.999) - 999.0).abs() < 1e-12);
        assert!((Mean::share([true, false].into_iter()).mean - 0.5).abs() < 1e-12);
        assert_eq!(Mean::of(std::iter::empty()).count, 0);
    }
}
