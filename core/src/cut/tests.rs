use super::*;
use crate::unit::{Distance, Warming};
use proptest::prelude::*;

/// Thirty-seconds of an inch: a tape's marks.
fn marks(parts: u32) -> Distance {
    Distance::inches(f64::from(parts) / 32.0)
}

fn meeting() -> impl Strategy<Value = Meeting> {
    prop_oneof![
        (33_u32..300, 0_u32..33).prop_map(|(depth, gap)| Meeting::Into {
            depth: marks(depth),
            gap: marks(gap),
        }),
        (0_u32..64).prop_map(|gap| Meeting::Apart(marks(gap))),
        (2_u32..8).prop_map(|gasket| Meeting::Gasket(marks(gasket))),
        Just(Meeting::Point),
    ]
}

/// Where the far side comes to lie when a piece and parts are laid down one behind the other, in thirty-seconds from the
/// near side: walked along the line as a hand does, by what each joint looks like and not by what it adds.
fn laid(piece: f64, lays: &[u32], meetings: &[Meeting]) -> f64 {
    let parts = |length: Distance| length.in_inches() * 32.0;
    let mut at = 0.0;
    // Near side, then the piece.
    let into = |at: f64, meeting: &Meeting, leaving: bool| match *meeting {
        Meeting::Into { depth, gap } if leaving => {
            // The end goes in beyond the lip, and stops short of the stop.
            let stop = at - parts(depth);
            stop + parts(gap)
        }
        Meeting::Into { depth, gap } => {
            let stop = at + parts(gap);
            stop - parts(depth)
        }
        Meeting::Apart(gap) | Meeting::Gasket(gap) => at + parts(gap),
        Meeting::Point => at,
    };
    at = into(at, &meetings[0], true);
    at += piece;
    for (lay, meeting) in lays.iter().zip(&meetings[1..]) {
        at = into(at, meeting, false);
        at += f64::from(*lay);
    }
    into(at, &meetings[meetings.len() - 1], false)
}

proptest! {
    /// For every pair of end forms, and with parts between, what is laid end to end ends where the gap ends, to a mark.
    #[test]
    fn the_piece_closes_the_gap(
        opening in 200_u32..20_000, ends in [meeting(), meeting()],
        inner in prop::collection::vec((10_u32..600, 0_u32..32), 0..3),
    ) {
        let lays: Vec<u32> = inner.iter().map(|(lay, _)| *lay).collect();
        let mut meetings = vec![ends[0]];
        meetings.extend(inner.iter().map(|(_, gap)| Meeting::Apart(marks(*gap))));
        meetings.push(ends[1]);
        let lengths: Vec<Distance> = lays.iter().map(|lay| marks(*lay)).collect();
        let closure = Closure { opening: marks(opening), lays: &lengths, meetings: &meetings };
        match cut(&closure) {
            Ok(cut) => {
                let end = laid(cut.length.in_inches() * 32.0, &lays, &meetings);
                prop_assert!((end - f64::from(opening)).abs() <= 1.0, "{end} for {opening}");
            }
            Err(NoCut::TooLong(over)) => {
                let end = laid(0.0, &lays, &meetings);
                prop_assert!((end - f64::from(opening) - over.in_inches() * 32.0).abs() <= 1.0);
                prop_assert!(end >= f64::from(opening) - 1.0);
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }

    /// A piece for damage: the couplings' gaps and it fill what was cut out, and what shows is gone with the margin.
    #[test]
    fn what_is_cut_out_is_filled(shows in 0.0..500.0, back in 1.0..24.0, gap in 0.0..0.9) {
        let inches = Distance::inches;
        let damage = Damage { kind: Kind::Split, length: inches(shows), sound_metal: true };
        let repair = repair(&damage, inches(10.2), inches(back), inches(gap), inches(3.0)).expect("one");
        prop_assert!((repair.piece.in_inches() + 2.0 * gap - repair.cut_out.in_inches()).abs() < 1e-9);
        prop_assert!((repair.cut_out.in_inches() - shows - 2.0 * back).abs() < 1e-9);
        prop_assert_eq!(repair.clamp, None);
    }
}

#[test]
fn a_clamp_goes_on_a_hole_or_a_round_break_in_sound_metal_alone() {
    let inches = Distance::inches;
    for (kind, sound_metal, want) in [
        (Kind::Hole, true, Some(7.0)),
        (Kind::Hole, false, None),
        (Kind::RoundBreak, true, Some(13.2)),
        (Kind::RoundBreak, false, None),
        (Kind::Split, true, None),
        (Kind::Gouge, true, None),
        (Kind::BlownBell, true, None),
    ] {
        let damage = Damage {
            kind,
            length: inches(1.0),
            sound_metal,
        };
        let length = clamp_length(&damage, inches(13.2), inches(3.0));
        assert_eq!(length, want.map(inches), "{kind:?}");
    }
}

#[test]
fn what_is_no_closure() {
    let inches = Distance::inches;
    let of = |opening, meetings: &[Meeting]| {
        cut(&Closure {
            opening: inches(opening),
            lays: &[],
            meetings,
        })
    };
    let mj = Meeting::Into {
        depth: inches(2.5),
        gap: inches(2.5),
    };
    assert_eq!(of(36.0, &[mj]), Err(NoCut::NotIn));
    assert_eq!(of(-1.0, &[]), Err(NoCut::Measure));
    assert_eq!(of(f64::NAN, &[]), Err(NoCut::Measure));
    assert_eq!(
        of(36.0, &[Meeting::Apart(inches(-0.5))]),
        Err(NoCut::Measure)
    );
    assert_eq!(
        of(
            1.0,
            &[Meeting::Apart(inches(1.0)), Meeting::Apart(inches(0.5))]
        ),
        Err(NoCut::TooLong(inches(0.5)))
    );
}

#[test]
fn pipe_moves_either_way() {
    let of = |warming| movement(Distance::feet(500.0), Warming::fahrenheit(warming), 3.0e-5);
    assert!((of(60.0).in_inches() - 10.8).abs() < 1e-9);
    assert_eq!(of(-60.0), of(60.0));
}
