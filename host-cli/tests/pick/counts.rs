//! How many of what.

use crate::common::json;
use crate::words;

/// Counts follow what was told.
#[test]
fn quantities_follow_what_was_told() {
    let count = |line: &str, key: &str| {
        let line = words(&format!("pick {line} --json"));
        let line: Vec<&str> = line.iter().map(String::as_str).collect();
        let (value, _) = json(&line);
        let lines = value["lines"].as_array().expect("lines").clone();
        let own = lines.iter().filter(|line| line["key"] == key);
        own.filter_map(|line| line["count"].as_u64()).sum::<u64>()
    };
    assert_eq!(count("manifold ips-pvc 4 --valves 4", "unions"), 8);
    assert_eq!(
        count("manifold ips-pvc 4 --valves 4", "manifold-splices"),
        8
    );
    assert_eq!(count("manifold ips-pvc 4", "unions"), 2);
    assert_eq!(count("repair split c900 8 --wires 5", "splices"), 10);
    assert_eq!(count("repair split c900 8 --wires 0", "splices"), 0);
    // 38 ft of damage and 2 ft are two sticks of 20 ft, a foot more is a third; one is spare.
    assert_eq!(count("repair split c900 8 --damage 38ft", "stick"), 3);
    assert_eq!(count("repair split c900 8 --damage 39ft", "stick"), 4);
    assert_eq!(count("repair split c900 8", "stick"), 2);
    // 60 ft of 18 ft sticks: four of them, three joints; one spacer each side of a bell and two between, a stick.
    let road = "road ips-pvc 8 carrier ductile-iron:8 --length 60ft";
    assert_eq!(count(road, "carrier"), 4 + 1 + 3);
    assert_eq!(count(road, "spacers"), 16);
    // Five MJ joints, five packs and five restraints.
    let tee = "cut-in tee c900 8 --class \"DR 18\" branch c900:6:\"DR 18\"";
    assert_eq!((count(tee, "mj"), count(tee, "wedge-pvc")), (5, 5));
}
