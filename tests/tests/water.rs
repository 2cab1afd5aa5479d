//! Surge, makeup, flushing and cut lengths against figures from outside the project; `outside/water.csv` names the source of
//! each. Rows of a formula that is from memory say so: they check the arithmetic, and nothing of the world.

use springline_compiler::notes::Notes;
use springline_core::cut::{Closure, Meeting, cut};
use springline_core::surge::{
    Limit, Shell, Water, closing, critical_time, cycles, held_against, hoop_pressure, rise, sound,
    wave_speed, working_share,
};
use springline_core::unit::{
    Acceleration, Distance, Duration, Flow, Pressure, Speed, UnitWeight, Volume,
};
use springline_core::water::{Loss, by_joints, flow_at, held, makeup, speed_of};
use springline_tables::NOTES;
use springline_tests::cells;

/// `a=1;b=2` by name.
fn find(inputs: &str, name: &str) -> Option<f64> {
    inputs
        .split(';')
        .find_map(|pair| pair.strip_prefix(name)?.strip_prefix('='))
        .and_then(|value| value.parse().ok())
}

/// Weight of water and gravity that the handbooks of wave speed reckon a density of 1.94 slugs to the cubic foot with.
fn density() -> (UnitWeight, Acceleration) {
    let gravity = 32.2;
    (
        UnitWeight::pcf(1.94 * gravity),
        Acceleration::feet_per_second_squared(gravity),
    )
}

/// What a row asks for, by its topic and key.
#[allow(clippy::too_many_lines, reason = "an arm for each topic")]
fn figure(notes: &Notes, topic: &str, key: &str, inputs: &str) -> Option<f64> {
    let of = |name: &str| find(inputs, name).unwrap_or_else(|| panic!("{inputs} has no {name}"));
    let psi = |name: &str| Pressure::psi(of(name));
    let feet = |name: &str| Distance::feet(of(name));
    let inches = |name: &str| Distance::inches(of(name));
    let fps = |name: &str| Speed::feet_per_second(of(name));
    let ours = |name: &str| notes.site.figure(name).expect(name).value.get();
    let weight = UnitWeight::pcf(ours("water-weight"));
    let set = |name: &str| {
        let set = notes.site.waters.iter().find(|held| held.set == name);
        let set = set.expect("a set of constants");
        Water {
            sound: Speed::feet_per_second(set.sound_fps.get()),
            bulk: Pressure::psi(set.bulk_psi.get()),
        }
    };
    let deduced = || {
        let (weight, gravity) = density();
        Water {
            sound: sound(psi("k_psi"), weight, gravity),
            bulk: psi("k_psi"),
        }
    };
    let pvc = Pressure::psi(400_000.0);
    Some(match (topic, key) {
        ("joukowsky", "dh_ft") => {
            let gravity = Acceleration::feet_per_second_squared(of("g"));
            rise(fps("a_fps"), fps("v_fps"), gravity).in_feet()
        }
        ("joukowsky", "critical_s") => critical_time(feet("l_ft"), fps("a_fps")).in_seconds(),
        ("joukowsky", "total_head_psi") => {
            let gravity = Acceleration::feet_per_second_squared(of("g"));
            let head = rise(fps("a_fps"), fps("v_fps"), gravity) + feet("head_static_ft");
            (weight * head).in_psi()
        }
        ("joukowsky", "dp_psi") => {
            let gravity = Acceleration::feet_per_second_squared(of("g"));
            let head = rise(fps("a_fps"), fps("v_fps"), gravity);
            (UnitWeight::pcf(of("psi_per_ft") * 144.0) * head).in_psi()
        }
        ("surge.classic", "dp_psi") => {
            let shell = Shell {
                ratio: of("d_in") / of("t_in"),
                stiffness: psi("e_psi"),
                anchorage: 1.0,
            };
            let head = rise(
                wave_speed(&set("c"), &shell),
                fps("v_fps"),
                Acceleration::GRAVITY,
            );
            (weight * head).in_psi()
        }
        ("surge.pvc", "dp_psi") => {
            let shell = Shell {
                ratio: of("dr") - 2.0,
                stiffness: pvc,
                anchorage: 1.0,
            };
            let one = Speed::feet_per_second(1.0);
            let head = rise(wave_speed(&set("a"), &shell), one, Acceleration::GRAVITY);
            (weight * head).in_psi()
        }
        ("c900.check", key) => {
            let limit = notes
                .site
                .limits
                .iter()
                .find(|row| row.rule.contains("C900"));
            let limit = limit.expect("a rule of C900");
            let limit = Limit {
                recurring: limit.recurring.get(),
                occasional: limit.occasional.get(),
                allowance: Pressure::psi(limit.allowance_psi.get()),
            };
            let surges = [psi("prs_psi"), psi("pos_psi")];
            let checks = held_against(psi("pc_psi"), 1.0, psi("wp_psi"), surges, &limit);
            // As the handbook says of them: 190 < 235, 282 < 1.6 × 235.
            assert!(checks.iter().all(springline_core::surge::Check::holds));
            assert!((checks[2].limit.in_psi() - 376.0).abs() < 1e-9);
            match key {
                "recurring_psi" => checks[1].total.in_psi(),
                "occasional_psi" => checks[2].total.in_psi(),
                _ => return None,
            }
        }
        ("wave.speed.di", _) => {
            let shell = Shell::of(inches("od_in"), inches("t_in"), psi("e_psi"), 1.0);
            wave_speed(&deduced(), &shell.expect("a bore")).in_feet_per_second()
        }
        ("wave.speed", _) => {
            let shell = Shell {
                ratio: of("ratio"),
                stiffness: psi("e_psi"),
                anchorage: 1.0,
            };
            wave_speed(&deduced(), &shell).in_feet_per_second()
        }
        ("wave.speed.si", "a_mps") => {
            let water = Water {
                sound: Speed::metres_per_second(of("a0")),
                bulk: Pressure::kpa(of("k_pa") / 1e3),
            };
            let shell = Shell {
                ratio: of("d_m") / of("t_m"),
                stiffness: Pressure::kpa(of("e_pa") / 1e3),
                anchorage: 1.0,
            };
            wave_speed(&water, &shell).in_metres_per_second()
        }
        ("quick.burst", _) => hoop_pressure(Pressure::psi(6400.0), of("dr")).in_psi(),
        ("rule72", key) => {
            let [working, surge] = working_share(psi("pr_psi"), ours("working-share"));
            if key == "max_working_psi" {
                working.in_psi()
            } else {
                surge.in_psi()
            }
        }
        ("velocity.si", _) => {
            let flow = Flow::litres_per_second(of("q_m3h") / 3.6);
            speed_of(flow, Distance::metres(of("d_m"))).in_metres_per_second()
        }
        ("velocity.us", _) => speed_of(Flow::gpm(of("gpm")), inches("d_in")).in_feet_per_second(),
        ("moc.closure", _) => closing(
            feet("l_ft"),
            fps("a_fps"),
            fps("v_fps"),
            Duration::seconds(of("close_s")),
            Acceleration::feet_per_second_squared(32.2),
        )
        .head
        .in_feet(),
        ("fatigue.cycles", _) => cycles(
            Pressure::mpa(of("range_mpa")),
            ours("fatigue-scale"),
            ours("fatigue-power"),
        ),
        ("makeup", key) => {
            let flow = makeup(feet("l_ft"), inches("d_in"), psi("p_psi"), ours("makeup"));
            match key {
                "gph" => flow.in_gph(),
                "gal" => (flow * Duration::hours(of("hours"))).in_gallons(),
                _ => return None,
            }
        }
        ("makeup.joints", _) => {
            let constant = ours("makeup-joints");
            by_joints(of("n"), inches("d_in"), psi("p_psi"), constant).in_gph()
        }
        ("leak.joints", _) => Loss {
            volume: Volume::gallons(of("gal")),
            time: Duration::hours(of("hours")),
        }
        .per_hundred_joints(of("length_ft") / of("joint_ft"))
        .in_gph(),
        ("leak.inchmile", _) => Loss {
            volume: Volume::gallons(of("gpd")),
            time: Duration::days(1.0),
        }
        .gallons_per_day_mile_inch(Distance::feet(5280.0 * of("miles")), inches("d_in")),
        ("flush.flow", _) | ("fill", "gpm") => flow_at(inches("d_in"), fps("v_fps")).in_gpm(),
        ("fill", "gal") => held(inches("d_in"), feet("l_ft")).in_gallons(),
        ("closure", _) => {
            let into = |depth: &str, gap: &str| Meeting::Into {
                depth: inches(depth),
                gap: inches(gap),
            };
            let meetings = [into("depth1_in", "gap1_in"), into("depth2_in", "gap2_in")];
            let piece = cut(&Closure {
                opening: inches("face_to_face_in"),
                lays: &[],
                meetings: &meetings,
            });
            piece.expect("a piece").length.in_inches()
        }
        _ => return None,
    })
}

#[test]
fn worked_examples() {
    let notes = Notes::from_bytes(NOTES).expect("the built-in notes");
    let (mut world, mut arithmetic) = (0, 0);
    for line in include_str!("../outside/water.csv").lines().skip(1) {
        let row = cells(line);
        let (id, topic, inputs, key, source) = (&row[0], &row[1], &row[2], &row[3], &row[7]);
        let got = figure(&notes, topic, key, inputs)
            .unwrap_or_else(|| panic!("{id}: nothing answers {topic} {key}"));
        let want: f64 = row[4].parse().expect("a number");
        let tolerance: f64 = row[6].parse().expect("a tolerance");
        assert!(
            (got - want).abs() <= tolerance,
            "{id} ({source}): {got}, expected {want}"
        );
        assert!(!source.is_empty(), "{id} names no source");
        if source.starts_with("arithmetic alone") {
            arithmetic += 1;
        } else {
            world += 1;
        }
    }
    assert_eq!((world, arithmetic), (45, 4), "rows that ran");
}
