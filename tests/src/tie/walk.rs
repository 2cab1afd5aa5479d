//! The search itself: steps between what can be open, and the least to every place after each round of them.

use std::collections::HashMap;

use springline_core::image::{Image, JointEnd, Material};
use springline_core::joint::tie::{Site, TieEnd};
use springline_core::joint::{Form, Pipe, Verdict};

use super::{Known, Shelf, goes, verdict};

/// What can be open: one of four pipes (both ends, a piece cut of each), or the end of a part in one of two sizes.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Open {
    Pipe(usize),
    /// A kind of end, a flange or a bell, a size.
    Part(u8, u8),
    /// The spigot that goes into such a bell.
    Spigot(u8, u8),
}

/// One side of a part on what is open.
#[derive(Clone, Copy)]
struct Half {
    at: Open,
    end: u8,
    size: u8,
    cost: u32,
    holds: bool,
    pipe: Option<usize>,
}

/// A part between two things that are open.
struct Step {
    from: Open,
    to: Open,
    cost: u32,
    closes: bool,
    turns: u8,
}

/// Two ends and how they lie, as the search is asked.
struct Asked<'a> {
    image: &'a Image<'a>,
    pipes: [Pipe; 4],
    ends: &'a [TieEnd; 2],
    site: Site,
    /// Nothing may stay unheld.
    held: bool,
}

impl Asked<'_> {
    fn sizes(&self) -> [u8; 2] {
        [self.pipes[0].row.size, self.pipes[1].row.size]
    }

    /// The joint of an end with a pipe; with one of the two ends its flange must be of the same class.
    fn on(&self, known: &mut Known, at: usize, own: u8) -> Option<(u8, u32, bool)> {
        let pipe = &self.pipes[at];
        let flange = self.image.joint_end(own).by == JointEnd::FLANGE;
        let drilled = at > 1 || [own, 255].contains(&self.ends[at].flange);
        if flange && pipe.form == Form::Flanged && !drilled {
            return None;
        }
        let (end, cost, holds) = known.joint(self.image, pipe, own)?;
        // Bits of the end: it is not made wet; it cures.
        let flags = self.image.joint_end(end).flags;
        if flags & 1 != 0 && self.site.dry == Some(false) {
            return None;
        }
        let by = self.image.joint_end(own).by;
        let lost = pipe.form == Form::Flanged && by != JointEnd::FLANGE
            || pipe.form == Form::Threaded && by != JointEnd::THREAD
            || pipe.form == Form::Belled;
        if lost && at < 2 && self.ends[at].keep {
            return None;
        }
        // Glue is no trouble where it is known to be dry.
        let spared = if flags & 1 != 0 && self.site.dry == Some(true) {
            400
        } else {
            0
        };
        let slow = flags & 2 != 0 && self.site.hours.is_some_and(|hours| hours < 24);
        Some((end, cost - spared + u32::from(slow) * 1500, holds))
    }

    /// Everything that a side of a part goes on, as it comes from the first end (`near`) or goes on to the second.
    fn halves(&self, known: &mut Known, part: &Shelf, side: usize, near: bool) -> Vec<Half> {
        let own = part.ends[side];
        let spigot = part.run == "spigot" && side == 1;
        let mut all = Vec::new();
        for at in usize::from(!near)..4 {
            if spigot {
                break;
            }
            let Some((end, cost, holds)) = self.on(known, at, own) else {
                continue;
            };
            let cut = if at > 1 && !near { 10 } else { 0 };
            all.push(Half {
                at: Open::Pipe(at),
                end,
                size: self.sizes()[at % 2],
                cost: cost + cut,
                holds,
                pipe: Some(at),
            });
        }
        let flange = self.image.joint_end(own).by == JointEnd::FLANGE;
        let mut sizes = self.sizes().to_vec();
        sizes.dedup();
        for size in sizes {
            // What stands open is named by the bell. A flange meets one like it, a bell a spigot, a spigot a bell.
            let at = match (near, flange, spigot) {
                (_, true, _) => Open::Part(own, size),
                (true, _, true) | (false, _, false) => Open::Part(part.bells[side], size),
                (true, _, false) | (false, _, true) => Open::Spigot(part.bells[side], size),
            };
            all.push(Half {
                at,
                end: own,
                size,
                // A bolt set and a gasket are a need.
                cost: match (near, flange) {
                    (true, true) => 12,
                    (true, false) => 10,
                    (false, _) => 0,
                },
                holds: true,
                pipe: None,
            });
        }
        all
    }

    /// All that a part does between two halves.
    fn steps(&self, part: &Shelf, one: Half, other: Half, steps: &mut Vec<Step>) {
        let image = self.image;
        let (a, b) = (image.measure(one.size), image.measure(other.size));
        let loose = !(one.holds && other.holds);
        if !(part.made(a) && part.made(b)) || loose && self.held {
            return;
        }
        let by = |end: u8| image.joint_end(end).by;
        let rows = one.pipe.zip(other.pipe);
        let rows = rows.map(|(x, y)| (&self.pipes[x].row, &self.pipes[y].row));
        let one_od = rows.is_some_and(|(x, y)| x.low <= y.high && y.low <= x.high);
        let ranges = by(one.end) == JointEnd::RANGE && by(other.end) == JointEnd::RANGE;
        let alone = by(one.end) == JointEnd::SIZE_ALONE && by(other.end) == JointEnd::SIZE_ALONE;
        let slides = part.run == "slides" && (one.pipe.is_some() || other.pipe.is_some());
        let fixed = self.ends.iter().all(|end| end.fixed);
        let idles = one.pipe.zip(other.pipe).is_some_and(|(x, y)| {
            let (p, q) = (&self.pipes[x], &self.pipes[y]);
            let plain =
                |pipe: &Pipe| pipe.form == Form::PlainSquare || pipe.form == Form::PlainBevelled;
            let same = p.row == q.row && p.variants == q.variants && plain(p) && plain(q);
            same && x.max(y) > 1 && !(fixed && slides)
        });
        let got = part.stock(a).max(part.stock(b));
        // Days, weeks, and longer.
        let wait = match got {
            0 => 0,
            60 => 48,
            200 => 168,
            _ => 336,
        };
        let late = self.site.hours.is_some_and(|hours| hours < wait);
        let cost = one.cost + other.cost + u32::from(loose) * 80 + got + u32::from(late) * 1500;
        let mut step = |turns: u8| {
            steps.push(Step {
                from: one.at,
                to: other.at,
                cost,
                closes: slides || part.run == "takes-up",
                turns,
            });
        };
        let straight = goes(part, a, b) || ranges && one_od;
        if straight && part.run != "turns" && !(alone && rows.is_some() && !one_od) && !idles {
            step(0);
        }
        if a == b && part.least > 0 && part.least >= self.site.lie.least {
            step(1);
        }
        if a == b && part.least == 0 && part.run == "turns" && self.site.lie.parallel {
            step(2);
        }
    }
}

/// The least that a chain of parts costs between two ends, three in a straight line and four with bends; `None` where there is
/// none.
#[must_use]
pub fn cheapest(
    image: &Image<'_>,
    shelves: &[Shelf],
    known: &mut Known,
    ends: &[TieEnd; 2],
    site: Site,
) -> Option<u32> {
    let cut = |end: &TieEnd| Pipe {
        form: Form::PlainSquare,
        ..end.pipe
    };
    let asked = Asked {
        image,
        pipes: [ends[0].pipe, ends[1].pipe, cut(&ends[0]), cut(&ends[1])],
        ends,
        site,
        held: ends.iter().any(|end| is_pe(image, &end.pipe)),
    };
    let mut steps = Vec::new();
    for shelf in shelves {
        for side in [0, 1] {
            let near = asked.halves(known, shelf, side, true);
            let far = asked.halves(known, shelf, 1 - side, false);
            for one in &near {
                for other in &far {
                    asked.steps(shelf, *one, *other, &mut steps);
                }
            }
        }
    }
    let fixed = ends.iter().all(|end| end.fixed);
    let least = walk(&steps, site.lie.bends);
    let done = |closed: bool| least.get(&(Open::Pipe(1), closed, site.lie.bends)).copied();
    let mut found = [done(true), done(false).filter(|_| !fixed)]
        .into_iter()
        .flatten()
        .min();
    if !fixed && site.lie.bends == 0 {
        found = [found, direct(&asked, known)].into_iter().flatten().min();
    }
    found
}

/// Where one can be, with a closing piece so far or with none, and so many bends.
type Place = (Open, bool, u8);

/// The least to every place from the first end: as many rounds as a chain may have parts, each over every step.
fn walk(steps: &[Step], bends: u8) -> HashMap<Place, u32> {
    let mut all: HashMap<Place, u32> = HashMap::new();
    let mut last: HashMap<Place, u32> = HashMap::from([((Open::Pipe(0), false, 0), 0)]);
    let mut of: HashMap<Open, Vec<&Step>> = HashMap::new();
    for step in steps {
        of.entry(step.from).or_default().push(step);
    }
    for _ in 0..if bends > 0 { 4 } else { 3 } {
        let mut next: HashMap<Place, u32> = HashMap::new();
        for ((at, closed, turned), so_far) in &last {
            // Nothing goes on from the second end.
            if *at == Open::Pipe(1) {
                continue;
            }
            for step in of.get(at).into_iter().flatten() {
                let turned = turned + step.turns;
                if turned > bends {
                    continue;
                }
                let place = (step.to, *closed || step.closes, turned);
                let cost = so_far + step.cost;
                let held = next.entry(place).or_insert(cost);
                *held = cost.min(*held);
            }
        }
        for (place, cost) in &next {
            let held = all.entry(*place).or_insert(*cost);
            *held = (*cost).min(*held);
        }
        last = next;
    }
    all
}

/// Whether a pipe is of polyethylene.
pub(super) fn is_pe(image: &Image<'_>, pipe: &Pipe) -> bool {
    let family = image.family(pipe.row.family);
    Material::from_code(family.material) == Some(Material::Pe)
}

/// The least that two ends cost that go together as they are: flanges of one drilling, a spigot in a bell, PE fused to PE.
fn direct(asked: &Asked<'_>, known: &mut Known) -> Option<u32> {
    let (image, ends) = (asked.image, asked.ends);
    let [one, other] = ends.map(|end| image.measure(end.pipe.row.size));
    if one != other {
        return None;
    }
    let mut found: Vec<u32> = Vec::new();
    let bolted = ends.iter().all(|end| {
        let flange = image.joint_end(end.flange).by == JointEnd::FLANGE;
        let takes = verdict(image, &end.pipe, end.flange).is_some_and(|v| v <= Verdict::FitsWith);
        end.pipe.form == Form::Flanged && flange && takes
    });
    if bolted && ends[0].flange == ends[1].flange {
        found.push(10);
    }
    for (bell, spigot) in [(0, 1), (1, 0)] {
        let pipe = &ends[bell].pipe;
        let family = image.packed_text(image.family(pipe.row.family).key);
        // What bells pipe comes with, typed by hand: common practice, no source.
        let name = match family {
            "ips-pvc" => "gasket bell IPS",
            "c900" | "pvco" => "gasket bell C900/DI size",
            "pip" => "gasket bell PIP",
            "ductile-iron" => "iron push-on C900/DI",
            _ => continue,
        };
        let mut all = (0u8..).zip(image.joint_ends());
        let at = all.find(|(_, end)| image.phrase(end.name).to_string() == name);
        let at = at.expect("the bell").0;
        let as_it_comes = Pipe {
            form: Form::PlainBevelled,
            ..*pipe
        };
        let comes = verdict(image, &as_it_comes, at) == Some(Verdict::Fits);
        if pipe.form == Form::Belled
            && comes
            && let Some((_, cost, holds)) = asked.on(known, spigot, at)
            && (holds || !asked.held)
        {
            found.push(cost + u32::from(!holds) * 80);
        }
    }
    let [a, b] = ends;
    let unlike = matches!((a.class, b.class), (Some(a), Some(b)) if a != b);
    if is_pe(image, &a.pipe) && a.pipe.row == b.pipe.row && !unlike {
        let name = match image.packed_text(image.family(a.pipe.row.family).key) {
            "hdpe-ips" => "butt fusion IPS",
            "hdpe-dips" => "butt fusion DIPS",
            _ => "",
        };
        let mut all = (0u8..).zip(image.joint_ends());
        if let Some((at, _)) = all.find(|(_, end)| image.phrase(end.name).to_string() == name) {
            let both = [0, 1].map(|pipe| asked.on(known, pipe, at));
            if let [Some((_, one, _)), Some((_, other, _))] = both {
                found.push(one.max(other));
            }
        }
    }
    found.into_iter().min()
}
