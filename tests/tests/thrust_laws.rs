//! Laws that thrust and lengths keep, held against a second opinion of the lengths in plain `f64`.

mod ground;

use ground::{Plain, any_site, asked, found, level, longest, near, plain};
use proptest::prelude::*;
use springline_core::thrust::{
    Fitting, Line, Refused, Site, Turn, bells, bend, block, plan, reducer, tee,
};
use springline_core::unit::{Angle, Area, Distance, LineLoad, Pressure};

proptest! {
    /// The core's lengths are those of the equations written out anew.
    #[test]
    fn lengths_are_those_of_a_second_opinion(plain in any_site(), angle in 1.0..90.0_f64) {
        prop_assert!(near(longest(&found(&plain, level(angle))).in_feet(), plain.level(angle)));
        prop_assert!(near(longest(&found(&plain, Fitting::DeadEnd)).in_feet(), plain.dead_end()));
        let down = Fitting::Bend { angle: Angle::degrees(angle), turn: Turn::Down };
        let want = 1.5 * plain.push() * (angle / 2.0).to_radians().tan() / plain.friction(0.5);
        prop_assert!(near(longest(&found(&plain, down)).in_feet(), want));
    }

    /// Thrust and length grow with pressure and with the turn; two dead ends are a 180° return.
    #[test]
    fn thrust_grows(plain in any_site(), angle in 1.0..89.0_f64, more in 1.001..1.5_f64) {
        let higher = Plain { psi: plain.psi * more, ..plain };
        let (small, sharp) = (found(&plain, level(angle)), found(&plain, level((angle * more).min(90.0))));
        prop_assert!(found(&higher, level(angle)).thrust > small.thrust);
        prop_assert!(longest(&found(&higher, level(angle))) > longest(&small));
        prop_assert!(sharp.thrust > small.thrust && longest(&sharp) > longest(&small));
        let (pressure, area) = (Pressure::psi(plain.psi), plain.line().area());
        let back = bend(pressure, area, Angle::degrees(180.0));
        prop_assert!(near(back.in_lbf(), 2.0 * tee(pressure, area).in_lbf()));
    }

    /// Length falls with friction, cover and bearing; and is longer in wrap and below groundwater.
    #[test]
    fn length_falls(plain in any_site(), more in 1.01..1.4_f64) {
        let length = |plain: &Plain| longest(&found(plain, level(45.0)));
        let now = length(&plain);
        let grip_changed = length(&Plain { grip: plain.grip * more, ..plain });
        prop_assert!(grip_changed < now);
        let cover_changed = length(&Plain { cover: plain.cover * more, ..plain });
        prop_assert!(cover_changed < now);
        let bearing_changed = length(&Plain { bearing: plain.bearing * more, ..plain });
        prop_assert!(bearing_changed < now);
        let wrapped_changed = length(&Plain { wrapped: plain.wrapped * 0.9, ..plain });
        prop_assert!(wrapped_changed > now);
        if !plain.wet {
            let wet_changed = length(&Plain { wet: true, ..plain });
        prop_assert!(wet_changed > now);
        }
    }

    /// The same site told in metric is the same answer.
    #[test]
    fn units_are_alike(plain in any_site(), angle in 1.0..90.0_f64) {
        let (line, site) = (plain.line(), plain.site());
        let metric_line = Line { od: Distance::mm(plain.inches * 25.4), full: LineLoad::kn_per_metre(line.full.in_kn_per_metre()) };
        let metric = Site {
            pressure: Pressure::bar(site.pressure.in_bar()),
            cover: Distance::metres(plain.cover * 0.3048),
            ..site
        };
        let one = plan(&asked(level(angle), line), &site).expect("a plan");
        let other = plan(&asked(level(angle), metric_line), &metric).expect("a plan");
        prop_assert!(near(other.thrust.in_kn(), one.thrust.in_kn()));
        prop_assert!(near(longest(&other).in_metres(), longest(&one).in_metres()));
    }

    /// Areas and faces are the same in either system, and the force on them.
    #[test]
    fn areas_are_alike(inches in 1.0..66.0_f64, psi in 1.0..350.0_f64, psf in 200.0..9000.0_f64) {
        let (us, metric) = (Area::circle(Distance::inches(inches)), Area::circle(Distance::mm(inches * 25.4)));
        prop_assert!(near(us.in_square_inches(), metric.in_square_inches()));
        prop_assert!(near(us.in_square_metres(), std::f64::consts::FRAC_PI_4 * (inches * 0.0254).powi(2)));
        let (push, same) = (tee(Pressure::psi(psi), us), tee(Pressure::kpa(psi * 6.894_757_293_168_361), metric));
        prop_assert!(near(push.in_kn(), same.in_kn()));
        let bearing = Pressure::psf(psf);
        let face = block::area(push, 1.5, bearing);
        let other = block::area(same, 1.5, Pressure::kpa(bearing.in_kpa()));
        prop_assert!(near(face.in_square_feet(), other.in_square_feet()));
        prop_assert!(near(face.in_square_metres(), face.in_square_feet() * 0.3048 * 0.3048));
    }

    /// Thrust of what does not turn grows with pressure and with what is off balance, and so does its length.
    #[test]
    fn ends_and_reducers_grow(plain in any_site(), more in 1.001..1.5_f64, step in 0.3..0.8_f64) {
        let higher = Plain { psi: plain.psi * more, ..plain };
        let to = |part: f64| Line { od: Distance::inches(plain.inches * part), full: plain.line().full };
        for fitting in [Fitting::DeadEnd, Fitting::Valve, Fitting::Reducer { to: to(step) }] {
            let (now, then) = (found(&plain, fitting), found(&higher, fitting));
            prop_assert!(then.thrust > now.thrust && longest(&then) > longest(&now));
        }
        let (large, small) = (found(&plain, Fitting::Reducer { to: to(step) }), found(&plain, Fitting::Reducer { to: to(step + 0.1) }));
        prop_assert!(large.thrust > small.thrust && longest(&large) > longest(&small));
        // To nothing it is a dead end.
        let pressure = Pressure::psi(plain.psi);
        let all = reducer(pressure, plain.line().area(), Area::ZERO);
        prop_assert!(near(all.in_lbf(), found(&plain, Fitting::DeadEnd).thrust.in_lbf()));
    }

    /// An even wye: each branch is a dead end, the run holds what they do not push back, and what holds it is in balance.
    #[test]
    fn an_even_wye_is_in_balance(plain in any_site(), step in 0.2..1.0_f64, between in 1.0..179.0_f64) {
        let branch = Line { od: Distance::inches(plain.inches * step), full: plain.line().full };
        let fork = Fitting::EvenWye { branch, between: Angle::degrees(between) };
        let plan = found(&plain, fork);
        let [Some(run), None, Some(leg)] = plan.legs else {
            panic!("an even wye has a run and branches");
        };
        let off = Plain { inches: plain.inches * step, cover: plain.cover + plain.inches * (1.0 - step) / 24.0, ..plain };
        prop_assert!(near(leg.own.in_feet(), off.dead_end()));
        let along = plain.push() - 2.0 * off.push() * (between / 2.0).to_radians().cos();
        prop_assert!(near(plan.thrust.in_lbf(), along.abs()));
        prop_assert!(near(run.own.in_feet(), 1.5 * along.max(0.0) / plain.friction(1.0)));
    }

    /// What the count of bells holds is no shorter than the length, and one stick less would be.
    #[test]
    fn bells_cover_the_length(feet in 0.0..900.0_f64, stick in 5.0..40.0_f64) {
        let count = f64::from(bells(Distance::feet(feet), Distance::feet(stick)));
        prop_assert!((count + 1.0) * stick + 1e-6 > feet && count * stick <= feet + 1e-6);
    }
}

#[test]
fn what_has_no_length_is_refused() {
    let plain = plain();
    let (line, site) = (plain.line(), plain.site());
    let why = |fitting, site: &Site| plan(&asked(fitting, line), site).expect_err("no plan");
    assert_eq!(why(level(90.1), &site), Refused::TwoBends);
    assert_eq!(why(level(0.0), &site), Refused::NoAngle);
    let shallow = Site {
        cover: Distance::ZERO,
        ..site
    };
    assert_eq!(why(level(45.0), &shallow), Refused::NoCover);
    let empty = Site {
        pressure: Pressure::ZERO,
        ..site
    };
    assert_eq!(why(level(45.0), &empty), Refused::NoPressure);
    let to = Line {
        od: Distance::inches(9.05),
        ..line
    };
    assert_eq!(why(Fitting::Reducer { to }, &site), Refused::Sizes);
    let branch = Line {
        od: Distance::inches(12.0),
        ..line
    };
    assert_eq!(why(Fitting::Wye { branch }, &site), Refused::Sizes);
    let slick = Plain { grip: 0.0, ..plain }.site();
    assert_eq!(why(level(45.0), &slick), Refused::NoGrip);
}

/// Bare pipe holds by its own weight: the same joints, at that pressure, ask for no more than they are.
#[test]
fn bare_pipe_holds_what_its_weight_does() {
    let plain = plain();
    let now = found(&plain, level(90.0));
    let bare = 30.0 * (0.6 * 30.0_f64).to_radians().tan() * plain.level(90.0);
    let want = bare / (1.5 * std::f64::consts::FRAC_PI_4 * 9.05 * 9.05);
    assert!(
        near(now.until.in_psi(), want),
        "{} {want}",
        now.until.in_psi()
    );
    assert!(now.until.in_psi() > 1.0 && now.until.in_psi() < 15.0);
}
