//! A second opinion on chains between two pipe ends: every step between what can be open, and the least to every place after
//! each round of them, from the files of the sources. It shares with the core the matrix of joints as it lies in the image, and no search.

mod replay;
mod walk;

use std::collections::HashMap;

use springline_core::image::{Image, JointEnd, Listing};
use springline_core::joint::{Form, Pipe, Use, Verdict};

use crate::cells;
pub use replay::Replay;
pub use walk::cheapest;

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
    /// The smallest bend that it is made as, from one: 45, 22-1/2, 11-1/4; 0 for none.
    pub least: u8,
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
    let ends = rows(include_str!("../../../tables/sources/joints/ends.csv"));
    let parts = rows(include_str!("../../../tables/sources/joints/parts.csv"));
    let runs = rows(include_str!("../../../tables/sources/joints/runs.csv"));
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
                least: match run[2].as_str() {
                    "45" => 1,
                    "22-1/2" => 2,
                    "11-1/4" => 3,
                    _ => 0,
                },
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
    let off = match pipe.form {
        Form::Threaded => u32::from(spoilt) * 20,
        _ => u32::from(spoilt) * 60,
    };
    Some((end, 10 + bought + need + dry + off, !holds.is_empty()))
}

/// Joints that were worked out once: pipes and ends come back in thousands of pairs.
#[derive(Debug, Default)]
pub struct Known(HashMap<OnPipe, Option<(u8, u32, bool)>>);

/// Family, size and OD of a pipe, bits of its variants, its form, and a joint end.
type OnPipe = (u8, u8, i32, u64, u8, u8);

impl Known {
    /// As [`joint`].
    pub fn joint(&mut self, image: &Image<'_>, pipe: &Pipe, own: u8) -> Option<(u8, u32, bool)> {
        let variants = pipe.variants.iter().fold(0, |bits, at| bits | 1 << at);
        let row = pipe.row;
        let key = (row.family, row.size, row.od, variants, pipe.form as u8, own);
        *self.0.entry(key).or_insert_with(|| joint(image, pipe, own))
    }
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
