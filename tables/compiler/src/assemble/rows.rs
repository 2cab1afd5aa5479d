//! Sizes of a family: series with one OD become one row, with the widest band and the widest out-of-round.

use springline_core::image::{Grade, Row};

use super::settings::{INCH, fixed, q32};
use crate::model::{Family, NominalSize, OdRow, SizeWeights, Sources, Tolerance};

/// How common each nominal size is.
pub struct Weights<'a> {
    sources: &'a Sources,
    /// Nominal sizes in inches, and their weights.
    inches: Vec<(f64, f64)>,
}

impl<'a> Weights<'a> {
    /// Takes the weights from the sources.
    #[must_use]
    pub fn of(sources: &'a Sources) -> Self {
        let inches = sources
            .sizes
            .iter()
            .filter_map(|size| {
                Some((
                    NominalSize::parse(&size.nominal)?.inches(),
                    size.weight.value,
                ))
            })
            .collect();
        Self { sources, inches }
    }

    /// The weight of one nominal size of a family, not yet normalised.
    fn weight(&self, index: usize, family: &Family, nominal: &str, od: i64) -> f64 {
        let exception = self
            .sources
            .size_exceptions
            .iter()
            .find(|exception| exception.family == index && exception.size.nominal == nominal);
        if let Some(exception) = exception {
            return exception.size.weight.value;
        }
        let nearest = |inches: f64| {
            let near = |(size, _): &&(f64, f64)| ((size - inches).abs() * 1e6) as i64;
            self.inches
                .iter()
                .min_by_key(near)
                .map_or(0.0, |(_, weight)| weight / 2.0)
        };
        match family.size_weights {
            SizeWeights::Inch => self
                .sources
                .sizes
                .iter()
                .find(|size| size.nominal == nominal)
                .map_or(self.sources.settings.sizes.other_weight, |size| {
                    size.weight.value
                }),
            SizeWeights::Dn => {
                nearest(NominalSize::parse(nominal).map_or(0.0, NominalSize::inches))
            }
            SizeWeights::Od => nearest(od as f64 / INCH),
        }
    }
}

/// One row of the image before its indices are known. Lengths in counts.
#[derive(Clone, Debug)]
pub struct Merged {
    /// The nominal size.
    pub nominal: String,
    /// What tells it from other ODs of its nominal; empty where there are none.
    pub variant: String,
    /// The OD.
    pub od: i64,
    /// Low edge of the band.
    pub low: i64,
    /// High edge.
    pub high: i64,
    /// One sigma of each component of out-of-round, a share of the OD.
    pub oval: f64,
    /// Share among the rows of its family.
    pub share: f64,
    /// Where its OD comes from, an index into the sources.
    pub source: usize,
    /// Grade of the OD.
    pub od_grade: Grade,
    /// Grade of the tolerance, where there is one.
    pub tolerance_grade: Option<Grade>,
    /// The rows of the sources that it is made of, as indices.
    pub parts: Vec<usize>,
}

impl Merged {
    /// The image's record, its indices still to be filled in.
    pub(super) fn record(&self) -> Row {
        let tolerance = self.tolerance_grade.map_or(15, |grade| grade as u8);
        Row {
            low: self.low as i32,
            high: self.high as i32,
            od: self.od as i32,
            share: q32(self.share),
            oval: fixed(self.oval, 20) as u16,
            grades: self.od_grade as u8 | tolerance << 4,
            ..Row::default()
        }
    }
}

/// The rows of a family, one for each OD of each nominal, in the order of the sources.
#[must_use]
pub fn merged(
    index: usize,
    family: &Family,
    tolerance: &Tolerance,
    weights: &Weights<'_>,
) -> Vec<Merged> {
    let mut rows: Vec<Merged> = Vec::new();
    let mut shares: Vec<f64> = Vec::new();
    for (at_line, part) in family.od.iter().enumerate() {
        let od = part.od.value;
        let (low, high) = band(part, tolerance);
        let allowance = part
            .out_of_round
            .as_ref()
            .map(|datum| datum.value as f64 / 2.0 / od as f64);
        let at = rows
            .iter()
            .position(|row| row.nominal == part.nominal && row.od == od);
        let at = at.unwrap_or_else(|| {
            rows.push(Merged {
                nominal: part.nominal.clone(),
                variant: String::new(),
                od,
                low,
                high,
                oval: 0.0,
                share: 0.0,
                source: part.od.sources[0],
                od_grade: part.od.grade,
                tolerance_grade: None,
                parts: Vec::new(),
            });
            shares.push(0.0);
            rows.len() - 1
        });
        let row = &mut rows[at];
        row.low = row.low.min(low);
        row.high = row.high.max(high);
        row.oval = row.oval.max(allowance.unwrap_or(0.0));
        row.parts.push(at_line);
        let grade = part.tolerance.as_ref().map(|datum| datum.grade);
        row.tolerance_grade = row.tolerance_grade.max(grade);
        shares[at] += part.row_share.unwrap_or(0.0);
    }
    for row in &mut rows {
        if row.oval == 0.0 {
            row.oval = family.oval;
        }
    }
    share_out((index, family), &mut rows, &shares, weights);
    name_variants(family, &mut rows);
    rows
}

/// Low and high edge of one row of the sources: a figure from memory is widened, a blank more so.
fn band(part: &OdRow, rule: &Tolerance) -> (i64, i64) {
    let od = part.od.value;
    let (plus, minus) = if let Some(datum) = &part.tolerance {
        let widening = if datum.grade == Grade::Memory {
            rule.memory_widening
        } else {
            1.0
        };
        let widened = |side: i64| (side as f64 * widening).round() as i64;
        (widened(datum.value.plus), widened(datum.value.minus))
    } else {
        let blank = (od as f64 * rule.blank_share)
            .max(rule.blank * INCH)
            .round() as i64;
        (blank, blank)
    };
    (od - minus, od + plus)
}

/// Shares of the rows: of the size among the family's sizes, times of the row among the rows of its nominal.
fn share_out(
    (family_index, family): (usize, &Family),
    rows: &mut [Merged],
    shares: &[f64],
    weights: &Weights<'_>,
) {
    let nominals: Vec<String> = rows.iter().map(|row| row.nominal.clone()).collect();
    let nominals = &nominals;
    let of_nominal =
        |index: usize| (0..nominals.len()).filter(move |other| nominals[*other] == nominals[index]);
    let raw: Vec<f64> = (0..rows.len())
        .map(|index| {
            let first = of_nominal(index).next().unwrap_or(index);
            let size = weights.weight(family_index, family, &rows[first].nominal, rows[first].od);
            let told: f64 = of_nominal(index).map(|other| shares[other]).sum();
            let share = if told > 0.0 {
                shares[index] / told
            } else {
                1.0 / of_nominal(index).count() as f64
            };
            size * share
        })
        .collect();
    let total: f64 = raw.iter().sum();
    for (row, raw) in rows.iter_mut().zip(raw) {
        row.share = raw / total;
    }
}

/// Names the ODs of a nominal that has several: `centrifugal, pit-cast A, B`.
fn name_variants(family: &Family, rows: &mut [Merged]) {
    for index in 0..rows.len() {
        let alone = rows
            .iter()
            .filter(|row| row.nominal == rows[index].nominal)
            .count()
            == 1;
        if alone {
            continue;
        }
        let mut names: Vec<&str> = Vec::new();
        for part in &rows[index].parts {
            let name = family.od[*part].variant.as_str();
            if !name.is_empty() && !names.contains(&name) {
                names.push(name);
            }
        }
        let mut text = String::new();
        let mut kind = "";
        for name in names {
            // The second of a kind needs only its letter.
            let (this, last) = name.rsplit_once(' ').unwrap_or((name, ""));
            let short = if this == kind && !last.is_empty() {
                last
            } else {
                name
            };
            if !text.is_empty() {
                text.push_str(", ");
            }
            text.push_str(short);
            kind = this;
        }
        rows[index].variant = text;
    }
}
