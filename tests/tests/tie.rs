//! Chains between pipe ends: the cheapest against an independent search of all pairs, and each replayed joint by joint.

use springline_core::image::{Image, JointEnd, Material, Row};
use springline_core::joint::tie::{Chain, Nothing, On, TieEnd, nothing, ties};
use springline_core::joint::{Form, Pipe, Run, holders, refusal};
use springline_tables::IMAGE;
use springline_tests::tie::{Shelf, cheapest, goes, joint, shelves};

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

/// Replays a chain joint by joint, from the first end to the second, and counts what it costs.
fn replay(image: &Image<'_>, shelves: &[Shelf], ends: &[TieEnd; 2], chain: &Chain) -> u32 {
    let pieces: Vec<_> = chain.pieces().collect();
    assert!(pieces.len() <= 3);
    let Some(first) = pieces.first() else {
        assert!(ends.iter().all(|end| end.pipe.form == Form::Flanged));
        assert!(!(ends[0].fixed && ends[1].fixed));
        return 10;
    };
    let last = pieces[pieces.len() - 1];
    assert_eq!(
        (first.sides[0].on, last.sides[1].on),
        (On::First, On::Second)
    );
    let shrinks = ends.iter().any(|end| {
        let family = image.family(end.pipe.row.family);
        Material::from_code(family.material) == Some(Material::Pe)
    });
    let mut cost = 0;
    for (at, piece) in pieces.iter().enumerate() {
        let shelf = shelves.iter().find(|shelf| shelf.part == piece.part);
        let shelf = shelf.expect("only what is in a run");
        assert_eq!(shelf.run, piece.run.key());
        let mut loose = false;
        for side in piece.sides {
            let Some(pipe) = side.on.pipe(ends) else {
                continue;
            };
            assert_eq!(pipe.row.size, side.size);
            let (end, joint, holds) = joint(image, &pipe, side.own).expect("it seals");
            assert_eq!(end, side.end);
            let spigot = piece.run == Run::Spigot && side == piece.sides[1];
            assert!(!spigot || shelf.ends[0] == side.own, "no spigot on a pipe");
            loose |= !holds;
            cost += joint;
        }
        assert!(!(loose && shrinks), "PE is held");
        let sizes = piece.sides.map(|side| image.measure(side.size));
        let ranged = || {
            let by = |end: u8| image.joint_end(end).by == JointEnd::RANGE;
            let rows = piece
                .sides
                .map(|side| side.on.pipe(ends).expect("pipe").row);
            piece.sides.iter().all(|side| by(side.end))
                && rows[0].low <= rows[1].high
                && rows[1].low <= rows[0].high
        };
        assert!(sizes.into_iter().all(|size| shelf.made(size)), "it is made");
        assert!(goes(shelf, sizes[0], sizes[1]) || ranged());
        cost += u32::from(loose) * 80 + shelf.stock(sizes[0]).max(shelf.stock(sizes[1]));
        let Some(next) = pieces.get(at + 1) else {
            continue;
        };
        let (here, there) = (piece.sides[1], next.sides[0]);
        assert_eq!((here.on, here.size), (there.on, there.size));
        if here.on == On::Part {
            let bell = |end: u8| image.joint_end(end).bell().unwrap_or(end);
            assert_eq!(bell(here.end), bell(there.end));
            let flange = image.joint_end(here.end).by == JointEnd::FLANGE;
            let spigots = [piece, next]
                .iter()
                .filter(|one| one.run == Run::Spigot)
                .count();
            assert!(flange || spigots == 1, "a bell takes no bell");
        } else {
            assert!(here.on.is_cut());
        }
        cost += 10;
    }
    let both = ends[0].fixed && ends[1].fixed;
    assert_eq!(both, chain.closes.is_some());
    if let Some(piece) = chain.closing() {
        assert!(matches!(piece.run, Run::Slides | Run::TakesUp));
        if piece.run == Run::Slides {
            let side = piece.slides_over(ends).expect("it slides over something");
            let [one, other] = piece.sides.map(|side| side.on.pipe(ends));
            let over = [one, other][side].expect("a pipe").row;
            let not = [other, one][side].map_or(i32::MAX, |pipe| pipe.row.high);
            assert!(over.low <= not, "never over the larger pipe");
        }
    }
    cost
}

/// Every pair at one nominal or within two sizes, each with a few of all forms, fixed and free: the cheapest cost is that of the
/// other search, and every chain that is offered can be put together.
#[test]
fn the_cheapest_of_all_pairs() {
    let (image, shelves) = (image(), shelves());
    let pipes = water(&image);
    let ladder = rungs(&image, &pipes);
    let rung = |pipe: &Pipe| {
        let size = image.measure(pipe.row.size);
        ladder.iter().position(|held| *held == size)
    };
    let (mut found, mut none, mut turn) = (0, 0, 0usize);
    for one in &pipes {
        for other in &pipes {
            let near = match (rung(one), rung(other)) {
                (Some(a), Some(b)) => a.abs_diff(b) <= 2,
                _ => image.measure(one.row.size) == image.measure(other.row.size),
            };
            if !near {
                continue;
            }
            // Thirty-six pairs of forms and three of fixed and free, taken in turn; seven is prime to both.
            turn += 7;
            let forms = [turn % 6, turn / 6 % 6].map(|at| Form::ALL[at]);
            let fixed = [turn / 2 % 3 != 1, turn / 2 % 3 != 2];
            for forms in [[Form::PlainSquare; 2], forms] {
                let ends = [(one, 0), (other, 1)].map(|(pipe, at)| TieEnd {
                    pipe: Pipe {
                        form: forms[at],
                        ..*pipe
                    },
                    fixed: fixed[at],
                });
                let chains = ties(&image, &ends);
                let best = chains[0].map(|chain| u32::from(chain.cost));
                let said = || {
                    format!(
                        "{} {} {ends:?}",
                        image.size(one.row.size),
                        image.size(other.row.size)
                    )
                };
                assert_eq!(best, cheapest(&image, &shelves, &ends), "{}", said());
                for chain in chains.iter().flatten() {
                    let cost = replay(&image, &shelves, &ends, chain);
                    assert_eq!(cost, u32::from(chain.cost), "{}", said());
                    found += 1;
                }
                let rising = chains.iter().flatten().map(|chain| chain.cost);
                assert!(rising.is_sorted(), "{}", said());
                none += u32::from(best.is_none());
            }
        }
    }
    println!(
        "{found} chains of {} pairs of ends, {none} without",
        2 * turn / 7
    );
    assert!(found > 5_000 && none > 100, "{found} {none}");
}

/// What is offered beside the best is unlike it: no two have the same joints on both pipes.
#[test]
fn ways_are_unlike_each_other() {
    let image = image();
    let pipes = water(&image);
    let mut looked = 0;
    for one in pipes.iter().filter(|pipe| image.size(pipe.row.size) == "8") {
        for other in pipes.iter().filter(|pipe| image.size(pipe.row.size) == "6") {
            let ends = [*one, *other].map(|pipe| TieEnd { pipe, fixed: true });
            let chains: Vec<Chain> = ties(&image, &ends).into_iter().flatten().collect();
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
        let ends = [true, false].map(|fixed| TieEnd { pipe, fixed });
        let outer = |chain: &Chain| {
            let pieces: Vec<_> = chain.pieces().collect();
            let far = pieces.last()?.sides[1].end;
            Some([name(pieces[0].sides[0].end), name(far)])
        };
        let chains: Vec<_> = ties(&image, &ends)
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
        [find("pip", "15"), find("hdpe-dips", "14")].map(|pipe| TieEnd { pipe, fixed: false });
    assert_eq!(ties(&image, &ends), [None; 3]);
    assert_eq!(nothing(&image, &ends), Nothing::Unheld);
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
        [one, other].map(|(family, size)| TieEnd {
            pipe: named(family, size),
            fixed,
        })
    };
    let ends = tie(("ips-pvc", "4"), ("ips-pvc", "4"), true);
    let best = ties(&image, &ends)[0].expect("there is a way");
    let dry = |chain: &Chain| {
        let mut sides = chain.pieces().flat_map(|piece| piece.sides);
        sides.any(|side| image.joint_end(side.end).is_dry())
    };
    assert!(!dry(&best));
    let ends = tie(("ductile-iron", "24"), ("ips-pvc", "2"), true);
    assert_eq!(ties(&image, &ends), [None; 3]);
    assert_eq!(nothing(&image, &ends), Nothing::Sizes);
}
