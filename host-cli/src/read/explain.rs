//! The terms behind an answer, each with its source and grade.

use std::fmt::Write;

use springline_compiler::notes::Notes;
use springline_core::image::{Component, Family, Grade, Row};
use springline_core::reading::Site;
use springline_tables::NOTES;

use super::finding::{Finding, fraction};
use crate::format;

/// The most candidates that are explained.
const MOST: usize = 8;

/// Writes the terms of the leading candidates.
pub(super) fn explain(finding: &Finding<'_>) -> String {
    let mut out =
        String::from("\nTerms (lengths at the reference temperature of 73.4 F unless said)\n");
    let image = finding.image;
    let notes = Notes::from_bytes(NOTES).ok();
    let _ = writeln!(
        out,
        "instrument: OD {} with a sigma of {}",
        finding.asked.show(finding.answer.od),
        finding.asked.show(finding.answer.sigma)
    );
    for candidate in finding.answer.candidates().iter().take(MOST) {
        let row = image.row(candidate.row);
        let family = image.family(row.family);
        let variant = image.label(row.variant);
        let _ = writeln!(
            out,
            "{} {}{}{}: weight {:.4}",
            image.packed_text(family.name),
            image.size(row.size),
            if variant.is_empty() { "" } else { ", " },
            variant,
            fraction(candidate.weight.q30())
        );
        terms(finding, &row, &family, &mut out);
        if let Some(notes) = &notes {
            data(finding, notes, &row, &mut out);
        }
    }
    let _ = writeln!(
        out,
        "in no table (bell, sleeve, wrap, misread, unlisted): weight {:.4}; not shown: {:.4}",
        finding.outside(),
        fraction(finding.answer.rest.q30())
    );
    out
}

fn grade(code: u8) -> &'static str {
    match Grade::from_code(code) {
        Some(Grade::Memory) => "from memory",
        Some(Grade::Practice) => "common practice",
        Some(grade) => grade.key(),
        None => "not known, so widened",
    }
}

#[allow(
    clippy::cast_possible_truncation,
    reason = "lengths of pipe, in counts"
)]
fn terms(finding: &Finding<'_>, row: &Row, family: &Family, out: &mut String) {
    let image = finding.image;
    let settings = image.settings();
    let unit = finding.asked.unit;
    let length = |counts: f64| format::length(counts.round() as i64, unit);
    let od = f64::from(row.od);
    let _ = writeln!(
        out,
        "  band        {} to {}, OD {} ({}); tolerance {}",
        length(f64::from(row.low)),
        length(f64::from(row.high)),
        length(od),
        grade(row.grades & 15),
        grade(row.grades >> 4),
    );
    let thermal = f64::from(family.thermal) * 1e-7;
    let told = finding
        .asked
        .query
        .temperature
        .unwrap_or(settings.unknown_mean);
    let degrees = f64::from(told - settings.reference_temperature) / 100.0;
    let _ = writeln!(
        out,
        "  temperature {thermal:.1e} per F: {} at {:.0} F{}",
        length(od * thermal * degrees),
        f64::from(told) / 100.0,
        if finding.asked.query.temperature.is_some() {
            ""
        } else {
            ", not told"
        },
    );
    let _ = writeln!(
        out,
        "  oval        sigma {} as made",
        length(od * f64::from(row.oval) / 1_048_576.0)
    );
    let law = image.law(if finding.asked.query.buried {
        family.law
    } else {
        0
    });
    let (mean, sd) = moments(&law.squash);
    if mean > 0.0 {
        let _ = writeln!(
            out,
            "  squash      mean {}, sigma {} across the springline (common practice)",
            length(od * mean),
            length(od * sd)
        );
    } else {
        out.push_str("  squash      none\n");
    }
    let site = match finding.asked.query.site {
        Site::Unknown => family.unknown,
        Site::Irrigation => family.irrigation,
        Site::Municipal => family.municipal,
    };
    let q32 = |share: u32| f64::from(share) / 4_294_967_296.0;
    let _ = writeln!(
        out,
        "  prior       {:.4} of pipes here, {:.4} of those this size ({})",
        q32(site),
        q32(row.share),
        grade(family.grade)
    );
}

/// Mean and standard deviation of a mixture, as shares of the OD.
fn moments(parts: &[Component]) -> (f64, f64) {
    let each = || {
        parts.iter().map(|part| {
            (
                f64::from(part.weight) / 32_768.0,
                f64::from(part.mean) / 262_144.0,
                f64::from(part.sd) / 262_144.0,
            )
        })
    };
    let mean: f64 = each().map(|(weight, mean, _)| weight * mean).sum();
    let square: f64 = each()
        .map(|(weight, mean, sd)| weight * (mean * mean + sd * sd))
        .sum();
    (mean, (square - mean * mean).max(0.0).sqrt())
}

/// Where each datum of a row comes from.
fn data(finding: &Finding<'_>, notes: &Notes, row: &Row, out: &mut String) {
    let keys = |sources: &[u16]| {
        let key = |at: &u16| {
            notes
                .sources
                .get(usize::from(*at))
                .map_or("?", |s| s.key.as_str())
        };
        sources.iter().map(key).collect::<Vec<_>>().join(", ")
    };
    let nominal = finding.image.size(row.size);
    for note in &notes.od {
        let here =
            note.family == row.family && note.nominal == nominal && note.od.0 == i64::from(row.od);
        if !here {
            continue;
        }
        let _ = write!(
            out,
            "  source      {} {}: OD {}, {}",
            note.standard,
            note.series,
            keys(&note.od.1.sources),
            grade(note.od.1.grade)
        );
        if let Some((plus, minus, cited)) = &note.tolerance {
            let unit = finding.asked.unit;
            let _ = write!(
                out,
                "; tolerance +{} -{}, {}, {}",
                format::length(*plus, unit),
                format::length(*minus, unit),
                keys(&cited.sources),
                grade(cited.grade)
            );
        }
        out.push('\n');
    }
}
