//! What other programs rely on: `JSON.md`.

mod common;

use common::json;
use serde_json::Value;

/// The keys that others rely on, and weights that sum to one.
#[test]
fn json_has_its_fixed_keys() {
    for (args, outcome, exit) in [
        (vec!["--dia", "6.90in"], "split", 0),
        (vec!["--dia", "5.2in"], "outside", 1),
        (
            vec!["--dia", "12.6in@3", "--dia", "11.88in@12"],
            "settled",
            0,
        ),
    ] {
        let (value, code) = json(&[&["read", "--json"], &args[..]].concat());
        assert_eq!(code, exit);
        assert_eq!(value["schema"], "springline-read/1");
        assert_eq!(value["outcome"], outcome);
        assert!(value["reading"]["od_in"].is_f64() && value["reading"]["u_in"].is_f64());
        assert!(value["stop"].is_boolean() && value["cautions"].is_array());
        assert!(value.get("next_check").is_some());
        let candidates = value["candidates"].as_array().expect("a list");
        let mut sum = value["rest_weight"].as_f64().expect("a number")
            + value["outside_weight"].as_f64().expect("a number");
        for candidate in candidates {
            for key in ["family", "od_system", "nominal"] {
                assert!(candidate[key].is_string(), "{key}");
            }
            sum += candidate["weight"].as_f64().expect("a number");
        }
        assert!((sum - 1.0).abs() < 1e-12, "{sum}");
    }
    let (value, _) = json(&["read", "--dia", "12.6in", "--json"]);
    assert_eq!(value["next_check"]["check"], "crossed-diameter");
}

/// A diameter read twice is one diameter; two that may cross are not asked to.
#[test]
fn a_second_diameter_is_asked_for_until_one_crosses() {
    let next = |args: &[&str]| {
        let mut all = vec!["read", "--json"];
        for check in ["magnet", "material", "color", "pressure", "end", "tape"] {
            all.extend(["--cannot", check]);
        }
        let (value, _) = json(&[&all[..], args].concat());
        value["next_check"]["check"].clone()
    };
    let crossed = Value::from("crossed-diameter");
    assert_eq!(next(&["--dia", "12.6in"]), crossed);
    assert_eq!(next(&["--dia", "12.6in@3", "--dia", "12.6in@9"]), crossed);
    assert_eq!(next(&["--chord", "8in", "--rise", "1.406in"]), crossed);
    assert_ne!(next(&["--dia", "12.6in@3", "--dia", "12.4in@12"]), crossed);
    assert_ne!(next(&["--around", "39.6in"]), crossed);
}

#[test]
fn the_next_check_says_what_it_is_worth() {
    let (value, _) = json(&["read", "--dia", "6.90in", "--json"]);
    let next = &value["next_check"];
    assert_eq!(next["check"], "magnet");
    assert_eq!(next["minutes"], 0.1);
    assert_eq!(next["leads"][0]["answer"], "yes");
    assert!(
        next["less_doubt_bits"]
            .as_f64()
            .is_some_and(|bits| bits > 0.5)
    );
    assert!(next["settles"].is_number());
}

#[test]
fn the_terms_are_there_for_programs_too() {
    let (value, _) = json(&["read", "--dia", "6.90in", "--explain", "--json"]);
    let terms = value["terms"].as_array().expect("a list");
    assert_eq!(terms[0]["family"], "c900");
    assert_eq!(terms[0]["tolerance_grade"], "memory");
    for term in terms {
        let data = term["data"].as_array().expect("a list");
        assert!(!data.is_empty(), "{term}");
        for datum in data {
            assert!(datum["od"]["grade"].is_string() && datum["od"]["sources"].is_array());
        }
    }
    let (value, _) = json(&["read", "--dia", "6.90in", "--json"]);
    assert!(value.get("terms").is_none());
}

/// What is bought: purchases hold every candidate once, ends have verdicts and sources, a stop buys nothing.
#[test]
fn what_is_bought_is_told_to_programs() {
    let blue = [
        "read",
        "--dia",
        "6.90in",
        "--material",
        "pvc",
        "--magnet",
        "no",
        "--color",
        "blue",
        "--json",
    ];
    let (value, _) = json(&blue);
    assert_eq!(value["job"], Value::Null);
    let purchases = value["purchases"].as_array().expect("a list");
    let mut members: Vec<u64> = purchases
        .iter()
        .flat_map(|purchase| purchase["candidates"].as_array().expect("a list"))
        .map(|at| at.as_u64().expect("an index"))
        .collect();
    members.sort_unstable();
    let candidates = value["candidates"].as_array().expect("a list");
    assert!((0..candidates.len() as u64).eq(members), "{purchases:?}");
    assert!(purchases[0]["weight"].as_f64().expect("a number") > 0.999);
    assert_eq!(
        value["parts"]["of"],
        serde_json::json!(["C900 PVC", "PVCO (C909)"])
    );
    assert_eq!(
        value["parts"]["differs"],
        serde_json::json!(["length", "tap"])
    );
    let end = |key: &str| {
        let ends = value["parts"]["ends"].as_array().expect("a list");
        ends.iter()
            .find(|end| end["end"] == key)
            .expect(key)
            .clone()
    };
    assert_eq!(end("mj")["verdict"], "fits");
    assert_eq!(end("push-ciod")["verdict"], "fits-with");
    assert_eq!(end("push-ciod")["needs"].as_array().map(Vec::len), Some(1));
    assert_eq!(end("bell-ips")["verdict"], "no");
    assert_eq!(end("bell-ips")["sources"][0], "fluids");
    let holds = value["parts"]["holds"].as_array().expect("a list");
    let ring = holds
        .iter()
        .find(|one| one["key"] == "ring-ciod")
        .expect("a ring");
    assert_eq!(ring["sources"][0], "f1674");

    let (value, code) = json(&[
        "read", "--dia", "6.90in", "--magnet", "no", "--json", "--job", "tap",
    ]);
    assert_eq!((code, &value["job"]), (1, &Value::from("tap")));
    assert_eq!(value["parts"]["ends"], Value::Array(Vec::new()));
    assert_eq!(value["parts"]["holds"], Value::Array(Vec::new()));
}
