//! Valves and dead ends near a fitting, runs in one piece, and soil that nobody knows.

mod ground;

use ground::{any_site, asked, found, level, longest, near, plain};
use proptest::prelude::*;
use springline_core::image::Image;
use springline_core::thrust::{
    Asked, Fitting, Line, Procedure, Site, Soil, Stop, StopKind, Trench, Turn, plan, plan_between,
    worst,
};
use springline_core::unit::{Angle, Distance, Pressure, UnitWeight};
use springline_tables::IMAGE;

proptest! {
    /// A shut valve within reach is a thrust point: all up to it is one piece, what is left of its reach is asked for on the
    /// other side, and nothing that the fitting asks for is lost.
    #[test]
    fn a_stop_joins(plain in any_site(), at in 0.5..600.0_f64, dead_end in any::<bool>()) {
        let kind = if dead_end { StopKind::DeadEnd } else { StopKind::Valve };
        let stop = Stop { at: Distance::feet(at), kind };
        let asked = Asked { stop: Some(stop), ..asked(level(90.0), plain.line()) };
        let [Some(near_side), Some(far), None] = plan(&asked, &plain.site()).expect("a plan").legs else {
            panic!("a bend has two sides");
        };
        let (own, reach) = (plain.level(90.0), plain.dead_end());
        if at < own + reach {
            prop_assert_eq!(near_side.met, Some(stop));
            prop_assert!(near(near_side.length.in_feet(), at));
            prop_assert!(near(far.length.in_feet(), own.max(reach - at)));
            let beyond = if dead_end { 0.0 } else { reach.max(own - at) };
            prop_assert!(near(near_side.beyond.in_feet(), beyond));
        } else {
            prop_assert_eq!(near_side.met, None);
            prop_assert!(near(near_side.length.in_feet(), own) && near(far.length.in_feet(), own));
        }
    }

    /// A stop on either side: each side by the rule written out anew, whichever was told first.
    #[test]
    fn stops_on_both_sides_join(plain in any_site(), at in 0.5..600.0_f64, on in 0.5..600.0_f64, ends in any::<[bool; 2]>()) {
        let stop = |at: f64, end: bool| Stop {
            at: Distance::feet(at),
            kind: if end { StopKind::DeadEnd } else { StopKind::Valve },
        };
        let stops = [stop(at, ends[0]), stop(on, ends[1])];
        let of = |near_stop, far_stop| {
            let asked = Asked { stop: Some(near_stop), ..asked(level(90.0), plain.line()) };
            let plan = plan_between(&asked, Some(far_stop), &plain.site()).expect("a plan");
            let [Some(first), Some(second), None] = plan.legs else {
                panic!("a bend has two sides");
            };
            [first, second]
        };
        let (own, reach) = (plain.level(90.0), plain.dead_end());
        let over = |at: f64| if at < own + reach { (reach - at).max(own) } else { own };
        let legs = of(stops[0], stops[1]);
        for (leg, [stop, other]) in legs.iter().zip([[stops[0], stops[1]], [stops[1], stops[0]]]) {
            let (at, all) = (stop.at.in_feet(), over(other.at.in_feet()));
            let met = at < all + reach;
            prop_assert_eq!(leg.met, met.then_some(stop));
            let length = if met { at } else { all };
            prop_assert!(near(leg.length.in_feet(), length));
            let valve = met && stop.kind == StopKind::Valve;
            let beyond = if valve { reach.max(all - at) } else { 0.0 };
            prop_assert!(near(leg.beyond.in_feet(), beyond));
        }
        let [second, first] = of(stops[1], stops[0]);
        for (leg, other) in legs.iter().zip([first, second]) {
            prop_assert!(near(leg.length.in_feet(), other.length.in_feet()) && near(leg.beyond.in_feet(), other.beyond.in_feet()));
            prop_assert_eq!((leg.bells, leg.met), (other.bells, other.met));
        }
    }

    /// A valve on the small pipe of a reducer: the large one holds the whole push less the drag up to the valve, and as much as
    /// the reducer asks for where the small pipe holds the valve by itself.
    #[test]
    fn a_valve_behind_a_reducer(plain in any_site(), part in 0.0..1.2_f64, step in 0.3..0.9_f64) {
        let to = Line { od: Distance::inches(plain.inches * step), full: plain.line().full };
        let small = ground::Plain {
            inches: plain.inches * step,
            cover: plain.cover + plain.inches * (1.0 - step) / 24.0,
            ..plain
        };
        let at = small.dead_end() * part;
        let stop = Stop { at: Distance::feet(at), kind: StopKind::Valve };
        let asked = asked(Fitting::Reducer { to }, plain.line());
        let found = plan_between(&asked, Some(stop), &plain.site()).expect("a plan");
        let [Some(large), Some(second), None] = found.legs else {
            panic!("a reducer has two sides");
        };
        let own = 1.5 * (plain.push() - small.push()) / plain.friction(1.0);
        prop_assert!(near(large.own.in_feet(), own));
        if part < 1.0 {
            let want = (1.5 * plain.push() - small.friction(1.0) * at) / plain.friction(1.0);
            prop_assert!(near(large.length.in_feet(), want.max(own)), "{:?} {want}", large.length.in_feet());
            prop_assert_eq!(second.met, Some(stop));
            prop_assert!(near(second.beyond.in_feet(), small.dead_end()));
        } else {
            prop_assert!(near(large.length.in_feet(), own) && second.met.is_none());
        }
    }

    /// Soil that nobody knows is no better than any row, on each side, and is one of them.
    #[test]
    fn unknown_soil_is_the_worst(stop in 0.0..300.0_f64, cover in 1.0..12.0_f64, inches in 2.0..50.0_f64, psi in 20.0..300.0_f64, wet in any::<bool>(), fitting in 0..5_usize) {
        let image = Image::new(IMAGE).expect("the built-in image");
        let pipe = |inches: f64| Line::new(Distance::inches(inches), None, UnitWeight::pcf(87.0));
        let small = pipe(inches * 0.6);
        let fitting = [
            level(90.0),
            Fitting::Bend { angle: Angle::degrees(45.0), turn: Turn::Down },
            Fitting::DeadEnd,
            Fitting::Tee { branch: small, run_held: Distance::feet(2.0) },
            Fitting::Reducer { to: small },
        ][fitting];
        for procedure in [Procedure::Iron, Procedure::Pvc] {
            let at = |soil| Site {
                pressure: Pressure::psi(psi), cover: Distance::feet(cover), soil, wet, wrapped: 1.0, safety: 1.5,
                stick: Distance::feet(20.0),
            };
            // Near ones are met in some soils and not in others.
            let stop = (stop > 20.0).then(|| Stop { at: Distance::feet(stop), kind: StopKind::Valve });
            let asked = Asked { stop, ..asked(fitting, pipe(inches)) };
            let of = |index: u8| Soil::of(&image, index, Some(Trench::Bedded)).map(|(soil, _)| soil);
            let any = at(of(0).expect("a soil"));
            let poorest = worst(&image, procedure, Some(Trench::Bedded), &asked, &any).expect("a plan");
            let mut alike = false;
            for (index, row) in (0u8..).zip(image.soils()) {
                if image.trench(row.trench).procedure != procedure as u8 {
                    continue;
                }
                let own = plan(&asked, &at(of(index).expect("a soil"))).expect("a plan");
                prop_assert!(longest(&own) <= longest(&poorest));
                prop_assert!(own.until >= poorest.until);
                for (leg, worst) in own.legs.iter().flatten().zip(poorest.legs.iter().flatten()) {
                    prop_assert!(leg.own <= worst.own && leg.length <= worst.length && leg.beyond <= worst.beyond);
                    prop_assert!(leg.bells <= worst.bells && (leg.met.is_none() || worst.met == leg.met));
                }
                let named = poorest.legs.iter().flatten().any(|leg| leg.soil == Some(index));
                alike |= named && longest(&own) == longest(&poorest);
            }
            prop_assert!(alike);
        }
    }
}

/// A run in one piece bears the branch only as far as it reaches; without it nothing is credited.
#[test]
fn a_run_that_is_not_held_bears_nothing() {
    let plain = plain();
    let branch = plain.line();
    let tee = |feet: f64| {
        let run_held = Distance::feet(feet);
        longest(&found(&plain, Fitting::Tee { branch, run_held })).in_feet()
    };
    assert!(near(tee(0.0), plain.dead_end()));
    let want = (1.5 * plain.push() - plain.wall() * 4.0) / plain.friction(1.0);
    assert!(near(tee(4.0), want));
    assert!(tee(500.0).abs() < 1e-12);
    // A branch that ends at 5 ft: the run must bear what 5 ft do not.
    let stop = Stop {
        at: Distance::feet(5.0),
        kind: StopKind::DeadEnd,
    };
    let short = Asked {
        branch_stop: Some(stop),
        ..asked(
            Fitting::Tee {
                branch,
                run_held: Distance::ZERO,
            },
            branch,
        )
    };
    let needed = plan(&short, &plain.site())
        .expect("a plan")
        .run_needed
        .expect("a run");
    let want = (1.5 * plain.push() - plain.friction(1.0) * 5.0) / plain.wall();
    assert!(near(needed.in_feet(), want));
}
