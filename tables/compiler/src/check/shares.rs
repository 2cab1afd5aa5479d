//! Checks of shares and weights: `families.toml`, `sizes.csv`, `size-exceptions.csv`, `class-shares.csv`.

use super::{Raw, duplicates};
use crate::model::{Family, Sources};
use crate::report::Report;

/// How far a sum of decimals may miss by floating-point rounding.
const ROUNDING: f64 = 1e-6;

/// The families of a site are all that is met there.
pub(super) fn sites(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    let Some(first) = raw.families.first().filter(|_| raw.families_known) else {
        return;
    };
    let percents = |share: fn(&Family) -> f64| sources.families.iter().map(share).sum::<f64>();
    let irrigation = percents(|family| family.irrigation);
    let municipal = percents(|family| family.municipal);
    for (site, sum, place) in [
        ("irrigation", irrigation, first.places.irrigation),
        ("municipal", municipal, first.places.municipal),
    ] {
        if (sum - 100.0).abs() > ROUNDING {
            report.add(
                place,
                format!("the {site} percentages of all families sum to {sum:.3}"),
                "they must sum to 100",
            );
        }
    }
}

/// A size has one weight, and a weight of a family is of a size that it has.
pub(super) fn sizes(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    if let Some(table) = &raw.sizes {
        duplicates(report, table, ["nominal"], "nominal");
    }
    let Some(table) = &raw.size_exceptions else {
        return;
    };
    duplicates(report, table, ["family", "nominal"], "nominal");
    for exception in &sources.size_exceptions {
        let nominal = exception.size.nominal.as_str();
        let od = raw
            .families
            .get(exception.family)
            .and_then(|f| f.od.as_ref());
        if let (Some(od), Some(row)) = (od, table.on(exception.size.line))
            && !od.rows.iter().any(|row| row["nominal"].text == nominal)
        {
            report.add(
                row["nominal"].place,
                format!("{} has no nominal {nominal}", od.file),
                "correct the size or remove the row",
            );
        }
    }
}

/// The shares of a family's classes do not exceed 1, and are of classes that it has.
pub(super) fn classes(report: &mut Report<'_>, sources: &Sources, raw: &Raw<'_>) {
    let Some(table) = &raw.class_shares else {
        return;
    };
    duplicates(report, table, ["family", "class"], "class");
    let mut sums = vec![0.0; sources.families.len()];
    for share in &sources.class_shares {
        let (Some(sum), Some(row)) = (sums.get_mut(share.family), table.on(share.line)) else {
            continue;
        };
        let before = *sum;
        *sum += share.share.value;
        // Only the row that goes over, not every one after it.
        if *sum > 1.0 + ROUNDING && before <= 1.0 + ROUNDING {
            report.add(
                row["share"].place,
                format!("the class shares of the family come to {sum:.3} here"),
                "they may not exceed 1",
            );
        }
        let classes = raw
            .families
            .get(share.family)
            .and_then(|f| f.classes.as_ref());
        if let Some(classes) = classes
            && !classes
                .rows
                .iter()
                .any(|row| row["class"].text == share.class)
        {
            report.add(
                row["class"].place,
                format!("{} has no class \"{}\"", classes.file, share.class),
                "correct the class or remove the row",
            );
        }
    }
}
