//! Temporary.
#![allow(missing_docs, clippy::all, clippy::pedantic)]
use crate::model::*;
use std::collections::HashMap;
use std::fs;
use std::path::Path;
type Row = HashMap<String, String>;
fn rows(path: &Path) -> Vec<(usize, Row)> {
    let mut r = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)
        .unwrap();
    let h = r.headers().unwrap().clone();
    r.records()
        .map(|x| {
            let x = x.unwrap();
            let line = x.position().unwrap().line() as usize;
            (
                line,
                h.iter()
                    .map(str::to_owned)
                    .zip(x.iter().map(str::to_owned))
                    .collect(),
            )
        })
        .collect()
}
fn grade(t: &str) -> Grade {
    Grade::ALL
        .into_iter()
        .find(|g| g.key() == t)
        .unwrap_or_else(|| panic!("{t}"))
}
pub fn read(folder: &Path) -> Sources {
    let toml =
        |n: &str| -> toml::Table { fs::read_to_string(folder.join(n)).unwrap().parse().unwrap() };
    let settings: Settings =
        toml::from_str(&fs::read_to_string(folder.join("settings.toml")).unwrap()).unwrap();
    let s = |v: &toml::Value, k: &str| v.get(k).and_then(|x| x.as_str()).unwrap_or("").to_owned();
    let f = |v: &toml::Value, k: &str| {
        v.get(k)
            .and_then(|x| x.as_float().or(x.as_integer().map(|i| i as f64)))
            .unwrap_or(0.0)
    };
    let sources: Vec<Source> = toml("sources.toml")
        .iter()
        .map(|(k, v)| Source {
            key: k.clone(),
            title: s(v, "title"),
            kind: s(v, "kind"),
            place: s(v, "where"),
        })
        .collect();
    let src = |t: &str| -> Vec<usize> {
        t.split(';')
            .map(|k| {
                sources
                    .iter()
                    .position(|x| x.key == k.trim())
                    .unwrap_or_else(|| panic!("{k}"))
            })
            .collect()
    };
    let systems: Vec<System> = toml("od-systems.toml")["system"]
        .as_array()
        .unwrap()
        .iter()
        .map(|v| System {
            key: s(v, "key"),
            label: s(v, "label"),
        })
        .collect();
    let fams: Vec<toml::Value> = toml("families.toml")["family"].as_array().unwrap().clone();
    let keys: Vec<String> = fams.iter().map(|v| s(v, "key")).collect();
    let fam = |k: &str| keys.iter().position(|x| x == k).unwrap();
    let len = |r: &Row, k: &str| -> Option<i64> {
        for (suffix, unit) in [("_in", INCH), ("_mm", MILLIMETRE)] {
            if let Some(t) = r.get(&format!("{k}{suffix}")) {
                if !t.is_empty() {
                    return Some((t.parse::<f64>().unwrap() * unit as f64).round() as i64);
                }
            }
        }
        None
    };
    let families = fams
        .iter()
        .map(|v| {
            let key = s(v, "key");
            let od = rows(&folder.join(format!("od/{key}.csv")))
                .into_iter()
                .map(|(line, r)| OdRow {
                    nominal: r["nominal"].clone(),
                    variant: r["variant"].clone(),
                    series: r["series"].clone(),
                    standard: r["standard"].clone(),
                    od: Datum {
                        value: len(&r, "od").unwrap(),
                        sources: src(&r["od_source"]),
                        grade: grade(&r["od_grade"]),
                    },
                    tolerance: len(&r, "plus").map(|plus| Datum {
                        value: Limits {
                            plus,
                            minus: len(&r, "minus").unwrap(),
                        },
                        sources: src(&r["tol_source"]),
                        grade: grade(&r["tol_grade"]),
                    }),
                    out_of_round: len(&r, "out_of_round").map(|value| Datum {
                        value,
                        sources: src(&r["oor_source"]),
                        grade: grade(&r["oor_grade"]),
                    }),
                    row_share: r["row_share"].parse().ok(),
                    exception: None,
                    line,
                })
                .collect();
            let classes = rows(&folder.join(format!("classes/{key}.csv")))
                .into_iter()
                .map(|(line, r)| ClassRow {
                    nominal: r["nominal"].clone(),
                    variant: r["variant"].clone(),
                    series: r["series"].clone(),
                    class: r["class"].clone(),
                    wall: len(&r, "wall").map(|value| Datum {
                        value,
                        sources: src(&r["wall_source"]),
                        grade: grade(&r["wall_grade"]),
                    }),
                    wall_kind: match r["wall_kind"].as_str() {
                        "min" => Some(WallKind::Min),
                        "nominal" => Some(WallKind::Nominal),
                        _ => None,
                    },
                    psi: r["psi"].parse().ok().map(|value| Datum {
                        value,
                        sources: src(&r["psi_source"]),
                        grade: grade(&r["psi_grade"]),
                    }),
                    exception: None,
                    line,
                })
                .collect();
            Family {
                name: s(v, "name"),
                system: systems
                    .iter()
                    .position(|x| x.key == s(v, "od_system"))
                    .unwrap(),
                material: match s(v, "material").as_str() {
                    "pvc" => Material::Pvc,
                    "iron" => Material::Iron,
                    "steel" => Material::Steel,
                    "pe" => Material::Pe,
                    "copper" => Material::Copper,
                    "cement" => Material::Cement,
                    _ => Material::Aluminum,
                },
                carries: match s(v, "carries").as_str() {
                    "water" => Carries::Water,
                    "drain" => Carries::Drain,
                    "gas" => Carries::Gas,
                    _ => Carries::Wires,
                },
                thermal_per_f: Datum {
                    value: f(v, "thermal_per_f"),
                    sources: src(&s(v, "thermal_source")),
                    grade: grade(&s(v, "thermal_grade")),
                },
                wear_in: f(v, "wear_in"),
                oval: f(v, "oval"),
                squash: v.get("squash").map(|q| Squash {
                    mean: f(q, "mean"),
                    sd: f(q, "sd"),
                }),
                loose: v.get("loose").map(|q| Loose {
                    share: f(q, "share"),
                    width: f(q, "width"),
                }),
                irrigation: f(v, "irrigation"),
                municipal: f(v, "municipal"),
                size_weights: match s(v, "size_weights").as_str() {
                    "inch" => SizeWeights::Inch,
                    "dn" => SizeWeights::Dn,
                    _ => SizeWeights::Od,
                },
                sources: src(&s(v, "source")),
                grade: grade(&s(v, "grade")),
                od,
                classes,
                key,
            }
        })
        .collect();
    let w = |r: &Row, line, n: &str| SizeWeight {
        nominal: r["nominal"].clone(),
        weight: Datum {
            value: r[n].parse().unwrap(),
            sources: src(&r["source"]),
            grade: grade(&r["grade"]),
        },
        line,
    };
    let sizes = rows(&folder.join("sizes.csv"))
        .iter()
        .map(|(l, r)| w(r, *l, "weight"))
        .collect();
    let size_exceptions = rows(&folder.join("size-exceptions.csv"))
        .iter()
        .map(|(l, r)| SizeException {
            family: fam(&r["family"]),
            size: w(r, *l, "weight"),
        })
        .collect();
    let class_shares = rows(&folder.join("class-shares.csv"))
        .iter()
        .map(|(l, r)| ClassShare {
            family: fam(&r["family"]),
            class: r["class"].clone(),
            share: Datum {
                value: r["share"].parse().unwrap(),
                sources: src(&r["source"]),
                grade: grade(&r["grade"]),
            },
            line: *l,
        })
        .collect();
    Sources {
        settings,
        systems,
        families,
        sources,
        series: vec![],
        sizes,
        size_exceptions,
        class_shares,
        differences: vec![],
    }
}
