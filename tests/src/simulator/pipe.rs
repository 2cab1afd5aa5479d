//! A pipe as it lies in the trench.

use super::bench::Bench;
use super::nature::Nature;
use super::random::{Part, Stream};
use crate::exact::{FAMILIES, Row, Site};

/// Diameters of pipe in no table, and of misreadings, inches: log-uniform between these.
const ANYTHING: (f64, f64) = (0.5, 72.0);

/// A pipe, and what of it is held against the tables. Lengths in inches.
#[derive(Clone, Debug)]
pub struct Pipe {
    /// The row it is of; of a pipe in no table, the row whose clues and shape it has.
    pub row: usize,
    /// What the technician says of the site.
    pub site: Site,
    /// Whether it is in the tables.
    pub listed: bool,
    /// Whether what is read is its bell, coupling or sleeve.
    pub bell: bool,
    /// Average diameter of what is read, coat and all, as warm as it is.
    pub diameter: f64,
    /// Installed deflection, a fraction.
    pub deflection: f64,
    /// Both components of the second harmonic.
    pub oval: [f64; 2],
    /// Average diameter of its barrel without a coat, as warm as it is.
    bare: f64,
    /// Out-of-round of its barrel.
    own_oval: [f64; 2],
    /// Temperature of the wall, °F.
    pub temperature: f64,
    /// What a disguised pipe is taken for: the row that it looks like.
    pub looks_like: usize,
}

/// A diameter that has to do with no pipe of the tables.
pub(super) fn anything(stream: &mut Stream) -> f64 {
    stream.log_between(ANYTHING.0, ANYTHING.1)
}

/// A row by its prior, where families are met so many times as often as is believed.
fn pick(bench: &Bench, site: Site, times: &[f64], stream: &mut Stream) -> usize {
    let share = |family: usize| {
        let (irrigation, municipal) = (FAMILIES[family].irrigation, FAMILIES[family].municipal);
        times[family]
            * match site {
                Site::Unknown => 0.6 * irrigation + 0.4 * municipal,
                Site::Irrigation => irrigation,
                Site::Municipal => municipal,
            }
    };
    let family = stream.pick((0..FAMILIES.len()).map(share));
    let rows = bench.model.rows.iter();
    stream.pick(rows.map(|row| {
        if row.family == family {
            row.row_prior
        } else {
            0.0
        }
    }))
}

/// Any row, as often as it is met on a site.
pub(super) fn any(bench: &Bench, site: Site, stream: &mut Stream) -> usize {
    pick(bench, site, &[1.0; FAMILIES.len()], stream)
}

/// How often a bell, coupling or sleeve of listed pipe is read.
fn bells(nature: &Nature) -> f64 {
    0.7 * nature.blunders / (1.0 - nature.unlisted)
}

/// What a place of a pipe is coated with, inches on the diameter.
fn coat(nature: &Nature, stream: &mut Stream) -> f64 {
    if stream.happens(nature.coated) {
        stream.between(0.0, nature.coat)
    } else {
        0.0
    }
}

/// Draws that share the shares of their families, in a world where those differ from belief.
const BLOCK: u64 = 2048;

impl Pipe {
    /// The pipe of a draw.
    #[must_use]
    pub fn draw(bench: &Bench, nature: &Nature, seed: u64, number: u64) -> Self {
        let mut world = Stream::new(seed, number / BLOCK, Part::World);
        let times: Vec<f64> = (0..FAMILIES.len())
            .map(|_| libm::exp(world.normal(0.0, nature.priors)))
            .collect();
        let mut stream = Stream::new(seed, number, Part::Pipe);
        // Where the site is not told it may be either, in the parts of the unknown site.
        let site = match (stream.happens(0.70), stream.happens(0.6)) {
            (false, _) => Site::Unknown,
            (true, true) => Site::Irrigation,
            (true, false) => Site::Municipal,
        };
        let row = pick(bench, site, &times, &mut stream);
        let listed = !stream.happens(nature.unlisted);
        let bell = listed && stream.happens(bells(nature));
        let disguised = stream.happens(nature.disguised);
        let looks_like = if disguised {
            any(bench, site, &mut stream)
        } else {
            row
        };
        let mut stream = Stream::new(seed, number, Part::Shape);
        let temperature = stream.cut_normal(75.0, 17.0, 20.0, 140.0);
        let mut pipe = Self::shaped(&bench.model.rows[row], nature, temperature, &mut stream);
        let own = bench.model.rows[row].od;
        if !listed || bell {
            let diameter = if bell {
                own * stream.between(1.05, 1.30)
            } else {
                anything(&mut stream)
            };
            pipe.diameter = diameter;
            pipe.oval = pipe.oval.map(|oval| oval * diameter / own);
        }
        Self {
            row,
            site,
            listed,
            bell,
            looks_like,
            ..pipe
        }
    }

    /// A barrel of a row.
    fn shaped(row: &Row, nature: &Nature, temperature: f64, stream: &mut Stream) -> Self {
        let family = row.family();
        let (lo, hi) = (row.od - row.minus, row.od + row.plus);
        let width = hi - lo;
        let spill = if family.wide && stream.happens(0.05) {
            width
        } else {
            0.0
        };
        let average = if stream.happens(nature.normal_bands) {
            stream.normal(f64::midpoint(lo, hi), (width + 2.0 * spill) / 4.0)
        } else {
            stream.between(lo - spill, hi + spill)
        };
        let coat = coat(nature, stream);
        let (mean, sd) = family.deflection;
        let deflection = if sd > 0.0 {
            stream.cut_normal(mean, sd, 0.0, mean + 4.0 * sd)
        } else {
            0.0
        };
        let sd = row.oval * nature.oval;
        let oval = if stream.happens(nature.fixed_oval) {
            // The root mean square of both components together.
            let amplitude = sd * std::f64::consts::SQRT_2;
            let angle = stream.between(0.0, 2.0 * std::f64::consts::PI);
            [amplitude * libm::cos(angle), amplitude * libm::sin(angle)]
        } else {
            [stream.normal(0.0, sd), stream.normal(0.0, sd)]
        };
        let warm = average * (1.0 + family.alpha * (temperature - 73.4));
        let bare = warm + stream.normal(0.0, family.wear);
        Self {
            row: 0,
            site: Site::Unknown,
            listed: true,
            bell: false,
            diameter: bare + coat,
            bare,
            own_oval: oval,
            deflection: deflection * nature.deflection,
            oval,
            temperature,
            looks_like: 0,
        }
    }

    /// The same pipe a foot along: what coats it, and whether a bell is read, is drawn anew. What is in no table goes on as it
    /// is.
    pub(super) fn along(&self, bench: &Bench, nature: &Nature, stream: &mut Stream) -> Self {
        let coat = coat(nature, stream);
        let bell = self.listed && stream.happens(bells(nature));
        if !self.listed {
            return self.clone();
        }
        let times = if bell {
            stream.between(1.05, 1.30)
        } else {
            1.0
        };
        let own = bench.model.rows[self.row].od;
        Self {
            bell,
            diameter: if bell { own * times } else { self.bare + coat },
            oval: self.own_oval.map(|oval| oval * times),
            ..self.clone()
        }
    }

    /// A round pipe of some diameter: what a misreading is of.
    pub(super) fn round(&self, diameter: f64) -> Self {
        Self {
            diameter,
            deflection: 0.0,
            oval: [0.0; 2],
            ..self.clone()
        }
    }

    /// Whether what is read is a barrel of the tables.
    #[must_use]
    pub fn barrel(&self) -> bool {
        self.listed && !self.bell
    }

    /// The diameter at an angle from the crown, radians, deflection and out-of-round so many times over.
    #[must_use]
    pub fn across(&self, angle: f64, times: f64) -> f64 {
        let (sin, cos) = (libm::sin(2.0 * angle), libm::cos(2.0 * angle));
        let oval = self.oval[0] * cos + self.oval[1] * sin;
        self.diameter * (1.0 - times * self.deflection * cos) + times * oval
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::simulator::tally::Mean;

    #[test]
    fn a_foot_along_the_coat_and_the_barrel_are_drawn_anew_and_nothing_else_is() {
        let bench = Bench::new();
        let nature = Nature {
            blunders: 0.2,
            unlisted: 0.05,
            ..Nature::believed()
        };
        let (mut bells, mut moved, mut squares, mut mended) = (vec![], vec![], vec![], 0);
        for number in 0..20_000 {
            let here = Pipe::draw(&bench, &nature, 11, number);
            let mut stream = Stream::new(11, number, Part::Along);
            let there = here.along(&bench, &nature, &mut stream);
            assert_eq!(
                (here.row, here.listed, here.site),
                (there.row, there.listed, there.site)
            );
            assert!((here.deflection - there.deflection).abs() < 1e-12);
            if !here.listed {
                assert!((here.diameter - there.diameter).abs() < 1e-12 && !there.bell);
                continue;
            }
            bells.push(there.bell);
            mended += u32::from(here.bell && there.barrel());
            if here.barrel() && there.barrel() {
                assert_eq!(here.oval.map(f64::to_bits), there.oval.map(f64::to_bits));
                let off = there.diameter - here.diameter;
                assert!(off.abs() <= 0.020);
                moved.push(off);
                squares.push(off * off);
            }
        }
        let near = |what: &str, values: Vec<f64>, want: f64| {
            let got = Mean::of(values.into_iter());
            assert!(
                (got.mean - want).abs() < 4.5 * got.error,
                "{what}: {got:?}, {want}"
            );
        };
        let bells = bells.into_iter().map(|bell| f64::from(u8::from(bell)));
        near("bells", bells.collect(), 0.7 * 0.2 / 0.95);
        near("coats", moved, 0.0);
        // Twice the variance of a coat: .45 of them even to .020 in.
        let variance = 0.45 * 0.020_f64.powi(2) / 3.0 - (0.45 * 0.010_f64).powi(2);
        near("coats, squared", squares, 2.0 * variance);
        assert!(mended > 1_000, "{mended}");
    }
}
