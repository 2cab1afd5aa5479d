//! Random numbers that hang on nothing but what they are for: the seed of the run, the number of the draw, and a part of it.

use std::f64::consts::PI;

/// What part of a draw a stream is for. Each part has its own, so that a part that draws more leaves the others as they were.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u64)]
pub enum Part {
    /// Shares of the families in a world where they differ from belief.
    World = 1,
    /// Which pipe, and whether it is in the tables.
    Pipe,
    /// Its size and shape.
    Shape,
    /// Which instrument.
    Instrument,
    /// What the instruments show.
    Reading,
    /// What there is to see and feel.
    Clues,
    /// What of it is told.
    Told,
    /// A tape that is put around later, on a proposal.
    Tape,
    /// A diameter that is crossed with the first later, on a proposal.
    Crossing,
    /// Class, wall, and whether there is a cut end.
    Wall,
    /// The print line.
    Print,
    /// The reading again a foot along, on a proposal.
    Along,
}

/// One stream: a counter that is scrambled (Steele, Lea and Flood's `SplitMix64`, 2014).
#[derive(Clone, Debug)]
pub struct Stream(u64);

fn scramble(mut x: u64) -> u64 {
    x = (x ^ (x >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    x = (x ^ (x >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    x ^ (x >> 31)
}

const STEP: u64 = 0x9E37_79B9_7F4A_7C15;

impl Stream {
    /// The stream of a part of a draw.
    #[must_use]
    pub fn new(seed: u64, number: u64, part: Part) -> Self {
        let mut state = scramble(seed.wrapping_add(STEP));
        for word in [number, part as u64] {
            state = scramble(state ^ word.wrapping_mul(STEP)).wrapping_add(STEP);
        }
        Self(state)
    }

    /// Between nought and one, neither of them.
    pub fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(STEP);
        ((scramble(self.0) >> 12) as f64 + 0.5) / 4_503_599_627_370_496.0
    }

    /// Whether something of this chance happens.
    pub fn happens(&mut self, chance: f64) -> bool {
        self.uniform() < chance
    }

    /// Uniform between two bounds.
    pub fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * self.uniform()
    }

    /// Log-uniform between two bounds.
    pub fn log_between(&mut self, lo: f64, hi: f64) -> f64 {
        libm::exp(self.between(libm::log(lo), libm::log(hi)))
    }

    /// Normal.
    pub fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let radius = (-2.0 * libm::log(self.uniform())).sqrt();
        mean + sd * radius * libm::cos(2.0 * PI * self.uniform())
    }

    /// Normal, drawn again until it lies between two bounds.
    pub fn cut_normal(&mut self, mean: f64, sd: f64, lo: f64, hi: f64) -> f64 {
        loop {
            let x = self.normal(mean, sd);
            if (lo..=hi).contains(&x) {
                return x;
            }
        }
    }

    /// One of some weights, by its place; they need not sum to one.
    ///
    /// # Panics
    ///
    /// When there is none.
    pub fn pick(&mut self, weights: impl Iterator<Item = f64> + Clone) -> usize {
        let mut left = self.uniform() * weights.clone().sum::<f64>();
        let mut last = None;
        for (place, weight) in weights.enumerate() {
            if weight > 0.0 {
                left -= weight;
                last = Some(place);
                if left < 0.0 {
                    break;
                }
            }
        }
        last.expect("a weight above nought")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draw_is_found_again_by_its_number_and_streams_have_nothing_in_common() {
        let first = |seed, number, part| {
            let mut stream = Stream::new(seed, number, part);
            [stream.uniform(), stream.uniform(), stream.uniform()]
        };
        assert_eq!(
            first(1, 77, Part::Pipe).map(f64::to_bits),
            first(1, 77, Part::Pipe).map(f64::to_bits)
        );
        // Correlation of neighbours in seed, number and part, and from one value to the next: four standard errors.
        let n = 40_000u64;
        let correlation = |pair: &dyn Fn(u64) -> (f64, f64)| {
            (0..n)
                .map(|i| {
                    let (a, b) = pair(i);
                    12.0 * (a - 0.5) * (b - 0.5)
                })
                .sum::<f64>()
                / n as f64
        };
        let bound = 4.0 / (n as f64).sqrt();
        let of = |seed, number, part| first(seed, number, part)[0];
        for (what, got) in [
            (
                "seed",
                correlation(&|i| (of(1, i, Part::Pipe), of(2, i, Part::Pipe))),
            ),
            (
                "number",
                correlation(&|i| (of(1, i, Part::Pipe), of(1, i + 1, Part::Pipe))),
            ),
            (
                "part",
                correlation(&|i| (of(1, i, Part::Pipe), of(1, i, Part::Shape))),
            ),
            (
                "next",
                correlation(&|i| {
                    let f = first(1, i, Part::Pipe);
                    (f[0], f[1])
                }),
            ),
        ] {
            assert!(got.abs() < bound, "{what}: {got} of {bound}");
        }
    }

    #[test]
    fn laws_have_their_moments() {
        let n = 100_000u32;
        let mut stream = Stream::new(3, 3, Part::World);
        let mut sums = [0.0f64; 4];
        let mut picked = [0u32; 3];
        for _ in 0..n {
            let x = stream.normal(2.0, 3.0);
            let y = stream.log_between(0.5, 72.0);
            sums[0] += x;
            sums[1] += (x - 2.0) * (x - 2.0);
            sums[2] += f64::from(u8::from(y < 6.0));
            picked[stream.pick([1.0, 0.0, 3.0].into_iter())] += 1;
        }
        let n = f64::from(n);
        // Four standard errors each.
        assert!((sums[0] / n - 2.0).abs() < 4.0 * 3.0 / n.sqrt());
        assert!((sums[1] / n / 9.0 - 1.0).abs() < 4.0 * (2.0 / n).sqrt());
        // Six is the geometric mean of the bounds.
        assert!((sums[2] / n - 0.5).abs() < 2.0 / n.sqrt());
        assert_eq!(picked[1], 0);
        assert!((f64::from(picked[2]) / n - 0.75).abs() < 4.0 * 0.433 / n.sqrt());
    }
}
