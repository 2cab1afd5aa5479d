//! The exact law against figures computed apart, against draws of the
//! generative model, and against what must hold in the limit.

use std::collections::HashMap;

use springline_tests::exact::{
    FAMILIES, Model, Posterior, Query, Reading, Site, densities, density, posterior,
};

/// Family, chance to be seen as PVC, that a magnet holds, to be seen blue.
/// Common practice, no source.
const CLUES: [(&str, f64, f64, f64); 20] = [
    ("ips-pvc", 0.965, 0.015, 0.03),
    ("c900", 0.965, 0.015, 0.51),
    ("pvco", 0.965, 0.015, 0.76),
    ("pip", 0.965, 0.015, 0.02),
    ("sewer-pvc", 0.965, 0.015, 0.01),
    ("metric-pvc", 0.965, 0.015, 0.27),
    ("conduit", 0.965, 0.015, 0.01),
    ("drain-pvc", 0.965, 0.015, 0.01),
    ("cts-plastic", 0.965, 0.015, 0.10),
    ("gas-pe", 0.035, 0.015, 0.01),
    ("hdpe-ips", 0.035, 0.015, 0.02),
    ("hdpe-dips", 0.035, 0.015, 0.02),
    ("metric-pe", 0.035, 0.015, 0.02),
    ("steel", 0.012, 0.985, 0.06),
    ("ductile-iron", 0.015, 0.985, 0.05),
    ("cast-iron", 0.015, 0.985, 0.01),
    ("metric-iron", 0.015, 0.985, 0.15),
    ("asbestos-cement", 0.090, 0.020, 0.01),
    ("copper", 0.010, 0.010, 0.04),
    ("aluminum", 0.040, 0.010, 0.01),
];

/// What a weight may differ from one computed apart.
const ROOM: f64 = 0.004;

/// Pipes whose seen material and colour are those of another, taken at random.
const DISGUISED: f64 = 0.01;

/// Likelihoods by family: seen as PVC or not asked, magnet, blue or not asked.
fn clues(model: &Model, pvc: bool, magnet: Option<bool>, blue: bool) -> HashMap<String, f64> {
    let seen = |name: &str| {
        let row = CLUES.iter().find(|c| c.0 == name).expect("every family");
        (if pvc { row.1 } else { 1.0 }) * (if blue { row.3 } else { 1.0 })
    };
    let anyone: f64 = model
        .rows
        .iter()
        .map(|r| r.unknown_prior * seen(r.family().name))
        .sum();
    CLUES
        .iter()
        .map(|&(name, _, holds, _)| {
            let eye = (1.0 - DISGUISED) * seen(name) + DISGUISED * anyone;
            let pull = magnet.map_or(1.0, |m| if m { holds } else { 1.0 - holds });
            (name.to_owned(), eye * pull)
        })
        .collect()
}

/// What is expected of one reading: family (with the nominal, where it is
/// told) and weight, then the outside weight.
type Expected<'a> = (&'a [(&'a str, &'a str, f64)], Option<f64>);

fn check(what: &str, got: &Posterior, (weights, outside): Expected<'_>, errors: &mut Vec<String>) {
    let mut one = |name: String, want: f64, got: f64| {
        println!("{what}: {name} expected {want}, got {got:.5}");
        if (want - got).abs() > ROOM {
            errors.push(format!("{what}: {name} expected {want}, got {got:.5}"));
        }
    };
    for &(family, nominal, want) in weights {
        let got = got.weight(family, nominal);
        one(format!("{family} {nominal}"), want, got);
    }
    if let Some(want) = outside {
        one("outside".to_owned(), want, got.outside);
    }
}

/// Every figure of the orientation table. Computed apart, in f64, by another
/// program over the same rows.
#[test]
fn figures_computed_apart() {
    let model = Model::new();
    let at = |d: f64| Query::new(Reading::caliper(d));
    let with = |d: f64, pvc, magnet, blue| at(d).with_clues(clues(&model, pvc, magnet, blue));
    let tape = Query::new(Reading::SteelTape(48.07));
    #[rustfmt::skip]
    let table: Vec<(&str, Query, Expected<'_>)> = vec![
        ("6.90", at(6.90), (&[("c900", "6", 0.558), ("ductile-iron", "6", 0.292), ("asbestos-cement", "6", 0.064), ("cast-iron", "6", 0.059), ("pvco", "6", 0.013), ("hdpe-dips", "6", 0.012)], Some(0.0004))),
        ("6.90 magnet", with(6.90, false, Some(true), false), (&[("ductile-iron", "6", 0.808), ("cast-iron", "6", 0.163), ("c900", "6", 0.023)], None)),
        ("6.90 no magnet", with(6.90, false, Some(false), false), (&[("c900", "6", 0.853), ("asbestos-cement", "6", 0.097), ("pvco", "6", 0.019), ("hdpe-dips", "6", 0.018)], None)),
        ("6.90 PVC, no magnet, blue", with(6.90, true, Some(false), true), (&[("c900", "6", 0.967), ("pvco", "6", 0.0326), ("asbestos-cement", "6", 0.00025)], Some(0.0001))),
        ("6.625", at(6.625), (&[("ips-pvc", "6", 0.750), ("steel", "6", 0.135), ("conduit", "6", 0.055), ("hdpe-ips", "6", 0.037), ("drain-pvc", "6", 0.010), ("gas-pe", "6", 0.008), ("metric-iron", "DN150", 0.005)], Some(0.0006))),
        ("12.60 PVC", with(12.60, true, None, false), (&[("pip", "12", 0.514), ("ips-pvc", "12", 0.331), ("sewer-pvc", "12", 0.105), ("metric-pvc", "315mm", 0.032), ("drain-pvc", "12", 0.011)], None)),
        ("7.10", at(7.10), (&[("cast-iron", "6", 0.619), ("asbestos-cement", "6", 0.185), ("ductile-iron", "6", 0.062), ("metric-pvc", "180mm", 0.057), ("hdpe-dips", "6", 0.048)], Some(0.008))),
        ("8.16", at(8.16), (&[("pip", "8", 0.962), ("sewer-pvc", "8", 0.017), ("metric-pe", "200mm", 0.002), ("copper", "8", 0.0015)], Some(0.018))),
        ("12.9", at(12.9), (&[("ips-pvc", "12", 0.875), ("hdpe-ips", "12", 0.044), ("steel", "12", 0.031), ("drain-pvc", "12", 0.018), ("sewer-pvc", "12", 0.013), ("gas-pe", "12", 0.009), ("pip", "12", 0.003)], Some(0.002))),
        ("15.30", at(15.30), (&[("c900", "14", 0.389), ("ductile-iron", "14", 0.385), ("cast-iron", "14", 0.097), ("pip", "15", 0.093), ("sewer-pvc", "15", 0.015)], None)),
        ("48.07 around", tape, (&[("pip", "15", 0.414), ("c900", "14", 0.381), ("ductile-iron", "14", 0.096), ("sewer-pvc", "15", 0.056), ("cast-iron", "14", 0.024)], None)),
        ("5.20 irrigation", at(5.20).on(Site::Irrigation), (&[], Some(0.955))),
        ("5.20", at(5.20), (&[("cast-iron", "4", 0.367)], Some(0.633))),
        ("5.20 municipal", at(5.20).on(Site::Municipal), (&[("cast-iron", "4", 0.584)], Some(0.415))),
        ("7.60", at(7.60), (&[], Some(0.984))),
    ];
    let mut errors = Vec::new();
    for (what, query, expected) in table {
        check(what, &posterior(&model, &query), expected, &mut errors);
    }
    assert!(errors.is_empty(), "{errors:#?}");
}

/// The typed shares make the whole of a site, and with the shares of the
/// rows they give the prior of the unknown site.
#[test]
fn priors_agree_with_each_other() {
    let irrigation: f64 = FAMILIES.iter().map(|f| f.irrigation).sum();
    let municipal: f64 = FAMILIES.iter().map(|f| f.municipal).sum();
    assert!((irrigation - 100.0).abs() < 1e-9, "{irrigation}");
    assert!((municipal - 100.0).abs() < 1e-9, "{municipal}");
    for row in &Model::new().rows {
        let mixed = 0.6 * row.prior(Site::Irrigation) + 0.4 * row.prior(Site::Municipal);
        let off = (mixed / row.unknown_prior - 1.0).abs();
        assert!(off < 1e-4, "{} {}: {off}", row.family().name, row.nominal);
    }
}

/// Readings of every kind, for what must hold of all of them.
fn one_of_each() -> Vec<Reading> {
    vec![
        Reading::caliper(6.90),
        Reading::caliper(0.84),
        Reading::caliper(60.5),
        Reading::Diameters(vec![(6.92, Some(3))]),
        Reading::Diameters(vec![(6.92, Some(3)), (6.87, Some(12))]),
        Reading::Diameters(vec![(12.5, Some(2)), (12.1, Some(12)), (12.3, Some(4))]),
        Reading::Diameters(vec![(6.92, None), (6.87, None)]),
        Reading::DiameterTape(6.63),
        Reading::SteelTape(27.125),
        Reading::String(21.75),
        Reading::ChordRise {
            chord: 5.9,
            rise: 1.7,
        },
        Reading::ShortJaw {
            chord: 5.79,
            depth: 1.57,
            hour: None,
        },
    ]
}

#[test]
fn weights_sum_to_one() {
    let model = Model::new();
    for reading in one_of_each() {
        for site in [Site::Unknown, Site::Irrigation, Site::Municipal] {
            for (buried, temperature) in [(true, None), (false, Some(110.0))] {
                let mut query = Query::new(reading.clone()).on(site);
                query.buried = buried;
                query.temperature = temperature;
                let got = posterior(&model, &query);
                let weights: Vec<f64> = got.weights.iter().map(|w| w.2).collect();
                let total = weights.iter().sum::<f64>() + got.outside;
                assert!((total - 1.0).abs() < 1e-12, "{query:?}: {total}");
                assert!(weights.iter().all(|w| (0.0..=1.0).contains(w)));
            }
        }
    }
}

#[test]
fn where_everything_vanishes_it_is_outside() {
    let model = Model::new();
    for d in [0.05, 0.3, 95.0, 1000.0] {
        let got = posterior(&model, &Query::new(Reading::caliper(d)));
        assert!(got.outside > 0.999_999, "{d}: {}", got.outside);
    }
    let flat = Reading::ChordRise {
        chord: 30.0,
        rise: 0.5,
    };
    assert!(posterior(&model, &Query::new(flat)).outside > 0.999_999);
}

#[test]
fn evidence_moves_weights_the_right_way() {
    let model = Model::new();
    let outside = |d| posterior(&model, &Query::new(Reading::caliper(d))).outside;
    let away: Vec<f64> = [7.1, 7.2, 7.3, 7.4, 7.5, 7.6].map(outside).to_vec();
    assert!(away.is_sorted(), "leaving the last iron size: {away:?}");

    // The more likely the clues make a family, the more it weighs.
    let clued = |likelihood: f64| {
        let clues = HashMap::from([("cast-iron".to_owned(), likelihood)]);
        let query = Query::new(Reading::caliper(7.1)).with_clues(clues);
        posterior(&model, &query).family("cast-iron")
    };
    let heavier: Vec<f64> = [0.0, 0.1, 0.5, 1.0, 2.0, 10.0].map(clued).to_vec();
    assert!(heavier.is_sorted() && heavier[0] < 1e-15, "{heavier:?}");

    // A pipe that is not buried is not deflected: a PIP 12 read .3 in too
    // wide is then no PIP 12.
    let mut query = Query::new(Reading::caliper(12.55));
    let buried = posterior(&model, &query).weight("pip", "12");
    query.buried = false;
    let racked = posterior(&model, &query).weight("pip", "12");
    assert!(buried > 0.3 && racked < 1e-6, "{buried} {racked}");

    // Two diameters that no one pipe has.
    let torn = Reading::Diameters(vec![(6.9, Some(3)), (9.05, Some(12))]);
    assert!(posterior(&model, &Query::new(torn)).outside > 0.99);
}

/// Two diameters at one clock position are one diameter read twice: nothing
/// but the instrument's error shrinks.
#[test]
fn same_clock_position_twice_is_one_diameter() {
    let model = Model::new();
    let mut twice = Query::new(Reading::Diameters(vec![(6.93, Some(3)), (6.93, Some(3))]));
    twice.sigma = Some(0.005);
    let mut once = Query::new(Reading::Diameters(vec![(6.93, Some(3))]));
    once.sigma = Some(0.005 / 2.0_f64.sqrt());
    let pair = densities(&model, &twice);
    let single = densities(&model, &once);
    let (pair_sum, single_sum) = (pair.iter().sum::<f64>(), single.iter().sum::<f64>());
    for ((a, b), row) in pair.iter().zip(&single).zip(&model.rows) {
        let off = (a / pair_sum - b / single_sum).abs();
        assert!(off < 1e-4, "{} {}: {off}", row.family().name, row.nominal);
    }
}

/// A deeper jaw sees more of the pipe, until it sees the diameter itself.
#[test]
fn jaws_that_just_fail_to_reach_see_almost_the_diameter() {
    let model = Model::new();
    let row = model
        .rows
        .iter()
        .find(|r| r.family().name == "c900" && r.nominal == "6");
    let row = row.expect("listed");
    let jaw = |depth: f64| {
        let reading = Reading::ShortJaw {
            chord: 6.90,
            depth,
            hour: Some(3),
        };
        density(&model, &Query::new(reading), row)
    };
    let direct = density(
        &model,
        &Query::new(Reading::Diameters(vec![(6.90, Some(3))])),
        row,
    );
    assert!((jaw(3.5) / direct - 1.0).abs() < 1e-12, "reaches");
    assert!((jaw(3.445) / direct - 1.0).abs() < 0.02, "almost reaches");
}
