//! The terms behind an answer, worked out once for people and for programs.

use springline_compiler::notes::{Cited, Notes};
use springline_core::image::{Component, Family, Grade, Row};
use springline_core::reading::Site;
use springline_tables::NOTES;

use super::finding::{Finding, fraction, q32};

/// The most candidates that are explained.
const MOST: usize = 8;

/// What the engine believes of one candidate. Lengths in counts, at the reference temperature unless said.
pub(super) struct Terms {
    pub(super) family: String,
    pub(super) name: String,
    pub(super) nominal: String,
    pub(super) variant: String,
    pub(super) weight: f64,
    pub(super) od: f64,
    /// Edges of the band of the average OD, after every widening.
    pub(super) band: (f64, f64),
    pub(super) od_grade: Option<Grade>,
    pub(super) tolerance_grade: Option<Grade>,
    /// Growth of the diameter per degree F.
    pub(super) thermal: f64,
    /// What heat or cold adds, and at how many degrees F.
    pub(super) shift: f64,
    pub(super) degrees: f64,
    pub(super) told: bool,
    /// One sigma of each component of out-of-round as made.
    pub(super) oval: f64,
    /// Mean and sigma of the squash across the springline, where the pipe gives.
    pub(super) squash: Option<(f64, f64)>,
    /// Share of the family among pipe on such a site, and of this OD within the family.
    pub(super) prior: (f64, f64),
    pub(super) prior_grade: Option<Grade>,
    /// Each clue as told, how often pipes of the family give it, and the grade of that.
    pub(super) clues: Vec<(String, f64, Option<Grade>)>,
    pub(super) data: Vec<Datum>,
}

/// One series of the sources that stands behind a candidate.
pub(super) struct Datum {
    pub(super) standard: String,
    pub(super) series: String,
    pub(super) od: i64,
    pub(super) od_from: Origin,
    /// Above and below the OD.
    pub(super) tolerance: Option<(i64, i64, Origin)>,
    pub(super) out_of_round: Option<(i64, Origin)>,
}

/// Where a datum comes from.
pub(super) struct Origin {
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

/// The terms of the leading candidates.
pub(super) fn terms(finding: &Finding<'_>) -> Vec<Terms> {
    let image = finding.image;
    // Without notes the terms still stand, with the grades that the image itself carries.
    let notes = Notes::from_bytes(NOTES).ok();
    let asked = &finding.asked.query;
    let settings = image.settings();
    let candidates = finding.answer.candidates().iter().take(MOST);
    candidates
        .map(|candidate| {
            let row = image.row(candidate.row);
            let family = image.family(row.family);
            let od = f64::from(row.od);
            let told = asked.temperature.unwrap_or(settings.unknown_mean);
            let thermal = f64::from(family.thermal) * 1e-7;
            let warmer = f64::from(told - settings.reference_temperature) / 100.0;
            let law = image.law(if asked.buried { family.law } else { 0 });
            let (mean, sd) = moments(&law.squash);
            Terms {
                family: image.packed_text(family.key).to_owned(),
                name: image.packed_text(family.name).to_owned(),
                nominal: image.size(row.size).to_owned(),
                variant: image.label(row.variant).to_owned(),
                weight: fraction(candidate.weight.q30()),
                od,
                band: (f64::from(row.low), f64::from(row.high)),
                od_grade: Grade::from_code(row.grades & 15),
                tolerance_grade: Grade::from_code(row.grades >> 4),
                thermal,
                shift: od * thermal * warmer,
                degrees: f64::from(told) / 100.0,
                told: asked.temperature.is_some(),
                oval: od * f64::from(row.oval) / 1_048_576.0,
                squash: (mean > 0.0).then_some((od * mean, od * sd)),
                prior: (q32(site_share(&family, asked.site)), q32(row.share)),
                prior_grade: Grade::from_code(family.grade),
                clues: clues(finding, row.family),
                data: notes
                    .as_ref()
                    .map_or(Vec::new(), |notes| data(finding, notes, &row)),
            }
        })
        .collect()
}

fn clues(finding: &Finding<'_>, family: u8) -> Vec<(String, f64, Option<Grade>)> {
    let image = finding.image;
    let told = finding.asked.query.clues.told();
    told.map(|told| {
        let (mantissa, power) = image.likelihood(told.answer, family).parts();
        (
            image
                .packed_text(image.clue_answer(told.answer).words)
                .to_owned(),
            f64::from(mantissa) * f64::from(power).exp2(),
            Grade::from_code(image.clue(told.clue).grade),
        )
    })
    .collect()
}

fn site_share(family: &Family, site: Site) -> u32 {
    match site {
        Site::Unknown => family.unknown,
        Site::Irrigation => family.irrigation,
        Site::Municipal => family.municipal,
    }
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

/// The series of the sources that a row stands for.
fn data(finding: &Finding<'_>, notes: &Notes, row: &Row) -> Vec<Datum> {
    let nominal = finding.image.size(row.size);
    let origin = |cited: &Cited| Origin {
        sources: keys(notes, &cited.sources),
        grade: Grade::from_code(cited.grade),
    };
    notes
        .od
        .iter()
        .filter(|note| {
            note.family == row.family && note.nominal == nominal && note.od.0 == i64::from(row.od)
        })
        .map(|note| Datum {
            standard: note.standard.clone(),
            series: note.series.clone(),
            od: note.od.0,
            od_from: origin(&note.od.1),
            tolerance: note
                .tolerance
                .as_ref()
                .map(|(plus, minus, cited)| (*plus, *minus, origin(cited))),
            out_of_round: note
                .out_of_round
                .as_ref()
                .map(|(allowance, cited)| (*allowance, origin(cited))),
        })
        .collect()
}

fn keys(notes: &Notes, sources: &[u16]) -> Vec<String> {
    let key = |at: &u16| {
        notes
            .sources
            .get(usize::from(*at))
            .map_or("?", |source| source.key.as_str())
            .to_owned()
    };
    sources.iter().map(key).collect()
}
