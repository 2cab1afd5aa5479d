//! A second opinion on chains between two pipe ends: all pairs of what can be open, by products of matrices of costs, from the
//! files of the sources. It shares with the core the matrix of joints as it lies in the image, and no search.

use springline_core::image::{Image, JointEnd, Listing, Material};
use springline_core::joint::tie::TieEnd;
use springline_core::joint::{Form, Pipe, Use, Verdict};

use crate::cells;

/// A part of a run, of `runs.csv` and `parts.csv`.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// Its index among the parts.
    pub part: u8,
    /// Its word in `runs.csv`.
    pub run: String,
    /// Its two ends, indices.
    pub ends: [u8; 2],
    /// The same, but of a spigot the bell that it goes into.
    pub bells: [u8; 2],
    sizes: (u16, u16),
    stock: Vec<((u16, u16), u32)>,
}

impl Shelf {
    /// Whether it is made in a size.
    #[must_use]
    pub fn made(&self, measure: u16) -> bool {
        self.sizes.0 <= measure && measure <= self.sizes.1
    }

    /// What it costs to get it in a size.
    #[must_use]
    pub fn stock(&self, measure: u16) -> u32 {
        let own = |(band, _): &&((u16, u16), u32)| band.0 <= measure && measure <= band.1;
        // What is said of a band goes before what is said of all; the last entry is of all.
        self.stock.iter().find(own).map_or(0, |(_, cost)| *cost)
    }
}

/// `2-1/2` in sixty-fourths.
fn measure(text: &str) -> u16 {
    text.split('-').fold(0, |sum, part| {
        let (over, under) = part.split_once('/').unwrap_or((part, "1"));
        let [over, under] = [over, under].map(|n| n.parse::<u16>().expect("a size"));
        sum + over * 64 / under
    })
}

fn band(text: &str) -> (u16, u16) {
    if text == "*" {
        return (0, u16::MAX);
    }
    let (low, high) = text.split_once("..").unwrap_or((text, text));
    let edge = |text: &str, open| if text.is_empty() { open } else { measure(text) };
    (edge(low, 0), edge(high, u16::MAX))
}

fn stock(word: &str) -> u32 {
    match word {
        "counter" => 0,
        "order" => 60,
        "shop" => 200,
        "rare" => 300,
        _ => panic!("no stock {word}"),
    }
}

/// The parts that are in a run, from the files.
///
/// # Panics
///
/// When the files do not agree, which the compiler would have refused.
#[must_use]
pub fn shelves() -> Vec<Shelf> {
    let rows = |text: &'static str| {
        let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
        lines.map(cells).collect::<Vec<_>>()
    };
    let ends = rows(include_str!("../../tables/sources/joints/ends.csv"));
    let parts = rows(include_str!("../../tables/sources/joints/parts.csv"));
    let runs = rows(include_str!("../../tables/sources/joints/runs.csv"));
    let end = |key: &str| ends.iter().position(|row| row[0] == key).expect("an end") as u8;
    runs.iter()
        .map(|run| {
            let at = parts.iter().position(|part| part[0] == run[0]);
            let at = at.expect("a part");
            let part = &parts[at];
            let own: Vec<u8> = part[4].split(' ').map(end).collect();
            let mut stocks = part[6].split(';');
            let usual = stock(stocks.next().expect("a stock"));
            let mut kinds: Vec<_> = stocks
                .map(|other| {
                    let (sizes, word) = other.trim().split_once(' ').expect("band and stock");
                    (band(sizes), stock(word))
                })
                .collect();
            kinds.push(((0, u16::MAX), usual));
            let own: [u8; 2] = own.try_into().expect("two ends");
            // Columns `or` and `form`.
            let bell = |at: u8| match &ends[usize::from(at)][5..7] {
                [or, form] if form == "spigot" => end(or),
                _ => at,
            };
            Shelf {
                part: at as u8,
                run: run[1].clone(),
                ends: own,
                bells: own.map(bell),
                sizes: band(&part[5]),
                stock: kinds,
            }
        })
        .collect()
}

/// The one row of the matrix on a pipe of some variants: the best verdict.
#[must_use]
pub fn verdict(image: &Image<'_>, pipe: &Pipe, end: u8) -> Option<Verdict> {
    let of = |variant: u8| {
        let mut rows = image.matrix().filter(|row| {
            image.set(row.variants).has(variant)
                && image.set(row.ends).has(end)
                && row.forms & (1 << pipe.form as u8) != 0
                && image.band(row.band).holds(image.measure(pipe.row.size))
        });
        Verdict::from_code(rows.next()?.verdict_and_kind & 15)
    };
    pipe.variants.iter().filter_map(of).min()
}

/// The end that is made up on a pipe and what that joint costs; whether something holds it.
#[must_use]
pub fn joint(image: &Image<'_>, pipe: &Pipe, own: u8) -> Option<(u8, u32, bool)> {
    let both = [Some(own), image.joint_end(own).another()]
        .into_iter()
        .flatten()
        .map(|end| (verdict(image, pipe, end), end));
    let (best, end) = both
        .filter_map(|(verdict, end)| Some((verdict?, end)))
        .min_by_key(|(verdict, _)| *verdict)?;
    if best > Verdict::FitsWith {
        return None;
    }
    let holds: Vec<Listing> = image
        .restraints()
        .filter(|one| {
            [Some(Use::Holds), Some(Use::Itself)].contains(&one.of())
                && [pipe.row.system, 255].contains(&one.system)
                && image.set(one.ends).has(end)
                && image.set(one.variants).meets(pipe.variants)
                && image.band(one.band).holds(image.measure(pipe.row.size))
        })
        .collect();
    let itself = holds.iter().any(|one| one.of() == Some(Use::Itself));
    let bought = if holds.is_empty() || itself { 0 } else { 10 };
    let need = if best == Verdict::Fits { 0 } else { 2 };
    let dry = u32::from(image.joint_end(end).flags & 1) * 400;
    let by = image.joint_end(end).by;
    let spoilt = pipe.form == Form::Flanged && by != JointEnd::FLANGE
        || pipe.form == Form::Threaded && by != JointEnd::THREAD;
    let off = u32::from(spoilt) * 60;
    Some((end, 10 + bought + need + dry + off, !holds.is_empty()))
}

/// What can be open: one of four pipes (both ends, a piece cut of each), or the end of a part in one of two sizes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Open {
    Pipe(usize),
    /// A kind of end, a flange or a bell, a size.
    Part(u8, u8),
    /// The spigot that goes into such a bell.
    Spigot(u8, u8),
}

/// The least that a chain of at most three parts costs between two ends; `None` where there is none.
#[must_use]
#[expect(
    clippy::too_many_lines,
    reason = "one step of the matrix, with all that it hangs on, reads best in one place"
)]
pub fn cheapest(image: &Image<'_>, shelves: &[Shelf], ends: &[TieEnd; 2]) -> Option<u32> {
    let cut = |end: &TieEnd| Pipe {
        form: Form::PlainSquare,
        ..end.pipe
    };
    let pipes = [ends[0].pipe, ends[1].pipe, cut(&ends[0]), cut(&ends[1])];
    let sizes = [pipes[0].row.size, pipes[1].row.size];
    let fixed = ends[0].fixed && ends[1].fixed;
    let held = ends.iter().any(|end| {
        let family = image.family(end.pipe.row.family);
        Material::from_code(family.material) == Some(Material::Pe)
    });
    let flange = |end: u8| image.joint_end(end).by == JointEnd::FLANGE;
    let open = opens(image, shelves, sizes);
    let count = open.len();
    let far = u32::MAX / 4;
    // Twice: with no closing piece so far, and with one.
    let mut step = vec![vec![far; 2 * count]; 2 * count];
    for shelf in shelves {
        for near in [0, 1] {
            let spigot = |side: usize| shelf.run == "spigot" && side == 1;
            for (from, one) in open.iter().enumerate() {
                let entered = match *one {
                    Open::Pipe(at) if !spigot(near) => {
                        let found = joint(image, &pipes[at], shelf.ends[near]);
                        found.map(|(end, cost, holds)| (end, sizes[at % 2], cost, holds, Some(at)))
                    }
                    Open::Part(end, size) if flange(end) || spigot(near) => {
                        (end == shelf.bells[near]).then_some((end, size, 10, true, None))
                    }
                    Open::Spigot(end, size) if !spigot(near) => {
                        (end == shelf.ends[near]).then_some((end, size, 10, true, None))
                    }
                    _ => None,
                };
                let Some((near_end, near_size, near_cost, near_holds, near_pipe)) = entered else {
                    continue;
                };
                let other = 1 - near;
                for (to, one) in open.iter().enumerate().skip(1) {
                    let left = match *one {
                        Open::Pipe(at) if !spigot(other) => {
                            let found = joint(image, &pipes[at], shelf.ends[other]);
                            found.map(|(end, cost, holds)| {
                                let cut = if at > 1 { 10 } else { 0 };
                                (end, sizes[at % 2], cost + cut, holds, Some(at))
                            })
                        }
                        Open::Part(end, size) if !spigot(other) => {
                            (end == shelf.ends[other]).then_some((end, size, 0, true, None))
                        }
                        Open::Spigot(end, size) if spigot(other) => {
                            (end == shelf.bells[other]).then_some((end, size, 0, true, None))
                        }
                        _ => None,
                    };
                    let Some((far_end, far_size, far_cost, far_holds, far_pipe)) = left else {
                        continue;
                    };
                    let loose = !(near_holds && far_holds);
                    let (a, b) = (image.measure(near_size), image.measure(far_size));
                    let ranges = [near_end, far_end]
                        .iter()
                        .all(|end| image.joint_end(*end).by == JointEnd::RANGE);
                    let one_od = match (near_pipe, far_pipe) {
                        (Some(x), Some(y)) => {
                            let (x, y) = (&pipes[x].row, &pipes[y].row);
                            x.low <= y.high && y.low <= x.high
                        }
                        _ => false,
                    };
                    let alike = ranges && one_od;
                    // A spline is cut for one OD.
                    let key = |end: u8| image.joint_end(end).by == JointEnd::SIZE_ALONE;
                    if key(near_end) && key(far_end) && !one_od {
                        continue;
                    }
                    let made = shelf.made(a) && shelf.made(b);
                    if !(goes(shelf, a, b) || alike) || !made || loose && held {
                        continue;
                    }
                    let slides =
                        shelf.run == "slides" && (near_pipe.is_some() || far_pipe.is_some());
                    let closes = slides || shelf.run == "takes-up";
                    if let (Some(x), Some(y)) = (near_pipe, far_pipe) {
                        let (one, two) = (&pipes[x], &pipes[y]);
                        let same = one.row == two.row && one.variants == two.variants;
                        if same && x.max(y) > 1 && !(fixed && slides) {
                            continue;
                        }
                    }
                    let anchor = if loose { 80 } else { 0 };
                    let got = shelf.stock(a).max(shelf.stock(b));
                    let cost = near_cost + far_cost + anchor + got;
                    for closed in [false, true] {
                        let from = 2 * from + usize::from(closed);
                        let to = 2 * to + usize::from(closed || closes);
                        step[from][to] = step[from][to].min(cost);
                    }
                }
            }
        }
    }
    let least = three(&step, far);
    let mut found = if fixed { far } else { least[0][2] };
    found = found.min(least[0][3]);
    if bolted(image, ends) {
        found = found.min(10);
    }
    (found < far).then_some(found)
}

/// Everything that can be open between two sizes.
fn opens(image: &Image<'_>, shelves: &[Shelf], sizes: [u8; 2]) -> Vec<Open> {
    let flange = |end: u8| image.joint_end(end).by == JointEnd::FLANGE;
    let mut open: Vec<Open> = (0..4).map(Open::Pipe).collect();
    for shelf in shelves {
        for end in shelf.bells {
            for size in sizes {
                for one in [Open::Part(end, size), Open::Spigot(end, size)] {
                    let spigot = shelf.run == "spigot" && end == shelf.bells[1];
                    let wanted = matches!(one, Open::Part(..)) && flange(end) || spigot;
                    if wanted && !open.contains(&one) {
                        open.push(one);
                    }
                }
            }
        }
    }
    open
}

/// The least of one to three steps.
fn three(step: &[Vec<u32>], far: u32) -> Vec<Vec<u32>> {
    let count = step.len();
    let mut least = step.to_vec();
    for _ in 1..3 {
        let mut next = least.clone();
        for from in 0..count {
            for over in 0..count {
                // Nothing goes on from the second end.
                if over / 2 == 1 || least[from][over] >= far {
                    continue;
                }
                for to in 0..count {
                    let through = least[from][over] + step[over][to];
                    next[from][to] = next[from][to].min(through);
                }
            }
        }
        least = next;
    }
    least
}

/// Whether both ends are flanges that can be bolted together.
fn bolted(image: &Image<'_>, ends: &[TieEnd; 2]) -> bool {
    let flanged = |pipe: &Pipe| {
        let first = (0u8..).zip(image.joint_ends());
        let mut flanges = first.filter(|(_, end)| end.by == JointEnd::FLANGE);
        let flange = flanges.next().map(|(at, _)| verdict(image, pipe, at));
        pipe.form == Form::Flanged && flange.flatten().is_some_and(|v| v <= Verdict::FitsWith)
    };
    let [one, other] = ends.map(|end| image.measure(end.pipe.row.size));
    one == other && !ends.iter().all(|end| end.fixed) && ends.iter().all(|end| flanged(&end.pipe))
}

/// Whether a part is made from one size to another.
#[must_use]
pub fn goes(shelf: &Shelf, a: u16, b: u16) -> bool {
    let (small, large) = (a.min(b), a.max(b));
    let sizes = match shelf.run.as_str() {
        "reduces" => small != large && large <= 3 * small,
        "either" => large <= 3 * small,
        _ => small == large,
    };
    sizes && shelf.made(a) && shelf.made(b)
}
