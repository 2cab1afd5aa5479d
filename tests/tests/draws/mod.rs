//! Pipes as the model draws them, and what an instrument may meet on them.

#![allow(dead_code, reason = "each test that draws pipes uses a part of it")]

use std::f64::consts::PI;

use springline_tests::exact::Row;

/// Xorshift with a multiplied output: enough for a histogram.
pub(crate) struct Random(pub(crate) u64);

impl Random {
    pub(crate) fn uniform(&mut self) -> f64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        let bits = self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 32;
        (f64::from(u32::try_from(bits).expect("32 bits")) + 0.5) / 4_294_967_296.0
    }

    pub(crate) fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * self.uniform()
    }

    pub(crate) fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        mean + sd * radius * (2.0 * PI * self.uniform()).cos()
    }

    /// Draws until the value passes.
    pub(crate) fn cut_normal(&mut self, mean: f64, sd: f64, lo: f64, hi: f64) -> f64 {
        loop {
            let x = self.normal(mean, sd);
            if (lo..=hi).contains(&x) {
                return x;
            }
        }
    }

    /// Angle from the crown of a diameter of unknown direction.
    pub(crate) fn direction(&mut self) -> f64 {
        if self.uniform() < 0.7 {
            self.between(67.0, 113.0).to_radians()
        } else {
            self.between(0.0, 180.0).to_radians()
        }
    }
}

/// Paint, mud or scale on a diameter.
fn coat(random: &mut Random) -> f64 {
    if random.uniform() < 0.45 {
        random.between(0.0, 0.020)
    } else {
        0.0
    }
}

/// A pipe as it lies in the trench, inches.
pub(crate) struct Pipe {
    pub(crate) diameter: f64,
    /// How much of that is paint, mud or scale.
    coat: f64,
    delta: f64,
    oval: [f64; 2],
}

impl Pipe {
    pub(crate) fn draw(row: &Row, told: Option<f64>, random: &mut Random) -> Self {
        let family = row.family();
        let width = row.plus + row.minus;
        let spill = if family.wide && random.uniform() < 0.05 {
            width
        } else {
            0.0
        };
        let average = random.between(row.od - row.minus - spill, row.od + row.plus + spill);
        let degrees = loop {
            let degrees = random.cut_normal(75.0, 17.0, 20.0, 140.0);
            let fit = told.map_or(1.0, |t| (-0.5 * ((t - degrees) / 4.0).powi(2)).exp());
            if random.uniform() < fit {
                break degrees;
            }
        };
        let coat = coat(random);
        let (m, d) = family.deflection;
        let delta = if d > 0.0 {
            random.cut_normal(m, d, 0.0, m + 4.0 * d)
        } else {
            0.0
        };
        Self {
            diameter: average * (1.0 + family.alpha * (degrees - 73.4))
                + coat
                + random.normal(0.0, family.wear),
            coat,
            delta,
            oval: [random.normal(0.0, row.oval), random.normal(0.0, row.oval)],
        }
    }

    /// The same pipe a foot along: another coat.
    pub(crate) fn along(&self, random: &mut Random) -> Self {
        let coat = coat(random);
        Self {
            diameter: self.diameter - self.coat + coat,
            coat,
            ..*self
        }
    }

    /// The diameter in a direction, deflection and out-of-round `k` times over.
    pub(crate) fn across(&self, angle: f64, k: f64) -> f64 {
        let (sin, cos) = (2.0 * angle).sin_cos();
        let oval = self.oval[0] * cos + self.oval[1] * sin;
        self.diameter * (1.0 - k * self.delta * cos) + k * oval
    }

    pub(crate) fn caliper(&self, angle: f64, random: &mut Random) -> f64 {
        let d = self.across(angle, 1.0);
        random.normal(d, 0.003 + 0.0003 * d)
    }
}
