//! What is said of several pipes is true of each of them.

use std::vec::Vec;

use springline_core::identify::Outcome;
use springline_core::image::Image;
use springline_core::joint::{self, Decides, Owner, Task, Verdict, holders};
use springline_core::numbers::{About, Figures, NoNumbers, SiteTold, at};
use springline_tables::IMAGE;

use super::{Open, Pipes, Said};
use crate::app::pipe::Pipe;

fn image() -> Image<'static> {
    Image::new(IMAGE).expect("the built-in image")
}

/// Pipes of a nominal size, by the keys of their families.
fn pipes(image: &Image<'_>, size: &str, families: &[&str]) -> Pipes {
    let named = |key: &&str| {
        let mut rows = image.rows_from(0);
        let row = rows.position(|row| {
            image.packed_text(image.family(row.family).key) == *key && image.size(row.size) == size
        });
        u16::try_from(row.expect(key)).expect("few rows")
    };
    Pipes(families.iter().map(named).collect())
}

#[test]
fn a_part_is_known_where_every_pipe_says_the_same() {
    let image = image();
    let (mut known, mut not_known) = (0, 0);
    for (size, families) in [
        ("6", &["c900", "ductile-iron"][..]),
        ("4", &["ips-pvc", "steel"]),
        ("6", &["c900", "ductile-iron", "hdpe-dips"]),
        ("8", &["c900"]),
    ] {
        let pipes = pipes(&image, size, families);
        for owner in Owner::ALL {
            for part in (0u8..).take(image.parts().len()) {
                let shared = pipes.part(&image, part, *owner).expect("a part");
                let each: Vec<_> = pipes
                    .all(&image)
                    .map(|pipe| joint::fit(&image, &pipe, part, *owner).expect("a verdict"))
                    .collect();
                let same = each.iter().all(|fit| {
                    fit.verdict == shared.fit.verdict
                        && (fit.verdict >= Verdict::Refer
                            || image.phrase(fit.best.sealing.need)
                                == image.phrase(shared.fit.best.sealing.need)
                                && fit.end == shared.fit.end)
                });
                assert!(same || !shared.known, "{part} is not the same on all");
                let owners = |fit: &joint::Fit| fit.decides == Decides::Owner;
                match Said::of(&shared) {
                    Said::NotKnown => not_known += 1,
                    Said::AskOwner => assert!(each.iter().all(owners)),
                    Said::WontSeal => {
                        known += 1;
                        assert!(each.iter().all(|fit| fit.verdict == Verdict::No));
                    }
                    _ => known += 1,
                }
                // Somebody is warned of what the part does to any of them.
                let any = each.iter().any(|fit| fit.verdict != Verdict::No);
                assert_eq!(shared.doing != joint::Doing::default(), any);
            }
        }
    }
    assert!(known > 500 && not_known > 50, "{known} and {not_known}");
}

#[test]
fn what_holds_holds_on_every_pipe() {
    let image = image();
    let pipes = pipes(&image, "6", &["c900", "ductile-iron"]);
    let (mut all, mut open) = (0, 0);
    for end in (0u8..).take(image.joint_ends().len()) {
        let mut named = 0;
        pipes.holders(&image, Some(end), &mut |listing| match listing {
            None => open += 1,
            Some(listing) => {
                named += 1;
                for pipe in pipes.all(&image) {
                    let mut held = holders(&image, pipe.row, pipe.variants, end);
                    assert!(held.any(|(_, one)| one == listing));
                }
            }
        });
        all += named;
    }
    // What is listed for PVC is listed for no iron: whichever it is, it is not known yet.
    assert!(open > 0, "{all} and {open}");
}

#[test]
fn parts_are_listed_once_the_best_first() {
    let image = image();
    for (size, families) in [("8", &["c900"][..]), ("4", &["ips-pvc", "steel"])] {
        let pipes = pipes(&image, size, families);
        for task in Task::ALL {
            let list = pipes.listed(&image, *task, Owner::Purveyor);
            let mut ranked = Vec::new();
            list.parts(&mut |part, rank| ranked.push((part, rank)));
            let parts: Vec<u8> = ranked.iter().map(|(part, _)| *part).collect();
            let places = (0..list.len()).filter_map(|at| list.at(at));
            assert!(places.eq(parts.iter().copied()) && list.at(list.len()).is_none());
            let mut once = parts.clone();
            once.sort_unstable();
            once.dedup();
            assert_eq!(once.len(), parts.len());
            assert_eq!(usize::from(list.len()), parts.len());
            assert!(ranked.into_iter().all(|(part, rank)| {
                let shared = pipes.part(&image, part, Owner::Purveyor);
                Said::ranked(rank) == Said::of(&shared.expect("a part"))
            }));
            let said = |part: &u8| {
                Said::of(&pipes.part(&image, *part, Owner::Purveyor).expect("a part")) as u8
            };
            assert!(parts.iter().map(said).is_sorted());
            // Each that serves the task, whatever is said of it.
            let serves = (0u8..).take(image.parts().len()).filter(|part| {
                let shared = pipes.part(&image, *part, Owner::Purveyor).expect("a part");
                shared.fit.does(&image, *task)
            });
            assert_eq!(serves.count(), parts.len());
        }
    }
}

/// A stop has no parts however sure the rest is, and a pipe in no table has none.
#[test]
fn a_stop_is_a_stop_whatever_leads() {
    let image = image();
    let mut seen = 0;
    for mils in (1000..20_000).step_by(20) {
        let value = springline_core::Length::from_mils(mils).expect("a length");
        let settings = crate::app::Settings {
            jaws: None,
            ..crate::app::Settings::START
        };
        let Ok(mut pipe) = Pipe::read(&image, &settings, value) else {
            continue;
        };
        if !matches!(Open::of(&image, &pipe), Open::Pipes(_)) {
            continue;
        }
        seen += 1;
        for (cement, gas) in [(true, false), (false, true)] {
            (pipe.answer.stop.cement, pipe.answer.stop.gas) = (cement, gas);
            assert!(matches!(Open::of(&image, &pipe), Open::Stop), "{mils}");
        }
        (pipe.answer.stop.cement, pipe.answer.stop.gas) = (false, false);
        pipe.answer.outcome = Outcome::Outside;
        assert!(matches!(Open::of(&image, &pipe), Open::TooMany), "{mils}");
    }
    assert!(seen > 20, "{seen}");
}

/// Numbers are said where every pipe has them: the longest length, the lowest pressure to stay below; and nothing where they differ.
#[test]
fn numbers_hold_for_every_pipe() {
    let image = image();
    let told = SiteTold {
        psi: Some(150),
        cover: Some(36),
        stick: Some(240),
        ..SiteTold::NOTHING
    };
    let numbers = |size, families: &[&str], about| {
        pipes(&image, size, families).numbers(&image, about, &told)
    };
    for about in About::ALL {
        let one = |family| numbers("6", &[family], about).expect("of one");
        let both = numbers("6", &["c900", "pvco"], about);
        let (one, other) = (one("c900"), one("pvco"));
        let About::Hold(_) = about else {
            let held = both.expect("PVC of one OD");
            let all = |page: Result<Figures, NoNumbers>| {
                page.map(|page| {
                    page.all()
                        .iter()
                        .map(|one| one.to_bits())
                        .collect::<Vec<_>>()
                })
            };
            assert_eq!(all(held), all(one), "{about:?}");
            assert_eq!(all(held), all(other), "{about:?}");
            continue;
        };
        let get = |page: &Result<Figures, NoNumbers>, place| {
            let page = page.as_ref().expect("numbers");
            page.get(place).expect("a figure")
        };
        let both = both.expect("PVC of one OD");
        let longest = get(&one, at::LENGTH).max(get(&other, at::LENGTH));
        assert_eq!(get(&both, at::LENGTH).to_bits(), longest.to_bits());
        let lowest = get(&one, at::UNTIL).min(get(&other, at::UNTIL));
        assert_eq!(get(&both, at::UNTIL).to_bits(), lowest.to_bits());
    }
    let quarter = About::ALL[0];
    // Soil rows of two procedures; another OD; one of them fused; bolts are by the nominal size all the same.
    for families in [
        &["c900", "ductile-iron"][..],
        &["c900", "ips-pvc"],
        &["c900", "hdpe-dips"],
    ] {
        assert!(numbers("6", families, quarter).is_none(), "{families:?}");
        let bolts = numbers("6", families, About::Mechanical).expect("6 in is 6 in");
        assert_eq!(bolts.expect("bolts").get(at::BOLTS), Some(6.0));
    }
    let drain = numbers("6", &["sewer-pvc"], quarter).expect("of one");
    assert_eq!(drain.expect_err("a drain"), NoNumbers::Drain);
    let fused = numbers("6", &["hdpe-dips"], quarter).expect("of one");
    assert_eq!(fused.expect_err("it is fused"), NoNumbers::Fused);
}
