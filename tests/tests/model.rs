//! The engine against answers of the exact law that were computed apart (f64, numerical integration).

use springline_core::image::Image;
use springline_core::reading::{Query, Reading, Site};
use springline_tests::{around, dia, draft, reference, share, weight};

/// Reading, site, and the leading pipes with their weights; `outside` is a pipe of its own.
type Case<'a> = (Reading, Site, &'a [(&'a str, &'a str, f64)]);
/// The same with clues by key and answer, on an unknown site.
type Told<'a> = (
    Reading,
    &'a [(&'a str, &'a str)],
    &'a [(&'a str, &'a str, f64)],
);

/// The figures are the orientation table of the model, for the reference rows.
#[test]
#[allow(clippy::too_many_lines, reason = "a table of figures")]
fn the_engine_is_within_two_hundredths_of_the_exact_law() {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let unknown = Site::Unknown;
    let cases: &[Case<'_>] = &[
        (
            dia(6.90),
            unknown,
            &[
                ("c900", "6", 0.558),
                ("ductile-iron", "6", 0.292),
                ("asbestos-cement", "6", 0.064),
                ("cast-iron", "6", 0.059),
                ("pvco", "6", 0.013),
                ("hdpe-dips", "6", 0.012),
                ("outside", "", 0.0004),
            ],
        ),
        (
            dia(6.625),
            unknown,
            &[
                ("ips-pvc", "6", 0.750),
                ("steel", "6", 0.135),
                ("conduit", "6", 0.055),
                ("hdpe-ips", "6", 0.037),
                ("drain-pvc", "6", 0.010),
                ("gas-pe", "6", 0.008),
                ("metric-iron", "DN150", 0.005),
                ("outside", "", 0.0006),
            ],
        ),
        (
            dia(7.10),
            unknown,
            &[
                ("cast-iron", "6", 0.619),
                ("asbestos-cement", "6", 0.185),
                ("ductile-iron", "6", 0.062),
                ("metric-pvc", "180mm", 0.057),
                ("hdpe-dips", "6", 0.048),
                ("outside", "", 0.008),
            ],
        ),
        (
            dia(8.16),
            unknown,
            &[
                ("pip", "8", 0.962),
                ("sewer-pvc", "8", 0.017),
                ("outside", "", 0.018),
            ],
        ),
        (
            dia(12.9),
            unknown,
            &[
                ("ips-pvc", "12", 0.875),
                ("hdpe-ips", "12", 0.044),
                ("steel", "12", 0.031),
                ("drain-pvc", "12", 0.018),
                ("sewer-pvc", "12", 0.013),
                ("gas-pe", "12", 0.009),
                ("pip", "12", 0.003),
                ("outside", "", 0.002),
            ],
        ),
        (
            dia(15.30),
            unknown,
            &[
                ("c900", "14", 0.389),
                ("ductile-iron", "14", 0.385),
                ("cast-iron", "14", 0.097),
                ("pip", "15", 0.093),
                ("sewer-pvc", "15", 0.015),
            ],
        ),
        (
            around(48.07),
            unknown,
            &[
                ("pip", "15", 0.414),
                ("c900", "14", 0.381),
                ("ductile-iron", "14", 0.096),
                ("sewer-pvc", "15", 0.056),
                ("cast-iron", "14", 0.024),
            ],
        ),
        (dia(5.20), Site::Irrigation, &[("outside", "", 0.955)]),
        (
            dia(5.20),
            unknown,
            &[("outside", "", 0.633), ("cast-iron", "4", 0.367)],
        ),
        (
            dia(5.20),
            Site::Municipal,
            &[("cast-iron", "4", 0.584), ("outside", "", 0.415)],
        ),
        (dia(7.60), unknown, &[("outside", "", 0.984)]),
    ];
    let mut worst = 0.0f64;
    for (reading, site, want) in cases {
        let mut query = Query::new();
        query.site = *site;
        query.add(*reading).expect("room for one");
        worst = worst.max(hold(&image, &query, want));
    }
    println!("largest difference from the exact law: {worst:.4}");
}

/// Holds an answer against the exact one, and returns the largest difference.
fn hold(image: &Image<'_>, query: &Query, want: &[(&str, &str, f64)]) -> f64 {
    let answer = springline_core::identify::identify(image, query).expect("a usable reading");
    let mut worst = 0.0f64;
    for (family, nominal, want) in want {
        let got = match *family {
            "outside" => share(answer.outside.q30()),
            _ => weight(image, &answer, family, nominal),
        };
        worst = worst.max((got - want).abs());
        assert!(
            (got - want).abs() < 0.02,
            "{query:?}: {family} {nominal} {got:.5}, exact {want}"
        );
    }
    worst
}

/// The rows of the same table that have clues.
#[test]
fn with_clues_the_engine_is_within_two_hundredths_of_the_exact_law() {
    let bytes = reference::image(&draft());
    let image = Image::new(&bytes).expect("an image of the reference rows");
    let cases: &[Told<'_>] = &[
        (
            dia(6.90),
            &[("magnet", "yes")],
            &[
                ("ductile-iron", "6", 0.808),
                ("cast-iron", "6", 0.163),
                ("c900", "6", 0.023),
            ],
        ),
        (
            dia(6.90),
            &[("magnet", "no")],
            &[
                ("c900", "6", 0.853),
                ("asbestos-cement", "6", 0.097),
                ("pvco", "6", 0.019),
                ("hdpe-dips", "6", 0.018),
            ],
        ),
        (
            dia(6.90),
            &[("material", "pvc"), ("magnet", "no"), ("color", "blue")],
            &[
                ("c900", "6", 0.967),
                ("pvco", "6", 0.0326),
                ("asbestos-cement", "6", 0.00025),
                ("outside", "", 0.0001),
            ],
        ),
        (
            dia(12.60),
            &[("material", "pvc")],
            &[
                ("pip", "12", 0.514),
                ("ips-pvc", "12", 0.331),
                ("sewer-pvc", "12", 0.105),
                ("metric-pvc", "315mm", 0.032),
                ("drain-pvc", "12", 0.011),
            ],
        ),
    ];
    let mut worst = 0.0f64;
    for (reading, clues, want) in cases {
        let mut query = Query::new();
        query.add(*reading).expect("room for one");
        for (clue, answer) in *clues {
            let told = image.find_clue(clue, answer).expect("a clue of ours");
            query.clues.tell(told);
        }
        worst = worst.max(hold(&image, &query, want));
    }
    println!("largest difference from the exact law with clues: {worst:.4}");
}
