//! Every job on many families.

use serde_json::Value;

use crate::common::{json, springline};
use crate::list::{List, acts};
use crate::text;

/// The table has the lines of the JSON, read by a reader that is not ours.
fn same_table(name: &str, line: &[&str], value: &Value) {
    let (out, _, _) = springline(&[line, &["--csv"]].concat());
    let mut reader = csv::Reader::from_reader(out.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let column = |name: &str| {
        header
            .iter()
            .position(|held| held == name)
            .expect("a column")
    };
    let columns = ["section", "count", "text", "key", "joints", "place"].map(column);
    let rows: Vec<Vec<String>> = reader
        .records()
        .map(|row| {
            let row = row.expect("a row");
            columns.iter().map(|at| row[*at].to_owned()).collect()
        })
        .collect();
    let lines: Vec<Vec<String>> = value["lines"]
        .as_array()
        .expect("lines")
        .iter()
        .map(|line| {
            let count = line["count"]
                .as_u64()
                .map_or(String::new(), |count| count.to_string());
            let of = |key: &str| text(line, key).to_owned();
            vec![
                of("section"),
                count,
                of("text"),
                of("key"),
                of("joints"),
                of("place"),
            ]
        })
        .collect();
    assert_eq!(rows, lines, "{name}");
}

/// Every job on many families, dry and wet: every list has what a crew must have.
#[test]
#[expect(
    clippy::too_many_lines,
    reason = "two lists of what is walked, and the walk"
)]
fn every_job_on_many_families() {
    let acts = acts();
    let mut lists = 0;
    let mut without: Vec<String> = Vec::new();
    for (job, more) in [
        ("repair split", ""),
        ("repair gasket", ""),
        ("repair bell", ""),
        ("repair fitting", ""),
        ("repair fitting", "branch"),
        ("repair saddle", ""),
        ("repair valve", ""),
        ("cut-in tee", "branch"),
        ("cut-in valve", ""),
        ("tie-in", "to"),
        ("stub", ""),
        ("outlet", ""),
        ("manifold", ""),
        ("road", "carrier"),
    ] {
        for (family, size, other) in [
            ("ips-pvc", "6", "ips-pvc:4"),
            ("ips-pvc", "2", "ips-pvc:2"),
            ("c900", "8", "ductile-iron:8"),
            ("ductile-iron", "12", "c900:12"),
            ("cast-iron", "6:Class 100-250", "c900:6"),
            ("pip", "10", "pip:10"),
            ("pvco", "8", "c900:8"),
            ("hdpe-dips", "8", "c900:8"),
            ("hdpe-ips", "4", "ips-pvc:4"),
            ("steel", "4", "ips-pvc:4"),
            ("copper", "2", "copper:2"),
        ] {
            for dry in ["yes", "no"] {
                let pipe = format!("{family}:{size}");
                let mut line: Vec<&str> = ["pick"].into_iter().chain(job.split(' ')).collect();
                line.push(&pipe);
                if !more.is_empty() {
                    line.extend([more, other]);
                }
                line.extend(["--dry", dry, "--owner", "ours", "--length", "40ft"]);
                if dry == "no" {
                    // With all that numbers hang on.
                    line.extend([
                        "--highest",
                        "100psi",
                        "--depth",
                        "3ft",
                        "--coupling",
                        "12in",
                    ]);
                    line.extend(["--opening", "6ft", "--lay", "9in", "--drains", "100ft"]);
                    line.extend(["--bell", "4in", "--gasket", "rubber", "--valve", "30ft"]);
                }
                let name = line.join(" ");
                let (value, code) = json(&[&line[..], &["--json"]].concat());
                let way = &value["alternatives"][0]["way"];
                assert_eq!(code == 1, way.is_null(), "{name}");
                if way.is_null() {
                    // It says why of every way.
                    let others = value["alternatives"][0]["others"]
                        .as_array()
                        .expect("others");
                    assert!(
                        !others.is_empty()
                            && others.iter().all(|other| other["why_not"].is_string()),
                        "{name}"
                    );
                    without.push(name);
                    continue;
                }
                lists += 1;
                let lines = value["lines"].as_array().expect("lines").clone();
                let cautions = value["cautions"].as_array().expect("cautions");
                let list = List {
                    cautions: cautions
                        .iter()
                        .map(|one| text(one, "caution").to_owned())
                        .collect(),
                    lines,
                    family: family.to_owned(),
                    name: name.clone(),
                };
                list.check(&acts);
                if dry == "no" {
                    let wet = list
                        .lines
                        .iter()
                        .all(|line| line["key"] != "cement" && line["key"] != "fusion");
                    assert!(wet, "{name}: glue in the wet");
                }
                // What is pulled is what is listed.
                let sum = |lines: &Value| -> u64 {
                    lines
                        .as_array()
                        .expect("lines")
                        .iter()
                        .filter_map(|line| line["count"].as_u64())
                        .sum()
                };
                let pulled: u64 = value["pull"]
                    .as_array()
                    .expect("places")
                    .iter()
                    .map(|place| sum(&place["things"]))
                    .sum();
                assert_eq!(pulled, sum(&value["lines"]), "{name}");
                if job == "road" {
                    list.warns("road");
                    list.has("spacers");
                    list.has("end-seal");
                }
                same_table(&name, &line, &value);
            }
        }
    }
    assert!(lists > 180, "{lists} lists; none of {without:#?}");
}
