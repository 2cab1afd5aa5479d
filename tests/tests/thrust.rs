//! Thrust, restrained lengths and blocks against figures from outside (`outside/thrust.csv` names the source of each; rows of the
//! kind `arithmetic` have none and hold the formulas alone), and against a second opinion in plain `f64`.

use proptest::prelude::*;
use springline_core::image::Image;
use springline_core::thrust::{
    Asked, Bed, Fitting, Line, Plan, Procedure, Refused, Site, Soil, Stop, StopKind, Trench, Turn,
    bells, bend, block, plan, reducer, tee, worst, wye,
};
use springline_core::unit::{
    Angle, Area, Distance, Force, LineLoad, Pressure, Torque, UnitWeight, Volume,
};
use springline_tables::IMAGE;
use springline_tests::cells;

/// The inputs of a row by name.
struct Inputs(Vec<(String, String)>);

impl Inputs {
    fn of(text: &str) -> Self {
        let pairs = text.split(';').map(|pair| {
            let (name, value) = pair.split_once('=').expect("a=1");
            (name.to_owned(), value.to_owned())
        });
        Self(pairs.collect())
    }

    fn word(&self, name: &str) -> Option<&str> {
        let found = self.0.iter().find(|(key, _)| key == name);
        found.map(|(_, value)| value.as_str())
    }

    fn maybe(&self, name: &str) -> Option<f64> {
        self.word(name).map(|value| value.parse().expect(name))
    }

    fn get(&self, name: &str) -> f64 {
        self.maybe(name).unwrap_or_else(|| panic!("no {name}"))
    }

    fn or(&self, name: &str, other: f64) -> f64 {
        self.maybe(name).unwrap_or(other)
    }

    fn pressure(&self) -> Pressure {
        match self.maybe("p_kpa") {
            Some(kpa) => Pressure::kpa(kpa),
            None => Pressure::psi(self.get("p_psi")),
        }
    }

    fn area(&self) -> Area {
        if let Some(area) = self.maybe("a_m2") {
            return Area::square_metres(area);
        }
        Area::circle(match self.maybe("d_m") {
            Some(metres) => Distance::metres(metres),
            None => Distance::inches(self.get("d_in")),
        })
    }

    fn angle(&self) -> Angle {
        Angle::degrees(self.get("angle_deg"))
    }

    /// Of a bend where there is an angle, else of a tee or a dead end.
    fn thrust(&self) -> Force {
        if let Some(force) = self.maybe("thrust_lbf") {
            return Force::lbf(force);
        }
        match self.maybe("angle_deg") {
            Some(angle) => bend(self.pressure(), self.area(), Angle::degrees(angle)),
            None => tee(self.pressure(), self.area()),
        }
    }

    fn soil(&self) -> Soil {
        Soil {
            friction: Angle::degrees(self.get("phi_deg")),
            grip: self.get("fphi"),
            cohesion: Pressure::psf(self.or("c_psf", 0.0)),
            adhesion: self.or("fc", 0.0),
            weight: UnitWeight::pcf(self.get("gamma_pcf")),
            bearing: self.get("kn"),
        }
    }

    fn line(&self) -> Line {
        Line {
            od: Distance::inches(self.get("d_in")),
            full: LineLoad::lbf_per_foot(self.get("wp_plf") + self.get("ww_plf")),
        }
    }

    fn site(&self) -> Site {
        Site {
            pressure: self.pressure(),
            cover: Distance::feet(self.get("h_ft")),
            soil: self.soil(),
            wet: false,
            wrapped: 1.0,
            safety: self.get("sf"),
            stick: Distance::feet(20.0),
        }
    }
}

fn asked(fitting: Fitting, line: Line) -> Asked {
    Asked {
        fitting,
        line,
        stop: None,
        branch_stop: None,
    }
}

/// The length of the side that has the longest.
fn longest(plan: &Plan) -> Distance {
    let legs = plan.legs.iter().flatten();
    legs.fold(Distance::ZERO, |most, leg| most.max(leg.own))
}

fn restrained(inputs: &Inputs, output: &str) -> f64 {
    let site = inputs.site();
    let bed = Bed {
        line: inputs.line(),
        cover: site.cover,
        soil: site.soil,
        wet: false,
        wrapped: 1.0,
    };
    match output {
        "we_plf" => return bed.earth().in_lbf_per_foot(),
        "fs_plf" => return bed.friction(0.5).in_lbf_per_foot(),
        "rs_plf" => return bed.bearing().in_lbf_per_foot(),
        _ => {}
    }
    let level = |turn| Fitting::Bend {
        angle: inputs.angle(),
        turn,
    };
    let (fitting, line, cover) = match inputs.word("kind").expect("a kind") {
        "hbend" => (level(Turn::Level), inputs.line(), site.cover),
        "vdown" => (level(Turn::Down), inputs.line(), site.cover),
        "deadend" => (Fitting::DeadEnd, inputs.line(), site.cover),
        // Its run is the 13.20 in pipe of the rows before, with the same soil; the branch lies with its centre level.
        "tee" => {
            let run = Line {
                od: Distance::inches(13.20),
                full: LineLoad::lbf_per_foot(89.0),
            };
            let tee = Fitting::Tee {
                branch: inputs.line(),
                run_held: Distance::feet(inputs.get("lr_ft")),
            };
            (tee, run, Distance::feet(4.0))
        }
        kind => panic!("{kind}"),
    };
    let found = plan(&asked(fitting, line), &Site { cover, ..site }).expect("a plan");
    longest(&found).in_feet()
}

/// What a printed length becomes by a ratio in which the soil cancels: both lengths worked out in one soil.
fn by_ratio(inputs: &Inputs) -> f64 {
    let image = Image::new(IMAGE).expect("the built-in image");
    let silty = (0u8..).zip(image.soils()).find(|(at, row)| {
        image.soil_name(*at) == "GM SM"
            && image.trench(row.trench).procedure == Procedure::Pvc as u8
    });
    let (soil, _) = Soil::of(&image, silty.expect("GM SM").0, None).expect("a trench");
    let pipe = |inches: f64| Line::new(Distance::inches(inches), None, UnitWeight::pcf(87.0));
    let site = Site {
        pressure: Pressure::psi(150.0),
        cover: Distance::feet(3.0),
        soil,
        wet: false,
        wrapped: 1.0,
        safety: 1.5,
        stick: Distance::feet(20.0),
    };
    let length = |fitting, inches| {
        longest(&plan(&asked(fitting, pipe(inches)), &site).expect("a plan")).in_feet()
    };
    let turned = |angle, turn, inches| length(Fitting::Bend { angle, turn }, inches);
    let od = inputs.or("d_large_in", 2.0 * inputs.or("size", 0.0));
    let (printed, part, whole) = match inputs.word("kind").expect("a kind") {
        "vdown" => (
            inputs.get("l_deadend_ft"),
            turned(inputs.angle(), Turn::Down, od),
            length(Fitting::DeadEnd, od),
        ),
        "hbend" => (
            inputs.get("l_90_ft"),
            turned(inputs.angle(), Turn::Level, od),
            turned(Angle::degrees(90.0), Turn::Level, od),
        ),
        "reducer" => {
            let to = pipe(inputs.get("d_small_in"));
            (
                inputs.get("l_deadend_ft"),
                length(Fitting::Reducer { to }, od),
                length(Fitting::DeadEnd, od),
            )
        }
        kind => panic!("{kind}"),
    };
    printed * part / whole
}

fn stability(inputs: &Inputs, output: &str) -> f64 {
    if let Some(weight) = inputs.maybe("weight_kn") {
        let plan = Area::square_metres(inputs.get("plan_m2"));
        return (Force::kn(weight) / plan).in_kpa();
    }
    let concrete = UnitWeight::kn_per_cubic_metre(inputs.get("conc_kn_m3"));
    let Some(volume) = inputs.maybe("conc_m3") else {
        let metres = |name| Distance::metres(inputs.get(name));
        let holes = Area::circle(metres("d_m")) * inputs.get("pipes");
        let face = metres("h_m") * metres("b_m");
        return (concrete * ((face - holes) * metres("l_m"))).in_kn();
    };
    let weight = concrete * Volume::cubic_metres(volume);
    let thrust = Force::kn(inputs.get("thrust_kn"));
    match output {
        "weight_kn" => weight.in_kn(),
        "resist_kn" => block::sliding(weight, inputs.get("mu"), thrust) * thrust.in_kn(),
        "fs_overturn" => {
            let resisting = Torque::newton_metres(1000.0 * inputs.get("resist_knm"));
            block::turning(resisting, thrust, Distance::metres(inputs.get("arm_m")))
        }
        _ => panic!("{output}"),
    }
}

fn blocks(topic: &str, inputs: &Inputs, output: &str) -> f64 {
    let feet = |name| Distance::feet(inputs.get(name));
    let upright = || Fitting::upright(inputs.pressure(), inputs.area(), inputs.angle());
    match topic {
        "block.area" => {
            let bearing = Pressure::psf(inputs.get("soil_psf"));
            block::area(inputs.thrust(), inputs.or("sf", 1.0), bearing).in_square_feet()
        }
        "block.area.head" => {
            let water = UnitWeight::pcf(62.4) * feet("head_ft");
            let thrust = bend(water, Area::circle(feet("d_ft")), inputs.angle());
            block::area(thrust, 1.0, Pressure::psf(inputs.get("soil_psf"))).in_square_feet()
        }
        "block.height.max" => block::tallest(feet("trench_depth_ft")).in_feet(),
        "block.depth" => block::behind(feet("trench_width_ft"), feet("d_ft")).in_feet(),
        "block.length" => (Area::square_feet(inputs.get("area_ft2")) / feet("height_ft")).in_feet(),
        "block.volume" => {
            (feet("height_ft") * feet("depth_ft") * feet("length_ft")).in_cubic_yards()
        }
        "block.face" => {
            let metres = |name| Distance::metres(inputs.get(name));
            (metres("length_m") * metres("height_m")).in_square_metres()
        }
        // The same soil and pressure: thrusts stand as areas do.
        "block.ratio" => {
            let (pressure, area) = (Pressure::psi(300.0), Area::square_inches(100.0));
            let ratio = bend(pressure, area, inputs.angle()) / tee(pressure, area);
            inputs.get("area_tee_ft2") * ratio
        }
        "block.bearing.nq" => {
            let weight = UnitWeight::kn_per_cubic_metre(inputs.get("gamma_kn_m3"));
            (weight * Distance::metres(inputs.get("z_m")) * inputs.get("nq")).in_kpa()
        }
        "block.gravity" => {
            let concrete = UnitWeight::pcf(inputs.get("concrete_pcf"));
            block::gravity(upright().0, inputs.get("sf"), concrete, false).in_cubic_feet()
        }
        "block.downward" => {
            let bearing = Pressure::psf(inputs.get("qs_psf"));
            block::area(upright().0, inputs.get("fs"), bearing).in_square_feet()
        }
        "block.stability" => stability(inputs, output),
        _ => panic!("{topic}"),
    }
}

#[test]
fn worked_examples() {
    let mut run = [0, 0];
    for line in include_str!("../outside/thrust.csv").lines().skip(1) {
        let row = cells(line);
        let (topic, output) = (row[1].as_str(), row[3].as_str());
        let inputs = Inputs::of(&row[2]);
        let got = match topic {
            "thrust.bend" | "thrust.deadend" => inputs.thrust().in_lbf(),
            "thrust.bend.si" => inputs.thrust().in_kn(),
            "thrust.bend.pa" => {
                let area = Area::square_inches(1.0);
                let pressure = Force::lbf(inputs.get("pa_lbf")) / area;
                bend(pressure, area, inputs.angle()).in_lbf()
            }
            "thrust.reducer" => {
                let circle = |name| Area::circle(Distance::inches(inputs.get(name)));
                reducer(
                    inputs.pressure(),
                    circle("d_large_in"),
                    circle("d_small_in"),
                )
                .in_lbf()
            }
            "thrust.wye.symmetric" => {
                let circle = |name| Area::circle(Distance::inches(inputs.get(name)));
                let between = Angle::degrees(inputs.get("included_deg"));
                wye(
                    inputs.pressure(),
                    circle("d_run_in"),
                    circle("d_branch_in"),
                    between,
                )
                .in_lbf()
            }
            "thrust.vertical.bend" => {
                Fitting::upright(inputs.pressure(), inputs.area(), inputs.angle())
                    .0
                    .in_lbf()
            }
            "restrained" => restrained(&inputs, output),
            "restrained.ratio" => by_ratio(&inputs),
            _ => blocks(topic, &inputs, output),
        };
        let want: f64 = row[4].parse().expect("a figure");
        let tolerance: f64 = row[6].parse().expect("a tolerance");
        assert!(
            (got - want).abs() <= tolerance + 1e-9,
            "{topic} {}: {got}, and not {want} ({})",
            row[2],
            row[7]
        );
        assert!(!row[7].is_empty());
        run[usize::from(row[0] == "arithmetic")] += 1;
    }
    assert_eq!(run, [55, 14], "rows that were run");
}

/// Restrained length by the equations written out anew, in feet and pounds.
#[derive(Clone, Copy, Debug)]
struct Plain {
    psi: f64,
    inches: f64,
    cover: f64,
    weight: f64,
    degrees: f64,
    grip: f64,
    cohesion: f64,
    adhesion: f64,
    bearing: f64,
    full: f64,
    wet: bool,
    wrapped: f64,
}

impl Plain {
    fn site(&self) -> Site {
        Site {
            pressure: Pressure::psi(self.psi),
            cover: Distance::feet(self.cover),
            soil: Soil {
                friction: Angle::degrees(self.degrees),
                grip: self.grip,
                cohesion: Pressure::psf(self.cohesion),
                adhesion: self.adhesion,
                weight: UnitWeight::pcf(self.weight),
                bearing: self.bearing,
            },
            wet: self.wet,
            wrapped: self.wrapped,
            safety: 1.5,
            stick: Distance::feet(20.0),
        }
    }

    fn line(&self) -> Line {
        Line {
            od: Distance::inches(self.inches),
            full: LineLoad::lbf_per_foot(self.full),
        }
    }

    fn push(&self) -> f64 {
        self.psi * std::f64::consts::FRAC_PI_4 * self.inches.powi(2)
    }

    fn friction(&self, skin: f64) -> f64 {
        let d = self.inches / 12.0;
        let (mut weight, mut full) = (self.weight, self.full);
        if self.wet {
            weight -= 62.4;
            full = (full - 62.4 * std::f64::consts::FRAC_PI_4 * d * d).max(0.0);
        }
        let slide = (self.grip * self.degrees).to_radians().tan();
        let clings = self.adhesion * self.cohesion * std::f64::consts::PI * d * skin;
        self.wrapped * (clings + (2.0 * weight * self.cover * d + full) * slide)
    }

    fn wall(&self) -> f64 {
        let d = self.inches / 12.0;
        let weight = if self.wet {
            self.weight - 62.4
        } else {
            self.weight
        };
        let n = (45.0 + self.degrees / 2.0).to_radians().tan();
        self.bearing * d * (weight * (self.cover + d / 2.0) * n * n + 2.0 * self.cohesion * n)
    }

    fn level(&self, angle: f64) -> f64 {
        1.5 * self.push() * (angle / 2.0).to_radians().tan()
            / (self.friction(0.5) + self.wall() / 2.0)
    }

    fn dead_end(&self) -> f64 {
        1.5 * self.push() / self.friction(1.0)
    }
}

fn any_site() -> impl Strategy<Value = Plain> {
    let pipe = (5.0..350.0_f64, 2.0..50.0_f64, 1.0..20.0_f64, 1.0..400.0_f64);
    let soil = (
        64.0..130.0_f64,
        10.0..40.0_f64,
        0.3..1.0_f64,
        0.0..600.0_f64,
    );
    let rest = (0.0..0.8_f64, 0.2..1.0_f64, any::<bool>(), 0.5..1.0_f64);
    (pipe, soil, rest).prop_map(|(pipe, soil, rest)| Plain {
        psi: pipe.0,
        inches: pipe.1,
        cover: pipe.2,
        full: pipe.3,
        weight: soil.0,
        degrees: soil.1,
        grip: soil.2,
        cohesion: soil.3,
        adhesion: rest.0,
        bearing: rest.1,
        wet: rest.2,
        wrapped: rest.3,
    })
}

fn found(plain: &Plain, fitting: Fitting) -> Plan {
    plan(&asked(fitting, plain.line()), &plain.site()).expect("a plan")
}

fn level(degrees: f64) -> Fitting {
    Fitting::Bend {
        angle: Angle::degrees(degrees),
        turn: Turn::Level,
    }
}

fn near(got: f64, want: f64) -> bool {
    (got - want).abs() <= 1e-9 * want.abs().max(1.0)
}

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

    /// What the count of bells holds is no shorter than the length, and one stick less would be.
    #[test]
    fn bells_cover_the_length(feet in 0.0..900.0_f64, stick in 5.0..40.0_f64) {
        let count = f64::from(bells(Distance::feet(feet), Distance::feet(stick)));
        prop_assert!((count + 1.0) * stick + 1e-6 > feet && count * stick <= feet + 1e-6);
    }

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

    /// Soil that nobody knows is no better than any row, on each side, and is one of them.
    #[test]
    fn unknown_soil_is_the_worst(cover in 1.0..12.0_f64, inches in 2.0..50.0_f64, psi in 20.0..300.0_f64, wet in any::<bool>(), fitting in 0..5_usize) {
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
            let asked = asked(fitting, pipe(inches));
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
                let named = poorest.legs.iter().flatten().any(|leg| leg.soil == Some(index));
                alike |= named && longest(&own) == longest(&poorest);
            }
            prop_assert!(alike);
        }
    }
}

fn plain() -> Plain {
    Plain {
        psi: 150.0,
        inches: 9.05,
        cover: 3.0,
        weight: 110.0,
        degrees: 30.0,
        grip: 0.6,
        cohesion: 0.0,
        adhesion: 0.0,
        bearing: 0.6,
        full: 30.0,
        wet: false,
        wrapped: 1.0,
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
    assert_eq!(tee(500.0), 0.0);
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

/// No block in shallow, filled or cut ground, before it has cured, or wider than twice its height.
#[test]
fn blocks_that_are_none() {
    use springline_core::thrust::block::{Ground, NoBlock, face};
    use springline_core::unit::Duration;

    let good = Ground {
        cover: Distance::feet(3.0),
        least_cover: Distance::feet(2.0),
        fill: false,
        cut: None,
        reach: 2.0,
        cure: Duration::days(3.0),
        back: None,
    };
    let of =
        |area: f64, ground: &Ground| face(Area::square_feet(area), Distance::inches(6.9), ground);
    let shape = of(4.0, &good).expect("a block");
    assert!(near(shape.height.in_feet(), 2.0) && near(shape.width.in_feet(), 2.0));
    assert!(shape.height <= block::tallest(shape.base(good.cover, Distance::inches(6.9))));
    assert_eq!(
        of(
            4.0,
            &Ground {
                cover: Distance::feet(1.9),
                ..good
            }
        ),
        Err(NoBlock::Cover)
    );
    assert_eq!(of(4.0, &Ground { fill: true, ..good }), Err(NoBlock::Fill));
    assert_eq!(
        of(
            4.0,
            &Ground {
                cut: Some(Distance::feet(8.0)),
                ..good
            }
        ),
        Err(NoBlock::Cut)
    );
    assert!(
        of(
            4.0,
            &Ground {
                cut: Some(Distance::feet(9.0)),
                ..good
            }
        )
        .is_ok()
    );
    assert_eq!(
        of(
            4.0,
            &Ground {
                back: Some(Duration::hours(71.0)),
                ..good
            }
        ),
        Err(NoBlock::Cure)
    );
    assert!(
        of(
            4.0,
            &Ground {
                back: Some(Duration::hours(72.0)),
                ..good
            }
        )
        .is_ok()
    );
    assert_eq!(of(25.0, &good), Err(NoBlock::Shape));
}
