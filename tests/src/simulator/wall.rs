//! Class and wall of a pipe, and what a cut end shows of it.

use springline_core::image::{Class, Material};

use super::bench::Bench;
use super::nature::Nature;
use super::pipe::Pipe;
use super::random::Stream;

/// How often a trench has a cut end; there the wall is read with the first reading.
const CUT_END: f64 = 0.08;
/// How well a wall is read, inches.
const SIGMA: f64 = 0.015;

/// A pipe's class and wall.
#[derive(Clone, Debug)]
pub struct Wall {
    /// Its class, a place among those of its row; `None` where the row has none. Pipe in no table has that of its row.
    pub class: Option<usize>,
    /// Its wall, inches.
    pub wall: f64,
    /// What a cut end shows of it, inches, where there is one.
    pub shown: Option<f64>,
}

impl Wall {
    /// The wall of a drawn pipe.
    #[must_use]
    pub fn draw(bench: &Bench, pipe: &Pipe, nature: &Nature, stream: &mut Stream) -> Self {
        let row = bench.image.row(pipe.row as u16);
        let material = bench.image.family(row.family).material;
        let classes: Vec<Class> = bench.image.classes(&row).collect();
        let class = (!classes.is_empty()).then(|| {
            // Sixteenths of a power of two below one.
            let share = |class: &Class| libm::exp2(-f64::from(class.share) / 16.0);
            stream.pick(classes.iter().map(share))
        });
        let listed = class.map_or(0.0, |class| f64::from(classes[class].wall) / 1000.0);
        // Walls of asbestos-cement are in no table.
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
        let cut_end = stream.happens(CUT_END);
        // Nobody reads a wall of nothing: thin tube is read again.
        let error = SIGMA * nature.errors;
        let shown = cut_end.then(|| stream.cut_normal(wall, error, 0.001, f64::INFINITY));
        Self { class, wall, shown }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::simulator::random::Part;

    #[test]
    fn walls_are_as_often_as_the_model_says() {
        let bench = Bench::new();
        let nature = Nature::believed();
        let (mut cut, mut pvc, mut forty) = (0.0, 0.0, 0.0);
        let draws = 20_000u32;
        for number in 0..u64::from(draws) {
            let pipe = Pipe::draw(&bench, &nature, 9, number);
            let wall = Wall::draw(
                &bench,
                &pipe,
                &nature,
                &mut Stream::new(9, number, Part::Wall),
            );
            cut += f64::from(u8::from(wall.shown.is_some()));
            let row = &bench.model.rows[pipe.row];
            if row.family().name == "ips-pvc" && row.nominal == "6" {
                let least = 0.280; // Schedule 40, from memory
                pvc += 1.0;
                let of = &bench.image.row(u16::try_from(pipe.row).expect("few rows"));
                let class = bench.image.classes(of).nth(wall.class.expect("a class"));
                let class = class.expect("a class");
                if bench.image.label(class.label) == "Sch 40" {
                    forty += 1.0;
                    assert!((least..1.12 * least).contains(&wall.wall), "{wall:?}");
                    let off = wall.shown.map_or(0.0, |shown| shown - wall.wall);
                    assert!(off.abs() < 5.0 * SIGMA, "{wall:?}");
                }
            }
        }
        // Four standard errors: 8 % of trenches, and .30 parts in .96 of 6 in IPS PVC.
        let n = f64::from(draws);
        assert!((cut / n - 0.08).abs() < 4.0 * 0.272 / n.sqrt());
        let share = forty / pvc;
        assert!((0.20..0.36).contains(&share), "{share} of {pvc}");
    }
}
