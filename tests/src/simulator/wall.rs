//! Class, wall and print line of a pipe: what checks will show that the engine does not have yet.

use springline_core::image::Material;

use super::bench::Bench;
use super::pipe::Pipe;
use super::random::{Part, Stream};

/// Things that a print line may say: standard, OD base, size, DR or schedule, pressure, material.
pub const THINGS: usize = 6;

/// What one thing on a print line is read as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Read {
    /// It cannot be read.
    Not,
    /// It is read as it is.
    Right,
    /// It is read as another value of the tables.
    Other,
}

/// A pipe's wall and print.
#[derive(Clone, Debug)]
pub struct Wall {
    /// Its class, a place among those of its row; `None` where the row has none.
    pub class: Option<usize>,
    /// Its wall, inches.
    pub wall: f64,
    /// What a cut end shows of it, inches.
    pub shown: f64,
    /// The print line, where there is one that can be read.
    pub print: Option<[Read; THINGS]>,
    /// Whether that line belongs to something else.
    pub foreign: bool,
}

impl Wall {
    /// The wall and print of a drawn pipe.
    #[must_use]
    pub fn draw(bench: &Bench, pipe: &Pipe, seed: u64, number: u64) -> Self {
        let mut stream = Stream::new(seed, number, Part::Wall);
        let row = bench.image.row(pipe.row as u16);
        let material = bench.image.family(row.family).material;
        let classes: Vec<_> = bench.image.classes(&row).collect();
        let class = (!classes.is_empty() && pipe.listed).then(|| {
            // Sixteenths of a power of two below one.
            let share =
                |class: &springline_core::image::Class| libm::exp2(-f64::from(class.share) / 16.0);
            stream.pick(classes.iter().map(share))
        });
        let listed = class.map_or(0.0, |class| f64::from(classes[class].wall) / 1000.0);
        let plastic = [Material::Pvc, Material::Pe]
            .map(|m| m as u8)
            .contains(&material);
        let wall = if listed <= 0.0 {
            stream.log_between(0.05, 2.0)
        } else if plastic {
            stream.between(listed, 1.12 * listed)
        } else {
            stream.normal(listed, 0.04 * listed)
        };
        let shown = wall + stream.normal(0.0, 0.015);
        let legible = stream.happens(0.5);
        let chance = stream.between(0.20, 0.95);
        let foreign = stream.happens(0.003);
        let mut thing = || match (stream.happens(chance), stream.happens(0.01)) {
            (false, _) => Read::Not,
            (true, true) => Read::Other,
            (true, false) => Read::Right,
        };
        let print = [(); THINGS].map(|()| thing());
        Self {
            class,
            wall,
            shown,
            print: legible.then_some(print),
            foreign,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::simulator::Nature;

    #[test]
    fn walls_and_prints_are_as_often_as_the_model_says() {
        let bench = Bench::new();
        let nature = Nature::believed();
        let (mut legible, mut read, mut pvc, mut forty) = (0.0, 0.0, 0.0, 0.0);
        let draws = 20_000u32;
        for number in 0..u64::from(draws) {
            let pipe = Pipe::draw(&bench, &nature, 9, number);
            let wall = Wall::draw(&bench, &pipe, 9, number);
            if let Some(print) = wall.print {
                legible += 1.0;
                read += print.iter().filter(|r| **r != Read::Not).count() as f64 / THINGS as f64;
            }
            let row = &bench.model.rows[pipe.row];
            if row.family().name == "ips-pvc" && row.nominal == "6" && pipe.listed {
                let least = 0.280; // Schedule 40, from memory
                pvc += 1.0;
                let of = &bench.image.row(u16::try_from(pipe.row).expect("few rows"));
                let class = bench.image.classes(of).nth(wall.class.expect("a class"));
                let class = class.expect("a class");
                if bench.image.label(class.label) == "Sch 40" {
                    forty += 1.0;
                    assert!((least..1.12 * least).contains(&wall.wall), "{wall:?}");
                }
            }
        }
        // Four standard errors: half of the lines, 57.5 % of the things, and .30 parts in .96 of 6 in IPS PVC.
        let n = f64::from(draws);
        assert!((legible / n - 0.5).abs() < 2.0 / n.sqrt());
        assert!((read / legible - 0.575).abs() < 4.0 * 0.27 / f64::sqrt(legible));
        let share = forty / pvc;
        assert!((0.20..0.36).contains(&share), "{share} of {pvc}");
    }
}
