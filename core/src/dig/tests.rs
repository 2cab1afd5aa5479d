use super::*;
use proptest::prelude::*;

const ROOM: Room = Room {
    under: Distance::inches(12.0),
    beside: Distance::inches(18.0),
    sump: Distance::inches(12.0),
    slide_more: Distance::inches(6.0),
    other_more: Distance::inches(2.0),
};

proptest! {
    /// A sleeve that is pushed back over its half of the gap leaves no pipe in it, and centred it covers both ends alike: on
    /// a line of marks, slid to where it goes.
    #[test]
    fn a_sleeve_has_room_to_slide(coupling in 4.0..36.0_f64, gap in 0.0..2.0_f64) {
        let bare = bare_barrel(Distance::inches(coupling), &ROOM);
        // The gap is centred at 0. Slid back, the sleeve ends at the edge of the gap.
        let (from, to) = (-gap / 2.0 - coupling, -gap / 2.0);
        prop_assert!(to - from >= coupling - 1e-9);
        prop_assert!(bare.slide.in_inches() + gap / 2.0 >= -from, "room behind it");
        // Centred, it covers half of itself on the other side.
        prop_assert!(bare.other.in_inches() + gap / 2.0 >= coupling / 2.0);
    }

    #[test]
    fn a_hole_holds_the_pipe_and_the_room(bare in 1.0..400.0_f64, od in 1.0..60.0_f64, cover in 0.0..240.0_f64) {
        let inches = Distance::inches;
        let hole = outline(inches(bare), inches(od), inches(cover), &ROOM).expect("a hole");
        prop_assert!((hole.depth.in_inches() - cover - od - 12.0).abs() < 1e-9);
        prop_assert!(((hole.sump - hole.depth).in_inches() - 12.0).abs() < 1e-9);
        let feet = hole.soil().in_cubic_feet();
        let want = bare * (od + 36.0) * (cover + od + 12.0) / 1728.0;
        prop_assert!((feet / want - 1.0).abs() < 1e-9);
    }
}

#[test]
fn what_is_no_hole() {
    let inches = Distance::inches;
    assert_eq!(outline(inches(0.0), inches(6.9), inches(36.0), &ROOM), None);
    assert_eq!(outline(inches(9.0), inches(6.9), inches(-1.0), &ROOM), None);
    assert_eq!(
        outline(inches(f64::NAN), inches(6.9), inches(36.0), &ROOM),
        None
    );
}
