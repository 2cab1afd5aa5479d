//! The real folder: what it says, against public sources.

use springline_core::image::Grade;

use super::real;
use crate::joints::{Cell, Form, Joints, Kind, Verdict};
use crate::model::{INCH, NominalSize};

/// The verdict on a cell.
fn verdict(joints: &Joints, variant: &str, form: Form, end: &str, size: &str) -> Verdict {
    let cell = Cell {
        variant: joints.variant(variant).expect(variant),
        size: NominalSize::parse(size).expect(size),
        form,
        end: joints.end(end).expect(end),
    };
    joints.row(cell).expect("the pipe exists").verdict
}

#[test]
fn every_cell_has_its_row() {
    let (_, joints) = real();
    let counts = joints.counts();
    assert_eq!(counts.all(), joints.space.len());
    assert!(joints.space.len() > 90_000);
    let by_grade: usize = Grade::ALL.iter().map(|grade| counts.grade(*grade)).sum();
    assert_eq!(by_grade, counts.all());
    for (index, cell) in joints.space.cells() {
        assert_eq!(joints.space.index(cell), Some(index));
        let row = joints.row(cell).expect("a row");
        assert!(row.variants.has(cell.variant) && row.ends.has(cell.end));
        assert!(row.has_form(cell.form) && row.band.holds(cell.size));
    }
}

/// Entrances of solvent sockets, inches. ASTM D2466 as in github.com/AguaClara/aguaclara, `fitting_database.csv`.
const ENTRANCES: [(&str, f64); 13] = [
    ("1/2", 0.848),
    ("3/4", 1.058),
    ("1", 1.325),
    ("1-1/4", 1.670),
    ("1-1/2", 1.912),
    ("2", 2.387),
    ("2-1/2", 2.889),
    ("3", 3.516),
    ("4", 4.518),
    ("6", 6.647),
    ("8", 8.655),
    ("10", 10.780),
    ("12", 12.780),
];

#[test]
fn sockets_take_what_enters_them() {
    let (sources, joints) = real();
    for (size, entrance) in ENTRANCES {
        for (index, variant) in joints.variants.iter().enumerate() {
            let family = &sources.families[variant.family];
            let nominal = NominalSize::parse(size).expect(size);
            if !joints.space.sizes(index).contains(&nominal) {
                continue;
            }
            let said = verdict(&joints, &variant.key, Form::PlainSquare, "solvent-40", size);
            let rows = family.od.iter().filter(|row| row.nominal == size);
            // An interference fit: the OD is below the entrance by a few hundredths at most.
            let enters = rows.clone().any(|row| {
                #[allow(clippy::cast_precision_loss, reason = "far below 2^52 counts")]
                let gap = entrance - row.od.value as f64 / INCH as f64;
                (0.0..0.04).contains(&gap)
            });
            let usable = said <= Verdict::FitsWith;
            assert!(enters || !usable, "{} {size}", variant.key);
            if variant.key.starts_with("ips-pvc/") {
                assert!(enters && said == Verdict::Fits, "{} {size}", variant.key);
            }
        }
    }
}

#[test]
fn iron_size_ends_seal_on_iron_ods_only() {
    let (sources, joints) = real();
    let family = |key: &str| sources.families.iter().find(|family| family.key == key);
    let iron = family("ductile-iron").expect("ductile iron");
    for (index, variant) in joints.variants.iter().enumerate() {
        let family = &sources.families[variant.family];
        for size in joints.space.sizes(index) {
            let size = size.to_string();
            for end in ["mj", "push-ciod", "bell-ciod"] {
                if verdict(&joints, &variant.key, Form::PlainBevelled, end, &size)
                    > Verdict::FitsWith
                {
                    continue;
                }
                let od = iron.od.iter().find(|row| row.nominal == size);
                let od = od.map(|row| row.od.value);
                let held = family.od.iter().filter(|row| row.nominal == size);
                assert!(
                    held.clone().any(|row| Some(row.od.value) == od),
                    "{} {size} {end}",
                    variant.key
                );
            }
        }
    }
}

#[test]
fn cells_whose_obvious_answer_is_wrong() {
    use Form::{PlainBevelled, PlainSquare};
    use Verdict::{Adapter, Fits, FitsWith, No, Refer};
    let (_, joints) = real();
    for (variant, form, end, size, expected) in [
        // Common practice: transition gaskets end at 12 in (the gap is .65 in at 14, from the ODs).
        (
            "ips-pvc/sdr-heavy",
            PlainSquare,
            "mj-transition",
            "12",
            Fits,
        ),
        ("ips-pvc/sdr-heavy", PlainSquare, "mj-transition", "14", No),
        // A town's code lays IPS SDR 21 with MJ fittings: codelibrary.amlegal.com, sheridan 0-0-0-7914.
        ("ips-pvc/sdr-heavy", PlainSquare, "mj-transition", "6", Fits),
        ("ips-pvc/sdr-heavy", PlainSquare, "mj", "6", No),
        // Common practice: schedule pipe comes square and is bevelled for a gasket.
        ("ips-pvc/sch40", PlainSquare, "bell-ips", "6", FitsWith),
        ("ips-pvc/sdr-heavy", PlainBevelled, "bell-ips", "6", Fits),
        // Iron spigots in PVC bells: PVC pipe trade association, urldata.xyz/p/ppedz.
        ("ductile-iron/light", PlainBevelled, "bell-ciod", "8", No),
        // PVC spigots in iron bells: the same, and UFGS 02531, ufgscriteriadocreport.tpub.com/02531.
        ("c900/dr18", PlainBevelled, "push-ciod", "8", FitsWith),
        ("c900/dr18", PlainSquare, "push-ciod", "8", FitsWith),
        // Iron cut for an MJ needs little work: docs.southbendin.gov/WebLink/0/doc/399489/Page39.
        ("ductile-iron/light", PlainSquare, "mj", "8", Fits),
        // MJ is tabled to 48 in: piping-designer.com, datasheet 809.
        ("ductile-iron/light", PlainSquare, "mj", "48", Fits),
        ("ductile-iron/light", PlainSquare, "mj", "54", No),
        // ODs of 1908: 4 and 6 in class B are 5.00 and 7.10, 8 in class B is 9.05 (AWWA 1908, cord.distantreader.org).
        ("cast-iron/pit-over", PlainSquare, "mj", "6", No),
        ("cast-iron/pit-over", PlainSquare, "mj-oversize", "6", Fits),
        ("cast-iron/pit-on", PlainSquare, "mj", "8", Fits),
        ("cast-iron/pit-heavy", PlainSquare, "mj-oversize", "6", No),
        // Direct taps in DR 18 and 14, 6 to 12 in: engineerfix.com, how to tap into a PVC pipe.
        ("c900/dr18", PlainSquare, "tap-direct", "6", FitsWith),
        ("c900/dr18", PlainSquare, "tap-direct", "4", No),
        ("c900/dr25", PlainSquare, "tap-direct", "6", No),
        // Iron is tapped directly to 1 in: codelibrary.amlegal.com, boone 0-0-0-1109.
        (
            "ductile-iron/light",
            PlainSquare,
            "tap-direct",
            "6",
            FitsWith,
        ),
        // Common practice: straps on thick pipe only, C900 in no IPS end, AC nowhere without asking.
        ("ips-pvc/sdr-heavy", PlainSquare, "strap-ips", "6", Fits),
        ("ips-pvc/sdr-thin", PlainSquare, "strap-ips", "6", No),
        ("pip/thin", PlainSquare, "strap-pip", "12", No),
        ("c900/dr18", PlainBevelled, "bell-ips", "6", No),
        ("pip/heavy", PlainSquare, "mj", "15", Refer),
        ("asbestos-cement/all", PlainSquare, "sleeve", "6", Refer),
        ("copper/all", PlainSquare, "mj", "4", No),
        ("hdpe-dips/heavy", PlainSquare, "push-ciod", "8", Adapter),
    ] {
        let said = verdict(&joints, variant, form, end, size);
        assert_eq!(said, expected, "{variant} {} {end} {size}", form.key());
    }
}

#[test]
fn what_hurts_is_never_a_fit() {
    let (sources, joints) = real();
    for (_, cell) in joints.space.cells() {
        let row = joints.row(cell).expect("a row");
        let family = &sources.families[joints.variants[cell.variant].family];
        match family.key.as_str() {
            "asbestos-cement" => assert_eq!(row.kind, Some(Kind::Hazard)),
            "gas-pe" | "conduit" | "drain-pvc" | "sewer-pvc" => assert_eq!(
                (row.verdict, row.kind),
                (Verdict::Refer, Some(Kind::Contents))
            ),
            _ => {}
        }
    }
}

#[test]
fn the_contributor_guide_counts_the_cells() {
    use std::fmt::Write;
    let (_, joints) = real();
    let counts = joints.counts();
    let mut table = String::new();
    for (at, verdict) in Verdict::ALL.iter().enumerate() {
        let grade = Grade::ALL[at];
        let _ = writeln!(
            table,
            "| `{}` | {} | | `{}` | {} |",
            verdict.key(),
            counts.verdict(*verdict),
            grade.key(),
            counts.grade(grade)
        );
    }
    let guide = include_str!("../../../../../DEVELOPERS.md");
    assert!(
        guide.contains(&table),
        "put this into DEVELOPERS.md:\n{table}"
    );
    let told = format!(
        "There are {},{:03} cells in {} rows",
        counts.all() / 1000,
        counts.all() % 1000,
        joints.rows.len()
    );
    assert!(guide.contains(&told), "{told}");
}
