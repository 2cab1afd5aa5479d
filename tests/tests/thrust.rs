//! Thrust, restrained lengths and blocks against figures from outside: `outside/thrust.csv` names the source of each; rows of the
//! kind `arithmetic` have none and hold the formulas alone.

use springline_core::image::Image;
use springline_core::surge::rise;
use springline_core::thrust::{
    Asked, Bed, Fitting, Line, Plan, Procedure, Site, Soil, Turn, WATER, bend, block, plan,
    reducer, tee, wye,
};
use springline_core::unit::{
    Acceleration, Angle, Area, Distance, Force, LineLoad, Pressure, Speed, Torque, UnitWeight,
    Volume,
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

impl Inputs {
    fn speed(&self, name: &str) -> Speed {
        Speed::feet_per_second(self.get(name))
    }

    /// Loose soil of this friction, in a wall of which all counts.
    fn sand(&self) -> Soil {
        Soil {
            friction: Angle::degrees(self.get("phi_deg")),
            grip: 1.0,
            cohesion: Pressure::ZERO,
            adhesion: 0.0,
            weight: UnitWeight::pcf(100.0),
            bearing: 1.0,
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
    if let Some(normal) = inputs.maybe("normal_kn") {
        let thrust = Force::kn(inputs.get("thrust_kn"));
        let grip = Angle::degrees(inputs.get("phi_deg")).tan();
        return block::sliding(Force::kn(normal), grip, thrust) * thrust.in_kn();
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
            // Water that turns pushes by its speed: density times area times both speeds, as surge has it.
            "momentum" => {
                let (one, other) = (inputs.speed("v1_fps"), inputs.speed("v2_fps"));
                let gravity = Acceleration::feet_per_second_squared(inputs.get("g"));
                let push = UnitWeight::pcf(inputs.get("gamma_pcf")) * rise(one, other, gravity);
                (push * Area::circle(Distance::feet(inputs.get("d_ft")))).in_lbf()
            }
            "momentum.share" => {
                let speed = inputs.speed("v_fps");
                let push = WATER * rise(speed, speed, Acceleration::GRAVITY);
                100.0 * (push / inputs.pressure())
            }
            "passive" => {
                let weight = UnitWeight::pcf(inputs.get("gamma_pcf"));
                let deep = weight * Distance::feet(inputs.get("depth_ft"));
                deep.in_psf() * inputs.sand().passive()
            }
            // A face of so many metres is a pipe as wide, in a wall that bears all of it; what is active is the inverse.
            "passive.si" | "active.si" => {
                let (top, base) = (inputs.get("h1_m"), inputs.get("h2_m"));
                let soil = Soil {
                    weight: UnitWeight::kn_per_cubic_metre(inputs.get("gamma_kn_m3")),
                    ..inputs.sand()
                };
                let bed = Bed {
                    line: Line {
                        od: Distance::metres(base - top),
                        full: LineLoad::ZERO,
                    },
                    cover: Distance::metres(top),
                    soil,
                    wet: false,
                    wrapped: 1.0,
                };
                let held = bed.bearing().in_kn_per_metre();
                if topic == "passive.si" {
                    held
                } else {
                    held / soil.passive().powi(2)
                }
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
    assert_eq!(run, [59, 16], "rows that were run");
}
