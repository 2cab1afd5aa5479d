//! `springline surge`, `fill`, `dig` and `cut` as their user meets them: golden texts, figures, cautions.

mod common;

use common::{golden, json, springline};

#[test]
fn what_a_stop_does() {
    golden(
        "surge-c900",
        &[
            "surge",
            "c900",
            "12",
            "--class",
            "DR 18",
            "--velocity",
            "5ft/s",
            "--length",
            "2000ft",
            "--closure",
            "10s",
            "--working",
            "120psi",
            "--owner",
            "ours",
        ],
    );
    golden(
        "surge-irrigation",
        &[
            "surge",
            "ips-pvc",
            "6",
            "--class",
            "SDR 21",
            "--flow",
            "600gpm",
            "--length",
            "3000ft",
            "--pump-stop",
            "--working",
            "60psi",
            "--temp",
            "90F",
            "--per-day",
            "40",
            "--owner",
            "ours",
        ],
    );
    golden(
        "surge-iron-mm",
        &[
            "surge",
            "ductile-iron",
            "8",
            "--class",
            "PC350",
            "--velocity",
            "2m/s",
            "--length",
            "500m",
            "--working",
            "20bar",
            "--units",
            "mm",
            "--owner",
            "ours",
            "--why",
        ],
    );
    golden(
        "surge-pe",
        &[
            "surge",
            "hdpe-ips",
            "6",
            "--class",
            "DR 11",
            "--velocity",
            "5ft/s",
        ],
    );
}

/// 0.75 of 165 psi is 123.75: a rating is never rounded up, on whichever line it stands.
#[test]
fn a_rating_reads_alike_on_every_line() {
    let (out, ..) = springline(&[
        "surge",
        "c900",
        "8",
        "--class",
        "DR25",
        "--velocity",
        "5ft/s",
        "--temp",
        "90F",
        "--working",
        "130psi",
    ]);
    assert!(out.contains("CLASS   123 psi"), "{out}");
    assert!(out.contains("130 psi alone: OVER 123 psi"), "{out}");
}

#[test]
fn how_a_line_is_filled() {
    golden(
        "fill-c900",
        &[
            "fill",
            "c900",
            "8",
            "--class",
            "DR 18",
            "--length",
            "3000ft",
            "--working",
            "100psi",
            "--fall",
            "90ft",
            "--owner",
            "ours",
        ],
    );
    golden(
        "fill-no",
        &[
            "fill",
            "ips-pvc",
            "6",
            "--length",
            "1000ft",
            "--working",
            "120psi",
            "--rating",
            "150psi",
        ],
    );
    golden(
        "fill-pumped",
        &[
            "fill",
            "pip",
            "10",
            "--class",
            "SDR 41",
            "--length",
            "2000ft",
            "--test",
            "90psi",
            "--working",
            "50psi",
            "--pumped",
            "3gal",
            "--owner",
            "ours",
        ],
    );
    golden(
        "fill-pe",
        &[
            "fill",
            "hdpe-ips",
            "6",
            "--class",
            "DR 11",
            "--length",
            "1000ft",
            "--working",
            "100psi",
        ],
    );
}

#[test]
fn what_is_dug() {
    golden(
        "dig-piece",
        &[
            "dig",
            "pip",
            "10",
            "--cover",
            "30in",
            "--coupling",
            "12in",
            "--opening",
            "12ft",
            "--drains",
            "800ft",
            "--owner",
            "ours",
        ],
    );
    golden(
        "dig-blank",
        &[
            "dig", "c900", "12", "--cover", "2ft", "--job", "sleeve", "--owner", "ours",
        ],
    );
    golden(
        "dig-tap",
        &[
            "dig", "c900", "8", "--cover", "3ft", "--job", "tap", "--owner", "purveyor",
        ],
    );
    golden(
        "dig-tap-theirs",
        &[
            "dig", "c900", "6", "--cover", "3ft", "--job", "tap", "--owner", "purveyor",
        ],
    );
    golden(
        "dig-tap-ips",
        &[
            "dig", "ips-pvc", "4", "--cover", "3ft", "--job", "tap", "--owner", "ours",
        ],
    );
}

/// What is memory and what is practice is said so, and programs are told the source of every figure.
#[test]
fn figures_carry_their_grade() {
    let (value, _) = json(&[
        "surge",
        "c900",
        "12",
        "--class",
        "DR 18",
        "--velocity",
        "5ft/s",
        "--set",
        "b",
        "--json",
    ]);
    assert_eq!(value["schema"], "springline-surge/1");
    assert_eq!(value["figures"]["wave_fps"]["grade"], "one-source");
    assert_eq!(value["figures"]["wave_fps"]["source"][0], "buried-pipe");
    let (value, _) = json(&[
        "surge",
        "c900",
        "12",
        "--class",
        "DR 18",
        "--velocity",
        "5ft/s",
        "--json",
    ]);
    assert_eq!(value["figures"]["wave_fps"]["grade"], "memory");
    let (value, _) = json(&[
        "fill", "c900", "8", "--length", "1000ft", "--test", "150psi", "--json",
    ]);
    let makeup = &value["figures"]["makeup_gph"];
    assert_eq!(makeup["grade"], "two-sources");
    // 0.66 gal/h: the table of C605, 8 in, 1,000 ft, 150 psi.
    let gph = makeup["value"].as_f64().expect("a number");
    assert!((gph - 0.66).abs() < 0.006, "{gph}");
    let (out, ..) = springline(&["dig", "c900", "8", "--cover", "3ft", "--coupling", "12in"]);
    assert!(out.contains("[practice]"), "{out}");
    assert!(
        !out.to_lowercase().contains("safe"),
        "nothing is called safe: {out}"
    );
}

/// The depths at which the code asks for more: at 4, at 5, above 20 ft, and not before.
#[test]
fn depths_trigger_their_cautions() {
    let due = |cover: &str| {
        let (value, _) = json(&[
            "dig", "ips-pvc", "4", "--cover", cover, "--bare", "4ft", "--json",
        ]);
        let all = value["cautions"].as_array().expect("cautions");
        let keys: Vec<String> = all
            .iter()
            .filter_map(|one| one["caution"].as_str())
            .filter(|key| key.starts_with("deep"))
            .map(str::to_owned)
            .collect();
        (
            value["figures"]["sump_in"]["value"]
                .as_f64()
                .expect("a depth"),
            keys,
        )
    };
    // 4.5 in of pipe, a foot under it and a foot of sump: 28.5 in beyond the cover.
    for (cover, sump, keys) in [
        ("19in", 47.5, &[][..]),
        ("19.5in", 48.0, &["deep-4"]),
        ("31in", 59.5, &["deep-4"]),
        ("31.5in", 60.0, &["deep-5", "deep-4"]),
        ("211.5in", 240.0, &["deep-5", "deep-4"]),
        ("212in", 240.5, &["deep-20", "deep-5", "deep-4"]),
    ] {
        assert_eq!(
            due(cover),
            (sump, keys.iter().map(|&key| key.to_owned()).collect()),
            "{cover}"
        );
    }
}

/// Every figure that programs are told is in the page that says what they are.
#[test]
fn every_figure_is_described() {
    let page = include_str!("../JSON.md");
    for args in [
        &[
            "surge",
            "ips-pvc",
            "6",
            "--class",
            "SDR 21",
            "--flow",
            "600gpm",
            "--length",
            "3000ft",
            "--closure",
            "9s",
            "--pump-stop",
            "--working",
            "60psi",
            "--anchorage",
            "one-end",
            "--per-day",
            "40",
            "--json",
        ][..],
        &[
            "surge",
            "hdpe-ips",
            "6",
            "--class",
            "DR 11",
            "--velocity",
            "5ft/s",
            "--temp",
            "150F",
            "--json",
        ],
        &[
            "surge",
            "c900",
            "8",
            "--class",
            "DR 18",
            "--velocity",
            "5ft/s",
            "--json",
        ],
        &[
            "fill",
            "pip",
            "10",
            "--class",
            "SDR 41",
            "--length",
            "2000ft",
            "--test",
            "90psi",
            "--working",
            "50psi",
            "--pumped",
            "3gal",
            "--json",
        ],
        &[
            "dig", "c900", "8", "--cover", "3ft", "--job", "tap", "--drains", "100ft", "--json",
        ],
        &[
            "cut", "c900", "8", "--class", "DR 18", "--damage", "6in", "--kind", "gouge",
            "--gouge", "0.04in", "--json",
        ],
        &[
            "cut",
            "c900",
            "8",
            "--opening",
            "36in",
            "--from",
            "mj",
            "--json",
        ],
    ] {
        let (value, _) = json(args);
        let figures = value["figures"].as_object().expect("figures");
        assert!(!figures.is_empty(), "{args:?}");
        for key in figures.keys() {
            assert!(page.contains(&format!("`{key}`")), "{key} of {args:?}");
        }
    }
}
