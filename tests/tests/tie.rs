//! Chains between pipe ends: the cheapest against an independent search of all pairs, and each replayed joint by joint.

use springline_core::image::{Image, JointEnd, Row};
use springline_core::joint::tie::{Chain, Direct, Lie, Nothing, Site, TieEnd, nothing, ties};
use springline_core::joint::{Form, Pipe, holders, refusal};
use springline_tables::IMAGE;
use springline_tests::tie::{Known, Replay, Shelf, cheapest, joint, shelves};

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// A row of each water family and size, to 24 in.
fn water(image: &Image<'static>) -> Vec<Pipe> {
    let mut pipes: Vec<Pipe> = Vec::new();
    for row in image.rows_from(0) {
        let pipe = pipe(image, row, Form::PlainSquare);
        let held = |held: &Pipe| held.row.family == row.family && held.row.size == row.size;
        let small = image.measure(row.size) <= 24 * 64;
        if small && refusal(image, &pipe).is_none() && !pipes.iter().any(held) {
            pipes.push(pipe);
        }
    }
    pipes
}

fn pipe(image: &Image<'_>, row: Row, form: Form) -> Pipe {
    Pipe {
        row,
        variants: image.variants_of(&row),
        form,
    }
}

/// The joint ends that are flanges: class 125/150, then 250/300.
fn flanges(image: &Image<'_>) -> [u8; 2] {
    let named = |name: &str| {
        let mut all = (0u8..).zip(image.joint_ends());
        let found = all.find(|(_, end)| image.phrase(end.name).to_string() == name);
        found.expect("a flange").0
    };
    ["flange class 125/150", "flange class 250/300"].map(named)
}

/// An end whose flange, where it has one, is of class 125.
fn tie_end(image: &Image<'_>, pipe: Pipe, fixed: bool) -> TieEnd {
    TieEnd {
        pipe,
        fixed,
        flange: flanges(image)[0],
        keep: false,
        class: None,
    }
}

/// Sizes that a family has, as a ladder: two of them are within two rungs where no more than one lies between.
fn rungs(image: &Image<'_>, pipes: &[Pipe]) -> Vec<u16> {
    let mut sizes: Vec<u16> = pipes.iter().map(|p| image.measure(p.row.size)).collect();
    // Inches that are stocked; what is between them is no rung.
    sizes.retain(|size| {
        size % 64 == 0
            && [1, 2, 3, 4, 6, 8, 10, 12, 14, 15, 16, 18, 20, 21, 24].contains(&(size / 64))
    });
    sizes.sort_unstable();
    sizes.dedup();
    sizes
}

/// Whether two pipes are of one nominal or within two rungs of the ladder.
fn is_near(image: &Image<'_>, ladder: &[u16], one: &Pipe, other: &Pipe) -> bool {
    let [a, b] = [one, other].map(|pipe| image.measure(pipe.row.size));
    let rung = |size: u16| ladder.iter().position(|held| *held == size);
    match (rung(a), rung(b)) {
        (Some(a), Some(b)) => a.abs_diff(b) <= 2,
        _ => a == b,
    }
}

/// Holds what is offered against the other search, and replays it. How many chains there are.
fn held(
    image: &Image<'_>,
    shelves: &[Shelf],
    known: &mut Known,
    ends: &[TieEnd; 2],
    site: Site,
) -> usize {
    let chains = ties(image, ends, site);
    let best = chains[0].map(|chain| u32::from(chain.cost));
    let said = || {
        let nominal = |at: usize| image.size(ends[at].pipe.row.size);
        format!("{} {} {ends:?} {site:?}", nominal(0), nominal(1))
    };
    let least = cheapest(image, shelves, known, ends, site);
    assert_eq!(best, least, "{}", said());
    for chain in chains.iter().flatten() {
        let replay = Replay {
            image,
            shelves,
            ends,
            site,
        };
        let cost = replay.cost(known, chain);
        assert_eq!(cost, u32::from(chain.cost), "{}", said());
    }
    let rising = chains.iter().flatten().map(|chain| chain.cost);
    assert!(rising.is_sorted(), "{}", said());
    chains.iter().flatten().count()
}

/// Every pair at one nominal in all thirty-six pairs of forms, within two sizes in a third of them, fixed and free in turn: the cheapest cost
/// is that of the other search, and every chain that is offered can be put together. Two halves, for two processors.
#[test]
fn the_cheapest_of_all_pairs() {
    let (image, shelves) = (image(), shelves());
    let pipes = water(&image);
    let ladder = rungs(&image, &pipes);
    let half = |half: usize| {
        let mut known = Known::default();
        let (mut found, mut none, mut turn, mut tried) = (0, 0, 0usize, 0);
        for (at, one) in pipes.iter().enumerate() {
            for (to, other) in pipes.iter().enumerate() {
                // Each two pipes once; which of them is the first changes from two to two.
                let once = at == to || (at < to) == ((at + to) % 2 == 0);
                if !once
                    || usize::midpoint(at, to) % 2 != half
                    || !is_near(&image, &ladder, one, other)
                {
                    continue;
                }
                let one_size = one.row.size == other.row.size;
                for forms in 0..36 {
                    turn += 1;
                    // Within two sizes a third of them, in turn.
                    if !one_size && (forms + at + to) % 3 != 0 {
                        continue;
                    }
                    tried += 1;
                    let forms = [forms % 6, forms / 6].map(|at| Form::ALL[at]);
                    let fixed = [turn % 3 != 1, turn % 3 != 2];
                    let ends = [(one, 0), (other, 1)].map(|(pipe, at)| {
                        let form = forms[at];
                        tie_end(&image, Pipe { form, ..*pipe }, fixed[at])
                    });
                    let chains = held(&image, &shelves, &mut known, &ends, Site::default());
                    found += chains;
                    none += usize::from(chains == 0);
                }
                // So that the three of fixed and free meet other forms.
                turn += 1;
            }
        }
        [found, tried, none]
    };
    let [found, tried, none] = std::thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let one = half(0);
        let other = other.join().expect("the other half");
        [0, 1, 2].map(|at| one[at] + other[at])
    });
    println!("{found} chains of {tried} pairs of ends, {none} without");
    assert!(found > 100_000 && none > 1_000, "{found} {none}");
}

/// The same of wet trenches, water that must be back, ends out of line, flanges of class 250 and classes that are known: one in
/// so many pairs for each.
#[test]
fn the_cheapest_at_every_site() {
    let (image, shelves) = (image(), shelves());
    let pipes = water(&image);
    let ladder = rungs(&image, &pipes);
    let flanges = flanges(&image);
    let mut known = Known::default();
    let bends = |bends, least, parallel| Lie {
        bends,
        least,
        parallel,
    };
    let lies = [
        Lie::default(),
        bends(2, 1, true),
        bends(1, 3, false),
        bends(2, 2, false),
        bends(1, 1, false),
    ];
    let (mut found, mut turn) = ([0; 5], 0usize);
    let (mut late, mut bent, mut fused, mut belled, mut offsets) = (0, 0, 0, 0, 0);
    for (at, one) in pipes.iter().enumerate() {
        for (to, other) in pipes.iter().enumerate() {
            if !is_near(&image, &ladder, one, other) || at != to && (at * 7 + to) % 23 != 0 {
                continue;
            }
            for lie in 0..5 {
                // 7 is prime to what is taken in turn.
                turn += 7;
                let site = Site {
                    dry: [None, Some(false), None, Some(true)][turn % 4],
                    hours: [None, Some(4), Some(30)][turn % 3],
                    lie: lies[lie],
                };
                let forms = [turn / 3 % 6, turn / 18 % 6].map(|at| Form::ALL[at]);
                let fixed = [turn / 2 % 3 != 1, turn / 2 % 3 != 2];
                let ends = [(one, 0), (other, 1)].map(|(pipe, at)| TieEnd {
                    pipe: Pipe {
                        form: forms[at],
                        ..*pipe
                    },
                    fixed: fixed[at],
                    flange: flanges[(turn + at) / 5 % 2],
                    keep: (turn + at) % 5 == 0,
                    class: [None, Some(1), Some(2)][(turn + at) / 4 % 3],
                });
                found[lie] += held(&image, &shelves, &mut known, &ends, site);
                for chain in ties(&image, &ends, site).into_iter().flatten() {
                    late += u32::from(chain.late > 0);
                    let turns = |turns: u8| chain.pieces().any(|piece| piece.turns == turns);
                    bent += u32::from(turns(1));
                    offsets += u32::from(turns(2));
                    fused += u32::from(matches!(chain.direct, Some(Direct::Fused(_))));
                    belled += u32::from(matches!(chain.direct, Some(Direct::Bell(..))));
                }
            }
        }
    }
    println!(
        "{found:?} chains: late {late}, bent {bent}, offsets {offsets}, fused {fused}, in a bell {belled}"
    );
    assert!(found.iter().all(|found| *found > 100), "{found:?}");
    assert!(late > 100 && bent > 500 && offsets > 50 && fused + belled > 5);
}

/// What is offered beside the best is unlike it: no two have the same joints on both pipes.
#[test]
fn ways_are_unlike_each_other() {
    let image = image();
    let pipes = water(&image);
    let mut looked = 0;
    for one in pipes.iter().filter(|pipe| image.size(pipe.row.size) == "8") {
        for other in pipes.iter().filter(|pipe| image.size(pipe.row.size) == "6") {
            let ends = [*one, *other].map(|pipe| tie_end(&image, pipe, true));
            let site = Site::default();
            let chains: Vec<Chain> = ties(&image, &ends, site).into_iter().flatten().collect();
            for (at, chain) in chains.iter().enumerate() {
                let outer = |chain: &Chain| {
                    let pieces: Vec<_> = chain.pieces().collect();
                    (
                        pieces[0].sides[0].end,
                        pieces[pieces.len() - 1].sides[1].end,
                    )
                };
                assert!(chains[..at].iter().all(|held| outer(held) != outer(chain)));
                looked += 1;
            }
        }
    }
    assert!(looked > 50, "{looked}");
}

/// Schedule 40 and 80 are one glue joint: nobody is offered both as two ways.
#[test]
fn twins_are_one_way() {
    let image = image();
    let name = |end: u8| image.phrase(image.joint_end(end).name).to_string();
    let mut glued = 0;
    for pipe in water(&image) {
        let ends = [true, false].map(|fixed| tie_end(&image, pipe, fixed));
        let outer = |chain: &Chain| {
            let pieces: Vec<_> = chain.pieces().collect();
            let far = pieces.last()?.sides[1].end;
            Some([name(pieces[0].sides[0].end), name(far)])
        };
        let chains: Vec<_> = ties(&image, &ends, Site::default())
            .iter()
            .flatten()
            .filter_map(outer)
            .collect();
        let socket = |end: &String| end.starts_with("solvent socket Sch");
        let both = |chain: &&[String; 2]| chain.iter().all(socket);
        let found = chains.iter().filter(both).count();
        assert!(found <= 1, "{chains:?}");
        glued += found;
    }
    assert!(glued > 0);
}

/// Common practice, no source: the bolts of a flange hold on every material that a flange is on; a thrust block holds no pull;
/// a spigot for an MJ goes on no pipe.
#[test]
fn what_holds_in_a_straight_run() {
    let (image, shelves) = (image(), shelves());
    let mut flanged = 0;
    for row in image.rows_from(0) {
        let pipe = pipe(&image, row, Form::Flanged);
        for shelf in &shelves {
            for end in shelf.ends {
                let flange = image.joint_end(end).by == JointEnd::FLANGE;
                if let Some((_, _, holds)) = joint(&image, &pipe, end)
                    && flange
                {
                    assert!(holds, "{}", image.size(row.size));
                    flanged += 1;
                }
                if image.joint_end(end).bell().is_some() {
                    assert_eq!(joint(&image, &pipe, end), None);
                }
            }
        }
        for (_, listing) in (0u8..)
            .zip(image.joint_ends())
            .flat_map(|(end, _)| holders(&image, row, pipe.variants, end))
            .filter(|(_, one)| !one.ties())
        {
            assert_eq!(image.phrase(listing.name).to_string(), "thrust block");
        }
    }
    assert!(flanged > 500, "{flanged}");
    // HDPE pulls: where a PIP bell has nothing but a block, there is no way over it.
    let find = |family: &str, size: &str| {
        let pipes = water(&image);
        let found = pipes.into_iter().find(|pipe| {
            image.packed_text(image.family(pipe.row.family).key) == family
                && image.size(pipe.row.size) == size
        });
        found.expect("the pipe")
    };
    let ends =
        [find("pip", "15"), find("hdpe-dips", "14")].map(|pipe| tie_end(&image, pipe, false));
    assert_eq!(ties(&image, &ends, Site::default()), [None; 3]);
    assert_eq!(nothing(&image, &ends, Site::default()), Nothing::Unheld);
}

/// What a crew knows, common practice, no source: glue is never first where a wet way is to be had; no way from PE leaves a
/// joint to be pulled apart; 24 in to 2 in has none, and says that the sizes are why.
#[test]
fn what_a_crew_knows() {
    let image = image();
    let pipes = water(&image);
    let named = |family: &str, size: &str| {
        let found = pipes.iter().find(|pipe| {
            let held = image.family(pipe.row.family);
            image.packed_text(held.key) == family && image.size(pipe.row.size) == size
        });
        *found.unwrap_or_else(|| panic!("no {family} {size}"))
    };
    let tie = |one: (&str, &str), other: (&str, &str), fixed: bool| {
        [one, other].map(|(family, size)| tie_end(&image, named(family, size), fixed))
    };
    let ends = tie(("ips-pvc", "4"), ("ips-pvc", "4"), true);
    let best = ties(&image, &ends, Site::default())[0].expect("there is a way");
    let dry = |chain: &Chain| {
        let mut sides = chain.pieces().flat_map(|piece| piece.sides);
        sides.any(|side| image.joint_end(side.end).is_dry())
    };
    assert!(!dry(&best));
    let ends = tie(("ductile-iron", "24"), ("ips-pvc", "2"), true);
    assert_eq!(ties(&image, &ends, Site::default()), [None; 3]);
    assert_eq!(nothing(&image, &ends, Site::default()), Nothing::Sizes);
}
